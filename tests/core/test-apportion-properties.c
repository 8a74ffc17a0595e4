/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must hold of every apportionment, tried on random claims with random evidence, limits,
 * shares by hand and charges. The seed is printed; run again with --seed to see a failure again. */
#include "config.h"

#include "core/wb-charge.h"
#include "core/wb-core.h"

#include "support/wb-random-claim.h"
#include "support/wb-random-evidence.h"

#define N_JOBS 3000

/* --- random parties, shares and charges ------------------------------------------------------- */

static void
add_parties (GRand     *rand,
             GPtrArray *records)
{
  for (gint i = g_rand_int_range (rand, 0, 8); i > 0; i--)
    {
      g_autofree char *id = g_strdup_printf ("bears-%d", i);
      WbParty *party = wb_record_new (WB_KIND_PARTY, id);

      party->role = i == 1 ? WB_ROLE_CARRIER : i == 2 ? WB_ROLE_SHIPPER : WB_ROLE_HAULER;
      wb_set_text (&party->company, wb_random_holder (rand));
      /* Some are so low that most shares reach them. */
      if (g_rand_boolean (rand))
        party->claim_limit = wb_money (g_rand_int_range (rand, 0, i % 2 == 0 ? 20000 : 500), "USD");
      g_ptr_array_add (records, party);
    }
}

/* Percentages that make 100 % two times in three. */
static void
add_shares (GRand             *rand,
            GPtrArray         *records,
            const WbClaimLine *line)
{
  gint64 left = 10000;
  gint n = g_rand_int_range (rand, 1, 4);

  for (gint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("share-%s-%d", line->record.id, i);
      WbShare *share = wb_record_new (WB_KIND_SHARE, id);
      const char *holder = wb_random_holder (rand);

      wb_set_text (&share->claim_line, line->record.id);
      wb_set_text (&share->handler, holder != NULL ? holder : "Rail line");
      share->percent = i + 1 == n && g_rand_int_range (rand, 0, 3) > 0
                       ? left : g_rand_int_range (rand, 0, (gint32) left + 1);
      left -= share->percent;
      g_ptr_array_add (records, share);
    }
}

static void
add_charges (GRand     *rand,
             GPtrArray *records)
{
  for (gint i = g_rand_int_range (rand, 0, 4); i > 0; i--)
    {
      g_autofree char *id = g_strdup_printf ("charge-%d", i);
      WbHandlerCharge *charge = wb_record_new (WB_KIND_CHARGE, id);
      const char *holder = wb_random_holder (rand);

      wb_set_text (&charge->claim, "claim");
      wb_set_text (&charge->handler, holder != NULL ? holder : "Rail line");
      charge->amount = wb_money (g_rand_int_range (rand, 0, 100000), "USD");
      if (g_rand_boolean (rand))
        charge->recovered = wb_money (g_rand_int_range (rand, 0, 100000), "USD");
      g_ptr_array_add (records, charge);
    }
}

static WbJob *
make_job (GRand *rand)
{
  g_autoptr (WbJob) bare = wb_random_job (rand, "USD", (guint) g_rand_int_range (rand, 1, 6));
  g_autoptr (WbJob) job = wb_random_evidence (rand, bare);
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  WbJob *out;
  g_autoptr (GError) error = NULL;

  add_parties (rand, records);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    if (g_rand_int_range (rand, 0, 3) == 0)
      add_shares (rand, records, wb_job_nth (job, WB_KIND_CLAIM_LINE, i));
  add_charges (rand, records);
  out = wb_job_with_many (job, records);
  wb_job_check (out, &error);
  g_assert_no_error (error);
  return out;
}

typedef void (*CheckJob) (GRand           *rand,
                          WbTerms         *terms,
                          WbJob           *job,
                          WbApportionRule  rule);

static WbApportionment *
apportion (WbTerms         *terms,
           WbJob           *job,
           WbApportionRule  rule)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (terms, job, "claim", &error);
  WbApportionment *out;

  g_assert_no_error (error);
  out = wb_apportion (reckoning, rule, &error);
  g_assert_no_error (error);
  return out;
}

static void
try_jobs (CheckJob check)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (WbTerms) terms = NULL;

  g_test_message ("random values: first seed %u, repeat with the --seed printed at the top", seed);
  for (guint i = 0; i < N_JOBS; i++)
    {
      g_autoptr (WbJob) job = make_job (rand);

      if (i % 20 == 0)
        {
          g_autofree char *text = wb_random_terms_text (rand, "USD");

          g_clear_pointer (&terms, wb_terms_unref);
          terms = wb_random_terms_read (text);
        }
      check (rand, terms, job, (WbApportionRule) (i % wb_apportion_rules.n_values));
    }
}

/* --- sums ------------------------------------------------------------------------------------- */

/* What the trials came to. */
static guint n_split, n_cut, n_limited, n_unassigned;

static void
count (const WbApportionment *self)
{
  gboolean cut = FALSE;

  for (guint i = 0; i < self->n_lines; i++)
    {
      guint n_bearing = 0;

      for (guint j = 0; j < self->n_handlers; j++)
        n_bearing += self->lines[i].parts[j] > 0;
      n_split += n_bearing > 1;
    }
  for (guint j = 0; j < self->n_handlers; j++)
    {
      n_limited += self->handlers[j].has_limit;
      cut = cut || self->handlers[j].excess > 0;
    }
  n_cut += cut;
  n_unassigned += self->unassigned > 0;
}

static void
check_sums (GRand           *rand,
            WbTerms         *terms,
            WbJob           *job,
            WbApportionRule  rule)
{
  g_autoptr (WbApportionment) self = apportion (terms, job, rule);
  gint64 owed = 0, borne = 0, excess = 0, by_limits = 0, unassigned = 0;

  for (guint i = 0; i < self->n_lines; i++)
    {
      const WbLineShares *line = &self->lines[i];
      gint64 sum = 0, cut = 0;

      for (guint j = 0; j < self->n_handlers; j++)
        {
          g_assert_cmpint (line->parts[j], >=, 0);
          g_assert_cmpint (line->cut[j], >=, 0);
          sum += line->parts[j];
          cut += line->cut[j];
        }
      g_assert_cmpint (line->cut[0], ==, 0);
      g_assert_cmpint (cut, <=, line->parts[0]);
      g_assert_cmpint (sum, ==, line->owed);
      if (line->why == WB_SHARED_NO_PIECE || line->why == WB_SHARED_NO_HANDLER)
        {
          g_assert_cmpint (line->parts[0], ==, line->owed);
          unassigned += line->owed;
        }
      g_assert_cmpint (line->owed, ==,
                       self->reckoning->lines[i].side[self->reckoning->applies].owed);
      owed += line->owed;
    }
  g_assert_cmpint (self->unassigned, ==, unassigned);
  g_assert_cmpint (self->owed, ==, owed);
  g_assert_cmpint (self->owed, ==, self->reckoning->side[self->reckoning->applies].owed);

  for (guint j = 0; j < self->n_handlers; j++)
    {
      const WbHandler *handler = &self->handlers[j];
      gint64 parts = 0, cut = 0;

      for (guint i = 0; i < self->n_lines; i++)
        {
          parts += self->lines[i].parts[j];
          cut += self->lines[i].cut[j];
        }
      g_assert_cmpint (handler->borne, ==, parts);
      g_assert_cmpint (handler->excess, ==, cut);
      if (handler->has_limit)
        g_assert_cmpint (handler->borne, <=, handler->limit);
      if (j > 0)
        {
          g_assert_cmpint (handler->excess, ==, handler->wanted - handler->borne);
          excess += handler->excess;
        }
      g_assert_cmpint (handler->open, ==, handler->charged - handler->recovered);
      borne += handler->borne;
    }
  by_limits = self->handlers[0].borne - self->handlers[0].wanted;
  g_assert_cmpint (by_limits, ==, excess);
  g_assert_cmpint (borne, ==, owed);
  count (self);
}

/* Shares that are never split and limits that never cut would prove nothing. */
static void
test_sums (void)
{
  try_jobs (check_sums);
  g_test_message ("lines split among several %u, claims cut by a limit %u, handlers with a limit "
                  "%u, claims with a line that nobody had %u", n_split, n_cut, n_limited,
                  n_unassigned);
  g_assert_cmpuint (n_split, >, N_JOBS / 10);
  g_assert_cmpuint (n_cut, >, N_JOBS / 100);
  g_assert_cmpuint (n_limited, >, N_JOBS / 10);
  g_assert_cmpuint (n_unassigned, >, N_JOBS / 100);
}

/* --- what has no say -------------------------------------------------------------------------- */

/* Every way of writing the same papers down gives the same shares: other lines' findings, the order
 * of pieces, of findings about other pieces, of charges and lines. */
static void
check_order (GRand           *rand,
             WbTerms         *terms,
             WbJob           *job,
             WbApportionRule  rule)
{
  g_autoptr (WbJob) pieces = wb_random_shuffle (rand, job, WB_KIND_PIECE);
  g_autoptr (WbJob) lines = wb_random_shuffle (rand, pieces, WB_KIND_CLAIM_LINE);

  g_autoptr (WbApportionment) a = apportion (terms, job, rule);
  g_autoptr (WbApportionment) b = apportion (terms, lines, rule);
  g_autofree char *text_a = wb_apportionment_to_text (a);
  g_autofree char *text_b = wb_apportionment_to_text (b);

  g_assert_cmpstr (text_a, ==, text_b);
}

static void
test_order (void)
{
  try_jobs (check_order);
}

/* What was found about one piece moves no line about another. Shares of whole claims move only
 * where a limit is reached, so limits are taken away first. */
static void
check_unrelated (GRand           *rand,
                 WbTerms         *terms,
                 WbJob           *job,
                 WbApportionRule  rule)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) unlimited = NULL;
  g_autoptr (WbJob) edited = NULL;
  g_autoptr (WbFinding) finding = NULL;
  g_autoptr (WbApportionment) a = NULL;
  g_autoptr (WbApportionment) b = NULL;
  const WbPiece *piece;

  if (wb_job_count (job, WB_KIND_FINDING) == 0)
    return;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      WbParty *party = wb_record_copy (wb_job_nth (job, WB_KIND_PARTY, i));

      party->claim_limit = WB_MONEY_UNSET;
      g_ptr_array_add (records, party);
    }
  unlimited = wb_job_with_many (job, records);
  finding = wb_record_copy (wb_job_nth (job, WB_KIND_FINDING, 0));
  finding->found = (WbFound) g_rand_int_range (rand, 0, 3);
  wb_set_text (&finding->marks, wb_random_marks (rand));
  piece = wb_job_find (job, WB_KIND_PIECE, finding->piece);
  edited = wb_job_with (unlimited, finding);
  a = apportion (terms, unlimited, rule);
  b = apportion (terms, edited, rule);
  for (guint i = 0; i < a->n_lines; i++)
    {
      if (g_strcmp0 (a->lines[i].line->piece, piece->record.id) == 0)
        continue;
      for (guint j = 0; j < a->n_handlers; j++)
        g_assert_cmpint (a->lines[i].parts[j], ==, b->lines[i].parts[j]);
    }
}

static void
test_unrelated (void)
{
  try_jobs (check_unrelated);
}

/* A higher limit never makes its handler bear less, and nobody else but the carrier bears
 * another amount for it. */
static void
check_limits (GRand           *rand,
              WbTerms         *terms,
              WbJob           *job,
              WbApportionRule  rule)
{
  g_autoptr (WbApportionment) a = apportion (terms, job, rule);
  g_autoptr (WbApportionment) b = NULL;
  g_autoptr (WbJob) raised = NULL;
  g_autoptr (WbParty) party = NULL;
  guint index = 0;

  for (guint i = 1; i < a->n_handlers; i++)
    if (a->handlers[i].has_limit)
      index = i;
  if (index == 0)
    return;

  party = wb_record_copy (a->handlers[index].party);
  party->claim_limit.minor += g_rand_int_range (rand, 0, 10000);
  raised = wb_job_with (job, party);
  b = apportion (terms, raised, rule);
  for (guint i = 1; i < a->n_handlers; i++)
    {
      if (i == index)
        g_assert_cmpint (b->handlers[i].borne, >=, a->handlers[i].borne);
      else if (a->handlers[i].party != a->handlers[index].party)
        g_assert_cmpint (b->handlers[i].borne, ==, a->handlers[i].borne);
    }
  g_assert_cmpint (b->handlers[0].borne, <=, a->handlers[0].borne);
}

static void
test_limits (void)
{
  try_jobs (check_limits);
}

/* --- charges ---------------------------------------------------------------------------------- */

static char *
make_id (void)
{
  static guint n = 0;

  return g_strdup_printf ("new-%u", n++);
}

/* Stated charges are exactly what each bears, one for each handler, whatever was charged before;
 * and what came back stays. Stating again changes nothing. */
static void
check_charges (GRand           *rand,
               WbTerms         *terms,
               WbJob           *job,
               WbApportionRule  rule)
{
  g_autoptr (WbApportionment) before = apportion (terms, job, rule);
  g_autoptr (WbApportionment) after = NULL;
  g_autoptr (WbJob) stated = NULL;
  g_autoptr (WbJob) again = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) texts = g_new0 (char *, before->n_handlers + 1);
  gint64 charged = 0;
  WbChargeSums sums;
  GDate on;

  g_date_clear (&on, 1);
  g_date_set_dmy (&on, 3, G_DATE_JUNE, 2026);
  for (guint i = 0; i < before->n_handlers; i++)
    texts[i] = g_strdup_printf ("statement %u", i);
  stated = wb_charge_state (before, (const char *const *) texts, &on, make_id, &error);
  if (g_error_matches (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING))
    {
      g_assert_cmpint (before->handlers[0].borne, ==, before->owed);
      return;
    }
  g_assert_no_error (error);
  after = apportion (terms, stated, rule);
  g_assert_cmpuint (after->n_handlers, ==, before->n_handlers);
  for (guint i = 1; i < after->n_handlers; i++)
    {
      const WbHandler *handler = &after->handlers[i];
      g_autoptr (GPtrArray) charges = wb_charges_of (after, i);

      g_assert_cmpint (handler->borne, ==, before->handlers[i].borne);
      g_assert_cmpint (handler->charged, ==, handler->borne);
      g_assert_cmpint (handler->uncharged, ==, 0);
      g_assert_cmpint (handler->recovered, ==, before->handlers[i].recovered);
      g_assert_cmpuint (charges->len, ==, wb_charge_is_needed (after, i) ? 1 : 0);
      charged += handler->charged;
    }
  g_assert_true (wb_charge_add_up (after, &sums, &error));
  g_assert_cmpint (sums.charged, ==, charged);
  g_assert_cmpint (sums.charged + sums.over, ==, sums.recovered + sums.open);
  again = wb_charge_state (after, (const char *const *) texts, &on, make_id, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (stated, again));
}

static void
test_charges (void)
{
  try_jobs (check_charges);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/apportion/properties/sums", test_sums);
  g_test_add_func ("/core/apportion/properties/order", test_order);
  g_test_add_func ("/core/apportion/properties/unrelated", test_unrelated);
  g_test_add_func ("/core/apportion/properties/limits", test_limits);

  g_test_add_func ("/core/apportion/properties/charges", test_charges);

  return g_test_run ();
}
