/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for values: closed lists, fields, money, weights, dates, marks and tags. What a step of a
 * reckoning did stands in wb-words-reason.c, what went wrong in wb-words-error.c. */
#include "config.h"

#include "office/wb-words.h"

#include "core/wb-mark.h"

#include <glib/gi18n.h>
#include <limits.h>
#include <locale.h>
#include <string.h>

#define NOT_GIVEN "–"
#define MINUS     "−"

/* --- numbers ---------------------------------------------------------------------------------- */

/* How the locale writes a number; the texts are UTF-8. */
typedef struct
{
  char *point;
  char *separator;
  char *grouping;   /* as in struct lconv: sizes from the right, 0 repeats, CHAR_MAX ends */
} NumberStyle;

static void
number_style_clear (NumberStyle *self)
{
  g_clear_pointer (&self->point, g_free);
  g_clear_pointer (&self->separator, g_free);
  g_clear_pointer (&self->grouping, g_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (NumberStyle, number_style_clear)

static void
number_style_init (NumberStyle *self)
{
  const struct lconv *convention = localeconv ();

  self->point = g_locale_to_utf8 (convention->decimal_point, -1, NULL, NULL, NULL);
  self->separator = g_locale_to_utf8 (convention->thousands_sep, -1, NULL, NULL, NULL);
  self->grouping = g_strdup (convention->grouping);

  if (self->point == NULL || *self->point == '\0')
    {
      g_free (self->point);
      self->point = g_strdup (".");
    }

  /* The C locale does not group; long amounts are still to be read. */
  if ((self->separator == NULL || *self->separator == '\0') && g_str_equal (self->point, "."))
    {
      g_free (self->separator);
      g_free (self->grouping);
      self->separator = g_strdup (",");
      self->grouping = g_strdup ("\3");
    }
}

/* Marks in @breaks, one byte a digit, before which digits a separator goes. */
static void
mark_groups (const char *grouping,
             gsize       n_digits,
             gboolean   *breaks)
{
  gsize at = n_digits;
  const char *size = grouping;

  while (size != NULL && *size > 0 && *size != CHAR_MAX && at > (gsize) *size)
    {
      at -= (gsize) *size;
      breaks[at] = TRUE;
      if (size[1] != '\0')
        size++;
    }
}

/* Rewrites a plain number ("-1234.50") as the locale writes it. */
static char *
localize_number (const char *plain)
{
  g_auto (NumberStyle) style = { 0 };
  g_autofree gboolean *breaks = NULL;
  GString *out = g_string_new (NULL);
  gsize n_digits;

  number_style_init (&style);
  if (*plain == '-')
    {
      g_string_append (out, MINUS);
      plain++;
    }

  n_digits = strspn (plain, "0123456789");
  breaks = g_new0 (gboolean, n_digits + 1);
  if (style.separator != NULL && *style.separator != '\0')
    mark_groups (style.grouping, n_digits, breaks);

  for (gsize i = 0; i < n_digits; i++)
    {
      if (breaks[i])
        g_string_append (out, style.separator);
      g_string_append_c (out, plain[i]);
    }

  if (plain[n_digits] == '.')
    {
      g_string_append (out, style.point);
      g_string_append (out, plain + n_digits + 1);
    }

  return g_string_free (out, FALSE);
}

/* Rewrites "1250 lb": a number as the locale writes it, then the rest as it is. */
static char *
localize_quantity (const char *canonical)
{
  gsize length = strspn (canonical, "-0123456789.");
  g_autofree char *number = g_strndup (canonical, length);
  g_autofree char *localized = NULL;

  if (*canonical == '\0')
    return g_strdup (NOT_GIVEN);

  localized = localize_number (number);
  return g_strconcat (localized, canonical + length, NULL);
}

/* --- values ----------------------------------------------------------------------------------- */

/* gettext answers the empty text with the catalogue's header. */
static const char *
translate (const char *text)
{
  return text == NULL || *text == '\0' ? "" : _(text);
}

const char *
wb_words_enum (const WbEnum *list,
               int           value)
{
  const WbEnumValue *row;

  g_return_val_if_fail (list != NULL, "");

  row = wb_enum_find (list, value);
  g_return_val_if_fail (row != NULL, "");

  return translate (row->label);
}

const char *
wb_words_field (const WbField *field)
{
  g_return_val_if_fail (field != NULL, "");

  return translate (field->label);
}

char *
wb_words_minor (gint64      minor,
                const char *currency)
{
  g_autofree char *plain = NULL;
  g_autofree char *number = NULL;

  g_return_val_if_fail (currency != NULL, NULL);

  plain = wb_minor_to_text (minor, currency);
  number = localize_number (*plain == '-' ? plain + 1 : plain);
  if (g_str_equal (currency, "USD"))
    return g_strconcat (*plain == '-' ? MINUS : "", "$", number, NULL);

  return g_strconcat (*plain == '-' ? MINUS : "", number, " ", currency, NULL);
}

char *
wb_words_money (WbMoney money)
{
  if (!wb_money_is_set (money))
    return g_strdup (NOT_GIVEN);

  return wb_words_minor (money.minor, money.currency);
}

char *
wb_words_weight (WbWeight weight)
{
  g_autofree char *canonical = wb_weight_to_text (weight);

  return localize_quantity (canonical);
}

char *
wb_words_volume (WbVolume volume)
{
  g_autofree char *canonical = wb_volume_to_text (volume);

  switch (volume.unit)
    {
    case WB_VOLUME_UNIT_CUFT:
    case WB_VOLUME_UNIT_M3:
      {
        g_autofree char *number = g_strndup (canonical, strspn (canonical, "-0123456789."));
        g_autofree char *localized = localize_number (number);

        return g_strconcat (localized, volume.unit == WB_VOLUME_UNIT_M3 ? " m³" : " cu ft", NULL);
      }

    case WB_VOLUME_UNIT_NONE:
      break;
    }

  return g_strdup (NOT_GIVEN);
}

char *
wb_words_percent (gint64 hundredths)
{
  g_autofree char *plain = NULL;
  g_autofree char *number = NULL;
  gsize length;

  if (hundredths == WB_INTEGER_UNSET)
    return g_strdup (NOT_GIVEN);

  plain = g_strdup_printf ("%" G_GINT64_FORMAT ".%02" G_GINT64_FORMAT, hundredths / 100,
                           hundredths % 100);
  for (length = strlen (plain); plain[length - 1] == '0'; length--)
    plain[length - 1] = '\0';
  if (plain[length - 1] == '.')
    plain[length - 1] = '\0';

  number = localize_number (plain);
  return g_strconcat (number, " %", NULL);
}

char *
wb_words_rate (WbRate rate)
{
  g_autofree char *amount = NULL;

  if (!wb_rate_is_set (rate))
    return g_strdup (NOT_GIVEN);

  amount = wb_words_money (rate.per);
  switch (rate.unit)
    {
    case WB_RATE_UNIT_LB:
      /* Translators: %s is an amount of money; so in the lines that follow. */
      return g_strdup_printf (_("%s per pound"), amount);
    case WB_RATE_UNIT_KG:
      return g_strdup_printf (_("%s per kilogram"), amount);
    case WB_RATE_UNIT_CWT:
      return g_strdup_printf (_("%s per hundredweight"), amount);
    case WB_RATE_UNIT_CUFT:
      return g_strdup_printf (_("%s per cubic foot"), amount);
    case WB_RATE_UNIT_M3:
      return g_strdup_printf (_("%s per cubic metre"), amount);
    case WB_RATE_UNIT_NONE:
      break;
    }

  g_assert_not_reached ();
}

char *
wb_words_date (const GDate *date)
{
  char text[128];

  g_return_val_if_fail (date != NULL, NULL);

  if (!wb_date_is_set (date))
    return g_strdup (NOT_GIVEN);

  /* Translators: how a date is written, see strftime; this is "3 Mar 2026". */
  if (g_date_strftime (text, sizeof text, _("%-d %b %Y"), date) == 0)
    return wb_date_to_text (date);

  return g_strdup (text);
}

/* --- marks and tags --------------------------------------------------------------------------- */

static void
append_mark (GString      *out,
             const WbMark *mark)
{
  gsize n_conditions, n_places;
  const WbMarkCode *conditions = wb_mark_conditions (&n_conditions);
  const WbMarkCode *places = wb_mark_places (&n_places);

  g_return_if_fail (mark->condition < n_conditions);

  if (out->len > 0)
    g_string_append (out, "; ");
  g_string_append (out, translate (conditions[mark->condition].word));

  for (guint i = 0; i < mark->n_places; i++)
    {
      g_return_if_fail (mark->places[i] >= 1 && mark->places[i] <= n_places);

      g_string_append (out, i == 0 ? ": " : ", ");
      g_string_append (out, translate (places[mark->places[i] - 1].word));
    }
}

char *
wb_words_marks (const char  *marks,
                GError     **error)
{
  g_auto (WbMarks) parsed = { 0 };
  GString *out;

  if (!wb_marks_parse (marks != NULL ? marks : "", &parsed, error))
    return NULL;

  out = g_string_new (NULL);
  for (gsize i = 0; i < parsed.n_marks; i++)
    append_mark (out, &parsed.marks[i]);

  return g_string_free (out, FALSE);
}

char *
wb_words_tag (const WbJob   *job,
              const WbPiece *piece)
{
  const WbLot *lot;
  g_autofree char *tag = NULL;
  GString *name;

  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (piece != NULL, NULL);

  if (piece->tag == WB_INTEGER_UNSET)
    return g_strdup (_("no tag"));

  lot = wb_job_find (job, WB_KIND_LOT, piece->lot);
  if (lot == NULL || (lot->colour == NULL && lot->number == NULL))
    {
      tag = g_strdup_printf ("%" G_GINT64_FORMAT, piece->tag);
      /* Translators: names a piece by the number on its tag, %s. */
      return g_strdup_printf (_("tag %s"), tag);
    }

  name = g_string_new (lot->colour);
  if (lot->number != NULL)
    g_string_append_printf (name, "%s%s-", lot->colour != NULL ? " " : "", lot->number);
  else
    g_string_append_c (name, ' ');
  g_string_append_printf (name, "%03" G_GINT64_FORMAT, piece->tag);

  return g_string_free (name, FALSE);
}

/* --- any field -------------------------------------------------------------------------------- */

static char *
words_or_text (const char *marks)
{
  char *words = wb_words_marks (marks, NULL);

  return words != NULL ? words : g_strdup (marks);
}

char *
wb_words_value (gconstpointer  record,
                const WbField *field)
{
  gconstpointer member;

  g_return_val_if_fail (record != NULL, NULL);
  g_return_val_if_fail (field != NULL, NULL);

  member = G_STRUCT_MEMBER_P (record, field->offset);
  switch (field->type)
    {
    case WB_FIELD_BOOLEAN:
      return g_strdup (*(const gboolean *) member ? _("yes") : _("no"));

    case WB_FIELD_ENUM:
      {
        const char *label = wb_words_enum (field->choices, *(const int *) member);

        return g_strdup (*label != '\0' ? label : NOT_GIVEN);
      }

    case WB_FIELD_DATE:
      return wb_words_date (member);

    case WB_FIELD_MONEY:
      return wb_words_money (*(const WbMoney *) member);

    case WB_FIELD_WEIGHT:
      return wb_words_weight (*(const WbWeight *) member);

    case WB_FIELD_VOLUME:
      return wb_words_volume (*(const WbVolume *) member);

    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
    case WB_FIELD_INTEGER:
    case WB_FIELD_PERCENT:
      break;
    }

  if (!wb_record_field_is_set (field, record))
    return g_strdup (NOT_GIVEN);

  if (field->type == WB_FIELD_MARKS)
    return words_or_text (*(char *const *) member);

  if (field->type == WB_FIELD_PERCENT)
    return wb_words_percent (*(const gint64 *) member);

  /* Tag numbers, lines and ages are names and small counts: they are not grouped. */
  return wb_record_get_text (record, field);
}
