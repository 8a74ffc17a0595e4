/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathers what a report over claims is made of. Adds nothing up and says nothing in words. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-claim-report.h"

#include "office/wb-gather.h"
#include "office/wb-office-private.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#include <string.h>

/* --- progress --------------------------------------------------------------------------------- */

struct _WbReportProgress
{
  gatomicrefcount references;
  gint            n_done;   /* atomic, both */
  gint            n_all;
};

WbReportProgress *
wb_report_progress_new (void)
{
  WbReportProgress *self = g_new0 (WbReportProgress, 1);

  g_atomic_ref_count_init (&self->references);
  return self;
}

WbReportProgress *
wb_report_progress_ref (WbReportProgress *self)
{
  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_report_progress_unref (WbReportProgress *self)
{
  if (g_atomic_ref_count_dec (&self->references))
    g_free (self);
}

void
wb_report_progress_get (WbReportProgress *self,
                        guint            *n_done,
                        guint            *n_all)
{
  *n_done = (guint) g_atomic_int_get (&self->n_done);
  *n_all = (guint) g_atomic_int_get (&self->n_all);
}

/* --- gathering -------------------------------------------------------------------------------- */

typedef struct
{
  WbOffice         *office;
  WbClaimReport    *report;
  GArray           *open_rows;
  WbReportProgress *progress;   /* (nullable) */
} Gathering;

void
wb_claim_report_free (WbClaimReport *self)
{
  if (self == NULL)
    return;

  g_ptr_array_unref (self->lines);
  g_ptr_array_unref (self->moved);
  g_clear_pointer (&self->open, g_array_unref);
  g_ptr_array_unref (self->faults);
  g_free (self);
}

static WbClaimReport *
claim_report_new (void)
{
  WbClaimReport *self = g_new0 (WbClaimReport, 1);

  self->lines = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_loss_line_free);
  self->moved = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_loss_moved_free);
  self->faults = g_ptr_array_new_with_free_func (g_free);
  return self;
}

static void
tell (guint    n_done,
      guint    n_all,
      gpointer data)
{
  Gathering *gathering = data;

  if (gathering->progress == NULL)
    return;
  g_atomic_int_set (&gathering->progress->n_done, (gint) n_done);
  g_atomic_int_set (&gathering->progress->n_all, (gint) n_all);
}

static gboolean
has_claims (const WbJobSummary *summary,
            gpointer            data)
{
  return summary->claims != NULL;
}

static void
add_fault (Gathering     *gathering,
           const WbClaim *claim,
           const GError  *failure)
{
  g_autofree char *words = wb_words_error (failure);

  g_ptr_array_add (gathering->report->faults,
                   /* Translators: a claim number, then a whole sentence that says what is wrong. */
                   g_strdup_printf (_("Claim %s: %s"),
                                    claim->number != NULL ? claim->number : "–", words));
}

/* A claim that cannot be reckoned is told of, and what it says of itself still counts. */
static gboolean
take_claim (Gathering      *gathering,
            WbJob          *job,
            const WbClaim  *claim,
            GError        **error)
{
  g_autoptr (GError) failure = NULL;
  g_autoptr (WbReckoning) reckoning = wb_office_reckon (gathering->office, job, claim->record.id,
                                                        &failure);
  g_autoptr (WbApportionment) shares = NULL;
  WbClaimRow row;

  if (reckoning != NULL && wb_claim_is_finished (claim))
    shares = wb_apportion (reckoning, WB_APPORTION_LAST, &failure);
  if (failure != NULL)
    add_fault (gathering, claim, failure);
  if (wb_claim_is_finished (claim))
    return wb_loss_lines_add (gathering->report->lines, job, claim, shares,
                              wb_office_get_catalog (gathering->office), error);

  if (!wb_claim_row_read (job, claim, reckoning, &row, error))
    return FALSE;
  g_array_append_val (gathering->open_rows, row);
  return TRUE;
}

static gboolean
take_job (WbOffice            *self,
          const WbJobSummary  *summary,
          WbJob               *job,
          gpointer             data,
          GError             **error)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    {
      if (!take_claim (data, job, wb_job_nth (job, WB_KIND_CLAIM, i), error))
        {
          g_prefix_error (error, "%s: ", summary->number != NULL ? summary->number : summary->id);
          return FALSE;
        }
    }
  return TRUE;
}

static void
take_moved (const WbMovedPieces *pieces,
            gpointer             data)
{
  Gathering *gathering = data;
  WbLossMoved *row = g_new0 (WbLossMoved, 1);
  g_autofree char *crew = pieces->crew != NULL ? g_strstrip (g_strdup (pieces->crew)) : NULL;

  g_strlcpy (row->currency, pieces->currency, sizeof row->currency);
  row->delivered_on = pieces->delivered_on;
  row->n = pieces->n;
  wb_loss_keys_of_piece (wb_office_get_catalog (gathering->office), pieces->form, pieces->carton,
                         pieces->packed_by, pieces->packer, pieces->room, row->keys);
  row->keys[WB_LOSS_BY_CREW] = g_steal_pointer (&crew);
  row->keys[WB_LOSS_BY_LANE] = wb_loss_lane (pieces->from_region, pieces->to_region);
  g_ptr_array_add (gathering->report->moved, row);
}

WbClaimReport *
wb_office_claim_report (WbOffice          *self,
                        WbReportProgress  *progress,
                        GCancellable      *cancellable,
                        GError           **error)
{
  g_autoptr (WbClaimReport) report = claim_report_new ();
  g_autoptr (GArray) open_rows = g_array_new (FALSE, FALSE, sizeof (WbClaimRow));
  Gathering gathering = { self, report, open_rows, progress };

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  if (!wb_gather_jobs (self, has_claims, take_job, tell, &gathering, cancellable, error) ||
      !wb_book_scan_moved_pieces (wb_office_get_book (self), take_moved, &gathering, cancellable,
                                  error))
    return NULL;
  report->open = wb_claim_totals (open_rows, error);
  return report->open != NULL ? g_steal_pointer (&report) : NULL;
}

/* --- in a worker thread ----------------------------------------------------------------------- */

static void
run_report (GTask        *task,
            gpointer      source,
            gpointer      task_data,
            GCancellable *cancellable)
{
  GError *error = NULL;
  WbClaimReport *report = wb_office_claim_report (source, task_data, cancellable, &error);

  if (report != NULL)
    g_task_return_pointer (task, report, (GDestroyNotify) wb_claim_report_free);
  else
    g_task_return_error (task, error);
}

void
wb_office_claim_report_async (WbOffice            *self,
                              WbReportProgress    *progress,
                              GCancellable        *cancellable,
                              GAsyncReadyCallback  callback,
                              gpointer             data)
{
  g_autoptr (GTask) task = NULL;

  g_return_if_fail (WB_IS_OFFICE (self));

  task = g_task_new (self, cancellable, callback, data);
  g_task_set_source_tag (task, wb_office_claim_report_async);
  if (progress != NULL)
    g_task_set_task_data (task, wb_report_progress_ref (progress),
                          (GDestroyNotify) wb_report_progress_unref);
  g_task_run_in_thread (task, run_report);
}

WbClaimReport *
wb_office_claim_report_finish (WbOffice      *self,
                               GAsyncResult  *result,
                               GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, self), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}
