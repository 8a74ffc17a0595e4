/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows a letter as it would go out, or as it went out. What it says and what keeps it from going
 * out the office finds; keeping it is the office's too. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-letter-window.h"
#include "desk/widgets/wb-text-saver.h"

#include "office/wb-letter-send.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <string.h>

struct _WbLetterWindow
{
  AdwWindow      parent_instance;

  AdwWindowTitle *title;
  GtkDropDown    *choice;
  GtkListBox     *inputs;
  AdwEntryRow    *day;
  AdwEntryRow    *remark;
  GtkLabel       *faults;
  GtkLabel       *notes;
  GtkLabel       *state;
  GtkTextView    *text;
  GtkLabel       *caution;

  WbJobModel     *model;
  char           *claim_id;
  GPtrArray      *sent;       /* hashes, as many as there are choices behind the kinds */
  WbLetter       *letter;     /* (nullable): the one that would go out */
  GCancellable   *cancellable;
  gboolean        sending;
  gboolean        filling;    /* the list of choices is being made */
};

G_DEFINE_FINAL_TYPE (WbLetterWindow, wb_letter_window, ADW_TYPE_WINDOW)

/* --- showing ---------------------------------------------------------------------------------- */

static void
show_label (GtkLabel   *label,
            const char *words)
{
  gtk_label_set_label (label, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (label), words != NULL && *words != '\0');
}

static void
show_text (WbLetterWindow *self,
           const char     *text)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->text);
  GtkTextIter start;

  gtk_text_buffer_set_text (buffer, text, -1);
  gtk_text_buffer_get_start_iter (buffer, &start);
  gtk_text_buffer_place_cursor (buffer, &start);
}

static char *
get_text (WbLetterWindow *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->text);
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

static char *
join (GPtrArray *sentences)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < sentences->len; i++)
    g_string_append_printf (out, "%s%s", i > 0 ? "\n" : "",
                            (const char *) g_ptr_array_index (sentences, i));
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static gboolean
is_new (WbLetterWindow *self)
{
  return gtk_drop_down_get_selected (self->choice) < WB_N_LETTERS;
}

static void
enable_actions (WbLetterWindow *self)
{
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "letter.send",
                                 is_new (self) && !self->sending && self->letter != NULL
                                 && self->letter->faults->len == 0);
}

static void
show_faults (WbLetterWindow *self)
{
  g_autofree char *faults = self->letter != NULL ? join (self->letter->faults) : NULL;
  g_autofree char *notes = self->letter != NULL ? join (self->letter->notes) : NULL;

  show_label (self->faults, faults);
  show_label (self->notes, notes);
}

/* A day that does not read leaves the letter without one to go out on. */
static gboolean
read_day (WbLetterWindow *self,
          GDate          *on)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;

  if (wb_date_parse (gtk_editable_get_text (GTK_EDITABLE (self->day)), on, &error)
      && wb_date_is_set (on))
    {
      gtk_widget_remove_css_class (GTK_WIDGET (self->day), "error");
      return TRUE;
    }
  gtk_widget_add_css_class (GTK_WIDGET (self->day), "error");
  words = error != NULL ? wb_words_error (error) : g_strdup (_("The letter has to have a day."));
  show_label (self->faults, words);
  return FALSE;
}

static WbLetter *
write_letter (WbLetterWindow *self,
              const GDate    *on)
{
  return wb_office_write_letter (wb_job_model_get_office (self->model),
                                 wb_job_model_get_job (self->model), self->claim_id,
                                 (WbLetterKind) gtk_drop_down_get_selected (self->choice), on,
                                 gtk_editable_get_text (GTK_EDITABLE (self->remark)));
}

static void
show_new (WbLetterWindow *self)
{
  GDate on;
  g_autofree char *text = NULL;

  g_clear_pointer (&self->letter, wb_letter_free);
  if (wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM, self->claim_id) != NULL
      && read_day (self, &on))
    {
      self->letter = write_letter (self, &on);
      text = wb_letter_to_text (self->letter);
      show_text (self, text);
      show_faults (self);
    }
  enable_actions (self);
}

static void
read_cb (GObject      *object,
         GAsyncResult *result,
         gpointer      data)
{
  g_autoptr (WbLetterWindow) self = WB_LETTER_WINDOW (data);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = wb_office_read_letter_finish (WB_OFFICE (object), result, &error);
  g_autofree char *words = NULL;

  if (self->model == NULL || is_new (self)
      || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  show_text (self, text != NULL ? text : "");
  words = error != NULL ? wb_words_error (error) : NULL;
  show_label (self->faults, words);
}

static void
show_sent (WbLetterWindow *self)
{
  guint place = gtk_drop_down_get_selected (self->choice) - WB_N_LETTERS;

  g_clear_pointer (&self->letter, wb_letter_free);
  show_faults (self);
  enable_actions (self);
  wb_office_read_letter_async (wb_job_model_get_office (self->model),
                               g_ptr_array_index (self->sent, place), self->cancellable, read_cb,
                               g_object_ref (self));
}

static void
show (WbLetterWindow *self)
{
  guint chosen = gtk_drop_down_get_selected (self->choice);

  if (self->model == NULL || chosen == GTK_INVALID_LIST_POSITION)
    return;
  gtk_widget_set_sensitive (GTK_WIDGET (self->inputs), is_new (self));
  if (is_new (self))
    show_new (self);
  else if (chosen - WB_N_LETTERS < self->sent->len)
    show_sent (self);
}

static void
changed_cb (WbLetterWindow *self)
{
  show_label (self->state, NULL);
  if (is_new (self))
    show (self);
}

static void
chosen_cb (WbLetterWindow *self)
{
  if (self->filling)
    return;
  show_label (self->state, NULL);
  show (self);
}

/* --- which letters there are ------------------------------------------------------------------ */

static void
fill_choices (WbLetterWindow *self)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);
  g_autoptr (GPtrArray) steps = wb_letters_sent (wb_job_model_get_job (self->model),
                                                 self->claim_id);

  g_ptr_array_set_size (self->sent, 0);
  for (gsize i = 0; i < wb_letter_kinds.n_values; i++)
    gtk_string_list_append (list, wb_words_enum (&wb_letter_kinds,
                                                 wb_letter_kinds.values[i].value));
  for (guint i = 0; i < steps->len; i++)
    {
      const WbClaimStep *step = g_ptr_array_index (steps, i);
      g_autofree char *on = wb_words_date (&step->on);
      /* Translators: a letter that was sent: its date, and what it is. */
      g_autofree char *name = g_strdup_printf (_("Sent %s: %s"), on,
                                               step->text != NULL ? step->text
                                               : wb_words_enum (&wb_step_kinds, (int) step->kind));

      gtk_string_list_append (list, name);
      g_ptr_array_add (self->sent, g_strdup (step->letter));
    }
  self->filling = TRUE;
  gtk_drop_down_set_model (self->choice, G_LIST_MODEL (list));
  self->filling = FALSE;
}

/* --- deeds ------------------------------------------------------------------------------------ */

static void
kept_cb (GObject      *object,
         GAsyncResult *result,
         gpointer      data)
{
  g_autoptr (WbLetterWindow) self = WB_LETTER_WINDOW (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbKeptLetter) kept = wb_office_keep_letter_finish (WB_OFFICE (object), result, &error);
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbJob) sent = NULL;
  g_autofree char *id = wb_office_new_id ();
  g_autofree char *words = NULL;
  WbJob *job;

  self->sending = FALSE;
  if (self->model == NULL || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  job = wb_job_model_get_job (self->model);
  if (kept == NULL || self->letter == NULL
      || wb_job_find (job, WB_KIND_CLAIM, self->claim_id) == NULL)
    {
      words = error != NULL ? wb_words_error (error) : NULL;
      show_label (self->faults, words);
      enable_actions (self);
      return;
    }
  reckoning = wb_office_reckon (wb_job_model_get_office (self->model), job, self->claim_id, NULL);
  sent = wb_letter_sent (job, self->claim_id, id, self->letter, reckoning, kept, NULL);
  wb_job_model_apply (self->model, sent, self->letter->title);
  gtk_widget_set_sensitive (GTK_WIDGET (self->choice), TRUE);
  fill_choices (self);
  gtk_drop_down_set_selected (self->choice, WB_N_LETTERS + self->sent->len - 1);
  show (self);
  show_label (self->state, _("Marked as sent: the step is noted, and what went out is kept."));
}

/* What is shown is what goes out: when the job has changed meanwhile it is read once more first. */
static void
send_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbLetterWindow *self = WB_LETTER_WINDOW (widget);
  g_autofree char *shown = get_text (self);
  g_autofree char *text = NULL;

  show_new (self);
  text = get_text (self);
  if (self->letter == NULL || self->letter->faults->len > 0)
    return;
  if (!g_str_equal (shown, text))
    {
      show_label (self->state, _("The job has changed meanwhile, and the letter with it. Read it "
                                 "again before it goes out."));
      return;
    }
  self->sending = TRUE;
  gtk_widget_set_sensitive (GTK_WIDGET (self->choice), FALSE);
  gtk_widget_set_sensitive (GTK_WIDGET (self->inputs), FALSE);
  enable_actions (self);
  wb_office_keep_letter_async (wb_job_model_get_office (self->model),
                               wb_job_model_get_job (self->model), self->claim_id,
                               self->letter->kind, &self->letter->on, text, self->cancellable,
                               kept_cb, g_object_ref (self));
}

static void
copy_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  WbLetterWindow *self = WB_LETTER_WINDOW (widget);
  g_autofree char *text = get_text (self);

  gdk_clipboard_set_text (gtk_widget_get_clipboard (widget), text);
  show_label (self->state, _("The letter is copied."));
}

static char *
make_letter (GtkWindow *window)
{
  return get_text (WB_LETTER_WINDOW (window));
}

static void
letter_saved (GtkWindow    *window,
              GFile        *file,
              const GError *error)
{
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *words = NULL;

  if (error == NULL)
    /* Translators: %s is the name of a file. */
    words = g_strdup_printf (_("The letter is in the file “%s”."), name);
  else
    words = wb_words_error (error);
  show_label (WB_LETTER_WINDOW (window)->state, words);
}

static char *
propose_name (WbLetterWindow *self)
{
  const WbClaim *claim = wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM,
                                      self->claim_id);
  GtkStringObject *chosen = gtk_drop_down_get_selected_item (self->choice);
  char *name = g_strdup_printf ("%s %s.txt", claim != NULL ? claim->number : "",
                                gtk_string_object_get_string (chosen));

  return g_strdelimit (name, "/\\:", '-');
}

static void
save_action (GtkWidget  *widget,
             const char *name,
             GVariant   *target)
{
  g_autofree char *proposed = propose_name (WB_LETTER_WINDOW (widget));

  wb_text_save (GTK_WINDOW (widget), _("Save the Letter"), proposed, make_letter, letter_saved);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_letter_window_dispose (GObject *object)
{
  WbLetterWindow *self = WB_LETTER_WINDOW (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->model);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_LETTER_WINDOW);

  G_OBJECT_CLASS (wb_letter_window_parent_class)->dispose (object);
}

static void
wb_letter_window_finalize (GObject *object)
{
  WbLetterWindow *self = WB_LETTER_WINDOW (object);

  g_clear_object (&self->cancellable);
  g_clear_pointer (&self->letter, wb_letter_free);
  g_ptr_array_unref (self->sent);
  g_free (self->claim_id);

  G_OBJECT_CLASS (wb_letter_window_parent_class)->finalize (object);
}

static void
wb_letter_window_class_init (WbLetterWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_letter_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_letter_window_finalize;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-letter-window.ui");
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, title);
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, choice);
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, inputs);
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, day);
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, remark);
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, faults);
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, notes);
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, state);
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, text);
  gtk_widget_class_bind_template_child (widget_class, WbLetterWindow, caution);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);

  gtk_widget_class_install_action (widget_class, "letter.send", NULL, send_action);
  gtk_widget_class_install_action (widget_class, "letter.copy", NULL, copy_action);
  gtk_widget_class_install_action (widget_class, "letter.save", NULL, save_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, GDK_CONTROL_MASK,
                                       "letter.send", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_s, GDK_CONTROL_MASK, "letter.save",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_c,
                                       GDK_CONTROL_MASK | GDK_SHIFT_MASK, "letter.copy", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

/* As they come, a row hides the text box inside and a drop-down gives its button no name. */
static void
name_parts (WbLetterWindow *self)
{
  AdwEntryRow *const rows[] = { self->day, self->remark };
  GtkWidget *button = gtk_widget_get_first_child (GTK_WIDGET (self->choice));

  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Letter"), -1);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (rows[i]));
      const char *title = adw_preferences_row_get_title (ADW_PREFERENCES_ROW (rows[i]));

      g_object_set (rows[i], "accessible-role", GTK_ACCESSIBLE_ROLE_LIST_ITEM, NULL);
      g_object_set (text, "accessible-role", GTK_ACCESSIBLE_ROLE_TEXT_BOX, NULL);
      gtk_accessible_update_property (GTK_ACCESSIBLE (text), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                      -1);
    }
}

static void
wb_letter_window_init (WbLetterWindow *self)
{
  self->cancellable = g_cancellable_new ();
  self->sent = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_init_template (GTK_WIDGET (self));
  name_parts (self);
  gtk_label_set_label (self->caution,
                       _("A letter goes by the terms file and the figures entered. It is not legal "
                         "advice, and the bill of lading and the carrier’s tariff decide. Read it "
                         "before it goes out."));
}

static void
start (WbLetterWindow *self)
{
  const WbClaim *claim = wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM,
                                      self->claim_id);
  g_autofree char *day = NULL;
  GDate today;

  wb_office_today (&today);
  day = wb_date_to_text (&today);
  fill_choices (self);
  adw_window_title_set_subtitle (self->title, claim->number);
  gtk_editable_set_text (GTK_EDITABLE (self->day), day);
  /* The acknowledgement comes first, as long as there is none. */
  gtk_drop_down_set_selected (self->choice,
                              wb_date_is_set (&claim->acknowledged_on) ? WB_LETTER_OFFER
                              : WB_LETTER_ACKNOWLEDGEMENT);
  show (self);
}

GtkWidget *
wb_letter_window_new (GtkWindow  *parent,
                      WbJobModel *model,
                      const char *claim_id)
{
  WbLetterWindow *self;

  g_return_val_if_fail (GTK_IS_WINDOW (parent), NULL);
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);
  g_return_val_if_fail (claim_id != NULL, NULL);

  self = g_object_new (WB_TYPE_LETTER_WINDOW,
                       "transient-for", parent,
                       "destroy-with-parent", TRUE,
                       "modal", TRUE,
                       NULL);
  self->model = g_object_ref (model);
  self->claim_id = g_strdup (claim_id);
  start (self);
  return GTK_WIDGET (self);
}
