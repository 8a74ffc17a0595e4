/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keys of a terms file as one table: in which section a key stands, how its value reads,
 * where it goes. Lines, sections and editions are the business of wb-terms-parse.c. */
#include "config.h"

#include "core/wb-terms-private.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-percent.h"
#include "core/wb-text.h"

/* A constructive weight above this many pounds a cubic foot is heavier than lead, so a slip. */
#define MOST_POUNDS_PER_CUBIC_FOOT 700

typedef enum
{
  READING_CHOICE,
  READING_YES_NO,
  READING_RATE_BY_WEIGHT,
  READING_RATE,
  READING_MONEY,
  READING_WEIGHT,
  READING_PERIOD,
  READING_PERCENT,
  READING_CHARGES,
} Reading;

/* @section: of a general key; for a key of the sides it is WB_SECTION_RELEASED and stands for both.
 * @offset: in WbTerms, or in WbSideTerms for a key of the sides. */
typedef struct
{
  WbTermsSection section;
  Reading        reading;
  gsize          offset;
  const WbEnum  *choices;
} KeyRow;

static const WbEnumValue side_values[] = {
  { WB_SIDE_RELEASED, "released", "released" },
  { WB_SIDE_FULL, "full", "full" },
};

static const WbEnumValue shipment_weight_values[] = {
  { FALSE, "net", "net" },
  { TRUE, "gross", "gross" },
};

static const WbEnumValue section_values[] = {
  { WB_SECTION_SHIPMENT, "shipment", "shipment" },
  { WB_SECTION_ARTICLES, "articles", "articles" },
  { WB_SECTION_LOSS, "loss", "loss" },
  { WB_SECTION_FREIGHT, "freight", "freight" },
  { WB_SECTION_CLAIMS, "claims", "claims" },
  { WB_SECTION_RELEASED, "released", "released" },
  { WB_SECTION_FULL, "full", "full" },
};

static const WbEnum side_choices = { "side", side_values, G_N_ELEMENTS (side_values) };
static const WbEnum shipment_weights = { "shipment-weight", shipment_weight_values,
                                         G_N_ELEMENTS (shipment_weight_values) };
const WbEnum wb_terms_sections = { "section", section_values, G_N_ELEMENTS (section_values) };

#define GENERAL(section, reading, member, ...) \
  { WB_SECTION_##section, READING_##reading, G_STRUCT_OFFSET (WbTerms, member), __VA_ARGS__ }
#define OF_SIDE(reading, member, ...) \
  { WB_SECTION_RELEASED, READING_##reading, G_STRUCT_OFFSET (WbSideTerms, member), __VA_ARGS__ }

static const KeyRow rows[] = {
  [WB_KEY_ROUNDING] = GENERAL (SHIPMENT, CHOICE, rounding, &wb_roundings),
  [WB_KEY_WITHOUT_WAIVER] = GENERAL (SHIPMENT, CHOICE, without_waiver, &side_choices),
  [WB_KEY_CONSTRUCTIVE_WEIGHT] = GENERAL (SHIPMENT, WEIGHT, constructive_weight, NULL),
  [WB_KEY_CARTON] = GENERAL (ARTICLES, CHOICE, carton, &wb_carton_rules),
  [WB_KEY_PARTS] = GENERAL (ARTICLES, CHOICE, parts, &wb_parts_rules),
  [WB_KEY_SETS] = GENERAL (ARTICLES, CHOICE, sets, &wb_sets_rules),
  [WB_KEY_DEMAND] = GENERAL (LOSS, CHOICE, demand, &wb_demand_rules),
  [WB_KEY_SALVAGE] = GENERAL (LOSS, CHOICE, salvage, &wb_salvage_rules),
  [WB_KEY_DEPRECIATION_MAXIMUM] = GENERAL (LOSS, PERCENT, depreciation_maximum, NULL),
  [WB_KEY_FREIGHT_PARTIAL_LOSS] =
    GENERAL (FREIGHT, CHOICE, freight_partial_loss, &wb_freight_rules),
  [WB_KEY_FREIGHT_TOTAL_LOSS] = GENERAL (FREIGHT, CHOICE, freight_total_loss, &wb_freight_rules),
  [WB_KEY_CLAIM_WITHIN] = GENERAL (CLAIMS, PERIOD, claim_within, NULL),
  [WB_KEY_LATE_CLAIM] = GENERAL (CLAIMS, CHOICE, late_claim, &wb_late_rules),
  [WB_KEY_LATE_UNTIL] = GENERAL (CLAIMS, PERIOD, late_until, NULL),
  [WB_KEY_NOTICE_WITHIN] = GENERAL (CLAIMS, PERIOD, notice_within, NULL),
  [WB_KEY_ACKNOWLEDGE_WITHIN] = GENERAL (CLAIMS, PERIOD, acknowledge_within, NULL),
  [WB_KEY_DECIDE_WITHIN] = GENERAL (CLAIMS, PERIOD, decide_within, NULL),
  [WB_KEY_STATUS_EVERY] = GENERAL (CLAIMS, PERIOD, status_every, NULL),
  [WB_KEY_SUIT_WITHIN] = GENERAL (CLAIMS, PERIOD, suit_within, NULL),
  [WB_KEY_INSPECT_WITHIN] = GENERAL (CLAIMS, PERIOD, inspect_within, NULL),
  [WB_KEY_MEDIATE_WITHIN] = GENERAL (CLAIMS, PERIOD, mediate_within, NULL),
  [WB_KEY_MEDIATE_UNTIL] = GENERAL (CLAIMS, PERIOD, mediate_until, NULL),
  [WB_KEY_ARBITRATE_WITHIN] = GENERAL (CLAIMS, PERIOD, arbitrate_within, NULL),
  [WB_KEY_COLLECT_SALVAGE_WITHIN] = GENERAL (CLAIMS, PERIOD, collect_salvage_within, NULL),
  [WB_KEY_TRANSFER_AFTER] = GENERAL (CLAIMS, PERIOD, transfer_after, NULL),
  [WB_KEY_FEES_WITHIN] = GENERAL (CLAIMS, PERIOD, fees_within, NULL),
  [WB_KEY_BILL_WITHIN] = GENERAL (CLAIMS, PERIOD, bill_within, NULL),
  [WB_KEY_CONTEST_BILL_WITHIN] = GENERAL (CLAIMS, PERIOD, contest_bill_within, NULL),
  [WB_KEY_OFFERED] = OF_SIDE (YES_NO, offered, NULL),
  [WB_KEY_MEASURE] = OF_SIDE (CHOICE, measure, &wb_measures),
  [WB_KEY_ARTICLE_RATE] = OF_SIDE (RATE_BY_WEIGHT, article_rate, NULL),
  [WB_KEY_ARTICLE_LIMIT] = OF_SIDE (MONEY, article_limit, NULL),
  [WB_KEY_LINE_LIMIT] = OF_SIDE (MONEY, line_limit, NULL),
  [WB_KEY_SHIPMENT_RATE] = OF_SIDE (RATE, shipment_rate, NULL),
  [WB_KEY_SHIPMENT_WEIGHT] = OF_SIDE (CHOICE, shipment_gross, &shipment_weights),
  [WB_KEY_SHIPMENT_MINIMUM] = OF_SIDE (MONEY, shipment_minimum, NULL),
  [WB_KEY_SHIPMENT_MAXIMUM] = OF_SIDE (MONEY, shipment_maximum, NULL),
  [WB_KEY_DECLARED_VALUE] = OF_SIDE (YES_NO, declared_value, NULL),
  [WB_KEY_BELOW_MINIMUM] = OF_SIDE (CHOICE, below_minimum, &wb_below_minimum_rules),
  [WB_KEY_DEDUCTIBLE] = OF_SIDE (YES_NO, deductible, NULL),
  [WB_KEY_DEDUCTIBLE_ORDER] = OF_SIDE (CHOICE, deductible_order, &wb_deductible_orders),
  [WB_KEY_EXTRAORDINARY_RATE] = OF_SIDE (RATE_BY_WEIGHT, extraordinary_rate, NULL),
  [WB_KEY_EXTRAORDINARY_WEIGHT] = OF_SIDE (CHOICE, extraordinary_weight, &wb_extraordinary_weights),
  [WB_KEY_CHARGE] = OF_SIDE (CHARGES, charges, NULL),
};

G_STATIC_ASSERT (G_N_ELEMENTS (rows) == WB_N_TERMS_KEYS);

/* What each reading takes, for messages; a choice lists its own. */
static const char *const expected[] = {
  [READING_CHOICE] = NULL,
  [READING_YES_NO] = "yes or no",
  [READING_RATE_BY_WEIGHT] = "an amount above zero per lb, kg or cwt, such as “0.60 per lb”",
  [READING_RATE] = "an amount above zero per lb, kg, cwt, cuft or m3, such as “4.00 per lb”",
  [READING_MONEY] = "an amount above zero, such as “5000.00”",
  [READING_WEIGHT] = "the weight of a cubic foot, such as “7 lb”",
  [READING_PERIOD] = "a period of at least one day, such as “120 days”, “9 months” or “2 years”",
  [READING_PERCENT] = "a percentage from 0 to 100, such as “75 %”",
  [READING_CHARGES] = "charges for each 100 of declared value, each at a deductible of its own, "
                      "such as “1.40 per 100 at 0.00, 1.10 per 100 at 300.00”",
};

/* --- sections --------------------------------------------------------------------------------- */

WbScope
wb_terms_section_scope (WbTermsSection section)
{
  switch (section)
    {
    case WB_SECTION_RELEASED:
      return WB_SCOPE_RELEASED;
    case WB_SECTION_FULL:
      return WB_SCOPE_FULL;
    case WB_SECTION_SHIPMENT:
    case WB_SECTION_ARTICLES:
    case WB_SECTION_LOSS:
    case WB_SECTION_FREIGHT:
    case WB_SECTION_CLAIMS:
      return WB_SCOPE_GENERAL;
    }
  g_return_val_if_reached (WB_SCOPE_GENERAL);
}

gboolean
wb_terms_section_has (WbTermsSection section,
                      WbTermsKey     key)
{
  if (section == WB_SECTION_FULL)
    section = WB_SECTION_RELEASED;
  return rows[key].section == section;
}

/* --- reading ---------------------------------------------------------------------------------- */

char *
wb_terms_expected (WbTermsKey key)
{
  const KeyRow *row = &rows[key];
  g_autoptr (GString) list = NULL;

  if (row->reading != READING_CHOICE)
    return g_strdup (expected[row->reading]);

  list = g_string_new (NULL);
  for (gsize i = 0; i < row->choices->n_values; i++)
    {
      if (i > 0)
        g_string_append (list, i + 1 < row->choices->n_values ? ", " : " or ");
      g_string_append (list, row->choices->values[i].nick);
    }
  return g_string_free (g_steal_pointer (&list), FALSE);
}

static gboolean
refuse (GError    **error,
        const char *text,
        const char *why)
{
  g_autofree char *quoted = wb_text_quote (text, -1);

  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "%s %s", quoted, why);
  return FALSE;
}

static gboolean
read_choice (const WbEnum *choices,
             const char   *text,
             int          *out,
             GError      **error)
{
  const WbEnumValue *value = wb_enum_find_nick (choices, text);

  if (value == NULL)
    return refuse (error, text, "is none of its values");

  *out = value->value;
  return TRUE;
}

static gboolean
read_yes_no (const char *text,
             gboolean   *out,
             GError    **error)
{
  if (!g_str_equal (text, "yes") && !g_str_equal (text, "no"))
    return refuse (error, text, "is neither");

  *out = g_str_equal (text, "yes");
  return TRUE;
}

static gboolean
check_amount (const char *text,
              WbMoney     money,
              gint64      least,
              GError    **error)
{
  if (money.minor < least)
    return refuse (error, text, least > 0 ? "is not above zero" : "is negative");
  if (money.minor > WB_MONEY_MAX_MINOR)
    return refuse (error, text, "is absurdly large");
  return TRUE;
}

static gboolean
read_money (const char *text,
            const char *currency,
            gint64      least,
            WbMoney    *out,
            GError    **error)
{
  WbMoney money;

  if (!wb_money_parse (text, currency, &money, error) || !check_amount (text, money, least, error))
    return FALSE;

  *out = money;
  return TRUE;
}

static gboolean
read_rate (const char *text,
           const char *currency,
           gboolean    only_by_weight,
           WbRate     *out,
           GError    **error)
{
  WbRate rate;

  if (!wb_rate_parse (text, currency, &rate, error) || !check_amount (text, rate.per, 1, error))
    return FALSE;
  if (only_by_weight && wb_rate_is_by_volume (rate))
    return refuse (error, text, "is by volume, and an article is limited by its weight");

  *out = rate;
  return TRUE;
}

static gboolean
read_weight (const char *text,
             WbWeight   *out,
             GError    **error)
{
  WbWeight weight;

  if (!wb_weight_parse (text, WB_WEIGHT_UNIT_NONE, &weight, error))
    return FALSE;
  if (weight.grains <= 0)
    return refuse (error, text, "is not above zero");
  if (weight.grains > MOST_POUNDS_PER_CUBIC_FOOT * WB_GRAINS_PER_LB)
    return refuse (error, text, "is heavier than any goods");

  *out = weight;
  return TRUE;
}

static gboolean
read_period (const char *text,
             WbPeriod   *out,
             GError    **error)
{
  WbPeriod period;

  if (!wb_period_parse (text, &period, error))
    return FALSE;
  if (period.count < 1)
    return refuse (error, text, "has no day");

  *out = period;
  return TRUE;
}

/* Returns: the comma that ends the first charge of @text, or NULL. A comma inside an amount has
 * no space after it. */
static char *
find_end_of_charge (char *text)
{
  for (char *comma = strchr (text, ','); comma != NULL; comma = strchr (comma + 1, ','))
    if (comma[1] == ' ' || comma[1] == '\0')
      return comma;
  return NULL;
}

static gboolean
read_charge (char       *text,
             const char *currency,
             WbCharge   *out,
             GError    **error)
{
  static const char between[] = " per 100 at ";
  char *middle = strstr (text, between);

  if (middle == NULL)
    return refuse (error, text, "is no charge of the form “AMOUNT per 100 at DEDUCTIBLE”");

  *middle = '\0';
  return read_money (g_strstrip (text), currency, 0, &out->per_hundred, error)
         && read_money (g_strstrip (middle + strlen (between)), currency, 0, &out->deductible,
                        error);
}

static gboolean
read_charges (const char  *text,
              WbSideTerms *side,
              const char  *currency,
              GError     **error)
{
  g_autofree char *copy = g_strdup (text);
  WbCharge charges[WB_MAX_CHARGES];
  guint n = 0;
  char *next = copy;

  while (next != NULL)
    {
      char *this = next;
      char *end = find_end_of_charge (this);

      next = end != NULL ? end + 1 : NULL;
      if (end != NULL)
        *end = '\0';
      if (n == WB_MAX_CHARGES)
        return refuse (error, text, "lists more charges than a choice can have");
      if (!read_charge (this, currency, &charges[n], error))
        return FALSE;
      for (guint i = 0; i < n; i++)
        if (wb_money_equal (charges[i].deductible, charges[n].deductible))
          return refuse (error, text, "has two charges for one deductible");
      n++;
    }

  memcpy (side->charges, charges, n * sizeof (WbCharge));
  side->n_charges = n;
  return TRUE;
}

gboolean
wb_terms_read_value (WbTerms    *self,
                     WbScope     scope,
                     WbTermsKey  key,
                     const char *text,
                     GError    **error)
{
  const KeyRow *row = &rows[key];
  gpointer group = scope == WB_SCOPE_GENERAL ? (gpointer) self : (gpointer) &self->side[scope];
  gpointer member = G_STRUCT_MEMBER_P (group, row->offset);

  switch (row->reading)
    {
    case READING_CHOICE:
      return read_choice (row->choices, text, member, error);
    case READING_YES_NO:
      return read_yes_no (text, member, error);
    case READING_RATE_BY_WEIGHT:
      return read_rate (text, self->currency, TRUE, member, error);
    case READING_RATE:
      return read_rate (text, self->currency, FALSE, member, error);
    case READING_MONEY:
      return read_money (text, self->currency, 1, member, error);
    case READING_WEIGHT:
      return read_weight (text, member, error);
    case READING_PERIOD:
      return read_period (text, member, error);
    case READING_PERCENT:
      return wb_percent_parse (text, member, error);
    case READING_CHARGES:
      return read_charges (text, group, self->currency, error);
    }
  g_return_val_if_reached (FALSE);
}
