/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Comma-separated values as RFC 4180 has them: records of fields out of bytes, and back. What the
 * fields mean is for others. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** Largest file that is read, in bytes, and most fields of one record. */
#define WB_CSV_MAX_BYTES  (32 * 1024 * 1024)
#define WB_CSV_MAX_FIELDS 1000

/**
 * WbCsvRecord: one record; free with wb_csv_record_free()
 * @number: 1-based number in the file; records of nothing at all are counted too
 * @line: 1-based line of the file on which it starts
 * @fields: (element-type utf8): its fields, line breaks in them as "\n"
 * @fault: (nullable): what is wrong with its quotation marks, as a sentence; the fields are then a
 * guess
 * @fault_field: index of the field that @fault is about
 */
typedef struct
{
  guint      number;
  guint      line;
  GPtrArray *fields;
  char      *fault;
  guint      fault_field;
} WbCsvRecord;

void         wb_csv_record_free  (WbCsvRecord   *self);

/** Whether every field is empty or white space. */
gboolean     wb_csv_record_is_blank (const WbCsvRecord *self);

/** WbCsvReader: a place in a text. The text has to live as long. */
typedef struct
{
  const char *at;
  const char *end;
  guint       number;
  guint       line;
} WbCsvReader;

void         wb_csv_reader_init  (WbCsvReader   *self,
                                  const char    *text,
                                  gsize          length);

/**
 * wb_csv_reader_next:
 * @record: (out) (transfer full) (nullable): the next record, %NULL at the end
 *
 * Fields are parted by commas, records by CRLF, LF or CR, all of which may stand inside quotation
 * marks. A quotation mark within a field that does not start with one, or text after the closing
 * one, makes the record faulty; reading goes on with the next line.
 *
 * Returns: %TRUE, or %FALSE with %G_IO_ERROR_INVALID_DATA that names the line: a quotation mark
 * that nothing closes, a NUL byte, more than %WB_CSV_MAX_FIELDS fields.
 */
gboolean     wb_csv_reader_next  (WbCsvReader   *self,
                                  WbCsvRecord  **record,
                                  GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Appends @field, in quotation marks when it needs them: for a comma, a quotation mark, a line
 * break, white space at an end. */
void         wb_csv_append_field (GString       *out,
                                  const char    *field);

/**
 * wb_csv_decode:
 * @encoding: (out): "UTF-8" or "Windows-1252"
 *
 * The text of a file: UTF-8, a byte-order mark taken off, or else Windows-1252.
 * Returns: (transfer full) (nullable): the text, or %NULL with %G_IO_ERROR_INVALID_DATA: UTF-16,
 * or a byte that neither has.
 */
char        *wb_csv_decode       (GBytes        *bytes,
                                  gsize         *length,
                                  const char   **encoding,
                                  GError       **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbCsvRecord, wb_csv_record_free)

G_END_DECLS
