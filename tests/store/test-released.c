/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Books as they were released, one of every version: opened by this program they hold what they
 * held, and can be worked on. They are made by make-released-book; one that was released never
 * changes. */
#include "config.h"

#include "book-fixture.h"
#include "released-book.h"
#include "store/wb-book-private.h"

static char *
data_file (guint       version,
           const char *ending)
{
  g_autofree char *name = g_strdup_printf ("book-%u.%s", version, ending);

  return g_test_build_filename (G_TEST_DIST, "store", "data", name, NULL);
}

static void
unpack (guint       version,
        const char *to)
{
  g_autofree char *packed = data_file (version, "gz");
  g_autoptr (GFile) source = g_file_new_for_path (packed);
  g_autoptr (GFile) target = g_file_new_for_path (to);
  GZlibCompressorFormat format = G_ZLIB_COMPRESSOR_FORMAT_GZIP;
  g_autoptr (GZlibDecompressor) decompressor = g_zlib_decompressor_new (format);
  g_autoptr (GError) error = NULL;
  g_autoptr (GFileInputStream) input = g_file_read (source, NULL, &error);
  g_autoptr (GFileOutputStream) output = NULL;
  g_autoptr (GInputStream) stream = NULL;

  g_assert_no_error (error);
  output = g_file_create (target, G_FILE_CREATE_NONE, NULL, &error);
  g_assert_no_error (error);
  stream = g_converter_input_stream_new (G_INPUT_STREAM (input), G_CONVERTER (decompressor));
  g_output_stream_splice (G_OUTPUT_STREAM (output), stream, G_OUTPUT_STREAM_SPLICE_CLOSE_TARGET,
                          NULL, &error);
  g_assert_no_error (error);
}

static void
test_rows (Fixture       *self,
           gconstpointer  data)
{
  guint version = GPOINTER_TO_UINT (data);
  g_autofree char *path = data_file (version, "txt");
  g_autofree char *expected = NULL;
  g_autofree char *described = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &expected, NULL, &error);
  g_assert_no_error (error);
  unpack (version, self->path);
  g_assert_cmpint (ask_number (self->path, "PRAGMA user_version"), ==, version);
  fixture_reopen (self);
  described = released_book_describe (self->book);
  g_assert_cmpstr (described, ==, expected);
}

static void
test_works_on (Fixture       *self,
               gconstpointer  data)
{
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autofree char *number = NULL;
  g_autofree char *id = NULL;
  g_autoptr (GError) error = NULL;

  unpack (GPOINTER_TO_UINT (data), self->path);
  fixture_reopen (self);
  job = load (self->book, "plain");
  changed = with_record (job, WB_KIND_PARTY, "party-1", "name", "Imani Okonjo", NULL);
  stored = save (self->book, job, changed);
  loaded = load (self->book, "plain");
  assert_same_job (loaded, stored);
  number = wb_book_next_number (self->book, "J-2026-", NULL, &error);
  g_assert_no_error (error);
  /* Before version 3 the book did not know the number of a job that was removed. */
  g_assert_cmpstr (number, ==, GPOINTER_TO_UINT (data) < 3 ? "J-2026-0003" : "J-2026-0004");
  id = wb_book_find_job (self->book, "C-2026-0001", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (id, ==, "plain");
}

/* A book made by all versions in turn up to that one has the tables of the released one: none of
 * them was edited since. */
static void
test_never_edited (Fixture       *self,
                   gconstpointer  data)
{
  static const char schema[] = "SELECT group_concat (name || ': ' || coalesce (sql, ''), char"
                               " (10)) FROM (SELECT name, sql FROM sqlite_schema ORDER BY name)";
  guint version = GPOINTER_TO_UINT (data);
  g_autofree char *fresh = g_build_filename (self->folder, "fresh.book", NULL);
  g_autofree const char **migrations = g_new0 (const char *, version + 1);
  g_autofree char *released_schema = NULL;
  g_autofree char *fresh_schema = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbSqlite) book = NULL;

  for (guint i = 0; i < version; i++)
    migrations[i] = wb_migrations ()[i];
  book = wb_sqlite_open (fresh, WB_SQLITE_CREATE, &error);
  g_assert_no_error (error);
  g_assert_true (wb_migrate (book, migrations, NULL, &error));
  g_assert_no_error (error);
  unpack (version, self->path);
  released_schema = ask_text (self->path, schema);
  fresh_schema = ask_text (fresh, schema);
  g_assert_cmpstr (fresh_schema, ==, released_schema);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint version = 1; version <= g_strv_length ((char **) wb_migrations ()); version++)
    {
      g_autofree char *rows = g_strdup_printf ("/store/released/%u/rows", version);
      g_autofree char *works_on = g_strdup_printf ("/store/released/%u/works-on", version);
      g_autofree char *never_edited = g_strdup_printf ("/store/released/%u/never-edited", version);

      g_test_add (rows, Fixture, GUINT_TO_POINTER (version), fixture_set_up_folder, test_rows,
                  fixture_tear_down);
      g_test_add (works_on, Fixture, GUINT_TO_POINTER (version), fixture_set_up_folder,
                  test_works_on, fixture_tear_down);
      g_test_add (never_edited, Fixture, GUINT_TO_POINTER (version), fixture_set_up_folder,
                  test_never_edited, fixture_tear_down);
    }
  return g_test_run ();
}
