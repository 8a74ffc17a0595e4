/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The way of each deed from the wish to what came of it. Sending, fetching and merging are office's;
 * which window shows what is said here. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-share-deeds.h"

#include "desk/share/wb-desk-queue.h"
#include "desk/share/wb-merge-window.h"
#include "desk/share/wb-server-choice.h"
#include "desk/share/wb-share-mend.h"
#include "desk/widgets/wb-passage.h"
#include "office/wb-publish-compare.h"
#include "office/wb-words-share.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- what all deeds share --------------------------------------------------------------------- */

typedef struct
{
  WbWindow      *window;
  GtkWindow     *over;
  WbOpenJobs    *open_jobs;
  char          *server_id;    /* (nullable): until one is chosen */
  char          *job_id;
  char          *title;
  WbPassage     *way;          /* (nullable): while somebody waits */
  WbComparison  *comparison;   /* (nullable): while somebody decides */
  WbMergeChoice  whole;        /* the side that was taken as it is */
} Deed;

static Deed *
deed_new (WbWindow   *window,
          GtkWindow  *over,
          const char *server_id,
          const char *job_id,
          const char *title)
{
  Deed *self = g_new0 (Deed, 1);

  self->window = g_object_ref (window);
  self->over = g_object_ref (over);
  self->open_jobs = g_object_ref (wb_window_get_open_jobs (window));
  self->server_id = g_strdup (server_id);
  self->job_id = g_strdup (job_id);
  self->title = g_strdup (title);
  return self;
}

static void
deed_free (gpointer data)
{
  Deed *self = data;

  g_clear_pointer (&self->way, wb_passage_free);
  g_clear_pointer (&self->comparison, wb_comparison_unref);
  g_object_unref (self->open_jobs);
  g_object_unref (self->over);
  g_object_unref (self->window);
  g_free (self->server_id);
  g_free (self->job_id);
  g_free (self->title);
  g_free (self);
}

/* For who chooses a server; @self goes on by itself. */
static Deed *
deed_copy (const Deed *self)
{
  return deed_new (self->window, self->over, self->server_id, self->job_id, self->title);
}

static WbOffice *
office_of (const Deed *self)
{
  return wb_open_jobs_get_office (self->open_jobs);
}

/* Returns: whether what came of it can be shown still: the window shows the same book. */
static gboolean
is_shown (const Deed *self)
{
  return gtk_widget_get_realized (GTK_WIDGET (self->window)) &&
         wb_window_get_open_jobs (self->window) == self->open_jobs;
}

static GtkWindow *
over_of (const Deed *self)
{
  return gtk_widget_get_realized (GTK_WIDGET (self->over)) ? self->over
                                                           : GTK_WINDOW (self->window);
}

static void
tell (GtkWindow  *over,
      const char *heading,
      const char *body)
{
  GtkWidget *dialog = adw_message_dialog_new (over, heading, body);

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _("_Close"));
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "close");
  gtk_window_present (GTK_WINDOW (dialog));
}

/* Nobody has to be told that something stopped which they stopped. Ends the deed. */
static void
fail (Deed         *self,
      const char   *heading,
      const GError *error)
{
  if (is_shown (self) && !g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      g_autofree char *words = wb_words_error (error);

      tell (over_of (self), heading, words);
    }
  deed_free (self);
}

static void
show_standing (Deed *self)
{
  WbJobPage *page = is_shown (self) ? wb_window_get_job_page (self->window) : NULL;

  if (page != NULL)
    wb_job_page_ask_servers (page);
}

/* --- publishing ------------------------------------------------------------------------------- */

static void
added_cb (GObject      *object,
          GAsyncResult *result,
          gpointer      data)
{
  Deed *self = data;
  g_autoptr (GError) error = NULL;

  if (wb_queue_add_finish (WB_QUEUE (object), result, &error) == 0)
    fail (self, _("The Job Cannot Be Published"), error);
  else
    deed_free (self);
}

static void
queue_publishing (Deed *self)
{
  wb_desk_queue_start (office_of (self));
  wb_queue_add_async (wb_desk_queue_get (office_of (self)), WB_SHARE_DEED_PUBLISH, self->server_id,
                      self->job_id, self->title, NULL, added_cb, self);
}

static void
flushed_to_publish_cb (GObject      *object,
                       GAsyncResult *result,
                       gpointer      data)
{
  Deed *self = data;
  g_autoptr (GError) error = NULL;

  if (!wb_open_jobs_flush_finish (self->open_jobs, result, &error))
    fail (self, _("The Job Cannot Be Published"), error);
  else
    queue_publishing (self);
}

static void
publish_on_cb (const char *server_id,
               gpointer    data)
{
  Deed *self = deed_copy (data);

  g_free (self->server_id);
  self->server_id = g_strdup (server_id);
  wb_open_jobs_flush_async (self->open_jobs, NULL, flushed_to_publish_cb, self);
}

void
wb_share_publish (WbWindow   *window,
                  const char *server_id,
                  const char *job_id,
                  const char *title)
{
  Deed *self;

  g_return_if_fail (WB_IS_WINDOW (window));
  g_return_if_fail (job_id != NULL && title != NULL);

  self = deed_new (window, GTK_WINDOW (window), server_id, job_id, title);
  if (server_id == NULL)
    {
      wb_server_choose (window, _("Publish on Which Server?"), _("_Publish"), publish_on_cb, self,
                        deed_free);
      return;
    }
  publish_on_cb (server_id, self);
  deed_free (self);
}

/* --- bringing in: what was decided ------------------------------------------------------------ */

static void look (Deed *self);

static void
merged_stored_cb (GObject      *object,
                  GAsyncResult *result,
                  gpointer      data)
{
  Deed *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_store_merged_finish (WB_OFFICE (object), result, &error);
  gboolean more = wb_comparison_get_n_others (self->comparison) > 0;

  g_clear_pointer (&self->way, wb_passage_free);
  if (job == NULL)
    {
      fail (self, _("What Was Decided Cannot Be Stored"), error);
      return;
    }
  wb_open_jobs_refresh (self->open_jobs);
  g_clear_pointer (&self->comparison, wb_comparison_unref);
  if (!is_shown (self))
    {
      deed_free (self);
      return;
    }
  if (more)
    {
      look (self);
      return;
    }
  show_standing (self);
  queue_publishing (self);
}

static void
store_merged (Deed *self)
{
  self->way = wb_passage_new (over_of (self), self->title);
  wb_office_store_merged_async (office_of (self), self->comparison, self->whole, NULL,
                                wb_passage_get_progress (self->way),
                                wb_passage_get_cancellable (self->way), merged_stored_cb, self);
}

#define MERGED_KEY "wb-share-merged"

static void
merged_cb (GtkWidget *merging,
           WbJob     *job,
           Deed      *self)
{
  g_object_set_data (G_OBJECT (merging), MERGED_KEY, GINT_TO_POINTER (TRUE));
  self->whole = wb_merge_window_get_whole (WB_MERGE_WINDOW (merging));
}

/* Not before the window has gone: then nobody decides any more. */
static void
merging_gone_cb (GtkWidget *merging,
                 Deed      *self)
{
  if (g_object_get_data (G_OBJECT (merging), MERGED_KEY) != NULL && is_shown (self))
    store_merged (self);
  else
    deed_free (self);
}

static void
show_merging (Deed *self)
{
  const char *by = wb_comparison_get_by (self->comparison);
  const char *at_text = wb_comparison_get_at (self->comparison);
  g_autofree char *at = wb_words_at (at_text != NULL ? at_text : "");
  /* Translators: a job number, who published it, and when. */
  g_autofree char *about = g_strdup_printf (_("%s: what is there was published by %s on %s."),
                                            self->title, by != NULL ? by : _("somebody"), at);
  GtkWidget *merging = wb_merge_window_new_published (self->comparison, about);

  gtk_window_set_modal (GTK_WINDOW (merging), TRUE);
  gtk_window_set_transient_for (GTK_WINDOW (merging), over_of (self));
  gtk_window_set_destroy_with_parent (GTK_WINDOW (merging), TRUE);
  g_signal_connect (merging, "merged", G_CALLBACK (merged_cb), self);
  g_signal_connect (merging, "destroy", G_CALLBACK (merging_gone_cb), self);
  gtk_window_present (GTK_WINDOW (merging));
}

/* --- bringing in: what is there --------------------------------------------------------------- */

static void
compared_cb (GObject      *object,
             GAsyncResult *result,
             gpointer      data)
{
  Deed *self = data;
  g_autoptr (GError) error = NULL;

  self->comparison = wb_office_compare_published_finish (WB_OFFICE (object), result, &error);
  g_clear_pointer (&self->way, wb_passage_free);
  if (self->comparison == NULL)
    fail (self, _("The Versions Cannot Be Compared"), error);
  else if (!is_shown (self))
    deed_free (self);
  else
    show_merging (self);
}

static void
fetched_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  Deed *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_fetch_finish (WB_OFFICE (object), result, &error);

  g_clear_pointer (&self->way, wb_passage_free);
  if (job == NULL)
    {
      fail (self, _("The Job Cannot Be Fetched"), error);
      return;
    }
  wb_open_jobs_refresh (self->open_jobs);
  if (is_shown (self))
    {
      gtk_window_present (GTK_WINDOW (self->window));
      wb_window_open_job (self->window, self->job_id);
      show_standing (self);
    }
  deed_free (self);
}

static void
fetch (Deed *self)
{
  wb_office_fetch_async (office_of (self), self->server_id, NULL, self->job_id, WB_MERGE_UNDECIDED,
                         wb_passage_get_progress (self->way),
                         wb_passage_get_cancellable (self->way), fetched_cb, self);
}

static void
compare (Deed *self)
{
  wb_office_compare_published_async (office_of (self), self->server_id, NULL, self->job_id,
                                     wb_passage_get_progress (self->way),
                                     wb_passage_get_cancellable (self->way), compared_cb, self);
}

/* Whatever differs on both sides is looked at by a person, also where it could be put together. */
static void
go_on (Deed                  *self,
       const WbPublishStatus *status)
{
  switch (status->state)
    {
    case WB_PUBLISH_NEVER:
      wb_passage_end (self->way);
      tell (over_of (self), _("Nothing to Fetch"), _("The job was never published there."));
      break;
    case WB_PUBLISH_SAME:
      wb_passage_end (self->way);
      tell (over_of (self), _("Nothing to Fetch"), _("The job is here as it was published."));
      break;
    case WB_PUBLISH_CHANGED_HERE:
      if (status->n_heads > 1)
        {
          compare (self);
          return;
        }
      wb_passage_end (self->way);
      tell (over_of (self), _("Nothing to Fetch"),
            _("The job was changed here and not there. Publish it."));
      break;
    case WB_PUBLISH_CHANGED_THERE:
      fetch (self);
      return;
    case WB_PUBLISH_CHANGED_BOTH:
      compare (self);
      return;
    }
  show_standing (self);
  deed_free (self);
}

static void
looked_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  Deed *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPublishStatus) status = wb_office_publish_status_finish (WB_OFFICE (object), result,
                                                                        &error);

  if (status == NULL)
    {
      g_clear_pointer (&self->way, wb_passage_free);
      fail (self, _("The Server Cannot Be Asked"), error);
    }
  else if (!is_shown (self))
    {
      deed_free (self);
    }
  else
    {
      go_on (self, status);
    }
}

/* How it stands decides what is to be done. */
static void
look (Deed *self)
{
  self->way = wb_passage_new (over_of (self), self->title);
  wb_office_publish_status_async (office_of (self), self->server_id, NULL, self->job_id,
                                  wb_passage_get_cancellable (self->way), looked_cb, self);
}

static void
flushed_to_bring_cb (GObject      *object,
                     GAsyncResult *result,
                     gpointer      data)
{
  Deed *self = data;
  g_autoptr (GError) error = NULL;

  if (!wb_open_jobs_flush_finish (self->open_jobs, result, &error))
    fail (self, _("The Job Cannot Be Fetched"), error);
  else if (!is_shown (self))
    deed_free (self);
  else
    look (self);
}

static void
bring_from_cb (const char *server_id,
               gpointer    data)
{
  Deed *self = deed_copy (data);

  g_free (self->server_id);
  self->server_id = g_strdup (server_id);
  wb_open_jobs_flush_async (self->open_jobs, NULL, flushed_to_bring_cb, self);
}

void
wb_share_bring (WbWindow   *window,
                GtkWindow  *over,
                const char *server_id,
                const char *job_id,
                const char *title)
{
  Deed *self;

  g_return_if_fail (WB_IS_WINDOW (window) && GTK_IS_WINDOW (over));
  g_return_if_fail (job_id != NULL && title != NULL);

  self = deed_new (window, over, server_id, job_id, title);
  if (server_id == NULL)
    {
      wb_server_choose (window, _("Fetch from Which Server?"), _("_Fetch"), bring_from_cb, self,
                        deed_free);
      return;
    }
  bring_from_cb (server_id, self);
  deed_free (self);
}

/* --- checking --------------------------------------------------------------------------------- */

typedef struct
{
  WbPassage *way;
  char      *title;
} Check;

static void
checked_cb (GObject      *object,
            GAsyncResult *result,
            gpointer      data)
{
  g_autofree Check *check = data;
  g_autofree char *title = check->title;
  g_autoptr (WbPassage) way = check->way;
  g_autoptr (GError) error = NULL;
  guint n_files = 0;
  g_autoptr (GPtrArray) faults = wb_office_verify_published_finish (WB_OFFICE (object), result,
                                                                    &n_files, &error);
  g_autofree char *words = NULL;

  wb_passage_end (way);
  if (!wb_passage_has_window (way) || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  words = faults != NULL ? wb_words_verified (faults, n_files) : wb_words_error (error);
  tell (wb_passage_get_window (way), title, words);
}

void
wb_share_verify (GtkWindow  *over,
                 WbOffice   *office,
                 const char *server_id,
                 const char *job_id,
                 const char *title)
{
  Check *check;

  g_return_if_fail (GTK_IS_WINDOW (over) && WB_IS_OFFICE (office));
  g_return_if_fail (server_id != NULL && job_id != NULL && title != NULL);

  check = g_new0 (Check, 1);
  check->title = g_strdup (title);
  check->way = wb_passage_new (over, title);
  wb_office_verify_published_async (office, server_id, NULL, job_id,
                                    wb_passage_get_progress (check->way),
                                    wb_passage_get_cancellable (check->way), checked_cb, check);
}
