/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deeds on jobs: list, load, find, store, open a new one, number a claim, read the history.
 * Each stands here in its blocking form; its _async form hands that to a worker thread. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-office.h"

#include "core/wb-core.h"
#include "office/wb-office-private.h"

#include <glib/gi18n.h>

static void
unref_array (gpointer array)
{
  g_ptr_array_unref (array);
}

static void
unref_job (gpointer job)
{
  wb_job_unref (job);
}

static WbDeed *
deed_new (WbDeedFunc      run,
          GDestroyNotify  free_result)
{
  WbDeed *deed = g_new0 (WbDeed, 1);

  deed->run = run;
  deed->free_result = free_result;
  return deed;
}

/* --- list ------------------------------------------------------------------------------------- */

GPtrArray *
wb_office_list_jobs (WbOffice      *self,
                     const char    *query,
                     guint          limit,
                     GCancellable  *cancellable,
                     GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  return wb_book_list_jobs (wb_office_get_book (self), query, limit, cancellable, error);
}

static gpointer
run_list_jobs (WbOffice      *self,
               const WbDeed  *deed,
               GCancellable  *cancellable,
               GError       **error)
{
  return wb_office_list_jobs (self, deed->text, deed->limit, cancellable, error);
}

void
wb_office_list_jobs_async (WbOffice            *self,
                           const char          *query,
                           guint                limit,
                           GCancellable        *cancellable,
                           GAsyncReadyCallback  callback,
                           gpointer             data)
{
  WbDeed *deed;

  g_return_if_fail (WB_IS_OFFICE (self));

  deed = deed_new (run_list_jobs, unref_array);
  deed->text = g_strdup (query);
  deed->limit = limit;
  wb_office_start (self, deed, wb_office_list_jobs_async, cancellable, callback, data);
}

GPtrArray *
wb_office_list_jobs_finish (WbOffice      *self,
                            GAsyncResult  *result,
                            GError       **error)
{
  return wb_office_finish (self, result, wb_office_list_jobs_async, error);
}

/* --- load and find ---------------------------------------------------------------------------- */

WbJob *
wb_office_load_job (WbOffice      *self,
                    const char    *id,
                    GCancellable  *cancellable,
                    GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (id != NULL, NULL);

  return wb_book_load_job (wb_office_get_book (self), id, cancellable, error);
}

static gpointer
run_load_job (WbOffice      *self,
              const WbDeed  *deed,
              GCancellable  *cancellable,
              GError       **error)
{
  return wb_office_load_job (self, deed->text, cancellable, error);
}

void
wb_office_load_job_async (WbOffice            *self,
                          const char          *id,
                          GCancellable        *cancellable,
                          GAsyncReadyCallback  callback,
                          gpointer             data)
{
  WbDeed *deed;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (id != NULL);

  deed = deed_new (run_load_job, unref_job);
  deed->text = g_strdup (id);
  wb_office_start (self, deed, wb_office_load_job_async, cancellable, callback, data);
}

WbJob *
wb_office_load_job_finish (WbOffice      *self,
                           GAsyncResult  *result,
                           GError       **error)
{
  return wb_office_finish (self, result, wb_office_load_job_async, error);
}

WbJob *
wb_office_find_job (WbOffice      *self,
                    const char    *number,
                    GCancellable  *cancellable,
                    GError       **error)
{
  g_autofree char *id = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (number != NULL, NULL);

  id = wb_book_find_job (wb_office_get_book (self), number, cancellable, error);
  if (id == NULL)
    return NULL;

  return wb_book_load_job (wb_office_get_book (self), id, cancellable, error);
}

/* --- store ------------------------------------------------------------------------------------ */

WbJob *
wb_office_save_job (WbOffice      *self,
                    WbJob         *base,
                    WbJob         *job,
                    const char    *deed,
                    GCancellable  *cancellable,
                    GError       **error)
{
  WbJob *saved;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (deed != NULL, NULL);

  if (!wb_job_check (job, error))
    return NULL;

  saved = wb_book_save_job (wb_office_get_book (self), base, job, deed, cancellable, error);
  if (saved != NULL)
    wb_office_emit_job_saved (self, wb_job_get_id (saved));

  return saved;
}

static gpointer
run_save_job (WbOffice      *self,
              const WbDeed  *deed,
              GCancellable  *cancellable,
              GError       **error)
{
  return wb_office_save_job (self, deed->base, deed->job, deed->text, cancellable, error);
}

void
wb_office_save_job_async (WbOffice            *self,
                          WbJob               *base,
                          WbJob               *job,
                          const char          *deed,
                          GCancellable        *cancellable,
                          GAsyncReadyCallback  callback,
                          gpointer             data)
{
  WbDeed *saving;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (job != NULL);
  g_return_if_fail (deed != NULL);

  saving = deed_new (run_save_job, unref_job);
  saving->base = base != NULL ? wb_job_ref (base) : NULL;
  saving->job = wb_job_ref (job);
  saving->text = g_strdup (deed);
  wb_office_start (self, saving, wb_office_save_job_async, cancellable, callback, data);
}

WbJob *
wb_office_save_job_finish (WbOffice      *self,
                           GAsyncResult  *result,
                           GError       **error)
{
  return wb_office_finish (self, result, wb_office_save_job_async, error);
}

gboolean
wb_office_add_jobs (WbOffice      *self,
                    GPtrArray     *jobs,
                    const char    *deed,
                    GCancellable  *cancellable,
                    GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);
  g_return_val_if_fail (jobs != NULL, FALSE);
  g_return_val_if_fail (deed != NULL, FALSE);

  for (guint i = 0; i < jobs->len; i++)
    {
      if (!wb_job_check (g_ptr_array_index (jobs, i), error))
        {
          g_prefix_error (error, "job %s: ", wb_job_get_id (g_ptr_array_index (jobs, i)));
          return FALSE;
        }
    }

  if (!wb_book_add_jobs (wb_office_get_book (self), jobs, deed, cancellable, error))
    return FALSE;

  for (guint i = 0; i < jobs->len; i++)
    wb_office_emit_job_saved (self, wb_job_get_id (g_ptr_array_index (jobs, i)));

  return TRUE;
}

/* --- new jobs and numbers --------------------------------------------------------------------- */

/* The next number such as "J-2026-0001", counted by the year of today. */
static char *
next_number (WbOffice      *self,
             const char    *letter,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autofree char *prefix = NULL;
  GDate today;

  wb_office_today (&today);
  prefix = g_strdup_printf ("%s-%04d-", letter, g_date_get_year (&today));

  return wb_book_next_number (wb_office_get_book (self), prefix, cancellable, error);
}

WbJob *
wb_office_create_job (WbOffice      *self,
                      const char    *currency,
                      GCancellable  *cancellable,
                      GError       **error)
{
  g_autofree char *id = NULL;
  g_autofree char *number = NULL;
  g_autoptr (WbJob) empty = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbOrder) order = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (currency != NULL, NULL);

  if (wb_currency_digits (currency) < 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "“%s” is not the code of a currency that is known here", currency);
      return NULL;
    }

  number = next_number (self, "J", cancellable, error);
  if (number == NULL)
    return NULL;

  id = wb_office_new_id ();
  empty = wb_job_new (id, currency);
  order = wb_record_copy (wb_job_order (empty));
  wb_set_text (&order->number, number);
  job = wb_job_with (empty, order);

  return wb_office_save_job (self, NULL, job, _("Open job"), cancellable, error);
}

static gpointer
run_create_job (WbOffice      *self,
                const WbDeed  *deed,
                GCancellable  *cancellable,
                GError       **error)
{
  return wb_office_create_job (self, deed->text, cancellable, error);
}

void
wb_office_create_job_async (WbOffice            *self,
                            const char          *currency,
                            GCancellable        *cancellable,
                            GAsyncReadyCallback  callback,
                            gpointer             data)
{
  WbDeed *deed;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (currency != NULL);

  deed = deed_new (run_create_job, unref_job);
  deed->text = g_strdup (currency);
  wb_office_start (self, deed, wb_office_create_job_async, cancellable, callback, data);
}

WbJob *
wb_office_create_job_finish (WbOffice      *self,
                             GAsyncResult  *result,
                             GError       **error)
{
  return wb_office_finish (self, result, wb_office_create_job_async, error);
}

char *
wb_office_next_claim_number (WbOffice      *self,
                             GCancellable  *cancellable,
                             GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  return next_number (self, "C", cancellable, error);
}

static gpointer
run_next_claim_number (WbOffice      *self,
                       const WbDeed  *deed,
                       GCancellable  *cancellable,
                       GError       **error)
{
  return wb_office_next_claim_number (self, cancellable, error);
}

void
wb_office_next_claim_number_async (WbOffice            *self,
                                   GCancellable        *cancellable,
                                   GAsyncReadyCallback  callback,
                                   gpointer             data)
{
  g_return_if_fail (WB_IS_OFFICE (self));

  wb_office_start (self, deed_new (run_next_claim_number, g_free),
                   wb_office_next_claim_number_async, cancellable, callback, data);
}

char *
wb_office_next_claim_number_finish (WbOffice      *self,
                                    GAsyncResult  *result,
                                    GError       **error)
{
  return wb_office_finish (self, result, wb_office_next_claim_number_async, error);
}

/* --- history ---------------------------------------------------------------------------------- */

GPtrArray *
wb_office_list_history (WbOffice      *self,
                        const char    *job_id,
                        GCancellable  *cancellable,
                        GError       **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (job_id != NULL, NULL);

  return wb_book_list_history (wb_office_get_book (self), job_id, cancellable, error);
}

static gpointer
run_list_history (WbOffice      *self,
                  const WbDeed  *deed,
                  GCancellable  *cancellable,
                  GError       **error)
{
  return wb_office_list_history (self, deed->text, cancellable, error);
}

void
wb_office_list_history_async (WbOffice            *self,
                              const char          *job_id,
                              GCancellable        *cancellable,
                              GAsyncReadyCallback  callback,
                              gpointer             data)
{
  WbDeed *deed;

  g_return_if_fail (WB_IS_OFFICE (self));
  g_return_if_fail (job_id != NULL);

  deed = deed_new (run_list_history, unref_array);
  deed->text = g_strdup (job_id);
  wb_office_start (self, deed, wb_office_list_history_async, cancellable, callback, data);
}

GPtrArray *
wb_office_list_history_finish (WbOffice      *self,
                               GAsyncResult  *result,
                               GError       **error)
{
  return wb_office_finish (self, result, wb_office_list_history_async, error);
}

/* --- what comes from the machine -------------------------------------------------------------- */

char *
wb_office_new_id (void)
{
  return g_uuid_string_random ();
}

void
wb_office_today (GDate *out)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  int year, month, day;

  g_return_if_fail (out != NULL);

  g_date_time_get_ymd (now, &year, &month, &day);
  g_date_clear (out, 1);
  g_date_set_dmy (out, (GDateDay) day, (GDateMonth) month, (GDateYear) year);
}
