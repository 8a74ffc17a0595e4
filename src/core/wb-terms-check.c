/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the figures of one edition go together. A figure without effect is an error too:
 * whoever wrote it meant something by it, and would not be told that it does nothing. */
#include "config.h"

#include "core/wb-terms-private.h"

#include "core/wb-core.h"

typedef struct
{
  const WbTerms     *terms;
  const WbSideTerms *side;   /* NULL for general keys */
  WbScope            scope;
} Part;

static gboolean
has (const Part *part,
     WbTermsKey  key)
{
  return part->terms->entry[part->scope][key].given;
}

static guint
line_of (const Part *part,
         WbTermsKey  key)
{
  const WbTermsEntry *entry = &part->terms->entry[part->scope][key];

  return entry->given ? entry->line : part->terms->line;
}

static const char *
section_of (const Part *part)
{
  return part->scope == WB_SCOPE_FULL ? "full" : "released";
}

static gboolean
fail_at (const Part *part,
         WbTermsKey  key,
         GError    **error,
         const char *message)
{
  return wb_terms_fail (error, part->terms->file, line_of (part, key), "%s", message);
}

static gboolean
fail_no_effect (const Part *part,
                WbTermsKey  key,
                GError    **error,
                const char *needed)
{
  return wb_terms_fail (error, part->terms->file, line_of (part, key),
                        "“%s” has no effect here; expected %s with it",
                        wb_enum_nick (&wb_terms_keys, (int) key), needed);
}

/* --- claims ----------------------------------------------------------------------------------- */

/* Whether @longer ends later than @shorter, for any day that they may start on: a month has 28
 * to 31 days. */
static gboolean
is_longer (WbPeriod longer,
           WbPeriod shorter)
{
  static const char *const starts[] = { "2023-02-01", "2023-07-01", "2024-01-31" };

  for (guint i = 0; i < G_N_ELEMENTS (starts); i++)
    {
      GDate start, late, early;

      g_date_clear (&start, 1);
      g_date_clear (&late, 1);
      g_date_clear (&early, 1);
      if (!wb_date_parse (starts[i], &start, NULL)
          || !wb_date_add_period (&start, longer, &late, NULL)
          || !wb_date_add_period (&start, shorter, &early, NULL)
          || wb_date_compare (&late, &early) <= 0)
        return FALSE;
    }
  return TRUE;
}

/* What decides whether a claim is paid does not depend on a table of holidays. */
static gboolean
check_plain (const Part *part,
             WbTermsKey  key,
             WbPeriod    period,
             GError    **error)
{
  if (period.skips == WB_PERIOD_SKIPS_NONE)
    return TRUE;

  return fail_at (part, key, error,
                  "this period counts every day; expected a period without “without”");
}

static gboolean
check_claims (const Part *part,
              GError    **error)
{
  const WbTerms *terms = part->terms;

  if (!check_plain (part, WB_KEY_CLAIM_WITHIN, terms->claim_within, error)
      || !check_plain (part, WB_KEY_LATE_UNTIL, terms->late_until, error))
    return FALSE;
  if (has (part, WB_KEY_LATE_CLAIM) && !has (part, WB_KEY_CLAIM_WITHIN))
    return fail_no_effect (part, WB_KEY_LATE_CLAIM, error, "“claim-within”");
  if (terms->late_claim == WB_LATE_ACTUAL_VALUE && !has (part, WB_KEY_LATE_UNTIL))
    return fail_at (part, WB_KEY_LATE_CLAIM, error,
                    "late claims are settled at actual value, but until when is not said; expected "
                    "“late-until = …”");
  if (has (part, WB_KEY_LATE_UNTIL) && terms->late_claim != WB_LATE_ACTUAL_VALUE)
    return fail_no_effect (part, WB_KEY_LATE_UNTIL, error, "“late-claim = actual-value”");
  if (has (part, WB_KEY_LATE_UNTIL) && !is_longer (terms->late_until, terms->claim_within))
    return fail_at (part, WB_KEY_LATE_UNTIL, error,
                    "“late-until” is not longer than “claim-within”; expected a longer period from "
                    "delivery");
  if (has (part, WB_KEY_STATUS_EVERY) && !has (part, WB_KEY_DECIDE_WITHIN))
    return fail_no_effect (part, WB_KEY_STATUS_EVERY, error, "“decide-within”");
  if (has (part, WB_KEY_MEDIATE_UNTIL) && !has (part, WB_KEY_MEDIATE_WITHIN))
    return fail_no_effect (part, WB_KEY_MEDIATE_UNTIL, error, "“mediate-within”");
  return TRUE;
}

/* --- sides ------------------------------------------------------------------------------------ */

static gboolean
has_minimum (const Part *part)
{
  return has (part, WB_KEY_SHIPMENT_RATE) || has (part, WB_KEY_SHIPMENT_MINIMUM);
}

static gboolean
check_offered (const Part *part,
               GError    **error)
{
  for (guint key = 0; key < WB_N_TERMS_KEYS && !part->side->offered; key++)
    if (key != WB_KEY_OFFERED && has (part, (WbTermsKey) key))
      return wb_terms_fail (error, part->terms->file, line_of (part, (WbTermsKey) key),
                            "“%s” has no effect, because [%s] is not offered; expected “offered = "
                            "yes” with it",
                            wb_enum_nick (&wb_terms_keys, (int) key), section_of (part));
  return TRUE;
}

/* An offered choice limits what is paid somehow; full value does so by a value of the shipment. */
static gboolean
check_has_limit (const Part *part,
                 GError    **error)
{
  if (!part->side->offered || has_minimum (part) || part->side->declared_value)
    return TRUE;
  if (part->scope == WB_SCOPE_FULL)
    return fail_at (part, WB_KEY_OFFERED, error,
                    "[full] has no value of the shipment; expected “shipment-rate”, "
                    "“shipment-minimum” or “declared-value = yes” in it");
  if (has (part, WB_KEY_ARTICLE_RATE) || has (part, WB_KEY_ARTICLE_LIMIT)
      || has (part, WB_KEY_LINE_LIMIT) || has (part, WB_KEY_SHIPMENT_MAXIMUM))
    return TRUE;
  return fail_at (part, WB_KEY_OFFERED, error,
                  "[released] has no limit; expected “article-rate” or another limit in it");
}

static gboolean
check_shipment (const Part *part,
                GError    **error)
{
  const WbSideTerms *side = part->side;

  if (has (part, WB_KEY_SHIPMENT_WEIGHT) && (!wb_rate_is_set (side->shipment_rate)
                                             || wb_rate_is_by_volume (side->shipment_rate)))
    return fail_no_effect (part, WB_KEY_SHIPMENT_WEIGHT, error, "a “shipment-rate” by weight");
  if (has (part, WB_KEY_SHIPMENT_MINIMUM) && has (part, WB_KEY_SHIPMENT_MAXIMUM)
      && side->shipment_minimum.minor > side->shipment_maximum.minor)
    return fail_at (part, WB_KEY_SHIPMENT_MINIMUM, error,
                    "“shipment-minimum” is more than “shipment-maximum”; expected no more than "
                    "that");
  if (has (part, WB_KEY_BELOW_MINIMUM) && !side->declared_value)
    return fail_no_effect (part, WB_KEY_BELOW_MINIMUM, error, "“declared-value = yes”");
  if (has (part, WB_KEY_BELOW_MINIMUM) && !has_minimum (part))
    return fail_no_effect (part, WB_KEY_BELOW_MINIMUM, error,
                           "“shipment-rate” or “shipment-minimum”");
  return TRUE;
}

static gboolean
check_article (const Part *part,
               GError    **error)
{
  if (has (part, WB_KEY_EXTRAORDINARY_WEIGHT) && !has (part, WB_KEY_EXTRAORDINARY_RATE))
    return fail_no_effect (part, WB_KEY_EXTRAORDINARY_WEIGHT, error, "“extraordinary-rate”");
  return TRUE;
}

static gboolean
check_deductible (const Part *part,
                  GError    **error)
{
  const WbSideTerms *side = part->side;

  if (has (part, WB_KEY_DEDUCTIBLE_ORDER) && !side->deductible)
    return fail_no_effect (part, WB_KEY_DEDUCTIBLE_ORDER, error, "“deductible = yes”");
  if (has (part, WB_KEY_CHARGE) && !side->declared_value)
    return fail_no_effect (part, WB_KEY_CHARGE, error, "“declared-value = yes”");
  for (guint i = 0; i < side->n_charges && !side->deductible; i++)
    if (side->charges[i].deductible.minor != 0)
      return fail_at (part, WB_KEY_CHARGE, error,
                      "a charge is for a deductible, and no deductible is taken; expected "
                      "“deductible = yes” with it");
  return TRUE;
}

static gboolean
check_side (const Part *part,
            GError    **error)
{
  return check_offered (part, error)
         && check_has_limit (part, error)
         && check_shipment (part, error)
         && check_article (part, error)
         && check_deductible (part, error);
}

/* --- edition ---------------------------------------------------------------------------------- */

static gboolean
check_choices (const Part *part,
               GError    **error)
{
  const WbTerms *terms = part->terms;

  if (!terms->side[WB_SIDE_RELEASED].offered && !terms->side[WB_SIDE_FULL].offered)
    return wb_terms_fail (error, terms->file, terms->line,
                          "this edition offers neither choice; expected [released] or [full] in "
                          "it");
  if (terms->side[terms->without_waiver].offered)
    return TRUE;
  if (terms->without_waiver == WB_SIDE_FULL)
    return fail_at (part, WB_KEY_WITHOUT_WAIVER, error,
                    "without a waiver full value governs, and it is not offered; expected [full], "
                    "or “without-waiver = released” in [shipment]");
  return fail_at (part, WB_KEY_WITHOUT_WAIVER, error,
                  "without a waiver released value governs, and it is not offered; expected "
                  "[released], or “without-waiver = full”");
}

gboolean
wb_terms_check (const WbTerms *self,
                GError       **error)
{
  const Part general = { self, NULL, WB_SCOPE_GENERAL };
  const Part released = { self, &self->side[WB_SIDE_RELEASED], WB_SCOPE_RELEASED };
  const Part full = { self, &self->side[WB_SIDE_FULL], WB_SCOPE_FULL };

  return check_claims (&general, error)
         && check_side (&released, error)
         && check_side (&full, error)
         && check_choices (&general, error);
}

/* --- days ------------------------------------------------------------------------------------- */

gboolean
wb_terms_days_overlap (const WbTerms *a,
                       const WbTerms *b)
{
  gboolean a_first = wb_date_compare (&a->from, &b->from) <= 0;
  const WbTerms *first = a_first ? a : b;
  const WbTerms *second = a_first ? b : a;

  return !wb_date_is_set (&first->until) || wb_date_compare (&first->until, &second->from) >= 0;
}

char *
wb_terms_days_to_text (const WbTerms *self)
{
  g_autofree char *from = wb_date_to_text (&self->from);
  g_autofree char *until = wb_date_to_text (&self->until);

  if (wb_date_is_set (&self->until))
    return g_strdup_printf ("from %s until %s", from, until);
  return g_strdup_printf ("from %s on", from);
}
