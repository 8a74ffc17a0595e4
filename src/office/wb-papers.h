/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The papers of a job as PDF files: its order, its inventory, its handovers, a worksheet for each
 * claim, and each letter and charge statement as it was sent. They are made from the job and the
 * terms that govern it whenever they are wanted, and kept nowhere. */
#pragma once

#include "office/wb-office.h"
#include "office/wb-progress.h"

G_BEGIN_DECLS

/**
 * WbPaperFile:
 * @name: of its file, "order.pdf", "claim-c-2026-0017.pdf": lower-case ASCII letters, figures and
 *   hyphens, no two of a job alike
 * @title: what it is
 * @bytes: a PDF
 */
typedef struct
{
  char   *name;
  char   *title;
  GBytes *bytes;
} WbPaperFile;

void       wb_paper_file_free            (WbPaperFile          *self);

/**
 * wb_office_make_papers:
 * @progress: (nullable)
 *
 * Makes all papers of @job. The same job under the same terms gives the same bytes on one computer,
 * in one language. A letter that the job names and the book does not have is left out. Blocks on
 * the book.
 *
 * Returns: (transfer full) (element-type WbPaperFile) (nullable): the papers, the order first; or
 * %NULL with an error of the book, %WB_PAPER_ERROR_DRAW, or %G_IO_ERROR_CANCELLED.
 */
GPtrArray *wb_office_make_papers         (WbOffice             *self,
                                          WbJob                *job,
                                          WbProgress           *progress,
                                          GCancellable         *cancellable,
                                          GError              **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_save_papers:
 * @folder: is made when it is not there
 * @replace: whether files of the same names may be replaced
 *
 * Makes all papers of @job and writes them into @folder, one after the other, each whole or not at
 * all. Nothing else that lies there is touched.
 *
 * Returns: (transfer full) (element-type WbPaperFile) (nullable): what was written; or %NULL with an
 * error of wb_office_make_papers() or a %G_IO_ERROR that names the file: %G_IO_ERROR_EXISTS before
 * anything was written.
 */
GPtrArray *wb_office_save_papers         (WbOffice             *self,
                                          WbJob                *job,
                                          const char           *folder,
                                          gboolean              replace,
                                          WbProgress           *progress,
                                          GCancellable         *cancellable,
                                          GError              **error) G_GNUC_WARN_UNUSED_RESULT;
void       wb_office_save_papers_async   (WbOffice             *self,
                                          WbJob                *job,
                                          const char           *folder,
                                          gboolean              replace,
                                          WbProgress           *progress,
                                          GCancellable         *cancellable,
                                          GAsyncReadyCallback   callback,
                                          gpointer              data);
GPtrArray *wb_office_save_papers_finish  (WbOffice             *self,
                                          GAsyncResult         *result,
                                          GError              **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a name for a folder for the papers of @job: "J-2026-0007 papers". */
char      *wb_papers_folder_name         (const WbJob          *job) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPaperFile, wb_paper_file_free)

G_END_DECLS
