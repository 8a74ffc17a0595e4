/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judges whether a paper that came in is a claim, and lists what it lacks. Reads no paper itself: a
 * person noted what it says. */
#include "config.h"

#include "core/wb-intake.h"

#define N_(text) text

static const WbEnumValue states[] = {
  { WB_INTAKE_NOTE, "note", N_("A note of damage, no claim") },
  { WB_INTAKE_NOTICE, "notice", N_("A notice; the claim is to come") },
  { WB_INTAKE_INCOMPLETE, "incomplete", N_("Not a claim yet") },
  { WB_INTAKE_INDEFINITE, "indefinite", N_("A claim without a definite amount") },
  { WB_INTAKE_CLAIM, "claim", N_("A claim") },
};
const WbEnum wb_intake_states = { "state of a paper", states, G_N_ELEMENTS (states) };

static const WbEnumValue gap_values[] = {
  { WB_INTAKE_GAP_SHIPMENT, "shipment", N_("Identify the shipment") },
  { WB_INTAKE_GAP_LIABILITY, "liability", N_("Hold the carrier liable") },
  { WB_INTAKE_GAP_AMOUNT, "amount", N_("Demand a definite amount") },
  { WB_INTAKE_GAP_RECEIVED, "received", N_("Day of receipt") },
  { WB_INTAKE_GAP_OTHER_CLAIM, "other-claim", N_("Proof of title") },
  { WB_INTAKE_GAP_STATEMENT, "statement", N_("Statement that it was not received") },
};
const WbEnum wb_intake_gaps = { "gap of a claim", gap_values, G_N_ELEMENTS (gap_values) };

/* What makes a paper what it is; all read in the annual edition of 2015. */
static const char *const state_citations[] = {
  [WB_INTAKE_NOTE] = "49 CFR 370.3(c)",
  [WB_INTAKE_NOTICE] = "49 CFR 370.3(c)",
  [WB_INTAKE_INCOMPLETE] = "49 CFR 370.3(b)",
  [WB_INTAKE_INDEFINITE] = "49 CFR 370.3(d)",
  [WB_INTAKE_CLAIM] = "49 CFR 370.3(b)",
};

typedef struct
{
  gboolean    bars;
  const char *citation;
} GapRow;

static const GapRow gap_rows[] = {
  [WB_INTAKE_GAP_SHIPMENT] = { TRUE, "49 CFR 370.3(b)(1)" },
  [WB_INTAKE_GAP_LIABILITY] = { TRUE, "49 CFR 370.3(b)(2)" },
  [WB_INTAKE_GAP_AMOUNT] = { TRUE, "49 CFR 370.3(b)(3), (d)" },
  [WB_INTAKE_GAP_RECEIVED] = { FALSE, "49 CFR 370.5(b)" },
  [WB_INTAKE_GAP_OTHER_CLAIM] = { FALSE, "49 CFR 370.3(e)" },
  [WB_INTAKE_GAP_STATEMENT] = { FALSE, "49 CFR 370.7(c)" },
};
G_STATIC_ASSERT (G_N_ELEMENTS (gap_rows) == G_N_ELEMENTS (gap_values));
G_STATIC_ASSERT (G_N_ELEMENTS (state_citations) == G_N_ELEMENTS (states));

static WbIntakeState
find_state (const WbClaim *claim)
{
  if (claim->notice_only)
    return WB_INTAKE_NOTICE;
  if (claim->identifies_shipment && claim->asserts_liability)
    return claim->states_amount ? WB_INTAKE_CLAIM : WB_INTAKE_INDEFINITE;
  if (claim->identifies_shipment || claim->asserts_liability || claim->states_amount)
    return WB_INTAKE_INCOMPLETE;

  return WB_INTAKE_NOTE;
}

static void
add_gap (GArray          *gaps,
         WbIntakeGapKind  kind,
         WbKind           kind_of_record,
         const char      *record)
{
  WbIntakeGap gap = { .kind = kind, .bars = gap_rows[kind].bars,
                      .kind_of_record = kind_of_record, .record = record,
                      .citation = gap_rows[kind].citation, .source = WB_SOURCE_SEEN_2015 };

  g_array_append_val (gaps, gap);
}

static gboolean
is_same_thing (const WbClaimLine *one,
               const WbClaimLine *other)
{
  g_autofree char *text = NULL;
  g_autofree char *other_text = NULL;

  if (one->piece != NULL || other->piece != NULL)
    return g_strcmp0 (one->piece, other->piece) == 0;
  if (one->item == NULL || other->item == NULL)
    return FALSE;

  text = g_utf8_casefold (one->item, -1);
  other_text = g_utf8_casefold (other->item, -1);
  return g_str_equal (text, other_text);
}

static gboolean
is_of_another (const WbClaim *one,
               const WbClaim *other)
{
  return one->claimant != NULL && other->claimant != NULL
         && g_strcmp0 (one->claimant, other->claimant) != 0;
}

const WbClaim *
wb_intake_find_conflict (const WbJob       *job,
                         const WbClaim     *claim,
                         const WbClaimLine *line)
{
  g_return_val_if_fail (job != NULL && claim != NULL && line != NULL, NULL);

  if (wb_job_count (job, WB_KIND_CLAIM) < 2)
    return NULL;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *other = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);
      const WbClaim *its = wb_job_find (job, WB_KIND_CLAIM, other->claim);

      if (its != NULL && its != claim && is_of_another (its, claim) && is_same_thing (line, other))
        return its;
    }

  return NULL;
}

static gboolean
is_whole_piece_missing (const WbClaimLine *line,
                        const WbPiece     *piece)
{
  return line->loss == WB_LOSS_MISSING && piece != NULL && piece->form == WB_FORM_LOOSE;
}

static void
add_gaps_of_lines (GArray        *gaps,
                   const WbJob   *job,
                   const WbClaim *claim)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim->record.id) != 0)
        continue;
      if (wb_intake_find_conflict (job, claim, line) != NULL)
        add_gap (gaps, WB_INTAKE_GAP_OTHER_CLAIM, WB_KIND_CLAIM_LINE, line->record.id);
      if (line->piece != NULL
          && is_whole_piece_missing (line, wb_job_find (job, WB_KIND_PIECE, line->piece)))
        add_gap (gaps, WB_INTAKE_GAP_STATEMENT, WB_KIND_CLAIM_LINE, line->record.id);
    }
}

WbIntakeState
wb_intake_look (const WbJob    *job,
                const WbClaim  *claim,
                GArray        **gaps,
                const char    **citation)
{
  WbIntakeState state;

  g_return_val_if_fail (job != NULL, WB_INTAKE_NOTE);
  g_return_val_if_fail (claim != NULL, WB_INTAKE_NOTE);

  state = find_state (claim);
  if (citation != NULL)
    *citation = state_citations[state];
  if (gaps == NULL)
    return state;

  *gaps = g_array_new (FALSE, TRUE, sizeof (WbIntakeGap));
  if (!claim->identifies_shipment)
    add_gap (*gaps, WB_INTAKE_GAP_SHIPMENT, WB_KIND_CLAIM, NULL);
  if (!claim->asserts_liability)
    add_gap (*gaps, WB_INTAKE_GAP_LIABILITY, WB_KIND_CLAIM, NULL);
  if (!claim->states_amount)
    add_gap (*gaps, WB_INTAKE_GAP_AMOUNT, WB_KIND_CLAIM, NULL);
  if (!wb_date_is_set (&claim->received_on))
    add_gap (*gaps, WB_INTAKE_GAP_RECEIVED, WB_KIND_CLAIM, NULL);
  add_gaps_of_lines (*gaps, job, claim);
  return state;
}

gboolean
wb_intake_may_pay (WbIntakeState state)
{
  switch (state)
    {
    case WB_INTAKE_CLAIM:
      return TRUE;
    case WB_INTAKE_NOTE:
    case WB_INTAKE_NOTICE:
    case WB_INTAKE_INCOMPLETE:
    case WB_INTAKE_INDEFINITE:
      break;
    }
  return FALSE;
}
