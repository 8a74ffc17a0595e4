/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of what each kind of step does, and its doing. Asks no clock; keeps no reckoning. */
#include "config.h"

#include "core/wb-claim-step.h"

typedef struct
{
  gboolean      sends;          /* the reckoning goes out with it */
  gboolean      acknowledges;
  gboolean      inspects;
  gboolean      decides;        /* an answer: 49 CFR 370.9(a) */
  gboolean      changes_status;
  WbClaimStatus status;
} Effect;

static const Effect effects[] = {
  [WB_STEP_ACKNOWLEDGED]   = { .acknowledges = TRUE },
  [WB_STEP_INSPECTION]     = { .inspects = TRUE },
  [WB_STEP_OFFER]          = { .sends = TRUE, .decides = TRUE, .changes_status = TRUE,
                               .status = WB_CLAIM_OFFERED },
  [WB_STEP_PARTIAL_DENIAL] = { .sends = TRUE, .decides = TRUE, .changes_status = TRUE,
                               .status = WB_CLAIM_OFFERED },
  [WB_STEP_DENIAL]         = { .sends = TRUE, .decides = TRUE, .changes_status = TRUE,
                               .status = WB_CLAIM_DECLINED },
  [WB_STEP_RELEASE]        = { .changes_status = TRUE, .status = WB_CLAIM_SETTLED },
  [WB_STEP_REOPENED]       = { .changes_status = TRUE, .status = WB_CLAIM_OPEN },
  [WB_STEP_CLOSED]         = { .changes_status = TRUE, .status = WB_CLAIM_CLOSED },
  [WB_STEP_OTHER]          = { .sends = FALSE },
};

G_STATIC_ASSERT (G_N_ELEMENTS (effects) == WB_STEP_OTHER + 1);

gboolean
wb_step_sends_reckoning (WbStepKind kind)
{
  g_return_val_if_fail ((guint) kind < G_N_ELEMENTS (effects), FALSE);

  return effects[kind].sends;
}

static void
note_day (GDate       *date,
          gboolean     applies,
          const GDate *on)
{
  if (applies && !wb_date_is_set (date))
    *date = *on;
}

/* Reopening takes the decision back: the time to answer runs on until there is another. */
static WbClaim *
claim_after (const WbClaim *before,
             WbStepKind     kind,
             const GDate   *on)
{
  const Effect *effect = &effects[kind];
  WbClaim *claim = wb_record_copy (before);

  note_day (&claim->acknowledged_on, effect->acknowledges, on);
  note_day (&claim->inspected_on, effect->inspects, on);
  note_day (&claim->decided_on, effect->decides, on);
  if (kind == WB_STEP_REOPENED)
    g_date_clear (&claim->decided_on, 1);
  if (effect->changes_status)
    claim->status = effect->status;
  return claim;
}

static WbMoney
amount_of (WbStepKind         kind,
           const WbReckoning *reckoning)
{
  const WbSideReckoning *side;

  if (reckoning == NULL || (kind != WB_STEP_OFFER && kind != WB_STEP_PARTIAL_DENIAL))
    return (WbMoney) { 0 };
  side = &reckoning->side[reckoning->applies];
  return wb_money (MAX (side->balance, 0), wb_job_get_currency (reckoning->job));
}

WbJob *
wb_claim_take_step (const WbJob       *job,
                    const char        *claim_id,
                    const char        *step_id,
                    WbStepKind         kind,
                    const GDate       *on,
                    const WbReckoning *reckoning)
{
  const WbClaim *before = wb_job_find (job, WB_KIND_CLAIM, claim_id);
  g_autoptr (WbClaim) claim = NULL;
  g_autoptr (WbClaimStep) step = NULL;
  g_autoptr (WbJob) with_claim = NULL;

  g_return_val_if_fail (before != NULL, NULL);
  g_return_val_if_fail ((guint) kind < G_N_ELEMENTS (effects), NULL);
  g_return_val_if_fail (wb_date_is_set (on), NULL);

  claim = claim_after (before, kind, on);
  step = wb_record_new (WB_KIND_STEP, step_id);
  wb_set_text (&step->claim, claim_id);
  step->kind = kind;
  step->on = *on;
  step->amount = amount_of (kind, reckoning);
  with_claim = wb_job_with (job, claim);
  return wb_job_with (with_claim, step);
}
