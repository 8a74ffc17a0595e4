/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One edition of a regime of liability: its closed lists, its keys with the meaning of each when
 * a file leaves it out, and the charge for a choice. Reading a file is done in wb-terms-parse.c,
 * judging it in wb-terms-check.c. */
#include "config.h"

#include "core/wb-terms.h"

#include <glib/gi18n.h>

#include "core/wb-core.h"

/* --- closed lists ----------------------------------------------------------------------------- */

static const WbEnumValue rounding_values[] = {
  { WB_ROUND_HALF_UP, "half-up", N_("to the nearest, the half up") },
  { WB_ROUND_HALF_EVEN, "half-even", N_("to the nearest, the half to the even neighbour") },
  /* Translators: how an amount is rounded. */
  { WB_ROUND_DOWN, "down", N_("down") },
  /* Translators: how an amount is rounded. */
  { WB_ROUND_UP, "up", N_("up") },
};

static const WbEnumValue measure_values[] = {
  { WB_MEASURE_REPLACEMENT, "replacement", N_("replacement cost") },
  { WB_MEASURE_ACTUAL_VALUE, "actual-value", N_("replacement cost less depreciation") },
};

static const WbEnumValue carton_values[] = {
  { WB_CARTON_ONE_ARTICLE, "one-article", N_ ("a packed carton with its contents is one article") },
  { WB_CARTON_EACH_THING, "each-thing",
    N_ ("each claimed thing in a carton is an article by its own weight") },
};

static const WbEnumValue parts_values[] = {
  { WB_PARTS_ONE_ARTICLE, "one-article", N_("the parts of a thing taken apart are one article") },
  { WB_PARTS_EACH_PIECE, "each-piece", N_("each part of a thing taken apart is an article") },
};

static const WbEnumValue sets_values[] = {
  { WB_SETS_WITH_MATES, "with-mates",
    N_ ("the sound mates of a lost or damaged piece are paid for too") },
  { WB_SETS_ONLY_PIECE, "only-piece",
    N_ ("of a set only the piece is paid for that was lost or damaged") },
};

static const WbEnumValue demand_values[] = {
  { WB_DEMAND_CAPS, "caps", N_("no more is paid than was asked") },
  { WB_DEMAND_IGNORED, "ignored", N_("the amount asked does not count") },
};

static const WbEnumValue salvage_values[] = {
  { WB_SALVAGE_DEDUCTED, "deducted", N_("the value of what the customer keeps is taken off") },
  { WB_SALVAGE_IGNORED, "ignored", N_("the value of what the customer keeps does not count") },
};

static const WbEnumValue freight_values[] = {
  { WB_FREIGHT_NOT_REFUNDED, "not-refunded", N_ ("freight is not refunded") },
  { WB_FREIGHT_BY_WEIGHT, "by-weight",
    N_ ("freight is refunded in proportion to the weight that was lost") },
  { WB_FREIGHT_ALL, "all", N_ ("all freight is refunded") },
};

static const WbEnumValue late_values[] = {
  { WB_LATE_FLAGGED, "flagged", N_("a late claim is only marked as late") },
  { WB_LATE_ACTUAL_VALUE, "actual-value", N_("a late claim is settled at actual value") },
  { WB_LATE_BARRED, "barred", N_("a late claim is not paid") },
};

static const WbEnumValue below_minimum_values[] = {
  { WB_BELOW_MINIMUM_RAISED, "raised", N_("a declared value under the minimum is raised to it") },
  { WB_BELOW_MINIMUM_KEPT, "kept", N_("a declared value under the minimum stands") },
};

static const WbEnumValue deductible_order_values[] = {
  { WB_DEDUCTIBLE_AFTER_LIMIT, "after-limit",
    N_ ("the deductible is taken after the shipment's limit") },
  { WB_DEDUCTIBLE_BEFORE_LIMIT, "before-limit",
    N_ ("the deductible is taken before the shipment's limit") },
};

static const WbEnumValue extraordinary_weight_values[] = {
  { WB_EXTRAORDINARY_ARTICLE, "article", N_("weight of the article") },
  { WB_EXTRAORDINARY_THING, "thing", N_("weight of the claimed thing itself, when it is known") },
};

/* The nicks are the keys of the file format. */
static const WbEnumValue key_values[] = {
  { WB_KEY_ROUNDING, "rounding", N_ ("Rounding") },
  { WB_KEY_WITHOUT_WAIVER, "without-waiver", N_ ("Choice without a valid waiver") },
  { WB_KEY_CONSTRUCTIVE_WEIGHT, "constructive-weight", N_ ("Constructive weight per cubic foot") },
  { WB_KEY_CARTON, "carton", N_ ("Cartons") },
  { WB_KEY_PARTS, "parts", N_ ("Things taken apart") },
  { WB_KEY_SETS, "sets", N_ ("Pairs and sets") },
  { WB_KEY_DEMAND, "demand", N_ ("Amount asked") },
  { WB_KEY_SALVAGE, "salvage", N_ ("Salvage") },
  { WB_KEY_DEPRECIATION_MAXIMUM, "depreciation-maximum", N_ ("Most depreciation") },
  { WB_KEY_FREIGHT_PARTIAL_LOSS, "freight-partial-loss", N_ ("Freight after a partial loss") },
  { WB_KEY_FREIGHT_TOTAL_LOSS, "freight-total-loss", N_ ("Freight after a total loss") },
  { WB_KEY_CLAIM_WITHIN, "claim-within", N_ ("Time to claim") },
  { WB_KEY_LATE_CLAIM, "late-claim", N_ ("Late claim") },
  { WB_KEY_LATE_UNTIL, "late-until", N_ ("End of late claims") },
  { WB_KEY_NOTICE_WITHIN, "notice-within", N_ ("Time to give notice of loss") },
  { WB_KEY_ACKNOWLEDGE_WITHIN, "acknowledge-within", N_ ("Time to acknowledge a claim") },
  { WB_KEY_DECIDE_WITHIN, "decide-within", N_ ("Time to pay, decline or offer") },
  { WB_KEY_STATUS_EVERY, "status-every", N_ ("Time between reports on an open claim") },
  { WB_KEY_SUIT_WITHIN, "suit-within", N_ ("Time to sue") },
  { WB_KEY_INSPECT_WITHIN, "inspect-within", N_ ("Time to inspect") },
  { WB_KEY_MEDIATE_WITHIN, "mediate-within", N_ ("Time to ask for mediation") },
  { WB_KEY_MEDIATE_UNTIL, "mediate-until", N_ ("End of mediation") },
  { WB_KEY_ARBITRATE_WITHIN, "arbitrate-within", N_ ("Time to decide in arbitration") },
  { WB_KEY_COLLECT_SALVAGE_WITHIN, "collect-salvage-within", N_ ("Time to collect salvage") },
  { WB_KEY_TRANSFER_AFTER, "transfer-after", N_ ("Time until a claim may be transferred") },
  { WB_KEY_FEES_WITHIN, "fees-within", N_ ("Time to claim with a right to attorney fees") },
  { WB_KEY_BILL_WITHIN, "bill-within", N_ ("Time to present the freight bill") },
  { WB_KEY_CONTEST_BILL_WITHIN, "contest-bill-within", N_ ("Time to contest the freight bill") },
  { WB_KEY_OFFERED, "offered", N_ ("Choice offered") },
  { WB_KEY_MEASURE, "measure", N_ ("Measure of a loss") },
  { WB_KEY_ARTICLE_RATE, "article-rate", N_ ("Limit by the weight of an article") },
  { WB_KEY_ARTICLE_LIMIT, "article-limit", N_ ("Limit for an article") },
  { WB_KEY_LINE_LIMIT, "line-limit", N_ ("Limit for a claim line") },
  { WB_KEY_SHIPMENT_RATE, "shipment-rate",
    N_ ("Least value of a shipment by its weight or volume") },
  { WB_KEY_SHIPMENT_WEIGHT, "shipment-weight", N_ ("Weight of the shipment that counts") },
  { WB_KEY_SHIPMENT_MINIMUM, "shipment-minimum", N_ ("Least value of any shipment") },
  { WB_KEY_SHIPMENT_MAXIMUM, "shipment-maximum", N_ ("Most that is paid for a shipment") },
  { WB_KEY_DECLARED_VALUE, "declared-value", N_ ("Declared value counts") },
  { WB_KEY_BELOW_MINIMUM, "below-minimum", N_ ("Declared value under the minimum") },
  { WB_KEY_DEDUCTIBLE, "deductible", N_ ("Deductible counts") },
  { WB_KEY_DEDUCTIBLE_ORDER, "deductible-order", N_ ("When the deductible is taken") },
  { WB_KEY_EXTRAORDINARY_RATE, "extraordinary-rate",
    N_ ("Limit of an unlisted article of extraordinary value") },
  { WB_KEY_EXTRAORDINARY_WEIGHT, "extraordinary-weight",
    N_ ("Weight that counts for extraordinary value") },
  { WB_KEY_CHARGE, "charge", N_ ("Charge for the choice") },
};

G_STATIC_ASSERT (G_N_ELEMENTS (key_values) == WB_N_TERMS_KEYS);

#define LIST(name, values) { name, values, G_N_ELEMENTS (values) }

const WbEnum wb_roundings = LIST ("rounding", rounding_values);
const WbEnum wb_measures = LIST ("measure", measure_values);
const WbEnum wb_carton_rules = LIST ("carton", carton_values);
const WbEnum wb_parts_rules = LIST ("parts", parts_values);
const WbEnum wb_sets_rules = LIST ("sets", sets_values);
const WbEnum wb_demand_rules = LIST ("demand", demand_values);
const WbEnum wb_salvage_rules = LIST ("salvage", salvage_values);
const WbEnum wb_freight_rules = LIST ("freight", freight_values);
const WbEnum wb_late_rules = LIST ("late-claim", late_values);
const WbEnum wb_below_minimum_rules = LIST ("below-minimum", below_minimum_values);
const WbEnum wb_deductible_orders = LIST ("deductible-order", deductible_order_values);
const WbEnum wb_extraordinary_weights = LIST ("extraordinary-weight", extraordinary_weight_values);
const WbEnum wb_terms_keys = LIST ("key", key_values);

/* --- what silence means ----------------------------------------------------------------------- */

/* Where a file is silent the program takes what the statute takes, or else what costs the
 * customer nothing: full value without a waiver, no limit, no deduction, no time that runs out.
 * Only a refund of freight needs a rule that gives it. */
static const char *const silent_meanings[] = {
  [WB_KEY_ROUNDING] = N_("Amounts are rounded to the nearest, the half up."),
  [WB_KEY_WITHOUT_WAIVER] = N_("Without a valid waiver full value governs."),
  [WB_KEY_CONSTRUCTIVE_WEIGHT] = N_("No weight is taken from a volume."),
  [WB_KEY_CARTON] = N_("A packed carton with its contents is one article."),
  [WB_KEY_PARTS] = N_("The parts of a thing taken apart are one article."),
  [WB_KEY_SETS] = N_("The sound mates of a lost or damaged piece are paid for too."),
  [WB_KEY_DEMAND] = N_("No more is paid than was asked."),
  [WB_KEY_SALVAGE] = N_("The value of what the customer keeps is taken off."),
  [WB_KEY_DEPRECIATION_MAXIMUM] = N_("Depreciation may take all of the value."),
  [WB_KEY_FREIGHT_PARTIAL_LOSS] = N_("No freight is refunded when a part is lost."),
  [WB_KEY_FREIGHT_TOTAL_LOSS] = N_("No freight is refunded when everything is lost."),
  [WB_KEY_CLAIM_WITHIN] = N_("There is no last day to claim."),
  [WB_KEY_LATE_CLAIM] = N_("A late claim is only marked as late."),
  [WB_KEY_LATE_UNTIL] = N_("There is no second last day to claim."),
  [WB_KEY_NOTICE_WITHIN] = N_("There is no last day to give notice of loss."),
  [WB_KEY_ACKNOWLEDGE_WITHIN] = N_("There is no last day to acknowledge a claim."),
  [WB_KEY_DECIDE_WITHIN] = N_("There is no last day to pay, decline or make an offer."),
  [WB_KEY_STATUS_EVERY] = N_("No reports on an open claim are due."),
  [WB_KEY_SUIT_WITHIN] = N_("There is no last day to sue."),
  [WB_KEY_INSPECT_WITHIN] = N_("There is no last day to inspect."),
  [WB_KEY_MEDIATE_WITHIN] = N_("There is no last day to ask for mediation."),
  [WB_KEY_MEDIATE_UNTIL] = N_("Mediation is not cut short by the age of the claim."),
  [WB_KEY_ARBITRATE_WITHIN] = N_("There is no last day to decide in arbitration."),
  [WB_KEY_COLLECT_SALVAGE_WITHIN] = N_("There is no last day to collect salvage."),
  [WB_KEY_TRANSFER_AFTER] = N_("A claim cannot be transferred to another office."),
  [WB_KEY_FEES_WITHIN] = N_("No time to claim decides about attorney fees."),
  [WB_KEY_BILL_WITHIN] = N_("There is no last day to present the freight bill."),
  [WB_KEY_CONTEST_BILL_WITHIN] = N_("There is no last day to contest the freight bill."),
  [WB_KEY_OFFERED] = N_("The choice is offered when the file has its section."),
  [WB_KEY_MEASURE] = N_("A loss is measured by replacement cost."),
  [WB_KEY_ARTICLE_RATE] = N_("The weight of an article sets no limit."),
  [WB_KEY_ARTICLE_LIMIT] = N_("There is no flat limit for an article."),
  [WB_KEY_LINE_LIMIT] = N_("There is no flat limit for a claim line."),
  [WB_KEY_SHIPMENT_RATE] = N_("The weight of the shipment sets no least value."),
  [WB_KEY_SHIPMENT_WEIGHT] = N_("The net weight of the shipment counts."),
  [WB_KEY_SHIPMENT_MINIMUM] = N_("There is no flat least value of a shipment."),
  [WB_KEY_SHIPMENT_MAXIMUM] = N_("There is no flat limit for a shipment."),
  [WB_KEY_DECLARED_VALUE] = N_("A declared value does not count."),
  [WB_KEY_BELOW_MINIMUM] = N_("A declared value under the minimum is raised to it."),
  [WB_KEY_DEDUCTIBLE] = N_("No deductible is taken."),
  [WB_KEY_DEDUCTIBLE_ORDER] = N_("The deductible is taken after the shipment's limit."),
  [WB_KEY_EXTRAORDINARY_RATE] = N_("Articles of extraordinary value have no limit of their own."),
  [WB_KEY_EXTRAORDINARY_WEIGHT] = N_("The weight of the article counts for extraordinary value."),
  [WB_KEY_CHARGE] = N_("The terms list no charge for the choice."),
};

G_STATIC_ASSERT (G_N_ELEMENTS (silent_meanings) == WB_N_TERMS_KEYS);

const char *
wb_terms_silent_meaning (WbTermsKey key)
{
  g_return_val_if_fail ((guint) key < WB_N_TERMS_KEYS, NULL);

  return silent_meanings[key];
}

/* --- one edition ------------------------------------------------------------------------------ */

static void
free_terms (WbTerms *self)
{
  for (guint scope = 0; scope < WB_N_SCOPES; scope++)
    for (guint key = 0; key < WB_N_TERMS_KEYS; key++)
      g_free (self->entry[scope][key].citation);

  g_free (self->regime);
  g_free (self->title);
  g_free (self->file);
  g_free (self->digest);
  g_bytes_unref (self->text);
  g_free (self->region);
  g_free (self);
}

WbTerms *
wb_terms_ref (WbTerms *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_terms_unref (WbTerms *self)
{
  g_return_if_fail (self != NULL);

  if (g_atomic_ref_count_dec (&self->references))
    free_terms (self);
}

static const WbTermsEntry *
find_entry (const WbTerms *self,
            WbScope        scope,
            WbTermsKey     key)
{
  g_return_val_if_fail (self != NULL, NULL);
  g_return_val_if_fail ((guint) scope < WB_N_SCOPES && (guint) key < WB_N_TERMS_KEYS, NULL);

  return &self->entry[scope][key];
}

const char *
wb_terms_citation (const WbTerms *self,
                   WbScope        scope,
                   WbTermsKey     key)
{
  const WbTermsEntry *entry = find_entry (self, scope, key);

  return entry != NULL ? entry->citation : NULL;
}

gboolean
wb_terms_is_given (const WbTerms *self,
                   WbScope        scope,
                   WbTermsKey     key)
{
  const WbTermsEntry *entry = find_entry (self, scope, key);

  return entry != NULL && entry->given;
}

/* --- charge ----------------------------------------------------------------------------------- */

static const WbCharge *
find_charge (const WbSideTerms *side,
             WbMoney            deductible)
{
  for (guint i = 0; i < side->n_charges; i++)
    if (wb_money_equal (side->charges[i].deductible, deductible))
      return &side->charges[i];
  return NULL;
}

/* Minor units in 100 whole units of @currency. */
static gint64
hundred_of (const char *currency)
{
  gint64 hundred = 100;

  for (int digits = wb_currency_digits (currency); digits > 0; digits--)
    hundred *= 10;
  return hundred;
}

gboolean
wb_terms_charge (const WbTerms *self,
                 WbSide         side,
                 WbMoney        declared_value,
                 WbMoney        deductible,
                 WbMoney       *out,
                 GError       **error)
{
  const WbCharge *charge;
  gint64 hundreds;
  gint64 minor;

  g_return_val_if_fail (self != NULL && out != NULL, FALSE);
  g_return_val_if_fail ((guint) side < WB_N_SIDES, FALSE);

  if (!wb_money_is_set (declared_value))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "there is no declared value to charge for");
      return FALSE;
    }
  if (!wb_money_is_set (deductible))
    deductible = wb_money (0, self->currency);
  if (!g_str_equal (declared_value.currency, self->currency)
      || !g_str_equal (deductible.currency, self->currency))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "the terms are in %s, the declared value in %s and the deductible in %s",
                   self->currency, declared_value.currency, deductible.currency);
      return FALSE;
    }
  if (declared_value.minor < 0 || deductible.minor < 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "a declared value or deductible is negative");
      return FALSE;
    }

  charge = find_charge (&self->side[side], deductible);
  if (charge == NULL)
    {
      g_autofree char *text = wb_money_to_text (deductible);

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "%s:%u: the terms list no charge for a deductible of %s", self->file, self->line,
                   text);
      return FALSE;
    }

  if (!wb_minor_scale (declared_value.minor, 1, hundred_of (self->currency), WB_ROUND_UP, &hundreds,
                       error)
      || !wb_minor_scale (charge->per_hundred.minor, hundreds, 1, WB_ROUND_UP, &minor, error))
    return FALSE;

  *out = wb_money (minor, self->currency);
  return TRUE;
}
