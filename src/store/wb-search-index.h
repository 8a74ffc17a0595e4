/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a list of jobs shows and what a search looks through, kept beside the job. Private to the
 * store. */
#pragma once

#include "store/wb-book.h"
#include "store/wb-sqlite.h"

G_BEGIN_DECLS

/** Returns: (transfer full): the words by which @job is found. */
char         *wb_search_index_words     (const WbJob   *job) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full) (nullable): @query as the index understands it, %NULL when it names no
 * word at all. */
char         *wb_search_index_query     (const char    *query) G_GNUC_WARN_UNUSED_RESULT;

/** Brings the row of @job, which is stored already, and its words up to date.
 * @base: what was stored before; its words are not written again when they are the same */
gboolean      wb_search_index_update    (WbSqlite      *book,
                                         const WbJob   *base,
                                         const WbJob   *job,
                                         GError       **error) G_GNUC_WARN_UNUSED_RESULT;
gboolean      wb_search_index_remove    (WbSqlite      *book,
                                         const char    *job_id,
                                         GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** See wb_book_list_jobs(). */
GPtrArray    *wb_search_index_list      (WbSqlite      *book,
                                         const char    *query,
                                         guint          limit,
                                         GError       **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
