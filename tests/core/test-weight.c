/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact weights: pounds and kilograms together, text both ways, and the weight of a volume. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-weight.h"

#include "random-values.h"

#define LB WB_WEIGHT_UNIT_LB
#define KG WB_WEIGHT_UNIT_KG
#define NONE WB_WEIGHT_UNIT_NONE

static void
test_units (void)
{
  WbWeight unset = WB_WEIGHT_UNSET;
  WbWeight stale = { 5, NONE };

  /* 1 lb = 0.45359237 kg by definition. */
  g_assert_cmpint (WB_GRAINS_PER_LB * 100000000, ==, WB_GRAINS_PER_KG * 45359237);
  g_assert_cmpint (wb_weight (100, LB).grains, ==, WB_GRAINS_PER_LB);
  g_assert_cmpint (wb_weight (100, KG).grains, ==, WB_GRAINS_PER_KG);
  g_assert_cmpint (wb_weight (1, LB).grains, ==, 45359237);
  g_assert_cmpint (wb_weight (-250, KG).grains, ==, G_GINT64_CONSTANT (-25000000000));
  g_assert_cmpint (wb_weight (G_GINT64_CONSTANT (90000000000), KG).grains, ==,
                   G_GINT64_CONSTANT (9000000000000000000));

  g_assert_false (wb_weight_is_set (unset));
  g_assert_true (wb_weight_is_set (wb_weight (0, LB)));
  g_assert_true (wb_weight_equal (unset, stale));
  g_assert_false (wb_weight_equal (unset, wb_weight (0, LB)));
  g_assert_false (wb_weight_equal (wb_weight (0, KG), wb_weight (0, LB)));
  g_assert_true (wb_weight_equal (wb_weight (7, KG), wb_weight (7, KG)));
  g_assert_false (wb_weight_equal (wb_weight (7, KG), wb_weight (8, KG)));
}

static void
test_sums (void)
{
  g_autoptr (GError) error = NULL;
  WbWeight out;

  g_assert_true (wb_weight_add (wb_weight (12000, LB), wb_weight (550, LB), &out, &error));
  g_assert_no_error (error);
  g_assert_true (wb_weight_equal (out, wb_weight (12550, LB)));

  /* 453.59237 kg are 1000 lb: mixed units stay exact, the first one shows. */
  g_assert_true (wb_weight_add (wb_weight (0, LB), (WbWeight) { 4535923700000, KG }, &out, &error));
  g_assert_no_error (error);
  g_assert_true (wb_weight_equal (out, wb_weight (100000, LB)));

  g_assert_true (wb_weight_subtract (wb_weight (100, KG), wb_weight (100, LB), &out, &error));
  g_assert_no_error (error);
  g_assert_cmpint (out.grains, ==, WB_GRAINS_PER_KG - WB_GRAINS_PER_LB);
  g_assert_cmpint (out.unit, ==, KG);

  g_assert_true (wb_weight_subtract (wb_weight (100, LB), wb_weight (100, KG), &out, &error));
  g_assert_no_error (error);
  g_assert_cmpint (out.grains, <, 0);
}

static void
test_sums_errors (void)
{
  const WbWeight most = { G_MAXINT64, LB }, least = { G_MININT64, KG }, one = { 1, KG };
  const WbWeight sums[][2] = { { most, one }, { one, most }, { least, { -1, LB } } };
  const WbWeight differences[][2] = { { least, one }, { most, { -1, LB } }, { { 0, LB }, least } };
  const WbWeight missing[][2] = { { WB_WEIGHT_UNSET, one }, { one, WB_WEIGHT_UNSET },
                                  { WB_WEIGHT_UNSET, WB_WEIGHT_UNSET } };

  for (gsize i = 0; i < 3; i++)
    {
      g_autoptr (GError) sum = NULL;
      g_autoptr (GError) difference = NULL;
      g_autoptr (GError) sum_missing = NULL;
      g_autoptr (GError) difference_missing = NULL;
      WbWeight out = { 42, KG };

      g_assert_false (wb_weight_add (sums[i][0], sums[i][1], &out, &sum));
      g_assert_error (sum, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
      g_assert_false (wb_weight_subtract (differences[i][0], differences[i][1], &out, &difference));
      g_assert_error (difference, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
      g_assert_false (wb_weight_add (missing[i][0], missing[i][1], &out, &sum_missing));
      g_assert_error (sum_missing, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
      g_assert_false (wb_weight_subtract (missing[i][0], missing[i][1], &out, &difference_missing));
      g_assert_error (difference_missing, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
      g_assert_cmpint (out.grains, ==, 42);
    }
}

static void
test_parse_cases (void)
{
  static const struct
  {
    const char  *text;
    WbWeightUnit unit;
    gint64       hundredths;
    WbWeightUnit expected;
  } cases[] = {
    { "1,250 lb", NONE, 125000, LB },
    { "54.5 kg", NONE, 5450, KG },
    { "54.5 kg", LB, 5450, KG },
    { "120", LB, 12000, LB },
    { "120", KG, 12000, KG },
    { "0", LB, 0, LB },
    { ".25 lb", NONE, 25, LB },
    { "120lb", NONE, 12000, LB },
    { "120 LBS", NONE, 12000, LB },
    { "120 lbs.", NONE, 12000, LB },
    { "120 Pounds", NONE, 12000, LB },
    { "120#", NONE, 12000, LB },
    { "5 kilograms", NONE, 500, KG },
    { "  5\xc2\xa0kg ", NONE, 500, KG },
    { "2033405464.21 lb", NONE, G_GINT64_CONSTANT (203340546421), LB },
    { "922337203.68 kg", NONE, G_GINT64_CONSTANT (92233720368), KG },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbWeight out = WB_WEIGHT_UNSET;

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_true (wb_weight_parse (cases[i].text, cases[i].unit, &out, &error));
      g_assert_no_error (error);
      g_assert_cmpint (out.unit, ==, cases[i].expected);
      g_assert_cmpint (out.grains, ==, wb_weight (cases[i].hundredths, cases[i].expected).grains);
    }
}

static void
test_parse_errors (void)
{
  static const struct
  {
    const char  *text;
    WbWeightUnit unit;
    int          code;
    const char  *part;   /* of the message */
  } cases[] = {
    { "", LB, WB_CORE_ERROR_PARSE, "A number is missing" },
    { "lb", LB, WB_CORE_ERROR_PARSE, "“lb”" },
    { "-", LB, WB_CORE_ERROR_PARSE, "character 2" },
    { "120", NONE, WB_CORE_ERROR_PARSE, "“120” names no unit; write lb or kg" },
    { "120 st", LB, WB_CORE_ERROR_PARSE, "“st” is not a unit of weight; write lb or kg" },
    { "120 lb 5 oz", LB, WB_CORE_ERROR_PARSE, "“lb 5 oz”" },
    { "1 200 lb", LB, WB_CORE_ERROR_PARSE, "“200 lb”" },
    { "120 cuft", LB, WB_CORE_ERROR_PARSE, "“cuft” is not a unit of weight" },
    { "1.234 lb", LB, WB_CORE_ERROR_PARSE, "more than 2 digits" },
    { "1,25 lb", LB, WB_CORE_ERROR_PARSE, "character 2, the comma" },
    { "5 .lb", LB, WB_CORE_ERROR_PARSE, "“.lb”" },
    { "5 lb\xff", LB, WB_CORE_ERROR_PARSE, "is not a unit" },
    { "-5 lb", LB, WB_CORE_ERROR_RANGE, "“-5 lb” is negative" },
    { "-0 lb", LB, WB_CORE_ERROR_RANGE, "negative" },
    { "2033405464.22 lb", NONE, WB_CORE_ERROR_OVERFLOW, "“2033405464.22 lb” is too large" },
    { "922337203.69 kg", NONE, WB_CORE_ERROR_OVERFLOW, "“922337203.69 kg” is too large" },
    { "99999999999999999999 kg", NONE, WB_CORE_ERROR_OVERFLOW, "too large" },
    { "92233720368547758 kg", NONE, WB_CORE_ERROR_OVERFLOW, "too large a weight" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbWeight out = { 42, KG };

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_false (wb_weight_parse (cases[i].text, cases[i].unit, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].part));
      g_assert_cmpint (out.grains, ==, 42);
    }
}

static void
test_to_text (void)
{
  const struct
  {
    WbWeight    weight;
    const char *text;
  } cases[] = {
    { WB_WEIGHT_UNSET, "" },
    { wb_weight (0, LB), "0 lb" },
    { wb_weight (12000, LB), "120 lb" },
    { wb_weight (5450, KG), "54.50 kg" },
    { wb_weight (1, KG), "0.01 kg" },
    { wb_weight (-12345, LB), "-123.45 lb" },
    { { WB_GRAINS_PER_KG, LB }, "2.20 lb" },
    { { WB_GRAINS_PER_LB, KG }, "0.45 kg" },
    /* At the half of a hundredth. */
    { { 49999999, KG }, "0 kg" },
    { { 50000000, KG }, "0.01 kg" },
    { { -49999999, KG }, "0 kg" },
    { { -50000000, KG }, "-0.01 kg" },
    { { 9950000000, KG }, "1 kg" },
    { { G_MAXINT64, KG }, "922337203.69 kg" },
    { { G_MININT64, KG }, "-922337203.69 kg" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = wb_weight_to_text (cases[i].weight);

      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

static void
test_text_random (void)
{
  random_begin ();
  for (guint i = 0; i < 5000; i++)
    {
      WbWeightUnit unit = g_test_rand_int_range (0, 2) == 0 ? LB : KG;
      WbWeight weight = wb_weight (random_natural (G_GINT64_CONSTANT (90000000000)), unit);
      g_autofree char *text = wb_weight_to_text (weight);
      g_autoptr (GError) error = NULL;
      WbWeight out;

      g_assert_true (wb_weight_parse (text, NONE, &out, &error));
      g_assert_no_error (error);
      g_assert_true (wb_weight_equal (out, weight));
    }
}

static void
test_parse_hostile (void)
{
  static const char *const pieces[] = {
    "0", "1", "23", "456", "9999999999", ".", ",", "-", " ", "\n", "lb", "LBS", "kg", "#", "pound",
    "x", "%s", "\xff", "\xe2", "m3", NULL
  };

  random_begin ();
  for (guint i = 0; i < 20000; i++)
    {
      g_autofree char *text = random_text (pieces, 6);
      g_autoptr (GError) error = NULL;
      WbWeight out = { 42, KG }, again;

      if (wb_weight_parse (text, i % 2 == 0 ? LB : NONE, &out, &error))
        {
          g_autofree char *canonical = wb_weight_to_text (out);

          g_assert_no_error (error);
          g_assert_true (wb_weight_parse (canonical, NONE, &again, NULL));
          g_assert_true (wb_weight_equal (out, again));
        }
      else
        {
          g_assert_nonnull (error);
          g_assert_true (g_utf8_validate (error->message, -1, NULL));
          g_assert_cmpint (out.grains, ==, 42);
        }
    }
}

static void
test_from_volume (void)
{
  const struct
  {
    WbVolume    volume;
    WbWeight    per_cuft;
    const char *expected;
  } cases[] = {
    { wb_volume (100000, WB_VOLUME_UNIT_CUFT), wb_weight (700, LB), "7000 lb" },
    { wb_volume (310, WB_VOLUME_UNIT_CUFT), wb_weight (700, LB), "21.70 lb" },
    { wb_volume (0, WB_VOLUME_UNIT_CUFT), wb_weight (700, LB), "0 lb" },
    /* 1 m³ = 35.3146667… cuft; × 7 = 247.2026670… */
    { wb_volume (100, WB_VOLUME_UNIT_M3), wb_weight (700, LB), "247.20 lb" },
    { wb_volume (4000, WB_VOLUME_UNIT_M3), wb_weight (700, LB), "9888.11 lb" },
    { wb_volume (100000, WB_VOLUME_UNIT_CUFT), wb_weight (318, KG), "3180 kg" },
    /* 0.01 cuft at 0.50 is half of a hundredth. */
    { wb_volume (1, WB_VOLUME_UNIT_CUFT), wb_weight (50, LB), "0.01 lb" },
    { wb_volume (1, WB_VOLUME_UNIT_CUFT), wb_weight (49, LB), "0 lb" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;
      WbWeight out;

      g_assert_true (wb_weight_from_volume (cases[i].volume, cases[i].per_cuft, &out, &error));
      g_assert_no_error (error);
      text = wb_weight_to_text (out);
      g_assert_cmpstr (text, ==, cases[i].expected);

      /* It is a whole number of hundredths. */
      g_assert_cmpint (out.grains % wb_weight (1, out.unit).grains, ==, 0);
    }
}

static void
test_from_volume_errors (void)
{
  const WbVolume volume = wb_volume (100, WB_VOLUME_UNIT_M3);
  const WbVolume huge = { G_MAXINT64, WB_VOLUME_UNIT_M3 };
  const WbWeight seven = wb_weight (700, LB), heavy = { G_MAXINT64, LB };
  const struct
  {
    WbVolume volume;
    WbWeight per_cuft;
    int      code;
  } cases[] = {
    { WB_VOLUME_UNSET, seven, WB_CORE_ERROR_MISSING },
    { volume, WB_WEIGHT_UNSET, WB_CORE_ERROR_MISSING },
    { huge, heavy, WB_CORE_ERROR_OVERFLOW },
    { volume, heavy, WB_CORE_ERROR_OVERFLOW },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbWeight out = { 42, KG };

      g_assert_false (wb_weight_from_volume (cases[i].volume, cases[i].per_cuft, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_cmpint (out.grains, ==, 42);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/weight/units", test_units);
  g_test_add_func ("/core/weight/sums", test_sums);
  g_test_add_func ("/core/weight/sums/errors", test_sums_errors);
  g_test_add_func ("/core/weight/parse/cases", test_parse_cases);
  g_test_add_func ("/core/weight/parse/errors", test_parse_errors);
  g_test_add_func ("/core/weight/parse/hostile", test_parse_hostile);
  g_test_add_func ("/core/weight/text/cases", test_to_text);
  g_test_add_func ("/core/weight/text/random", test_text_random);
  g_test_add_func ("/core/weight/from-volume/cases", test_from_volume);
  g_test_add_func ("/core/weight/from-volume/errors", test_from_volume_errors);
  return g_test_run ();
}
