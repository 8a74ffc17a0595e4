/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Proposals for claim lines, case by case on a shipment of three handovers. */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-proposal.h"
#include "core/wb-reckoning.h"

#include "claim-fixture.h"

/* One line on one piece, written down; what is NULL or 0 is not given. */
typedef struct
{
  const char   *name;
  WbForm        form;
  WbPackedBy    packed_by;
  const char   *description;
  const char   *contents;
  const char   *origin;        /* marks */
  const char   *warehouse;     /* marks found into storage; "-" is short, "+" is seen */
  const char   *delivery;      /* the same at delivery */
  const char   *item;
  WbLoss        loss;
  gboolean      no_piece;
  WbVerdict     verdict;
  const char   *noted_at;
  const char   *since;
  const char   *decides;       /* nick of the fact that decides */
  const char   *against;       /* nicks of those against it, in order */
} Trial;

static const Trial trials[] = {
  { "same-place-before", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, "SC 4-8", NULL, NULL,
    "Table, scratched on the front", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_ALREADY_THERE, NULL, NULL, "origin-all", "signed-clean" },
  { "same-kind-other-place", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, "SC 4-8", NULL, NULL,
    "Table, scratched on the top", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_SIGNED_CLEAN, NULL, NULL, "signed-clean", "" },
  { "same-kind-no-place", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, "SC", NULL, NULL,
    "Table, scratched on the top", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_UNDECIDED, NULL, NULL, "origin-doubt", "signed-clean" },
  { "codes-in-the-line", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, "SC 4, G 10", NULL, NULL,
    "SC 4, G 10", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_ALREADY_THERE, NULL, NULL, "origin-all", "signed-clean" },
  { "new-at-delivery", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, "SC 4-10", NULL, "G 10",
    "Table, gouged top", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_NEW, "h3", "h2", "new-same", "" },
  { "new-at-storage", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, NULL, "G 10", "G 10",
    "Table, gouged top", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_NEW, "h2", "h1", "new-same", "" },
  { "noted-again-is-not-new", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, "G 10", NULL,
    "G 10", "Table, gouged top", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_ALREADY_THERE, NULL, NULL, "origin-all", "signed-clean" },
  { "part-was-there", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Piano", NULL, "SC 4", NULL, "Z 11",
    "Piano: scratched front, veneer cracked", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_NEW, "h3", "h2", "new-same", "origin-part" },
  { "claim-says-nothing", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, "SC 4", NULL, "BR 6",
    "Table", WB_LOSS_DAMAGED, FALSE, WB_VERDICT_NEW, "h3", "h2", "new-any", "" },
  { "other-damage-noted", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, "SC 4", NULL, "BR 6",
    "Table, scratched front", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_ALREADY_THERE, NULL, NULL, "origin-all", "new-other" },
  { "signed-clean", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", NULL, NULL, NULL, NULL,
    "Table, leg broken", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_SIGNED_CLEAN, NULL, NULL, "signed-clean", "" },
  { "owner-packed-sound", WB_FORM_CARTON, WB_PACKED_BY_OWNER, "Carton", NULL, NULL, NULL, NULL,
    "Plates, broken", WB_LOSS_DESTROYED, FALSE,
    WB_VERDICT_OWNER_PACKED, NULL, NULL, "owner-sound", "signed-clean" },
  { "owner-packed-crushed", WB_FORM_CARTON, WB_PACKED_BY_OWNER, "Carton", NULL, NULL, NULL, "CR 3",
    "Plates, broken", WB_LOSS_DESTROYED, FALSE, WB_VERDICT_NEW, "h3", "h2", "owner-hurt", "" },
  { "carrier-packed-sound", WB_FORM_CARTON, WB_PACKED_BY_CARRIER, "Dish pack", "Plates, cups", NULL,
    NULL, NULL, "Plate, broken", WB_LOSS_DESTROYED, FALSE,
    WB_VERDICT_NEW, NULL, "h1", "carrier-sound", "signed-clean" },
  { "carrier-packed-crushed", WB_FORM_CARTON, WB_PACKED_BY_CARRIER, "Dish pack", "Plates, cups",
    NULL, "CR 3", NULL, "Plate, broken", WB_LOSS_DESTROYED, FALSE,
    WB_VERDICT_NEW, "h2", "h1", "new-any", "" },
  { "unlikely-contents", WB_FORM_CARTON, WB_PACKED_BY_CARRIER, "Carton 1.5", "Books", NULL, NULL,
    NULL, "Vase", WB_LOSS_DESTROYED, FALSE,
    WB_VERDICT_UNDECIDED, NULL, NULL, "contents-unrelated", "carrier-sound signed-clean" },
  { "packer-unknown", WB_FORM_CARTON, WB_PACKED_UNKNOWN, "Carton", NULL, NULL, NULL, NULL,
    "Vase", WB_LOSS_DESTROYED, FALSE,
    WB_VERDICT_UNDECIDED, NULL, NULL, "packer-unknown", "signed-clean" },
  { "carton-missing", WB_FORM_CARTON, WB_PACKED_BY_OWNER, "Carton", NULL, NULL, "-", NULL,
    "Shoes", WB_LOSS_MISSING, FALSE,
    WB_VERDICT_MISSING_AT_COUNT, "h2", "h1", "short", "" },
  /* Out of a carton that arrived crushed, whoever packed it. */
  { "out-of-a-crushed-carton", WB_FORM_CARTON, WB_PACKED_BY_CARRIER, "Carton", NULL, NULL, NULL,
    "CR 3", "Shoes", WB_LOSS_MISSING, FALSE, WB_VERDICT_NEW, "h3", "h2", "new-any", "" },
  { "out-of-the-owner's", WB_FORM_CARTON, WB_PACKED_BY_OWNER, "Carton", NULL, NULL, NULL,
    "CR 3", "Shoes", WB_LOSS_MISSING, FALSE, WB_VERDICT_NEW, "h3", "h2", "owner-hurt", "" },
  { "short-at-delivery", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Bicycle", NULL, NULL, NULL, "-",
    "Bicycle", WB_LOSS_MISSING, FALSE,
    WB_VERDICT_MISSING_AT_COUNT, "h3", "h2", "short", "" },
  { "short-then-seen", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Bicycle", NULL, NULL, "-", "+",
    "Bicycle", WB_LOSS_MISSING, FALSE,
    WB_VERDICT_SIGNED_CLEAN, NULL, NULL, "seen-again", "" },
  { "missing-but-counted", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Bicycle", NULL, NULL, NULL, "+",
    "Bicycle", WB_LOSS_MISSING, FALSE,
    WB_VERDICT_SIGNED_CLEAN, NULL, NULL, "counted-in", "" },
  { "table-legs", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table legs", NULL, NULL, NULL, NULL,
    "Table leg, 1", WB_LOSS_MISSING, FALSE, WB_VERDICT_NEW, NULL, "h1", "no-count",
    "signed-clean" },
  { "table-legs-counted", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "4 Table legs", NULL, NULL, NULL, NULL,
    "Table leg, 1", WB_LOSS_MISSING, FALSE,
    WB_VERDICT_SIGNED_CLEAN, NULL, NULL, "signed-clean", "" },
  { "internal", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Washer", NULL, "SC 4", NULL, NULL,
    "Washer does not run", WB_LOSS_DAMAGED, FALSE,
    WB_VERDICT_NEW, NULL, "h1", "internal", "signed-clean" },
  { "not-listed", WB_FORM_CARTON, WB_PACKED_BY_CARRIER, "Dish pack", "Plates, cups", NULL, NULL,
    NULL, "Garden bench", WB_LOSS_MISSING, TRUE,
    WB_VERDICT_NOT_LISTED, NULL, NULL, "not-listed", "" },
  { "in-a-carton-of-the-owner", WB_FORM_CARTON, WB_PACKED_BY_OWNER, "Dish pack", "Plates, cups",
    NULL, NULL, NULL, "Dinner plates, 4", WB_LOSS_MISSING, TRUE,
    WB_VERDICT_NOT_LISTED, NULL, NULL, "not-listed", "" },
  { "perhaps-in-a-carton", WB_FORM_CARTON, WB_PACKED_BY_CARRIER, "Dish pack", "Plates, cups", NULL,
    NULL, NULL, "Dinner plates, 4", WB_LOSS_MISSING, TRUE,
    WB_VERDICT_UNDECIDED, NULL, NULL, "likely-carton", "not-listed" },
};

static WbHandover *
add_handover (ClaimFixture   *fixture,
              const char     *id,
              WbHandoverKind  kind,
              const char     *from,
              const char     *to)
{
  WbHandover *handover = claim_add (fixture, WB_KIND_HANDOVER, id);

  handover->kind = kind;
  wb_set_text (&handover->from_holder, from);
  wb_set_text (&handover->to_holder, to);
  wb_set_text (&handover->from_signed, from);
  wb_set_text (&handover->to_signed, to);
  return handover;
}

static WbFinding *
add_finding (ClaimFixture *fixture,
             const char   *handover,
             const char   *what)
{
  g_autofree char *id = g_strconcat ("f-", handover, NULL);
  WbFinding *finding;

  if (what == NULL)
    return NULL;

  finding = claim_add (fixture, WB_KIND_FINDING, id);
  wb_set_text (&finding->handover, handover);
  wb_set_text (&finding->piece, "p");
  if (g_str_equal (what, "-"))
    finding->found = WB_FOUND_SHORT;
  else if (!g_str_equal (what, "+"))
    wb_set_text (&finding->marks, what);
  return finding;
}

static WbClaimLine *
build (ClaimFixture *fixture,
       const Trial  *trial)
{
  WbPiece *piece;
  WbClaimLine *line;

  add_handover (fixture, "h1", WB_HANDOVER_PICKUP, "Ida Brook", "Crew of Hal Moss");
  add_handover (fixture, "h2", WB_HANDOVER_INTO_STORAGE, "Crew of Hal Moss", "Quarry Warehouse");
  add_handover (fixture, "h3", WB_HANDOVER_DELIVERY, "Quarry Warehouse", "Ida Brook");
  piece = claim_add_piece (fixture, "p", trial->form, 100);
  piece->packed_by = trial->packed_by;
  wb_set_text (&piece->description, trial->description);
  wb_set_text (&piece->contents, trial->contents);
  wb_set_text (&piece->marks, trial->origin);
  add_finding (fixture, "h2", trial->warehouse);
  add_finding (fixture, "h3", trial->delivery);
  line = claim_add_line (fixture, trial->no_piece ? NULL : "p", trial->loss, 100, 0);
  wb_set_text (&line->item, trial->item);
  return line;
}

/* The job as it stands; must be good. */
static WbJob *
make_job (ClaimFixture *fixture)
{
  WbJob *job = wb_job_with_many (fixture->empty, fixture->records);
  g_autoptr (GError) error = NULL;

  wb_job_check (job, &error);
  g_assert_no_error (error);
  return job;
}

static WbProposal *
propose (ClaimFixture *fixture)
{
  g_autoptr (WbJob) job = make_job (fixture);

  return wb_propose (fixture->terms, job, wb_job_nth (job, WB_KIND_CLAIM_LINE, 0), NULL);
}

static char *
list_bearing (const WbProposal *proposal,
              WbBearing         bearing)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < proposal->proofs->len; i++)
    {
      const WbProof *proof = g_ptr_array_index (proposal->proofs, i);

      if (proof->bearing == bearing)
        g_string_append_printf (out, "%s%s", out->len > 0 ? " " : "",
                                wb_enum_nick (&wb_proof_rules, (int) proof->rule));
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static const WbProof *
find_proof (const WbProposal *proposal,
            WbProofRule       rule)
{
  for (guint i = 0; i < proposal->proofs->len; i++)
    {
      const WbProof *proof = g_ptr_array_index (proposal->proofs, i);

      if (proof->rule == rule)
        return proof;
    }
  return NULL;
}

static void
test_trial (gconstpointer data)
{
  const Trial *trial = data;
  ClaimFixture fixture = { NULL };
  g_autoptr (WbProposal) proposal = NULL;
  g_autofree char *decides = NULL;
  g_autofree char *against = NULL;
  g_autofree char *text = NULL;

  claim_set_up (&fixture, NULL);
  build (&fixture, trial);
  proposal = propose (&fixture);
  text = wb_proposal_to_text (proposal);
  g_test_message ("%s", text);
  decides = list_bearing (proposal, WB_BEARING_DECIDES);
  against = list_bearing (proposal, WB_BEARING_AGAINST);
  g_assert_cmpstr (wb_enum_nick (&wb_verdicts, (int) proposal->verdict), ==,
                   wb_enum_nick (&wb_verdicts, (int) trial->verdict));
  g_assert_cmpstr (decides, ==, trial->decides);
  g_assert_cmpstr (against, ==, trial->against);
  g_assert_cmpstr (proposal->noted_at, ==, trial->noted_at);
  g_assert_cmpstr (proposal->since, ==, trial->since);
  claim_tear_down (&fixture, NULL);
}

/* --- what the trials do not vary -------------------------------------------------------------- */

static const Trial plain = { .form = WB_FORM_LOOSE, .description = "Table", .delivery = "BR 6",
                             .item = "Table, leg broken", .loss = WB_LOSS_DAMAGED };

#define BARRED TERMS_HEAD \
  "[claims]\nclaim-within = 9 months\nlate-claim = barred\nnotice-within = 10 days\n" \
  "[full]\nshipment-minimum = 6000.00\nextraordinary-rate = 1.00 per lb\n"
#define ACTUAL TERMS_HEAD \
  "[claims]\nclaim-within = 9 months\nlate-claim = actual-value\nlate-until = 2 years\n" \
  "[full]\nshipment-minimum = 6000.00\n"

/* Goods delivered on 10 March 2024: the last day to claim is 10 December. */
static void
check_late (const char *terms,
            const char *received,
            WbVerdict   verdict,
            WbProofRule rule,
            const char *last_day)
{
  ClaimFixture fixture = { NULL };
  g_autoptr (WbProposal) proposal = NULL;
  g_autofree char *date = NULL;
  WbClaim *claim;

  claim_set_up_with (&fixture, terms);
  build (&fixture, &plain);
  claim = claim_find (&fixture, WB_KIND_CLAIM);
  g_assert_true (wb_date_parse (received, &claim->received_on, NULL));
  proposal = propose (&fixture);
  g_assert_cmpint (proposal->verdict, ==, verdict);
  if (last_day == NULL)
    {
      g_assert_null (find_proof (proposal, WB_PROOF_LATE));
      g_assert_null (find_proof (proposal, WB_PROOF_TOO_LATE));
    }
  else
    {
      date = wb_date_to_text (&find_proof (proposal, rule)->date);
      g_assert_cmpstr (date, ==, last_day);
    }
  claim_tear_down (&fixture, NULL);
}

static void
test_late (void)
{
  check_late (BARRED, "2024-12-10", WB_VERDICT_NEW, WB_PROOF_LATE, NULL);
  check_late (BARRED, "2024-12-11", WB_VERDICT_TOO_LATE, WB_PROOF_TOO_LATE, "2024-12-10");
  check_late (ACTUAL, "2024-12-11", WB_VERDICT_NEW, WB_PROOF_LATE, "2024-12-10");
  check_late (ACTUAL, "2026-03-10", WB_VERDICT_NEW, WB_PROOF_LATE, "2024-12-10");
  check_late (ACTUAL, "2026-03-11", WB_VERDICT_TOO_LATE, WB_PROOF_TOO_LATE, "2026-03-10");
  check_late (TERMS_HEAD TERMS_USUAL, "2024-12-11", WB_VERDICT_NEW, WB_PROOF_LATE, "2024-12-10");
}

/* A claim without a day of receipt is judged by today, and without today not at all. */
static void
test_today (void)
{
  ClaimFixture fixture = { NULL };
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbProposal) without = NULL;
  g_autoptr (WbProposal) with = NULL;
  WbClaim *claim;
  GDate today;

  claim_set_up_with (&fixture, BARRED);
  build (&fixture, &plain);
  claim = claim_find (&fixture, WB_KIND_CLAIM);
  g_date_clear (&claim->received_on, 1);
  job = make_job (&fixture);
  g_assert_true (wb_date_parse ("2025-01-01", &today, NULL));
  without = wb_propose (fixture.terms, job, wb_job_nth (job, WB_KIND_CLAIM_LINE, 0), NULL);
  with = wb_propose (fixture.terms, job, wb_job_nth (job, WB_KIND_CLAIM_LINE, 0), &today);
  g_assert_cmpint (without->verdict, ==, WB_VERDICT_NEW);
  g_assert_cmpint (with->verdict, ==, WB_VERDICT_TOO_LATE);
  claim_tear_down (&fixture, NULL);
}

/* A notice in time is enough, even when the claim came after the last day of notice. */
static void
test_notice (ClaimFixture  *fixture,
             gconstpointer  data)
{
  g_autoptr (WbProposal) late = NULL;
  g_autoptr (WbProposal) noticed = NULL;
  WbClaimStep *step;

  wb_terms_unref (fixture->terms);
  fixture->terms = claim_parse_terms (BARRED);
  build (fixture, &plain);
  late = propose (fixture);
  g_assert_nonnull (find_proof (late, WB_PROOF_LATE_NOTICE));
  g_assert_cmpint (late->verdict, ==, WB_VERDICT_NEW);

  step = claim_add (fixture, WB_KIND_STEP, "s1");
  wb_set_text (&step->claim, "claim");
  step->kind = WB_STEP_NOTICE;
  g_assert_true (wb_date_parse ("2024-03-20", &step->on, NULL));
  noticed = propose (fixture);
  g_assert_null (find_proof (noticed, WB_PROOF_LATE_NOTICE));
}

/* A note about this piece decides; one about the whole load only points at it. */
static void
test_defences (void)
{
  static const struct { const char *finding, *handover, *notes; WbVerdict verdict; } cases[] = {
    { "Hurricane: the warehouse stood in water", NULL, NULL, WB_VERDICT_DEFENCE },
    { NULL, "Flooded road, two days late", NULL, WB_VERDICT_NEW },
    { NULL, NULL, "Owner says lightning", WB_VERDICT_NEW },
    { "Seized at the border", NULL, NULL, WB_VERDICT_DEFENCE },
    { "Bulbs rotted", NULL, NULL, WB_VERDICT_DEFENCE },
    { "Unseized, undefended", NULL, NULL, WB_VERDICT_NEW },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      ClaimFixture fixture = { NULL };
      g_autoptr (WbProposal) proposal = NULL;
      WbFinding *finding;
      Trial trial = plain;

      trial.item = "Table";
      trial.delivery = "BR 6";
      claim_set_up (&fixture, NULL);
      wb_set_text (&build (&fixture, &trial)->notes, cases[i].notes);
      finding = claim_find (&fixture, WB_KIND_FINDING);
      wb_set_text (&finding->notes, cases[i].finding);
      wb_set_text (&((WbHandover *) claim_find (&fixture, WB_KIND_HANDOVER))->notes,
                   cases[i].handover);
      proposal = propose (&fixture);
      g_assert_cmpint (proposal->verdict, ==, cases[i].verdict);
      claim_tear_down (&fixture, NULL);
    }
}

/* An exception that the giver did not sign is told of. */
static void
test_unsigned (ClaimFixture  *fixture,
               gconstpointer  data)
{
  g_autoptr (WbProposal) signed_all = NULL;
  g_autoptr (WbProposal) unsigned_giver = NULL;
  const WbProof *proof;

  build (fixture, &plain);
  signed_all = propose (fixture);
  g_assert_null (find_proof (signed_all, WB_PROOF_GIVER_UNSIGNED));
  for (guint i = 0; i < fixture->records->len; i++)
    {
      WbRecord *record = g_ptr_array_index (fixture->records, i);

      if (record->type->kind == WB_KIND_HANDOVER)
        wb_set_text (&((WbHandover *) record)->from_signed, NULL);
    }
  unsigned_giver = propose (fixture);
  proof = find_proof (unsigned_giver, WB_PROOF_GIVER_UNSIGNED);
  g_assert_nonnull (proof);
  g_assert_cmpstr (proof->handover, ==, "h3");
  g_assert_cmpstr (proof->record, ==, "h3");
  g_assert_cmpint (unsigned_giver->verdict, ==, WB_VERDICT_NEW);
}

static void
add_pin (ClaimFixture *fixture,
         const char   *photo_id,
         WbMoment      moment,
         const char   *marks)
{
  g_autofree char *id = g_strconcat ("pin-", photo_id, NULL);
  WbPhoto *photo = claim_add (fixture, WB_KIND_PHOTO, photo_id);
  WbPin *pin = claim_add (fixture, WB_KIND_PIN, id);

  photo->moment = moment;
  g_free (photo->hash);
  photo->hash = g_strnfill (64, *photo_id);
  wb_set_text (&photo->piece, "p");
  wb_set_text (&pin->photo, photo_id);
  pin->x = 5000;
  pin->y = 5000;
  wb_set_text (&pin->marks, marks);
}

/* Photos speak by their pins: those from after say what is claimed, those from before what was
 * there. */
static void
test_photos (ClaimFixture  *fixture,
             gconstpointer  data)
{
  g_autoptr (WbProposal) after = NULL;
  g_autoptr (WbProposal) both = NULL;
  Trial trial = plain;

  trial.item = "Table";
  trial.delivery = NULL;
  build (fixture, &trial);
  add_pin (fixture, "a", WB_MOMENT_CLAIM, "CH 3");
  after = propose (fixture);
  g_assert_cmpstr (after->claimed, ==, "CH 3");
  g_assert_cmpint (after->verdict, ==, WB_VERDICT_SIGNED_CLEAN);
  g_assert_nonnull (find_proof (after, WB_PROOF_PHOTOS_AFTER));

  add_pin (fixture, "b", WB_MOMENT_ORIGIN, "CH 3-4");
  both = propose (fixture);
  g_assert_cmpint (both->verdict, ==, WB_VERDICT_ALREADY_THERE);
  g_assert_cmpstr (find_proof (both, WB_PROOF_ORIGIN_PHOTO)->record, ==, "pin-b");
  g_assert_nonnull (find_proof (both, WB_PROOF_PHOTOS_BOTH));
  g_assert_null (find_proof (both, WB_PROOF_PHOTOS_AFTER));
}

/* Facts that decide nothing: sets, parts, listed values, packing checks, mildew, weights. */
static void
test_rest (ClaimFixture  *fixture,
           gconstpointer  data)
{
  static const WbProofRule expected[] = {
    WB_PROOF_SET, WB_PROOF_PARTS, WB_PROOF_VALUE_LISTED, WB_PROOF_RULE_UNMET, WB_PROOF_MILDEW,
    WB_PROOF_WEIGHT_PIECE,
  };
  g_autoptr (WbProposal) proposal = NULL;
  Trial trial = { .form = WB_FORM_CARTON, .packed_by = WB_PACKED_BY_CARRIER,
                  .description = "Carton", .contents = "Curtains", .warehouse = "MI",
                  .item = "Curtains", .loss = WB_LOSS_DAMAGED };
  WbPiece *piece, *other;
  WbPackingCheck *check;

  build (fixture, &trial);
  ((WbValuation *) claim_find (fixture, WB_KIND_VALUATION))->high_value_list = TRUE;
  piece = claim_find (fixture, WB_KIND_PIECE);
  wb_set_text (&piece->set, "curtains");
  wb_set_text (&piece->article, "curtains");
  piece->listed_value = dollars (900);
  other = claim_add_piece (fixture, "q", WB_FORM_CARTON, 10);
  wb_set_text (&other->set, "curtains");
  wb_set_text (&other->article, "curtains");
  check = claim_add (fixture, WB_KIND_PACKING_CHECK, "k1");
  wb_set_text (&check->piece, "p");
  wb_set_text (&check->rule, "sealed");
  check->state = WB_CHECK_UNMET;
  proposal = propose (fixture);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      const WbProof *proof = find_proof (proposal, expected[i]);

      g_assert_nonnull (proof);
      g_assert_cmpint (proof->bearing, ==, WB_BEARING_INFORMS);
      g_assert_true (proof->has_record);
    }
  /* The finding at the warehouse shows that somebody looked. */
  g_assert_null (find_proof (proposal, WB_PROOF_UNCOUNTED));
}

/* Worth more than the rate for extraordinary value, and nobody signed a list. */
static void
test_unlisted_value (void)
{
  ClaimFixture fixture = { NULL };
  g_autoptr (WbProposal) under = NULL;
  g_autoptr (WbProposal) over = NULL;
  WbClaimLine *line;

  claim_set_up_with (&fixture, BARRED);
  line = build (&fixture, &plain);
  under = propose (&fixture);
  g_assert_null (find_proof (under, WB_PROOF_VALUE_UNLISTED));
  line->replacement = wb_money (10001, "USD");
  over = propose (&fixture);
  g_assert_nonnull (find_proof (over, WB_PROOF_VALUE_UNLISTED));
  claim_tear_down (&fixture, NULL);
}

/* Every fact is in the table once, with a source where it says that it was read in one. */
static void
test_table (void)
{
  g_assert_cmpuint (wb_proof_rules.n_values, ==, WB_N_PROOF_RULES);
  for (int rule = 0; rule < WB_N_PROOF_RULES; rule++)
    {
      const WbEnumValue *row = wb_enum_find (&wb_proof_rules, rule);

      g_assert_nonnull (row);
      g_assert_true (wb_enum_find_nick (&wb_proof_rules, row->nick) == row);
      g_assert_cmpstr (row->label, !=, "");
    }
}

/* What the words of a line say of damage: codes where a line has nothing else, else plain words,
 * clause by clause. */
static void
test_claimed (void)
{
  static const struct { const char *item, *notes, *claimed; } cases[] = {
    { "Piano, case gouged, veneer cracked", NULL, "G, Z 11" },
    { "Top scratched; leg broken", NULL, "SC 10, BR 6" },
    { "Legs and back broken, scratches", NULL, "BR 6-7, SC" },
    { "SC 4-8, CH 3 10; MCU", NULL, "SC 4-8, CH 3-10, MCU" },
    { "Table", "BR 6\nSeen on the day", "BR 6" },
    { "Table, leg broken", "BR 6-3", "BR 6-3" },
    { "So", "d", NULL },
    { "Loose change, short of two coins", NULL, NULL },
    { "Unbroken, brokenhearted", NULL, NULL },
    { "Küche: Tür cracked", "", "Z" },
    { NULL, NULL, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      ClaimFixture fixture = { NULL };
      g_autoptr (WbProposal) proposal = NULL;
      Trial trial = plain;
      WbClaimLine *line;

      trial.item = cases[i].item;
      claim_set_up (&fixture, NULL);
      line = build (&fixture, &trial);
      wb_set_text (&line->notes, cases[i].notes);
      proposal = propose (&fixture);
      g_assert_cmpstr (proposal->claimed, ==, cases[i].claimed);
      claim_tear_down (&fixture, NULL);
    }
}

/* A number of things noted beside the description is a count too. */
static void
test_quantity (ClaimFixture  *fixture,
               gconstpointer  data)
{
  g_autoptr (WbProposal) without = NULL;
  g_autoptr (WbProposal) with = NULL;
  Trial trial = { .form = WB_FORM_LOOSE, .description = "Table legs", .item = "Table leg",
                  .loss = WB_LOSS_MISSING };

  build (fixture, &trial);
  without = propose (fixture);
  g_assert_nonnull (find_proof (without, WB_PROOF_NO_COUNT));
  ((WbPiece *) claim_find (fixture, WB_KIND_PIECE))->quantity = 4;
  with = propose (fixture);
  g_assert_null (find_proof (with, WB_PROOF_NO_COUNT));
}

/* To accept needs no reason, to override does; both stay in the line, and the ruling is not
 * touched. */
static void
test_judge (ClaimFixture  *fixture,
            gconstpointer  data)
{
  WbClaimLine *line = build (fixture, &plain);
  g_autoptr (WbProposal) proposal = NULL;
  g_autoptr (WbClaimLine) accepted = NULL;
  g_autoptr (WbClaimLine) overridden = NULL;
  g_autoptr (WbClaimLine) back = NULL;
  g_autoptr (GError) error = NULL;

  line->ruling = WB_RULING_ALLOWED;
  proposal = propose (fixture);
  accepted = wb_proposal_judge (proposal, line, WB_VERDICT_NEW, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (accepted->proposed, ==, WB_VERDICT_NEW);
  g_assert_cmpint (accepted->verdict, ==, WB_VERDICT_NEW);
  g_assert_null (accepted->verdict_reason);

  g_assert_null (wb_proposal_judge (proposal, line, WB_VERDICT_DEFENCE, " ", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_clear_error (&error);
  overridden = wb_proposal_judge (proposal, accepted, WB_VERDICT_DEFENCE, "The flood of May",
                                  &error);
  g_assert_no_error (error);
  g_assert_cmpint (overridden->proposed, ==, WB_VERDICT_NEW);
  g_assert_cmpint (overridden->verdict, ==, WB_VERDICT_DEFENCE);
  g_assert_cmpstr (overridden->verdict_reason, ==, "The flood of May");
  g_assert_cmpint (overridden->ruling, ==, WB_RULING_ALLOWED);

  back = wb_proposal_judge (proposal, overridden, WB_VERDICT_NONE, "never mind", &error);
  g_assert_true (wb_record_equal (back, line));
}

/* With no handover, no piece and no words there is still an answer. */
static void
test_nothing (ClaimFixture  *fixture,
              gconstpointer  data)
{
  g_autoptr (WbProposal) proposal = NULL;

  claim_add_piece (fixture, "p", WB_FORM_LOOSE, 0);
  claim_add_line (fixture, "p", WB_LOSS_DAMAGED, 100, 0);
  proposal = propose (fixture);
  g_assert_cmpint (proposal->verdict, ==, WB_VERDICT_UNDECIDED);
  g_assert_nonnull (find_proof (proposal, WB_PROOF_NOTHING));
  g_assert_nonnull (find_proof (proposal, WB_PROOF_NO_DELIVERY));
  g_assert_null (proposal->since);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (trials); i++)
    {
      g_autofree char *path = g_strdup_printf ("/core/proposal/trial/%s", trials[i].name);

      g_test_add_data_func (path, &trials[i], test_trial);
    }
  g_test_add_func ("/core/proposal/late", test_late);
  g_test_add_func ("/core/proposal/today", test_today);
  g_test_add_func ("/core/proposal/defences", test_defences);
  g_test_add_func ("/core/proposal/unlisted-value", test_unlisted_value);
  g_test_add_func ("/core/proposal/claimed", test_claimed);
  g_test_add_func ("/core/proposal/table", test_table);
#define ADD(path, function) \
  g_test_add ("/core/proposal/" path, ClaimFixture, NULL, claim_set_up, function, claim_tear_down)
  ADD ("notice", test_notice);
  ADD ("unsigned", test_unsigned);
  ADD ("photos", test_photos);
  ADD ("rest", test_rest);
  ADD ("quantity", test_quantity);
  ADD ("judge", test_judge);
  ADD ("nothing", test_nothing);

  return g_test_run ();
}
