/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changing many lines. The fields are those of the strip, each with a tick; what they mean for a
 * piece is the deeds'. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-bulk-dialog.h"

#include "desk/inventory/wb-inventory-deeds.h"
#include "desk/inventory/wb-line-advice.h"
#include "desk/inventory/wb-line-entry.h"

#include <glib/gi18n.h>

static const WbLinePart parts[] = {
  WB_LINE_ROOM, WB_LINE_PACKED_BY, WB_LINE_PACKER, WB_LINE_CARTON,
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

static void
update_change (WbBulkDialog *self)
{
  gboolean any = FALSE;

  for (gsize i = 0; i < N_PARTS; i++)
    any |= gtk_check_button_get_active (self->ticks[i]);
  gtk_widget_set_sensitive (self->change, any);
}

static void
entry_changed_cb (WbBulkDialog *self,
                  WbLineEntry  *entry)
{
  for (gsize i = 0; i < N_PARTS; i++)
    if (self->entries[i] == entry)
      gtk_check_button_set_active (self->ticks[i], TRUE);
  advise (self, entry, FALSE);
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
  WbLineChange changes[N_PARTS];
  WbLineEntry *changed[N_PARTS];
  guint n = 0;
  guint bad = 0;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *sentence = NULL;

  for (gsize i = 0; i < N_PARTS; i++)
    {
      if (!gtk_check_button_get_active (self->ticks[i]))
        continue;
      changes[n] = (WbLineChange) { parts[i], wb_line_entry_get_text (self->entries[i]) };
      changed[n++] = self->entries[i];
    }
  if (n == 0)
    return;

  job = wb_inventory_change (wb_job_model_get_job (self->model), self->ids, changes, n, &bad,
                             &error);
  if (job == NULL)
    {
      wb_line_entry_set_error (changed[bad], error->message);
      wb_line_entry_focus_end (changed[bad]);
      return;
    }

  wb_job_model_apply (self->model, job, _("Change lines"));
  sentence = g_strdup_printf (ngettext ("%u line changed", "%u lines changed", self->ids->len),
                              self->ids->len);
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
  g_autofree char *common = find_common (self, parts[index]);

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
    add_field (self, i);
  update_change (self);
  wb_line_entry_focus (self->entries[0]);
  return self;
}
