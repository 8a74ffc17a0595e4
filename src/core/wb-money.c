/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Exact amounts of money: adding, scaling with one rounding, sharing out to the last minor unit,
 * and their canonical text. How an amount is shown to a person is decided elsewhere. */
#include "config.h"

#include "core/wb-money.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-decimal.h"
#include "core/wb-text.h"
#include "core/wb-wide.h"

typedef struct
{
  char   code[4];
  guint8 digits;
} Currency;

/* ISO 4217 codes and minor units of currencies in use, from memory; fund codes, metals and test
 * codes are left out. In the order of the codes. */
static const Currency currencies[] = {
  { "AED", 2 }, { "AFN", 2 }, { "ALL", 2 }, { "AMD", 2 }, { "ANG", 2 }, { "AOA", 2 },
  { "ARS", 2 }, { "AUD", 2 }, { "AWG", 2 }, { "AZN", 2 }, { "BAM", 2 }, { "BBD", 2 },
  { "BDT", 2 }, { "BGN", 2 }, { "BHD", 3 }, { "BIF", 0 }, { "BMD", 2 }, { "BND", 2 },
  { "BOB", 2 }, { "BRL", 2 }, { "BSD", 2 }, { "BTN", 2 }, { "BWP", 2 }, { "BYN", 2 },
  { "BZD", 2 }, { "CAD", 2 }, { "CDF", 2 }, { "CHF", 2 }, { "CLP", 0 }, { "CNY", 2 },
  { "COP", 2 }, { "CRC", 2 }, { "CUP", 2 }, { "CVE", 2 }, { "CZK", 2 }, { "DJF", 0 },
  { "DKK", 2 }, { "DOP", 2 }, { "DZD", 2 }, { "EGP", 2 }, { "ERN", 2 }, { "ETB", 2 },
  { "EUR", 2 }, { "FJD", 2 }, { "FKP", 2 }, { "GBP", 2 }, { "GEL", 2 }, { "GHS", 2 },
  { "GIP", 2 }, { "GMD", 2 }, { "GNF", 0 }, { "GTQ", 2 }, { "GYD", 2 }, { "HKD", 2 },
  { "HNL", 2 }, { "HTG", 2 }, { "HUF", 2 }, { "IDR", 2 }, { "ILS", 2 }, { "INR", 2 },
  { "IQD", 3 }, { "IRR", 2 }, { "ISK", 0 }, { "JMD", 2 }, { "JOD", 3 }, { "JPY", 0 },
  { "KES", 2 }, { "KGS", 2 }, { "KHR", 2 }, { "KMF", 0 }, { "KPW", 2 }, { "KRW", 0 },
  { "KWD", 3 }, { "KYD", 2 }, { "KZT", 2 }, { "LAK", 2 }, { "LBP", 2 }, { "LKR", 2 },
  { "LRD", 2 }, { "LSL", 2 }, { "LYD", 3 }, { "MAD", 2 }, { "MDL", 2 }, { "MGA", 2 },
  { "MKD", 2 }, { "MMK", 2 }, { "MNT", 2 }, { "MOP", 2 }, { "MRU", 2 }, { "MUR", 2 },
  { "MVR", 2 }, { "MWK", 2 }, { "MXN", 2 }, { "MYR", 2 }, { "MZN", 2 }, { "NAD", 2 },
  { "NGN", 2 }, { "NIO", 2 }, { "NOK", 2 }, { "NPR", 2 }, { "NZD", 2 }, { "OMR", 3 },
  { "PAB", 2 }, { "PEN", 2 }, { "PGK", 2 }, { "PHP", 2 }, { "PKR", 2 }, { "PLN", 2 },
  { "PYG", 0 }, { "QAR", 2 }, { "RON", 2 }, { "RSD", 2 }, { "RUB", 2 }, { "RWF", 0 },
  { "SAR", 2 }, { "SBD", 2 }, { "SCR", 2 }, { "SDG", 2 }, { "SEK", 2 }, { "SGD", 2 },
  { "SHP", 2 }, { "SLE", 2 }, { "SOS", 2 }, { "SRD", 2 }, { "SSP", 2 }, { "STN", 2 },
  { "SVC", 2 }, { "SYP", 2 }, { "SZL", 2 }, { "THB", 2 }, { "TJS", 2 }, { "TMT", 2 },
  { "TND", 3 }, { "TOP", 2 }, { "TRY", 2 }, { "TTD", 2 }, { "TWD", 2 }, { "TZS", 2 },
  { "UAH", 2 }, { "UGX", 0 }, { "USD", 2 }, { "UYU", 2 }, { "UZS", 2 }, { "VED", 2 },
  { "VES", 2 }, { "VND", 0 }, { "VUV", 0 }, { "WST", 2 }, { "XAF", 0 }, { "XCD", 2 },
  { "XOF", 0 }, { "XPF", 0 }, { "YER", 2 }, { "ZAR", 2 }, { "ZMW", 2 },
};

int
wb_currency_digits (const char *code)
{
  gsize low = 0, high = G_N_ELEMENTS (currencies);

  g_return_val_if_fail (code != NULL, -1);

  while (low < high)
    {
      gsize middle = low + (high - low) / 2;
      int order = strcmp (code, currencies[middle].code);

      if (order == 0)
        return currencies[middle].digits;
      if (order < 0)
        high = middle;
      else
        low = middle + 1;
    }

  return -1;
}

WbMoney
wb_money (gint64      minor,
          const char *currency)
{
  WbMoney money = { minor };

  g_return_val_if_fail (currency != NULL, WB_MONEY_UNSET);
  g_return_val_if_fail (wb_currency_digits (currency) >= 0, WB_MONEY_UNSET);

  memcpy (money.currency, currency, sizeof money.currency);
  return money;
}

gboolean
wb_money_is_set (WbMoney money)
{
  return money.currency[0] != '\0';
}

gboolean
wb_money_equal (WbMoney a,
                WbMoney b)
{
  if (!wb_money_is_set (a) || !wb_money_is_set (b))
    return wb_money_is_set (a) == wb_money_is_set (b);

  return a.minor == b.minor && strcmp (a.currency, b.currency) == 0;
}

static gboolean
check_same_currency (WbMoney   a,
                     WbMoney   b,
                     GError  **error)
{
  if (!wb_money_is_set (a) || !wb_money_is_set (b))
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                           "An amount of money that was not given cannot be reckoned with");
      return FALSE;
    }
  if (strcmp (a.currency, b.currency) != 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "Amounts in %s and %s cannot be put together", a.currency, b.currency);
      return FALSE;
    }

  return TRUE;
}

static gboolean
take_sum (WbWide       minor,
          const char  *currency,
          WbMoney     *out,
          GError     **error)
{
  gint64 sum;

  if (!wb_wide_to_int64 (minor, "amount of money", &sum, error))
    return FALSE;

  *out = wb_money (sum, currency);
  return TRUE;
}

gboolean
wb_money_add (WbMoney   a,
              WbMoney   b,
              WbMoney  *out,
              GError  **error)
{
  g_return_val_if_fail (out != NULL, FALSE);

  return check_same_currency (a, b, error)
         && take_sum ((WbWide) a.minor + b.minor, a.currency, out, error);
}

gboolean
wb_money_subtract (WbMoney   a,
                   WbMoney   b,
                   WbMoney  *out,
                   GError  **error)
{
  g_return_val_if_fail (out != NULL, FALSE);

  return check_same_currency (a, b, error)
         && take_sum ((WbWide) a.minor - b.minor, a.currency, out, error);
}

gboolean
wb_minor_scale (gint64       minor,
                gint64       numerator,
                gint64       denominator,
                WbRounding   rounding,
                gint64      *out,
                GError     **error)
{
  g_return_val_if_fail (denominator != 0, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  return wb_wide_to_int64 (wb_wide_divide ((WbWide) minor * numerator, denominator, rounding),
                           "amount of money", out, error);
}

/* Remainders are cut into larger and smaller ones so many times at most. */
#define MOST_CUTS 64

/* What the whole units left over for one claim. */
typedef struct
{
  WbWide left;
  gsize  index;
} Remainder;

static int
compare_remainders (gconstpointer a,
                    gconstpointer b)
{
  const Remainder *first = a;
  const Remainder *second = b;

  if (first->left != second->left)
    return first->left > second->left ? -1 : 1;
  return first->index < second->index ? -1 : 1;
}

static void
swap (Remainder *a,
      Remainder *b)
{
  Remainder held = *a;

  *a = *b;
  *b = held;
}

/* Gives @remainders in which the middle of three stands last, as what the others are set
 * against. */
static void
choose_pivot (Remainder *remainders,
              gsize      n)
{
  Remainder *first = remainders;
  Remainder *middle = remainders + n / 2;
  Remainder *last = remainders + n - 1;

  if (compare_remainders (middle, first) < 0)
    swap (middle, first);
  if (compare_remainders (last, first) < 0)
    swap (last, first);
  if (compare_remainders (middle, last) < 0)
    swap (middle, last);
}

/* Moves the @count largest remainders to the front, in no order: who gets one more does not hang on
 * it. No two are equal. Cuts the part that the border lies in again and again; where cutting does
 * not make it small, that part is sorted. */
static void
select_largest (Remainder *remainders,
                gsize      n,
                gsize      count)
{
  gsize low = 0, high = n;

  for (guint cuts = 0; high - low > 1; cuts++)
    {
      gsize border = low;

      if (cuts == MOST_CUTS)
        {
          qsort (remainders + low, high - low, sizeof *remainders, compare_remainders);
          return;
        }
      choose_pivot (remainders + low, high - low);
      for (gsize i = low; i < high - 1; i++)
        if (compare_remainders (&remainders[i], &remainders[high - 1]) < 0)
          swap (&remainders[i], &remainders[border++]);
      swap (&remainders[border], &remainders[high - 1]);

      if (border == count)
        return;
      if (border > count)
        high = border;
      else
        low = border + 1;
    }
}

static gboolean
sum_shares (gint64         total,
            const gint64  *shares,
            gsize          n,
            WbWide        *sum,
            GError       **error)
{
  if (total < 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "A negative amount (%" G_GINT64_FORMAT ") cannot be shared out", total);
      return FALSE;
    }

  *sum = 0;
  for (gsize i = 0; i < n; i++)
    {
      if (shares[i] < 0)
        {
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                       "Share %" G_GSIZE_FORMAT " is negative (%" G_GINT64_FORMAT ")",
                       i + 1, shares[i]);
          return FALSE;
        }
      *sum += shares[i];
    }

  if (*sum == 0 && total != 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "There is %" G_GINT64_FORMAT " to share out, but every share is 0", total);
      return FALSE;
    }

  return TRUE;
}

gboolean
wb_minor_split (gint64         total,
                const gint64  *shares,
                gsize          n,
                gint64        *parts,
                GError       **error)
{
  g_autofree Remainder *remainders = NULL;
  WbWide sum;
  gint64 undealt = total;

  g_return_val_if_fail (n == 0 || (shares != NULL && parts != NULL), FALSE);

  if (!sum_shares (total, shares, n, &sum, error))
    return FALSE;

  remainders = g_new (Remainder, n);
  for (gsize i = 0; i < n; i++)
    {
      WbWide product = (WbWide) total * shares[i];

      parts[i] = sum == 0 ? 0 : (gint64) (product / sum);
      remainders[i].left = sum == 0 ? 0 : product % sum;
      remainders[i].index = i;
      undealt -= parts[i];
    }

  if (undealt > 0)
    select_largest (remainders, n, (gsize) undealt);

  /* The remainders add up to undealt × sum and each is under sum, so more of them than undealt are
   * above 0: a share of 0 is never reached. */
  for (gsize i = 0; undealt > 0; i++, undealt--)
    parts[remainders[i].index]++;

  return TRUE;
}

/* The Unicode minus is what text programs make of a hyphen before a digit. */
static gboolean
take_minus (const char **cursor)
{
  const char *p = *cursor;

  if (*p == '-')
    p++;
  else if (g_str_has_prefix (p, "−"))
    p += strlen ("−");
  else
    return FALSE;

  *cursor = wb_text_skip_space (p);
  return TRUE;
}

/* Reads "", "-", "$", "-$" or "$-" at @cursor. */
static void
take_signs (const char **cursor,
            gboolean    *negative,
            gboolean    *dollar)
{
  *negative = take_minus (cursor);

  *dollar = **cursor == '$';
  if (!*dollar)
    return;

  *cursor = wb_text_skip_space (*cursor + 1);
  if (!*negative)
    *negative = take_minus (cursor);
}

/* Reads "", "USD" or "usd" at @cursor; @code stays empty when there is none. */
static gboolean
take_code (const char  *text,
           const char **cursor,
           char         code[4],
           GError     **error)
{
  const char *start = *cursor;
  const char *end = start;

  while (g_ascii_isalpha (*end))
    end++;
  if (end - start == 3)
    for (gsize i = 0; i < 3; i++)
      code[i] = g_ascii_toupper (start[i]);

  if (end != start && (end - start != 3 || wb_currency_digits (code) < 0))
    {
      g_autofree char *quoted = wb_text_quote (text, -1);
      g_autofree char *unknown = wb_text_quote (start, end - start);

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                   "In %s, %s is not a known currency code", quoted, unknown);
      return FALSE;
    }

  *cursor = end;
  return TRUE;
}

static gboolean
check_end (const char  *text,
           const char  *at,
           GError     **error)
{
  g_autofree char *quoted = NULL;
  g_autofree char *rest = NULL;

  if (*at == '\0')
    return TRUE;

  quoted = wb_text_quote (text, -1);
  rest = wb_text_quote (at, -1);
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
               "%s is not an amount of money: %s is left over", quoted, rest);
  return FALSE;
}

static gboolean
check_agrees (const char  *text,
              const char  *named,
              const char  *expected,
              GError     **error)
{
  g_autofree char *quoted = NULL;

  if (strcmp (named, expected) == 0)
    return TRUE;

  quoted = wb_text_quote (text, -1);
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
               "%s is an amount in %s where %s is wanted", quoted, named, expected);
  return FALSE;
}

/* Decides the currency from a dollar sign, a code in the text and the one that the caller wants. */
static gboolean
settle_currency (const char  *text,
                 gboolean     dollar,
                 const char  *written,
                 const char  *wanted,
                 char         code[4],
                 GError     **error)
{
  const char *named = written[0] != '\0' ? written : dollar ? "USD" : wanted;

  if (named == NULL)
    {
      g_autofree char *quoted = wb_text_quote (text, -1);

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                   "%s names no currency; write it after the amount, as in “12.50 USD”", quoted);
      return FALSE;
    }
  if (dollar && !check_agrees (text, "USD", named, error))
    return FALSE;
  if (wanted != NULL && !check_agrees (text, named, wanted, error))
    return FALSE;

  memcpy (code, named, 4);
  return TRUE;
}

gboolean
wb_money_parse (const char  *text,
                const char  *currency,
                WbMoney     *out,
                GError     **error)
{
  WbDecimal decimal;
  const char *p;
  char written[4] = "", code[4] = "";
  gboolean negative, dollar;
  gint64 minor;

  g_return_val_if_fail (text != NULL, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  if (currency != NULL && wb_currency_digits (currency) < 0)
    {
      g_autofree char *unknown = wb_text_quote (currency, -1);

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "%s is not a known currency code", unknown);
      return FALSE;
    }

  p = wb_text_skip_space (text);
  take_signs (&p, &negative, &dollar);
  p = wb_decimal_scan (text, p, &decimal, error);
  if (p == NULL)
    return FALSE;

  p = wb_text_skip_space (p);
  if (!take_code (text, &p, written, error)
      || !check_end (text, wb_text_skip_space (p), error)
      || !settle_currency (text, dollar, written, currency, code, error)
      || !wb_decimal_scale (&decimal, text, negative, (guint) wb_currency_digits (code),
                            &minor, error))
    return FALSE;

  *out = wb_money (minor, code);
  return TRUE;
}

char *
wb_money_to_text (WbMoney money)
{
  g_autofree char *amount = NULL;

  if (!wb_money_is_set (money))
    return g_strdup ("");

  amount = wb_minor_to_text (money.minor, money.currency);
  return g_strconcat (amount, " ", money.currency, NULL);
}

char *
wb_minor_to_text (gint64      minor,
                  const char *currency)
{
  int digits;

  g_return_val_if_fail (currency != NULL, NULL);

  digits = wb_currency_digits (currency);
  g_return_val_if_fail (digits >= 0, NULL);

  return wb_decimal_to_text (minor, (guint) digits);
}
