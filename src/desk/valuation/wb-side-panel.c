/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows one side of a valuation preview. The sentences are made in wb-side-statements.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/valuation/wb-side-panel.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "office/wb-side-statements.h"
#include "office/wb-words.h"

struct _WbSidePanel
{
  GtkWidget   parent_instance;

  GtkLabel   *title;
  GtkLabel   *standing;
  GtkBox     *statements;
  GtkWidget  *charges_part;
  GtkListBox *charges;
  GtkLabel   *charges_source;
};

G_DEFINE_FINAL_TYPE (WbSidePanel, wb_side_panel, GTK_TYPE_WIDGET)

static GtkWidget *
new_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  return label;
}

static void
add_statement (WbSidePanel       *self,
               const WbStatement *statement)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *text = new_label (statement->text);

  if (statement->is_gap)
    gtk_widget_add_css_class (text, "warning");
  gtk_box_append (GTK_BOX (box), text);

  if (statement->source != NULL)
    {
      GtkWidget *source = new_label (statement->source);

      gtk_widget_add_css_class (source, "caption");
      gtk_widget_add_css_class (source, "dim-label");
      gtk_box_append (GTK_BOX (box), source);
    }

  gtk_box_append (self->statements, box);
}

static void
show_statements (WbSidePanel              *self,
                 const WbValuationPreview *preview,
                 WbSide                    side)
{
  g_autoptr (GPtrArray) list = wb_side_statements (preview, side);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->statements))) != NULL)
    gtk_box_remove (self->statements, child);
  for (guint i = 0; i < list->len; i++)
    add_statement (self, g_ptr_array_index (list, i));
}

static char *
name_deductible (const WbChargePreview *charge,
                 const char            *amount)
{
  if (charge->deductible.minor == 0)
    return g_strdup (_("No deductible"));

  /* Translators: an amount. */
  return g_strdup_printf (_("Deductible of %s"), amount);
}

static GtkWidget *
new_charge_row (const WbChargePreview *charge,
                WbSide                 side,
                guint                  place)
{
  g_autofree char *deductible = wb_words_money (charge->deductible);
  g_autofree char *per_hundred = wb_words_money (charge->per_hundred);
  g_autofree char *amount = wb_words_money (charge->charge);
  g_autofree char *title = name_deductible (charge, deductible);
  /* Translators: the charge, and the charge for each hundred of declared value. */
  g_autofree char *subtitle = g_strdup_printf (_("%s, at %s for each 100 of value"), amount,
                                               per_hundred);
  g_autofree char *name = g_strdup_printf (_("%s: %s"), title, subtitle);
  GtkWidget *row = adw_action_row_new ();
  GtkWidget *button;

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);

  if (charge->chosen)
    {
      adw_action_row_add_suffix (ADW_ACTION_ROW (row), gtk_label_new (_("Chosen")));
      return row;
    }

  button = gtk_button_new_with_label (_("Choose"));
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "valuation.use-charge");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "(uu)", (guint) side, place);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _("Choose"),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, name, -1);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), button);
  return row;
}

static void
show_charges (WbSidePanel              *self,
              const WbValuationPreview *preview,
              WbSide                    side)
{
  const WbSidePreview *figures = &preview->side[side];
  WbScope scope = side == WB_SIDE_FULL ? WB_SCOPE_FULL : WB_SCOPE_RELEASED;
  const char *source = wb_terms_citation (preview->terms, scope, WB_KEY_CHARGE);
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (GTK_WIDGET (self->charges))) != NULL)
    gtk_list_box_remove (self->charges, row);
  for (guint i = 0; i < figures->n_charges; i++)
    gtk_list_box_append (self->charges, new_charge_row (&figures->charges[i], side, i));

  gtk_label_set_label (self->charges_source, source != NULL ? source : "");
  gtk_widget_set_visible (GTK_WIDGET (self->charges_source), source != NULL);
  gtk_widget_set_visible (self->charges_part, figures->n_charges > 0);
}

static const char *
describe_standing (const WbValuationPreview *preview,
                   WbSide                    side)
{
  if (!preview->side[side].offered)
    return _("Not offered by these terms");

  return preview->applies == side ? _("Applies to this shipment") : _("Does not apply");
}

static void
wb_side_panel_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_SIDE_PANEL);

  G_OBJECT_CLASS (wb_side_panel_parent_class)->dispose (object);
}

static void
wb_side_panel_class_init (WbSidePanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_side_panel_dispose;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/valuation/wb-side-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, WbSidePanel, title);
  gtk_widget_class_bind_template_child (widget_class, WbSidePanel, standing);
  gtk_widget_class_bind_template_child (widget_class, WbSidePanel, statements);
  gtk_widget_class_bind_template_child (widget_class, WbSidePanel, charges_part);
  gtk_widget_class_bind_template_child (widget_class, WbSidePanel, charges);
  gtk_widget_class_bind_template_child (widget_class, WbSidePanel, charges_source);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
wb_side_panel_init (WbSidePanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
wb_side_panel_show (WbSidePanel              *self,
                    const WbValuationPreview *preview,
                    WbSide                    side)
{
  const char *title = wb_words_enum (&wb_sides, side);
  const char *standing = describe_standing (preview, side);

  g_return_if_fail (WB_IS_SIDE_PANEL (self));

  gtk_label_set_label (self->title, title);
  gtk_label_set_label (self->standing, standing);
  if (preview->applies == side)
    gtk_widget_add_css_class (GTK_WIDGET (self->standing), "heading");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->standing), "heading");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, standing, -1);

  show_statements (self, preview, side);
  show_charges (self, preview, side);
}
