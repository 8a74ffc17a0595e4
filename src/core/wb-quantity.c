/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading and writing exact amounts that have a unit. Which units there are is said by the callers'
 * tables. */
#include "config.h"

#include "core/wb-quantity.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-decimal.h"
#include "core/wb-text.h"
#include "core/wb-wide.h"

const WbQuantityUnit *
wb_quantity_find (const WbQuantityKind *self,
                  int                   unit)
{
  for (gsize i = 0; i < self->n_units; i++)
    if (self->units[i].unit == unit)
      return &self->units[i];

  return NULL;
}

/* "cu. ft." and "Cu Ft" are "cuft": lower case, without spaces and without stops after letters. */
static char *
plain_name (const char *name)
{
  GString *plain = g_string_new (NULL);

  for (name = wb_text_skip_space (name); *name != '\0'; name = wb_text_skip_space (name + 1))
    {
      gboolean abbreviates = *name == '.' && plain->len > 0
                             && g_ascii_isalpha (plain->str[plain->len - 1]);

      if (!abbreviates)
        g_string_append_c (plain, g_ascii_tolower (*name));
    }

  return g_string_free (plain, FALSE);
}

static gboolean
is_named (const WbQuantityUnit *unit,
          const char           *plain)
{
  if (strcmp (unit->name, plain) == 0)
    return TRUE;

  for (gsize i = 0; i < WB_QUANTITY_MAX_ALIASES && unit->aliases[i] != NULL; i++)
    if (strcmp (unit->aliases[i], plain) == 0)
      return TRUE;

  return FALSE;
}

const WbQuantityUnit *
wb_quantity_find_name (const WbQuantityKind *self,
                       const char           *name)
{
  g_autofree char *plain = plain_name (name);

  for (gsize i = 0; i < self->n_units; i++)
    if (is_named (&self->units[i], plain))
      return &self->units[i];

  return NULL;
}

static const WbQuantityUnit *
settle_unit (const WbQuantityKind  *self,
             const char            *text,
             const char            *written,
             int                    unit,
             GError               **error)
{
  g_autofree char *quoted = NULL;
  g_autofree char *unknown = NULL;
  const WbQuantityUnit *found;

  found = *written == '\0' ? wb_quantity_find (self, unit) : wb_quantity_find_name (self, written);
  if (found != NULL)
    return found;

  quoted = wb_text_quote (text, -1);
  if (*written == '\0')
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                   "%s names no unit; write %s after the number", quoted, self->advice);
      return NULL;
    }

  unknown = wb_text_quote (written, -1);
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "In %s, %s is not a unit of %s; write %s",
               quoted, unknown, self->what, self->advice);
  return NULL;
}

gboolean
wb_quantity_parse (const WbQuantityKind  *self,
                   const char            *text,
                   int                    unit,
                   gint64                *amount,
                   int                   *found,
                   GError               **error)
{
  WbDecimal decimal;
  const WbQuantityUnit *row;
  const char *p;
  gboolean negative;
  gint64 hundredths, parts;

  p = wb_text_skip_space (text);
  negative = *p == '-';
  if (negative)
    p++;

  p = wb_decimal_scan (text, p, &decimal, error);
  if (p == NULL)
    return FALSE;

  row = settle_unit (self, text, wb_text_skip_space (p), unit, error);
  if (row == NULL || !wb_decimal_scale (&decimal, text, FALSE, 2, &hundredths, error))
    return FALSE;

  if (negative)
    {
      g_autofree char *quoted = wb_text_quote (text, -1);

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "%s is negative, which no %s can be",
                   quoted, self->what);
      return FALSE;
    }

  if (__builtin_mul_overflow (hundredths, row->hundredth, &parts))
    {
      g_autofree char *quoted = wb_text_quote (text, -1);

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW,
                   "%s is too large a %s", quoted, self->what);
      return FALSE;
    }

  *amount = parts;
  *found = row->unit;
  return TRUE;
}

char *
wb_quantity_to_text (const WbQuantityKind *self,
                     gint64                amount,
                     int                   unit)
{
  const WbQuantityUnit *row = wb_quantity_find (self, unit);
  g_autofree char *number = NULL;
  gint64 hundredths;

  g_return_val_if_fail (row != NULL, NULL);

  hundredths = (gint64) wb_wide_divide (amount, row->hundredth, WB_ROUND_HALF_UP);
  if (hundredths % 100 == 0)
    number = wb_decimal_to_text (hundredths / 100, 0);
  else
    number = wb_decimal_to_text (hundredths, 2);

  return g_strconcat (number, " ", row->name, NULL);
}
