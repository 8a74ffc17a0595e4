/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changing many lines. The fields are those of the strip, each with a tick; what they mean for a
 * piece is the deeds'. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-bulk-dialog.h"

#include "desk/inventory/wb-inventory-deeds.h"
#include "desk/inventory/wb-line-advice.h"
#include "desk/inventory/wb-line-entry.h"
#include "desk/inventory/wb-lot-choice.h"
#include "desk/widgets/wb-flow-layout.h"

#include <glib/gi18n.h>

static const WbLinePart parts[] = {
  WB_LINE_ROOM, WB_LINE_PACKED_BY, WB_LINE_PACKER, WB_LINE_PACKED_ON, WB_LINE_CHECKED_BY,
  WB_LINE_FORM, WB_LINE_CARTON, WB_LINE_MARKS, WB_LINE_ARTICLE, WB_LINE_SET, WB_LINE_DISASSEMBLY,
};

#define N_PARTS G_N_ELEMENTS (parts)

struct _WbBulkDialog
{
  AdwWindow        parent_instance;

  WbJobModel      *model;
  GPtrArray       *ids;
  AdwWindowTitle  *title;
  GtkWidget       *change;
  GtkBox          *fields;
  GtkCheckButton  *ticks[N_PARTS];
  WbLineEntry     *entries[N_PARTS];
  GtkCheckButton  *add_marks;
  GtkCheckButton  *lot_tick;
  WbLotChoice     *lot;
  GtkEditable     *first;
  GtkLabel        *preview;
  gboolean         made;       /* all of these are there */
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbBulkDialog, wb_bulk_dialog, ADW_TYPE_WINDOW)

static void
advise (WbBulkDialog *self,
        WbLineEntry  *entry,
        gboolean      final)
{
  /* The focus leaves a field once more when the window goes. */
  if (self->model != NULL)
    wb_line_advise (entry, wb_job_model_get_job (self->model), WB_WEIGHT_UNIT_LB, final);
}

/* The lot chosen for all lines, and tags in sequence when a first one is typed. */
static WbJob *
renumber (WbBulkDialog  *self,
          const WbJob   *job,
          GError       **error)
{
  g_autoptr (WbPiece) scratch = wb_record_new (WB_KIND_PIECE, "scratch");

  if (!wb_line_read (scratch, WB_LINE_TAG, gtk_editable_get_text (self->first),
                     wb_job_get_currency (job), WB_WEIGHT_UNIT_LB, error))
    return NULL;
  return wb_inventory_renumber (job, self->ids, wb_lot_choice_get_lot (self->lot), scratch->tag,
                                error);
}

/* --- what is to be done ----------------------------------------------------------------------- */

/* The job with all that is ticked. On failure @bad is the field, or N_PARTS for the lot and
 * tags. */
static WbJob *
make_job (WbBulkDialog  *self,
          gsize         *bad,
          GError       **error)
{
  WbJob *before = wb_job_model_get_job (self->model);
  WbLineChange changes[N_PARTS];
  gsize fields[N_PARTS];
  guint n = 0;
  guint bad_change = 0;
  g_autoptr (WbJob) job = NULL;

  for (gsize i = 0; i < N_PARTS; i++)
    {
      if (!gtk_check_button_get_active (self->ticks[i]))
        continue;
      fields[n] = i;
      changes[n++] = (WbLineChange) {
        parts[i], wb_line_entry_get_text (self->entries[i]),
        parts[i] == WB_LINE_MARKS && gtk_check_button_get_active (self->add_marks)
      };
    }

  job = wb_inventory_change (before, self->ids, changes, n, &bad_change, error);
  *bad = n > 0 ? fields[bad_change] : N_PARTS;
  if (job == NULL || !gtk_check_button_get_active (self->lot_tick))
    return g_steal_pointer (&job);

  *bad = N_PARTS;
  return renumber (self, job, error);
}

/* Above the fields, where it is seen however far they are scrolled. */
static void
show_preview (WbBulkDialog *self,
              const char   *sentence,
              gboolean      is_fault)
{
  gtk_label_set_text (self->preview, sentence != NULL ? sentence : "");
  if (is_fault)
    {
      gtk_widget_add_css_class (GTK_WIDGET (self->preview), "error");
      gtk_widget_add_css_class (GTK_WIDGET (self->first), "error");
      gtk_accessible_update_state (GTK_ACCESSIBLE (self->first), GTK_ACCESSIBLE_STATE_INVALID,
                                   GTK_ACCESSIBLE_INVALID_TRUE, -1);
    }
  else
    {
      gtk_widget_remove_css_class (GTK_WIDGET (self->preview), "error");
      gtk_widget_remove_css_class (GTK_WIDGET (self->first), "error");
      gtk_accessible_reset_state (GTK_ACCESSIBLE (self->first), GTK_ACCESSIBLE_STATE_INVALID);
    }
}

static char *
describe_preview (WbBulkDialog *self,
                  const WbJob  *job)
{
  guint n = wb_inventory_count_changed (wb_job_model_get_job (self->model), job, self->ids);

  /* Translators: how many lines change, and how many are selected. */
  return g_strdup_printf (ngettext ("%u of %u line changes", "%u of %u lines change",
                                    self->ids->len), n, self->ids->len);
}

/* What would happen, said before it does. */
static void
update_change (WbBulkDialog *self)
{
  gboolean any;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *preview = NULL;
  gsize bad;

  if (self->model == NULL || !self->made)
    return;
  any = gtk_check_button_get_active (self->lot_tick);
  for (gsize i = 0; i < N_PARTS; i++)
    any |= gtk_check_button_get_active (self->ticks[i]);
  gtk_widget_set_sensitive (self->change, any);

  if (any)
    job = make_job (self, &bad, &error);
  if (job != NULL)
    preview = describe_preview (self, job);
  if (any && job == NULL && bad == N_PARTS)
    show_preview (self, error->message, TRUE);
  else
    show_preview (self, preview, FALSE);
}

static void
entry_changed_cb (WbBulkDialog *self,
                  WbLineEntry  *entry)
{
  for (gsize i = 0; i < N_PARTS; i++)
    if (self->entries[i] == entry)
      gtk_check_button_set_active (self->ticks[i], TRUE);
  advise (self, entry, FALSE);
  update_change (self);
}

static void
lot_changed_cb (WbBulkDialog *self)
{
  gtk_check_button_set_active (self->lot_tick, TRUE);
  update_change (self);
}

static void
entry_left_cb (WbBulkDialog *self,
               WbLineEntry  *entry)
{
  advise (self, entry, TRUE);
}

static void
change_cb (WbBulkDialog *self)
{
  gsize bad;
  guint n;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *sentence = NULL;

  if (!gtk_widget_get_sensitive (self->change))
    return;

  job = make_job (self, &bad, &error);
  if (job == NULL)
    {
      if (bad < N_PARTS)
        {
          wb_line_entry_set_error (self->entries[bad], error->message);
          wb_line_entry_focus_end (self->entries[bad]);
          return;
        }
      show_preview (self, error->message, TRUE);
      gtk_widget_grab_focus (GTK_WIDGET (self->first));
      return;
    }

  n = wb_inventory_count_changed (wb_job_model_get_job (self->model), job, self->ids);
  wb_job_model_apply (self->model, job, _("Change lines"));
  sentence = g_strdup_printf (ngettext ("%u line changed", "%u lines changed", n), n);
  g_signal_emit (self, signals[CHANGED], 0, sentence);
  gtk_window_close (GTK_WINDOW (self));
}

/* The text that all pieces have in common, "" when they differ. */
static char *
find_common (WbBulkDialog *self,
             WbLinePart    part)
{
  const WbJob *job = wb_job_model_get_job (self->model);
  g_autofree char *common = NULL;

  for (guint i = 0; i < self->ids->len; i++)
    {
      const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, g_ptr_array_index (self->ids, i));
      g_autofree char *text = piece != NULL ? wb_line_show (piece, part) : NULL;

      if (text == NULL)
        continue;
      if (common == NULL)
        common = g_steal_pointer (&text);
      else if (!g_str_equal (common, text))
        return g_strdup ("");
    }
  return common != NULL ? g_steal_pointer (&common) : g_strdup ("");
}

static void
add_field (WbBulkDialog *self,
           gsize         index)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  g_autofree char *caption = wb_line_caption (parts[index]);
  /* Translators: %s is the name of a field, such as Room. */
  g_autofree char *name = g_strdup_printf (_("Change %s"), caption);
  /* Marks are mostly added to those that are there. */
  g_autofree char *common = parts[index] == WB_LINE_MARKS ? g_strdup ("")
                                                          : find_common (self, parts[index]);

  self->ticks[index] = GTK_CHECK_BUTTON (gtk_check_button_new ());
  gtk_widget_set_valign (GTK_WIDGET (self->ticks[index]), GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->ticks[index]),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  self->entries[index] = WB_LINE_ENTRY (wb_line_entry_new (parts[index]));
  gtk_widget_set_hexpand (GTK_WIDGET (self->entries[index]), TRUE);
  wb_line_entry_set_text (self->entries[index], common);

  g_signal_connect_swapped (self->ticks[index], "toggled", G_CALLBACK (update_change), self);
  g_signal_connect_swapped (self->entries[index], "changed", G_CALLBACK (entry_changed_cb), self);
  g_signal_connect_swapped (self->entries[index], "left", G_CALLBACK (entry_left_cb), self);
  g_signal_connect_swapped (self->entries[index], "activate", G_CALLBACK (change_cb), self);

  gtk_box_append (GTK_BOX (row), GTK_WIDGET (self->ticks[index]));
  gtk_box_append (GTK_BOX (row), GTK_WIDGET (self->entries[index]));
  gtk_box_append (self->fields, row);
}

static void
add_marks_choice (WbBulkDialog *self)
{
  GtkWidget *choice = gtk_check_button_new_with_mnemonic (_("_Keep the condition that is there, "
                                                            "and add to it"));

  self->add_marks = GTK_CHECK_BUTTON (choice);
  gtk_check_button_set_active (self->add_marks, TRUE);
  gtk_widget_set_margin_start (choice, 36);
  g_signal_connect_swapped (choice, "toggled", G_CALLBACK (update_change), self);
  gtk_box_append (self->fields, choice);
}

static GtkWidget *
make_first (WbBulkDialog *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *caption = gtk_label_new_with_mnemonic (_("_Tags in sequence from"));
  GtkWidget *entry = gtk_entry_new ();

  gtk_label_set_xalign (GTK_LABEL (caption), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (caption), entry);
  gtk_widget_add_css_class (caption, "caption");
  gtk_widget_add_css_class (caption, "dim-label");
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 8);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Tags in sequence from"), -1);
  self->first = GTK_EDITABLE (entry);
  g_signal_connect_swapped (entry, "changed", G_CALLBACK (lot_changed_cb), self);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (change_cb), self);
  gtk_box_append (GTK_BOX (box), caption);
  gtk_box_append (GTK_BOX (box), entry);
  return box;
}

/* The lot of the first line is the one to begin with. */
static void
add_lot (WbBulkDialog *self)
{
  const WbPiece *piece = wb_job_find (wb_job_model_get_job (self->model), WB_KIND_PIECE,
                                      g_ptr_array_index (self->ids, 0));
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *choices = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  self->lot_tick = GTK_CHECK_BUTTON (gtk_check_button_new ());
  gtk_widget_set_valign (GTK_WIDGET (self->lot_tick), GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->lot_tick), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Change lot and tags"), -1);
  g_signal_connect_swapped (self->lot_tick, "toggled", G_CALLBACK (update_change), self);

  self->lot = WB_LOT_CHOICE (wb_lot_choice_new ());
  wb_lot_choice_set_model (self->lot, self->model);
  wb_lot_choice_set_lot (self->lot, piece != NULL ? piece->lot : NULL);
  g_signal_connect_swapped (self->lot, "changed", G_CALLBACK (lot_changed_cb), self);

  gtk_widget_set_layout_manager (choices, wb_flow_layout_new (12, 6));
  gtk_widget_set_hexpand (choices, TRUE);
  gtk_box_append (GTK_BOX (choices), GTK_WIDGET (self->lot));
  gtk_box_append (GTK_BOX (choices), make_first (self));
  gtk_box_append (GTK_BOX (row), GTK_WIDGET (self->lot_tick));
  gtk_box_append (GTK_BOX (row), choices);
  gtk_box_append (self->fields, row);
}

static void
wb_bulk_dialog_dispose (GObject *object)
{
  WbBulkDialog *self = WB_BULK_DIALOG (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_BULK_DIALOG);
  g_clear_object (&self->model);
  g_clear_pointer (&self->ids, g_ptr_array_unref);

  G_OBJECT_CLASS (wb_bulk_dialog_parent_class)->dispose (object);
}

static void
wb_bulk_dialog_class_init (WbBulkDialogClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_bulk_dialog_dispose;

  signals[CHANGED] = g_signal_new ("changed", WB_TYPE_BULK_DIALOG, G_SIGNAL_RUN_LAST,
                                   0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/inventory/wb-bulk-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, WbBulkDialog, title);
  gtk_widget_class_bind_template_child (widget_class, WbBulkDialog, change);
  gtk_widget_class_bind_template_child (widget_class, WbBulkDialog, fields);
  gtk_widget_class_bind_template_child (widget_class, WbBulkDialog, preview);
  gtk_widget_class_bind_template_callback (widget_class, change_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
wb_bulk_dialog_init (WbBulkDialog *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

WbBulkDialog *
wb_bulk_dialog_new (GtkWindow  *parent,
                    WbJobModel *model,
                    GPtrArray  *ids)
{
  WbBulkDialog *self;
  g_autofree char *subtitle = NULL;

  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);
  g_return_val_if_fail (ids != NULL, NULL);

  self = g_object_new (WB_TYPE_BULK_DIALOG, "transient-for", parent, NULL);
  self->model = g_object_ref (model);
  self->ids = g_ptr_array_ref (ids);
  subtitle = g_strdup_printf (ngettext ("%u selected", "%u selected", ids->len), ids->len);
  adw_window_title_set_subtitle (self->title, subtitle);
  for (gsize i = 0; i < N_PARTS; i++)
    {
      add_field (self, i);
      if (parts[i] == WB_LINE_MARKS)
        add_marks_choice (self);
    }
  add_lot (self);
  self->made = TRUE;
  update_change (self);
  wb_line_entry_focus (self->entries[0]);
  return self;
}
