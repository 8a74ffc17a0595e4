/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One import at a time; what comes meanwhile waits in a queue. The list of what was refused is a
 * window of its own. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-intake-bar.h"

#include "desk/photos/wb-photo-results.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#define ASK_EVERY_MS 100

typedef struct
{
  GPtrArray *sources;
  char      *piece;
  WbMoment   moment;
} Intake;

struct _WbPhotoIntakeBar
{
  GtkWidget        parent_instance;

  GtkWidget       *revealer;
  GtkLabel        *label;
  GtkProgressBar  *bar;

  WbJobModel      *model;
  GQueue           waiting;      /* of Intake; the first one runs */
  WbProgress      *progress;
  GCancellable    *cancellable;
  guint            timeout;
};

enum
{
  DONE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbPhotoIntakeBar, wb_photo_intake_bar, GTK_TYPE_WIDGET)

static void
intake_free (gpointer data)
{
  Intake *intake = data;

  g_ptr_array_unref (intake->sources);
  g_free (intake->piece);
  g_free (intake);
}

/* --- how far it is ---------------------------------------------------------------------------- */

static gboolean
ask_cb (gpointer data)
{
  WbPhotoIntakeBar *self = data;
  WbProgressState state;
  g_autofree char *read = NULL, *all = NULL, *words = NULL;

  wb_progress_get (self->progress, &state);
  if (state.n_all == 0)
    {
      gtk_label_set_label (self->label, _("Looking for pictures…"));
      gtk_progress_bar_pulse (self->bar);
      return G_SOURCE_CONTINUE;
    }

  read = g_format_size ((guint64) state.done);
  all = g_format_size ((guint64) state.all);
  /* Translators: files done and all of them, then the same as sizes: "12 of 200 files, 34 MB of 600
   * MB". */
  words = g_strdup_printf (_("%u of %u files, %s of %s"), state.n_done, state.n_all, read, all);
  gtk_label_set_label (self->label, words);
  gtk_progress_bar_set_fraction (self->bar,
                                 state.all > 0
                                   ? MIN (1, (double) state.done / (double) state.all) : 0);
  return G_SOURCE_CONTINUE;
}

/* --- the end ---------------------------------------------------------------------------------- */

/* The records are nobody's yet, so they may still be written. */
static void
put_into_job (WbPhotoIntakeBar *self,
              const Intake     *intake,
              GPtrArray        *records)
{
  WbJob *job = wb_job_model_get_job (self->model);
  g_autoptr (WbJob) with = NULL;

  for (guint i = 0; i < records->len; i++)
    {
      WbPhoto *photo = g_ptr_array_index (records, i);

      /* The piece may have been removed meanwhile. */
      if (intake->piece != NULL && wb_job_find (job, WB_KIND_PIECE, intake->piece) != NULL)
        wb_set_text (&photo->piece, intake->piece);
      photo->moment = intake->moment;
    }
  with = wb_job_with_many (job, records);
  wb_job_model_apply (self->model, with, _("Take in photos"));
}

static void
tell (WbPhotoIntakeBar *self,
      const char       *words)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "photos.say", "s", words);
}

static void
finish (WbPhotoIntakeBar *self,
        const Intake     *intake,
        GPtrArray        *results)
{
  guint counts[5] = { 0 };
  g_autoptr (GPtrArray) records = wb_photo_results_records (results, counts);
  g_autofree char *words = wb_photo_results_words (results);
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (records->len > 0)
    put_into_job (self, intake, records);
  if (records->len == 0 || !gtk_widget_activate_action (GTK_WIDGET (self), "job.tell", "s", words))
    tell (self, words);
  if (root != NULL && wb_photo_results_has_more (results))
    wb_photo_results_show (GTK_WINDOW (root), results);
}

static void start_next (WbPhotoIntakeBar *self);

static void
taken_cb (GObject      *object,
          GAsyncResult *result,
          gpointer      data)
{
  g_autoptr (WbPhotoIntakeBar) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) results = wb_office_take_photos_finish (WB_OFFICE (object), result, &error);
  Intake *intake = g_queue_pop_head (&self->waiting);

  g_clear_handle_id (&self->timeout, g_source_remove);
  g_clear_pointer (&self->progress, wb_progress_unref);
  g_clear_object (&self->cancellable);

  /* What was stored goes into the job even when the page is gone. */
  if (results != NULL)
    {
      finish (self, intake, results);
    }
  else
    {
      g_autofree char *words = wb_words_error (error);

      tell (self, words);
    }
  intake_free (intake);
  g_signal_emit (self, signals[DONE], 0);
  start_next (self);
}

/* --- the start -------------------------------------------------------------------------------- */

static void
start_next (WbPhotoIntakeBar *self)
{
  const Intake *intake = g_queue_peek_head (&self->waiting);

  if (self->revealer != NULL)
    gtk_revealer_set_reveal_child (GTK_REVEALER (self->revealer), intake != NULL);
  if (intake == NULL || self->revealer == NULL)
    return;

  self->progress = wb_progress_new ();
  self->cancellable = g_cancellable_new ();
  gtk_progress_bar_set_fraction (self->bar, 0);
  ask_cb (self);
  self->timeout = g_timeout_add (ASK_EVERY_MS, ask_cb, self);
  wb_office_take_photos_async (wb_job_model_get_office (self->model),
                               wb_job_model_get_job (self->model), intake->sources, self->progress,
                               self->cancellable, taken_cb, g_object_ref (self));
}

void
wb_photo_intake_bar_take (WbPhotoIntakeBar *self,
                          GPtrArray        *sources,
                          const char       *piece,
                          WbMoment          moment)
{
  Intake *intake = g_new0 (Intake, 1);

  g_return_if_fail (WB_IS_PHOTO_INTAKE_BAR (self));

  intake->sources = sources;
  intake->piece = g_strdup (piece);
  intake->moment = moment;
  g_queue_push_tail (&self->waiting, intake);
  if (self->waiting.length == 1)
    start_next (self);
}

void
wb_photo_intake_bar_stop (WbPhotoIntakeBar *self)
{
  /* What waits behind it was not asked to be stopped, but a person who stops wants peace. */
  while (self->waiting.length > 1)
    intake_free (g_queue_pop_tail (&self->waiting));
  g_cancellable_cancel (self->cancellable);
}

gboolean
wb_photo_intake_bar_is_running (WbPhotoIntakeBar *self)
{
  return self->waiting.length > 0;
}

/* --- making ----------------------------------------------------------------------------------- */

static void
wb_photo_intake_bar_dispose (GObject *object)
{
  WbPhotoIntakeBar *self = WB_PHOTO_INTAKE_BAR (object);

  g_cancellable_cancel (self->cancellable);
  g_clear_handle_id (&self->timeout, g_source_remove);
  g_clear_pointer (&self->revealer, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_photo_intake_bar_parent_class)->dispose (object);
}

static void
wb_photo_intake_bar_finalize (GObject *object)
{
  WbPhotoIntakeBar *self = WB_PHOTO_INTAKE_BAR (object);

  g_queue_clear_full (&self->waiting, intake_free);
  g_clear_pointer (&self->progress, wb_progress_unref);
  g_clear_object (&self->cancellable);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_photo_intake_bar_parent_class)->finalize (object);
}

static void
wb_photo_intake_bar_class_init (WbPhotoIntakeBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_photo_intake_bar_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_photo_intake_bar_finalize;
  signals[DONE] = g_signal_new ("done", WB_TYPE_PHOTO_INTAKE_BAR, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
wb_photo_intake_bar_init (WbPhotoIntakeBar *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *stop = gtk_button_new_with_mnemonic (_("S_top"));

  g_queue_init (&self->waiting);
  self->label = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_xalign (self->label, 0);
  gtk_label_set_wrap (self->label, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self->label), "numeric");
  self->bar = GTK_PROGRESS_BAR (gtk_progress_bar_new ());
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->bar), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Taking in photos"), -1);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (stop, GTK_ALIGN_CENTER);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (stop), "photos.stop");
  gtk_box_append (GTK_BOX (words), GTK_WIDGET (self->label));
  gtk_box_append (GTK_BOX (words), GTK_WIDGET (self->bar));
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box), stop);
  gtk_widget_add_css_class (box, "toolbar");
  self->revealer = gtk_revealer_new ();
  gtk_revealer_set_child (GTK_REVEALER (self->revealer), box);
  gtk_widget_set_parent (self->revealer, GTK_WIDGET (self));
}

GtkWidget *
wb_photo_intake_bar_new (WbJobModel *model)
{
  WbPhotoIntakeBar *self = g_object_new (WB_TYPE_PHOTO_INTAKE_BAR, NULL);

  self->model = g_object_ref (model);
  return GTK_WIDGET (self);
}
