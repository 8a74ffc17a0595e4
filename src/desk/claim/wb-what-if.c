/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Works on a copy of the job that no book ever sees, with the same fields as the pages have, and
 * holds its reckoning against that of the job. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-what-if.h"

#include "desk/claim/wb-claim-columns.h"
#include "desk/claim/wb-record-table.h"
#include "desk/widgets/wb-field-row.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbWhatIf
{
  AdwWindow      parent_instance;

  AdwWindowTitle *title;
  GtkBox         *choice_rows;
  WbRecordTable  *lines;
  GtkGrid        *grid;
  GtkLabel       *fault;

  WbJobModel     *scratch;
  WbJob          *job;        /* as it is */
  char           *claim_id;
};

G_DEFINE_FINAL_TYPE (WbWhatIf, wb_what_if, ADW_TYPE_WINDOW)

/* --- the comparison --------------------------------------------------------------------------- */

enum { COLUMN_WORDS, COLUMN_NOW, COLUMN_IF, COLUMN_DIFFERENCE };

enum { ROW_HEAD, ROW_RELEASED, ROW_FULL, ROW_APPLIES, N_ROWS };

static void
put (WbWhatIf   *self,
     int         column,
     int         row,
     const char *text,
     const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), column == COLUMN_WORDS ? 0 : 1);
  gtk_label_set_wrap (GTK_LABEL (label), column == COLUMN_WORDS);
  gtk_widget_set_hexpand (label, column == COLUMN_WORDS);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  gtk_grid_attach (self->grid, label, column, row, 1, 1);
}

static const char *
words_of (WbSide side)
{
  return side == WB_SIDE_RELEASED ? _("Released value") : _("Full value protection");
}

static char *
owed_in_words (const WbReckoning *reckoning,
               WbSide             side)
{
  const WbSideReckoning *figures = &reckoning->side[side];
  g_autofree char *amount = NULL;

  if (!figures->offered)
    return g_strdup (_("not offered"));
  amount = wb_words_minor (figures->owed, wb_job_get_currency (reckoning->job));
  /* Translators: an amount to which lines may still add that lack a figure. */
  return figures->complete ? g_steal_pointer (&amount) : g_strdup_printf (_("at least %s"), amount);
}

/* With its sign: more or less than it is. */
static char *
difference_in_words (const WbReckoning *now,
                     WbSide             side_now,
                     const WbReckoning *then,
                     WbSide             side_then)
{
  gint64 difference = then->side[side_then].owed - now->side[side_now].owed;
  g_autofree char *amount = wb_words_minor (difference, wb_job_get_currency (now->job));

  return difference > 0 ? g_strconcat ("+", amount, NULL) : g_steal_pointer (&amount);
}

static void
put_side (WbWhatIf          *self,
          int                row,
          const WbReckoning *now,
          const WbReckoning *then,
          WbSide             side)
{
  g_autofree char *owed_now = owed_in_words (now, side);
  g_autofree char *owed_then = owed_in_words (then, side);
  g_autofree char *difference = difference_in_words (now, side, then, side);

  put (self, COLUMN_WORDS, row, words_of (side), NULL);
  put (self, COLUMN_NOW, row, owed_now, "numeric");
  put (self, COLUMN_IF, row, owed_then, "numeric");
  put (self, COLUMN_DIFFERENCE, row, difference, "numeric");
}

static void
put_what_applies (WbWhatIf          *self,
                  const WbReckoning *now,
                  const WbReckoning *then)
{
  g_autofree char *owed_now = owed_in_words (now, now->applies);
  g_autofree char *owed_then = owed_in_words (then, then->applies);
  g_autofree char *difference = difference_in_words (now, now->applies, then, then->applies);
  g_autofree char *which = NULL;

  which = now->applies == then->applies
          /* Translators: %s is a choice of liability. */
          ? g_strdup_printf (_("Applies: %s"), words_of (now->applies))
          /* Translators: two choices of liability: the one that applies, the one that would. */
          : g_strdup_printf (_("Applies: %s, then %s"), words_of (now->applies),
                             words_of (then->applies));
  put (self, COLUMN_WORDS, ROW_APPLIES, which, "heading");
  put (self, COLUMN_NOW, ROW_APPLIES, owed_now, "heading");
  put (self, COLUMN_IF, ROW_APPLIES, owed_then, "heading");
  put (self, COLUMN_DIFFERENCE, ROW_APPLIES, difference, "heading");
}

static void
clear_grid (WbWhatIf *self)
{
  for (int i = 0; i < N_ROWS; i++)
    gtk_grid_remove_row (self->grid, 0);
}

static void
show_comparison (WbWhatIf *self)
{
  WbOffice *office = wb_job_model_get_office (self->scratch);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) now = wb_office_reckon (office, self->job, self->claim_id, &error);
  g_autoptr (WbReckoning) then = NULL;
  g_autofree char *words = NULL;

  if (now != NULL)
    then = wb_office_reckon (office, wb_job_model_get_job (self->scratch), self->claim_id, &error);
  words = error != NULL ? wb_words_error (error) : NULL;
  gtk_label_set_label (self->fault, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->fault), words != NULL);
  clear_grid (self);
  if (then == NULL)
    return;
  put (self, COLUMN_WORDS, ROW_HEAD, _("Owed"), "dim-label");
  put (self, COLUMN_NOW, ROW_HEAD, _("As it is"), "dim-label");
  put (self, COLUMN_IF, ROW_HEAD, _("What if"), "dim-label");
  put (self, COLUMN_DIFFERENCE, ROW_HEAD, _("Difference"), "dim-label");
  put_side (self, ROW_RELEASED, now, then, WB_SIDE_RELEASED);
  put_side (self, ROW_FULL, now, then, WB_SIDE_FULL);
  put_what_applies (self, now, then);
}

/* --- what can be changed ---------------------------------------------------------------------- */

static const WbTableColumn columns[] = {
  { "number", N_("No."), 3 },
  { "item", N_("What is claimed"), 20 },
  { "loss", N_("Loss"), 10 },
  { "demanded", N_("Demanded"), 9 },
  { "replacement", N_("Replacement"), 9 },
  { "repair", N_("Repair"), 9 },
  { "salvage", N_("Salvage"), 9 },
  { "weight", N_("Weight"), 8 },
  { "age_years", N_("Years"), 4 },
  { "depreciation_yearly", N_("A year"), 6 },
  { "depreciation_flat", N_("Flat"), 6 },
  { "ruling", N_("Ruling"), 10 },
};

static void
fill (WbWhatIf *self)
{
  static const char *const fields[] = { "choice", "declared_value", "deductible" };
  const WbClaim *claim = wb_job_find (self->job, WB_KIND_CLAIM, self->claim_id);

  adw_window_title_set_subtitle (self->title, claim != NULL ? claim->number : "");
  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++)
    {
      GtkWidget *list = gtk_list_box_new ();

      gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
      gtk_widget_add_css_class (list, "boxed-list");
      gtk_widget_set_valign (list, GTK_ALIGN_START);
      gtk_widget_set_hexpand (list, TRUE);
      gtk_list_box_append (GTK_LIST_BOX (list),
                           wb_field_widget_new (self->scratch, WB_KIND_VALUATION, NULL,
                                                fields[i]));
      gtk_box_append (self->choice_rows, list);
    }
  wb_record_table_set_up (self->lines, self->scratch, WB_KIND_CLAIM_LINE, _("Claimed lines"),
                          columns, G_N_ELEMENTS (columns));
  wb_record_table_set_owner (self->lines, self->claim_id);
  g_signal_connect_object (self->scratch, "notify::job", G_CALLBACK (show_comparison), self,
                           G_CONNECT_SWAPPED);
  show_comparison (self);
}

static void
as_stored_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  WbWhatIf *self = WB_WHAT_IF (widget);

  /* What is typed and not set yet goes too. */
  gtk_window_set_focus (GTK_WINDOW (self), NULL);
  wb_job_model_apply (self->scratch, self->job, _("As it is"));
  gtk_widget_child_focus (GTK_WIDGET (self->choice_rows), GTK_DIR_TAB_FORWARD);
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_what_if_dispose (GObject *object)
{
  WbWhatIf *self = WB_WHAT_IF (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_WHAT_IF);
  g_clear_object (&self->scratch);
  g_clear_pointer (&self->job, wb_job_unref);
  g_clear_pointer (&self->claim_id, g_free);

  G_OBJECT_CLASS (wb_what_if_parent_class)->dispose (object);
}

static void
wb_what_if_class_init (WbWhatIfClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_what_if_dispose;

  g_type_ensure (WB_TYPE_RECORD_TABLE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-what-if.ui");
  gtk_widget_class_bind_template_child (widget_class, WbWhatIf, title);
  gtk_widget_class_bind_template_child (widget_class, WbWhatIf, choice_rows);
  gtk_widget_class_bind_template_child (widget_class, WbWhatIf, lines);
  gtk_widget_class_bind_template_child (widget_class, WbWhatIf, grid);
  gtk_widget_class_bind_template_child (widget_class, WbWhatIf, fault);

  gtk_widget_class_install_action (widget_class, "what-if.as-stored", NULL, as_stored_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_r, GDK_CONTROL_MASK,
                                       "what-if.as-stored", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
wb_what_if_init (WbWhatIf *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_what_if_new (GtkWindow  *parent,
                WbJobModel *model,
                const char *claim_id)
{
  WbWhatIf *self;

  g_return_val_if_fail (GTK_IS_WINDOW (parent), NULL);
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);
  g_return_val_if_fail (claim_id != NULL, NULL);

  self = g_object_new (WB_TYPE_WHAT_IF,
                       "transient-for", parent,
                       "destroy-with-parent", TRUE,
                       "modal", TRUE,
                       NULL);
  self->job = wb_job_ref (wb_job_model_get_job (model));
  self->claim_id = g_strdup (claim_id);
  self->scratch = wb_job_model_new_scratch (wb_job_model_get_office (model), self->job);
  fill (self);
  return GTK_WIDGET (self);
}
