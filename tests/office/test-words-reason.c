/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-words.h"

#include "office/wb-terms-folder.h"
#include "random-job.h"
#include "support/wb-random-claim.h"

#include <string.h>

/* Terms with the keys that shipped ones do not use, so that every rule comes up. */
static const char *const odd_terms[] = {
  "regime = odd\ntitle = Odd terms\ncurrency = USD\n"
  "[edition]\nfrom = 1990-01-01\n"
  "[shipment]\nwithout-waiver = released\nconstructive-weight = 7 lb\n"
  "[articles]\ncarton = each-thing\n"
  "[freight]\nfreight-partial-loss = not-refunded\nfreight-total-loss = all\n"
  "[claims]\nclaim-within = 10 years\nlate-claim = actual-value\nlate-until = 20 years\n"
  "[released]\narticle-limit = 900000.00\nline-limit = 2000000.00\nmeasure = actual-value\n"
  "[full]\nshipment-rate = 620.00 per m3\nshipment-minimum = 100000.00\nshipment-maximum = "
  "9000000.00\n"
  "declared-value = yes\nbelow-minimum = kept\ndeductible = yes\ndeductible-order = before-limit\n",

  "regime = barred\ntitle = Barred terms\ncurrency = USD\n"
  "[edition]\nfrom = 1990-01-01\n"
  "[freight]\nfreight-partial-loss = by-weight\nfreight-total-loss = not-refunded\n"
  "[claims]\nclaim-within = 5 years\nlate-claim = barred\n"
  "[full]\nshipment-maximum = 500.00\nshipment-minimum = 400.00\ndeductible = "
  "yes\nextraordinary-rate = 1.00 per lb\n",

  "regime = flagged\ntitle = Flagged terms\ncurrency = USD\n"
  "[edition]\nfrom = 1990-01-01\n"
  "[shipment]\nwithout-waiver = released\n"
  "[freight]\nfreight-partial-loss = by-weight\nfreight-total-loss = all\n"
  "[claims]\nclaim-within = 5 years\n"
  "[released]\narticle-rate = 0.60 per lb\nshipment-maximum = 1000000.00\n",
};

static void
add_editions (GPtrArray *all,
              GPtrArray *editions)
{
  for (guint i = 0; i < editions->len; i++)
    g_ptr_array_add (all, wb_terms_ref (g_ptr_array_index (editions, i)));
}

static GPtrArray *
load_terms (void)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_terms_unref);
  g_auto (GStrv) faults = NULL;
  g_autoptr (WbTermsSet) shipped = wb_terms_folder_load_all (&faults);

  g_assert_null (faults[0]);
  for (guint i = 0; i < wb_terms_set_count (shipped); i++)
    g_ptr_array_add (all, wb_terms_ref (wb_terms_set_nth (shipped, i)));

  for (gsize i = 0; i < G_N_ELEMENTS (odd_terms); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) editions = wb_terms_parse (odd_terms[i], strlen (odd_terms[i]), "odd",
                                                       &error);

      g_assert_no_error (error);
      add_editions (all, editions);
    }

  return all;
}

static void
check_reason (const WbReckoning *reckoning,
              const WbReason    *reason,
              GHashTable        *seen)
{
  g_autofree char *heading = wb_words_rule ((WbRule) reason->rule);
  g_autofree char *words = wb_words_reason (reckoning, reason);
  char *key;

  g_assert_cmpstr (heading, !=, "");
  g_assert_nonnull (words);
  g_assert_true (g_utf8_validate (words, -1, NULL));
  if (strpbrk (words, "{}") != NULL || !g_str_has_suffix (words, "."))
    g_error ("%s: %s", heading, words);

  /* The sentence without its figures tells the sentences of a rule apart. */
  key = g_strdup_printf ("%s: %.24s", wb_enum_nick (&wb_rules, reason->rule), words);
  if (g_hash_table_contains (seen, key))
    g_free (key);
  else
    g_hash_table_insert (seen, key, g_steal_pointer (&words));
}

/* Reckons the first claim of @job under all terms. */
static void
check_claim (WbJob      *job,
             GPtrArray  *terms,
             GHashTable *seen,
             guint      *count)
{
  const WbClaim *claim = wb_job_nth (job, WB_KIND_CLAIM, 0);

  for (guint i = 0; i < terms->len; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbReckoning) reckoning = wb_reckon (g_ptr_array_index (terms, i), job,
                                                     claim->record.id, &error);
      const WbReason *reason;
      WbReasonIter iter;

      g_assert_no_error (error);
      wb_reason_iter_init (&iter, reckoning);
      while ((reason = wb_reason_iter_next (&iter)) != NULL)
        {
          check_reason (reckoning, reason, seen);
          count[reason->rule]++;
        }
    }
}

/* Every step of every reckoning reads as a sentence without a gap, and every rule comes up. Jobs
 * of any records have whatever a person may have noted, jobs made as claims reach the rules that
 * need several records to go together. */
static void
test_every_rule (void)
{
  g_autoptr (GPtrArray) terms = load_terms ();
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (GRand) rand = g_rand_new_with_seed ((guint32) g_test_rand_int ());
  guint count[WB_RULE_PAID + 1] = { 0 };

  for (guint run = 0; run < 400; run++)
    {
      g_autoptr (WbJob) any = random_claim ();
      g_autoptr (WbJob) claim = wb_random_job (rand, "USD", 1 + run % 12);

      if (wb_job_count (any, WB_KIND_CLAIM) > 0)
        check_claim (any, terms, seen, count);
      check_claim (claim, terms, seen, count);
    }

  for (guint rule = 0; rule < G_N_ELEMENTS (count); rule++)
    {
      if (count[rule] == 0)
        g_error ("the rule %s never came up", wb_enum_nick (&wb_rules, (int) rule));
    }

  if (g_test_verbose ())
    {
      GHashTableIter iter;
      gpointer key, words;

      g_hash_table_iter_init (&iter, seen);
      while (g_hash_table_iter_next (&iter, &key, &words))
        g_test_message ("%s", (char *) words);
    }
}

/* The worked example of the federal booklet: an article of 10 lb at 60 cents a pound. */
static void
test_sentence (void)
{
  static const char text[] =
    "regime = t\ntitle = Test\ncurrency = USD\n[edition]\nfrom = 2000-01-01\n"
    "[released]\narticle-rate = 0.60 per lb ; 49 CFR 375.203\n[full]\nshipment-minimum = 6000.00\n";
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) editions = wb_terms_parse (text, sizeof text - 1, "t", &error);
  g_autoptr (WbJob) empty = wb_job_new ("j", "USD");
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p");
  g_autoptr (WbClaim) claim = wb_record_new (WB_KIND_CLAIM, "c");
  g_autoptr (WbClaimLine) line = wb_record_new (WB_KIND_CLAIM_LINE, "l");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (empty));
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  guint found = 0;
  const WbReason *reason;
  WbReasonIter iter;

  g_assert_no_error (error);
  wb_set_text (&order->number, "J-1");
  piece->weight = wb_weight (1000, WB_WEIGHT_UNIT_LB);
  wb_set_text (&claim->number, "C-1");
  wb_set_text (&line->claim, "c");
  wb_set_text (&line->piece, "p");
  line->number = 1;
  line->loss = WB_LOSS_MISSING;
  line->replacement = wb_money (100000, "USD");
  g_ptr_array_add (records, order);
  g_ptr_array_add (records, piece);
  g_ptr_array_add (records, claim);
  g_ptr_array_add (records, line);
  job = wb_job_with_many (empty, records);
  reckoning = wb_reckon (g_ptr_array_index (editions, 0), job, "c", &error);
  g_assert_no_error (error);

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      g_autofree char *words = wb_words_reason (reckoning, reason);

      if (reason->rule != WB_RULE_ARTICLE_LIMIT)
        continue;
      found++;
      g_assert_cmpstr (words, ==,
                       "At $0.60 per pound for 10 lb no more than $6.00 is paid for the article; "
                       "the loss is $1,000.00.");
      g_assert_cmpstr (wb_words_reason_source (reckoning, reason), ==, "49 CFR 375.203");
    }
  g_assert_cmpuint (found, ==, 1);
}

static void
test_waiver_gaps (void)
{
  g_autofree char *none = wb_words_waiver_gaps (WB_WAIVER_COMPLETE);
  g_autofree char *not_chosen = wb_words_waiver_gaps (WB_WAIVER_NOT_CHOSEN);
  g_autofree char *two = wb_words_waiver_gaps (WB_WAIVER_NO_SIGNER | WB_WAIVER_NO_DATE);

  g_assert_null (none);
  g_assert_cmpstr (not_chosen, ==, "Released value was not chosen.");
  g_assert_cmpstr (two, ==, "The waiver lacks: the name of who signed, the day of signing.");
  for (guint gap = WB_WAIVER_NO_SIGNER; gap <= WB_WAIVER_AFTER_PICKUP; gap <<= 1)
    {
      g_autofree char *words = wb_words_waiver_gaps (gap);

      g_assert_true (g_str_has_prefix (words, "The waiver lacks: "));
      g_assert_cmpuint (strlen (words), >, strlen ("The waiver lacks: ."));
    }
}

int
main (int    argc,
      char **argv)
{
  /* Whoever runs this may have terms of their own. */
  g_setenv ("XDG_DATA_HOME", "/nonexistent", TRUE);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/words-reason/every-rule", test_every_rule);
  g_test_add_func ("/office/words-reason/sentence", test_sentence);
  g_test_add_func ("/office/words-reason/waiver-gaps", test_waiver_gaps);
  return g_test_run ();
}
