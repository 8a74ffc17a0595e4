/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing, keeping and reading letters. What a letter says stands in the files that write it; where
 * documents are kept, in the store. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-letter-send.h"

#include "office/wb-frozen-reckoning.h"
#include "office/wb-office-private.h"

#include <string.h>

WbLetter *
wb_office_write_letter (WbOffice     *self,
                        WbJob        *job,
                        const char   *claim_id,
                        WbLetterKind  kind,
                        const GDate  *on,
                        const char   *remark)
{
  g_autoptr (WbReckoning) reckoning = NULL;
  WbLetterInput input = { .job = job, .on = on, .remark = remark };

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  input.claim = wb_job_find (job, WB_KIND_CLAIM, claim_id);
  g_return_val_if_fail (input.claim != NULL, NULL);
  input.terms = wb_terms_set_find (wb_office_get_terms (self), wb_job_order (job), NULL);
  reckoning = wb_office_reckon (self, job, claim_id, NULL);
  input.reckoning = reckoning;
  return wb_letter_write (kind, &input);
}

/* --- keeping ---------------------------------------------------------------------------------- */

void
wb_kept_letter_free (WbKeptLetter *self)
{
  g_free (self->letter);
  g_free (self->frozen);
  g_free (self);
}

WbKeptLetter *
wb_office_keep_letter (WbOffice      *self,
                       WbJob         *job,
                       const char    *claim_id,
                       WbLetterKind   kind,
                       const GDate   *on,
                       const char    *text,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_autoptr (WbKeptLetter) kept = g_new0 (WbKeptLetter, 1);
  g_autoptr (GPtrArray) documents = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
  g_autoptr (GPtrArray) hashes = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  if (wb_letter_has_figures (kind))
    {
      kept->frozen = wb_office_freeze_reckoning (self, job, claim_id, on, cancellable, error);
      if (kept->frozen == NULL)
        return NULL;
    }
  g_ptr_array_add (documents, g_bytes_new (text, strlen (text)));
  hashes = wb_book_keep_documents (wb_office_get_book (self), documents, cancellable, error);
  if (hashes == NULL)
    return NULL;
  kept->letter = g_strdup (g_ptr_array_index (hashes, 0));
  return g_steal_pointer (&kept);
}

static gpointer
run_keep (WbOffice      *self,
          const WbDeed  *deed,
          GCancellable  *cancellable,
          GError       **error)
{
  GDate on;

  g_date_clear (&on, 1);
  g_date_set_julian (&on, deed->day);
  return wb_office_keep_letter (self, deed->job, deed->name, (WbLetterKind) deed->kind, &on,
                                deed->text, cancellable, error);
}

void
wb_office_keep_letter_async (WbOffice            *self,
                             WbJob               *job,
                             const char          *claim_id,
                             WbLetterKind         kind,
                             const GDate         *on,
                             const char          *text,
                             GCancellable        *cancellable,
                             GAsyncReadyCallback  callback,
                             gpointer             data)
{
  WbDeed *deed = g_new0 (WbDeed, 1);

  deed->run = run_keep;
  deed->free_result = (GDestroyNotify) wb_kept_letter_free;
  deed->job = wb_job_ref (job);
  deed->name = g_strdup (claim_id);
  deed->kind = kind;
  deed->day = g_date_get_julian (on);
  deed->text = g_strdup (text);
  wb_office_start (self, deed, wb_office_keep_letter_async, cancellable, callback, data);
}

WbKeptLetter *
wb_office_keep_letter_finish (WbOffice      *self,
                              GAsyncResult  *result,
                              GError       **error)
{
  return wb_office_finish (self, result, wb_office_keep_letter_async, error);
}

WbJob *
wb_letter_sent (WbJob              *job,
                const char         *claim_id,
                const char         *step_id,
                const WbLetter     *letter,
                const WbReckoning  *reckoning,
                const WbKeptLetter *kept,
                const char         *by)
{
  g_autoptr (WbJob) taken = wb_claim_take_step (job, claim_id, step_id,
                                                wb_letter_step (letter->kind), &letter->on,
                                                reckoning);
  g_autoptr (WbClaimStep) step = wb_record_copy (wb_job_find (taken, WB_KIND_STEP, step_id));
  const WbClaim *claim = wb_job_find (job, WB_KIND_CLAIM, claim_id);

  wb_set_text (&step->who, claim->claimant);
  wb_set_text (&step->by, by);
  wb_set_text (&step->frozen, kept->frozen);
  wb_set_text (&step->letter, kept->letter);
  wb_set_text (&step->text, letter->title);
  return wb_job_with (taken, step);
}

/* --- reading ---------------------------------------------------------------------------------- */

char *
wb_office_read_letter (WbOffice      *self,
                       const char    *hash,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_autoptr (GBytes) bytes = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);

  bytes = wb_book_read_document (wb_office_get_book (self), hash, cancellable, error);
  if (bytes == NULL)
    return NULL;
  if (!g_utf8_validate_len (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), NULL))
    {
      g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CORRUPT,
                   "what the book keeps as %s is no letter", hash);
      return NULL;
    }
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

static gpointer
run_read (WbOffice      *self,
          const WbDeed  *deed,
          GCancellable  *cancellable,
          GError       **error)
{
  return wb_office_read_letter (self, deed->text, cancellable, error);
}

void
wb_office_read_letter_async (WbOffice            *self,
                             const char          *hash,
                             GCancellable        *cancellable,
                             GAsyncReadyCallback  callback,
                             gpointer             data)
{
  WbDeed *deed = g_new0 (WbDeed, 1);

  deed->run = run_read;
  deed->free_result = g_free;
  deed->text = g_strdup (hash);
  wb_office_start (self, deed, wb_office_read_letter_async, cancellable, callback, data);
}

char *
wb_office_read_letter_finish (WbOffice      *self,
                              GAsyncResult  *result,
                              GError       **error)
{
  return wb_office_finish (self, result, wb_office_read_letter_async, error);
}

GPtrArray *
wb_letters_sent (const WbJob *job,
                 const char  *claim_id)
{
  GPtrArray *steps = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (job, WB_KIND_STEP, i);

      if (step->letter != NULL && g_strcmp0 (step->claim, claim_id) == 0)
        g_ptr_array_add (steps, (gpointer) step);
    }
  return steps;
}
