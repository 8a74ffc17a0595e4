/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One table of the book a kind of record, its columns the fields of core's table. Private to the
 * store. */
#pragma once

#include "core/wb-job.h"
#include "store/wb-sqlite.h"

G_BEGIN_DECLS

/** Whether the book has every table with every column; else %WB_STORE_ERROR_CORRUPT. */
gboolean wb_record_table_check      (WbSqlite        *book,
                                     GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_record_table_read:
 * @records: (element-type WbRecord): gets the job's records of @kind at its end, in their order
 */
gboolean wb_record_table_read       (WbSqlite        *book,
                                     WbKind           kind,
                                     const char      *job_id,
                                     const char      *currency,
                                     GPtrArray       *records,
                                     GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Writes a record, new or changed, at @position of its kind. */
gboolean wb_record_table_write      (WbSqlite        *book,
                                     const char      *job_id,
                                     const char      *currency,
                                     const WbRecord  *record,
                                     guint            position,
                                     GError         **error) G_GNUC_WARN_UNUSED_RESULT;
/** Changes the position of an unchanged record. */
gboolean wb_record_table_move       (WbSqlite        *book,
                                     const char      *job_id,
                                     const WbRecord  *record,
                                     guint            position,
                                     GError         **error) G_GNUC_WARN_UNUSED_RESULT;
gboolean wb_record_table_remove     (WbSqlite        *book,
                                     const char      *job_id,
                                     const WbRecord  *record,
                                     GError         **error) G_GNUC_WARN_UNUSED_RESULT;
/** Removes all records of a job. */
gboolean wb_record_table_remove_all (WbSqlite        *book,
                                     const char      *job_id,
                                     GError         **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
