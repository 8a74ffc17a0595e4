/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of jobs: what it shows, in which order, and by which words a job is found. */
#include "config.h"

#include "book-fixture.h"

#include <string.h>

/* Returns: the ids that a query finds, in order, with blanks between. */
static char *
find (Fixture    *self,
      const char *query,
      guint       limit)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = wb_book_list_jobs (self->book, query, limit, NULL, &error);
  g_autoptr (GString) ids = g_string_new (NULL);

  g_assert_no_error (error);
  for (guint i = 0; i < jobs->len; i++)
    g_string_append_printf (ids, "%s%s", i > 0 ? " " : "", ((WbJobSummary *) jobs->pdata[i])->id);
  return g_string_free (g_steal_pointer (&ids), FALSE);
}

static void
assert_finds (Fixture    *self,
              const char *query,
              const char *expected)
{
  g_autofree char *found = find (self, query, 0);

  if (g_strcmp0 (found, expected) != 0)
    g_error ("“%s” finds “%s”, not “%s”", query, found, expected);
}

/* --- what it shows ---------------------------------------------------------------------------- */

static WbJobSummary *
summary_of (Fixture *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = wb_book_list_jobs (self->book, NULL, 0, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (jobs->len, ==, 1);
  return wb_job_summary_copy (g_ptr_array_index (jobs, 0));
}

static void
assert_date (const GDate *date,
             const char  *expected)
{
  g_autofree char *text = wb_date_to_text (date);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_summary (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (WbJob) job = make_job ("job-1", "J-1");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJobSummary) summary = summary_of (self);

  g_assert_cmpstr (summary->id, ==, "job-1");
  g_assert_cmpstr (summary->number, ==, "J-1");
  g_assert_cmpstr (summary->bill_number, ==, "BL 7781");
  g_assert_cmpint (summary->stage, ==, WB_STAGE_DELIVERED);
  g_assert_cmpstr (summary->shipper, ==, "Ada Quillfeather");
  g_assert_cmpstr (summary->from_city, ==, "Dayton, OH");
  g_assert_cmpstr (summary->to_city, ==, "Spokane, WA");
  assert_date (&summary->pickup, "2026-03-03");
  assert_date (&summary->delivery, "2026-03-11");
  g_assert_cmpuint (summary->n_pieces, ==, 2);
  g_assert_cmpstr (summary->claims, ==, "C-J-1");
  g_assert_cmpuint (summary->n_open_claims, ==, 1);
  g_assert_cmpint (summary->revision, ==, 1);
}

static void
test_summary_of_little (Fixture       *self,
                        gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_new ("job-1", "USD");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJobSummary) summary = summary_of (self);

  g_assert_null (summary->number);
  g_assert_null (summary->bill_number);
  g_assert_cmpint (summary->stage, ==, WB_STAGE_INQUIRY);
  g_assert_null (summary->shipper);
  g_assert_null (summary->from_city);
  g_assert_null (summary->to_city);
  g_assert_false (wb_date_is_set (&summary->pickup));
  g_assert_false (wb_date_is_set (&summary->delivery));
  g_assert_cmpuint (summary->n_pieces, ==, 0);
  g_assert_null (summary->claims);
  g_assert_cmpuint (summary->n_open_claims, ==, 0);
}

/* Each thing that a list shows follows the job through a change. */
static void
test_summary_follows (Fixture       *self,
                      gconstpointer  data)
{
  g_autoptr (WbJob) job = wb_job_new ("job-1", "USD");
  g_autoptr (WbJob) stored = save (self->book, NULL, job);
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) stored_again = NULL;
  g_autoptr (WbJobSummary) summary = NULL;

  changed = with_record (stored, WB_KIND_ORDER, "order", "number", "J-9", "pickup_from",
                         "2026-07-01", "delivery_from", "2026-07-09", "stage", "booked", NULL);
  change_job (&changed, WB_KIND_PARTY, "party-1", "role", "payer", "name", "Relocation Desk");
  change_job (&changed, WB_KIND_PARTY, "party-2", "role", "shipper", "company",
              "Brightwater Kilns");
  change_job (&changed, WB_KIND_STOP, "stop-1", "kind", "warehouse", "city", "Reno");
  change_job (&changed, WB_KIND_STOP, "stop-2", "kind", "pickup", "city", "Boise");
  change_job (&changed, WB_KIND_STOP, "stop-3", "kind", "extra-pickup", "city", "Provo");
  change_job (&changed, WB_KIND_STOP, "stop-4", "kind", "delivery", "city", "Akron");
  change_job (&changed, WB_KIND_STOP, "stop-5", "kind", "extra-delivery", "region", "ID");
  change_job (&changed, WB_KIND_CLAIM, "claim-1", "number", "C-1", "status", "settled");
  change_job (&changed, WB_KIND_CLAIM, "claim-2", "number", "C-2", "status", "offered");
  change_job (&changed, WB_KIND_CLAIM, "claim-3", "number", "C-3", "status", "declined");
  stored_again = save (self->book, stored, changed);
  summary = summary_of (self);
  g_assert_cmpstr (summary->number, ==, "J-9");
  g_assert_cmpint (summary->stage, ==, WB_STAGE_BOOKED);
  g_assert_cmpstr (summary->shipper, ==, "Brightwater Kilns");
  g_assert_cmpstr (summary->from_city, ==, "Boise");
  g_assert_cmpstr (summary->to_city, ==, "ID");
  assert_date (&summary->pickup, "2026-07-01");
  assert_date (&summary->delivery, "2026-07-09");
  g_assert_cmpstr (summary->claims, ==, "C-1, C-2, C-3");
  g_assert_cmpuint (summary->n_open_claims, ==, 1);
  g_assert_cmpint (summary->revision, ==, 2);
}

/* --- order ------------------------------------------------------------------------------------ */

static void
store_order (Fixture    *self,
             const char *id,
             const char *field,
             const char *day)
{
  g_autoptr (WbJob) job = wb_job_new (id, "USD");
  g_autoptr (WbJob) stored = NULL;

  change_job (&job, WB_KIND_ORDER, "order", "number", id, field, day);
  stored = save (self->book, NULL, job);
}

static void
test_order (Fixture       *self,
            gconstpointer  data)
{
  g_autofree char *two = NULL;
  g_autofree char *many = NULL;

  store_order (self, "march", "pickup_from", "2026-03-01");
  store_order (self, "may", "picked_up_on", "2026-05-01");
  store_order (self, "january", "pickup_from", "2026-01-31");
  store_order (self, "april", "booked_on", "2026-04-10");
  store_order (self, "february", "survey_on", "2026-02-10");
  /* with no day at all, by the day of its making: of this year or a later one */
  store_order (self, "none", "region", "WA");
  store_order (self, "far", "pickup_from", "9999-12-31");
  assert_finds (self, NULL, "far none may april march february january");
  assert_finds (self, "", "far none may april march february january");
  two = find (self, NULL, 2);
  g_assert_cmpstr (two, ==, "far none");
  many = find (self, NULL, 100);
  g_assert_cmpstr (many, ==, "far none may april march february january");
  /* of the same day the one made last goes first */
  store_order (self, "may-too", "pickup_from", "2026-05-01");
  assert_finds (self, NULL, "far none may-too may april march february january");
}

/* --- words ------------------------------------------------------------------------------------ */

static void
fill (Fixture *self)
{
  g_autoptr (WbJob) first = make_job ("one", "J-2026-0001");
  g_autoptr (WbJob) second = wb_job_new ("two", "USD");
  g_autoptr (WbJob) stored_first = NULL;
  g_autoptr (WbJob) stored_second = NULL;

  change_job (&first, WB_KIND_ORDER, "order", "bill_number", "WB/4471-9");
  change_job (&first, WB_KIND_CLAIM, "claim-1", "number", "C-2026-0031");
  stored_first = save (self->book, NULL, first);
  change_job (&second, WB_KIND_ORDER, "order", "number", "J-2026-0002", "pickup_from",
              "2026-01-01");
  change_job (&second, WB_KIND_PARTY, "party-1", "role", "shipper", "name", "Zoë O'Brien-Ångström",
              "phone", "+1 206.555.0199", "city", "São Paulo");
  change_job (&second, WB_KIND_PARTY, "party-2", "role", "hauler", "company",
              "Łódź & \"Sons\" 24/7", "notes", "unfindable");
  change_job (&second, WB_KIND_STOP, "stop-1", "kind", "pickup", "city", "東京", "street",
              "Elm Street");
  change_job (&second, WB_KIND_PARTY, "party-3", "role", "payer", "street", "9 Dayton Road");
  change_job (&second, WB_KIND_LOT, "lot-1", "colour", "teal", "number", "5512");
  change_job (&second, WB_KIND_LOT, "lot-2", "colour", "grey", "number", "K77");
  change_job (&second, WB_KIND_PIECE, "piece-1", "description", "harpsichord");
  stored_second = save (self->book, NULL, second);
}

static void
test_words (Fixture       *self,
            gconstpointer  data)
{
  static const struct
  {
    const char *query;
    const char *found;
  } cases[] = {
    /* whole words and beginnings, in any order, of any case */
    { "ada", "one" }, { "quill", "one" }, { "QUILLFEATHER Ada", "one" }, { "feather", "" },
    { "ada zoe", "" },
    /* without accents, and with them where there are none */
    { "zoe", "two" }, { "Zoë", "two" }, { "zoé", "two" }, { "angstrom", "two" }, { "sao", "two" },
    { "Dáyton", "one" },
    { "Zoe\xcc\x88", "two" },
    /* names with marks in them */
    { "o'brien", "two" }, { "o’brien", "two" }, { "brien", "two" }, { "obrien", "" },
    { "O'Brien-Å", "two" },
    { "\"sons\"", "two" }, { "łó", "two" }, { "Łódź & \"Sons\"", "two" }, { "24/7", "two" },
    /* numbers */
    { "J-2026-0001", "one" }, { "j-2026", "one two" }, { "2026-0002", "two" },
    { "2026 0002", "two" }, { "C-2026-0031", "one" },
    { "0031", "one" }, { "wb/44", "one" }, { "4471", "one" }, { "26-0001", "" },
    /* cities of stops and parties */
    { "dayton", "one" }, { "spok", "one" }, { "boise", "one" }, { "東", "two" },
    { "dayton boise marsh", "one" },
    /* telephones however they are written */
    { "(509) 555-0147", "one" }, { "5095550147", "one" }, { "509-555-0147", "one" },
    { "+1 509 555 0147", "one" },
    { "1-509-555-0147", "one" }, { "5550147", "one" }, { "555-0147", "one" },
    { "555 01", "one two" }, { "509", "one" },
    { "2065550199", "two" }, { "12065550199", "two" }, { "206 555", "two" }, { "0199", "two" },
    { "555-0147 ada", "one" },
    { "555-0147 zoe", "" },
    /* streets, and the tags of a lot, when nothing else is found; each word may be elsewhere */
    { "elm", "two" }, { "ELM street", "two" }, { "221 Elm", "" }, { "elm zoe", "two" },
    { "elm ada", "" }, { "lm", "" }, { "treet", "" }, { "e_m", "" }, { "elm%", "" },
    { "teal 5512-034", "two" }, { "5512-034", "two" }, { "5512", "two" }, { "551", "two" },
    { "k77-1", "two" }, { "K77-1", "two" }, { "amber 5512-034", "" }, { "5513-034", "" },
    { "teal elm", "two" },
    /* the index goes first: what it finds is not added to */
    { "dayton", "one" },
    /* what is not searched: notes, pieces */
    { "unfindable", "" }, { "harpsichord", "" },
    /* marks alone name no word, and nothing means anything to the index's own language */
    { "   ", "one two" }, { "-", "one two" }, { "& ada", "one" }, { "*", "one two" },
    { "ada*", "one" }, { "\"", "one two" },
    { "ada AND zoe", "" }, { "ada OR zoe", "" }, { "NOT ada", "" }, { "words:ada", "" },
    { "NEAR(ada zoe)", "" },
    { "^ada", "one" }, { "(ada", "one" }, { "ada)", "one" }, { "{ada}", "one" }, { "a d a", "one" },
    { "d d", "one" }, { "ada\tquill\n", "one" },
    { "'; DROP TABLE job; --", "" }, { "\xff\xfe", "one two" }, { "ada\xff", "one" },
  };

  fill (self);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_finds (self, cases[i].query, cases[i].found);
}

/* Words go with what they were made of. */
static void
test_words_follow (Fixture       *self,
                   gconstpointer  data)
{
  g_autoptr (WbJob) base = NULL;
  g_autoptr (WbJob) renamed = NULL;
  g_autoptr (WbJob) stored = NULL;

  fill (self);
  base = load (self->book, "one");
  renamed = with_record (base, WB_KIND_PARTY, "party-1", "name", "Imani Okonjo", NULL);
  stored = save (self->book, base, renamed);
  assert_finds (self, "quillfeather", "");
  assert_finds (self, "okonjo", "one");
  assert_finds (self, "J-2026-0001", "one");
  g_assert_cmpint (ask_number (self->path, "SELECT count (*) FROM job_words"), ==, 2);
}

/* Far more than anybody types, as when a page is pasted into the field. */
static void
test_long_query (Fixture       *self,
                 gconstpointer  data)
{
  g_autoptr (GString) words = g_string_new (NULL);
  g_autofree char *one_word = g_strnfill (100000, 'w');

  fill (self);
  for (guint i = 0; i < 5000; i++)
    g_string_append (words, "ada quill ");
  assert_finds (self, words->str, "one");
  g_string_append (words, "nobody");
  assert_finds (self, words->str, "");
  assert_finds (self, one_word, "");
}

#define ADD(path, function) \
  g_test_add ("/store/list/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("summary", test_summary);
  ADD ("summary/of-little", test_summary_of_little);
  ADD ("summary/follows", test_summary_follows);
  ADD ("order", test_order);
  ADD ("words", test_words);
  ADD ("words/follow", test_words_follow);
  ADD ("words/long-query", test_long_query);
  return g_test_run ();
}
