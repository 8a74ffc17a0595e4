/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows one entry, and then another: the list takes its rows again. A choice made with the pointer
 * goes to the entry, whose signal brings it back to the row. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-merge-row.h"

#include "desk/widgets/wb-row-name.h"

#include <glib/gi18n.h>

#include <string.h>

struct _WbMergeRow
{
  GtkWidget       parent_instance;

  GtkWidget      *box;
  GtkImage       *fold;
  GtkLabel       *title;
  GtkLabel       *what;
  GtkLabel       *side;
  GtkLabel       *before;
  GtkLabel       *taken;
  GtkWidget      *choices;
  GtkCheckButton *here;
  GtkCheckButton *there;
  GtkLabel       *here_text;
  GtkLabel       *there_text;
  GtkLabel       *note;

  WbMergeEntry   *entry;      /* (nullable) */
  gboolean        showing;    /* the buttons are set to what is chosen, nobody pressed them */
};

G_DEFINE_FINAL_TYPE (WbMergeRow, wb_merge_row, GTK_TYPE_WIDGET)

/* --- texts ------------------------------------------------------------------------------------ */

static void
show_text (GtkLabel   *label,
           const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

/* @format: with one %s for the value; values of several lines begin below it. */
static char *
side_text (WbMergeRow    *self,
           WbMergeChoice  whose,
           const char    *format)
{
  g_autofree char *value = wb_merge_entry_get_text (self->entry, whose);
  GString *text;

  if (value == NULL)
    return NULL;
  text = g_string_new (format);
  if (strchr (value, '\n') != NULL)
    g_string_replace (text, " %s", "\n%s", 1);
  g_string_replace (text, "%s", value, 1);
  return g_string_free (text, FALSE);
}

static void
show_state (WbMergeRow *self)
{
  WbMergeChoice choice = wb_merge_entry_get_choice (self->entry);
  gboolean open = choice == WB_MERGE_UNDECIDED;

  self->showing = TRUE;
  gtk_check_button_set_active (self->here, choice == WB_MERGE_MINE);
  gtk_check_button_set_active (self->there, choice == WB_MERGE_THEIRS);
  self->showing = FALSE;
  show_text (self->side, wb_merge_entry_get_side (self->entry));
  if (open)
    gtk_widget_add_css_class (GTK_WIDGET (self->side), "warning");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->side), "warning");
}

static void
show_choice (WbMergeRow *self)
{
  /* Translators: %s is the value that a field had before it was changed on both sides. */
  g_autofree char *before = side_text (self, WB_MERGE_UNDECIDED, _("Before: %s"));
  /* Translators: %s is a value as this office has it. */
  g_autofree char *here = side_text (self, WB_MERGE_MINE, _("Here: %s"));
  /* Translators: %s is a value as it was published by somebody else. */
  g_autofree char *there = side_text (self, WB_MERGE_THEIRS, _("There: %s"));
  g_autofree char *note = wb_merge_entry_get_note (self->entry);

  show_text (self->before, before);
  gtk_label_set_label (self->here_text, here);
  gtk_label_set_label (self->there_text, there);
  show_text (self->note, note);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->here), GTK_ACCESSIBLE_PROPERTY_LABEL, here,
                                  -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->there), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  there, -1);
  show_state (self);
}

static void
show_taken (WbMergeRow *self)
{
  g_autofree char *taken = wb_merge_entry_get_taken (self->entry);

  show_text (self->taken, taken);
  show_text (self->side, wb_merge_entry_get_side (self->entry));
  gtk_widget_remove_css_class (GTK_WIDGET (self->side), "warning");
}

static char *
name_in_words (WbMergeRow *self)
{
  GString *name = g_string_new (gtk_label_get_label (self->title));
  GtkLabel *const parts[] = { self->what, self->side, self->before, self->taken, self->here_text,
                              self->there_text, self->note };
  WbMergeEntryKind kind = wb_merge_entry_get_kind (self->entry);

  if (kind == WB_MERGE_ENTRY_FOLD)
    {
      g_string_append_printf (name, ", %s", wb_merge_entry_is_unfolded (self->entry)
                                            ? _("listed below") : _("not listed"));
      return g_string_free (name, FALSE);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      const char *text = gtk_label_get_label (parts[i]);

      if (kind == WB_MERGE_ENTRY_TAKEN && i > 3)
        break;
      if (*text != '\0')
        g_string_append_printf (name, ", %s", text);
    }
  return g_string_free (name, FALSE);
}

static void
show_entry (WbMergeRow *self)
{
  WbMergeEntryKind kind = wb_merge_entry_get_kind (self->entry);
  g_autofree char *title = wb_merge_entry_get_title (self->entry);
  g_autofree char *what = wb_merge_entry_get_what (self->entry);
  g_autofree char *name = NULL;

  gtk_label_set_label (self->title, title);
  show_text (self->what, what);
  gtk_widget_set_visible (GTK_WIDGET (self->fold), kind == WB_MERGE_ENTRY_FOLD);
  gtk_widget_set_visible (self->choices, kind == WB_MERGE_ENTRY_CHOICE);
  show_text (self->before, NULL);
  show_text (self->taken, NULL);
  show_text (self->note, NULL);
  show_text (self->side, NULL);
  switch (kind)
    {
    case WB_MERGE_ENTRY_CHOICE:
      show_choice (self);
      break;
    case WB_MERGE_ENTRY_FOLD:
      gtk_image_set_from_icon_name (self->fold, wb_merge_entry_is_unfolded (self->entry)
                                                ? "pan-down-symbolic" : "pan-end-symbolic");
      break;
    case WB_MERGE_ENTRY_TAKEN:
      show_taken (self);
      break;
    }
  name = name_in_words (self);
  wb_row_name_set (GTK_WIDGET (self), name);
}

/* --- callbacks -------------------------------------------------------------------------------- */

static void
chosen_cb (WbMergeRow     *self,
           GParamSpec     *pspec,
           GtkCheckButton *button)
{
  if (self->showing || self->entry == NULL || !gtk_check_button_get_active (button))
    return;
  wb_merge_entry_choose (self->entry, button == self->here ? WB_MERGE_MINE : WB_MERGE_THEIRS);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_merge_row_dispose (GObject *object)
{
  WbMergeRow *self = WB_MERGE_ROW (object);

  wb_merge_row_show (self, NULL);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_MERGE_ROW);

  G_OBJECT_CLASS (wb_merge_row_parent_class)->dispose (object);
}

static void
wb_merge_row_class_init (WbMergeRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_merge_row_dispose;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/share/wb-merge-row.ui");
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, box);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, fold);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, title);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, what);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, side);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, before);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, taken);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, choices);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, here);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, there);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, here_text);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, there_text);
  gtk_widget_class_bind_template_child (widget_class, WbMergeRow, note);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
}

static void
wb_merge_row_init (WbMergeRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_merge_row_new (void)
{
  return g_object_new (WB_TYPE_MERGE_ROW, NULL);
}

void
wb_merge_row_show (WbMergeRow   *self,
                   WbMergeEntry *entry)
{
  g_return_if_fail (WB_IS_MERGE_ROW (self));

  if (self->entry != NULL)
    g_signal_handlers_disconnect_by_func (self->entry, show_entry, self);
  g_set_object (&self->entry, entry);
  if (entry == NULL)
    return;
  g_signal_connect_object (entry, "changed", G_CALLBACK (show_entry), self, G_CONNECT_SWAPPED);
  show_entry (self);
}

WbMergeEntry *
wb_merge_row_get_entry (WbMergeRow *self)
{
  g_return_val_if_fail (WB_IS_MERGE_ROW (self), NULL);

  return self->entry;
}
