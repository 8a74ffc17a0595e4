/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists of tag numbers: reading what a person writes, the sums and differences of such lists, and
 * the one way to write each. Which numbers an inventory has is not known here. */
#include "config.h"

#include "core/wb-tag-ranges.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-text.h"

/* --- reading ---------------------------------------------------------------------------------- */

typedef struct
{
  const char *text;
  const char *at;
  gboolean    lots;
  char       *lot;       /* what holds for the numbers that follow, or NULL */
  gboolean    lot_used;  /* a number has followed it */
  const char *lot_at;
} Scanner;

void
wb_tag_item_free (WbTagItem *self)
{
  g_free (self->lot);
  g_free (self);
}

G_GNUC_PRINTF (5, 6)
static gboolean
fail_at (const Scanner  *self,
         const char     *at,
         int             code,
         GError        **error,
         const char     *format,
         ...)
{
  g_autofree char *message = NULL;
  va_list arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);

  g_set_error (error, WB_CORE_ERROR, code, "At character %" G_GSIZE_FORMAT ", %s",
               wb_text_position (self->text, at), message);
  return FALSE;
}

static gboolean
is_dash (gunichar c)
{
  return c == '-' || (c >= 0x2010 && c <= 0x2015) || c == 0x2212;
}

static gboolean
is_line_break (gunichar c)
{
  return (c >= '\n' && c <= '\r') || c == 0x85 || c == 0x2028 || c == 0x2029;
}

/* Blanks within a line. */
static const char *
skip_blanks (const char *at)
{
  while (*at != '\0')
    {
      gunichar c = g_utf8_get_char (at);

      if (!g_unichar_isspace (c) || is_line_break (c))
        break;
      at = g_utf8_next_char (at);
    }
  return at;
}

/* Whether the word @word stands at @at, in either case, and ends there. */
static gboolean
stands_word (const char *at,
             const char *word)
{
  gsize length = strlen (word);

  return g_ascii_strncasecmp (at, word, length) == 0
         && !g_unichar_isalpha (g_utf8_get_char (at + length)) && at[length] != '/';
}

/* Returns the byte behind the sign that joins the ends of a range, or NULL when there is none. */
static const char *
behind_dash (const char *at)
{
  at = skip_blanks (at);
  if (is_dash (g_utf8_get_char (at)))
    return skip_blanks (g_utf8_next_char (at));
  if (stands_word (at, "to"))
    return skip_blanks (at + 2);

  return NULL;
}

static gboolean
take_number (Scanner  *self,
             gint64   *out,
             GError  **error)
{
  const char *start = self->at;
  gint64 number = 0;
  g_autofree char *quoted = NULL;

  for (; g_ascii_isdigit (*self->at); self->at++)
    number = MIN (number * 10 + (*self->at - '0'), WB_TAG_MAX + 1);

  if (number > 0 && number <= WB_TAG_MAX)
    {
      *out = number;
      return TRUE;
    }
  if (number == 0)
    return fail_at (self, start, WB_CORE_ERROR_RANGE, error,
                    "0 is no tag number; tags begin at 1");

  quoted = wb_text_quote (start, self->at - start);
  return fail_at (self, start, WB_CORE_ERROR_RANGE, error,
                  "%s is too large for a tag number; they end at %" G_GINT64_FORMAT, quoted,
                  WB_TAG_MAX);
}

static gboolean
take_end_of_range (Scanner    *self,
                   WbTagItem  *item,
                   GError    **error)
{
  const char *end = behind_dash (self->at);

  item->last = item->first;
  if (end == NULL)
    return TRUE;

  item->range = TRUE;
  if (!g_ascii_isdigit (*end))
    return fail_at (self, end, WB_CORE_ERROR_PARSE, error,
                    "a number is missing; write where the range from %" G_GINT64_FORMAT
                    " ends, as in “%" G_GINT64_FORMAT "-%" G_GINT64_FORMAT "”", item->first,
                    item->first, item->first + 9);
  self->at = end;
  if (!take_number (self, &item->last, error))
    return FALSE;

  end = behind_dash (self->at);
  if (end != NULL)
    return fail_at (self, skip_blanks (self->at), WB_CORE_ERROR_PARSE, error,
                    "a range has two ends only; write a comma before the next number");
  return TRUE;
}

static gboolean
take_item (Scanner    *self,
           GPtrArray  *items,
           GError    **error)
{
  g_autoptr (WbTagItem) item = g_new0 (WbTagItem, 1);

  item->position = wb_text_position (self->text, self->at);
  item->lot = g_strdup (self->lot);
  self->lot_used = TRUE;
  if (!take_number (self, &item->first, error) || !take_end_of_range (self, item, error))
    return FALSE;

  if (g_unichar_isalpha (g_utf8_get_char (self->at)) && !stands_word (self->at, "and"))
    {
      g_autofree char *quoted = wb_text_quote (self->at, -1);

      return fail_at (self, self->at, WB_CORE_ERROR_PARSE, error,
                      "%s does not belong behind a tag number; write a blank between them", quoted);
    }

  g_ptr_array_add (items, g_steal_pointer (&item));
  return TRUE;
}

/* A lot without a number behind it would be lost in silence. */
static gboolean
end_lot (Scanner  *self,
         GError  **error)
{
  g_autofree char *quoted = NULL;

  if (self->lot != NULL && !self->lot_used)
    {
      quoted = wb_text_quote (self->lot, -1);
      return fail_at (self, self->lot_at, WB_CORE_ERROR_PARSE, error,
                      "no tag number stands behind %s", quoted);
    }

  g_clear_pointer (&self->lot, g_free);
  return TRUE;
}

static const char *
find_end_of_word (const char *at)
{
  while (g_unichar_isalpha (g_utf8_get_char (at)))
    at = g_utf8_next_char (at);
  return at;
}

/* The number of a lot, behind the stroke: letters, digits and hyphens between them. */
static const char *
find_end_of_lot_number (const char *at)
{
  while (g_unichar_isalnum (g_utf8_get_char (at))
         || (is_dash (g_utf8_get_char (at)) && g_unichar_isalnum (g_utf8_get_char
                                                                  (g_utf8_next_char (at)))))
    at = g_utf8_next_char (at);
  return at;
}

/* Words such as "light blue", "blue/204" or "blue:". */
static gboolean
take_lot (Scanner  *self,
          GError  **error)
{
  const char *start = self->at;
  const char *end = find_end_of_word (start);

  if (!self->lots)
    {
      g_autofree char *quoted = wb_text_quote (start, end - start);

      return fail_at (self, start, WB_CORE_ERROR_PARSE, error, "%s is not a tag number", quoted);
    }

  for (const char *next = skip_blanks (end);
       g_unichar_isalpha (g_utf8_get_char (next));
       next = skip_blanks (end))
    end = find_end_of_word (next);
  if (*end == '/')
    end = find_end_of_lot_number (end + 1);

  if (!end_lot (self, error))
    return FALSE;
  self->lot = g_strndup (start, (gsize) (end - start));
  self->lot_at = start;
  self->lot_used = FALSE;
  self->at = skip_blanks (end);
  if (*self->at == ':')
    self->at++;
  return TRUE;
}

static gboolean
take_separator (Scanner  *self,
                GError  **error)
{
  gunichar c = g_utf8_get_char (self->at);
  const char *start = self->at;
  g_autofree char *quoted = NULL;

  self->at = g_utf8_next_char (start);
  if (c == ';' || is_line_break (c))
    return end_lot (self, error);
  if (g_unichar_isspace (c) || c == ',' || c == '&')
    return TRUE;
  if (is_dash (c))
    return fail_at (self, start, WB_CORE_ERROR_PARSE, error,
                    "a number is missing before the dash; write a range as “1-40”");

  quoted = wb_text_quote (start, self->at - start);
  return fail_at (self, start, WB_CORE_ERROR_PARSE, error,
                  "%s does not belong in a list of tags; write it as “1-40, 42, 57”", quoted);
}

static gboolean
take_next (Scanner    *self,
           GPtrArray  *items,
           GError    **error)
{
  if (g_ascii_isdigit (*self->at))
    return take_item (self, items, error);
  if (stands_word (self->at, "and"))
    {
      self->at += 3;
      return TRUE;
    }
  if (g_unichar_isalpha (g_utf8_get_char (self->at)))
    return take_lot (self, error);

  return take_separator (self, error);
}

GPtrArray *
wb_tag_items_parse (const char  *text,
                    gboolean     lots,
                    GError     **error)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_tag_item_free);
  Scanner scanner = { .text = text, .at = text, .lots = lots };
  const char *broken;
  gboolean good = TRUE;

  g_return_val_if_fail (text != NULL, NULL);

  if (strlen (text) > WB_TAG_TEXT_MAX_BYTES)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                   "This is too long for a list of tags; write fewer than %d characters",
                   WB_TAG_TEXT_MAX_BYTES);
      return NULL;
    }
  if (!g_utf8_validate (text, -1, &broken))
    {
      fail_at (&scanner, broken, WB_CORE_ERROR_PARSE, error, "this is no letter and no digit");
      return NULL;
    }

  while (good && *scanner.at != '\0')
    good = take_next (&scanner, items, error);
  good = good && end_lot (&scanner, error);

  g_free (scanner.lot);
  return good ? g_steal_pointer (&items) : NULL;
}

gboolean
wb_tag_item_check (const WbTagItem  *self,
                   GError          **error)
{
  if (self->first <= self->last)
    return TRUE;

  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
               "At character %" G_GSIZE_FORMAT ", the range goes down from %" G_GINT64_FORMAT
               " to %" G_GINT64_FORMAT "; write %" G_GINT64_FORMAT "-%" G_GINT64_FORMAT,
               self->position, self->first, self->last, self->last, self->first);
  return FALSE;
}

GArray *
wb_tag_ranges_parse (const char  *text,
                     GError     **error)
{
  g_autoptr (GPtrArray) items = wb_tag_items_parse (text, FALSE, error);
  g_autoptr (GArray) ranges = wb_tag_ranges_new ();

  if (items == NULL)
    return NULL;

  for (guint i = 0; i < items->len; i++)
    {
      const WbTagItem *item = g_ptr_array_index (items, i);

      if (!wb_tag_item_check (item, error))
        return NULL;
      wb_tag_ranges_add (ranges, item->first, item->last);
    }
  return g_steal_pointer (&ranges);
}

char *
wb_tag_ranges_to_text (const GArray *ranges)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < ranges->len; i++)
    {
      const WbTagRange *range = &g_array_index (ranges, WbTagRange, i);

      if (i > 0)
        g_string_append (text, ", ");
      g_string_append_printf (text, "%" G_GINT64_FORMAT, range->first);
      if (range->last > range->first)
        g_string_append_printf (text, "-%" G_GINT64_FORMAT, range->last);
    }
  return g_string_free (text, FALSE);
}

/* --- sets ------------------------------------------------------------------------------------- */

GArray *
wb_tag_ranges_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (WbTagRange));
}

GArray *
wb_tag_ranges_copy (const GArray *ranges)
{
  GArray *copy = wb_tag_ranges_new ();

  if (ranges->len > 0)
    g_array_append_vals (copy, ranges->data, ranges->len);
  return copy;
}

/* The first range that ends at or above @tag; the number of ranges when there is none. */
static guint
find_range (const GArray *ranges,
            gint64        tag)
{
  guint low = 0;
  guint high = ranges->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (g_array_index (ranges, WbTagRange, middle).last < tag)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

void
wb_tag_ranges_add (GArray *ranges,
                   gint64  first,
                   gint64  last)
{
  WbTagRange joined = { first, last };
  guint from, to;

  g_return_if_fail (first <= last);

  from = find_range (ranges, first - 1);
  for (to = from; to < ranges->len; to++)
    {
      const WbTagRange *range = &g_array_index (ranges, WbTagRange, to);

      if (range->first > last + 1)
        break;
      joined.first = MIN (joined.first, range->first);
      joined.last = MAX (joined.last, range->last);
    }

  if (to > from)
    g_array_remove_range (ranges, from, to - from);
  g_array_insert_val (ranges, from, joined);
}

GArray *
wb_tag_ranges_merge (const GArray *a,
                     const GArray *b)
{
  GArray *merged = wb_tag_ranges_copy (a);

  for (guint i = 0; i < b->len; i++)
    {
      const WbTagRange *range = &g_array_index (b, WbTagRange, i);

      wb_tag_ranges_add (merged, range->first, range->last);
    }
  return merged;
}

GArray *
wb_tag_ranges_subtract (const GArray *a,
                        const GArray *b)
{
  GArray *rest = wb_tag_ranges_new ();

  for (guint i = 0; i < a->len; i++)
    {
      WbTagRange left = g_array_index (a, WbTagRange, i);

      for (guint j = find_range (b, left.first); j < b->len && left.first <= left.last; j++)
        {
          const WbTagRange *taken = &g_array_index (b, WbTagRange, j);

          if (taken->first > left.last)
            break;
          if (taken->first > left.first)
            g_array_append_vals (rest, &(WbTagRange) { left.first, taken->first - 1 }, 1);
          left.first = taken->last + 1;
        }
      if (left.first <= left.last)
        g_array_append_val (rest, left);
    }
  return rest;
}

GArray *
wb_tag_ranges_intersect (const GArray *a,
                         const GArray *b)
{
  g_autoptr (GArray) only_a = wb_tag_ranges_subtract (a, b);

  return wb_tag_ranges_subtract (a, only_a);
}

gboolean
wb_tag_ranges_contain (const GArray *ranges,
                       gint64        tag)
{
  guint i = find_range (ranges, tag);

  return i < ranges->len && g_array_index (ranges, WbTagRange, i).first <= tag;
}

gint64
wb_tag_ranges_count (const GArray *ranges)
{
  gint64 count = 0;

  for (guint i = 0; i < ranges->len; i++)
    {
      const WbTagRange *range = &g_array_index (ranges, WbTagRange, i);

      count += range->last - range->first + 1;
    }
  return count;
}
