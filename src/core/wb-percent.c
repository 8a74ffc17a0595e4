/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Percentages as text: hundredths of a percent, written in one way and read in two, as a file has
 * them and as a person types them. */
#include "core/wb-percent.h"

#include "core/wb-core.h"
#include "core/wb-decimal.h"
#include "core/wb-text.h"

char *
wb_percent_to_text (gint64 hundredths)
{
  gint64 rest = hundredths % 100;

  if (rest == 0)
    return g_strdup_printf ("%" G_GINT64_FORMAT " %%", hundredths / 100);
  if (rest % 10 == 0)
    return g_strdup_printf ("%" G_GINT64_FORMAT ".%" G_GINT64_FORMAT " %%", hundredths / 100,
                            rest / 10);
  return g_strdup_printf ("%" G_GINT64_FORMAT ".%02" G_GINT64_FORMAT " %%", hundredths / 100, rest);
}

static gboolean
refuse_percent (GError    **error,
                const char *text,
                const char *why)
{
  g_autofree char *quoted = wb_text_quote (text, -1);

  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "%s %s", quoted, why);
  return FALSE;
}

gboolean
wb_percent_parse (const char *text,
                  gint64     *out,
                  GError    **error)
{
  WbDecimal number;
  const char *end;
  gint64 hundredths;

  g_return_val_if_fail (text != NULL && out != NULL, FALSE);

  end = wb_decimal_scan (text, text, &number, error);
  if (end == NULL || !wb_decimal_scale (&number, text, FALSE, 2, &hundredths, error))
    return FALSE;
  if (!g_str_equal (wb_text_skip_space (end), "%"))
    return refuse_percent (error, text, "has no percent sign at its end");
  if (hundredths > 10000)
    return refuse_percent (error, text, "is more than the whole");

  *out = hundredths;
  return TRUE;
}

/* "7.5 %", "7.5%", "7.5": at most two decimals. */
gboolean
wb_percent_parse_typed (const char  *text,
                        gint64      *out,
                        GError     **error)
{
  const char *at = text;
  gint64 value = 0;
  guint digits = 0, decimals = 0;

  for (; g_ascii_isdigit (*at) && digits < 4; at++, digits++)
    value = value * 10 + g_ascii_digit_value (*at);
  if (*at == '.')
    for (at++; g_ascii_isdigit (*at) && decimals < 2; at++, decimals++)
      value = value * 10 + g_ascii_digit_value (*at);
  for (guint i = decimals; i < 2; i++)
    value *= 10;
  while (*at == ' ')
    at++;
  if (*at == '%')
    at++;
  if (digits + decimals > 0 && *at == '\0')
    {
      *out = value;
      return TRUE;
    }
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
               "“%s” is not a percentage such as “7.5 %%”", text);
  return FALSE;
}
