/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rates: money per pound, kilogram, hundredweight and volume, applied with one rounding. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-rate.h"

#include "random-values.h"

#define LB WB_WEIGHT_UNIT_LB
#define KG WB_WEIGHT_UNIT_KG
#define CUFT WB_VOLUME_UNIT_CUFT
#define M3 WB_VOLUME_UNIT_M3

static WbRate
usd (gint64     minor,
     WbRateUnit unit)
{
  return (WbRate) { wb_money (minor, "USD"), unit };
}

static void
test_kinds (void)
{
  WbRate unset = { WB_MONEY_UNSET, WB_RATE_UNIT_NONE };

  g_assert_false (wb_rate_is_set (unset));
  g_assert_true (wb_rate_is_set (usd (0, WB_RATE_UNIT_LB)));
  g_assert_false (wb_rate_is_by_volume (unset));
  g_assert_false (wb_rate_is_by_volume (usd (1, WB_RATE_UNIT_LB)));
  g_assert_false (wb_rate_is_by_volume (usd (1, WB_RATE_UNIT_KG)));
  g_assert_false (wb_rate_is_by_volume (usd (1, WB_RATE_UNIT_CWT)));
  g_assert_true (wb_rate_is_by_volume (usd (1, WB_RATE_UNIT_CUFT)));
  g_assert_true (wb_rate_is_by_volume (usd (1, WB_RATE_UNIT_M3)));
}

static void
test_apply (void)
{
  /* Expected in the order of WbRounding: half up, half even, down, up. */
  const struct
  {
    WbRate   rate;
    WbWeight weight;
    WbVolume volume;
    gint64   expected[4];
  } cases[] = {
    { usd (60, WB_RATE_UNIT_LB), wb_weight (5000, LB), WB_VOLUME_UNSET,
      { 3000, 3000, 3000, 3000 } },
    { usd (60, WB_RATE_UNIT_LB), wb_weight (0, LB), WB_VOLUME_UNSET, { 0, 0, 0, 0 } },
    { usd (600, WB_RATE_UNIT_LB), wb_weight (400000, LB), WB_VOLUME_UNSET,
      { 2400000, 2400000, 2400000, 2400000 } },
    /* 0.10 × 0.25 = 2.5 cents, 0.10 × 0.35 = 3.5 cents */
    { usd (10, WB_RATE_UNIT_LB), wb_weight (25, LB), WB_VOLUME_UNSET, { 3, 2, 2, 3 } },
    { usd (10, WB_RATE_UNIT_LB), wb_weight (35, LB), WB_VOLUME_UNSET, { 4, 4, 3, 4 } },
    /* 0.60 per lb for 1 kg = 2.2046226… lb = 132.277… cents */
    { usd (60, WB_RATE_UNIT_LB), wb_weight (100, KG), WB_VOLUME_UNSET, { 132, 132, 132, 133 } },
    /* 10.00 per kg for 1 lb = 453.59237 cents */
    { usd (1000, WB_RATE_UNIT_KG), wb_weight (100, LB), WB_VOLUME_UNSET, { 454, 454, 453, 454 } },
    { usd (5510, WB_RATE_UNIT_CWT), wb_weight (800000, LB), WB_VOLUME_UNSET,
      { 440800, 440800, 440800, 440800 } },
    { usd (1, WB_RATE_UNIT_CWT), wb_weight (5000, LB), WB_VOLUME_UNSET, { 1, 0, 0, 1 } },
    { usd (62000, WB_RATE_UNIT_M3), WB_WEIGHT_UNSET, wb_volume (4000, M3),
      { 2480000, 2480000, 2480000, 2480000 } },
    { usd (250, WB_RATE_UNIT_CUFT), wb_weight (100, LB), wb_volume (310, CUFT),
      { 775, 775, 775, 775 } },
    /* 1 m³ = 35.3146667… cuft */
    { usd (100, WB_RATE_UNIT_CUFT), WB_WEIGHT_UNSET, wb_volume (100, M3),
      { 3531, 3531, 3531, 3532 } },
    { usd (-10, WB_RATE_UNIT_LB), wb_weight (25, LB), WB_VOLUME_UNSET, { -3, -2, -2, -3 } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    for (int rounding = WB_ROUND_HALF_UP; rounding <= WB_ROUND_UP; rounding++)
      {
        g_autoptr (GError) error = NULL;
        WbMoney out = WB_MONEY_UNSET;

        g_test_message ("row %" G_GSIZE_FORMAT ", rounding %d", i, rounding);
        g_assert_true (wb_rate_apply (cases[i].rate, cases[i].weight, cases[i].volume,
                                      (WbRounding) rounding, &out, &error));
        g_assert_no_error (error);
        g_assert_cmpint (out.minor, ==, cases[i].expected[rounding]);
        g_assert_cmpstr (out.currency, ==, "USD");
      }
}

static void
test_apply_errors (void)
{
  const WbWeight most_weight = { G_MAXINT64, LB };
  const WbVolume most_volume = { G_MAXINT64, M3 };
  const struct
  {
    WbRate   rate;
    WbWeight weight;
    WbVolume volume;
    int      code;
  } cases[] = {
    { { WB_MONEY_UNSET, WB_RATE_UNIT_NONE }, most_weight, most_volume, WB_CORE_ERROR_MISSING },
    { { WB_MONEY_UNSET, WB_RATE_UNIT_LB }, most_weight, most_volume, WB_CORE_ERROR_MISSING },
    { usd (60, WB_RATE_UNIT_LB), WB_WEIGHT_UNSET, most_volume, WB_CORE_ERROR_MISSING },
    { usd (60, WB_RATE_UNIT_M3), most_weight, WB_VOLUME_UNSET, WB_CORE_ERROR_MISSING },
    { usd (G_MAXINT64, WB_RATE_UNIT_LB), most_weight, WB_VOLUME_UNSET, WB_CORE_ERROR_OVERFLOW },
    { usd (G_MININT64, WB_RATE_UNIT_M3), WB_WEIGHT_UNSET, most_volume, WB_CORE_ERROR_OVERFLOW },
    { usd (G_MAXINT64, WB_RATE_UNIT_LB), wb_weight (101, LB), WB_VOLUME_UNSET,
      WB_CORE_ERROR_OVERFLOW },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbMoney out = wb_money (42, "EUR");

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_false (wb_rate_apply (cases[i].rate, cases[i].weight, cases[i].volume,
                                     WB_ROUND_HALF_UP, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_true (wb_money_equal (out, wb_money (42, "EUR")));
    }
}

static void
test_parse_cases (void)
{
  static const struct
  {
    const char *text;
    const char *currency;
    gint64      minor;
    WbRateUnit  unit;
    const char *canonical;
  } cases[] = {
    { "0.60 per lb", "USD", 60, WB_RATE_UNIT_LB, "0.60 USD per lb" },
    { "0.60 USD per lb", NULL, 60, WB_RATE_UNIT_LB, "0.60 USD per lb" },
    { "0.60 USD per lb", "USD", 60, WB_RATE_UNIT_LB, "0.60 USD per lb" },
    { "620.00 per m3", "EUR", 62000, WB_RATE_UNIT_M3, "620.00 EUR per m3" },
    { "$.60/lb", NULL, 60, WB_RATE_UNIT_LB, "0.60 USD per lb" },
    { "$6 Per Pound", NULL, 600, WB_RATE_UNIT_LB, "6.00 USD per lb" },
    { "55.10 per cwt", "USD", 5510, WB_RATE_UNIT_CWT, "55.10 USD per cwt" },
    { "55.10 per 100 lbs", "USD", 5510, WB_RATE_UNIT_CWT, "55.10 USD per cwt" },
    { "1,000 JPY per kg", NULL, 1000, WB_RATE_UNIT_KG, "1000 JPY per kg" },
    { "2.50 per cu. ft.", "CAD", 250, WB_RATE_UNIT_CUFT, "2.50 CAD per cuft" },
    { "0 per lb", "USD", 0, WB_RATE_UNIT_LB, "0.00 USD per lb" },
    { "6per lb", "USD", 600, WB_RATE_UNIT_LB, "6.00 USD per lb" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;
      WbRate out;

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_true (wb_rate_parse (cases[i].text, cases[i].currency, &out, &error));
      g_assert_no_error (error);
      g_assert_cmpint (out.per.minor, ==, cases[i].minor);
      g_assert_cmpint (out.unit, ==, cases[i].unit);
      text = wb_rate_to_text (out);
      g_assert_cmpstr (text, ==, cases[i].canonical);
    }
}

static void
test_parse_errors (void)
{
  static const struct
  {
    const char *text;
    const char *currency;
    int         code;
    const char *part;   /* of the message */
  } cases[] = {
    { "", "USD", WB_CORE_ERROR_PARSE, "“” is not a rate" },
    { "0.60", "USD", WB_CORE_ERROR_PARSE, "“0.60” is not a rate; write an amount" },
    { "0.60 lb", "USD", WB_CORE_ERROR_PARSE, "“0.60 lb”" },
    { "0.60 per", "USD", WB_CORE_ERROR_PARSE, "“0.60 per”" },
    { "0.60 per stone", "USD", WB_CORE_ERROR_PARSE, "“0.60 per stone”" },
    { "0.60 per lb per kg", "USD", WB_CORE_ERROR_PARSE, "is not a rate" },
    { "0.60 perlb", "USD", WB_CORE_ERROR_PARSE, "is not a rate" },
    { "per lb", "USD", WB_CORE_ERROR_PARSE, "A number is missing" },
    { "60 cents per lb", "USD", WB_CORE_ERROR_PARSE, "“cents”" },
    { "0.605 per lb", "USD", WB_CORE_ERROR_PARSE, "more than 2 digits" },
    { "0.60 per lb", NULL, WB_CORE_ERROR_PARSE, "names no currency" },
    { "0.60 EUR per lb", "USD", WB_CORE_ERROR_CURRENCY, "“0.60 EUR” is an amount in EUR" },
    { "0.60 per lb", "XQQ", WB_CORE_ERROR_CURRENCY, "“XQQ”" },
    { "-0.60 per lb", "USD", WB_CORE_ERROR_RANGE, "“-0.60 per lb” is negative" },
    { "99999999999999999999 per lb", "USD", WB_CORE_ERROR_OVERFLOW, "too large" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbRate out = usd (42, WB_RATE_UNIT_M3);

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_false (wb_rate_parse (cases[i].text, cases[i].currency, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].part));
      g_assert_cmpint (out.per.minor, ==, 42);
      g_assert_cmpint (out.unit, ==, WB_RATE_UNIT_M3);
    }
}

static void
test_text_random (void)
{
  const WbRate unset = { WB_MONEY_UNSET, WB_RATE_UNIT_NONE };
  g_autofree char *none = wb_rate_to_text (unset);
  const char *codes[] = { "USD", "JPY", "KWD" };

  g_assert_cmpstr (none, ==, "");

  random_begin ();
  for (guint i = 0; i < 3000; i++)
    {
      WbRate rate = {
        wb_money (random_natural (G_MAXINT64), codes[g_test_rand_int_range (0, 3)]),
        (WbRateUnit) g_test_rand_int_range (WB_RATE_UNIT_LB, WB_RATE_UNIT_M3 + 1)
      };
      g_autofree char *text = wb_rate_to_text (rate);
      g_autoptr (GError) error = NULL;
      WbRate out;

      g_assert_true (wb_rate_parse (text, i % 2 == 0 ? NULL : rate.per.currency, &out, &error));
      g_assert_no_error (error);
      g_assert_true (wb_money_equal (out.per, rate.per));
      g_assert_cmpint (out.unit, ==, rate.unit);
    }
}

/* A rate and a quantity in the same unit make a plain product of hundredths. */
static void
test_apply_random (void)
{
  random_begin ();
  for (guint i = 0; i < 5000; i++)
    {
      gint64 minor = random_natural (1000000), hundredths = random_natural (1000000000);
      WbRounding rounding = (WbRounding) g_test_rand_int_range (0, 4);
      g_autoptr (GError) error = NULL;
      WbMoney by_weight, by_volume;
      gint64 expected;

      g_assert_true (wb_minor_scale (minor, hundredths, 100, rounding, &expected, &error));
      g_assert_no_error (error);
      g_assert_true (wb_rate_apply (usd (minor, WB_RATE_UNIT_KG), wb_weight (hundredths, KG),
                                    WB_VOLUME_UNSET, rounding, &by_weight, &error));
      g_assert_no_error (error);
      g_assert_cmpint (by_weight.minor, ==, expected);

      hundredths %= 9000000;
      g_assert_true (wb_minor_scale (minor, hundredths, 100, rounding, &expected, &error));
      g_assert_no_error (error);
      g_assert_true (wb_rate_apply (usd (minor, WB_RATE_UNIT_CUFT), WB_WEIGHT_UNSET,
                                    wb_volume (hundredths, CUFT), rounding, &by_volume, &error));
      g_assert_no_error (error);
      g_assert_cmpint (by_volume.minor, ==, expected);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/rate/kinds", test_kinds);
  g_test_add_func ("/core/rate/apply/cases", test_apply);
  g_test_add_func ("/core/rate/apply/errors", test_apply_errors);
  g_test_add_func ("/core/rate/apply/random", test_apply_random);
  g_test_add_func ("/core/rate/parse/cases", test_parse_cases);
  g_test_add_func ("/core/rate/parse/errors", test_parse_errors);
  g_test_add_func ("/core/rate/text/random", test_text_random);
  return g_test_run ();
}
