/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An inventory out of comma-separated values: each row becomes a piece or a list of faults, and
 * lots that the job lacks are made. What columns mean stands in wb-inventory-columns.c, how a file
 * is cut into fields in wb-csv.c, the other direction in wb-inventory-export.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-inventory-csv.h"

#include "office/wb-csv.h"
#include "office/wb-file.h"
#include "office/wb-inventory-columns.h"
#include "office/wb-office.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <string.h>

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

/* --- the import at work ------------------------------------------------------------------------------------- */

/**
 * Import:
 * @columns: (element-type WbColumn)
 * @lots: (element-type WbLot): those of the job and those made so far
 * @records: (element-type WbRecord): what goes into the job
 * @tags: lot id and tag number → number of the row that has it, 0 when the job already has it
 */
typedef struct
{
  WbJob          *job;
  WbImportReport *report;
  GArray         *columns;
  GPtrArray      *lots;
  GPtrArray      *records;
  GHashTable     *tags;
} Import;

static void
import_clear (Import *self)
{
  g_clear_pointer (&self->report, wb_import_report_free);
  g_clear_pointer (&self->columns, g_array_unref);
  g_clear_pointer (&self->lots, g_ptr_array_unref);
  g_clear_pointer (&self->records, g_ptr_array_unref);
  g_clear_pointer (&self->tags, g_hash_table_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Import, import_clear)

static void
add_fault (Import            *self,
           const WbCsvRecord *record,
           const char        *column,
           const char        *message)
{
  WbImportFault *fault = g_new0 (WbImportFault, 1);

  fault->row = record->number;
  fault->line = record->line;
  fault->column = g_strdup (column);
  fault->message = wb_words_sentence (message);
  g_ptr_array_add (self->report->faults, fault);
}

static char *
tag_key (const char *lot,
         gint64      tag)
{
  return g_strdup_printf ("%s %" G_GINT64_FORMAT, lot != NULL ? lot : "", tag);
}

static void
import_init (Import *self,
             WbJob  *job)
{
  self->job = job;
  self->report = g_new0 (WbImportReport, 1);
  self->report->faults = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_import_fault_free);
  self->report->ignored = g_ptr_array_new_with_free_func (g_free);
  self->lots = g_ptr_array_new_with_free_func (wb_record_unref);
  self->records = g_ptr_array_new_with_free_func (wb_record_unref);
  self->tags = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_LOT); i++)
    g_ptr_array_add (self->lots, wb_record_ref ((gpointer) wb_job_nth (job, WB_KIND_LOT, i)));

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (piece->tag != WB_INTEGER_UNSET)
        g_hash_table_insert (self->tags, tag_key (piece->lot, piece->tag), GUINT_TO_POINTER (0));
    }
}

/* --- fields of a piece -------------------------------------------------------------------------------------- */

/* What core says starts with the field's name; here the column is named beside it. */
static void
add_field_fault (Import            *self,
                 const WbCsvRecord *record,
                 const WbColumn    *column,
                 const GError      *error)
{
  g_autofree char *prefix = g_strconcat (column->field->name, ": ", NULL);
  const char *message = error->message;

  if (g_str_has_prefix (message, prefix))
    message += strlen (prefix);
  add_fault (self, record, column->heading, message);
}

static void
read_text_cell (Import            *self,
                const WbCsvRecord *record,
                const WbColumn    *column,
                const char        *cell,
                WbPiece           *piece)
{
  g_autofree char *text = wb_inventory_unescape_text (cell);
  g_autoptr (GError) error = NULL;

  if (!wb_record_set_text (piece, column->field, text, wb_job_get_currency (self->job), &error))
    {
      add_field_fault (self, record, column, error);
      return;
    }

  /* Core takes white space off the ends; a text that was written with it keeps it. */
  wb_set_text (&G_STRUCT_MEMBER (char *, piece, column->field->offset), text);
}

static void
read_field_cell (Import            *self,
                 const WbCsvRecord *record,
                 const WbColumn    *column,
                 const char        *cell,
                 WbPiece           *piece)
{
  g_autofree char *value = NULL;
  g_autoptr (GError) error = NULL;

  if (column->field->type == WB_FIELD_TEXT)
    {
      read_text_cell (self, record, column, cell, piece);
      return;
    }

  value = wb_inventory_cell_value (column, cell);
  if (!wb_record_set_text (piece, column->field, value, wb_job_get_currency (self->job), &error))
    add_field_fault (self, record, column, error);
}

static void
read_cells (Import            *self,
            const WbCsvRecord *record,
            WbPiece           *piece)
{
  for (guint i = 0; i < self->columns->len; i++)
    {
      const WbColumn *column = &g_array_index (self->columns, WbColumn, i);
      const char *cell = g_ptr_array_index (record->fields, i);

      switch (column->kind)
        {
        case WB_COLUMN_FIELD:
          read_field_cell (self, record, column, cell, piece);
          break;

        case WB_COLUMN_NAMELESS:
          if (cell[strspn (cell, " \t\n")] != '\0')
            {
              g_autofree char *message = g_strdup_printf (_("field %u has no heading in the first line"), i + 1);

              add_fault (self, record, NULL, message);
            }
          break;

        case WB_COLUMN_LOT_NUMBER:
        case WB_COLUMN_LOT_COLOUR:
        case WB_COLUMN_IGNORED:
          break;
        }
    }
}

/* --- the lot of a piece ------------------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): the cell of the column of @kind, %NULL when there is none or it is empty. */
static char *
text_of_kind (Import            *self,
              const WbCsvRecord *record,
              WbColumnKind       kind)
{
  const WbColumn *column = wb_inventory_columns_find (self->columns, kind);
  g_autofree char *text = NULL;

  if (column == NULL)
    return NULL;

  text = wb_inventory_unescape_text (g_ptr_array_index (record->fields,
                                                        (guint) (column - (const WbColumn *) self->columns->data)));
  return *text != '\0' ? g_steal_pointer (&text) : NULL;
}

static gboolean
same_words (const char *a,
            const char *b)
{
  g_autofree char *folded_a = NULL;
  g_autofree char *folded_b = NULL;

  if (a == NULL || b == NULL)
    return a == b;

  folded_a = g_utf8_casefold (a, -1);
  folded_b = g_utf8_casefold (b, -1);
  return g_str_equal (folded_a, folded_b);
}

/* A file without a column for one of the two leaves that one open. */
static const WbLot *
find_lot (Import     *self,
          const char *colour,
          const char *number,
          guint      *n_found)
{
  gboolean any_colour = wb_inventory_columns_find (self->columns, WB_COLUMN_LOT_COLOUR) == NULL;
  gboolean any_number = wb_inventory_columns_find (self->columns, WB_COLUMN_LOT_NUMBER) == NULL;
  const WbLot *found = NULL;

  *n_found = 0;
  for (guint i = 0; i < self->lots->len; i++)
    {
      const WbLot *lot = g_ptr_array_index (self->lots, i);

      if ((any_colour || same_words (lot->colour, colour)) && (any_number || same_words (lot->number, number)))
        {
          found = lot;
          (*n_found)++;
        }
    }

  return found;
}

/* Returns: (transfer full) (nullable): a lot that the job will have, or %NULL with the fault noted. */
static WbLot *
make_lot (Import            *self,
          const WbCsvRecord *record,
          const char        *colour,
          const char        *number)
{
  const WbColumn *column = wb_inventory_columns_find (self->columns, WB_COLUMN_LOT_COLOUR);
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbLot) lot = wb_record_new (WB_KIND_LOT, id);
  g_autoptr (GError) error = NULL;

  if (colour == NULL)
    {
      g_autofree char *message = g_strdup_printf (_("the job has no lot “%s”, and a new one needs the colour of its tags"),
                                                  number);

      add_fault (self, record, column != NULL ? column->heading : NULL, message);
      return NULL;
    }

  wb_set_text (&lot->colour, colour);
  wb_set_text (&lot->number, number);
  if (!wb_record_check (lot, NULL, &error))
    {
      add_fault (self, record, column != NULL ? column->heading : NULL, _("the colour or number of the lot cannot be used"));
      return NULL;
    }

  return g_steal_pointer (&lot);
}

/* Sets the piece's lot. @fresh gets a lot that is not in the job yet; it goes there with the piece. */
static void
choose_lot (Import             *self,
            const WbCsvRecord  *record,
            WbPiece            *piece,
            WbLot             **fresh)
{
  g_autofree char *colour = text_of_kind (self, record, WB_COLUMN_LOT_COLOUR);
  g_autofree char *number = text_of_kind (self, record, WB_COLUMN_LOT_NUMBER);
  const WbLot *lot;
  guint n_found;

  if (colour == NULL && number == NULL)
    return;

  lot = find_lot (self, colour, number, &n_found);
  if (n_found > 1)
    {
      add_fault (self, record, NULL, _("the job has several lots that this could be; give colour and number of the lot"));
      return;
    }

  if (lot == NULL)
    lot = *fresh = make_lot (self, record, colour, number);
  if (lot != NULL)
    wb_set_text (&piece->lot, lot->record.id);
}

/* --- one row ------------------------------------------------------------------------------------------------ */

static void
check_tag (Import            *self,
           const WbCsvRecord *record,
           const WbPiece     *piece)
{
  g_autofree char *key = tag_key (piece->lot, piece->tag);
  g_autofree char *message = NULL;
  gpointer row;

  if (piece->tag == WB_INTEGER_UNSET || !g_hash_table_lookup_extended (self->tags, key, NULL, &row))
    return;

  if (GPOINTER_TO_UINT (row) == 0)
    message = g_strdup_printf (_("the job already has a piece with the tag %d of this lot"), (int) piece->tag);
  else
    message = g_strdup_printf (_("row %u has the tag %d of this lot as well"), GPOINTER_TO_UINT (row), (int) piece->tag);

  for (guint i = 0; i < self->columns->len; i++)
    {
      const WbColumn *column = &g_array_index (self->columns, WbColumn, i);

      if (column->kind == WB_COLUMN_FIELD && g_str_equal (column->field->name, "tag"))
        add_fault (self, record, column->heading, message);
    }
}

static gboolean
check_shape (Import            *self,
             const WbCsvRecord *record)
{
  g_autofree char *message = NULL;

  if (record->fault != NULL)
    {
      const char *heading = record->fault_field < self->columns->len
                            ? g_array_index (self->columns, WbColumn, record->fault_field).heading : NULL;

      add_fault (self, record, heading, record->fault);
      return FALSE;
    }
  if (record->fields->len == self->columns->len)
    return TRUE;

  message = g_strdup_printf (_("there are %u fields here, but %u headings in the first line"),
                             record->fields->len, self->columns->len);
  add_fault (self, record, NULL, message);
  return FALSE;
}

static void
take_piece (Import            *self,
            const WbCsvRecord *record,
            WbPiece           *piece,
            WbLot             *fresh)
{
  if (fresh != NULL)
    {
      g_ptr_array_add (self->lots, wb_record_ref (fresh));
      g_ptr_array_add (self->records, wb_record_ref (fresh));
    }

  if (piece->tag != WB_INTEGER_UNSET)
    g_hash_table_insert (self->tags, tag_key (piece->lot, piece->tag), GUINT_TO_POINTER (record->number));
  g_ptr_array_add (self->records, wb_record_ref (piece));
  self->report->n_taken++;
}

static void
read_row (Import            *self,
          const WbCsvRecord *record)
{
  guint n_faults = self->report->faults->len;
  g_autofree char *id = NULL;
  g_autoptr (WbPiece) piece = NULL;
  g_autoptr (WbLot) fresh = NULL;
  g_autoptr (GError) error = NULL;

  self->report->n_rows++;
  if (!check_shape (self, record))
    return;

  id = wb_office_new_id ();
  piece = wb_record_new (WB_KIND_PIECE, id);
  read_cells (self, record, piece);
  choose_lot (self, record, piece, &fresh);
  if (self->report->faults->len == n_faults)
    check_tag (self, record, piece);
  if (self->report->faults->len == n_faults && !wb_record_check (piece, wb_job_get_currency (self->job), &error))
    add_fault (self, record, NULL, error->message);
  if (self->report->faults->len == n_faults)
    take_piece (self, record, piece, fresh);
}

/* --- the file ----------------------------------------------------------------------------------------------- */

/* The first record that says anything has the headings. */
static gboolean
read_headings (Import       *self,
               WbCsvReader  *reader,
               GError      **error)
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
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _("Line %u: %s"), record->line, record->fault);
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
read_rows (Import       *self,
           WbCsvReader  *reader,
           GError      **error)
{
  for (;;)
    {
      g_autoptr (WbCsvRecord) record = NULL;

      if (!wb_csv_reader_next (reader, &record, error))
        return FALSE;
      if (record == NULL)
        return TRUE;
      if (!wb_csv_record_is_blank (record))
        read_row (self, record);
    }
}

static gboolean
finish (Import        *self,
        WbImportMode   mode,
        GError       **error)
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
  g_auto (Import) import = { 0 };
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

  import_init (&import, job);
  import.report->encoding = g_strdup (encoding);
  wb_csv_reader_init (&reader, text, length);
  if (!read_headings (&import, &reader, error) || !read_rows (&import, &reader, error) ||
      !finish (&import, mode, error))
    return NULL;

  return g_steal_pointer (&import.report);
}

/* --- in a worker thread ------------------------------------------------------------------------------------- */

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
  g_return_val_if_fail (g_async_result_is_tagged (result, wb_inventory_csv_import_file_async), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}
