/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job that was changed here and on a server: what differs, field by field, and the job that
 * somebody makes of both, stored in the book. And a published job only to be read. What blocks is
 * for the command line and for worker threads, and fails as that of wb-publish.h does. */
#pragma once

#include "office/wb-publish.h"

G_BEGIN_DECLS

/** WbComparison: the job in the book beside the newest version on a server that the book has not
 * seen, or beside the newest when it has seen all of them. */
typedef struct _WbComparison WbComparison;

WbComparison *wb_comparison_ref            (WbComparison         *self);
void          wb_comparison_unref          (WbComparison         *self);

/** Returns: (transfer none): base, job here (mine) and job there (theirs); to be decided by its
 * owner alone, and not while it is being stored. */
WbMerge      *wb_comparison_get_merge      (WbComparison         *self);
/** Returns: (transfer none) (nullable): the job that both started from. */
WbJob        *wb_comparison_get_base       (WbComparison         *self);
/** Returns: (transfer none): the job here, as it was compared. */
WbJob        *wb_comparison_get_mine       (WbComparison         *self);
/** Returns: (transfer none): the job there. */
WbJob        *wb_comparison_get_theirs     (WbComparison         *self);
/** Returns: (transfer none): the server's id. */
const char   *wb_comparison_get_server     (WbComparison         *self);
/** Returns: (transfer none): when the version there was published, "2026-03-05T08:00:00Z". */
const char   *wb_comparison_get_at         (WbComparison         *self);
/** Returns: (transfer none): who published it. */
const char   *wb_comparison_get_by         (WbComparison         *self);
/** Returns: (transfer none) (nullable): at which computer. */
const char   *wb_comparison_get_desk       (WbComparison         *self);
/** Returns: versions there that are left to compare with once this one is stored. */
guint         wb_comparison_get_n_others   (WbComparison         *self);

/**
 * wb_office_compare_published:
 *
 * Reads the job's document from the server, and nothing else, and compares it with the book.
 * Nothing is stored.
 *
 * Returns: (transfer full) (nullable): what differs; %NULL with %WB_STORE_ERROR_NOT_FOUND when the
 * job is not in the book, or %WB_SHARE_ERROR_NOT_FOUND when it is not on the server.
 */
WbComparison *wb_office_compare_published        (WbOffice             *self,
                                                  const char           *server_id,
                                                  WbSecret             *secret,
                                                  const char           *job_id,
                                                  WbProgress           *progress,
                                                  GCancellable         *cancellable,
                                                  GError              **error)
                                                  G_GNUC_WARN_UNUSED_RESULT;
void          wb_office_compare_published_async  (WbOffice             *self,
                                                  const char           *server_id,
                                                  WbSecret             *secret,
                                                  const char           *job_id,
                                                  WbProgress           *progress,
                                                  GCancellable         *cancellable,
                                                  GAsyncReadyCallback   callback,
                                                  gpointer              data);
WbComparison *wb_office_compare_published_finish (WbOffice             *self,
                                                  GAsyncResult         *result,
                                                  GError              **error)
                                                  G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_store_merged:
 * @comparison: what was shown
 * @whole: %WB_MERGE_UNDECIDED stores what its merge has come to; %WB_MERGE_MINE leaves the job as
 *   it is here and %WB_MERGE_THEIRS takes it as it is there, whatever the merge says
 *
 * Fetches the photos and papers of the version that was compared and stores what was decided, with
 * its history and with the note that the version was seen, in one transaction; so the next
 * wb_office_publish() publishes what takes the place of both.
 *
 * Returns: (transfer full) (nullable): the job as stored; %NULL with %WB_STORE_ERROR_CONFLICT when
 * the job in the book is no longer the one that was compared, %WB_CORE_ERROR_MISSING while a
 * conflict is undecided, or an error as of wb_office_fetch(). The book is then as it was.
 */
WbJob        *wb_office_store_merged             (WbOffice             *self,
                                                  WbComparison         *comparison,
                                                  WbMergeChoice         whole,
                                                  WbSecret             *secret,
                                                  WbProgress           *progress,
                                                  GCancellable         *cancellable,
                                                  GError              **error)
                                                  G_GNUC_WARN_UNUSED_RESULT;
void          wb_office_store_merged_async       (WbOffice             *self,
                                                  WbComparison         *comparison,
                                                  WbMergeChoice         whole,
                                                  WbSecret             *secret,
                                                  WbProgress           *progress,
                                                  GCancellable         *cancellable,
                                                  GAsyncReadyCallback   callback,
                                                  gpointer              data);
WbJob        *wb_office_store_merged_finish      (WbOffice             *self,
                                                  GAsyncResult         *result,
                                                  GError              **error)
                                                  G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_peek_published:
 *
 * Reads the newest version of a published job, which need not be in the book, without its photos
 * and papers. Nothing is stored.
 *
 * Returns: (transfer full) (nullable): the job; %NULL with %WB_SHARE_ERROR_NOT_FOUND when it is not
 * there.
 */
WbJob        *wb_office_peek_published           (WbOffice             *self,
                                                  const char           *server_id,
                                                  WbSecret             *secret,
                                                  const char           *job_id,
                                                  WbProgress           *progress,
                                                  GCancellable         *cancellable,
                                                  GError              **error)
                                                  G_GNUC_WARN_UNUSED_RESULT;
void          wb_office_peek_published_async     (WbOffice             *self,
                                                  const char           *server_id,
                                                  WbSecret             *secret,
                                                  const char           *job_id,
                                                  WbProgress           *progress,
                                                  GCancellable         *cancellable,
                                                  GAsyncReadyCallback   callback,
                                                  gpointer              data);
WbJob        *wb_office_peek_published_finish    (WbOffice             *self,
                                                  GAsyncResult         *result,
                                                  GError              **error)
                                                  G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbComparison, wb_comparison_unref)

G_END_DECLS
