/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An inventory as comma-separated values (RFC 4180), in and out. */
#pragma once

#include <gio/gio.h>

#include "core/wb-job.h"

G_BEGIN_DECLS

typedef enum
{
  WB_IMPORT_ALL_OR_NONE,   /* one bad row: nothing is taken */
  WB_IMPORT_GOOD_ROWS,     /* bad rows are reported, all others taken */
} WbImportMode;

/** WbImportFault: one thing wrong with one row. */
typedef struct
{
  guint  row;              /* 1-based record number in the file, the header being row 1 */
  guint  line;             /* line of the file where that record starts */
  char  *column;           /* (nullable): header name as in the file */
  char  *message;          /* a sentence for a person */
} WbImportFault;

void wb_import_fault_free (WbImportFault *self);

/** WbImportReport: what an import found; free with wb_import_report_free(). */
typedef struct
{
  WbJob     *job;          /* (nullable): with the new pieces; %NULL when nothing was taken */
  guint      n_rows;       /* data rows in the file */
  guint      n_taken;
  GPtrArray *faults;       /* WbImportFault, by row */
  GPtrArray *ignored;      /* char *: header names that mean nothing to us */
  char      *encoding;     /* "UTF-8" or "Windows-1252" */
} WbImportReport;

void wb_import_report_free (WbImportReport *self);

/**
 * wb_inventory_csv_import:
 * @job: the job that gets the pieces, at its end; lots named in the file are made when the job
 * lacks them
 * @bytes: the file; UTF-8 with or without a byte-order mark, else taken as Windows-1252
 *
 * Columns may stand in any order; a header is matched without regard to case, spaces and
 * punctuation against field names, labels and the usual other words. Returns: (transfer full)
 * (nullable): a report, also when rows are bad; %NULL with @error only when the file as a whole
 * cannot be read as such a table (no header we know, an open quote, too large).
 */
WbImportReport *wb_inventory_csv_import (WbJob         *job,
                                         GBytes        *bytes,
                                         WbImportMode   mode,
                                         GError       **error) G_GNUC_WARN_UNUSED_RESULT;

void            wb_inventory_csv_import_file_async  (WbJob               *job,
                                                     GFile               *file,
                                                     WbImportMode         mode,
                                                     GCancellable        *cancellable,
                                                     GAsyncReadyCallback  callback,
                                                     gpointer             data);
WbImportReport *wb_inventory_csv_import_file_finish (GAsyncResult        *result,
                                                     GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the inventory as CSV, UTF-8, CRLF lines; importing it gives the same
 * pieces. */
GBytes         *wb_inventory_csv_export (const WbJob   *job) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbImportFault, wb_import_fault_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbImportReport, wb_import_report_free)

G_END_DECLS
