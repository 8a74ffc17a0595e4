/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows to records and records to rows, for any kind of record by its field table. Which rows are
 * written when is decided in wb-job-store.c. */
#include "config.h"

#include "store/wb-record-table.h"

#include <string.h>

#define MEMBER(record, field, type) G_STRUCT_MEMBER (type, (record), (field)->offset)

/* --- statements ------------------------------------------------------------------------------- */

/* The statements of one table. The first columns of a row are those of FIXED, then come the fields
 * in their order. */
typedef struct
{
  char *read;        /* parameter 1: job; columns position, id, fields */
  char *write;       /* parameters 1 … 3: job, id, position, then the fields */
  char *move;        /* 1: job, 2: id, 3: position */
  char *remove;      /* 1: job, 2: id */
  char *remove_all;  /* 1: job */
} Statements;

#define FIRST_FIELD_COLUMN 2
#define FIRST_FIELD_PARAMETER 4

static char *
make_read (const WbRecordType *type)
{
  GString *sql = g_string_new ("SELECT position, id");

  for (gsize i = 0; i < type->n_fields; i++)
    g_string_append_printf (sql, ", \"%s\"", type->fields[i].name);
  g_string_append_printf (sql, " FROM \"%s\" WHERE job_id = ?1", type->name);
  return g_string_free (sql, FALSE);
}

static char *
make_write (const WbRecordType *type)
{
  g_autoptr (GString) names = g_string_new (NULL);
  g_autoptr (GString) values = g_string_new (NULL);
  g_autoptr (GString) changes = g_string_new (NULL);

  for (gsize i = 0; i < type->n_fields; i++)
    {
      const char *name = type->fields[i].name;

      g_string_append_printf (names, ", \"%s\"", name);
      g_string_append_printf (values, ", ?%" G_GSIZE_FORMAT, i + FIRST_FIELD_PARAMETER);
      g_string_append_printf (changes, ", \"%s\" = excluded.\"%s\"", name, name);
    }
  return g_strdup_printf ("INSERT INTO \"%s\" (job_id, id, position%s) VALUES (?1, ?2, ?3%s)"
                          " ON CONFLICT (job_id, id) DO UPDATE SET position = excluded.position%s",
                          type->name, names->str, values->str, changes->str);
}

static Statements all_statements[WB_N_KINDS];

static void
make_statements (void)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);
      Statements *statements = &all_statements[kind];

      statements->read = make_read (type);
      statements->write = make_write (type);
      statements->move = g_strdup_printf ("UPDATE \"%s\" SET position = ?3"
                                          " WHERE job_id = ?1 AND id = ?2", type->name);
      statements->remove = g_strdup_printf ("DELETE FROM \"%s\" WHERE job_id = ?1 AND id = ?2",
                                            type->name);
      statements->remove_all = g_strdup_printf ("DELETE FROM \"%s\" WHERE job_id = ?1", type->name);
    }
}

/* Made once and kept: the field tables are constant. */
static const Statements *
find_statements (WbKind kind)
{
  static gsize made;

  if (g_once_init_enter (&made))
    {
      make_statements ();
      g_once_init_leave (&made, 1);
    }
  return &all_statements[kind];
}

gboolean
wb_record_table_check (WbSqlite  *book,
                       GError   **error)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    if (wb_sqlite_prepare (book, find_statements ((WbKind) kind)->read, NULL) == NULL)
      {
        wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                             "the book is damaged: it lacks its table “%s” or a part of it",
                             wb_record_type ((WbKind) kind)->name);
        return FALSE;
      }
  return TRUE;
}

/* --- reading ---------------------------------------------------------------------------------- */

/* The record and field that a value read from the book is meant for, so that a damaged one can be
 * named. */
typedef struct
{
  WbSqlite      *book;
  sqlite3_stmt  *statement;
  int            column;
  WbRecord      *record;
  const WbField *field;
  const char    *currency;
} Cell;

static gboolean
refuse_cell (const Cell  *cell,
             GError     **error)
{
  wb_sqlite_set_error (cell->book, WB_STORE_ERROR_CORRUPT, error,
                       "the book is damaged: %s %s, %s holds something else",
                       cell->record->type->name, cell->record->id, cell->field->name);
  return FALSE;
}

static gboolean
read_number (const Cell  *cell,
             gint64       most,
             gint64      *out,
             GError     **error)
{
  gint64 number = sqlite3_column_int64 (cell->statement, cell->column);

  if (sqlite3_column_type (cell->statement, cell->column) != SQLITE_INTEGER || number < 0 ||
      number > most)
    return refuse_cell (cell, error);
  *out = number;
  return TRUE;
}

static gboolean
read_text (const Cell  *cell,
           GError     **error)
{
  const char *text = (const char *) sqlite3_column_text (cell->statement, cell->column);
  gsize length = (gsize) sqlite3_column_bytes (cell->statement, cell->column);

  if (sqlite3_column_type (cell->statement, cell->column) != SQLITE_TEXT || length == 0 ||
      length > WB_TEXT_MAX_BYTES ||
      !g_utf8_validate_len (text, length, NULL))
    return refuse_cell (cell, error);
  MEMBER (cell->record, cell->field, char *) = g_strndup (text, length);
  return TRUE;
}

static gboolean
read_choice (const Cell  *cell,
             const char  *nick,
             GError     **error)
{
  const WbEnumValue *value = wb_enum_find_nick (cell->field->choices, nick);

  if (value == NULL)
    return refuse_cell (cell, error);
  MEMBER (cell->record, cell->field, int) = value->value;
  return TRUE;
}

static gboolean
read_money (const Cell  *cell,
            GError     **error)
{
  gint64 minor;

  if (!read_number (cell, WB_MONEY_MAX_MINOR, &minor, error))
    return FALSE;
  MEMBER (cell->record, cell->field, WbMoney) = wb_money (minor, cell->currency);
  return TRUE;
}

static gboolean
read_cell (const Cell  *cell,
           GError     **error)
{
  const char *text;
  gint64 number;

  switch (cell->field->type)
    {
    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
      return read_text (cell, error);
    case WB_FIELD_BOOLEAN:
      if (!read_number (cell, 1, &number, error))
        return FALSE;
      MEMBER (cell->record, cell->field, gboolean) = number != 0;
      return TRUE;
    case WB_FIELD_INTEGER:
      return read_number (cell, cell->field->maximum, &MEMBER (cell->record, cell->field, gint64),
                          error);
    case WB_FIELD_PERCENT:
      return read_number (cell, 10000, &MEMBER (cell->record, cell->field, gint64), error);
    case WB_FIELD_MONEY:
      return read_money (cell, error);
    case WB_FIELD_ENUM:
    case WB_FIELD_DATE:
    case WB_FIELD_WEIGHT:
    case WB_FIELD_VOLUME:
      break;
    }

  text = (const char *) sqlite3_column_text (cell->statement, cell->column);
  if (text == NULL)
    return refuse_cell (cell, error);
  if (cell->field->type == WB_FIELD_ENUM)
    return read_choice (cell, text, error);
  if (cell->field->type == WB_FIELD_DATE)
    return wb_date_parse (text, &MEMBER (cell->record, cell->field, GDate), NULL) ||
           refuse_cell (cell, error);
  if (cell->field->type == WB_FIELD_WEIGHT)
    return wb_weight_parse (text, WB_WEIGHT_UNIT_NONE,
                            &MEMBER (cell->record, cell->field, WbWeight), NULL) ||
           refuse_cell (cell, error);
  return wb_volume_parse (text, WB_VOLUME_UNIT_NONE, &MEMBER (cell->record, cell->field, WbVolume),
                          NULL) ||
         refuse_cell (cell, error);
}

static WbRecord *
read_row (WbSqlite            *book,
          const WbRecordType  *type,
          sqlite3_stmt        *statement,
          const char          *currency,
          GError             **error)
{
  g_autoptr (WbRecord) record = NULL;
  const char *id = (const char *) sqlite3_column_text (statement, 1);

  if (!wb_record_id_is_valid (id))
    {
      wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                           "the book is damaged: a %s has no proper id", type->name);
      return NULL;
    }
  record = wb_record_new (type->kind, id);
  for (gsize i = 0; i < type->n_fields; i++)
    {
      int column = FIRST_FIELD_COLUMN + (int) i;
      Cell cell = { book, statement, column, record, &type->fields[i], currency };

      if (sqlite3_column_type (statement, cell.column) != SQLITE_NULL && !read_cell (&cell, error))
        return NULL;
    }
  return g_steal_pointer (&record);
}

/* A record with the position that its row names. */
typedef struct
{
  gint64    position;
  WbRecord *record;
} Placed;

static void
clear_placed (gpointer data)
{
  wb_record_unref (((Placed *) data)->record);
}

static gboolean
read_rows (WbSqlite            *book,
           const WbRecordType  *type,
           sqlite3_stmt        *statement,
           const char          *currency,
           GArray              *rows,
           GError             **error)
{
  WbStep step;

  while ((step = wb_sqlite_step (book, statement, error)) == WB_STEP_ROW)
    {
      Placed row = { sqlite3_column_int64 (statement, 0), NULL };

      row.record = read_row (book, type, statement, currency, error);
      if (row.record == NULL)
        {
          sqlite3_reset (statement);
          return FALSE;
        }
      g_array_append_val (rows, row);
    }
  return step == WB_STEP_END;
}

/* Rows come in the order of their ids. Each position from 0 on has to be taken once, so they are
 * put in place without sorting. */
static gboolean
place_rows (GArray    *rows,
            GPtrArray *records)
{
  guint first = records->len;

  g_ptr_array_set_size (records, (gint) (first + rows->len));
  for (guint i = 0; i < rows->len; i++)
    {
      Placed *row = &g_array_index (rows, Placed, i);
      gpointer *place;

      if (row->position < 0 || row->position >= rows->len)
        return FALSE;
      place = &g_ptr_array_index (records, first + (guint) row->position);
      if (*place != NULL)
        return FALSE;
      *place = g_steal_pointer (&row->record);
    }
  return TRUE;
}

gboolean
wb_record_table_read (WbSqlite     *book,
                      WbKind        kind,
                      const char   *job_id,
                      const char   *currency,
                      GPtrArray    *records,
                      GError      **error)
{
  const WbRecordType *type = wb_record_type (kind);
  sqlite3_stmt *statement = wb_sqlite_prepare (book, find_statements (kind)->read, error);
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (Placed));

  if (statement == NULL)
    return FALSE;
  g_array_set_clear_func (rows, clear_placed);
  wb_sqlite_bind_text (statement, 1, job_id);
  if (!read_rows (book, type, statement, currency, rows, error))
    return FALSE;
  if (place_rows (rows, records))
    return TRUE;
  wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                       "the book is damaged: the %s of job %s are out of order", type->plural,
                       job_id);
  return FALSE;
}

/* --- writing ---------------------------------------------------------------------------------- */

static gboolean
refuse_value (WbSqlite        *book,
              const WbRecord  *record,
              const WbField   *field,
              const char      *why,
              GError         **error)
{
  wb_sqlite_set_error (book, WB_STORE_ERROR_CONSTRAINT, error, "%s %s, %s: %s", record->type->name,
                       record->id, field->name, why);
  return FALSE;
}

/* What could not be read back must not go in. */
static gboolean
bind_text (WbSqlite        *book,
           sqlite3_stmt    *statement,
           int              parameter,
           const WbRecord  *record,
           const WbField   *field,
           GError         **error)
{
  const char *text = MEMBER (record, field, char *);

  if (text != NULL &&
      (*text == '\0' || strlen (text) > WB_TEXT_MAX_BYTES || !g_utf8_validate (text, -1, NULL)))
    return refuse_value (book, record, field, "the text is empty, too long or not valid UTF-8",
                         error);
  wb_sqlite_bind_text (statement, parameter, text);
  return TRUE;
}

/* Canonical text has two decimals; a quantity with more would come back as another one. */
static gboolean
bind_quantity (WbSqlite        *book,
               sqlite3_stmt    *statement,
               int              parameter,
               const WbRecord  *record,
               const WbField   *field,
               GError         **error)
{
  g_autofree char *text = wb_record_get_text (record, field);
  WbWeight weight = WB_WEIGHT_UNSET;
  WbVolume volume = WB_VOLUME_UNSET;
  gboolean exact;

  if (field->type == WB_FIELD_WEIGHT)
    exact = wb_weight_parse (text, WB_WEIGHT_UNIT_NONE, &weight, NULL) &&
            wb_weight_equal (weight, MEMBER (record, field, WbWeight));
  else
    exact = wb_volume_parse (text, WB_VOLUME_UNIT_NONE, &volume, NULL) &&
            wb_volume_equal (volume, MEMBER (record, field, WbVolume));
  if (!exact)
    return refuse_value (book, record, field, "it is not a whole number of hundredths of its unit",
                         error);
  sqlite3_bind_text (statement, parameter, g_steal_pointer (&text), -1, g_free);
  return TRUE;
}

static gboolean
bind_field (WbSqlite        *book,
            sqlite3_stmt    *statement,
            int              parameter,
            const char      *currency,
            const WbRecord  *record,
            const WbField   *field,
            GError         **error)
{
  switch (field->type)
    {
    case WB_FIELD_BOOLEAN:
      wb_sqlite_bind_number (statement, parameter, MEMBER (record, field, gboolean) ? 1 : 0);
      return TRUE;
    case WB_FIELD_ENUM:
      if (wb_enum_find (field->choices, MEMBER (record, field, int)) == NULL)
        return refuse_value (book, record, field, "it is not one of the list", error);
      wb_sqlite_bind_text (statement, parameter,
                           wb_enum_nick (field->choices, MEMBER (record, field, int)));
      return TRUE;
    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
      return bind_text (book, statement, parameter, record, field, error);
    case WB_FIELD_INTEGER:
    case WB_FIELD_PERCENT:
    case WB_FIELD_DATE:
    case WB_FIELD_MONEY:
    case WB_FIELD_WEIGHT:
    case WB_FIELD_VOLUME:
      break;
    }

  if (!wb_record_field_is_set (field, record))
    return TRUE;
  if (field->type == WB_FIELD_MONEY)
    {
      if (strcmp (MEMBER (record, field, WbMoney).currency, currency) != 0)
        return refuse_value (book, record, field, "the amount is not in the job's currency", error);
      wb_sqlite_bind_number (statement, parameter, MEMBER (record, field, WbMoney).minor);
    }
  else if (field->type == WB_FIELD_DATE)
    sqlite3_bind_text (statement, parameter, wb_date_to_text (&MEMBER (record, field, GDate)), -1,
                       g_free);
  else if (field->type == WB_FIELD_WEIGHT || field->type == WB_FIELD_VOLUME)
    return bind_quantity (book, statement, parameter, record, field, error);
  else
    wb_sqlite_bind_number (statement, parameter, MEMBER (record, field, gint64));
  return TRUE;
}

gboolean
wb_record_table_write (WbSqlite        *book,
                       const char      *job_id,
                       const char      *currency,
                       const WbRecord  *record,
                       guint            position,
                       GError         **error)
{
  const WbRecordType *type = record->type;
  sqlite3_stmt *statement = wb_sqlite_prepare (book, find_statements (type->kind)->write, error);

  if (statement == NULL)
    return FALSE;
  wb_sqlite_bind_text (statement, 1, job_id);
  wb_sqlite_bind_text (statement, 2, record->id);
  wb_sqlite_bind_number (statement, 3, position);
  for (gsize i = 0; i < type->n_fields; i++)
    if (!bind_field (book, statement, FIRST_FIELD_PARAMETER + (int) i, currency, record,
                     &type->fields[i], error))
      return FALSE;
  return wb_sqlite_run (book, statement, error);
}

/* Runs a statement that has to find the row of @record. */
static gboolean
run_on_row (WbSqlite        *book,
            sqlite3_stmt    *statement,
            const WbRecord  *record,
            GError         **error)
{
  if (!wb_sqlite_run (book, statement, error))
    return FALSE;
  if (sqlite3_changes (wb_sqlite_get_handle (book)) == 1)
    return TRUE;
  wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                       "the book is damaged: %s %s is not there", record->type->name, record->id);
  return FALSE;
}

gboolean
wb_record_table_move (WbSqlite        *book,
                      const char      *job_id,
                      const WbRecord  *record,
                      guint            position,
                      GError         **error)
{
  sqlite3_stmt *statement = wb_sqlite_prepare (book, find_statements (record->type->kind)->move,
                                               error);

  if (statement == NULL)
    return FALSE;
  wb_sqlite_bind_text (statement, 1, job_id);
  wb_sqlite_bind_text (statement, 2, record->id);
  wb_sqlite_bind_number (statement, 3, position);
  return run_on_row (book, statement, record, error);
}

gboolean
wb_record_table_remove (WbSqlite        *book,
                        const char      *job_id,
                        const WbRecord  *record,
                        GError         **error)
{
  sqlite3_stmt *statement = wb_sqlite_prepare (book, find_statements (record->type->kind)->remove,
                                               error);

  if (statement == NULL)
    return FALSE;
  wb_sqlite_bind_text (statement, 1, job_id);
  wb_sqlite_bind_text (statement, 2, record->id);
  return run_on_row (book, statement, record, error);
}

gboolean
wb_record_table_remove_all (WbSqlite    *book,
                            const char  *job_id,
                            GError     **error)
{
  /* Backwards, so that no record goes before those that refer to it. */
  for (int kind = WB_N_KINDS - 1; kind >= 0; kind--)
    {
      sqlite3_stmt *statement = wb_sqlite_prepare (book,
                                                   find_statements ((WbKind) kind)->remove_all,
                                                   error);

      if (statement == NULL)
        return FALSE;
      wb_sqlite_bind_text (statement, 1, job_id);
      if (!wb_sqlite_run (book, statement, error))
        return FALSE;
    }
  return TRUE;
}
