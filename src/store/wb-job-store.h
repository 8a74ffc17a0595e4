/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole jobs in and out of the book. Each function here runs inside a transaction of its caller.
 * Private to the store. */
#pragma once

#include "core/wb-job.h"
#include "store/wb-sqlite.h"

G_BEGIN_DECLS

/** See wb_book_load_job(). */
WbJob    *wb_job_store_load   (WbSqlite      *book,
                               const char    *id,
                               GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** See wb_book_save_job(). */
WbJob    *wb_job_store_save   (WbSqlite      *book,
                               WbJob         *base,
                               WbJob         *job,
                               const char    *deed,
                               GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** See wb_book_remove_job(). */
gboolean  wb_job_store_remove (WbSqlite      *book,
                               const char    *id,
                               gint64         revision,
                               GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** See wb_book_find_job(). */
char     *wb_job_store_find   (WbSqlite      *book,
                               const char    *number,
                               GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** See wb_book_next_number(). */
char     *wb_number_series_next (WbSqlite    *book,
                                 const char  *prefix,
                                 GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/** Notes that @number was used, so that it is never given out. */
gboolean  wb_number_series_note (WbSqlite    *book,
                                 const char  *number,
                                 GError     **error);

G_END_DECLS
