/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fields where a count is typed and what they do. The job is changed by core's deeds through
 * the model, so that every step can be undone; what is wrong is said beneath the field. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/handovers/wb-count-panel.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "core/wb-count.h"
#include "desk/handovers/wb-count-words.h"
#include "desk/handovers/wb-pass-list.h"
#include "desk/widgets/wb-flow-layout.h"
#include "office/wb-words-trail.h"

struct _WbCountPanel
{
  GtkWidget      parent_instance;

  GtkWidget     *box;
  GtkLabel      *title;
  GtkLabel      *figures;
  GtkLabel      *faults;
  GtkEntry      *tags;
  GtkLabel      *tags_note;
  GtkEntry      *marks;
  GtkLabel      *marks_note;
  WbPassList    *list;
  GtkWidget     *buttons;
  GtkWidget     *finish_button;
  GtkWidget     *reopen_button;
  GtkWidget     *give_up_button;
  GtkWidget     *strays_button;

  WbJobModel    *model;
  const WbTrail *trail;      /* borrowed: the page shows another before it goes */
  guint          handover;
  char          *id;         /* of the handover */
};

enum
{
  PIECE_CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbCountPanel, wb_count_panel, GTK_TYPE_WIDGET)

static const WbHandoverFacts *
get_facts (WbCountPanel *self)
{
  return wb_trail_handover (self->trail, self->handover);
}

/* --- sentences beneath the fields ------------------------------------------------------------- */

static void
say (GtkEntry   *entry,
     GtkLabel   *note,
     const char *text,
     gboolean    wrong)
{
  gtk_label_set_label (note, text != NULL ? text : "");
  if (wrong)
    {
      gtk_widget_add_css_class (GTK_WIDGET (entry), "error");
      gtk_widget_add_css_class (GTK_WIDGET (note), "error");
      gtk_widget_remove_css_class (GTK_WIDGET (note), "dim-label");
    }
  else
    {
      gtk_widget_remove_css_class (GTK_WIDGET (entry), "error");
      gtk_widget_remove_css_class (GTK_WIDGET (note), "error");
      gtk_widget_add_css_class (GTK_WIDGET (note), "dim-label");
    }
  gtk_accessible_update_state (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_STATE_INVALID,
                               wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

static void
say_fault (GtkEntry     *entry,
           GtkLabel     *note,
           const GError *error)
{
  g_autofree char *words = wb_words_sentence (error->message);

  say (entry, note, words, TRUE);
  gtk_widget_error_bell (GTK_WIDGET (entry));
}

/* Makes a deed done, or says why it cannot be. Takes @job. The error is asked for by its address:
 * a call that makes @job sets it when the other arguments may have been read already. */
static gboolean
apply (WbCountPanel  *self,
       WbJob         *job,
       const char    *deed,
       GtkEntry      *entry,
       GtkLabel      *note,
       GError       **error)
{
  g_autoptr (WbJob) changed = job;

  if (changed == NULL)
    {
      say_fault (entry, note, *error);
      return FALSE;
    }

  wb_job_model_apply (self->model, changed, deed);
  return TRUE;
}

/* --- counting tags ---------------------------------------------------------------------------- */

/* Returns: whether there was something to count and it was counted. */
static gboolean
count (WbCountPanel *self,
       const char   *text)
{
  WbJob *job = wb_job_model_get_job (self->model);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbCountEntry) entry = wb_count_entry_read (job, text, &error);
  g_autofree char *words = NULL;

  if (entry == NULL)
    {
      say_fault (self->tags, self->tags_note, error);
      return FALSE;
    }
  if (entry->n_listed + entry->n_strays == 0)
    return FALSE;

  words = wb_count_words_counted (entry, wb_count_n_again (job, self->id, entry));
  if (!apply (self, wb_count_add (job, self->id, entry, wb_office_new_id, &error),
              _("Count tags"), self->tags, self->tags_note, &error))
    return FALSE;

  say (self->tags, self->tags_note, words, FALSE);
  if (entry->n_strays > 0)
    gtk_widget_error_bell (GTK_WIDGET (self->tags));
  return TRUE;
}

static void
count_cb (WbCountPanel *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->tags)));
  g_autofree char *words = NULL;

  if (!count (self, text))
    return;

  /* Emptying the field takes the sentence away. */
  words = g_strdup (gtk_label_get_label (self->tags_note));
  gtk_editable_set_text (GTK_EDITABLE (self->tags), "");
  say (self->tags, self->tags_note, words, FALSE);
}

void
wb_count_panel_count (WbCountPanel *self,
                      const char   *text)
{
  g_return_if_fail (WB_IS_COUNT_PANEL (self));

  count (self, text);
}

/* While it is typed only what is good is told of. */
static void
tags_changed_cb (WbCountPanel *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->tags));
  g_autoptr (WbCountEntry) entry = NULL;
  g_autofree char *words = NULL;
  WbJob *job;

  if (self->model == NULL)
    return;

  job = wb_job_model_get_job (self->model);
  entry = wb_count_entry_read (job, text, NULL);
  if (entry != NULL && entry->n_listed + entry->n_strays > 0)
    words = wb_count_words_preview (entry, wb_count_n_again (job, self->id, entry));
  say (self->tags, self->tags_note, words, FALSE);
}

/* --- noting marks ----------------------------------------------------------------------------- */

static void
note_cb (WbCountPanel *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->marks)));
  WbJob *job = wb_job_model_get_job (self->model);
  g_autoptr (GError) error = NULL;
  g_autofree char *marks = NULL;
  g_autofree char *words = NULL;
  g_autofree char *id = NULL;
  const WbPiece *piece;

  if (*text == '\0')
    return;
  if (!wb_count_marks_read (job, text, &piece, &marks, &error))
    {
      say_fault (self->marks, self->marks_note, error);
      return;
    }

  words = wb_count_words_marks (job, self->trail, self->handover,
                                (guint) wb_job_index (job, WB_KIND_PIECE, piece->record.id),
                                marks);
  id = g_strdup (piece->record.id);
  if (!apply (self, wb_count_note_marks (job, self->id, id, marks, wb_office_new_id, &error),
              _("Note marks"), self->marks, self->marks_note, &error))
    return;

  gtk_editable_set_text (GTK_EDITABLE (self->marks), "");
  say (self->marks, self->marks_note, words, FALSE);
  g_signal_emit (self, signals[PIECE_CHOSEN], 0, id);
}

/* Says the marks in words while they are typed, or in a quiet voice what does not read yet. */
static void
marks_changed_cb (WbCountPanel *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->marks));
  g_autofree char *marks = NULL;
  g_autofree char *words = NULL;
  g_autoptr (GError) error = NULL;
  const WbPiece *piece;
  WbJob *job;

  if (self->model == NULL || *text == '\0')
    {
      say (self->marks, self->marks_note, NULL, FALSE);
      return;
    }

  job = wb_job_model_get_job (self->model);
  if (wb_count_marks_read (job, text, &piece, &marks, &error))
    words = wb_count_words_marks (job, self->trail, self->handover,
                                  (guint) wb_job_index (job, WB_KIND_PIECE, piece->record.id),
                                  marks);
  else
    words = wb_words_sentence (error->message);
  say (self->marks, self->marks_note, words, FALSE);
}

/* --- one piece -------------------------------------------------------------------------------- */

static void
chosen_cb (WbCountPanel *self,
           const char   *piece)
{
  g_signal_emit (self, signals[PIECE_CHOSEN], 0, piece);
}

static void
activated_cb (WbCountPanel *self,
              const char   *piece)
{
  wb_count_panel_toggle (self, piece);
}

void
wb_count_panel_toggle (WbCountPanel *self,
                       const char   *piece)
{
  WbJob *job;
  gint place;
  g_autoptr (GError) error = NULL;
  WbPassState state;

  g_return_if_fail (WB_IS_COUNT_PANEL (self));

  job = wb_job_model_get_job (self->model);
  place = wb_job_index (job, WB_KIND_PIECE, piece);
  if (place < 0)
    return;

  state = wb_trail_pass (self->trail, self->handover, (guint) place)->state;
  if (state == WB_PASS_COUNTED && get_facts (self)->handover->count != WB_COUNT_AS_LISTED)
    apply (self, wb_count_take_piece (job, self->id, piece, &error), _("Take out of the count"),
           self->tags, self->tags_note, &error);
  else
    apply (self, wb_count_add_piece (job, self->id, piece, wb_office_new_id, &error),
           _("Count piece"), self->tags, self->tags_note, &error);
}

/* --- the count as a whole --------------------------------------------------------------------- */

static void
finish_now (WbCountPanel *self)
{
  g_autoptr (GError) error = NULL;

  apply (self, wb_count_finish (wb_job_model_get_job (self->model), self->id, wb_office_new_id,
                                &error),
         _("Finish count"), self->tags, self->tags_note, &error);
}

static void
finish_response_cb (WbCountPanel *self,
                    const char   *response)
{
  if (g_str_equal (response, "finish") && self->trail != NULL)
    finish_now (self);
}

void
wb_count_panel_finish (WbCountPanel *self)
{
  const WbHandoverFacts *facts;
  g_autofree char *body = NULL;
  GtkWidget *dialog;

  g_return_if_fail (WB_IS_COUNT_PANEL (self));

  facts = get_facts (self);
  if (facts->handover->count != WB_COUNT_UNDER_WAY || facts->left->len == 0)
    {
      finish_now (self);
      return;
    }

  body = wb_count_words_finish (wb_job_model_get_job (self->model), facts);
  dialog = adw_message_dialog_new (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
                                   _("Finish the Count?"), body);
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "cancel", _("_Go On Counting"));
  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "finish", _("_Finish"));
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "finish",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "finish");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (finish_response_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
finish_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  wb_count_panel_finish (WB_COUNT_PANEL (widget));
}

static void
reopen_action (GtkWidget  *widget,
               const char *name,
               GVariant   *target)
{
  WbCountPanel *self = WB_COUNT_PANEL (widget);
  g_autoptr (GError) error = NULL;

  if (apply (self, wb_count_reopen (wb_job_model_get_job (self->model), self->id, &error),
             _("Open count again"), self->tags, self->tags_note, &error))
    gtk_widget_grab_focus (GTK_WIDGET (self->tags));
}

static void
give_up_action (GtkWidget  *widget,
                const char *name,
                GVariant   *target)
{
  WbCountPanel *self = WB_COUNT_PANEL (widget);
  g_autoptr (GError) error = NULL;

  if (!apply (self, wb_count_give_up (wb_job_model_get_job (self->model), self->id, &error),
              _("Give count up"), self->tags, self->tags_note, &error))
    return;

  gtk_widget_grab_focus (GTK_WIDGET (self->tags));
  gtk_widget_activate_action (widget, "job.tell", "s", _("The count was given up"));
}

static void
take_strays_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *target)
{
  WbCountPanel *self = WB_COUNT_PANEL (widget);
  g_autoptr (WbJob) job = wb_job_ref (wb_job_model_get_job (self->model));
  GPtrArray *strays = get_facts (self)->strays;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; job != NULL && i < strays->len; i++)
    {
      const WbStray *stray = g_ptr_array_index (strays, i);
      g_autoptr (WbJob) before = g_steal_pointer (&job);

      job = wb_count_take_tags (before, self->id, stray->lot != NULL ? stray->lot->record.id : NULL,
                                stray->tags, &error);
    }
  if (apply (self, g_steal_pointer (&job), _("Take out overages"), self->tags, self->tags_note,
             &error))
    gtk_widget_grab_focus (GTK_WIDGET (self->tags));
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
show_faults (WbCountPanel *self)
{
  g_auto (GStrv) faults = wb_words_handover_faults (self->trail, self->handover);
  g_autofree char *text = g_strjoinv ("\n", faults);

  gtk_label_set_label (self->faults, text);
  gtk_widget_set_visible (GTK_WIDGET (self->faults), *text != '\0');
}

static void
show_buttons (WbCountPanel *self)
{
  const WbHandoverFacts *facts = get_facts (self);
  WbCount count = facts->handover->count;

  gtk_widget_set_visible (self->finish_button, count == WB_COUNT_UNDER_WAY);
  gtk_widget_set_visible (self->give_up_button, count == WB_COUNT_UNDER_WAY);
  gtk_widget_set_visible (self->reopen_button, count == WB_COUNT_FINISHED);
  gtk_widget_set_visible (self->strays_button,
                          count == WB_COUNT_UNDER_WAY && facts->n_strays > 0);
}

static void
show_figures (WbCountPanel *self)
{
  const WbHandoverFacts *facts = get_facts (self);
  g_autofree char *title = wb_words_handover (facts->handover);
  g_autofree char *figures = wb_words_handover_figures (facts);
  /* Translators: the state of a count; its figures. */
  g_autofree char *text = g_strdup_printf (_("%s: %s"),
                                           wb_words_enum (&wb_counts,
                                                          (int) facts->handover->count), figures);

  gtk_label_set_label (self->title, title);
  gtk_label_set_label (self->figures,
                       facts->handover->count == WB_COUNT_AS_LISTED ? figures : text);
}

void
wb_count_panel_show (WbCountPanel  *self,
                     WbJobModel    *model,
                     const WbTrail *trail,
                     guint          handover)
{
  const char *id;
  gboolean other;

  g_return_if_fail (WB_IS_COUNT_PANEL (self));

  id = wb_trail_handover (trail, handover)->handover->record.id;
  other = g_strcmp0 (id, self->id) != 0;
  g_set_object (&self->model, model);
  self->trail = trail;
  self->handover = handover;
  if (other)
    {
      g_free (self->id);
      self->id = g_strdup (id);
      say (self->tags, self->tags_note, NULL, FALSE);
      marks_changed_cb (self);
    }

  show_figures (self);
  show_faults (self);
  show_buttons (self);
  wb_pass_list_show (self->list, wb_job_model_get_job (model), trail, handover);
}

void
wb_count_panel_focus_tags (WbCountPanel *self)
{
  g_return_if_fail (WB_IS_COUNT_PANEL (self));

  gtk_widget_grab_focus (GTK_WIDGET (self->tags));
}

void
wb_count_panel_focus_marks (WbCountPanel *self)
{
  g_return_if_fail (WB_IS_COUNT_PANEL (self));

  gtk_widget_grab_focus (GTK_WIDGET (self->marks));
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_count_panel_dispose (GObject *object)
{
  WbCountPanel *self = WB_COUNT_PANEL (object);

  g_clear_object (&self->model);
  self->trail = NULL;
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_COUNT_PANEL);

  G_OBJECT_CLASS (wb_count_panel_parent_class)->dispose (object);
}

static void
wb_count_panel_finalize (GObject *object)
{
  g_free (WB_COUNT_PANEL (object)->id);

  G_OBJECT_CLASS (wb_count_panel_parent_class)->finalize (object);
}

static void
wb_count_panel_class_init (WbCountPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_count_panel_dispose;
  object_class->finalize = wb_count_panel_finalize;

  signals[PIECE_CHOSEN] = g_signal_new ("piece-chosen", G_TYPE_FROM_CLASS (klass),
                                        G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                        G_TYPE_STRING);

  g_type_ensure (WB_TYPE_PASS_LIST);
  gtk_widget_class_install_action (widget_class, "count.finish", NULL, finish_action);
  gtk_widget_class_install_action (widget_class, "count.reopen", NULL, reopen_action);
  gtk_widget_class_install_action (widget_class, "count.give-up", NULL, give_up_action);
  gtk_widget_class_install_action (widget_class, "count.take-strays", NULL, take_strays_action);

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/handovers/wb-count-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, box);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, title);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, figures);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, faults);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, tags);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, tags_note);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, marks);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, marks_note);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, list);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, buttons);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, finish_button);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, reopen_button);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, give_up_button);
  gtk_widget_class_bind_template_child (widget_class, WbCountPanel, strays_button);
  gtk_widget_class_bind_template_callback (widget_class, count_cb);
  gtk_widget_class_bind_template_callback (widget_class, tags_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, note_cb);
  gtk_widget_class_bind_template_callback (widget_class, marks_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
}

static void
wb_count_panel_init (WbCountPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_layout_manager (self->buttons, wb_flow_layout_new (6, 6));
}
