/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decimal numbers in text, to and from scaled integers; the same in every locale. Nothing is ever
 * rounded here. */
#include "config.h"

#include "core/wb-decimal.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-text.h"

static const char *
skip_digits (const char *p)
{
  while (g_ascii_isdigit (*p))
    p++;
  return p;
}

/* Skips ",234,567" after a first group of digits. Returns NULL and the bad comma when a group has
 * not three digits. */
static const char *
skip_groups (const char  *start,
             const char  *p,
             const char **bad)
{
  if (*p == ',' && (p - start > 3 || p == start))
    {
      *bad = p;
      return NULL;
    }

  while (*p == ',')
    {
      const char *end = skip_digits (p + 1);

      if (end - p != 4)
        {
          *bad = p;
          return NULL;
        }
      p = end;
    }

  return p;
}

static const char *
scan_failed (const char  *text,
             const char  *at,
             const char  *reason,
             GError     **error)
{
  g_autofree char *quoted = wb_text_quote (text, -1);

  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
               "In %s, at character %" G_GSIZE_FORMAT ", %s",
               quoted, wb_text_position (text, at), reason);
  return NULL;
}

const char *
wb_decimal_scan (const char  *text,
                 const char  *at,
                 WbDecimal   *out,
                 GError     **error)
{
  const char *p, *bad;
  gsize decimals = 0;

  g_return_val_if_fail (text != NULL && at != NULL && out != NULL, NULL);

  if (*wb_text_skip_space (text) == '\0')
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "A number is missing");
      return NULL;
    }
  if (!g_ascii_isdigit (at[0]) && !(at[0] == '.' && g_ascii_isdigit (at[1])))
    return scan_failed (text, at, "a number is missing", error);

  p = skip_groups (at, skip_digits (at), &bad);
  if (p == NULL)
    return scan_failed (text, bad, "the comma does not stand before a group of three digits",
                        error);

  if (*p == '.')
    {
      const char *end = skip_digits (p + 1);

      decimals = (gsize) (end - (p + 1));
      if (decimals == 0)
        return scan_failed (text, p, "there are no digits after the decimal point", error);
      p = end;
    }

  out->start = at;
  out->length = (gsize) (p - at);
  out->decimals = decimals;
  return p;
}

/* value × 10 ± digit */
static gboolean
append_digit (gint64   *value,
              gint64    digit,
              gboolean  negative)
{
  if (__builtin_mul_overflow (*value, (gint64) 10, value))
    return FALSE;

  return negative ? !__builtin_sub_overflow (*value, digit, value)
                  : !__builtin_add_overflow (*value, digit, value);
}

gboolean
wb_decimal_scale (const WbDecimal  *self,
                  const char       *text,
                  gboolean          negative,
                  guint             digits,
                  gint64           *out,
                  GError          **error)
{
  g_autofree char *quoted = NULL;
  gint64 value = 0;
  gboolean fits = TRUE;

  g_return_val_if_fail (self != NULL && out != NULL, FALSE);

  if (self->decimals > digits)
    {
      quoted = wb_text_quote (text, -1);
      if (digits == 0)
        g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                     "%s must be a whole number", quoted);
      else
        g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                     "%s has more than %u digits after the decimal point", quoted, digits);
      return FALSE;
    }

  for (gsize i = 0; i < self->length && fits; i++)
    if (g_ascii_isdigit (self->start[i]))
      fits = append_digit (&value, g_ascii_digit_value (self->start[i]), negative);
  for (gsize i = self->decimals; i < digits && fits; i++)
    fits = append_digit (&value, 0, negative);

  if (!fits)
    {
      quoted = wb_text_quote (text, -1);
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW,
                   "%s is too large a number", quoted);
      return FALSE;
    }

  *out = value;
  return TRUE;
}

char *
wb_decimal_to_text (gint64 value,
                    guint  digits)
{
  /* The magnitude of the least gint64 fits only the unsigned type. */
  guint64 magnitude = value < 0 ? -(guint64) value : (guint64) value;
  g_autofree char *plain = NULL;
  gsize length, whole;

  plain = g_strdup_printf ("%0*" G_GINT64_MODIFIER "u", (int) digits + 1, magnitude);
  if (digits == 0)
    return g_strconcat (value < 0 ? "-" : "", plain, NULL);

  length = strlen (plain);
  whole = length - digits;
  return g_strdup_printf ("%s%.*s.%s", value < 0 ? "-" : "", (int) whole, plain, plain + whole);
}
