/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row of an inventory: its cells become the fields of a piece, or faults, and its lot is found
 * or made. Where the rows come from is for wb-inventory-csv.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-inventory-private.h"

#include "office/wb-inventory-columns.h"
#include "office/wb-office.h"
#include "office/wb-things-cell.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <string.h>

void
wb_inventory_import_clear (WbInventoryImport *self)
{
  g_clear_pointer (&self->report, wb_import_report_free);
  g_clear_pointer (&self->columns, g_array_unref);
  g_clear_pointer (&self->lots, g_ptr_array_unref);
  g_clear_pointer (&self->records, g_ptr_array_unref);
  g_clear_pointer (&self->tags, g_hash_table_unref);
}

static void
add_fault (WbInventoryImport *self,
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

void
wb_inventory_import_init (WbInventoryImport *self,
                          WbJob             *job)
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

/* --- fields of a piece ------------------------------------------------------------------------ */

/* What core says starts with the field's name; here the column is named beside it. */
static void
add_field_fault (WbInventoryImport *self,
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
read_text_cell (WbInventoryImport *self,
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
read_field_cell (WbInventoryImport *self,
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
read_things_cell (WbInventoryImport *self,
                  const WbCsvRecord *record,
                  const WbColumn    *column,
                  const char        *cell,
                  const WbPiece     *piece,
                  GPtrArray         *things)
{
  g_autofree char *text = wb_inventory_unescape_text (cell);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) read = wb_things_cell_read (text, piece->record.id,
                                                    wb_job_get_currency (self->job), &error);

  if (read == NULL)
    add_fault (self, record, column->heading, error->message);
  else
    g_ptr_array_extend_and_steal (things, g_steal_pointer (&read));
}

static void
read_cells (WbInventoryImport *self,
            const WbCsvRecord *record,
            WbPiece           *piece,
            GPtrArray         *things)
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
              g_autofree char *message = g_strdup_printf (_("field %u has no heading in the first "
                                                            "line"), i + 1);

              add_fault (self, record, NULL, message);
            }
          break;

        case WB_COLUMN_THINGS:
          read_things_cell (self, record, column, cell, piece, things);
          break;

        case WB_COLUMN_LOT_NUMBER:
        case WB_COLUMN_LOT_COLOUR:
        case WB_COLUMN_IGNORED:
          break;
        }
    }
}

/* --- the lot of a piece ----------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): the cell of the column of @kind, %NULL when there is none
 * or it is empty. */
static char *
text_of_kind (WbInventoryImport *self,
              const WbCsvRecord *record,
              WbColumnKind       kind)
{
  const WbColumn *column = wb_inventory_columns_find (self->columns, kind);
  g_autofree char *text = NULL;
  guint index;

  if (column == NULL)
    return NULL;

  index = (guint) (column - (const WbColumn *) self->columns->data);
  text = wb_inventory_unescape_text (g_ptr_array_index (record->fields, index));
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
find_lot (WbInventoryImport *self,
          const char        *colour,
          const char        *number,
          guint             *n_found)
{
  gboolean any_colour = wb_inventory_columns_find (self->columns, WB_COLUMN_LOT_COLOUR) == NULL;
  gboolean any_number = wb_inventory_columns_find (self->columns, WB_COLUMN_LOT_NUMBER) == NULL;
  const WbLot *found = NULL;

  *n_found = 0;
  for (guint i = 0; i < self->lots->len; i++)
    {
      const WbLot *lot = g_ptr_array_index (self->lots, i);

      if ((any_colour || same_words (lot->colour, colour)) &&
          (any_number || same_words (lot->number, number)))
        {
          found = lot;
          (*n_found)++;
        }
    }

  return found;
}

/* Returns: (transfer full) (nullable): a lot that the job will have, or %NULL with the fault
 * noted. */
static WbLot *
make_lot (WbInventoryImport *self,
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
      g_autofree char *message = g_strdup_printf (_("the job has no lot “%s”, and a new one needs "
                                                    "the colour of its tags"),
                                                  number);

      add_fault (self, record, column != NULL ? column->heading : NULL, message);
      return NULL;
    }

  wb_set_text (&lot->colour, colour);
  wb_set_text (&lot->number, number);
  if (!wb_record_check (lot, NULL, &error))
    {
      add_fault (self, record, column != NULL ? column->heading : NULL,
                 _("the colour or number of the lot cannot be used"));
      return NULL;
    }

  return g_steal_pointer (&lot);
}

/* Sets the piece's lot. @fresh gets a lot that is not in the job yet; it goes there with the
 * piece. */
static void
choose_lot (WbInventoryImport  *self,
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
      add_fault (self, record, NULL, _("the job has several lots that this could be; give colour "
                                       "and number of the lot"));
      return;
    }

  if (lot == NULL)
    lot = *fresh = make_lot (self, record, colour, number);
  if (lot != NULL)
    wb_set_text (&piece->lot, lot->record.id);
}

/* --- one row ---------------------------------------------------------------------------------- */

static void
check_tag (WbInventoryImport *self,
           const WbCsvRecord *record,
           const WbPiece     *piece)
{
  g_autofree char *key = tag_key (piece->lot, piece->tag);
  g_autofree char *message = NULL;
  gpointer row;

  if (piece->tag == WB_INTEGER_UNSET || !g_hash_table_lookup_extended (self->tags, key, NULL, &row))
    return;

  if (GPOINTER_TO_UINT (row) == 0)
    message = g_strdup_printf (_("the job already has a piece with the tag %d of this lot"),
                               (int) piece->tag);
  else
    message = g_strdup_printf (_("row %u has the tag %d of this lot as well"),
                               GPOINTER_TO_UINT (row), (int) piece->tag);

  for (guint i = 0; i < self->columns->len; i++)
    {
      const WbColumn *column = &g_array_index (self->columns, WbColumn, i);

      if (column->kind == WB_COLUMN_FIELD && g_str_equal (column->field->name, "tag"))
        add_fault (self, record, column->heading, message);
    }
}

static gboolean
check_shape (WbInventoryImport *self,
             const WbCsvRecord *record)
{
  g_autofree char *message = NULL;

  if (record->fault != NULL)
    {
      const char *heading = record->fault_field < self->columns->len
                            ? g_array_index (self->columns, WbColumn,
                                             record->fault_field).heading : NULL;

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
take_piece (WbInventoryImport *self,
            const WbCsvRecord *record,
            WbPiece           *piece,
            GPtrArray         *things,
            WbLot             *fresh)
{
  if (fresh != NULL)
    {
      g_ptr_array_add (self->lots, wb_record_ref (fresh));
      g_ptr_array_add (self->records, wb_record_ref (fresh));
    }

  if (piece->tag != WB_INTEGER_UNSET)
    g_hash_table_insert (self->tags, tag_key (piece->lot, piece->tag),
                         GUINT_TO_POINTER (record->number));
  g_ptr_array_add (self->records, wb_record_ref (piece));
  for (guint i = 0; i < things->len; i++)
    g_ptr_array_add (self->records, wb_record_ref (g_ptr_array_index (things, i)));
  self->report->n_taken++;
}

void
wb_inventory_import_row (WbInventoryImport *self,
                         const WbCsvRecord *record)
{
  guint n_faults = self->report->faults->len;
  g_autofree char *id = NULL;
  g_autoptr (WbPiece) piece = NULL;
  g_autoptr (GPtrArray) things = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbLot) fresh = NULL;
  g_autoptr (GError) error = NULL;

  self->report->n_rows++;
  if (!check_shape (self, record))
    return;

  id = wb_office_new_id ();
  piece = wb_record_new (WB_KIND_PIECE, id);
  read_cells (self, record, piece, things);
  choose_lot (self, record, piece, &fresh);
  if (self->report->faults->len == n_faults)
    check_tag (self, record, piece);
  if (self->report->faults->len == n_faults &&
      !wb_record_check (piece, wb_job_get_currency (self->job), &error))
    add_fault (self, record, NULL, error->message);
  if (self->report->faults->len == n_faults)
    take_piece (self, record, piece, things, fresh);
}
