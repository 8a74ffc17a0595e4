/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An inventory out of comma-separated values: the file as a whole. What becomes of a row stands in
 * wb-inventory-rows.c, what columns mean in wb-inventory-columns.c, how a file is cut into fields
 * in wb-csv.c, the other direction in wb-inventory-export.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-inventory-csv.h"

#include "office/wb-csv.h"
#include "office/wb-file.h"
#include "office/wb-inventory-columns.h"
#include "office/wb-inventory-private.h"

#include <glib/gi18n.h>

void
wb_import_fault_free (WbImportFault *self)
{
  if (self == NULL)
    return;

  g_free (self->column);
  g_free (self->message);
  g_free (self);
}

void
wb_import_report_free (WbImportReport *self)
{
  if (self == NULL)
    return;

  g_clear_pointer (&self->job, wb_job_unref);
  g_clear_pointer (&self->faults, g_ptr_array_unref);
  g_clear_pointer (&self->ignored, g_ptr_array_unref);
  g_free (self->encoding);
  g_free (self);
}

/* --- the file --------------------------------------------------------------------------------- */

/* The first record that says anything has the headings. */
static gboolean
read_headings (WbInventoryImport  *self,
               WbCsvReader        *reader,
               GError            **error)
{
  g_autoptr (WbCsvRecord) record = NULL;

  do
    {
      g_clear_pointer (&record, wb_csv_record_free);
      if (!wb_csv_reader_next (reader, &record, error))
        return FALSE;
    }
  while (record != NULL && wb_csv_record_is_blank (record));

  if (record == NULL)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _("The file is empty"));
      return FALSE;
    }
  if (record->fault != NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _("Line %u: %s"), record->line,
                   record->fault);
      return FALSE;
    }

  self->columns = wb_inventory_columns_match (record->fields, error);
  if (self->columns == NULL)
    return FALSE;

  for (guint i = 0; i < self->columns->len; i++)
    {
      const WbColumn *column = &g_array_index (self->columns, WbColumn, i);

      if (column->kind == WB_COLUMN_IGNORED)
        g_ptr_array_add (self->report->ignored, g_strdup (column->heading));
    }

  return TRUE;
}

static gboolean
read_rows (WbInventoryImport  *self,
           WbCsvReader        *reader,
           GError            **error)
{
  for (;;)
    {
      g_autoptr (WbCsvRecord) record = NULL;

      if (!wb_csv_reader_next (reader, &record, error))
        return FALSE;
      if (record == NULL)
        return TRUE;
      if (!wb_csv_record_is_blank (record))
        wb_inventory_import_row (self, record);
    }
}

static gboolean
finish (WbInventoryImport  *self,
        WbImportMode        mode,
        GError            **error)
{
  if (mode == WB_IMPORT_ALL_OR_NONE && self->report->faults->len > 0)
    self->report->n_taken = 0;
  if (self->report->n_taken == 0)
    return TRUE;

  self->report->job = wb_job_with_many (self->job, self->records);
  return wb_job_check (self->report->job, error);
}

WbImportReport *
wb_inventory_csv_import (WbJob         *job,
                         GBytes        *bytes,
                         WbImportMode   mode,
                         GError       **error)
{
  g_auto (WbInventoryImport) import = { 0 };
  g_autofree char *text = NULL;
  const char *encoding;
  WbCsvReader reader;
  gsize length;

  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (bytes != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  text = wb_csv_decode (bytes, &length, &encoding, error);
  if (text == NULL)
    return NULL;

  wb_inventory_import_init (&import, job);
  import.report->encoding = g_strdup (encoding);
  wb_csv_reader_init (&reader, text, length);
  if (!read_headings (&import, &reader, error) || !read_rows (&import, &reader, error) ||
      !finish (&import, mode, error))
    return NULL;

  return g_steal_pointer (&import.report);
}

/* --- in a worker thread ----------------------------------------------------------------------- */

typedef struct
{
  WbJob        *job;
  GFile        *file;
  WbImportMode  mode;
} FileImport;

static void
file_import_free (gpointer data)
{
  FileImport *import = data;

  wb_job_unref (import->job);
  g_object_unref (import->file);
  g_free (import);
}

static void
import_in_thread (GTask        *task,
                  gpointer      source,
                  gpointer      data,
                  GCancellable *cancellable)
{
  FileImport *import = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = wb_file_read (import->file, WB_CSV_MAX_BYTES, cancellable, &error);
  WbImportReport *report = NULL;

  if (bytes != NULL)
    report = wb_inventory_csv_import (import->job, bytes, import->mode, &error);

  if (report != NULL)
    g_task_return_pointer (task, report, (GDestroyNotify) wb_import_report_free);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
wb_inventory_csv_import_file_async (WbJob               *job,
                                    GFile               *file,
                                    WbImportMode         mode,
                                    GCancellable        *cancellable,
                                    GAsyncReadyCallback  callback,
                                    gpointer             data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, callback, data);
  FileImport *import;

  g_return_if_fail (job != NULL);
  g_return_if_fail (G_IS_FILE (file));

  import = g_new0 (FileImport, 1);
  import->job = wb_job_ref (job);
  import->file = g_object_ref (file);
  import->mode = mode;

  g_task_set_source_tag (task, wb_inventory_csv_import_file_async);
  g_task_set_task_data (task, import, file_import_free);
  g_task_run_in_thread (task, import_in_thread);
}

WbImportReport *
wb_inventory_csv_import_file_finish (GAsyncResult  *result,
                                     GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, NULL), NULL);
  g_return_val_if_fail (g_async_result_is_tagged (result, wb_inventory_csv_import_file_async),
                        NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}
