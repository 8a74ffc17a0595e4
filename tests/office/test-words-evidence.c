/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentences of proposals and shares on random evidence: every placeholder is filled. */
#include "config.h"

#include "office/wb-charge-statement.h"
#include "office/wb-words-bearing.h"
#include "office/wb-words-evidence.h"

#include <string.h>

#include "support/wb-random-claim.h"
#include "support/wb-random-evidence.h"

#define N_JOBS 400

static void
check_sentence (const char *sentence)
{
  g_assert_nonnull (sentence);
  g_assert_true (g_str_has_suffix (sentence, "."));
  g_assert_null (strchr (sentence, '{'));
  g_assert_null (strstr (sentence, "–"));
  g_assert_null (strstr (sentence, ".."));
}

static void
check_proposals (WbTerms  *terms,
                 WbJob    *job,
                 gboolean *seen)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      g_autoptr (WbProposal) proposal =
        wb_propose (terms, job, wb_job_nth (job, WB_KIND_CLAIM_LINE, i), NULL);
      g_autofree char *head = wb_words_proposal (proposal);

      check_sentence (head);
      for (guint j = 0; j < proposal->proofs->len; j++)
        {
          const WbProof *proof = g_ptr_array_index (proposal->proofs, j);
          g_autofree char *words = wb_words_proof (proposal, proof);
          g_autofree char *source = wb_words_proof_source (proof);

          check_sentence (words);
          seen[proof->rule] = TRUE;
          if (proof->checked == WB_CHECKED_MEMORY)
            g_assert_nonnull (strstr (source, "From memory"));
          else if (proof->citation != NULL)
            g_assert_nonnull (strstr (source, proof->citation));
        }
    }
}

static void
check_shares (WbTerms  *terms,
              WbJob    *job,
              gboolean *seen)
{
  g_autoptr (WbReckoning) reckoning = wb_reckon (terms, job, "claim", NULL);
  g_autoptr (WbApportionment) shares = NULL;

  g_assert_nonnull (reckoning);
  shares = wb_apportion (reckoning, WB_APPORTION_LAST, NULL);
  g_assert_nonnull (shares);
  for (guint i = 0; i < shares->n_lines; i++)
    {
      g_autofree char *words = wb_words_shared (shares, i);
      g_autofree char *source = wb_words_shared_source (shares->lines[i].why);

      check_sentence (words);
      g_assert_true ((source == NULL) == (shares->lines[i].why == WB_SHARED_BY_HAND));
      seen[shares->lines[i].why] = TRUE;
    }
}

/* Limits that are reached are told of, in the statement of the handler too. */
static guint
check_limits (GRand   *rand,
              WbTerms *terms,
              WbJob   *job)
{
  g_autoptr (WbParty) party = wb_record_new (WB_KIND_PARTY, "bears-little");
  g_autoptr (WbJob) limited = NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbApportionment) shares = NULL;
  guint n = 0;
  GDate on;

  g_date_clear (&on, 1);
  g_date_set_dmy (&on, 9, G_DATE_JULY, 2024);
  party->role = WB_ROLE_WAREHOUSE;
  party->claim_limit = wb_money (100, "USD");
  wb_set_text (&party->company, wb_random_holder (rand));
  limited = wb_job_with (job, party);
  reckoning = wb_reckon (terms, limited, "claim", NULL);
  shares = wb_apportion (reckoning, WB_APPORTION_EQUAL, NULL);
  for (guint i = 0; i < shares->n_handlers; i++)
    {
      g_autofree char *over = wb_words_over_limit (shares, i);
      g_autofree char *statement = wb_charge_statement_write (shares, i, &on);

      g_assert_true ((over != NULL) == (shares->handlers[i].excess > 0));
      g_assert_null (strchr (statement, '{'));
      if (over == NULL)
        continue;
      check_sentence (over);
      g_assert_nonnull (strstr (over, "$1.00"));
      g_assert_nonnull (strstr (over, "the office"));
      n++;
    }
  return n;
}

static void
test_random (void)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  gboolean proofs[WB_N_PROOF_RULES] = { FALSE };
  gboolean whys[WB_SHARED_BY_HAND + 1] = { FALSE };
  guint n_proofs = 0, n_whys = 0, n_limits = 0;

  g_test_message ("random values: first seed %u", seed);
  for (guint i = 0; i < N_JOBS; i++)
    {
      g_autofree char *text = wb_random_terms_text (rand, "USD");
      g_autoptr (WbTerms) terms = wb_random_terms_read (text);
      g_autoptr (WbJob) bare = wb_random_job (rand, "USD", 4);
      g_autoptr (WbJob) job = wb_random_evidence (rand, bare);

      check_proposals (terms, job, proofs);
      check_shares (terms, job, whys);
      n_limits += check_limits (rand, terms, job);
    }
  for (guint i = 0; i < WB_N_PROOF_RULES; i++)
    n_proofs += proofs[i] ? 1 : 0;
  for (guint i = 0; i <= WB_SHARED_BY_HAND; i++)
    n_whys += whys[i] ? 1 : 0;
  g_test_message ("%u kinds of facts and %u grounds of sharing came up", n_proofs, n_whys);
  g_assert_cmpuint (n_proofs, >=, 25);
  g_assert_cmpuint (n_whys, >=, 4);
  g_assert_cmpuint (n_limits, >, 0);
}

/* A claim as small as can be, word for word. */
static void
test_small (void)
{
  g_autofree char *sentence = NULL;
  g_autofree char *name = NULL;
  WbLineShares line = { .hand_total = 9550, .hand_fault = TRUE };
  WbLineShares whole = { .hand_total = 10000 };
  WbHandler office = { NULL };

  sentence = wb_words_hand_fault (&line);
  g_assert_cmpstr (sentence, ==, "The shares set by hand come to 95.5 %; they count when they come "
                                 "to 100 %. Until then the line is shared by rule.");
  g_assert_null (wb_words_hand_fault (&whole));
  name = wb_words_handler (&office);
  g_assert_cmpstr (name, ==, "the office");
}

/* What is wrong with a split by hand, each in a sentence of its own. */
static void
test_hand_split (void)
{
  g_autofree char *less = wb_words_hand_split (WB_HAND_SPLIT_NOT_WHOLE, 9550);

  g_assert_cmpstr (less, ==, "The parts come to 95.5 %. They have to come to 100 %.");
  g_assert_null (wb_words_hand_split (WB_HAND_SPLIT_GOOD, 10000));
  for (int fault = WB_HAND_SPLIT_NOBODY; fault <= WB_HAND_SPLIT_NO_REASON; fault++)
    {
      g_autofree char *words = wb_words_hand_split ((WbHandSplitFault) fault, 0);

      check_sentence (words);
    }
}

static void
test_intake (void)
{
  g_autoptr (WbJob) job = wb_job_new ("job", "USD");

  for (gsize i = 0; i < wb_intake_states.n_values; i++)
    {
      g_autofree char *words = wb_words_intake ((WbIntakeState) wb_intake_states.values[i].value);

      check_sentence (words);
    }
  for (gsize i = 0; i < wb_intake_gaps.n_values; i++)
    {
      WbIntakeGap gap = { .kind = (WbIntakeGapKind) wb_intake_gaps.values[i].value };
      g_autofree char *words = wb_words_intake_gap (job, &gap);

      check_sentence (words);
    }
}

static void
put_claim (WbJob      **job,
           const char  *id,
           const char  *number,
           const char  *claimant)
{
  g_autoptr (WbClaim) claim = wb_record_new (WB_KIND_CLAIM, id);
  g_autofree char *line_id = g_strconcat ("line-", id, NULL);
  g_autoptr (WbClaimLine) line = wb_record_new (WB_KIND_CLAIM_LINE, line_id);
  g_autoptr (WbJob) before = *job;
  g_autoptr (WbJob) with_claim = NULL;

  wb_set_text (&claim->number, number);
  wb_set_text (&claim->claimant, claimant);
  wb_set_text (&line->claim, id);
  wb_set_text (&line->item, "Garden hose");
  line->number = 3;
  with_claim = wb_job_with (before, claim);
  *job = wb_job_with (with_claim, line);
}

/* 49 CFR 370.3(e): who else claims for the same is told, and of the same claimant nothing. */
static void
test_conflict (void)
{
  WbJob *job = wb_job_new ("job", "USD");
  g_autofree char *none = NULL;
  g_autofree char *words = NULL;

  put_claim (&job, "a", "C-1", "Ida Brook");
  put_claim (&job, "b", "C-2", "Ida Brook");
  none = wb_words_conflict (job, wb_job_find (job, WB_KIND_CLAIM, "a"));
  g_assert_null (none);
  put_claim (&job, "c", "C-3", "Her insurer");
  words = wb_words_conflict (job, wb_job_find (job, WB_KIND_CLAIM, "a"));
  g_assert_true (g_str_has_prefix (words, "Claim C-3 of Her insurer asks for what line 3 asks for."));
  check_sentence (words);
  wb_job_unref (job);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/office/words-evidence/random", test_random);
  g_test_add_func ("/office/words-evidence/small", test_small);

  g_test_add_func ("/office/words-evidence/hand-split", test_hand_split);
  g_test_add_func ("/office/words-evidence/intake", test_intake);

  g_test_add_func ("/office/words-evidence/conflict", test_conflict);
  return g_test_run ();
}
