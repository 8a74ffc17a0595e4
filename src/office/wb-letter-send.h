/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Letters of a claim as the office has them: written from an open job, kept as they were sent, read
 * again. */
#pragma once

#include "office/wb-letter-write.h"
#include "office/wb-office.h"

G_BEGIN_DECLS

/**
 * wb_office_write_letter:
 * @remark: (nullable): see #WbLetterInput
 *
 * Writes a letter by the terms that govern @job and by the claim's reckoning, as far as there are.
 * Touches no disk.
 * Returns: (transfer full): the letter.
 */
WbLetter     *wb_office_write_letter        (WbOffice            *self,
                                             WbJob               *job,
                                             const char          *claim_id,
                                             WbLetterKind         kind,
                                             const GDate         *on,
                                             const char          *remark) G_GNUC_WARN_UNUSED_RESULT;

/**
 * WbKeptLetter:
 * @letter: SHA-256 of its text
 * @frozen: (nullable): SHA-256 of the frozen reckoning, when there are figures in it
 */
typedef struct
{
  char *letter;
  char *frozen;
} WbKeptLetter;

void          wb_kept_letter_free           (WbKeptLetter        *self);

/**
 * wb_office_keep_letter:
 * @text: the letter as it goes out
 *
 * Keeps the text in the book, and with a letter of figures the reckoning they come from
 * (wb_office_freeze_reckoning()). Nothing of the job changes; wb_letter_sent() does that. Blocks on
 * the book.
 * Returns: (transfer full) (nullable): where both are found again, or %NULL with the error of the
 * book or of the reckoning.
 */
WbKeptLetter *wb_office_keep_letter         (WbOffice            *self,
                                             WbJob               *job,
                                             const char          *claim_id,
                                             WbLetterKind         kind,
                                             const GDate         *on,
                                             const char          *text,
                                             GCancellable        *cancellable,
                                             GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void          wb_office_keep_letter_async   (WbOffice            *self,
                                             WbJob               *job,
                                             const char          *claim_id,
                                             WbLetterKind         kind,
                                             const GDate         *on,
                                             const char          *text,
                                             GCancellable        *cancellable,
                                             GAsyncReadyCallback  callback,
                                             gpointer             data);
WbKeptLetter *wb_office_keep_letter_finish  (WbOffice            *self,
                                             GAsyncResult        *result,
                                             GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_letter_sent:
 * @step_id: id of the new step
 * @reckoning: (nullable): of the claim
 * @by: (nullable): who sent it, for the office
 *
 * Takes the step that sending @letter is, on its day, and notes what was kept.
 * Returns: (transfer full): the job with the step.
 */
WbJob        *wb_letter_sent                (WbJob               *job,
                                             const char          *claim_id,
                                             const char          *step_id,
                                             const WbLetter      *letter,
                                             const WbReckoning   *reckoning,
                                             const WbKeptLetter  *kept,
                                             const char          *by) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the text of a letter that was kept, or %NULL with
 * %WB_STORE_ERROR_NOT_FOUND or _CORRUPT. Blocks on the book. */
char         *wb_office_read_letter         (WbOffice            *self,
                                             const char          *hash,
                                             GCancellable        *cancellable,
                                             GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void          wb_office_read_letter_async   (WbOffice            *self,
                                             const char          *hash,
                                             GCancellable        *cancellable,
                                             GAsyncReadyCallback  callback,
                                             gpointer             data);
char         *wb_office_read_letter_finish  (WbOffice            *self,
                                             GAsyncResult        *result,
                                             GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type WbClaimStep): the steps of the claim with which a letter
 * was kept, in the job's order; they belong to @job. */
GPtrArray    *wb_letters_sent               (const WbJob         *job,
                                             const char          *claim_id) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbKeptLetter, wb_kept_letter_free)

G_END_DECLS
