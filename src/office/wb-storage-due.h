/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which jobs of a book have goods in storage in transit that somebody has to see to now. */
#pragma once

#include "core/wb-storage-watch.h"
#include "office/wb-office.h"

G_BEGIN_DECLS

/** WbStorageDue: one such job; free with wb_storage_due_free(). */
typedef struct
{
  char            *job_id;
  char            *job_number;   /* (nullable) */
  char            *shipper;      /* (nullable) */
  WbStorageWatch   watch;
} WbStorageDue;

void       wb_storage_due_free             (WbStorageDue        *self);

/**
 * wb_office_list_storage_due:
 *
 * Looks at the jobs that are booked and neither delivered nor cancelled by their stage. Returns:
 * (transfer full) (element-type WbStorageDue) (nullable): those for which
 * wb_storage_watch_is_due() holds on @today, the one whose last day comes first in front.
 */
GPtrArray *wb_office_list_storage_due       (WbOffice            *self,
                                             const GDate         *today,
                                             GCancellable        *cancellable,
                                             GError             **error) G_GNUC_WARN_UNUSED_RESULT;
/** As wb_office_list_storage_due(), for today, in a worker thread. */
void       wb_office_list_storage_due_async (WbOffice            *self,
                                             GCancellable        *cancellable,
                                             GAsyncReadyCallback  callback,
                                             gpointer             data);
GPtrArray *wb_office_list_storage_due_finish (WbOffice           *self,
                                              GAsyncResult       *result,
                                              GError            **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbStorageDue, wb_storage_due_free)

G_END_DECLS
