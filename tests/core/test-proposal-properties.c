/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must hold of every proposal, and that none ever moves a reckoning: tried on random claims
 * with random evidence. The seed is printed; run again with --seed to see a failure again. */
#include "config.h"

#include "core/wb-proposal.h"

#include "support/wb-random-claim.h"
#include "support/wb-random-evidence.h"

#define N_JOBS 3000

typedef void (*CheckJob) (GRand   *rand,
                          WbTerms *terms,
                          WbJob   *job);

static void
try_jobs (CheckJob check)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (WbTerms) terms = NULL;

  g_test_message ("random values: first seed %u, repeat with the --seed printed at the top", seed);
  for (guint i = 0; i < N_JOBS; i++)
    {
      g_autoptr (WbJob) bare = NULL;
      g_autoptr (WbJob) job = NULL;

      if (i % 20 == 0)
        {
          g_autofree char *text = wb_random_terms_text (rand, "USD");

          g_clear_pointer (&terms, wb_terms_unref);
          terms = wb_random_terms_read (text);
        }
      bare = wb_random_job (rand, "USD", (guint) g_rand_int_range (rand, 1, 5));
      job = wb_random_evidence (rand, bare);
      check (rand, terms, job);
    }
}

static char *
propose_all (WbTerms *terms,
             WbJob   *job)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);
      g_autoptr (WbProposal) proposal = wb_propose (terms, job, line, NULL);
      g_autofree char *text = wb_proposal_to_text (proposal);

      g_string_append_printf (out, "%s: %s", line->record.id, text);
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/* --- one proposal ----------------------------------------------------------------------------- */

static void
check_source (const WbProof *proof)
{
  switch (proof->checked)
    {
    case WB_CHECKED_SEEN:
    case WB_CHECKED_MEMORY:
      g_assert_nonnull (proof->citation);
      break;
    case WB_CHECKED_NONE:
      g_assert_null (proof->citation);
      break;
    case WB_CHECKED_TERMS:
    case WB_CHECKED_PRACTICE:
      break;
    }
}

static void
check_proof (WbJob            *job,
             const WbProposal *proposal,
             guint             index)
{
  const WbProof *proof = g_ptr_array_index (proposal->proofs, index);
  const WbProof *before = index > 0 ? g_ptr_array_index (proposal->proofs, index - 1) : NULL;

  g_assert_true ((proof->bearing == WB_BEARING_DECIDES) == (index == 0));
  if (before != NULL)
    {
      g_assert_cmpint (before->bearing, <=, proof->bearing);
      if (before->bearing == proof->bearing)
        g_assert_cmpuint (before->strength, >=, proof->strength);
    }
  if (proof->bearing == WB_BEARING_SUPPORTS)
    g_assert_cmpint (proof->verdict, ==, proposal->verdict);
  if (proof->bearing == WB_BEARING_AGAINST)
    g_assert_cmpint (proof->verdict, !=, proposal->verdict);
  if (proof->bearing == WB_BEARING_INFORMS)
    g_assert_cmpint (proof->verdict, ==, WB_VERDICT_NONE);
  if (proof->has_record)
    g_assert_nonnull (wb_job_find (job, proof->kind, proof->record));
  if (proof->handover != NULL)
    g_assert_nonnull (wb_job_find (job, WB_KIND_HANDOVER, proof->handover));
  check_source (proof);
}

static void
check_shape (GRand   *rand,
             WbTerms *terms,
             WbJob   *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      g_autoptr (WbProposal) proposal =
        wb_propose (terms, job, wb_job_nth (job, WB_KIND_CLAIM_LINE, i), NULL);
      const WbProof *first = g_ptr_array_index (proposal->proofs, 0);

      g_assert_cmpint (proposal->verdict, !=, WB_VERDICT_NONE);
      g_assert_cmpint (first->verdict, ==, proposal->verdict);
      for (guint j = 0; j < proposal->proofs->len; j++)
        {
          const WbProof *proof = g_ptr_array_index (proposal->proofs, j);

          check_proof (job, proposal, j);
          g_assert_cmpuint (proof->strength, <=, first->strength);
        }
      if (proposal->verdict == WB_VERDICT_MISSING_AT_COUNT)
        g_assert_nonnull (proposal->noted_at);
      else if (proposal->verdict != WB_VERDICT_NEW)
        g_assert_true (proposal->noted_at == NULL && proposal->since == NULL);
    }
}

static void
test_shape (void)
{
  try_jobs (check_shape);
}

/* The same question has the same answer, and other lines, pieces and their order have no say in
 * it: a line is judged by its own evidence. */
static void
check_order (GRand   *rand,
             WbTerms *terms,
             WbJob   *job)
{
  g_autoptr (WbJob) pieces = wb_random_shuffle (rand, job, WB_KIND_PIECE);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);
      g_autoptr (WbProposal) a = wb_propose (terms, job, line, NULL);
      g_autoptr (WbProposal) b =
        wb_propose (terms, pieces, wb_job_find (pieces, WB_KIND_CLAIM_LINE, line->record.id), NULL);
      g_autofree char *text_a = wb_proposal_to_text (a);
      g_autofree char *text_b = wb_proposal_to_text (b);

      /* A thing on no inventory is looked for in every carton, in their order. */
      if (line->piece == NULL)
        g_assert_cmpint (a->verdict, ==, b->verdict);
      else
        g_assert_cmpstr (text_a, ==, text_b);
    }
}

static void
test_order (void)
{
  try_jobs (check_order);
}

/* --- proposals and reckonings ----------------------------------------------------------------- */

static char *
reckon (WbTerms *terms,
        WbJob   *job)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (terms, job, "claim", &error);

  g_assert_no_error (error);
  return wb_reckoning_to_text (reckoning);
}

/* Whatever is proposed and judged stays beside the figures: only the ruling decides. */
static void
check_verdicts (GRand   *rand,
                WbTerms *terms,
                WbJob   *job)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) judged = NULL;
  g_autofree char *before = reckon (terms, job);
  g_autofree char *after = NULL;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      WbClaimLine *line = wb_record_copy (wb_job_nth (job, WB_KIND_CLAIM_LINE, i));
      g_autoptr (WbProposal) proposal = wb_propose (terms, job, line, NULL);

      line->proposed = proposal->verdict;
      line->verdict = (WbVerdict) g_rand_int_range (rand, 0, WB_VERDICT_UNDECIDED + 1);
      wb_set_text (&line->verdict_reason, "Seen on the spot");
      g_ptr_array_add (records, line);
    }
  judged = wb_job_with_many (job, records);
  after = reckon (terms, judged);
  g_assert_cmpstr (before, ==, after);
}

static void
test_verdicts (void)
{
  try_jobs (check_verdicts);
}

/* More evidence against the carrier, be it marks found later or a count that came out short, never
 * lowers what is owed on a line. */
static void
check_more_evidence (GRand   *rand,
                     WbTerms *terms,
                     WbJob   *job)
{
  guint n = wb_job_count (job, WB_KIND_HANDOVER);
  guint n_pieces = wb_job_count (job, WB_KIND_PIECE);
  g_autoptr (WbReckoning) before = NULL;
  g_autoptr (WbReckoning) after = NULL;
  g_autoptr (WbFinding) finding = NULL;
  g_autoptr (WbJob) more = NULL;
  const WbHandover *last;
  const WbPiece *piece;

  if (n == 0 || n_pieces == 0)
    return;

  last = wb_job_nth (job, WB_KIND_HANDOVER, n - 1);
  piece = wb_job_nth (job, WB_KIND_PIECE, (guint) g_rand_int_range (rand, 0, (gint32) n_pieces));
  finding = wb_record_new (WB_KIND_FINDING, "one-more");
  wb_set_text (&finding->handover, last->record.id);
  wb_set_text (&finding->piece, piece->record.id);
  finding->found = g_rand_boolean (rand) ? WB_FOUND_SHORT : WB_FOUND_PRESENT;
  wb_set_text (&finding->marks, "BR 2");
  more = wb_job_with (job, finding);
  before = wb_reckon (terms, job, "claim", NULL);
  after = wb_reckon (terms, more, "claim", NULL);
  g_assert_true (before != NULL && after != NULL);
  g_assert_cmpuint (before->n_lines, ==, after->n_lines);
  for (guint i = 0; i < before->n_lines; i++)
    for (int side = 0; side < WB_N_SIDES; side++)
      g_assert_cmpint (after->lines[i].side[side].owed, >=, before->lines[i].side[side].owed);
}

static void
test_more_evidence (void)
{
  try_jobs (check_more_evidence);
}

/* --- an adjuster who follows every proposal --------------------------------------------------- */

/* Whether a line is paid by one who does what is proposed; what is undecided waits. */
static gboolean
is_for_customer (WbTerms           *terms,
                 WbJob             *job,
                 const WbClaimLine *line)
{
  g_autoptr (WbProposal) proposal = wb_propose (terms, job, line, NULL);

  switch (proposal->verdict)
    {
    case WB_VERDICT_NEW:
    case WB_VERDICT_MISSING_AT_COUNT:
      return TRUE;
    case WB_VERDICT_NONE:
    case WB_VERDICT_ALREADY_THERE:
    case WB_VERDICT_OWNER_PACKED:
    case WB_VERDICT_SIGNED_CLEAN:
    case WB_VERDICT_TOO_LATE:
    case WB_VERDICT_NOT_LISTED:
    case WB_VERDICT_DEFENCE:
    case WB_VERDICT_UNDECIDED:
      return FALSE;
    }
  g_assert_not_reached ();
}

/* Returns: (transfer full): @job reckoned after every line was ruled on as is proposed */
static WbReckoning *
follow_proposals (WbTerms *terms,
                  WbJob   *job)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) ruled = NULL;
  g_autoptr (GError) error = NULL;
  WbReckoning *reckoning;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);
      WbClaimLine *copy = wb_record_copy (line);

      copy->ruling = is_for_customer (terms, job, line) ? WB_RULING_ALLOWED : WB_RULING_DENIED;
      g_ptr_array_add (records, copy);
    }
  ruled = wb_job_with_many (job, records);
  reckoning = wb_reckon (terms, ruled, "claim", &error);
  g_assert_no_error (error);
  return reckoning;
}

/* How one more thing speaks against the carrier. */
typedef enum { NOTED_LATER, CARRIER_PACKED, SOUND_AT_ORIGIN, N_MORE } More;

/* At the last handover: short when the thing is claimed as missing, else with new marks on it. An
 * earlier finding there is kept and added to. */
static WbRecord *
note_later (const WbJob       *job,
            const WbClaimLine *line,
            const WbPiece     *piece)
{
  guint n = wb_job_count (job, WB_KIND_HANDOVER);
  const WbHandover *last = n > 0 ? wb_job_nth (job, WB_KIND_HANDOVER, n - 1) : NULL;
  WbFinding *finding = NULL;
  g_autofree char *marks = NULL;

  if (last == NULL)
    return NULL;
  for (guint i = 0; i < wb_job_count (job, WB_KIND_FINDING); i++)
    {
      const WbFinding *found = wb_job_nth (job, WB_KIND_FINDING, i);

      if (g_strcmp0 (found->piece, piece->record.id) == 0
          && g_strcmp0 (found->handover, last->record.id) == 0)
        {
          if (finding != NULL)
            wb_record_unref (finding);
          finding = wb_record_copy (found);
        }
    }
  if (finding == NULL)
    finding = wb_record_new (WB_KIND_FINDING, "one-more");
  wb_set_text (&finding->handover, last->record.id);
  wb_set_text (&finding->piece, piece->record.id);
  if (line->loss == WB_LOSS_MISSING)
    finding->found = WB_FOUND_SHORT;
  else
    {
      marks = finding->marks != NULL ? g_strconcat (finding->marks, ", BR 2", NULL)
                                     : g_strdup ("BR 2");
      wb_set_text (&finding->marks, marks);
    }
  return &finding->record;
}

static WbRecord *
add_to_piece (const WbPiece *piece,
              More           more)
{
  WbPiece *copy = wb_record_copy (piece);

  if (more == CARRIER_PACKED)
    copy->packed_by = WB_PACKED_BY_CARRIER;
  else
    wb_set_text (&copy->marks, NULL);
  return &copy->record;
}

/* Whether other lines claim the piece for another kind of loss: what speaks for one of them may
 * speak against the other. */
static gboolean
is_claimed_otherwise (const WbJob       *job,
                      const WbClaimLine *line)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *other = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (other->piece, line->piece) == 0 && other->loss != line->loss)
        return TRUE;
    }
  return FALSE;
}

/* What the trials of test_following() came to: a line that is turned nowhere would prove
 * nothing. */
static guint n_followed[N_MORE], n_raised[N_MORE];

/* More that speaks against the carrier turns no line against the customer, and whoever follows
 * every proposal owes no less in all. */
static void
check_following (GRand   *rand,
                 WbTerms *terms,
                 WbJob   *job)
{
  guint n_lines = wb_job_count (job, WB_KIND_CLAIM_LINE);
  const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE,
                                        (guint) g_rand_int_range (rand, 0, (gint32) n_lines));
  const WbPiece *piece = line->piece != NULL ? wb_job_find (job, WB_KIND_PIECE, line->piece) : NULL;
  More more = (More) g_rand_int_range (rand, 0, N_MORE);
  g_autoptr (WbReckoning) before = NULL;
  g_autoptr (WbReckoning) after = NULL;
  g_autoptr (WbJob) with = NULL;
  WbRecord *record;

  /* A line that does not say what was lost is judged by either: seen again is not short. */
  if (piece == NULL || line->loss == WB_LOSS_NONE || is_claimed_otherwise (job, line))
    return;
  record = more == NOTED_LATER ? note_later (job, line, piece) : add_to_piece (piece, more);
  if (record == NULL)
    return;
  with = wb_job_with (job, record);
  wb_record_unref (record);

  for (guint i = 0; i < n_lines; i++)
    {
      const WbClaimLine *each = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);
      const WbClaimLine *now = wb_job_find (with, WB_KIND_CLAIM_LINE, each->record.id);

      if (is_for_customer (terms, job, each) && !is_for_customer (terms, with, now))
        {
          g_autoptr (WbProposal) was = wb_propose (terms, job, each, NULL);
          g_autoptr (WbProposal) is = wb_propose (terms, with, now, NULL);
          g_autofree char *was_text = wb_proposal_to_text (was);
          g_autofree char *is_text = wb_proposal_to_text (is);

          g_error ("more evidence (%d) against the carrier turned line %s “%s”, from\n%sto\n%s",
                   (int) more, each->record.id, each->item, was_text, is_text);
        }
    }
  before = follow_proposals (terms, job);
  after = follow_proposals (terms, with);
  for (int side = 0; side < WB_N_SIDES; side++)
    g_assert_cmpint (after->side[side].owed, >=, before->side[side].owed);
  n_followed[more]++;
  n_raised[more] += after->side[WB_SIDE_FULL].owed > before->side[WB_SIDE_FULL].owed
                    || after->side[WB_SIDE_RELEASED].owed > before->side[WB_SIDE_RELEASED].owed;
}

static void
test_following (void)
{
  static const char *const names[] = { "noted later", "carrier packed", "sound at origin" };

  try_jobs (check_following);
  for (int more = 0; more < N_MORE; more++)
    {
      g_test_message ("%s: %u trials, more was owed in %u", names[more], n_followed[more],
                      n_raised[more]);
      g_assert_cmpuint (n_followed[more], >, N_JOBS / 20);
      g_assert_cmpuint (n_raised[more], >, 0);
    }
}

/* Nor does a proposal change the job that it looks at. */
static void
check_pure (GRand   *rand,
            WbTerms *terms,
            WbJob   *job)
{
  g_autoptr (WbJob) copy = wb_random_shuffle (rand, job, WB_KIND_ORDER);
  g_autofree char *first = propose_all (terms, job);
  g_autofree char *second = propose_all (terms, job);

  g_assert_cmpstr (first, ==, second);
  g_assert_true (wb_job_equal (job, copy));
}

static void
test_pure (void)
{
  try_jobs (check_pure);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/proposal/properties/shape", test_shape);
  g_test_add_func ("/core/proposal/properties/order", test_order);
  g_test_add_func ("/core/proposal/properties/pure", test_pure);
  g_test_add_func ("/core/proposal/properties/verdicts", test_verdicts);
  g_test_add_func ("/core/proposal/properties/more-evidence", test_more_evidence);
  g_test_add_func ("/core/proposal/properties/following", test_following);

  return g_test_run ();
}
