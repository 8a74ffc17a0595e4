/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job as a bundle: one folder or archive with its document, its photos and the papers that the
 * book keeps for it, as a bag that any program for bags can check (RFC 8493):
 *
 *     data/job.json                the job document
 *     data/photos/SHA256.jpg       each photo, named by what is in it
 *     data/papers/SHA256.json      each kept document that the job names, or one of these names
 *     data/papers/NAME.pdf         each paper of the job as wb-papers.h makes it, for whoever has no
 *                                  Wainbook; looked at and not taken in, and may be missing
 *
 * The blocking forms are for the command line and for worker threads. */
#pragma once

#include "office/wb-office.h"
#include "office/wb-progress.h"

G_BEGIN_DECLS

/**
 * WbBundleReport: what a bundle holds
 * @job: the job; as stored, once it was put into a book
 * @n_papers: kept ones
 * @n_printed: papers as PDF
 * @bytes: of all its files
 * @n_lost_papers: frozen reckonings and letters that the job names and the book does not have, so
 *   that the bundle cannot have them either
 * @packed_on: (nullable): the day, as bag-info.txt has it
 */
typedef struct
{
  WbJob  *job;
  guint   n_photos;
  guint   n_papers;
  guint   n_printed;
  guint   n_lost_papers;
  gint64  bytes;
  char   *packed_on;
} WbBundleReport;

void            wb_bundle_report_free    (WbBundleReport       *self);

/** Returns: (transfer full): "job J-2026-0007: 12 photos, 4 kept papers, 6 papers as PDF,
 * 34.2 MB" for a person. */
char           *wb_bundle_report_words   (const WbBundleReport *self) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a file name for a bundle of @job, "J-2026-0007.zip". */
char           *wb_bundle_file_name      (const WbJob          *job) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @path, with ".zip" behind it unless it has the ending of an archive:
 * where a window saves to. */
char           *wb_bundle_target         (const char           *path) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_bundle_write:
 * @target: ends in ".zip", ".tar.gz" or ".tgz" for an archive; any other name is a folder
 * @replace: whether an archive of that name may be replaced
 * @progress: (nullable)
 *
 * Packs @job with all photos, kept papers and papers as PDF. The same job gives the same bytes on the same day.
 *
 * Returns: (transfer full) (nullable): what was packed; or %NULL, and nothing is at @target that
 * was not there: %G_IO_ERROR_EXISTS, %WB_SHARE_ERROR_SOURCE for a photo that is gone or not what
 * was taken in, _LIMIT, another %G_IO_ERROR or %WB_STORE_ERROR, or
 * %G_IO_ERROR_CANCELLED.
 */
WbBundleReport *wb_office_bundle_write        (WbOffice             *self,
                                               WbJob                *job,
                                               const char           *target,
                                               gboolean              replace,
                                               WbProgress           *progress,
                                               GCancellable         *cancellable,
                                               GError              **error)
                                               G_GNUC_WARN_UNUSED_RESULT;
void            wb_office_bundle_write_async  (WbOffice             *self,
                                               WbJob                *job,
                                               const char           *target,
                                               gboolean              replace,
                                               WbProgress           *progress,
                                               GCancellable         *cancellable,
                                               GAsyncReadyCallback   callback,
                                               gpointer              data);
WbBundleReport *wb_office_bundle_write_finish (WbOffice             *self,
                                               GAsyncResult         *result,
                                               GError              **error)
                                               G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_bundle_check:
 *
 * Reads a bundle whole and judges it, as wb_office_bundle_read() does before it stores anything.
 *
 * Returns: (transfer full) (nullable): what it holds; or %NULL with the first fault: a
 * %WB_SHARE_ERROR, a %WB_CORE_ERROR of the job document, a %G_IO_ERROR, or %G_IO_ERROR_CANCELLED.
 */
WbBundleReport *wb_bundle_check               (const char           *source,
                                               WbProgress           *progress,
                                               GCancellable         *cancellable,
                                               GError              **error)
                                               G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_bundle_read:
 * @source: a folder or an archive, from anywhere
 * @progress: (nullable)
 *
 * Puts the job of a bundle into the book with its photos and kept papers, once the whole bundle was
 * found good. A job that the book has already is not touched, as when a job document is imported.
 *
 * Returns: (transfer full) (nullable): what was put in; or %NULL with an error of
 * wb_bundle_check(), or %WB_STORE_ERROR_EXISTS (the job is there), _CONSTRAINT (its number or that
 * of a claim is), or another of the book or the disk. The job is then not in the book.
 */
WbBundleReport *wb_office_bundle_read         (WbOffice             *self,
                                               const char           *source,
                                               WbProgress           *progress,
                                               GCancellable         *cancellable,
                                               GError              **error)
                                               G_GNUC_WARN_UNUSED_RESULT;
void            wb_office_bundle_read_async   (WbOffice             *self,
                                               const char           *source,
                                               WbProgress           *progress,
                                               GCancellable         *cancellable,
                                               GAsyncReadyCallback   callback,
                                               gpointer              data);
WbBundleReport *wb_office_bundle_read_finish  (WbOffice             *self,
                                               GAsyncResult         *result,
                                               GError              **error)
                                               G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbBundleReport, wb_bundle_report_free)

G_END_DECLS
