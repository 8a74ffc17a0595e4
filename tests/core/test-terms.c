/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Terms files: what reads, what each mistake is told about, what silence means, which edition governs. The shipped files
 * are read as they are; mutations of them must never do harm. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-terms.h"

#define FILE_NAME "plain.terms"
#define N_MUTATIONS 4000

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

/* The plain file with line @number replaced by @replacement, which may be several lines; 0 replaces none. */
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

/* --- reading -------------------------------------------------------------------------------------------------- */

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
  g_assert_cmpstr (wb_terms_citation (first, WB_SCOPE_GENERAL, WB_KEY_ROUNDING), ==, "rule 1; and rule 2");
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
    "[claims]\nclaim-within = 90 days\nlate-claim = barred\nnotice-within = 14 days\nacknowledge-within = 1 day\n"
    "decide-within = 3 months\nstatus-every = 60 days\nsuit-within = 1 year\n"
    "[released]\noffered = yes\nmeasure = actual-value\narticle-rate = 2.50 per kg\narticle-limit = 100.00\n"
    "line-limit = 50.00 EUR\nshipment-rate = 620.00 per m3\nshipment-maximum = 24800.00\n"
    "[full]\nshipment-rate = 400.00 per cwt\nshipment-weight = gross\nshipment-minimum = 7500\n"
    "shipment-maximum = 75000\ndeclared-value = yes\nbelow-minimum = kept\ndeductible = yes\n"
    "deductible-order = before-limit\nextraordinary-rate = 220.00 per kg\nextraordinary-weight = thing\n"
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

/* Byte order mark, both kinds of line break, space anywhere, no break at the end: as editors leave them. */
static void
test_ways_of_writing (void)
{
  static const char text[] =
    "\xef\xbb\xbf# comment\r\n"
    "  regime=tight\r\n\ttitle = Breite Sätze = “x” # no comment ; no citation\r\ncurrency= USD \r\n\r\n"
    "   # comment\r\n[ edition ]\r\nfrom =2020-02-29\r\n[released]\r\narticle-rate=0.60 per lb;§ 12\r\n"
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

/* --- silence -------------------------------------------------------------------------------------------------- */

static void
test_silence (void)
{
  g_autoptr (GPtrArray) editions = parse ("regime = s\ntitle = S\ncurrency = USD\n[edition]\nfrom = 2020-01-01\n"
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
    &wb_terms_keys, &wb_roundings, &wb_measures, &wb_carton_rules, &wb_parts_rules, &wb_demand_rules, &wb_salvage_rules,
    &wb_freight_rules, &wb_late_rules, &wb_below_minimum_rules, &wb_deductible_orders, &wb_extraordinary_weights,
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

/* --- mistakes ------------------------------------------------------------------------------------------------- */

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
                  FILE_NAME ":15: this line is not UTF-8; expected the file to be saved in that encoding");
  assert_refused (zero, length, FILE_NAME ":15: there is a zero byte in this line; expected plain text in UTF-8");
  assert_refused (control, strlen (control),
                  FILE_NAME ":15: a control character (number 27) stands in this line; expected plain text");
  assert_refused (large, strlen (large), FILE_NAME ":1: the file has 1048577 bytes; expected at most 1048576");
  assert_refused ("", 0, FILE_NAME ":1: there is no “regime” at the top of the file; expected up to 64 small letters, "
                  "digits and hyphens, such as “us-interstate”");
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

/* --- charge --------------------------------------------------------------------------------------------------- */

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
  g_autofree char *text = plain_with (20, "deductible = yes\ncharge = 1.40 per 100 at 0.00, 1.10 per 100 at 300.00");
  g_autoptr (GPtrArray) editions = parse (text);
  const WbTerms *terms = g_ptr_array_index (editions, 0);
  WbMoney charge;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      wb_terms_charge (terms, WB_SIDE_FULL, usd (cases[i].declared), usd (cases[i].deductible), &charge, &error);
      g_assert_no_error (error);
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

      g_assert_false (wb_terms_charge (terms, cases[i].side, cases[i].declared, cases[i].deductible, &charge, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_cmpint (charge.minor, ==, 77);
    }
}

/* Currencies differ in their minor units: 100 yen are 100 of them. */
static void
test_charge_in_yen (void)
{
  g_autoptr (GPtrArray) editions = parse ("regime = y\ntitle = Y\ncurrency = JPY\n[edition]\nfrom = 2020-01-01\n"
                                          "[full]\ndeclared-value = yes\ncharge = 2 per 100 at 0\n");
  WbMoney charge;

  g_assert_true (wb_terms_charge (g_ptr_array_index (editions, 0), WB_SIDE_FULL, wb_money (1050, "JPY"),
                                  WB_MONEY_UNSET, &charge, NULL));
  g_assert_cmpint (charge.minor, ==, 22);
}

/* --- sets ----------------------------------------------------------------------------------------------------- */

/* @head: move type and region lines, or ""; @days: editions as "FROM UNTIL" pairs, UNTIL "-" for none */
static GPtrArray *
make_regime (const char *regime,
             const char *head,
             const char *days)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (GStrv) words = g_strsplit (days, " ", -1);
  g_autofree char *file = g_strconcat (regime, ".terms", NULL);
  g_autoptr (GError) error = NULL;
  GPtrArray *editions;

  g_string_append_printf (text, "regime = %s\ntitle = T\ncurrency = USD\n%s", regime, head);
  for (guint i = 0; words[i] != NULL; i += 2)
    {
      g_string_append_printf (text, "[edition]\nfrom = %s\n", words[i]);
      if (!g_str_equal (words[i + 1], "-"))
        g_string_append_printf (text, "until = %s\n", words[i + 1]);
      g_string_append (text, "[full]\nshipment-minimum = 1.00\n");
    }
  editions = wb_terms_parse (text->str, text->len, file, &error);
  g_assert_no_error (error);
  return editions;
}

static void
add (WbTermsSet *set,
     const char *regime,
     const char *head,
     const char *days,
     gboolean    replace)
{
  g_autoptr (GPtrArray) editions = make_regime (regime, head, days);
  g_autoptr (GError) error = NULL;

  wb_terms_set_add (set, editions, replace, &error);
  g_assert_no_error (error);
}

static void
assert_not_added (WbTermsSet *set,
                  const char *regime,
                  const char *head,
                  const char *days,
                  gboolean    replace,
                  const char *message)
{
  g_autoptr (GPtrArray) editions = make_regime (regime, head, days);
  g_autoptr (GError) error = NULL;
  guint count = wb_terms_set_count (set);

  g_assert_false (wb_terms_set_add (set, editions, replace, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);
  g_assert_cmpstr (error->message, ==, message);
  g_assert_cmpuint (wb_terms_set_count (set), ==, count);
}

static void
test_set_order (void)
{
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();
  g_autoptr (WbTermsSet) same = NULL;

  add (set, "b", "", "2010-01-01 2010-12-31 2011-01-01 -", FALSE);
  add (set, "a", "", "2012-01-01 -", FALSE);
  same = wb_terms_set_ref (set);

  g_assert_cmpuint (wb_terms_set_count (same), ==, 3);
  g_assert_cmpstr (wb_terms_set_nth (same, 0)->regime, ==, "a");
  g_assert_cmpstr (wb_terms_set_nth (same, 1)->regime, ==, "b");
  assert_date (wb_terms_set_nth (same, 1)->from, "2010-01-01");
  assert_date (wb_terms_set_nth (same, 2)->from, "2011-01-01");
}

static void
test_set_overlap (void)
{
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();

  add (set, "a", "move-type = intrastate\nregion = WA\n", "2010-01-01 2010-12-31 2012-01-01 -", FALSE);

  assert_not_added (set, "b", "move-type = intrastate\nregion = wa\n", "2010-12-31 2011-06-30", FALSE,
                    "b.terms:6: for intrastate moves in wa the regime “a” in a.terms:6 governs pick-ups from 2010-01-01 "
                    "until 2010-12-31 already; expected days that do not overlap, or no “move-type”");
  assert_not_added (set, "b", "move-type = intrastate\nregion = WA\n", "2011-01-01 2012-01-01", TRUE,
                    "b.terms:6: for intrastate moves in WA the regime “a” in a.terms:11 governs pick-ups from 2012-01-01 "
                    "on already; expected days that do not overlap, or no “move-type”");

  /* The gap between two editions is free; so are other regions, other moves, and regimes chosen by name only. */
  add (set, "b", "move-type = intrastate\nregion = WA\n", "2011-01-01 2011-12-31", FALSE);
  add (set, "c", "move-type = intrastate\nregion = OR\n", "2010-01-01 -", FALSE);
  add (set, "d", "move-type = intrastate\n", "2010-01-01 -", FALSE);
  add (set, "e", "move-type = interstate\n", "2010-01-01 -", FALSE);
  add (set, "f", "", "2010-01-01 -", FALSE);
  add (set, "g", "", "2010-01-01 -", FALSE);
  g_assert_cmpuint (wb_terms_set_count (set), ==, 8);
}

static void
test_set_replace (void)
{
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();

  add (set, "a", "move-type = interstate\n", "2010-01-01 2010-12-31 2011-01-01 -", FALSE);
  add (set, "b", "move-type = military\n", "2010-01-01 -", FALSE);

  assert_not_added (set, "a", "move-type = other\n", "2010-01-01 -", FALSE,
                    "a.terms:5: the regime “a” is in a.terms:5 already; expected another “regime”, or only one of the "
                    "two files");
  assert_not_added (set, "a", "move-type = military\n", "2010-01-01 -", TRUE,
                    "a.terms:5: for military moves the regime “b” in b.terms:5 governs pick-ups from 2010-01-01 on "
                    "already; expected days that do not overlap, or no “move-type”");

  add (set, "a", "move-type = interstate\n", "2009-06-01 -", TRUE);
  g_assert_cmpuint (wb_terms_set_count (set), ==, 2);
  assert_date (wb_terms_set_nth (set, 0)->from, "2009-06-01");
}

/* --- finding -------------------------------------------------------------------------------------------------- */

typedef struct
{
  WbMoveType  move_type;
  const char *region;
  const char *terms;
  const char *picked_up_on;
  const char *pickup_from;
  const char *found;         /* "regime from", or NULL */
  const char *message;
} Search;

static const Search searches[] = {
  /* first and last day of editions, and the days beside them */
  { WB_MOVE_INTERSTATE, NULL, NULL, "2010-01-01", NULL, "inter 2010-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, "2010-12-31", NULL, "inter 2010-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, "2011-01-01", NULL, "inter 2011-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, "2199-12-31", NULL, "inter 2011-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, "2009-12-31", NULL, NULL,
    "no terms for interstate moves govern a pick-up on 2009-12-31; there are some from 2010-01-01 until 2010-12-31, "
    "from 2011-01-01 on" },
  { WB_MOVE_INTRASTATE, "WA", NULL, "2015-01-01", NULL, "state 2015-01-01" },
  { WB_MOVE_INTRASTATE, "WA", NULL, "2015-01-02", NULL, NULL,
    "no terms for intrastate moves in WA govern a pick-up on 2015-01-02; there are some from 2015-01-01 until 2015-01-01" },
  /* the actual day goes before the agreed one */
  { WB_MOVE_INTERSTATE, NULL, NULL, "2011-01-01", "2010-12-31", "inter 2011-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, NULL, "2010-12-31", "inter 2010-01-01" },
  /* regions */
  { WB_MOVE_INTERSTATE, "WA", NULL, "2010-06-01", NULL, "inter 2010-01-01" },
  { WB_MOVE_INTRASTATE, "wa", NULL, "2015-01-01", NULL, "state 2015-01-01" },
  { WB_MOVE_INTRASTATE, "OR", NULL, "2015-01-01", NULL, NULL, "there are no terms for intrastate moves in OR" },
  { WB_MOVE_INTRASTATE, NULL, NULL, "2015-01-01", NULL, NULL, "there are no terms for intrastate moves" },
  { WB_MOVE_MILITARY, NULL, NULL, "2015-01-01", NULL, NULL, "there are no terms for military moves" },
  /* an order's own choice goes before its kind of move */
  { WB_MOVE_INTRASTATE, "WA", "named", "2010-06-01", NULL, "named 2010-01-01" },
  { WB_MOVE_NONE, NULL, "named", "2010-06-01", NULL, "named 2010-01-01" },
  { WB_MOVE_INTERSTATE, NULL, "state", "2015-01-01", NULL, "state 2015-01-01" },
  { WB_MOVE_INTERSTATE, NULL, "named", "2009-12-31", NULL, NULL,
    "no terms of the regime “named” govern a pick-up on 2009-12-31; there are some from 2010-01-01 on" },
  { WB_MOVE_INTERSTATE, NULL, "nowhere", "2010-06-01", NULL, NULL, "there are no terms of the regime “nowhere”" },
};

static WbTermsSet *
make_set (void)
{
  WbTermsSet *set = wb_terms_set_new ();

  add (set, "inter", "move-type = interstate\n", "2010-01-01 2010-12-31 2011-01-01 -", FALSE);
  add (set, "state", "move-type = intrastate\nregion = WA\n", "2015-01-01 2015-01-01", FALSE);
  add (set, "named", "", "2010-01-01 -", FALSE);
  return set;
}

static WbOrder *
make_order (const Search *row)
{
  WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");

  order->move_type = row->move_type;
  wb_set_text (&order->region, row->region);
  wb_set_text (&order->terms, row->terms);
  if (row->picked_up_on != NULL)
    g_assert_true (wb_date_parse (row->picked_up_on, &order->picked_up_on, NULL));
  if (row->pickup_from != NULL)
    g_assert_true (wb_date_parse (row->pickup_from, &order->pickup_from, NULL));
  return order;
}

static void
test_find (void)
{
  g_autoptr (WbTermsSet) set = make_set ();

  for (guint i = 0; i < G_N_ELEMENTS (searches); i++)
    {
      const Search *row = &searches[i];
      g_autoptr (WbOrder) order = make_order (row);
      g_autoptr (GError) error = NULL;
      const WbTerms *terms = wb_terms_set_find (set, order, &error);

      if (row->found != NULL)
        {
          g_autofree char *from = NULL;
          g_autofree char *found = NULL;

          g_assert_no_error (error);
          from = wb_date_to_text (&terms->from);
          found = g_strdup_printf ("%s %s", terms->regime, from);
          g_assert_cmpstr (found, ==, row->found);
        }
      else
        {
          g_assert_null (terms);
          g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);
          g_assert_cmpstr (error->message, ==, row->message);
        }
    }
}

static void
test_find_lacks (void)
{
  static const Search rows[] = {
    { WB_MOVE_NONE, NULL, NULL, "2010-06-01", NULL, NULL,
      "the order has neither a type of move nor a choice of terms" },
    { WB_MOVE_INTERSTATE, NULL, NULL, NULL, NULL, NULL, "the order has no day of pick-up, neither actual nor agreed" },
    { WB_MOVE_NONE, NULL, "named", NULL, NULL, NULL, "the order has no day of pick-up, neither actual nor agreed" },
  };
  g_autoptr (WbTermsSet) set = make_set ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (WbOrder) order = make_order (&rows[i]);
      g_autoptr (GError) error = NULL;

      g_assert_null (wb_terms_set_find (set, order, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
      g_assert_cmpstr (error->message, ==, rows[i].message);
    }
}

/* Where no regime has the order's region, that of the kind of move and no region governs; but a region's own regime is not
 * left for it because of a date. */
static void
test_find_without_region (void)
{
  static const Search rows[] = {
    { WB_MOVE_INTRASTATE, "OR", NULL, "2014-01-01", NULL, "everywhere 2010-01-01" },
    { WB_MOVE_INTRASTATE, NULL, NULL, "2014-01-01", NULL, "everywhere 2010-01-01" },
    { WB_MOVE_INTRASTATE, "WA", NULL, "2014-01-01", NULL, NULL },
  };
  g_autoptr (WbTermsSet) set = make_set ();

  add (set, "everywhere", "move-type = intrastate\n", "2010-01-01 -", FALSE);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (WbOrder) order = make_order (&rows[i]);
      const WbTerms *terms = wb_terms_set_find (set, order, NULL);

      if (rows[i].found == NULL)
        g_assert_null (terms);
      else
        g_assert_cmpstr (terms->regime, ==, "everywhere");
    }
}

/* --- shipped files -------------------------------------------------------------------------------------------- */

static const char *const shipped[] = { "us-interstate", "us-military", "us-washington" };

static char *
read_shipped (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".terms", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "terms", file, NULL);
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

/* No file lies in the folder that is not read here; all of them go together in one set. */
static void
test_shipped (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "terms", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();
  const char *name;
  guint n = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".terms") && !g_str_equal (name, "blank.terms"))
      {
        g_autofree char *stem = g_strndup (name, strlen (name) - strlen (".terms"));
        g_autofree char *text = read_shipped (stem);
        g_autoptr (GPtrArray) editions = parse (text);
        g_autoptr (GError) error = NULL;
        const WbTerms *terms = g_ptr_array_index (editions, 0);

        g_assert_true (g_strv_contains ((const char *const[]) { shipped[0], shipped[1], shipped[2], NULL }, stem));
        g_assert_cmpstr (terms->regime, ==, stem);
        wb_terms_set_add (set, editions, FALSE, &error);
        g_assert_no_error (error);
        n++;
      }
  g_assert_cmpuint (n, ==, G_N_ELEMENTS (shipped));
  g_assert_cmpuint (wb_terms_set_count (set), ==, 5);
}

/* A shipped file leaves nothing that costs money to silence: each edition writes the freight, the measure, the limits. */
static void
test_shipped_says_it (void)
{
  static const WbTermsKey general[] = { WB_KEY_ROUNDING, WB_KEY_WITHOUT_WAIVER, WB_KEY_CARTON, WB_KEY_PARTS,
                                        WB_KEY_DEMAND, WB_KEY_SALVAGE, WB_KEY_DEPRECIATION_MAXIMUM,
                                        WB_KEY_FREIGHT_PARTIAL_LOSS, WB_KEY_FREIGHT_TOTAL_LOSS, WB_KEY_CLAIM_WITHIN,
                                        WB_KEY_LATE_CLAIM, WB_KEY_DECIDE_WITHIN };

  for (guint i = 0; i < G_N_ELEMENTS (shipped); i++)
    {
      g_autofree char *text = read_shipped (shipped[i]);
      g_autoptr (GPtrArray) editions = parse (text);

      for (guint j = 0; j < editions->len; j++)
        {
          const WbTerms *terms = g_ptr_array_index (editions, j);

          for (guint k = 0; k < G_N_ELEMENTS (general); k++)
            g_assert_true (wb_terms_is_given (terms, WB_SCOPE_GENERAL, general[k]));
          for (guint side = 0; side < WB_N_SIDES; side++)
            {
              g_assert_true (wb_terms_is_given (terms, (WbScope) side, WB_KEY_OFFERED));
              if (terms->side[side].offered)
                g_assert_true (wb_terms_is_given (terms, (WbScope) side, WB_KEY_MEASURE));
            }
        }
    }
}

/* The blank file is no regime as it is. Filled in as it tells to, it is one, and has every key there is. */
static void
test_blank (void)
{
  g_autofree char *text = read_shipped ("blank");
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  g_autofree char *filled = NULL;
  g_autoptr (GPtrArray) editions = NULL;
  g_autoptr (GError) error = NULL;
  const WbTerms *terms;

  g_assert_null (wb_terms_parse (text, strlen (text), FILE_NAME, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);

  for (guint i = 0; lines[i] != NULL; i++)
    if (lines[i][0] == '#' && lines[i][1] != ' ' && lines[i][1] != '\0')
      memmove (lines[i], lines[i] + 1, strlen (lines[i]));
  filled = g_strjoinv ("\n", lines);
  editions = parse (filled);
  g_assert_cmpuint (editions->len, ==, 1);

  terms = g_ptr_array_index (editions, 0);
  g_assert_nonnull (terms->region);
  g_assert_cmpint (terms->move_type, !=, WB_MOVE_NONE);
  g_assert_true (wb_date_is_set (&terms->until));
  for (guint key = 0; key < WB_N_TERMS_KEYS; key++)
    for (guint scope = 0; scope < WB_N_SCOPES; scope++)
      {
        gboolean general = key < WB_KEY_OFFERED;

        g_assert_cmpint (wb_terms_is_given (terms, (WbScope) scope, (WbTermsKey) key), ==,
                         general == (scope == WB_SCOPE_GENERAL));
        if (general == (scope == WB_SCOPE_GENERAL))
          g_assert_nonnull (wb_terms_citation (terms, (WbScope) scope, (WbTermsKey) key));
      }
}

/* Every key, word and section of the format is in its description. */
static void
test_format_is_described (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "terms", "FORMAT.md", NULL);
  g_autofree char *text = NULL;
  const WbEnum *const lists[] = {
    &wb_terms_keys, &wb_roundings, &wb_measures, &wb_carton_rules, &wb_parts_rules, &wb_demand_rules, &wb_salvage_rules,
    &wb_freight_rules, &wb_late_rules, &wb_below_minimum_rules, &wb_deductible_orders, &wb_extraordinary_weights,
  };

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    for (gsize j = 0; j < lists[i]->n_values; j++)
      {
        g_autofree char *quoted = g_strdup_printf ("`%s`", lists[i]->values[j].nick);

        g_assert_nonnull (strstr (text, quoted));
      }
  for (gsize j = 1; j < wb_move_types.n_values; j++)
    g_assert_nonnull (strstr (text, wb_move_types.values[j].nick));
}

/* --- mutations ------------------------------------------------------------------------------------------------ */

static guint
random_below (GRand *rand,
              gsize  end)
{
  return end < 2 ? 0 : (guint) g_rand_int_range (rand, 0, (gint32) end);
}

/* Changes @text somewhere in one of the ways in which files go wrong. */
static void
mutate (GString *text,
        GRand   *rand)
{
  static const char *const pieces[] = { ";", "=", "[", "]", "#", "\n", " ", "-", ".", "9", "0", "lb", "per", "100", "at",
                                        "[edition]\n", "[full]\n", "until = 2012-05-15\n", "\r", "\t", "\x01", "\xff", "€",
                                        "99999999999999999999", ", " };
  gsize at = random_below (rand, text->len + 1);
  gsize wanted = random_below (rand, 40);
  gsize length = MIN (wanted, text->len - at);

  switch (g_rand_int_range (rand, 0, 6))
    {
    case 0:
      if (at < text->len)
        text->str[at] = (char) g_rand_int_range (rand, 0, 256);
      break;
    case 1:
      g_string_erase (text, (gssize) at, (gssize) length);
      break;
    case 2:
      g_string_insert (text, (gssize) at, pieces[random_below (rand, G_N_ELEMENTS (pieces))]);
      break;
    case 3:
      {
        g_autofree char *copy = g_strndup (text->str + at, length);

        g_string_insert (text, (gssize) random_below (rand, text->len + 1), copy);
        break;
      }
    case 4:
      g_string_truncate (text, at);
      break;
    default:
      {
        /* A line goes somewhere else. */
        const char *end = memchr (text->str + at, '\n', text->len - at);
        gsize next = end != NULL ? (gsize) (end - text->str) + 1 : text->len;
        const char *next_end = memchr (text->str + next, '\n', text->len - next);
        gsize stop = next_end != NULL ? (gsize) (next_end - text->str) + 1 : text->len;
        g_autofree char *line = g_strndup (text->str + next, stop - next);

        g_string_erase (text, (gssize) next, (gssize) (stop - next));
        g_string_insert (text, (gssize) random_below (rand, text->len + 1), line);
        break;
      }
    }
}

static void
assert_told_where (const GError *error)
{
  const char *rest = error->message + strlen (FILE_NAME ":");
  char *end;

  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);
  g_assert_true (g_str_has_prefix (error->message, FILE_NAME ":"));
  g_assert_cmpuint (g_ascii_strtoull (rest, &end, 10), >, 0);
  g_assert_true (g_str_has_prefix (end, ": "));
  g_assert_nonnull (strstr (end, "; expected "));
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
}

static void
test_mutations (void)
{
  guint32 seed = (guint32) g_test_rand_int ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  guint n_good = 0;

  g_test_message ("seed %u", seed);
  for (guint i = 0; i < N_MUTATIONS; i++)
    {
      g_autofree char *original = read_shipped (shipped[i % G_N_ELEMENTS (shipped)]);
      g_autoptr (GString) text = g_string_new (original);
      g_autoptr (GPtrArray) editions = NULL;
      g_autoptr (GError) error = NULL;

      for (guint n = 1 + random_below (rand, 4); n > 0; n--)
        mutate (text, rand);
      editions = wb_terms_parse (text->str, text->len, FILE_NAME, &error);

      g_assert_true ((editions == NULL) == (error != NULL));
      if (error != NULL)
        assert_told_where (error);
      else
        {
          g_assert_cmpuint (editions->len, >, 0);
          n_good++;
        }
    }
  /* Both must happen, or the mutations are no test of anything. */
  g_assert_cmpuint (n_good, >, N_MUTATIONS / 20);
  g_assert_cmpuint (n_good, <, N_MUTATIONS - N_MUTATIONS / 20);
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
  g_test_add_func ("/core/terms/set/order", test_set_order);
  g_test_add_func ("/core/terms/set/overlap", test_set_overlap);
  g_test_add_func ("/core/terms/set/replace", test_set_replace);
  g_test_add_func ("/core/terms/find/edition", test_find);
  g_test_add_func ("/core/terms/find/lacks", test_find_lacks);
  g_test_add_func ("/core/terms/find/without-region", test_find_without_region);
  g_test_add_func ("/core/terms/shipped/read", test_shipped);
  g_test_add_func ("/core/terms/shipped/says-it", test_shipped_says_it);
  g_test_add_func ("/core/terms/shipped/blank", test_blank);
  g_test_add_func ("/core/terms/shipped/format", test_format_is_described);
  g_test_add_func ("/core/terms/mutations", test_mutations);

  return g_test_run ();
}
