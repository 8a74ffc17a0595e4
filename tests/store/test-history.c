/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The history of a job: who did what and when, and every changed field's old and new value. */
#include "config.h"

#include "book-fixture.h"

#include <string.h>

static GPtrArray *
list (Fixture    *self,
      const char *id)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *entries = wb_book_list_history (self->book, id, NULL, &error);

  g_assert_no_error (error);
  return entries;
}

static WbHistoryEntry *
nth (GPtrArray *entries,
     guint      index)
{
  g_assert_cmpuint (index, <, entries->len);
  return g_ptr_array_index (entries, index);
}

static void
assert_changes (GPtrArray  *entries,
                guint       index,
                const char *expected)
{
  g_assert_cmpstr (nth (entries, index)->changes, ==, expected);
}

/* One change, as it stands in the JSON. */
#define Q(text) "\"" text "\""
#define ENTRY(kind, id, field, old, new) \
  "{\"kind\":\"" kind "\",\"id\":\"" id "\",\"field\":\"" field "\"," \
  "\"old\":" old ",\"new\":" new "}"

static void
test_deeds (Fixture       *self,
            gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_new ("job-1", "USD");
  g_autoptr (WbJob) first = NULL;
  g_autoptr (WbJob) second = NULL;
  g_autoptr (WbJob) third = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) without = NULL;
  g_autoptr (GPtrArray) entries = NULL;
  g_autoptr (GDateTime) when = NULL;
  g_autoptr (GError) error = NULL;

  change_job (&job, WB_KIND_ORDER, "order", "number", "J-1");
  change_job (&job, WB_KIND_PIECE, "piece-1", "tag", "7", "room", "Hall", "weight", "54.5 kg");
  first = wb_book_save_job (self->book, NULL, job, "imported 1 piece", NULL, &error);
  g_assert_no_error (error);
  changed = with_record (first, WB_KIND_PIECE, "piece-1", "room", "", "weight", "55 kg",
                         "packed_by", "CP", "listed_value", "1,200", NULL);
  change_job (&changed, WB_KIND_ORDER, "order", "guaranteed", "yes", "pickup_from", "2026-03-02");
  second = wb_book_save_job (self->book, first, changed, "checked “everything”\nonce more", NULL,
                             &error);
  g_assert_no_error (error);
  without = wb_job_without (second, WB_KIND_PIECE, "piece-1", &error);
  g_assert_no_error (error);
  third = wb_book_save_job (self->book, second, without, "took a piece off", NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_book_remove_job (self->book, "job-1", 3, NULL, &error));
  g_assert_no_error (error);

  entries = list (self, "job-1");
  g_assert_cmpuint (entries->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      g_assert_cmpint (nth (entries, i)->revision, ==, 4 - i);
      g_assert_cmpstr (nth (entries, i)->who, ==, g_get_user_name ());
      when = g_date_time_new_from_iso8601 (nth (entries, i)->when, NULL);
      g_assert_nonnull (when);
      g_assert_true (g_str_has_suffix (nth (entries, i)->when, "Z"));
      g_assert_cmpint (ABS (g_date_time_to_unix (when) - g_get_real_time () / G_USEC_PER_SEC), <,
                       600);
      g_clear_pointer (&when, g_date_time_unref);
    }
  g_assert_cmpstr (nth (entries, 3)->deed, ==, "imported 1 piece");
  assert_changes (entries, 3,
                  "[" ENTRY ("order", "order", "number", "null", Q ("J-1")) ",\n"
                  ENTRY ("piece", "piece-1", "id", "null", Q ("piece-1")) ",\n"
                  ENTRY ("piece", "piece-1", "tag", "null", Q ("7")) ",\n"
                  ENTRY ("piece", "piece-1", "room", "null", Q ("Hall")) ",\n"
                  ENTRY ("piece", "piece-1", "weight", "null", Q ("54.50 kg")) "]");
  g_assert_cmpstr (nth (entries, 2)->deed, ==, "checked “everything”\nonce more");
  assert_changes (entries, 2,
                  "[" ENTRY ("order", "order", "pickup_from", "null", Q ("2026-03-02")) ",\n"
                  ENTRY ("order", "order", "guaranteed", "null", Q ("yes")) ",\n"
                  ENTRY ("piece", "piece-1", "room", Q ("Hall"), "null") ",\n"
                  ENTRY ("piece", "piece-1", "packed_by", "null", Q ("CP")) ",\n"
                  ENTRY ("piece", "piece-1", "weight", Q ("54.50 kg"), Q ("55 kg")) ",\n"
                  ENTRY ("piece", "piece-1", "listed_value", "null", Q ("1200.00 USD")) "]");
  assert_changes (entries, 1,
                  "[" ENTRY ("piece", "piece-1", "id", Q ("piece-1"), "null") ",\n"
                  ENTRY ("piece", "piece-1", "tag", Q ("7"), "null") ",\n"
                  ENTRY ("piece", "piece-1", "packed_by", Q ("CP"), "null") ",\n"
                  ENTRY ("piece", "piece-1", "weight", Q ("55 kg"), "null") ",\n"
                  ENTRY ("piece", "piece-1", "listed_value", Q ("1200.00 USD"), "null") "]");
  g_assert_cmpstr (nth (entries, 0)->deed, ==, "removed");
  assert_changes (entries, 0,
                  "[" ENTRY ("order", "order", "number", Q ("J-1"), "null") ",\n"
                  ENTRY ("order", "order", "pickup_from", Q ("2026-03-02"), "null") ",\n"
                  ENTRY ("order", "order", "guaranteed", Q ("yes"), "null") "]");
}

static void
test_unknown (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (GPtrArray) entries = list (self, "nobody");

  g_assert_cmpuint (entries->len, ==, 0);
}

/* Whatever a text holds, the changes are JSON that gives it back. */
static void
test_json (Fixture       *self,
           gconstpointer  data)
{
  static const char *const texts[] = {
    "plain", "\"quoted\"", "back\\slash", "two\nlines", "a\ttab", "é 東京 😀", "\xe2\x80\xa8",
    "</script>", "\\u0041", "%s",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *id = g_strdup_printf ("job-%" G_GSIZE_FORMAT, i);
      g_autoptr (WbJob) job = wb_job_new (id, "USD");
      g_autoptr (WbJob) stored = NULL;
      g_autoptr (GPtrArray) entries = NULL;
      sqlite3 *handle;
      sqlite3_stmt *statement;

      change_job (&job, WB_KIND_ORDER, "order", "notes", texts[i]);
      stored = save (self->book, NULL, job);
      entries = list (self, id);
      g_assert_cmpint (sqlite3_open (":memory:", &handle), ==, SQLITE_OK);
      g_assert_cmpint (sqlite3_prepare_v2 (handle, "SELECT json_extract (?1, '$[0].new')", -1,
                                           &statement, NULL), ==, SQLITE_OK);
      sqlite3_bind_text (statement, 1, nth (entries, 0)->changes, -1, SQLITE_STATIC);
      g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_ROW);
      g_assert_cmpstr ((const char *) sqlite3_column_text (statement, 0), ==, texts[i]);
      sqlite3_finalize (statement);
      sqlite3_close (handle);
    }
}

/* An import names every field of every piece, and is packed. */
static void
test_packed (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr (WbJob) job = make_large_job ("job-1", "J-1", 1000);
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (GPtrArray) entries = list (self, "job-1");
  gsize length = strlen (nth (entries, 0)->changes);

  g_assert_cmpuint (length, >, 500000);
  g_assert_cmpint (ask_number (self->path, "SELECT length (changes) FROM history"), <, length / 10);
}

static void
test_damaged (Fixture       *self,
              gconstpointer  data)
{
  static const char *const damages[] = {
    "UPDATE history SET changes = x'00'", "UPDATE history SET changes = x''",
    "UPDATE history SET changes = x'789c'",
  };
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);

  for (gsize i = 0; i < G_N_ELEMENTS (damages); i++)
    {
      g_autoptr (GError) error = NULL;

      tamper (self->path, damages[i]);
      g_assert_null (wb_book_list_history (self->book, "job-1", NULL, &error));
      g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CORRUPT);
      assert_says (error, "history of job job-1 cannot be read at revision 1");
    }
}

#define ADD(path, function) \
  g_test_add ("/store/history/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("deeds", test_deeds);
  ADD ("unknown", test_unknown);
  ADD ("json", test_json);
  ADD ("packed", test_packed);
  ADD ("damaged", test_damaged);
  return g_test_run ();
}
