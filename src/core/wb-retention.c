/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Periods for which papers are kept, as a table, and the days that they end on. Destroys nothing
 * and reminds nobody. */
#include "config.h"

#include "core/wb-retention.h"

#define N_(text) text

static const WbEnumValue keep_states[] = {
  { WB_KEEP_UNTIL, "until", N_("Kept until") },
  { WB_KEEP_NO_DATE, "no-date", N_("Day not noted") },
  { WB_KEEP_CLAIM_OPEN, "claim-open", N_("Claim not settled") },
  { WB_KEEP_NO_RULE, "no-rule", N_("No period found") },
  { WB_KEEP_OTHER_RULES, "other-rules", N_("Other rules") },
};

const WbEnum wb_keep_states = { "state of keeping", keep_states, G_N_ELEMENTS (keep_states) };

#define YEARS(n) { n, WB_PERIOD_YEARS }
#define APPENDIX_A "49 CFR 379, Appendix A"

/* WbKeepRule: @period is not set where no rule was found; @supports: a claim rests on it, so that
 * it is among its supporting data. */
typedef struct
{
  WbPaperKind  kind;
  WbPeriod     period;
  WbKeepFrom   from;
  const char  *citation;
  WbSource     source;
  gboolean     supports;
} WbKeepRule;

/* The waiver of the survey goes with the bill of lading from memory; so do, by practice, the
 * statement and the list that are parts of the contract. */
static const WbKeepRule rules[] = {
  { WB_PAPER_ESTIMATE, YEARS (1), WB_KEEP_FROM_MADE,
    "49 CFR 375.403(c), 375.405(d); " APPENDIX_A, WB_SOURCE_SEEN_2015, FALSE },
  { WB_PAPER_BOOKLETS, YEARS (1), WB_KEEP_FROM_SIGNED, "49 CFR 375.213", WB_SOURCE_SEEN_2015,
    FALSE },
  { WB_PAPER_SURVEY_WAIVER, YEARS (1), WB_KEEP_FROM_MADE, "49 CFR 375.401, 375.505(d)",
    WB_SOURCE_MEMORY, FALSE },
  { WB_PAPER_BILL_OF_LADING, YEARS (1), WB_KEEP_FROM_MADE, "49 CFR 375.505(d); " APPENDIX_A,
    WB_SOURCE_SEEN_2015, TRUE },
  { WB_PAPER_INVENTORY, YEARS (1), WB_KEEP_FROM_MADE, "49 CFR 375.503(e)", WB_SOURCE_SEEN, TRUE },
  { WB_PAPER_VALUATION, YEARS (1), WB_KEEP_FROM_MADE, "49 CFR 375.505(d), as a part of the bill "
    "of lading", WB_SOURCE_PRACTICE, TRUE },
  { WB_PAPER_HIGH_VALUE_LIST, YEARS (1), WB_KEEP_FROM_MADE, "49 CFR 375.505(d), as a part of the "
    "bill of lading", WB_SOURCE_PRACTICE, TRUE },
  { WB_PAPER_WEIGHT_TICKET, YEARS (3), WB_KEEP_FROM_MADE, APPENDIX_A, WB_SOURCE_SEEN_2015, TRUE },
  { WB_PAPER_DELAY_NOTICE, YEARS (1), WB_KEEP_FROM_MADE, "49 CFR 375.605", WB_SOURCE_SEEN_2015,
    FALSE },
  { WB_PAPER_DELIVERY_RECEIPT, { 0, WB_PERIOD_NONE }, WB_KEEP_FROM_NONE, NULL, WB_SOURCE_PRACTICE,
    TRUE },
  { WB_PAPER_FREIGHT_BILL, YEARS (1), WB_KEEP_FROM_MADE, APPENDIX_A, WB_SOURCE_SEEN_2015, TRUE },
};

static const WbKeepRule pennsylvania = {
  WB_PAPER_INVENTORY, YEARS (2), WB_KEEP_FROM_MADE, "52 Pa. Code 31.133", WB_SOURCE_SEEN, TRUE
};

static const WbKeepRule register_of_claims = {
  WB_PAPER_NONE, YEARS (1), WB_KEEP_FROM_SETTLED, APPENDIX_A, WB_SOURCE_SEEN_2015, TRUE
};

static const WbKeepRule *
find_rule (WbPaperKind kind)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rules); i++)
    if (rules[i].kind == kind)
      return &rules[i];

  return NULL;
}

/* --- days ------------------------------------------------------------------------------------- */

static GDate
later_of (GDate a,
          GDate b)
{
  return wb_date_compare (&a, &b) >= 0 ? a : b;
}

static gboolean
is_settled (const WbClaim *claim)
{
  switch (claim->status)
    {
    case WB_CLAIM_OPEN:
    case WB_CLAIM_OFFERED:
      return FALSE;
    case WB_CLAIM_SETTLED:
    case WB_CLAIM_DECLINED:
    case WB_CLAIM_CLOSED:
      return TRUE;
    }
  g_return_val_if_reached (FALSE);
}

static GDate
settled_on (const WbJob   *job,
            const WbClaim *claim)
{
  GDate day = claim->decided_on;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (job, WB_KIND_PAYMENT, i);

      if (g_strcmp0 (payment->claim, claim->record.id) == 0)
        day = later_of (day, payment->on);
    }
  return day;
}

static WbKeep
keep_by (const WbKeepRule *rule,
         GDate             from)
{
  WbKeep keep = { .from = rule->from, .from_day = from, .period = rule->period,
                  .citation = rule->citation, .source = rule->source };

  if (!wb_period_is_set (rule->period))
    keep.state = WB_KEEP_NO_RULE;
  else if (!wb_date_is_set (&from) || !wb_date_add_period (&from, rule->period, &keep.until, NULL))
    keep.state = WB_KEEP_NO_DATE;
  else
    keep.state = WB_KEEP_UNTIL;
  return keep;
}

WbKeep
wb_keep_claim (const WbJob   *job,
               const WbClaim *claim)
{
  WbKeep keep = { .state = WB_KEEP_CLAIM_OPEN, .from = WB_KEEP_FROM_SETTLED,
                  .period = register_of_claims.period, .citation = register_of_claims.citation,
                  .source = register_of_claims.source };

  g_return_val_if_fail (job != NULL && claim != NULL, keep);

  return is_settled (claim) ? keep_by (&register_of_claims, settled_on (job, claim)) : keep;
}

/* --- papers ----------------------------------------------------------------------------------- */

/* What the rule for the paper alone says. */
static WbKeep
keep_alone (const WbJob   *job,
            const WbPaper *paper)
{
  const WbOrder *order = wb_job_order (job);
  const WbKeepRule *rule = NULL;
  GDate from;

  if (order->move_type == WB_MOVE_INTERSTATE)
    rule = find_rule (paper->kind);
  else if (order->move_type != WB_MOVE_INTRASTATE || g_strcmp0 (order->region, "PA") != 0
           || paper->kind != WB_PAPER_INVENTORY)
    return (WbKeep) { .state = WB_KEEP_OTHER_RULES, .source = WB_SOURCE_PRACTICE };
  else
    rule = &pennsylvania;

  if (rule == NULL)
    return (WbKeep) { .state = WB_KEEP_NO_RULE, .source = WB_SOURCE_PRACTICE };

  from = rule->from == WB_KEEP_FROM_SIGNED ? paper->signed_on : paper->made_on;
  return keep_by (rule, from);
}

/* One of two keepings of the same paper: an open claim before all, then the later day; what has no
 * day yet cannot be left to the other. */
static WbKeep
stricter_of (WbKeep alone,
             WbKeep claim)
{
  if (claim.state == WB_KEEP_CLAIM_OPEN || claim.state == WB_KEEP_NO_DATE)
    return claim;
  if (alone.state == WB_KEEP_NO_DATE)
    return alone;
  if (alone.state != WB_KEEP_UNTIL)
    return claim;

  return wb_date_compare (&claim.until, &alone.until) > 0 ? claim : alone;
}

WbKeep
wb_keep_paper (const WbJob   *job,
               const WbPaper *paper)
{
  WbKeep keep = { .state = WB_KEEP_NO_RULE };
  const WbKeepRule *rule;

  g_return_val_if_fail (job != NULL && paper != NULL, keep);

  keep = keep_alone (job, paper);
  rule = find_rule (paper->kind);
  if (rule == NULL || !rule->supports)
    return keep;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    keep = stricter_of (keep, wb_keep_claim (job, wb_job_nth (job, WB_KIND_CLAIM, i)));
  return keep;
}
