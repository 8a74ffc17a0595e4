/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of each job was last in step with which server. Every function blocks, and fails as those of
 * wb-book.h do. */
#pragma once

#include "store/wb-book.h"

G_BEGIN_DECLS

/**
 * WbPublication: the state of one job on one server when this book last sent or fetched it
 * @heads: (array zero-terminated=1): the published versions that this book has seen, by SHA-256;
 *   more than one when two people published at the same time
 * @document: SHA-256 of the job document that both had then; the book keeps it
 * @at: ISO 8601, UTC
 */
typedef struct
{
  char  *job_id;
  char  *server_id;
  GStrv  heads;
  char  *document;
  char  *at;
} WbPublication;

void           wb_publication_free           (WbPublication        *self);

/** Finds what was noted; @out: (out) (transfer full) (nullable): %NULL when nothing was. */
gboolean       wb_book_load_publication      (WbBook               *self,
                                              const char           *job_id,
                                              const char           *server_id,
                                              WbPublication       **out,
                                              GCancellable         *cancellable,
                                              GError              **error)
                                              G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type WbPublication): of one job, or of all when @job_id is
 * %NULL. */
GPtrArray     *wb_book_list_publications     (WbBook               *self,
                                              const char           *job_id,
                                              GCancellable         *cancellable,
                                              GError              **error)
                                              G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_book_note_publication:
 * @document: the job document; @publication's own hash of it is not looked at
 *
 * Keeps @document and notes that a job is in step with a server, in one transaction.
 */
gboolean       wb_book_note_publication      (WbBook               *self,
                                              const WbPublication  *publication,
                                              GBytes               *document,
                                              GCancellable         *cancellable,
                                              GError              **error)
                                              G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_book_take_published:
 * @base: (nullable): the stored job that @job takes the place of; %NULL for one that is new
 * @papers: (element-type GBytes): kept papers that came with it
 *
 * Stores a job that came from a server as wb_book_save_job() does, with its kept papers and
 * wb_book_note_publication(), all in one transaction: all or nothing.
 *
 * Returns: (transfer full) (nullable): the job with its new revision.
 */
WbJob         *wb_book_take_published        (WbBook               *self,
                                              WbJob                *base,
                                              WbJob                *job,
                                              const char           *deed,
                                              GPtrArray            *papers,
                                              const WbPublication  *publication,
                                              GBytes               *document,
                                              GCancellable         *cancellable,
                                              GError              **error)
                                              G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPublication, wb_publication_free)

G_END_DECLS
