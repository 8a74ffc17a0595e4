/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jobs in and out of the book: what goes in comes out, only what changed is written, and what
 * contradicts is refused. */
#include "config.h"

#include "book-fixture.h"
#include "random-job.h"

#include <string.h>

/* --- there and back --------------------------------------------------------------------------- */

static void
test_there_and_back (Fixture       *self,
                     gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) loaded = load (self->book, "job-1");
  g_autoptr (WbJob) again = NULL;
  const WbPiece *piece = wb_job_find (loaded, WB_KIND_PIECE, "piece-2");

  g_assert_cmpint (wb_job_get_revision (stored), ==, 1);
  g_assert_true (wb_job_equal (stored, job));
  assert_same_job (loaded, stored);
  /* An amount of nothing is not the same as no amount, nor an age of 0 as none. */
  g_assert_true (wb_money_is_set (piece->listed_value));
  g_assert_cmpint (piece->listed_value.minor, ==, 0);
  g_assert_cmpint (((const WbClaimLine *) wb_job_nth (loaded, WB_KIND_CLAIM_LINE, 0))->age_years,
                   ==, 0);

  fixture_reopen (self);
  again = load (self->book, "job-1");
  assert_same_job (again, stored);
}

static void
test_empty_job (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_new ("empty", "JPY");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) loaded = load (self->book, "empty");

  assert_same_job (loaded, stored);
  g_assert_cmpstr (wb_job_get_currency (loaded), ==, "JPY");
}

/* A random job whose claims have numbers of their own. */
static WbJob *
make_random_job (void)
{
  WbJob *job = random_job (NULL, 8);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    {
      const WbRecord *claim = wb_job_nth (job, WB_KIND_CLAIM, i);
      g_autofree char *id = g_strdup (claim->id);
      g_autofree char *number = g_strdup_printf ("C-%u", i);

      change_job (&job, WB_KIND_CLAIM, id, "number", number);
    }
  return job;
}

/* Any job comes back as it went in, and so does any other stored over it. */
static void
test_random (Fixture       *self,
             gconstpointer  data)
{
  for (guint round = 0; round < 40; round++)
    {
      g_autoptr (WbJob) first = make_random_job ();
      g_autoptr (WbJob) other = NULL;
      g_autoptr (WbJob) second = NULL;
      g_autoptr (WbJob) stored = NULL;
      g_autoptr (WbJob) stored_again = NULL;
      g_autoptr (WbJob) loaded = NULL;
      g_autoptr (WbJob) loaded_again = NULL;
      g_autoptr (GError) error = NULL;

      stored = save (self->book, NULL, first);
      loaded = load (self->book, wb_job_get_id (first));
      assert_same_job (loaded, stored);

      /* With another currency half of the time: then every amount is another. */
      other = make_random_job ();
      second = wb_job_with_id (other, wb_job_get_id (first));
      stored_again = save (self->book, stored, second);
      loaded_again = load (self->book, wb_job_get_id (first));
      assert_same_job (loaded_again, stored_again);
      g_assert_true (wb_job_equal (loaded_again, second));
      g_assert_true (wb_book_remove_job (self->book, wb_job_get_id (first),
                                         wb_job_get_revision (stored_again), NULL, &error));
      g_assert_no_error (error);
    }
}

static void
test_not_found (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_book_load_job (self->book, "nobody", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
  assert_says (error, "there is no job nobody");
}

/* --- only what changed ------------------------------------------------------------------------ */

/* Counts the rows that a save writes to the record tables, by triggers put there behind the book's
 * back. */
static void
watch_writes (Fixture *self)
{
  g_autoptr (GString) sql = g_string_new ("CREATE TABLE written (deed TEXT, kind TEXT, id TEXT);");

  g_clear_object (&self->book);
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const char *name = wb_record_type ((WbKind) kind)->name;

      g_string_append_printf (sql,
                              "CREATE TRIGGER %s_1 AFTER INSERT ON \"%s\" BEGIN INSERT INTO"
                              " written VALUES ('insert', '%s', new.id); END;", name, name, name);
      g_string_append_printf (sql,
                              "CREATE TRIGGER %s_2 AFTER UPDATE ON \"%s\" BEGIN INSERT INTO"
                              " written VALUES ('update', '%s', new.id); END;", name, name, name);
      g_string_append_printf (sql,
                              "CREATE TRIGGER %s_3 AFTER DELETE ON \"%s\" BEGIN INSERT INTO"
                              " written VALUES ('delete', '%s', old.id); END;", name, name, name);
    }
  tamper (self->path, sql->str);
  fixture_reopen (self);
}

/* Returns: what was written since the last call. */
static char *
take_writes (Fixture *self)
{
  char *writes = ask_text (self->path,
                           "SELECT coalesce (group_concat (deed || ' ' || id, ', '), '') FROM"
                           " (SELECT * FROM written ORDER BY rowid)");

  tamper (self->path, "DELETE FROM written");
  return writes;
}

static void
assert_writes (Fixture    *self,
               const char *expected)
{
  g_autofree char *writes = take_writes (self);

  g_assert_cmpstr (writes, ==, expected);
}

static void
test_only_changes (Fixture       *self,
                   gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) same = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) shorter = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (GError) error = NULL;

  watch_writes (self);
  stored = save (self->book, NULL, job);
  g_free (take_writes (self));

  /* nothing */
  same = save (self->book, stored, job);
  g_assert_cmpint (wb_job_get_revision (same), ==, 1);
  assert_writes (self, "");
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM history"), ==, 1);

  /* one changed, one new */
  changed = with_record (stored, WB_KIND_PIECE, "piece-1", "room", "Hall", NULL);
  change_job (&changed, WB_KIND_STOP, "stop-3", "kind", "extra-delivery");
  g_clear_pointer (&stored, wb_job_unref);
  stored = save (self->book, same, changed);
  assert_writes (self, "insert stop-3, update piece-1");

  /* one gone: those behind it move up */
  shorter = wb_job_without (stored, WB_KIND_STOP, "stop-1", &error);
  g_assert_no_error (error);
  g_clear_pointer (&same, wb_job_unref);
  same = save (self->book, stored, shorter);
  assert_writes (self, "delete stop-1, update stop-2, update stop-3");

  /* what belongs to a record goes with it */
  g_clear_pointer (&shorter, wb_job_unref);
  shorter = wb_job_without (same, WB_KIND_HANDOVER, "handover-1", &error);
  g_assert_no_error (error);
  g_clear_pointer (&stored, wb_job_unref);
  stored = save (self->book, same, shorter);
  assert_writes (self, "delete tally-1, delete finding-1, delete handover-1");

  loaded = load (self->book, "job-1");
  assert_same_job (loaded, stored);
  g_assert_cmpint (wb_job_get_revision (loaded), ==, 4);
}

/* A record put before others, and nothing else. */
static void
test_order (Fixture       *self,
            gconstpointer  data)
{
  g_autoptr (WbJob) job = make_large_job ("job-1", "J-1", 20);
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbRecord) piece = wb_record_new (WB_KIND_PIECE, "in-between");
  g_autoptr (WbJob) longer = wb_job_insert (stored, piece, 7);
  g_autoptr (WbJob) stored_longer = save (self->book, stored, longer);
  g_autoptr (WbJob) loaded = load (self->book, "job-1");
  g_autoptr (WbJob) empty = NULL;
  g_autoptr (WbJob) reversed = NULL;
  g_autoptr (WbJob) stored_reversed = NULL;
  g_autoptr (WbJob) loaded_reversed = NULL;
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  g_autoptr (GPtrArray) history = NULL;

  g_assert_cmpint (wb_job_index (loaded, WB_KIND_PIECE, "in-between"), ==, 7);
  assert_same_job (loaded, stored_longer);

  /* A mere change of order is no change of any record, and is stored. */
  empty = wb_job_new ("job-1", "USD");
  g_ptr_array_add (records, (gpointer) wb_job_order (loaded));
  for (guint i = wb_job_count (loaded, WB_KIND_PIECE); i > 0; i--)
    g_ptr_array_add (records, (gpointer) wb_job_nth (loaded, WB_KIND_PIECE, i - 1));
  reversed = wb_job_with_many (empty, records);
  stored_reversed = save (self->book, loaded, reversed);
  g_assert_cmpint (wb_job_get_revision (stored_reversed), ==, 3);
  loaded_reversed = load (self->book, "job-1");
  assert_same_job (loaded_reversed, stored_reversed);
  history = wb_book_list_history (self->book, "job-1", NULL, NULL);
  g_assert_cmpstr (((WbHistoryEntry *) history->pdata[0])->changes, ==, "[]");
}

/* A finding goes over to another handover while its own is removed. */
static void
test_new_owner (Fixture       *self,
                gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) moved = with_record (stored, WB_KIND_HANDOVER, "handover-2", "kind", "delivery",
                                         NULL);
  g_autoptr (WbJob) without = NULL;
  g_autoptr (WbJob) stored_again = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (GError) error = NULL;

  change_job (&moved, WB_KIND_FINDING, "finding-1", "handover", "handover-2");
  without = wb_job_without (moved, WB_KIND_HANDOVER, "handover-1", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (without, WB_KIND_FINDING), ==, 1);
  stored_again = save (self->book, stored, without);
  loaded = load (self->book, "job-1");
  assert_same_job (loaded, stored_again);
}

/* --- refused ---------------------------------------------------------------------------------- */

static const char count_rows[] =
  "SELECT (SELECT count (*) FROM piece) + (SELECT count (*) FROM \"order\") +"
  " (SELECT count (*) FROM job)";

/* Fails unless saving @job over @base gives @code and says @text, and the book stays as it was. */
static void
assert_not_saved (Fixture      *self,
                  WbJob        *base,
                  WbJob        *job,
                  WbStoreError  code,
                  const char   *text)
{
  gint64 n_entries = ask_number (self->path, "SELECT count (*) FROM history");
  gint64 n_rows = ask_number (self->path, count_rows);
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_book_save_job (self->book, base, job, "tried in a test", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, (int) code);
  assert_says (error, text);
  assert_says (error, self->path);
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM history"), ==, n_entries);
  g_assert_cmpint (ask_number (self->path, count_rows), ==, n_rows);
}

static void
test_conflict (Fixture       *self,
               gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) mine = with_record (stored, WB_KIND_PIECE, "piece-1", "room", "Hall", NULL);
  g_autoptr (WbJob) theirs = with_record (stored, WB_KIND_PIECE, "piece-2", "room", "Attic", NULL);
  g_autoptr (WbJob) stored_theirs = save (self->book, stored, theirs);
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (WbJob) unknown = make_job ("job-2", "J-2");
  g_autoptr (GError) error = NULL;

  assert_not_saved (self, stored, mine, WB_STORE_ERROR_CONFLICT, "it is at revision 2, not 1");
  /* also when there is nothing to store */
  assert_not_saved (self, stored, stored, WB_STORE_ERROR_CONFLICT, "it is at revision 2, not 1");
  loaded = load (self->book, "job-1");
  assert_same_job (loaded, stored_theirs);

  assert_not_saved (self, NULL, job, WB_STORE_ERROR_EXISTS, "there is a job job-1 already");
  assert_not_saved (self, unknown, unknown, WB_STORE_ERROR_CONFLICT,
                    "job job-2 is not in this book");

  g_assert_false (wb_book_remove_job (self->book, "job-1", 1, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT);
  assert_says (error, "it is at revision 2, not 1");
}

static void
test_numbers_taken (Fixture       *self,
                    gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) same_number = make_job ("job-2", "j-1");
  g_autoptr (WbJob) same_claim = make_job ("job-3", "J-3");
  g_autoptr (WbJob) two_claims = make_job ("job-4", "J-4");
  g_autoptr (WbJob) without_numbers = wb_job_new ("job-5", "USD");
  g_autoptr (WbJob) without_numbers_too = wb_job_new ("job-6", "USD");
  g_autoptr (WbJob) stored_5 = NULL;
  g_autoptr (WbJob) stored_6 = NULL;

  assert_not_saved (self, NULL, same_number, WB_STORE_ERROR_CONSTRAINT,
                    "job number “j-1” is already taken by job job-1");
  change_job (&same_claim, WB_KIND_CLAIM, "claim-1", "number", "C-J-1");
  assert_not_saved (self, NULL, same_claim, WB_STORE_ERROR_CONSTRAINT,
                    "claim number “C-J-1” is already taken by job job-1");
  change_job (&two_claims, WB_KIND_CLAIM, "claim-2", "number", "C-J-4");
  assert_not_saved (self, NULL, two_claims, WB_STORE_ERROR_CONSTRAINT,
                    "claim number “C-J-4” is already taken by job job-4");
  /* No number is no number. */
  stored_5 = save (self->book, NULL, without_numbers);
  stored_6 = save (self->book, NULL, without_numbers_too);
}

/* Two claims of a job take each other's number, and one takes that of a claim that goes. */
static void
test_numbers_swapped (Fixture       *self,
                      gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) swapped = NULL;
  g_autoptr (WbJob) stored_swapped = NULL;
  g_autoptr (WbJob) taken = NULL;
  g_autoptr (WbJob) without = NULL;
  g_autoptr (WbJob) stored_without = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (GError) error = NULL;

  change_job (&job, WB_KIND_CLAIM, "claim-2", "number", "C-2");
  stored = save (self->book, NULL, job);
  swapped = with_record (stored, WB_KIND_CLAIM, "claim-1", "number", "C-2", NULL);
  change_job (&swapped, WB_KIND_CLAIM, "claim-2", "number", "C-J-1");
  stored_swapped = save (self->book, stored, swapped);

  without = wb_job_without (stored_swapped, WB_KIND_CLAIM, "claim-2", &error);
  g_assert_no_error (error);
  taken = with_record (without, WB_KIND_CLAIM, "claim-1", "number", "C-J-1", NULL);
  stored_without = save (self->book, stored_swapped, taken);
  loaded = load (self->book, "job-1");
  assert_same_job (loaded, stored_without);
}

static void
refer_to_nothing (WbPiece *piece)
{
  wb_set_text (&piece->lot, "lot-9");
}

static void
take_other_money (WbPiece *piece)
{
  piece->listed_value = wb_money (100, "EUR");
}

static void
take_negative_tag (WbPiece *piece)
{
  piece->tag = -3;
}

static void
take_unknown_form (WbPiece *piece)
{
  piece->form = (WbForm) 99;
}

static void
take_odd_weight (WbPiece *piece)
{
  piece->weight.grains++;
}

static void
take_bad_text (WbPiece *piece)
{
  wb_set_text (&piece->room, "\xc3\x28");
}

/* Values that no check of core lets through are refused by the book as well, and named. */
static void
test_unchecked (Fixture       *self,
                gconstpointer  data)
{
  static const struct
  {
    void       (*spoil) (WbPiece *piece);
    const char  *says;
  } cases[] = {
    { refer_to_nothing,  "piece piece-1, lot: there is no lot “lot-9”" },
    { take_other_money,  "piece piece-1, listed_value" },
    { take_negative_tag, "piece piece-1, tag" },
    { take_unknown_form, "piece piece-1, form" },
    { take_odd_weight,   "piece piece-1, weight: it is not a whole number" },
    { take_bad_text,     "piece piece-1, room" },
  };
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (WbPiece) piece = wb_record_copy (wb_job_find (stored, WB_KIND_PIECE, "piece-1"));
      g_autoptr (WbJob) spoilt = NULL;

      cases[i].spoil (piece);
      spoilt = wb_job_with (stored, piece);
      assert_not_saved (self, stored, spoilt, WB_STORE_ERROR_CONSTRAINT, cases[i].says);
    }
}

/* Another currency with the old amounts would change what they are worth. */
static void
test_other_currency (Fixture       *self,
                     gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) empty = wb_job_new ("job-1", "EUR");
  g_autoptr (WbJob) renamed = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (GPtrArray) records = g_ptr_array_new ();

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    for (guint i = 0; i < wb_job_count (stored, (WbKind) kind); i++)
      g_ptr_array_add (records, (gpointer) wb_job_nth (stored, (WbKind) kind, i));
  renamed = wb_job_with_many (empty, records);
  assert_not_saved (self, stored, renamed, WB_STORE_ERROR_CONSTRAINT, "USD");
  loaded = load (self->book, "job-1");
  assert_same_job (loaded, stored);
}

/* --- several, and none ------------------------------------------------------------------------ */

static void
test_add (Fixture       *self,
          gconstpointer  data)
{
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_job_unref);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 20; i++)
    {
      g_autofree char *id = g_strdup_printf ("job-%u", i);
      g_autofree char *number = g_strdup_printf ("J-%u", i);

      g_ptr_array_add (jobs, make_job (id, number));
    }
  /* One that does not go keeps all out. */
  g_ptr_array_add (jobs, make_job ("job-20", "J-7"));
  g_assert_false (wb_book_add_jobs (self->book, jobs, "imported 21 jobs", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONSTRAINT);
  assert_says (error, "job job-20: the job number “J-7” is already taken by job job-7");
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM job"), ==, 0);
  g_clear_error (&error);

  g_ptr_array_set_size (jobs, 20);
  g_assert_true (wb_book_add_jobs (self->book, jobs, "imported 20 jobs", NULL, &error));
  g_assert_no_error (error);
  for (guint i = 0; i < jobs->len; i++)
    {
      g_autoptr (WbJob) expected = wb_job_with_revision (g_ptr_array_index (jobs, i), 1);
      g_autoptr (WbJob) loaded = load (self->book, wb_job_get_id (expected));

      assert_same_job (loaded, expected);
    }
}

static void
test_remove (Fixture       *self,
             gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) other = make_job ("job-2", "J-2");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) stored_other = save (self->book, NULL, other);
  g_autoptr (WbJob) loaded_other = NULL;
  g_autoptr (WbJob) back = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GPtrArray) history = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_book_remove_job (self->book, "job-1", 1, NULL, &error));
  g_assert_no_error (error);
  g_assert_null (wb_book_load_job (self->book, "job-1", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
  assert_says (error, "job job-1 was removed");
  g_clear_error (&error);
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT count (*) FROM \"%s\" WHERE job_id = 'job-1'",
                                              wb_record_type ((WbKind) kind)->name);

      g_assert_cmpint (ask_number (self->path, sql), ==, 0);
    }
  jobs = wb_book_list_jobs (self->book, NULL, 0, NULL, NULL);
  g_assert_cmpuint (jobs->len, ==, 1);
  g_clear_pointer (&jobs, g_ptr_array_unref);
  jobs = wb_book_list_jobs (self->book, "J-1", 0, NULL, NULL);
  g_assert_cmpuint (jobs->len, ==, 0);
  g_assert_null (wb_book_find_job (self->book, "J-1", NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
  g_clear_error (&error);
  loaded_other = load (self->book, "job-2");
  assert_same_job (loaded_other, stored_other);

  /* Whoever still has it open cannot store it back by mistake, nor remove it twice. */
  changed = with_record (stored, WB_KIND_PIECE, "piece-1", "room", "Hall", NULL);
  assert_not_saved (self, stored, changed, WB_STORE_ERROR_CONFLICT, "was removed meanwhile");
  g_assert_false (wb_book_remove_job (self->book, "job-1", 1, NULL, &error));
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);

  /* But it can be stored as a new one, and its history goes on. */
  back = save (self->book, NULL, job);
  g_assert_cmpint (wb_job_get_revision (back), ==, 3);
  loaded = load (self->book, "job-1");
  assert_same_job (loaded, back);
  history = wb_book_list_history (self->book, "job-1", NULL, NULL);
  g_assert_cmpuint (history->len, ==, 3);
}

/* --- numbers ---------------------------------------------------------------------------------- */

static void
assert_next (Fixture    *self,
             const char *prefix,
             const char *expected)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *number = wb_book_next_number (self->book, prefix, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (number, ==, expected);
}

static void
test_next_number (Fixture       *self,
                  gconstpointer  data)
{
  g_autoptr (WbJob) typed = make_job ("job-1", "j-2026-0003");
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) own = NULL;
  g_autoptr (WbJob) stored_own = NULL;
  g_autoptr (WbJob) longer = NULL;
  g_autoptr (WbJob) stored_longer = NULL;

  assert_next (self, "J-2026-", "J-2026-0001");
  assert_next (self, "J-2026-", "J-2026-0002");
  assert_next (self, "C-2026-", "C-2026-0001");
  /* 3 was typed by a person, its claim was "C-…" */
  stored = save (self->book, NULL, typed);
  assert_next (self, "J-2026-", "J-2026-0004");
  assert_next (self, "C-j-2026-", "C-j-2026-0004");
  assert_next (self, "C-j-2026-", "C-j-2026-0005");
  fixture_reopen (self);
  assert_next (self, "J-2026-", "J-2026-0005");
  /* Somebody's own way of numbering. */
  own = make_job ("job-2", "J-2026-20260331-1");
  stored_own = save (self->book, NULL, own);
  longer = make_job ("job-3", "J-2026-20260331");
  stored_longer = save (self->book, NULL, longer);
  assert_next (self, "J-2026-", "J-2026-0006");
  tamper (self->path, "UPDATE number_series SET last = 9999 WHERE prefix = 'J-2026-'");
  assert_next (self, "J-2026-", "J-2026-10000");
}

/* 49 CFR 370.5(b): a successive number for each claim. One that a person typed, or that was
 * imported, is not given out again when its claim or its job is gone, and neither is one that was
 * changed. */
static void
test_number_of_what_is_gone (Fixture       *self,
                             gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-2026-0001");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) one = with_record (stored, WB_KIND_CLAIM, "claim-a", "number", "C-2026-0001",
                                       NULL);
  g_autoptr (WbJob) with_one = save (self->book, stored, one);
  g_autoptr (WbJob) two = with_record (with_one, WB_KIND_CLAIM, "claim-a", "number", "c-2026-0002",
                                       NULL);
  g_autoptr (WbJob) with_two = save (self->book, with_one, two);
  g_autoptr (WbJob) none = wb_job_without (with_two, WB_KIND_CLAIM, "claim-a", NULL);
  g_autoptr (WbJob) with_none = save (self->book, with_two, none);
  g_autoptr (GError) error = NULL;

  assert_next (self, "C-2026-", "C-2026-0003");
  g_assert_true (wb_book_remove_job (self->book, "job-1", wb_job_get_revision (with_none), NULL,
                                     &error));
  g_assert_no_error (error);
  assert_next (self, "J-2026-", "J-2026-0002");
}

static void
test_find (Fixture       *self,
           gconstpointer  data)
{
  static const struct
  {
    const char *number;
    const char *id;
  } cases[] = {
    { "J-1", "job-1" }, { "j-2", "job-2" }, { " J-2 ", "job-2" }, { "C-J-1", "job-1" },
    { "c-j-2", "job-2" },
    { "BL 1", "job-1" }, { "J-3", NULL }, { "", NULL }, { "J", NULL }, { "J-%", NULL },
    { "J-_", NULL },
    /* both bills have this number; job 2 was picked up later */
    { "bl 7781", "job-2" },
    /* the number of one job and the bill of another: a job's own number goes first */
    { "J-4", "job-4" },
  };
  g_autoptr (WbJob) job_1 = make_job ("job-1", "J-1");
  g_autoptr (WbJob) job_2 = make_job ("job-2", "J-2");
  g_autoptr (WbJob) job_3 = make_job ("job-3", "J-33");
  g_autoptr (WbJob) job_4 = make_job ("job-4", "J-4");
  g_autoptr (GPtrArray) jobs = g_ptr_array_new ();
  g_autoptr (GError) problem = NULL;

  change_job (&job_1, WB_KIND_ORDER, "order", "bill_number", "BL 1");
  change_job (&job_2, WB_KIND_ORDER, "order", "picked_up_on", "2026-06-03");
  change_job (&job_3, WB_KIND_ORDER, "order", "bill_number", "J-4");
  g_ptr_array_add (jobs, job_1);
  g_ptr_array_add (jobs, job_2);
  g_ptr_array_add (jobs, job_3);
  g_ptr_array_add (jobs, job_4);
  g_assert_true (wb_book_add_jobs (self->book, jobs, "imported", NULL, &problem));
  g_assert_no_error (problem);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *id = wb_book_find_job (self->book, cases[i].number, NULL, &error);

      g_test_message ("“%s”", cases[i].number);
      g_assert_cmpstr (id, ==, cases[i].id);
      if (cases[i].id == NULL)
        g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
      else
        g_assert_no_error (error);
    }
}

#define ADD(path, function) \
  g_test_add ("/store/job/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("there-and-back", test_there_and_back);
  ADD ("empty", test_empty_job);
  ADD ("random", test_random);
  ADD ("not-found", test_not_found);
  ADD ("only-changes", test_only_changes);
  ADD ("order", test_order);
  ADD ("new-owner", test_new_owner);
  ADD ("conflict", test_conflict);
  ADD ("numbers/taken", test_numbers_taken);
  ADD ("numbers/swapped", test_numbers_swapped);
  ADD ("unchecked", test_unchecked);
  ADD ("other-currency", test_other_currency);
  ADD ("add", test_add);
  ADD ("remove", test_remove);
  ADD ("numbers/next", test_next_number);
  ADD ("numbers/gone", test_number_of_what_is_gone);
  ADD ("find", test_find);
  return g_test_run ();
}
