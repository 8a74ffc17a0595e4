/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact volumes: cubic feet and cubic metres together, and text both ways. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-volume.h"

#include "random-values.h"

#define CUFT WB_VOLUME_UNIT_CUFT
#define M3 WB_VOLUME_UNIT_M3
#define NONE WB_VOLUME_UNIT_NONE

static void
test_units (void)
{
  WbVolume unset = WB_VOLUME_UNSET;

  /* 1 cuft = 0.028316846592 m³ by definition. */
  g_assert_cmpint (WB_BITS_PER_M3 / 100000000 * 28316846592 / 10000, ==, WB_BITS_PER_CUFT);
  g_assert_cmpint (wb_volume (100, CUFT).bits, ==, WB_BITS_PER_CUFT);
  g_assert_cmpint (wb_volume (100, M3).bits, ==, WB_BITS_PER_M3);
  g_assert_cmpint (wb_volume (1, CUFT).bits * 100, ==, WB_BITS_PER_CUFT);

  g_assert_false (wb_volume_is_set (unset));
  g_assert_true (wb_volume_is_set (wb_volume (0, CUFT)));
  g_assert_true (wb_volume_equal (unset, (WbVolume) { 5, NONE }));
  g_assert_false (wb_volume_equal (unset, wb_volume (0, M3)));
  g_assert_false (wb_volume_equal (wb_volume (0, CUFT), wb_volume (0, M3)));
  g_assert_true (wb_volume_equal (wb_volume (7, CUFT), wb_volume (7, CUFT)));
  g_assert_false (wb_volume_equal (wb_volume (7, CUFT), wb_volume (8, CUFT)));
}

static void
test_sums (void)
{
  const WbVolume most = { G_MAXINT64, CUFT }, one = { 1, M3 };
  g_autoptr (GError) error = NULL;
  WbVolume out = WB_VOLUME_UNSET;

  g_assert_true (wb_volume_add (wb_volume (310, CUFT), wb_volume (155, CUFT), &out, &error));
  g_assert_no_error (error);
  g_assert_true (wb_volume_equal (out, wb_volume (465, CUFT)));

  g_assert_true (wb_volume_add (wb_volume (100, M3), wb_volume (100, CUFT), &out, &error));
  g_assert_no_error (error);
  g_assert_cmpint (out.bits, ==, WB_BITS_PER_M3 + WB_BITS_PER_CUFT);
  g_assert_cmpint (out.unit, ==, M3);

  out = wb_volume (42, M3);
  g_assert_false (wb_volume_add (most, one, &out, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
  g_clear_error (&error);
  g_assert_false (wb_volume_add (WB_VOLUME_UNSET, one, &out, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_clear_error (&error);
  g_assert_false (wb_volume_add (one, WB_VOLUME_UNSET, &out, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_assert_true (wb_volume_equal (out, wb_volume (42, M3)));
}

static void
test_parse_cases (void)
{
  static const struct
  {
    const char  *text;
    WbVolumeUnit unit;
    gint64       hundredths;
    WbVolumeUnit expected;
  } cases[] = {
    { "3.10 cuft", NONE, 310, CUFT },
    { "3.1 cu ft", NONE, 310, CUFT },
    { "3.1 Cu. Ft.", NONE, 310, CUFT },
    { "3.1 cubic feet", NONE, 310, CUFT },
    { "1 cubic foot", NONE, 100, CUFT },
    { "3.1ft3", NONE, 310, CUFT },
    { "3.1 ft³", NONE, 310, CUFT },
    { "3.1 cf", M3, 310, CUFT },
    { "40 m3", NONE, 4000, M3 },
    { "40 m³", CUFT, 4000, M3 },
    { "40 CBM", NONE, 4000, M3 },
    { "1,000", CUFT, 100000, CUFT },
    { "12", M3, 1200, M3 },
    { "3257203.09 cuft", NONE, 325720309, CUFT },
    { "92233.72 m3", NONE, 9223372, M3 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbVolume out = WB_VOLUME_UNSET;

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_true (wb_volume_parse (cases[i].text, cases[i].unit, &out, &error));
      g_assert_no_error (error);
      g_assert_true (wb_volume_equal (out, wb_volume (cases[i].hundredths, cases[i].expected)));
    }
}

static void
test_parse_errors (void)
{
  static const struct
  {
    const char  *text;
    WbVolumeUnit unit;
    int          code;
    const char  *part;   /* of the message */
  } cases[] = {
    { "", CUFT, WB_CORE_ERROR_PARSE, "A number is missing" },
    { "40", NONE, WB_CORE_ERROR_PARSE, "“40” names no unit; write cuft or m3" },
    { "40 m", M3, WB_CORE_ERROR_PARSE, "“m” is not a unit of volume" },
    { "40 lb", M3, WB_CORE_ERROR_PARSE, "“lb” is not a unit of volume" },
    { "1.234 m3", M3, WB_CORE_ERROR_PARSE, "more than 2 digits" },
    { "-1 m3", M3, WB_CORE_ERROR_RANGE, "negative" },
    { "3257203.10 cuft", NONE, WB_CORE_ERROR_OVERFLOW, "too large a volume" },
    { "92233.73 m3", NONE, WB_CORE_ERROR_OVERFLOW, "too large a volume" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbVolume out = { 42, M3 };

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_false (wb_volume_parse (cases[i].text, cases[i].unit, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].part));
      g_assert_cmpint (out.bits, ==, 42);
    }
}

static void
test_to_text (void)
{
  const struct
  {
    WbVolume    volume;
    const char *text;
  } cases[] = {
    { WB_VOLUME_UNSET, "" },
    { wb_volume (0, CUFT), "0 cuft" },
    { wb_volume (310, CUFT), "3.10 cuft" },
    { wb_volume (4000, M3), "40 m3" },
    { { WB_BITS_PER_M3, CUFT }, "35.31 cuft" },
    { { WB_BITS_PER_CUFT, M3 }, "0.03 m3" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = wb_volume_to_text (cases[i].volume);

      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

static void
test_text_random (void)
{
  random_begin ();
  for (guint i = 0; i < 5000; i++)
    {
      WbVolumeUnit unit = g_test_rand_int_range (0, 2) == 0 ? CUFT : M3;
      WbVolume volume = wb_volume (random_natural (9000000), unit);
      g_autofree char *text = wb_volume_to_text (volume);
      g_autoptr (GError) error = NULL;
      WbVolume out;

      g_assert_true (wb_volume_parse (text, NONE, &out, &error));
      g_assert_no_error (error);
      g_assert_true (wb_volume_equal (out, volume));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/volume/units", test_units);
  g_test_add_func ("/core/volume/sums", test_sums);
  g_test_add_func ("/core/volume/parse/cases", test_parse_cases);
  g_test_add_func ("/core/volume/parse/errors", test_parse_errors);
  g_test_add_func ("/core/volume/text/cases", test_to_text);
  g_test_add_func ("/core/volume/text/random", test_text_random);
  return g_test_run ();
}
