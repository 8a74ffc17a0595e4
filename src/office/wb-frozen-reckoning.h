/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A reckoning as it was sent to somebody: kept with all that it was made of, so that at any later
 * time it can be made again and held against what was said then. */
#pragma once

#include "office/wb-office.h"

G_BEGIN_DECLS

/**
 * wb_office_freeze_reckoning:
 * @on: the day for which it stands
 *
 * Keeps the job's document, the terms file and the reckoning in the book, and beside them a sheet
 * that names the three by their SHA-256. Nothing of the job changes; a step of the claim holds the
 * result. Blocks on the book.
 * Returns: (transfer full) (nullable): the SHA-256 of that sheet, or %NULL with the error of
 * wb_office_reckon() or of the book.
 */
char *wb_office_freeze_reckoning        (WbOffice            *self,
                                         WbJob               *job,
                                         const char          *claim_id,
                                         const GDate         *on,
                                         GCancellable        *cancellable,
                                         GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void  wb_office_freeze_reckoning_async  (WbOffice            *self,
                                         WbJob               *job,
                                         const char          *claim_id,
                                         GCancellable        *cancellable,
                                         GAsyncReadyCallback  callback,
                                         gpointer             data);
char *wb_office_freeze_reckoning_finish (WbOffice            *self,
                                         GAsyncResult        *result,
                                         GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * WbFrozenCheck:
 * @on: the day for which it was frozen
 * @number: of the claim
 * @reproduced: made again of the same job and terms, the reckoning has the same bytes
 * @kept_line: (nullable): the first line that differs, as it was kept; %NULL at its end
 * @made_line: (nullable): the same line as this program makes it
 * @terms_changed: the terms file of today that governs the job is another than the one kept
 */
typedef struct
{
  GDate     on;
  char     *number;
  gboolean  reproduced;
  char     *kept_line;
  char     *made_line;
  gboolean  terms_changed;
} WbFrozenCheck;

void           wb_frozen_check_free       (WbFrozenCheck  *self);

/**
 * wb_office_verify_reckoning:
 * @hash: as wb_office_freeze_reckoning() gave it
 *
 * Makes a frozen reckoning again of what was kept with it and compares. Blocks on the book.
 * Returns: (transfer full) (nullable): what came of it, or %NULL with %WB_STORE_ERROR_NOT_FOUND
 * (the book does not have what was kept), _CORRUPT (it was changed since) or a %WB_CORE_ERROR when
 * it cannot be read.
 */
WbFrozenCheck *wb_office_verify_reckoning (WbOffice       *self,
                                           const char     *hash,
                                           GCancellable   *cancellable,
                                           GError        **error) G_GNUC_WARN_UNUSED_RESULT;

void           wb_office_verify_reckoning_async  (WbOffice            *self,
                                                  const char          *hash,
                                                  GCancellable        *cancellable,
                                                  GAsyncReadyCallback  callback,
                                                  gpointer             data);
WbFrozenCheck *wb_office_verify_reckoning_finish (WbOffice            *self,
                                                  GAsyncResult        *result,
                                                  GError             **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbFrozenCheck, wb_frozen_check_free)

G_END_DECLS
