/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book's tables against core's field tables: a field that is added to core without a version of
 * the book that has a column for it fails here. */
#include "config.h"

#include "book-fixture.h"
#include "store/wb-book-private.h"

#include <string.h>

/* A database that has the tables of a book, and has not been looked at as one. */
static void
set_up_tables (Fixture       *self,
               gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbSqlite) tables = NULL;

  fixture_set_up_folder (self, data);
  tables = wb_sqlite_open (self->path, WB_SQLITE_CREATE, &error);
  g_assert_no_error (error);
  g_assert_true (wb_migrate (tables, wb_migrations (), NULL, &error));
  g_assert_no_error (error);
}

static sqlite3 *
open_raw (Fixture *self)
{
  sqlite3 *handle;

  g_assert_cmpint (sqlite3_open_v2 (self->path, &handle, SQLITE_OPEN_READWRITE, NULL), ==,
                   SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (handle, "PRAGMA foreign_keys = ON", NULL, NULL, NULL), ==,
                   SQLITE_OK);
  return handle;
}

/* Prepares @sql with the name of a table in place of each "$". */
static sqlite3_stmt *
prepare (sqlite3    *handle,
         const char *sql,
         const char *table)
{
  g_autoptr (GString) text = g_string_new (sql);
  sqlite3_stmt *statement;

  g_string_replace (text, "$", table, 0);
  if (sqlite3_prepare_v2 (handle, text->str, -1, &statement, NULL) != SQLITE_OK)
    g_error ("%s: %s", text->str, sqlite3_errmsg (handle));
  return statement;
}

static const char *
column_type_of (const WbField *field)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
    case WB_FIELD_ENUM:
    case WB_FIELD_DATE:
    case WB_FIELD_WEIGHT:
    case WB_FIELD_VOLUME:
      return "TEXT";
    case WB_FIELD_BOOLEAN:
    case WB_FIELD_INTEGER:
    case WB_FIELD_PERCENT:
    case WB_FIELD_MONEY:
      return "INTEGER";
    }
  g_assert_not_reached ();
}

/* A column that always holds something: what has no "not given", and references without which a
 * record is nothing. */
static gboolean
is_never_null (const WbField *field)
{
  return field->type == WB_FIELD_BOOLEAN || field->type == WB_FIELD_ENUM ||
         (field->type == WB_FIELD_REFERENCE && (field->flags & WB_FIELD_REQUIRED) != 0);
}

static void
compare_columns (sqlite3            *handle,
                 const WbRecordType *type)
{
  static const char *const own[] = { "job_id", "id", "position" };
  sqlite3_stmt *statement = prepare (handle, "PRAGMA table_info (\"$\")", type->name);
  gsize n_fields = 0, n_own = 0;

  while (sqlite3_step (statement) == SQLITE_ROW)
    {
      const char *name = (const char *) sqlite3_column_text (statement, 1);
      const char *column_type = (const char *) sqlite3_column_text (statement, 2);
      gboolean not_null = sqlite3_column_int (statement, 3) != 0;
      const WbField *field = wb_record_type_field (type, name);

      g_test_message ("%s.%s", type->name, name);
      if (n_own < G_N_ELEMENTS (own))
        {
          g_assert_cmpstr (name, ==, own[n_own++]);
          g_assert_true (not_null);
          continue;
        }
      g_assert_nonnull (field);
      g_assert_cmpstr (column_type, ==, column_type_of (field));
      g_assert_cmpint (not_null, ==, is_never_null (field));
      n_fields++;
    }
  sqlite3_finalize (statement);
  g_assert_cmpuint (n_fields, ==, type->n_fields);
}

static void
test_columns (Fixture       *self,
              gconstpointer  data)
{
  sqlite3 *handle = open_raw (self);

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    compare_columns (handle, wb_record_type ((WbKind) kind));
  sqlite3_close (handle);
}

/* Strict tables, keyed by job and record, without a second key. */
static void
test_tables (Fixture       *self,
             gconstpointer  data)
{
  sqlite3 *handle = open_raw (self);

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);
      sqlite3_stmt *statement = prepare (handle,
                                         "SELECT strict, wr FROM pragma_table_list WHERE name ="
                                         " '$'", type->name);

      g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_ROW);
      g_assert_cmpint (sqlite3_column_int (statement, 0), ==, 1);
      g_assert_cmpint (sqlite3_column_int (statement, 1), ==, 1);
      sqlite3_finalize (statement);
    }
  sqlite3_close (handle);
}

/* How often the table has a foreign key from (job_id, @field) to (job_id, id) of @target with
 * @on_delete. */
static int
count_foreign_keys (sqlite3    *handle,
                    const char *table,
                    const char *field,
                    const char *target,
                    const char *on_delete)
{
  sqlite3_stmt *statement = prepare (handle,
                                     "WITH keys AS (SELECT * FROM pragma_foreign_key_list ('$'))"
                                     " SELECT count (*) FROM keys AS a JOIN keys AS b USING (id)"
                                     " WHERE a.\"from\" = 'job_id' AND a.\"to\" = 'job_id' AND"
                                     " b.\"from\" = ?1 AND b.\"to\" = 'id' AND b.\"table\" = ?2"
                                     " AND b.on_delete = ?3", table);
  int n;

  sqlite3_bind_text (statement, 1, field, -1, SQLITE_STATIC);
  sqlite3_bind_text (statement, 2, target, -1, SQLITE_STATIC);
  sqlite3_bind_text (statement, 3, on_delete, -1, SQLITE_STATIC);
  g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_ROW);
  n = sqlite3_column_int (statement, 0);
  sqlite3_finalize (statement);
  return n;
}

static void
test_references (Fixture       *self,
                 gconstpointer  data)
{
  sqlite3 *handle = open_raw (self);
  guint n = 0;

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);

      for (gsize i = 0; i < type->n_fields; i++)
        {
          const WbField *field = &type->fields[i];
          const char *on_delete = (field->flags & WB_FIELD_OWNER) != 0 ? "CASCADE" : "NO ACTION";

          if (field->type != WB_FIELD_REFERENCE)
            continue;
          g_test_message ("%s.%s", type->name, field->name);
          g_assert_cmpint (count_foreign_keys (handle, type->name, field->name,
                                               wb_record_type (field->refers)->name, on_delete), ==,
                                               1);
          n++;
        }
    }
  g_assert_cmpuint (n, >, 0);
  sqlite3_close (handle);
}

/* Every value of every list can be stored, and nothing else. */
static void
try_choices (sqlite3            *handle,
             const WbRecordType *type,
             const WbField      *field)
{
  g_autofree char *sql = g_strdup_printf ("UPDATE \"$\" SET \"%s\" = ?1", field->name);
  sqlite3_stmt *statement = prepare (handle, sql, type->name);

  for (gsize i = 0; i < field->choices->n_values; i++)
    {
      g_test_message ("%s.%s %s", type->name, field->name, field->choices->values[i].nick);
      sqlite3_bind_text (statement, 1, field->choices->values[i].nick, -1, SQLITE_STATIC);
      g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_DONE);
      g_assert_cmpint (sqlite3_changes (handle), >, 0);
      sqlite3_reset (statement);
    }
  sqlite3_bind_text (statement, 1, "something else", -1, SQLITE_STATIC);
  g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_CONSTRAINT);
  sqlite3_finalize (statement);
}

static void
test_choices (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  sqlite3 *handle = open_raw (self);

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);

      for (gsize i = 0; i < type->n_fields; i++)
        if (type->fields[i].type == WB_FIELD_ENUM)
          try_choices (handle, type, &type->fields[i]);
    }
  sqlite3_close (handle);
}

/* What the tables refuse whoever writes to them. */
static void
test_refusals (Fixture       *self,
               gconstpointer  data)
{
  static const char *const refused[] = {
    "UPDATE \"order\" SET booked_on = '2026-2-3'",
    "UPDATE \"order\" SET booked_on = 'soon'",
    "UPDATE \"order\" SET estimate = -1",
    "UPDATE \"order\" SET estimate = 'much'",
    "UPDATE \"order\" SET guaranteed = 2",
    "UPDATE \"order\" SET id = 'another'",
    "UPDATE piece SET tag = -1",
    "UPDATE piece SET lot = 'lot-9'",
    "UPDATE claim_line SET depreciation_yearly = 10001",
    "UPDATE finding SET handover = NULL",
    "UPDATE piece SET job_id = 'nowhere'",
    "DELETE FROM piece",
    "DELETE FROM lot",
    "DELETE FROM job",
  };
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  sqlite3 *handle = open_raw (self);

  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_test_message ("%s", refused[i]);
      g_assert_cmpint (sqlite3_exec (handle, refused[i], NULL, NULL, NULL), ==, SQLITE_CONSTRAINT);
    }
  sqlite3_close (handle);
}

static void
test_marks_of_a_book (Fixture       *self,
                      gconstpointer  data)
{
  g_autofree char *mode = ask_text (self->path, "PRAGMA journal_mode");

  g_assert_cmpint (ask_number (self->path, "PRAGMA application_id"), ==, WB_BOOK_APPLICATION_ID);
  g_assert_cmpint (ask_number (self->path, "PRAGMA user_version"), ==,
                   g_strv_length ((char **) wb_migrations ()));
  g_assert_cmpstr (mode, ==, "wal");
}

#define ADD(path, set_up, function) \
  g_test_add ("/store/schema/" path, Fixture, NULL, set_up, function, fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("columns", set_up_tables, test_columns);
  ADD ("tables", set_up_tables, test_tables);
  ADD ("references", set_up_tables, test_references);
  ADD ("choices", fixture_set_up, test_choices);
  ADD ("refusals", fixture_set_up, test_refusals);
  ADD ("marks", fixture_set_up, test_marks_of_a_book);
  return g_test_run ();
}
