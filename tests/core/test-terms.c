/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One terms file: what reads, what each mistake is told about, what silence means, what a choice
 * costs. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-terms.h"

#define FILE_NAME "plain.terms"

/* Line numbers of the cases below count from here. */
static const char *const plain_lines[] = {
  /*  1 */ "regime = plain",
  /*  2 */ "title = Plain terms",
  /*  3 */ "currency = USD",
  /*  4 */ "move-type = intrastate",
  /*  5 */ "region = WA",
  /*  6 */ "[edition]",
  /*  7 */ "from = 2010-01-01",
  /*  8 */ "until = 2015-12-31",
  /*  9 */ "[shipment]",
  /* 10 */ "rounding = half-even ; rule 1; and rule 2",
  /* 11 */ "[claims]",
  /* 12 */ "claim-within = 9 months",
  /* 13 */ "decide-within = 120 days",
  /* 14 */ "[released]",
  /* 15 */ "article-rate = 0.60 per lb ; rule 3",
  /* 16 */ "[full]",
  /* 17 */ "shipment-rate = 4.00 per lb",
  /* 18 */ "shipment-minimum = 5,000.00",
  /* 19 */ "declared-value = yes",
  /* 20 */ "deductible = yes",
  /* 21 */ "[edition]",
  /* 22 */ "from = 2016-01-01",
  /* 23 */ "[released]",
  /* 24 */ "article-rate = 0.70 per lb",
  /* 25 */ "[full]",
  /* 26 */ "shipment-minimum = 6000.00",
};

/* The plain file with line @number replaced by @replacement, which may be several lines; 0
 * replaces none. */
static char *
plain_with (guint       number,
            const char *replacement)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (plain_lines); i++)
    {
      g_string_append (text, i + 1 == number ? replacement : plain_lines[i]);
      g_string_append_c (text, '\n');
    }
  return g_string_free (text, FALSE);
}

static GPtrArray *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *editions = wb_terms_parse (text, strlen (text), FILE_NAME, &error);

  g_assert_no_error (error);
  g_assert_nonnull (editions);
  return editions;
}

static WbMoney
usd (gint64 cents)
{
  return wb_money (cents, "USD");
}

#define assert_date(date, text)                       \
  G_STMT_START {                                      \
    g_autofree char *date_text = wb_date_to_text (&(date)); \
    g_assert_cmpstr (date_text, ==, text);            \
  } G_STMT_END

#define assert_money(money, text)                     \
  G_STMT_START {                                      \
    g_autofree char *money_text = wb_money_to_text (money); \
    g_assert_cmpstr (money_text, ==, text);           \
  } G_STMT_END

#define assert_rate(rate, text)                       \
  G_STMT_START {                                      \
    g_autofree char *rate_text = wb_rate_to_text (rate); \
    g_assert_cmpstr (rate_text, ==, text);            \
  } G_STMT_END

#define assert_period(period, text)                   \
  G_STMT_START {                                      \
    g_autofree char *period_text = wb_period_to_text (period); \
    g_assert_cmpstr (period_text, ==, text);          \
  } G_STMT_END

/* --- reading ---------------------------------------------------------------------------------- */

static void
test_plain (void)
{
  g_autofree char *text = plain_with (0, NULL);
  g_autoptr (GPtrArray) editions = parse (text);
  const WbTerms *first, *second;

  g_assert_cmpuint (editions->len, ==, 2);
  first = g_ptr_array_index (editions, 0);
  second = g_ptr_array_index (editions, 1);

  g_assert_cmpstr (first->regime, ==, "plain");
  g_assert_cmpstr (first->title, ==, "Plain terms");
  g_assert_cmpstr (first->currency, ==, "USD");
  g_assert_cmpstr (first->region, ==, "WA");
  g_assert_cmpstr (first->file, ==, FILE_NAME);
  g_assert_cmpint (first->move_type, ==, WB_MOVE_INTRASTATE);
  g_assert_cmpuint (first->line, ==, 6);
  g_assert_cmpuint (second->line, ==, 21);
  assert_date (first->from, "2010-01-01");
  assert_date (first->until, "2015-12-31");
  assert_date (second->from, "2016-01-01");
  g_assert_false (wb_date_is_set (&second->until));

  g_assert_cmpint (first->rounding, ==, WB_ROUND_HALF_EVEN);
  g_assert_cmpstr (wb_terms_citation (first, WB_SCOPE_GENERAL, WB_KEY_ROUNDING), ==,
                   "rule 1; and rule 2");
  assert_period (first->claim_within, "9 months");
  assert_period (first->decide_within, "120 days");
  assert_rate (first->side[WB_SIDE_RELEASED].article_rate, "0.60 USD per lb");
  g_assert_cmpstr (wb_terms_citation (first, WB_SCOPE_RELEASED, WB_KEY_ARTICLE_RATE), ==, "rule 3");
  g_assert_cmpuint (first->entry[WB_SCOPE_RELEASED][WB_KEY_ARTICLE_RATE].line, ==, 15);
  g_assert_null (wb_terms_citation (first, WB_SCOPE_FULL, WB_KEY_SHIPMENT_RATE));
  g_assert_true (wb_terms_is_given (first, WB_SCOPE_FULL, WB_KEY_SHIPMENT_RATE));
  assert_rate (first->side[WB_SIDE_FULL].shipment_rate, "4.00 USD per lb");
  assert_money (first->side[WB_SIDE_FULL].shipment_minimum, "5000.00 USD");
  g_assert_true (first->side[WB_SIDE_FULL].declared_value);
  g_assert_true (first->side[WB_SIDE_FULL].deductible);

  /* Nothing is taken over from an earlier edition. */
  g_assert_cmpint (second->rounding, ==, WB_ROUND_HALF_UP);
  g_assert_false (wb_terms_is_given (second, WB_SCOPE_GENERAL, WB_KEY_ROUNDING));
  g_assert_false (wb_period_is_set (second->claim_within));
  g_assert_false (second->side[WB_SIDE_FULL].declared_value);
  assert_rate (second->side[WB_SIDE_RELEASED].article_rate, "0.70 USD per lb");
}

static void
test_every_value (void)
{
  static const char text[] =
    "regime = all\ntitle = All\ncurrency = EUR\n"
    "[edition]\nfrom = 2001-02-03\nuntil = 2001-02-03\n"
    "[shipment]\nrounding = down\nwithout-waiver = released\nconstructive-weight = 6.5 lb\n"
    "[articles]\ncarton = each-thing\nparts = each-piece\n"
    "[loss]\ndemand = ignored\nsalvage = ignored\ndepreciation-maximum = 87.5%\n"
    "[freight]\nfreight-partial-loss = by-weight\nfreight-total-loss = all\n"
    "[claims]\nclaim-within = 90 days\nlate-claim = barred\nnotice-within = 14 days\n"
    "acknowledge-within = 1 day\ndecide-within = 3 months\nstatus-every = 60 days\n"
    "suit-within = 1 year\n"
    "[released]\noffered = yes\nmeasure = actual-value\narticle-rate = 2.50 per kg\n"
    "article-limit = 100.00\nline-limit = 50.00 EUR\nshipment-rate = 620.00 per m3\n"
    "shipment-maximum = 24800.00\n"
    "[full]\nshipment-rate = 400.00 per cwt\nshipment-weight = gross\n"
    "shipment-minimum = 7500\nshipment-maximum = 75000\ndeclared-value = yes\n"
    "below-minimum = kept\ndeductible = yes\ndeductible-order = before-limit\n"
    "extraordinary-rate = 220.00 per kg\nextraordinary-weight = thing\n"
    "charge = 1.40 per 100 at 0.00, 1.10 per 100 at 1,300.00\n";
  g_autoptr (GPtrArray) editions = parse (text);
  const WbTerms *terms = g_ptr_array_index (editions, 0);
  const WbSideTerms *released = &terms->side[WB_SIDE_RELEASED];
  const WbSideTerms *full = &terms->side[WB_SIDE_FULL];
  g_autofree char *weight = wb_weight_to_text (terms->constructive_weight);

  g_assert_cmpint (terms->move_type, ==, WB_MOVE_NONE);
  g_assert_null (terms->region);
  g_assert_cmpint (terms->rounding, ==, WB_ROUND_DOWN);
  g_assert_cmpint (terms->without_waiver, ==, WB_SIDE_RELEASED);
  g_assert_cmpstr (weight, ==, "6.50 lb");
  g_assert_cmpint (terms->carton, ==, WB_CARTON_EACH_THING);
  g_assert_cmpint (terms->parts, ==, WB_PARTS_EACH_PIECE);
  g_assert_cmpint (terms->demand, ==, WB_DEMAND_IGNORED);
  g_assert_cmpint (terms->salvage, ==, WB_SALVAGE_IGNORED);
  g_assert_cmpint (terms->depreciation_maximum, ==, 8750);
  g_assert_cmpint (terms->freight_partial_loss, ==, WB_FREIGHT_BY_WEIGHT);
  g_assert_cmpint (terms->freight_total_loss, ==, WB_FREIGHT_ALL);
  g_assert_cmpint (terms->late_claim, ==, WB_LATE_BARRED);
  assert_period (terms->notice_within, "14 days");
  assert_period (terms->acknowledge_within, "1 day");
  assert_period (terms->decide_within, "3 months");
  assert_period (terms->status_every, "60 days");
  assert_period (terms->suit_within, "1 year");

  g_assert_true (released->offered);
  g_assert_cmpint (released->measure, ==, WB_MEASURE_ACTUAL_VALUE);
  assert_rate (released->article_rate, "2.50 EUR per kg");
  assert_money (released->article_limit, "100.00 EUR");
  assert_money (released->line_limit, "50.00 EUR");
  assert_rate (released->shipment_rate, "620.00 EUR per m3");
  assert_money (released->shipment_maximum, "24800.00 EUR");

  g_assert_true (full->offered);
  g_assert_true (full->shipment_gross);
  g_assert_cmpint (full->measure, ==, WB_MEASURE_REPLACEMENT);
  g_assert_cmpint (full->below_minimum, ==, WB_BELOW_MINIMUM_KEPT);
  g_assert_cmpint (full->deductible_order, ==, WB_DEDUCTIBLE_BEFORE_LIMIT);
  assert_rate (full->extraordinary_rate, "220.00 EUR per kg");
  g_assert_cmpint (full->extraordinary_weight, ==, WB_EXTRAORDINARY_THING);
  g_assert_cmpuint (full->n_charges, ==, 2);
  assert_money (full->charges[1].per_hundred, "1.10 EUR");
  assert_money (full->charges[1].deductible, "1300.00 EUR");
}

/* Byte order mark, both kinds of line break, space anywhere, no break at the end: as editors
 * leave them. */
static void
test_ways_of_writing (void)
{
  static const char text[] =
    "\xef\xbb\xbf# comment\r\n  regime=tight\r\n"
    "\ttitle = Breite Sätze = “x” # no comment ; no citation\r\ncurrency= USD \r\n\r\n"
    "   # comment\r\n"
    "[ edition ]\r\nfrom =2020-02-29\r\n"
    "[released]\r\narticle-rate=0.60 per lb;§ 12\r\n"
    "[shipment]\r\nwithout-waiver = released";
  g_autoptr (GPtrArray) editions = parse (text);
  const WbTerms *terms = g_ptr_array_index (editions, 0);

  g_assert_cmpstr (terms->regime, ==, "tight");
  g_assert_cmpstr (terms->title, ==, "Breite Sätze = “x” # no comment ; no citation");
  g_assert_cmpuint (terms->line, ==, 7);
  g_assert_cmpstr (wb_terms_citation (terms, WB_SCOPE_RELEASED, WB_KEY_ARTICLE_RATE), ==, "§ 12");
  g_assert_cmpuint (terms->entry[WB_SCOPE_GENERAL][WB_KEY_WITHOUT_WAIVER].line, ==, 12);
}

static void
test_digest (void)
{
  g_autofree char *text = plain_with (0, NULL);
  g_autofree char *other_text = plain_with (2, "title = Plain terms ");
  g_autofree char *expected = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
  g_autoptr (GPtrArray) editions = parse (text);
  g_autoptr (GPtrArray) others = parse (other_text);
  const WbTerms *first = g_ptr_array_index (editions, 0);
  const WbTerms *second = g_ptr_array_index (editions, 1);
  const WbTerms *other = g_ptr_array_index (others, 0);

  g_assert_cmpuint (strlen (first->digest), ==, 64);
  g_assert_cmpstr (first->digest, ==, expected);
  g_assert_cmpstr (second->digest, ==, expected);
  /* A space more is another file, though it says the same. */
  g_assert_cmpstr (other->title, ==, first->title);
  g_assert_cmpstr (other->digest, !=, expected);
}

/* The text need not end in NUL: what lies behind its length is not read. */
static void
test_length (void)
{
  g_autofree char *text = plain_with (0, NULL);
  g_autofree char *longer = g_strconcat (text, "nonsense", NULL);
  g_autoptr (GPtrArray) editions = NULL;
  g_autoptr (GError) error = NULL;

  editions = wb_terms_parse (longer, strlen (text), FILE_NAME, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (editions->len, ==, 2);
}

/* --- silence ---------------------------------------------------------------------------------- */

static void
test_silence (void)
{
  g_autoptr (GPtrArray) editions = parse ("regime = s\ntitle = S\ncurrency = USD\n"
                                          "[edition]\nfrom = 2020-01-01\n"
                                          "[full]\nshipment-minimum = 1.00\n");
  const WbTerms *terms = g_ptr_array_index (editions, 0);

  for (guint scope = 0; scope < WB_N_SCOPES; scope++)
    for (guint key = 0; key < WB_N_TERMS_KEYS; key++)
      g_assert_cmpint (wb_terms_is_given (terms, (WbScope) scope, (WbTermsKey) key), ==,
                       scope == WB_SCOPE_FULL && key == WB_KEY_SHIPMENT_MINIMUM);

  g_assert_cmpint (terms->rounding, ==, WB_ROUND_HALF_UP);
  g_assert_cmpint (terms->without_waiver, ==, WB_SIDE_FULL);
  g_assert_false (wb_weight_is_set (terms->constructive_weight));
  g_assert_cmpint (terms->carton, ==, WB_CARTON_ONE_ARTICLE);
  g_assert_cmpint (terms->parts, ==, WB_PARTS_ONE_ARTICLE);
  g_assert_cmpint (terms->demand, ==, WB_DEMAND_CAPS);
  g_assert_cmpint (terms->salvage, ==, WB_SALVAGE_DEDUCTED);
  g_assert_cmpint (terms->depreciation_maximum, ==, 10000);
  g_assert_cmpint (terms->freight_partial_loss, ==, WB_FREIGHT_NOT_REFUNDED);
  g_assert_cmpint (terms->freight_total_loss, ==, WB_FREIGHT_NOT_REFUNDED);
  g_assert_cmpint (terms->late_claim, ==, WB_LATE_FLAGGED);
  g_assert_false (wb_period_is_set (terms->claim_within));
  g_assert_false (wb_period_is_set (terms->late_until));
  g_assert_false (wb_period_is_set (terms->notice_within));
  g_assert_false (wb_period_is_set (terms->acknowledge_within));
  g_assert_false (wb_period_is_set (terms->decide_within));
  g_assert_false (wb_period_is_set (terms->status_every));
  g_assert_false (wb_period_is_set (terms->suit_within));

  for (guint side = 0; side < WB_N_SIDES; side++)
    {
      const WbSideTerms *choice = &terms->side[side];

      g_assert_cmpint (choice->offered, ==, side == WB_SIDE_FULL);
      g_assert_cmpint (choice->measure, ==, WB_MEASURE_REPLACEMENT);
      g_assert_false (wb_rate_is_set (choice->article_rate));
      g_assert_false (wb_money_is_set (choice->article_limit));
      g_assert_false (wb_money_is_set (choice->line_limit));
      g_assert_false (wb_rate_is_set (choice->shipment_rate));
      g_assert_false (choice->shipment_gross);
      g_assert_false (wb_money_is_set (choice->shipment_maximum));
      g_assert_false (choice->declared_value);
      g_assert_cmpint (choice->below_minimum, ==, WB_BELOW_MINIMUM_RAISED);
      g_assert_false (choice->deductible);
      g_assert_cmpint (choice->deductible_order, ==, WB_DEDUCTIBLE_AFTER_LIMIT);
      g_assert_false (wb_rate_is_set (choice->extraordinary_rate));
      g_assert_cmpint (choice->extraordinary_weight, ==, WB_EXTRAORDINARY_ARTICLE);
      g_assert_cmpuint (choice->n_charges, ==, 0);
    }
}

/* Every list can be walked both ways, and every key says what its absence means. */
static void
test_lists (void)
{
  const WbEnum *const lists[] = {
    &wb_terms_keys,  &wb_roundings,           &wb_measures,          &wb_carton_rules,
    &wb_parts_rules, &wb_demand_rules,        &wb_salvage_rules,     &wb_freight_rules,
    &wb_late_rules,  &wb_below_minimum_rules, &wb_deductible_orders, &wb_extraordinary_weights,
  };

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    for (gsize j = 0; j < lists[i]->n_values; j++)
      {
        const WbEnumValue *value = &lists[i]->values[j];

        g_assert_cmpint (value->value, ==, (int) j);
        g_assert_true (wb_enum_find_nick (lists[i], value->nick) == value);
        g_assert_cmpstr (value->label, !=, "");
      }

  g_assert_cmpuint (wb_terms_keys.n_values, ==, WB_N_TERMS_KEYS);
  for (guint key = 0; key < WB_N_TERMS_KEYS; key++)
    g_assert_true (g_str_has_suffix (wb_terms_silent_meaning ((WbTermsKey) key), "."));
}

/* --- mistakes --------------------------------------------------------------------------------- */

typedef struct
{
  const char *name;
  guint       replaced;      /* line of the plain file */
  const char *replacement;
  const char *message;       /* after the file's name; * stands for the words of another parser */
} Mistake;

static const Mistake mistakes[] = {
#include "terms-mistakes.h"
};

static void
test_mistake (gconstpointer data)
{
  const Mistake *mistake = data;
  g_autofree char *text = plain_with (mistake->replaced, mistake->replacement);
  g_autofree char *pattern = g_strconcat (FILE_NAME ":", mistake->message, NULL);
  g_autoptr (GPtrArray) editions = NULL;
  g_autoptr (GError) error = NULL;

  editions = wb_terms_parse (text, strlen (text), FILE_NAME, &error);
  g_assert_null (editions);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);
  g_test_message ("%s", error->message);
  if (!g_pattern_match_simple (pattern, error->message))
    g_assert_cmpstr (error->message, ==, pattern);
}

static void
assert_refused (const char *text,
                gsize       length,
                const char *message)
{
  g_autoptr (GPtrArray) editions = NULL;
  g_autoptr (GError) error = NULL;

  editions = wb_terms_parse (text, length, FILE_NAME, &error);
  g_assert_null (editions);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);
  g_assert_cmpstr (error->message, ==, message);
}

static void
test_bytes (void)
{
  static const char no_edition[] = "regime = a\ntitle = A\ncurrency = USD";
  g_autofree char *latin = plain_with (15, "article-rate = 0.60 per lb ; \xa7 3");
  g_autofree char *zero = plain_with (15, "article-rate = 0.60 per lb ; @ 3");
  g_autofree char *control = plain_with (15, "article-rate = 0.60\x1b per lb");
  g_autofree char *large = g_strnfill (1024 * 1024 + 1, '\n');
  gsize length = strlen (zero);

  *strchr (zero, '@') = '\0';
  assert_refused (latin, strlen (latin),
                  FILE_NAME ":15: this line is not UTF-8; expected the file to be saved in that "
                            "encoding");
  assert_refused (zero, length,
                  FILE_NAME ":15: there is a zero byte in this line; expected plain text in UTF-8");
  assert_refused (control, strlen (control),
                  FILE_NAME ":15: a control character (number 27) stands in this line; expected "
                            "plain text");
  assert_refused (large, strlen (large),
                  FILE_NAME ":1: the file has 1048577 bytes; expected at most 1048576");
  assert_refused ("", 0,
                  FILE_NAME ":1: there is no “regime” at the top of the file; expected up to 64 "
                            "small letters, digits and hyphens, such as “us-interstate”");
  assert_refused (no_edition, strlen (no_edition),
                  FILE_NAME ":3: the file has no edition; expected [edition] and its dates");
}

/* A name of a megabyte is answered at once, and with a short message. */
static void
test_endless_name (void)
{
  g_autofree char *name = g_strnfill (1000 * 1000, 'x');
  g_autofree char *text = g_strconcat (name, " = 1\n", NULL);
  g_autoptr (GPtrArray) editions = NULL;
  g_autoptr (GError) error = NULL;

  editions = wb_terms_parse (text, strlen (text), FILE_NAME, &error);
  g_assert_null (editions);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);
  g_assert_cmpuint (strlen (error->message), <, 200);
}

/* --- charge ----------------------------------------------------------------------------------- */

static void
test_charge (void)
{
  static const struct
  {
    gint64 declared;
    gint64 deductible;
    gint64 charge;
  } cases[] = {
    { 4000000, 0, 56000 },
    { 4000000, 30000, 44000 },
    { 0, 0, 0 },
    { 1, 0, 140 },
    { 10000, 0, 140 },
    { 10001, 0, 280 },
    { 4000001, 30000, 44110 },
  };
  g_autofree char *text = plain_with (20, "deductible = yes\ncharge = 1.40 per 100 at 0.00, 1.10 "
                                          "per 100 at 300.00");
  g_autoptr (GPtrArray) editions = parse (text);
  const WbTerms *terms = g_ptr_array_index (editions, 0);
  WbMoney charge;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      if (!wb_terms_charge (terms, WB_SIDE_FULL, usd (cases[i].declared), usd (cases[i].deductible),
                            &charge, &error))
        g_error ("%s", error->message);
      g_assert_cmpint (charge.minor, ==, cases[i].charge);
      g_assert_cmpstr (charge.currency, ==, "USD");
    }

  /* Without a deductible the charge is that at none. */
  g_assert_true (wb_terms_charge (terms, WB_SIDE_FULL, usd (100), WB_MONEY_UNSET, &charge, NULL));
  g_assert_cmpint (charge.minor, ==, 140);
}

static void
test_charge_refused (void)
{
  static const struct
  {
    WbSide  side;
    WbMoney declared;
    WbMoney deductible;
    int     code;
  } cases[] = {
    { WB_SIDE_FULL, { 100, "USD" }, { 25000, "USD" }, WB_CORE_ERROR_MISSING },
    { WB_SIDE_RELEASED, { 100, "USD" }, { 0, "USD" }, WB_CORE_ERROR_MISSING },
    { WB_SIDE_FULL, { 0 }, { 0, "USD" }, WB_CORE_ERROR_MISSING },
    { WB_SIDE_FULL, { 100, "EUR" }, { 0, "USD" }, WB_CORE_ERROR_CURRENCY },
    { WB_SIDE_FULL, { 100, "USD" }, { 0, "EUR" }, WB_CORE_ERROR_CURRENCY },
    { WB_SIDE_FULL, { -1, "USD" }, { 0, "USD" }, WB_CORE_ERROR_RANGE },
    { WB_SIDE_FULL, { G_MAXINT64, "USD" }, { 0, "USD" }, WB_CORE_ERROR_OVERFLOW },
  };
  g_autofree char *text = plain_with (20, "deductible = yes\ncharge = 2000000.00 per 100 at 0.00");
  g_autoptr (GPtrArray) editions = parse (text);
  const WbTerms *terms = g_ptr_array_index (editions, 0);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      WbMoney charge = usd (77);
      g_autoptr (GError) error = NULL;

      g_assert_false (wb_terms_charge (terms, cases[i].side, cases[i].declared, cases[i].deductible,
                                       &charge, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_cmpint (charge.minor, ==, 77);
    }
}

/* Currencies differ in their minor units: 100 yen are 100 of them. */
static void
test_charge_in_yen (void)
{
  g_autoptr (GPtrArray) editions = parse ("regime = y\ntitle = Y\ncurrency = JPY\n[edition]\nfrom "
                                          "= 2020-01-01\n"
                                          "[full]\ndeclared-value = yes\ncharge = 2 per 100 at "
                                          "0\n");
  WbMoney charge;

  g_assert_true (wb_terms_charge (g_ptr_array_index (editions, 0), WB_SIDE_FULL,
                                  wb_money (1050, "JPY"), WB_MONEY_UNSET, &charge, NULL));
  g_assert_cmpint (charge.minor, ==, 22);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/terms/read/plain", test_plain);
  g_test_add_func ("/core/terms/read/every-value", test_every_value);
  g_test_add_func ("/core/terms/read/ways-of-writing", test_ways_of_writing);
  g_test_add_func ("/core/terms/read/digest", test_digest);
  g_test_add_func ("/core/terms/read/length", test_length);
  g_test_add_func ("/core/terms/silence", test_silence);
  g_test_add_func ("/core/terms/lists", test_lists);
  for (guint i = 0; i < G_N_ELEMENTS (mistakes); i++)
    {
      g_autofree char *path = g_strconcat ("/core/terms/mistake/", mistakes[i].name, NULL);

      g_test_add_data_func (path, &mistakes[i], test_mistake);
    }
  g_test_add_func ("/core/terms/mistake/bytes", test_bytes);
  g_test_add_func ("/core/terms/mistake/endless-name", test_endless_name);
  g_test_add_func ("/core/terms/charge/amounts", test_charge);
  g_test_add_func ("/core/terms/charge/refused", test_charge_refused);
  g_test_add_func ("/core/terms/charge/yen", test_charge_in_yen);

  return g_test_run ();
}
