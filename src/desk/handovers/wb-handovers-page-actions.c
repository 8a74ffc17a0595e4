/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person does with the handover looked at, by menu, button or key. What there is to count is
 * the count panel's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/handovers/wb-handovers-page-private.h"

#include "desk/handovers/wb-handover-draft.h"
#include "desk/widgets/wb-scroll-to.h"
#include "office/wb-words-trail.h"

#include <glib/gi18n.h>

static void
add_action (GtkWidget  *widget,
            const char *name,
            GVariant   *target)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (widget);
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbJob) job = wb_handover_draft_add (wb_handovers_page_get_job (self), id);

  wb_job_model_apply (self->model, job, _("Add handover"));
  wb_handovers_page_choose (self, id);
  gtk_widget_child_focus (self->fields, GTK_DIR_TAB_FORWARD);
  wb_scroll_to (self->fields);
}

static void
move (WbHandoversPage *self,
      gint             by)
{
  gint place = wb_handovers_page_get_handover (self);
  guint n = wb_job_count (wb_handovers_page_get_job (self), WB_KIND_HANDOVER);
  g_autoptr (WbJob) job = NULL;

  if (place < 0 || place + by < 0 || place + by >= (gint) n)
    {
      gtk_widget_error_bell (GTK_WIDGET (self));
      return;
    }

  job = wb_job_move (wb_handovers_page_get_job (self), WB_KIND_HANDOVER, self->handover,
                     (guint) (place + by));
  wb_job_model_apply (self->model, job, _("Move handover"));
}

static void
move_up_action (GtkWidget  *widget,
                const char *name,
                GVariant   *target)
{
  move (WB_HANDOVERS_PAGE (widget), -1);
}

static void
move_down_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *target)
{
  move (WB_HANDOVERS_PAGE (widget), 1);
}

static void
remove_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (widget);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *words = NULL;
  gint place = wb_handovers_page_get_handover (self);

  if (place < 0)
    return;

  words = wb_words_handover (wb_trail_handover (self->trail, (guint) place)->handover);
  job = wb_job_without (wb_handovers_page_get_job (self), WB_KIND_HANDOVER, self->handover, &error);
  if (job == NULL)
    {
      g_autofree char *fault = wb_words_error (error);

      gtk_widget_activate_action (widget, "job.warn", "s", fault);
      return;
    }

  wb_job_model_apply (self->model, job, _("Remove handover"));
  {
    /* Translators: a handover. */
    g_autofree char *told = g_strdup_printf (_("%s removed, with what was noted at it"), words);

    gtk_widget_activate_action (widget, "job.tell", "s", told);
  }
}

static void
count_action (GtkWidget  *widget,
              const char *name,
              GVariant   *target)
{
  wb_count_panel_focus_tags (WB_HANDOVERS_PAGE (widget)->panel);
}

static void
note_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  wb_count_panel_focus_marks (WB_HANDOVERS_PAGE (widget)->panel);
}

static void
finish_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (widget);

  if (wb_handovers_page_get_handover (self) >= 0)
    wb_count_panel_finish (self->panel);
}

static void
toggle_piece_action (GtkWidget  *widget,
                     const char *name,
                     GVariant   *target)
{
  WbHandoversPage *self = WB_HANDOVERS_PAGE (widget);
  g_autofree char *piece = g_strdup (self->piece);

  if (piece != NULL && wb_handovers_page_get_handover (self) >= 0)
    wb_count_panel_toggle (self->panel, piece);
}

static void
hide_piece_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *target)
{
  wb_handovers_page_look_at_piece (WB_HANDOVERS_PAGE (widget), NULL);
  gtk_widget_grab_focus (widget);
}

void
wb_handovers_page_install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "handovers.add", NULL, add_action);
  gtk_widget_class_install_action (widget_class, "handovers.move-up", NULL, move_up_action);
  gtk_widget_class_install_action (widget_class, "handovers.move-down", NULL, move_down_action);
  gtk_widget_class_install_action (widget_class, "handovers.remove", NULL, remove_action);
  gtk_widget_class_install_action (widget_class, "handovers.count", NULL, count_action);
  gtk_widget_class_install_action (widget_class, "handovers.note", NULL, note_action);
  gtk_widget_class_install_action (widget_class, "handovers.finish", NULL, finish_action);
  gtk_widget_class_install_action (widget_class, "handovers.toggle-piece", NULL,
                                   toggle_piece_action);
  gtk_widget_class_install_action (widget_class, "handovers.hide-piece", NULL, hide_piece_action);
}

static void
add_row_key (GtkEventController *controller,
             guint               key,
             GdkModifierType     modifiers,
             const char         *action)
{
  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (key, modifiers),
                                                          gtk_named_action_new (action)));
}

/* Keys that mean the handover only while the list of handovers has the focus. */
void
wb_handovers_page_add_row_keys (WbHandoversPage *self)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();

  add_row_key (controller, GDK_KEY_Up, GDK_ALT_MASK, "handovers.move-up");
  add_row_key (controller, GDK_KEY_Down, GDK_ALT_MASK, "handovers.move-down");
  add_row_key (controller, GDK_KEY_Delete, GDK_CONTROL_MASK, "handovers.remove");
  gtk_widget_add_controller (GTK_WIDGET (self->rows), controller);
}
