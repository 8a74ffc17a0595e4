/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact money: currencies, sums, scaling with every rounding, sharing out, and text both ways. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-money.h"

#include "random-values.h"

#define MOST G_MAXINT64
#define LEAST G_MININT64

__extension__ typedef __int128 Wide;

/* Currencies */

static void
test_currency_digits (void)
{
  const char *none[] = { "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF",
                         "UGX", "VND", "VUV", "XAF", "XOF", "XPF" };
  const char *three[] = { "BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND" };
  const char *two[] = { "AED", "AUD", "BRL", "CAD", "CHF", "CNY", "CZK", "DKK", "EUR", "GBP",
                        "HKD", "HUF", "ILS", "INR", "MXN", "NOK", "NZD", "PHP", "PLN", "SEK",
                        "SGD", "THB", "TRY", "TWD", "UAH", "USD", "ZAR", "ZMW" };
  const char *unknown[] = { "", "U", "US", "USDX", "usd", "XXX", "XAU", "AAA", "ZZZ", "$", "   " };

  for (gsize i = 0; i < G_N_ELEMENTS (none); i++)
    g_assert_cmpint (wb_currency_digits (none[i]), ==, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (three); i++)
    g_assert_cmpint (wb_currency_digits (three[i]), ==, 3);
  for (gsize i = 0; i < G_N_ELEMENTS (two); i++)
    g_assert_cmpint (wb_currency_digits (two[i]), ==, 2);
  for (gsize i = 0; i < G_N_ELEMENTS (unknown); i++)
    g_assert_cmpint (wb_currency_digits (unknown[i]), ==, -1);
}

/* Every code of three capital letters that is known reads and writes; how many there are tells
 * that the search finds the whole table. */
static void
test_currency_walk (void)
{
  guint known[4] = { 0 };
  char code[4] = "";

  for (code[0] = 'A'; code[0] <= 'Z'; code[0]++)
    for (code[1] = 'A'; code[1] <= 'Z'; code[1]++)
      for (code[2] = 'A'; code[2] <= 'Z'; code[2]++)
        {
          g_autoptr (GError) error = NULL;
          g_autofree char *text = NULL;
          int digits = wb_currency_digits (code);
          WbMoney money;

          if (digits < 0)
            continue;
          g_assert_cmpint (digits, <, 4);
          known[digits]++;

          text = wb_money_to_text (wb_money (12345, code));
          g_assert_cmpstr (text + strlen (text) - 3, ==, code);
          g_assert_true (wb_money_parse (text, NULL, &money, &error));
          g_assert_no_error (error);
          g_assert_true (wb_money_equal (money, wb_money (12345, code)));
        }

  g_assert_cmpuint (known[0], ==, 16);
  g_assert_cmpuint (known[1], ==, 0);
  g_assert_cmpuint (known[2], ==, 132);
  g_assert_cmpuint (known[3], ==, 7);
}

/* Sums */

static void
test_set_and_equal (void)
{
  WbMoney unset = WB_MONEY_UNSET;
  WbMoney stale = { 5, "" };

  g_assert_false (wb_money_is_set (unset));
  g_assert_true (wb_money_is_set (wb_money (0, "USD")));
  g_assert_true (wb_money_equal (unset, stale));
  g_assert_false (wb_money_equal (unset, wb_money (0, "USD")));
  g_assert_false (wb_money_equal (wb_money (0, "USD"), unset));
  g_assert_true (wb_money_equal (wb_money (7, "USD"), wb_money (7, "USD")));
  g_assert_false (wb_money_equal (wb_money (7, "USD"), wb_money (-7, "USD")));
  g_assert_false (wb_money_equal (wb_money (7, "USD"), wb_money (7, "CAD")));
}

static void
test_sums (void)
{
  static const struct
  {
    gint64   a, b;
    gint64   sum, difference;
    gboolean sum_fits, difference_fits;
  } cases[] = {
    { 0, 0, 0, 0, TRUE, TRUE },
    { 1, 2, 3, -1, TRUE, TRUE },
    { -5, 3, -2, -8, TRUE, TRUE },
    { MOST, 0, MOST, MOST, TRUE, TRUE },
    { MOST, 1, 0, MOST - 1, FALSE, TRUE },
    { MOST, -1, MOST - 1, 0, TRUE, FALSE },
    { LEAST, 0, LEAST, LEAST, TRUE, TRUE },
    { LEAST, 1, LEAST + 1, 0, TRUE, FALSE },
    { LEAST, -1, 0, LEAST + 1, FALSE, TRUE },
    { LEAST, LEAST, 0, 0, FALSE, TRUE },
    { MOST, MOST, 0, 0, FALSE, TRUE },
    { MOST, LEAST, -1, 0, TRUE, FALSE },
    { 0, LEAST, LEAST, 0, TRUE, FALSE },
    { -1, LEAST, 0, MOST, FALSE, TRUE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      WbMoney a = wb_money (cases[i].a, "USD"), b = wb_money (cases[i].b, "USD");
      WbMoney sum = wb_money (42, "USD"), difference = wb_money (42, "USD");
      g_autoptr (GError) sum_error = NULL;
      g_autoptr (GError) difference_error = NULL;

      g_assert_cmpint (wb_money_add (a, b, &sum, &sum_error), ==, cases[i].sum_fits);
      g_assert_cmpint (sum.minor, ==, cases[i].sum_fits ? cases[i].sum : 42);
      if (!cases[i].sum_fits)
        g_assert_error (sum_error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);

      g_assert_cmpint (wb_money_subtract (a, b, &difference, &difference_error), ==,
                       cases[i].difference_fits);
      g_assert_cmpint (difference.minor, ==, cases[i].difference_fits ? cases[i].difference : 42);
      if (!cases[i].difference_fits)
        g_assert_error (difference_error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
    }
}

static void
test_sums_currency (void)
{
  const WbMoney pairs[][2] = {
    { wb_money (1, "USD"), wb_money (1, "CAD") },
    { wb_money (1, "USD"), WB_MONEY_UNSET },
    { WB_MONEY_UNSET, wb_money (1, "USD") },
    { WB_MONEY_UNSET, WB_MONEY_UNSET },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      WbMoney out = wb_money (42, "EUR");
      g_autoptr (GError) add_error = NULL;
      g_autoptr (GError) subtract_error = NULL;

      g_assert_false (wb_money_add (pairs[i][0], pairs[i][1], &out, &add_error));
      g_assert_error (add_error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY);
      g_assert_false (wb_money_subtract (pairs[i][0], pairs[i][1], &out, &subtract_error));
      g_assert_error (subtract_error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY);
      g_assert_true (wb_money_equal (out, wb_money (42, "EUR")));
    }
}

/* Scaling */

static void
test_scale_rounding (void)
{
  /* Expected in the order of WbRounding: half up, half even, down, up. */
  static const struct
  {
    gint64 minor, numerator, denominator;
    gint64 expected[4];
  } cases[] = {
    { 0, 7, 3, { 0, 0, 0, 0 } },
    { 6, 1, 3, { 2, 2, 2, 2 } },
    { 1, 1, 2, { 1, 0, 0, 1 } },
    { 3, 1, 2, { 2, 2, 1, 2 } },
    { 5, 1, 2, { 3, 2, 2, 3 } },
    { -1, 1, 2, { -1, 0, 0, -1 } },
    { -3, 1, 2, { -2, -2, -1, -2 } },
    { -5, 1, 2, { -3, -2, -2, -3 } },
    { 5, -1, 2, { -3, -2, -2, -3 } },
    { 5, 1, -2, { -3, -2, -2, -3 } },
    { -5, -1, 2, { 3, 2, 2, 3 } },
    { -5, 1, -2, { 3, 2, 2, 3 } },
    { -5, -1, -2, { -3, -2, -2, -3 } },
    { 1, 1, 3, { 0, 0, 0, 1 } },
    { 2, 1, 3, { 1, 1, 0, 1 } },
    { -1, 1, 3, { 0, 0, 0, -1 } },
    { -2, 1, 3, { -1, -1, 0, -1 } },
    { 249, 1, 100, { 2, 2, 2, 3 } },
    { 250, 1, 100, { 3, 2, 2, 3 } },
    { 251, 1, 100, { 3, 3, 2, 3 } },
    { 350, 1, 100, { 4, 4, 3, 4 } },
    { 1000, 725, 10000, { 73, 72, 72, 73 } },
    { MOST, 1, 1, { MOST, MOST, MOST, MOST } },
    { LEAST, 1, 1, { LEAST, LEAST, LEAST, LEAST } },
    { MOST, MOST, MOST, { MOST, MOST, MOST, MOST } },
    { LEAST, LEAST, LEAST, { LEAST, LEAST, LEAST, LEAST } },
    { MOST, 1, 2, { MOST / 2 + 1, MOST / 2 + 1, MOST / 2, MOST / 2 + 1 } },
    { MOST, 1, LEAST, { -1, -1, 0, -1 } },
    { 1, 1, LEAST, { 0, 0, 0, -1 } },
    { MOST - 1, MOST, MOST, { MOST - 1, MOST - 1, MOST - 1, MOST - 1 } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    for (int rounding = WB_ROUND_HALF_UP; rounding <= WB_ROUND_UP; rounding++)
      {
        g_autoptr (GError) error = NULL;
        gint64 out = 42;

        g_test_message ("row %" G_GSIZE_FORMAT ", rounding %d", i, rounding);
        g_assert_true (wb_minor_scale (cases[i].minor, cases[i].numerator, cases[i].denominator,
                                       (WbRounding) rounding, &out, &error));
        g_assert_no_error (error);
        g_assert_cmpint (out, ==, cases[i].expected[rounding]);
      }
}

static void
test_scale_overflow (void)
{
  static const struct
  {
    gint64     minor, numerator, denominator;
    WbRounding rounding;
  } cases[] = {
    { LEAST, -1, 1, WB_ROUND_DOWN },
    { LEAST, 1, -1, WB_ROUND_DOWN },
    { MOST, 2, 1, WB_ROUND_DOWN },
    { MOST, MOST, 1, WB_ROUND_DOWN },
    { LEAST, LEAST, 1, WB_ROUND_DOWN },
    { LEAST, LEAST, -1, WB_ROUND_DOWN },
    { MOST, MOST, MOST - 1, WB_ROUND_DOWN },
    { MOST, 3, 2, WB_ROUND_UP },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      gint64 out = 42;

      g_assert_false (wb_minor_scale (cases[i].minor, cases[i].numerator, cases[i].denominator,
                                      cases[i].rounding, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
      g_assert_cmpint (out, ==, 42);
    }
}

/* At the ends of the range the rounding decides: 2^63 - ½ is the greatest number or too much. */
static void
test_scale_overflow_by_rounding (void)
{
  /* (2^64 - 1) ÷ 3 */
  const gint64 third = G_GINT64_CONSTANT (6148914691236517205);
  g_autoptr (GError) error = NULL;
  gint64 out = 42;

  g_assert_true (wb_minor_scale (third, 3, 2, WB_ROUND_DOWN, &out, &error));
  g_assert_no_error (error);
  g_assert_cmpint (out, ==, MOST);

  out = 42;
  g_assert_false (wb_minor_scale (third, 3, 2, WB_ROUND_HALF_UP, &out, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
  g_assert_cmpint (out, ==, 42);
  g_clear_error (&error);

  /* Below zero there is one more. */
  g_assert_true (wb_minor_scale (-third, 3, 2, WB_ROUND_HALF_UP, &out, &error));
  g_assert_no_error (error);
  g_assert_cmpint (out, ==, LEAST);
}

/* The quotient is never more than a whole unit off, a half for the nearest, and on the right side.
 * This looks at products only and does not divide. */
static void
check_rounded (Wide       product,
               Wide       denominator,
               Wide       quotient,
               WbRounding rounding)
{
  Wide off, whole;

  if (denominator < 0)
    {
      denominator = -denominator;
      product = -product;
    }
  /* Looked at from the positive side. */
  if (product < 0)
    {
      product = -product;
      quotient = -quotient;
    }
  off = quotient * denominator - product;
  whole = denominator;

  switch (rounding)
    {
    case WB_ROUND_HALF_UP:
      g_assert_true (2 * off <= whole && 2 * off > -whole);
      break;
    case WB_ROUND_HALF_EVEN:
      g_assert_true (2 * off <= whole && 2 * off >= -whole);
      if (2 * off == whole || 2 * off == -whole)
        g_assert_true (quotient % 2 == 0);
      break;
    case WB_ROUND_DOWN:
      g_assert_true (off <= 0 && off > -whole);
      break;
    case WB_ROUND_UP:
      g_assert_true (off >= 0 && off < whole);
      break;
    }
}

static void
test_scale_random (void)
{
  guint fitted = 0;

  random_begin ();
  for (guint i = 0; i < 20000; i++)
    {
      gint64 minor = random_int64 (), numerator = random_int64 (), denominator = random_int64 ();
      WbRounding rounding = (WbRounding) g_test_rand_int_range (0, 4);
      g_autoptr (GError) error = NULL;
      gint64 out = 42;

      if (i % 4 == 0)
        {
          /* Halves come up by themselves too seldom. */
          numerator = 1;
          denominator = 2;
        }
      if (denominator == 0)
        continue;

      if (wb_minor_scale (minor, numerator, denominator, rounding, &out, &error))
        {
          g_assert_no_error (error);
          check_rounded ((Wide) minor * numerator, denominator, out, rounding);
          fitted++;
        }
      else
        {
          Wide product = (Wide) minor * numerator;

          g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
          g_assert_cmpint (out, ==, 42);
          /* One step towards zero from the least number that does not fit. */
          g_assert_true (product / denominator >= MOST || product / denominator <= LEAST);
        }
    }

  g_assert_cmpuint (fitted, >, 5000);
}

/* Sharing out */

static void
test_split_cases (void)
{
  static const struct
  {
    gint64 total;
    gsize  n;
    gint64 shares[5];
    gint64 parts[5];
  } cases[] = {
    { 0, 0, { 0 }, { 0 } },
    { 0, 3, { 0, 0, 0 }, { 0, 0, 0 } },
    { 0, 3, { 1, 2, 3 }, { 0, 0, 0 } },
    { 100, 1, { 7 }, { 100 } },
    { 100, 3, { 1, 1, 1 }, { 34, 33, 33 } },
    { 101, 3, { 1, 1, 1 }, { 34, 34, 33 } },
    { 1, 4, { 1, 1, 1, 1 }, { 1, 0, 0, 0 } },
    { 1, 4, { 0, 1, 1, 1 }, { 0, 1, 0, 0 } },
    { 3, 4, { 0, 5, 0, 5 }, { 0, 2, 0, 1 } },
    { 100, 3, { 1, 2, 3 }, { 17, 33, 50 } },
    { 10, 3, { 2, 3, 6 }, { 2, 3, 5 } },
    { 50, 2, { 50, 50 }, { 25, 25 } },
    { MOST, 2, { 1, 1 }, { MOST / 2 + 1, MOST / 2 } },
    { MOST, 2, { MOST, MOST }, { MOST / 2 + 1, MOST / 2 } },
    { MOST, 3, { MOST, 0, 1 }, { MOST - 1, 0, 1 } },
    { MOST, 1, { MOST }, { MOST } },
    { 1, 2, { MOST - 1, MOST }, { 0, 1 } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      gint64 parts[5] = { -1, -1, -1, -1, -1 };

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_true (wb_minor_split (cases[i].total, cases[i].shares, cases[i].n, parts, &error));
      g_assert_no_error (error);
      for (gsize j = 0; j < cases[i].n; j++)
        g_assert_cmpint (parts[j], ==, cases[i].parts[j]);
      for (gsize j = cases[i].n; j < G_N_ELEMENTS (parts); j++)
        g_assert_cmpint (parts[j], ==, -1);
    }
}

static void
test_split_errors (void)
{
  static const struct
  {
    gint64 total;
    gsize  n;
    gint64 shares[3];
  } cases[] = {
    { -1, 2, { 1, 1 } },
    { 10, 3, { 1, -1, 1 } },
    { 0, 1, { LEAST } },
    { 1, 3, { 0, 0, 0 } },
    { 1, 0, { 0 } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      gint64 parts[3] = { 7, 8, 9 };

      g_assert_false (wb_minor_split (cases[i].total, cases[i].shares, cases[i].n, parts, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
      g_assert_cmpint (parts[0], ==, 7);
      g_assert_cmpint (parts[1], ==, 8);
      g_assert_cmpint (parts[2], ==, 9);
    }
}

/* What a fair split must keep: nothing is lost, every part is its exact share rounded down or up to
 * a whole unit (so that who has no claim gets nothing), and those rounded up had the largest
 * remainders, or equal ones and stood earlier. */
static void
check_split (gint64        total,
             const gint64 *shares,
             gsize         n,
             const gint64 *parts)
{
  Wide sum_of_shares = 0, sum_of_parts = 0;
  Wide least_up = -1, greatest_down = -1;
  gsize last_up = 0, first_down = 0;

  for (gsize i = 0; i < n; i++)
    {
      sum_of_shares += shares[i];
      sum_of_parts += parts[i];
    }
  g_assert_true (sum_of_parts == total);

  for (gsize i = 0; i < n && sum_of_shares > 0; i++)
    {
      Wide whole = (Wide) total * shares[i] / sum_of_shares;
      Wide left = (Wide) total * shares[i] % sum_of_shares;

      g_assert_true (parts[i] == whole || (left > 0 && parts[i] == whole + 1));
      if (shares[i] == 0)
        g_assert_cmpint (parts[i], ==, 0);

      if (parts[i] == whole && left > greatest_down)
        {
          greatest_down = left;
          first_down = i;
        }
      if (parts[i] != whole && (least_up < 0 || left <= least_up))
        {
          least_up = left;
          last_up = i;
        }
    }

  if (least_up >= 0)
    g_assert_true (least_up > greatest_down || (least_up == greatest_down && last_up < first_down));
}

static void
test_split_random (void)
{
  random_begin ();
  for (guint i = 0; i < 4000; i++)
    {
      gint64 shares[12], parts[12], repeated[12], total;
      gsize n = (gsize) g_test_rand_int_range (1, 13);
      gint64 greatest = random_natural (MOST);
      gboolean claimed = FALSE;
      g_autoptr (GError) error = NULL;

      for (gsize j = 0; j < n; j++)
        {
          shares[j] = g_test_rand_int_range (0, 4) == 0 ? 0 : random_natural (greatest);
          if (j > 0 && g_test_rand_int_range (0, 4) == 0)
            shares[j] = shares[j - 1];
          claimed = claimed || shares[j] > 0;
        }
      total = claimed ? random_natural (MOST) : 0;

      g_assert_true (wb_minor_split (total, shares, n, parts, &error));
      g_assert_no_error (error);
      check_split (total, shares, n, parts);

      /* In place, and once more, it is the same. */
      memcpy (repeated, shares, sizeof shares);
      g_assert_true (wb_minor_split (total, repeated, n, repeated, &error));
      g_assert_no_error (error);
      for (gsize j = 0; j < n; j++)
        g_assert_cmpint (repeated[j], ==, parts[j]);
    }
}

static void
test_split_many (void)
{
  const gsize n = 5000;
  g_autofree gint64 *shares = g_new (gint64, n);
  g_autofree gint64 *parts = g_new (gint64, n);
  g_autoptr (GError) error = NULL;

  random_begin ();
  for (gsize i = 0; i < n; i++)
    shares[i] = g_test_rand_int_range (0, 3);
  shares[0] = 1;

  g_assert_true (wb_minor_split (1234567, shares, n, parts, &error));
  g_assert_no_error (error);
  check_split (1234567, shares, n, parts);
}

/* Shares in orders that are hard to put in order, each with little, half and nearly all left over
 * to be dealt out. */
static void
test_split_orders (void)
{
  const gsize n = 3000;
  g_autofree gint64 *shares = g_new (gint64, n);
  g_autofree gint64 *parts = g_new (gint64, n);

  for (guint order = 0; order < 5; order++)
    for (gint64 total = 1; total < 3 * (gint64) n; total += 749)
      {
        g_autoptr (GError) error = NULL;

        for (gsize i = 0; i < n; i++)
          {
            const gint64 by_order[] = { 7, (gint64) i, (gint64) (n - i), (gint64) (i % 7),
                                        (gint64) MIN (i, n - i) };

            shares[i] = by_order[order];
          }
        g_assert_true (wb_minor_split (total, shares, n, parts, &error));
        g_assert_no_error (error);
        check_split (total, shares, n, parts);
      }
}

/* Text */

static void
test_parse_cases (void)
{
  static const struct
  {
    const char *text;
    const char *currency;
    gint64      minor;
    const char *expected;
  } cases[] = {
    { "1234.56 USD", NULL, 123456, "USD" },
    { "1234.56 USD", "USD", 123456, "USD" },
    { "1234.56", "USD", 123456, "USD" },
    { "1,234.56", "USD", 123456, "USD" },
    { "1,234,567", "USD", 123456700, "USD" },
    { "12,345.6 EUR", NULL, 1234560, "EUR" },
    { "0", "USD", 0, "USD" },
    { "000.10", "USD", 10, "USD" },
    { ".5", "USD", 50, "USD" },
    { "5.1", "USD", 510, "USD" },
    { "$5", NULL, 500, "USD" },
    { "$ 1,000.00", "USD", 100000, "USD" },
    { "$5 USD", NULL, 500, "USD" },
    { "-5", "USD", -500, "USD" },
    { "-$5", NULL, -500, "USD" },
    { "$-5", NULL, -500, "USD" },
    { "- 5.25 CAD", NULL, -525, "CAD" },
    { "−5", "USD", -500, "USD" },
    { "-0", "USD", 0, "USD" },
    { "  12.50  usd\t", "USD", 1250, "USD" },
    { "12.50USD", NULL, 1250, "USD" },
    { "12.50\xc2\xa0USD", NULL, 1250, "USD" },
    { "1500 JPY", NULL, 1500, "JPY" },
    { "1,500", "JPY", 1500, "JPY" },
    { "1.234 KWD", NULL, 1234, "KWD" },
    { "1.2 KWD", NULL, 1200, "KWD" },
    { "92233720368547758.07", "USD", MOST, "USD" },
    { "-92233720368547758.08", "USD", LEAST, "USD" },
    { "9223372036854775807", "JPY", MOST, "JPY" },
    { "000000000000000000000000000001", "USD", 100, "USD" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbMoney out = WB_MONEY_UNSET;

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_true (wb_money_parse (cases[i].text, cases[i].currency, &out, &error));
      g_assert_no_error (error);
      g_assert_cmpint (out.minor, ==, cases[i].minor);
      g_assert_cmpstr (out.currency, ==, cases[i].expected);
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
    { "", "USD", WB_CORE_ERROR_PARSE, "A number is missing" },
    { "  ", "USD", WB_CORE_ERROR_PARSE, "A number is missing" },
    { "USD", "USD", WB_CORE_ERROR_PARSE, "“USD”, at character 1" },
    { "$", NULL, WB_CORE_ERROR_PARSE, "character 2, a number is missing" },
    { "-", "USD", WB_CORE_ERROR_PARSE, "character 2" },
    { "--5", "USD", WB_CORE_ERROR_PARSE, "character 2" },
    { "-$-5", "USD", WB_CORE_ERROR_PARSE, "character 3" },
    { "+5", "USD", WB_CORE_ERROR_PARSE, "“+5”" },
    { "$$5", "USD", WB_CORE_ERROR_PARSE, "“$$5”" },
    { "5$", "USD", WB_CORE_ERROR_PARSE, "“$” is left over" },
    { "€5", "EUR", WB_CORE_ERROR_PARSE, "“€5”" },
    { "five", "USD", WB_CORE_ERROR_PARSE, "“five”" },
    { "5", NULL, WB_CORE_ERROR_PARSE, "“5” names no currency" },
    { "5 XQQ", NULL, WB_CORE_ERROR_PARSE, "“XQQ” is not a known currency code" },
    { "5 dollars", "USD", WB_CORE_ERROR_PARSE, "“dollars” is not a known currency code" },
    { "5 US D", "USD", WB_CORE_ERROR_PARSE, "“US” is not a known currency code" },
    { "5 USD x", "USD", WB_CORE_ERROR_PARSE, "“x” is left over" },
    { "5 USD 6", "USD", WB_CORE_ERROR_PARSE, "“6” is left over" },
    { "5 6", "USD", WB_CORE_ERROR_PARSE, "“6” is left over" },
    { "12.", "USD", WB_CORE_ERROR_PARSE, "character 3" },
    { "12.5.1", "USD", WB_CORE_ERROR_PARSE, "“.1” is left over" },
    { ".", "USD", WB_CORE_ERROR_PARSE, "character 1" },
    { "1,5", "EUR", WB_CORE_ERROR_PARSE, "character 2, the comma" },
    { "1,2345", "USD", WB_CORE_ERROR_PARSE, "character 2" },
    { "1234,567", "USD", WB_CORE_ERROR_PARSE, "character 5" },
    { "1,234,56", "USD", WB_CORE_ERROR_PARSE, "character 6" },
    { ",123", "USD", WB_CORE_ERROR_PARSE, "character 1" },
    { "1,,234", "USD", WB_CORE_ERROR_PARSE, "character 2" },
    { "1.250,00", "EUR", WB_CORE_ERROR_PARSE, "“,00” is left over" },
    { "1.005", "USD", WB_CORE_ERROR_PARSE, "“1.005” has more than 2 digits" },
    { "1.000", "USD", WB_CORE_ERROR_PARSE, "more than 2 digits" },
    { "1.0 JPY", NULL, WB_CORE_ERROR_PARSE, "“1.0 JPY” must be a whole number" },
    { "1.2345 KWD", NULL, WB_CORE_ERROR_PARSE, "more than 3 digits" },
    { "0x10", "USD", WB_CORE_ERROR_PARSE, "“x” is not a known currency code" },
    { "1e5", "USD", WB_CORE_ERROR_PARSE, "“e” is not a known currency code" },
    { "nan", "USD", WB_CORE_ERROR_PARSE, "“nan”" },
    { "inf", "USD", WB_CORE_ERROR_PARSE, "“inf”" },
    { "(5.00)", "USD", WB_CORE_ERROR_PARSE, "“(5.00)”" },
    { "٥", "USD", WB_CORE_ERROR_PARSE, "character 1" },
    { "5\n6", "USD", WB_CORE_ERROR_PARSE, "“5 6”" },
    { "5 \xff", "USD", WB_CORE_ERROR_PARSE, "left over" },
    { "5 CAD", "USD", WB_CORE_ERROR_CURRENCY, "“5 CAD” is an amount in CAD where USD is wanted" },
    { "$5", "CAD", WB_CORE_ERROR_CURRENCY, "in USD where CAD is wanted" },
    { "$5 CAD", NULL, WB_CORE_ERROR_CURRENCY, "“$5 CAD”" },
    { "$5 CAD", "CAD", WB_CORE_ERROR_CURRENCY, "“$5 CAD”" },
    { "5", "XQQ", WB_CORE_ERROR_CURRENCY, "“XQQ” is not a known currency code" },
    { "92233720368547758.08", "USD", WB_CORE_ERROR_OVERFLOW, "too large" },
    { "-92233720368547758.09", "USD", WB_CORE_ERROR_OVERFLOW, "too large" },
    { "9223372036854775808", "JPY", WB_CORE_ERROR_OVERFLOW, "too large" },
    { "99999999999999999999999999999", "USD", WB_CORE_ERROR_OVERFLOW, "too large" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      WbMoney out = wb_money (42, "EUR");

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_false (wb_money_parse (cases[i].text, cases[i].currency, &out, &error));
      g_assert_error (error, WB_CORE_ERROR, cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].part));
      g_assert_true (wb_money_equal (out, wb_money (42, "EUR")));
    }
}

static void
test_to_text (void)
{
  static const struct
  {
    gint64      minor;
    const char *currency;
    const char *amount;
  } cases[] = {
    { 0, "USD", "0.00" }, { 5, "USD", "0.05" }, { -5, "USD", "-0.05" },
    { 50, "USD", "0.50" }, { 100, "USD", "1.00" }, { 123456, "USD", "1234.56" },
    { MOST, "USD", "92233720368547758.07" }, { LEAST, "USD", "-92233720368547758.08" },
    { 0, "JPY", "0" }, { -7, "JPY", "-7" }, { LEAST, "JPY", "-9223372036854775808" },
    { 1, "KWD", "0.001" }, { -12345, "KWD", "-12.345" },
  };
  g_autofree char *unset = wb_money_to_text (WB_MONEY_UNSET);

  g_assert_cmpstr (unset, ==, "");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *amount = wb_minor_to_text (cases[i].minor, cases[i].currency);
      g_autofree char *text = wb_money_to_text (wb_money (cases[i].minor, cases[i].currency));
      g_autofree char *expected = g_strconcat (cases[i].amount, " ", cases[i].currency, NULL);

      g_assert_cmpstr (amount, ==, cases[i].amount);
      g_assert_cmpstr (text, ==, expected);
    }
}

static void
test_text_random (void)
{
  const char *codes[] = { "USD", "CAD", "EUR", "JPY", "KWD" };

  random_begin ();
  for (guint i = 0; i < 5000; i++)
    {
      WbMoney money = wb_money (random_int64 (), codes[g_test_rand_int_range (0, 5)]);
      g_autofree char *text = wb_money_to_text (money);
      g_autofree char *amount = wb_minor_to_text (money.minor, money.currency);
      g_autoptr (GError) error = NULL;
      WbMoney named, bare;

      g_assert_true (wb_money_parse (text, NULL, &named, &error));
      g_assert_no_error (error);
      g_assert_true (wb_money_equal (named, money));

      g_assert_true (wb_money_parse (amount, money.currency, &bare, &error));
      g_assert_no_error (error);
      g_assert_true (wb_money_equal (bare, money));
    }
}

/* Whatever is read can be written and read again; whatever is refused is refused with a reason. */
static void
test_parse_hostile (void)
{
  static const char *const pieces[] = {
    "0", "1", "23", "456", "999999999", ".", ",", "-", "−", "$", "€", " ", "\t", "\n", "\xc2\xa0",
    "USD", "usd", "CAD", "JPY", "US", "x", "e", "%s", "%n", "\xff", "\xe2\x88", "\x01", "٣", NULL
  };

  random_begin ();
  for (guint i = 0; i < 20000; i++)
    {
      g_autofree char *text = random_text (pieces, 7);
      g_autoptr (GError) error = NULL;
      WbMoney out = wb_money (42, "EUR"), again;

      if (wb_money_parse (text, i % 2 == 0 ? "USD" : NULL, &out, &error))
        {
          g_autofree char *canonical = wb_money_to_text (out);

          g_assert_no_error (error);
          g_assert_true (wb_money_parse (canonical, NULL, &again, NULL));
          g_assert_true (wb_money_equal (out, again));
        }
      else
        {
          g_assert_nonnull (error);
          g_assert_true (error->domain == WB_CORE_ERROR);
          g_assert_true (g_utf8_validate (error->message, -1, NULL));
          g_assert_true (wb_money_equal (out, wb_money (42, "EUR")));
        }
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/money/currency/digits", test_currency_digits);
  g_test_add_func ("/core/money/currency/walk", test_currency_walk);
  g_test_add_func ("/core/money/set-and-equal", test_set_and_equal);
  g_test_add_func ("/core/money/sums", test_sums);
  g_test_add_func ("/core/money/sums/currency", test_sums_currency);
  g_test_add_func ("/core/money/scale/rounding", test_scale_rounding);
  g_test_add_func ("/core/money/scale/overflow", test_scale_overflow);
  g_test_add_func ("/core/money/scale/overflow-by-rounding", test_scale_overflow_by_rounding);
  g_test_add_func ("/core/money/scale/random", test_scale_random);
  g_test_add_func ("/core/money/split/cases", test_split_cases);
  g_test_add_func ("/core/money/split/errors", test_split_errors);
  g_test_add_func ("/core/money/split/random", test_split_random);
  g_test_add_func ("/core/money/split/many", test_split_many);
  g_test_add_func ("/core/money/split/orders", test_split_orders);
  g_test_add_func ("/core/money/parse/cases", test_parse_cases);
  g_test_add_func ("/core/money/parse/errors", test_parse_errors);
  g_test_add_func ("/core/money/parse/hostile", test_parse_hostile);
  g_test_add_func ("/core/money/text/cases", test_to_text);
  g_test_add_func ("/core/money/text/random", test_text_random);
  return g_test_run ();
}
