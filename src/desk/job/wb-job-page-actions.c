/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The actions that hold for a whole job: going about in it, undo, storing, and what the pages have
 * a person told. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/job/wb-job-page-private.h"

#include "desk/job/wb-page-list.h"
#include "desk/widgets/wb-field-row.h"
#include "desk/widgets/wb-text-row.h"

#include <glib/gi18n.h>

static void
show_page_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  wb_job_page_show (WB_JOB_PAGE (widget), g_variant_get_string (target, NULL));
}

/* @target: the tag of a piece, as a person types it */
static void
show_photos_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *target)
{
  WbJobPage *self = WB_JOB_PAGE (widget);

  wb_job_page_show (self, "photos");
  gtk_widget_activate_action_variant (wb_job_page_get_visible (self), "photos.show-piece", target);
}

/* The names come from rows that this program made, so an unknown one is a mistake of ours. */
static void
reveal_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  const char *kind, *id, *field;

  g_variant_get (target, "(&s&s&s)", &kind, &id, &field);
  for (int i = 0; i < WB_N_KINDS; i++)
    if (g_str_equal (wb_record_type ((WbKind) i)->name, kind))
      {
        wb_job_page_reveal (WB_JOB_PAGE (widget), (WbKind) i, *id != '\0' ? id : NULL,
                            *field != '\0' ? field : NULL);
        return;
      }

  g_warning ("There is no kind of record “%s”", kind);
}

/* From whatever page: the telephone does not ask. */
static void
note_contact_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *target)
{
  WbJobPage *self = WB_JOB_PAGE (widget);

  wb_job_page_settle (self);
  wb_job_page_show (self, wb_page_list_of_kind (WB_KIND_CONTACT)->name);
  gtk_widget_activate_action (wb_job_page_get_visible (self), "papers.add-contact", NULL);
}

/* Undo first takes back what is typed and not set yet. */
static gboolean
revert_typing (WbJobPage *self)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  GtkWidget *row;

  if (focus == NULL)
    return FALSE;

  row = gtk_widget_get_ancestor (focus, WB_TYPE_FIELD_ROW);
  if (row != NULL && wb_field_row_revert (WB_FIELD_ROW (row)))
    return TRUE;

  row = gtk_widget_get_ancestor (focus, WB_TYPE_TEXT_ROW);
  return row != NULL && wb_text_row_revert (WB_TEXT_ROW (row));
}

static void
undo_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbJobPage *self = WB_JOB_PAGE (widget);

  if (!revert_typing (self))
    wb_job_model_undo (self->model);
}

static void
redo_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  wb_job_model_redo (WB_JOB_PAGE (widget)->model);
}

static void
store_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  WbJobPage *self = WB_JOB_PAGE (widget);

  wb_job_page_settle (self);
  wb_job_model_flush_async (self->model, NULL, NULL, NULL);
}

static void
tell_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbJobPage *self = WB_JOB_PAGE (widget);
  AdwToast *toast = adw_toast_new (g_variant_get_string (target, NULL));

  adw_toast_set_button_label (toast, _("_Undo"));
  adw_toast_set_action_name (toast, "job.undo");
  g_set_weak_pointer (&self->toast, toast);
  adw_toast_overlay_add_toast (self->toasts, toast);
}

static void
warn_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (gtk_widget_get_root (widget)),
                                              _("This Cannot Be Done"),
                                              g_variant_get_string (target, NULL));

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _("_Close"));
  gtk_window_present (GTK_WINDOW (dialog));
}

void
wb_job_page_install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "job.show-page", "s", show_page_action);
  gtk_widget_class_install_action (widget_class, "job.show-photos", "s", show_photos_action);
  gtk_widget_class_install_action (widget_class, "job.reveal", "(sss)", reveal_action);
  gtk_widget_class_install_action (widget_class, "job.note-contact", NULL, note_contact_action);
  gtk_widget_class_install_action (widget_class, "job.undo", NULL, undo_action);
  gtk_widget_class_install_action (widget_class, "job.redo", NULL, redo_action);
  gtk_widget_class_install_action (widget_class, "job.store", NULL, store_action);
  gtk_widget_class_install_action (widget_class, "job.tell", "s", tell_action);
  gtk_widget_class_install_action (widget_class, "job.warn", "s", warn_action);
}
