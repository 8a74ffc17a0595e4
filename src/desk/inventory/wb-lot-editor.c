/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lots of a job. Those that are there are changed field by field through the model; a new one
 * is checked whole before it is added. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-lot-editor.h"

#include "core/wb-core.h"
#include "desk/inventory/wb-lot-choice.h"
#include "desk/widgets/wb-field-row.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

struct _WbLotEditor
{
  AdwWindow             parent_instance;

  WbJobModel           *model;
  AdwToastOverlay      *toasts;
  AdwPreferencesGroup  *lots;
  GtkEditable          *colour;
  GtkEditable          *number;
  GtkEditable          *first;
  GtkEditable          *last;
  GtkLabel             *fault;
  GPtrArray            *rows;      /* AdwExpanderRow, borrowed from the group, in the job's order */
};

G_DEFINE_FINAL_TYPE (WbLotEditor, wb_lot_editor, ADW_TYPE_WINDOW)

static guint
count_pieces (const WbJob *job,
              const char  *lot)
{
  guint n = wb_job_count (job, WB_KIND_PIECE);
  guint count = 0;

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (g_strcmp0 (piece->lot, lot) == 0)
        count++;
    }
  return count;
}

/* --- the lots that are there ------------------------------------------------------------------ */

/* What an edit made of the range is said, since each field by itself may be right. */
static char *
describe_use (const WbJob *job,
              const WbLot *lot)
{
  guint n = count_pieces (job, lot->record.id);
  g_autofree char *use = NULL;

  use = g_strdup_printf (ngettext ("%u piece has its tags", "%u pieces have its tags", n), n);
  if (lot->first != WB_INTEGER_UNSET && lot->last != WB_INTEGER_UNSET && lot->first > lot->last)
    /* Translators: %s is a sentence about how many pieces have tags of a lot. */
    return g_strdup_printf (_("%s. The last tag is before the first."), use);
  return g_steal_pointer (&use);
}

static void
update_titles (WbLotEditor *self)
{
  const WbJob *job = wb_job_model_get_job (self->model);

  for (guint i = 0; i < self->rows->len && i < wb_job_count (job, WB_KIND_LOT); i++)
    {
      const WbLot *lot = wb_job_nth (job, WB_KIND_LOT, i);
      g_autofree char *title = wb_lot_choice_describe (lot, TRUE);
      g_autofree char *use = describe_use (job, lot);
      GtkWidget *row = g_ptr_array_index (self->rows, i);

      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
      adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (row), use);
    }
}

static gboolean
is_counted (const WbJob *job,
            const char  *lot)
{
  guint n = wb_job_count (job, WB_KIND_TALLY);

  for (guint i = 0; i < n; i++)
    {
      const WbTally *tally = wb_job_nth (job, WB_KIND_TALLY, i);

      if (g_strcmp0 (tally->lot, lot) == 0)
        return TRUE;
    }
  return FALSE;
}

static char *
describe_refusal (const WbJob  *job,
                  const WbLot  *lot,
                  const GError *error)
{
  guint n = count_pieces (job, lot->record.id);
  g_autofree char *name = wb_lot_choice_describe (lot, FALSE);

  if (n == 0 && is_counted (job, lot->record.id))
    /* Translators: %s is a lot. */
    return g_strdup_printf (_("Tags of lot %s were counted at a handover. Take them off the count "
                              "first."), name);
  if (n == 0)
    return wb_words_error (error);
  /* Translators: %u is a number of pieces, %s a lot. */
  return g_strdup_printf (ngettext ("%u piece has a tag of lot %s. Give it another lot first.",
                                    "%u pieces have tags of lot %s. Give them another lot first.",
                                    n), n, name);
}

static void
remove_cb (GtkWidget   *button,
           WbLotEditor *self)
{
  const char *id = g_object_get_data (G_OBJECT (button), "lot");
  WbJob *job = wb_job_model_get_job (self->model);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) fewer = wb_job_without (job, WB_KIND_LOT, id, &error);
  g_autofree char *refusal = NULL;

  if (fewer != NULL)
    {
      wb_job_model_apply (self->model, fewer, _("Remove a lot"));
      return;
    }

  refusal = describe_refusal (job, wb_job_find (job, WB_KIND_LOT, id), error);
  adw_toast_overlay_add_toast (self->toasts, adw_toast_new (refusal));
}

static GtkWidget *
make_row (WbLotEditor *self,
          const WbLot *lot)
{
  static const char *const fields[] = { "colour", "number", "first", "last" };
  GtkWidget *row = adw_expander_row_new ();
  GtkWidget *remove = gtk_button_new_from_icon_name ("user-trash-symbolic");
  g_autofree char *name = wb_lot_choice_describe (lot, FALSE);
  /* Translators: %s is a lot. */
  g_autofree char *words = g_strdup_printf (_("Remove lot %s"), name);

  for (gsize i = 0; i < G_N_ELEMENTS (fields); i++)
    adw_expander_row_add_row (ADW_EXPANDER_ROW (row),
                              wb_field_widget_new (self->model, WB_KIND_LOT, lot->record.id,
                                                   fields[i]));

  gtk_widget_set_valign (remove, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (remove, words);
  gtk_widget_add_css_class (remove, "flat");
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
  g_object_set_data_full (G_OBJECT (remove), "lot", g_strdup (lot->record.id), g_free);
  g_signal_connect (remove, "clicked", G_CALLBACK (remove_cb), self);
  adw_expander_row_add_action (ADW_EXPANDER_ROW (row), remove);
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  return row;
}

/* Lots are few: the list is made anew when one comes or goes. */
static void
fill_rows (WbLotEditor *self)
{
  const WbJob *job = wb_job_model_get_job (self->model);

  for (guint i = 0; i < self->rows->len; i++)
    adw_preferences_group_remove (self->lots, g_ptr_array_index (self->rows, i));
  g_ptr_array_set_size (self->rows, 0);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_LOT); i++)
    {
      GtkWidget *row = make_row (self, wb_job_nth (job, WB_KIND_LOT, i));

      adw_preferences_group_add (self->lots, row);
      g_ptr_array_add (self->rows, row);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->lots), self->rows->len > 0);
  update_titles (self);
}

/* --- a new lot -------------------------------------------------------------------------------- */

typedef struct
{
  const char  *name;
  GtkEditable *entry;
} Input;

static void
show_fault (WbLotEditor *self,
            GtkEditable *entry,
            const char  *sentence)
{
  gtk_label_set_text (self->fault, sentence);
  gtk_widget_add_css_class (GTK_WIDGET (entry), "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (entry),
                               GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE, -1);
  gtk_widget_grab_focus (GTK_WIDGET (entry));
}

static void
clear_fault (WbLotEditor *self)
{
  GtkEditable *entries[] = { self->colour, self->number, self->first, self->last };

  gtk_label_set_text (self->fault, "");
  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      gtk_widget_remove_css_class (GTK_WIDGET (entries[i]), "error");
      gtk_accessible_reset_state (GTK_ACCESSIBLE (entries[i]), GTK_ACCESSIBLE_STATE_INVALID);
    }
}

static gboolean
read_input (WbLotEditor *self,
            WbLot       *lot)
{
  const Input inputs[] = {
    { "colour", self->colour }, { "number", self->number },
    { "first", self->first }, { "last", self->last },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (inputs); i++)
    {
      const WbField *field = wb_record_type_field (wb_record_type (WB_KIND_LOT), inputs[i].name);
      const char *text = gtk_editable_get_text (inputs[i].entry);
      g_autofree char *sentence = NULL;

      if (wb_record_set_text (lot, field, text, "USD", NULL))
        continue;
      if (field->type == WB_FIELD_INTEGER)
        sentence = g_strdup_printf (_("“%s” is no tag number. Type a whole number up to %d."),
                                    text, (int) field->maximum);
      else
        sentence = g_strdup (_("The text is too long."));
      show_fault (self, inputs[i].entry, sentence);
      return FALSE;
    }
  return TRUE;
}

static const WbLot *
find_same (const WbJob *job,
           const WbLot *lot)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_LOT); i++)
    {
      const WbLot *other = wb_job_nth (job, WB_KIND_LOT, i);

      if (g_strcmp0 (other->colour, lot->colour) == 0
          && g_strcmp0 (other->number, lot->number) == 0)
        return other;
    }
  return NULL;
}

static gboolean
check_lot (WbLotEditor *self,
           const WbLot *lot)
{
  if (lot->colour == NULL)
    show_fault (self, self->colour, _("Say the colour of the tags."));
  else if (find_same (wb_job_model_get_job (self->model), lot) != NULL)
    show_fault (self, self->number, _("The job has this lot already."));
  else if (lot->first != WB_INTEGER_UNSET && lot->last != WB_INTEGER_UNSET
           && lot->first > lot->last)
    show_fault (self, self->last, _("The last tag is before the first."));
  else
    return TRUE;
  return FALSE;
}

static void
add_cb (WbLotEditor *self)
{
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbLot) lot = wb_record_new (WB_KIND_LOT, id);
  g_autoptr (WbJob) job = NULL;

  clear_fault (self);
  if (!read_input (self, lot) || !check_lot (self, lot))
    return;

  job = wb_job_with (wb_job_model_get_job (self->model), lot);
  wb_job_model_apply (self->model, job, _("Add a lot"));
  gtk_editable_set_text (self->colour, "");
  gtk_editable_set_text (self->number, "");
  gtk_editable_set_text (self->first, "1");
  gtk_editable_set_text (self->last, "");
  gtk_widget_grab_focus (GTK_WIDGET (self->colour));
}

/* --- object ----------------------------------------------------------------------------------- */

static void
wb_lot_editor_dispose (GObject *object)
{
  WbLotEditor *self = WB_LOT_EDITOR (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_LOT_EDITOR);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_lot_editor_parent_class)->dispose (object);
}

static void
wb_lot_editor_class_init (WbLotEditorClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_lot_editor_dispose;

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/inventory/wb-lot-editor.ui");
  gtk_widget_class_bind_template_child (widget_class, WbLotEditor, toasts);
  gtk_widget_class_bind_template_child (widget_class, WbLotEditor, lots);
  gtk_widget_class_bind_template_child (widget_class, WbLotEditor, colour);
  gtk_widget_class_bind_template_child (widget_class, WbLotEditor, number);
  gtk_widget_class_bind_template_child (widget_class, WbLotEditor, first);
  gtk_widget_class_bind_template_child (widget_class, WbLotEditor, last);
  gtk_widget_class_bind_template_child (widget_class, WbLotEditor, fault);
  gtk_widget_class_bind_template_callback (widget_class, add_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
wb_lot_editor_init (WbLotEditor *self)
{
  self->rows = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}

WbLotEditor *
wb_lot_editor_new (GtkWindow  *parent,
                   WbJobModel *model)
{
  WbLotEditor *self;

  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  self = g_object_new (WB_TYPE_LOT_EDITOR, "transient-for", parent, NULL);
  self->model = g_object_ref (model);
  g_signal_connect_object (wb_job_model_get_records (model, WB_KIND_LOT), "items-changed",
                           G_CALLBACK (fill_rows), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (model, "notify::job", G_CALLBACK (update_titles), self,
                           G_CONNECT_SWAPPED);
  fill_rows (self);
  return self;
}
