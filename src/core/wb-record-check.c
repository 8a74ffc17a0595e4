/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a record may hold: whether each value is within the range of its type, and whether what is
 * required is there. What goes together with other records is the job's to check. */
#include "core/wb-record-private.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-mark.h"

static gboolean
check_text (const char  *text,
            GError     **error)
{
  if (!g_utf8_validate (text, -1, NULL))
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                           "the text is not valid UTF-8");
      return FALSE;
    }
  if (strlen (text) > WB_TEXT_MAX_BYTES)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "the text is longer than %d bytes",
                   WB_TEXT_MAX_BYTES);
      return FALSE;
    }
  for (const char *at = text; *at != '\0'; at++)
    if (g_ascii_iscntrl (*at) && *at != '\n' && *at != '\t')
      {
        g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                     "the text holds a control character (code %d)", *at);
        return FALSE;
      }
  return TRUE;
}

static gboolean
check_money (WbMoney      money,
             const char  *currency,
             GError     **error)
{
  if (currency != NULL && strcmp (money.currency, currency) != 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY,
                   "the amount is in %s but the job is kept in %s", money.currency, currency);
      return FALSE;
    }
  if (money.minor < 0 || money.minor > WB_MONEY_MAX_MINOR)
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                           money.minor < 0 ? "an amount cannot be negative here"
                                           : "the amount is absurdly large");
      return FALSE;
    }
  return TRUE;
}

/* Weight and volume alike: not negative, not absurd. */
static gboolean
check_quantity (gint64       units,
                gint64       most,
                GError     **error)
{
  if (units >= 0 && units <= most)
    return TRUE;
  g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                       units < 0 ? "it cannot be negative" : "it is absurdly large");
  return FALSE;
}

static gboolean
check_number (gint64       number,
              gint64       most,
              GError     **error)
{
  if (number >= 0 && number <= most)
    return TRUE;
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "it must be from 0 to %" G_GINT64_FORMAT,
               most);
  return FALSE;
}

/* Marks in a record are always canonical, so that two equal conditions are equal texts. */
static gboolean
check_marks (const char  *text,
             GError     **error)
{
  g_auto (WbMarks) marks = { NULL, 0 };
  g_autofree char *canonical = NULL;

  if (!wb_marks_parse (text, &marks, error))
    return FALSE;
  canonical = wb_marks_to_text (&marks);
  if (strcmp (canonical, text) == 0)
    return TRUE;
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "“%s” should be written “%s”", text,
               canonical);
  return FALSE;
}

gboolean
wb_record_check_value (gconstpointer   record,
                       const WbField  *field,
                       const char     *currency,
                       GError        **error)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
      return check_text (CONST_MEMBER (record, field, char *), error);
    case WB_FIELD_MARKS:
      return check_marks (CONST_MEMBER (record, field, char *), error);
    case WB_FIELD_REFERENCE:
      if (wb_record_id_is_valid (CONST_MEMBER (record, field, char *)))
        return TRUE;
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "“%s” is not an id",
                   CONST_MEMBER (record, field, char *));
      return FALSE;
    case WB_FIELD_BOOLEAN:
      return TRUE;
    case WB_FIELD_INTEGER:
      return check_number (CONST_MEMBER (record, field, gint64), field->maximum, error);
    case WB_FIELD_PERCENT:
      return check_number (CONST_MEMBER (record, field, gint64), 10000, error);
    case WB_FIELD_ENUM:
      if (wb_enum_find (field->choices, CONST_MEMBER (record, field, int)) != NULL)
        return TRUE;
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "it is not one of the list");
      return FALSE;
    case WB_FIELD_DATE:
      return TRUE;
    case WB_FIELD_MONEY:
      return check_money (CONST_MEMBER (record, field, WbMoney), currency, error);
    case WB_FIELD_WEIGHT:
      return check_quantity (CONST_MEMBER (record, field, WbWeight).grains,
                             WB_WEIGHT_MAX_LB * WB_GRAINS_PER_LB, error);
    case WB_FIELD_VOLUME:
      return check_quantity (CONST_MEMBER (record, field, WbVolume).bits,
                             WB_VOLUME_MAX_CUFT * WB_BITS_PER_CUFT, error);
    }
  g_assert_not_reached ();
}

gboolean
wb_record_check_field (gconstpointer   record,
                       const WbField  *field,
                       const char     *currency,
                       GError        **error)
{
  const WbRecord *self = record;

  if (!wb_record_field_is_set (field, self))
    {
      if ((field->flags & WB_FIELD_REQUIRED) == 0)
        return TRUE;
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING, "%s %s: %s is missing",
                   self->type->name, self->id, field->name);
      return FALSE;
    }
  if (wb_record_check_value (self, field, currency, error))
    return TRUE;
  g_prefix_error (error, "%s %s, %s: ", self->type->name, self->id, field->name);
  return FALSE;
}

gboolean
wb_record_check (gconstpointer   record,
                 const char     *currency,
                 GError        **error)
{
  const WbRecord *self = record;

  if (!wb_record_id_is_valid (self->id))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "%s: “%s” is not an id",
                   self->type->name, self->id);
      return FALSE;
    }
  for (gsize i = 0; i < self->type->n_fields; i++)
    if (!wb_record_check_field (self, &self->type->fields[i], currency, error))
      return FALSE;
  return TRUE;
}
