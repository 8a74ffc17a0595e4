/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sums and warnings of the inventory as text. What counts as odd is core's. */
#include "config.h"

#include "desk/inventory/wb-inventory-summary.h"

#include "core/wb-photo.h"
#include "core/wb-tags.h"
#include "desk/inventory/wb-lot-choice.h"
#include "desk/model/wb-record-item.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* So many numbers of one sort are named; of the rest only how many there are. */
#define NAMED 8
#define NAMED_LOTS 4

typedef struct
{
  guint     n;
  guint     n_unweighed;
  WbWeight  sum;
  gboolean  overflow;
} Total;

static void
add_piece (Total         *total,
           const WbPiece *piece)
{
  total->n++;
  if (!wb_weight_is_set (piece->weight))
    total->n_unweighed++;
  else if (!wb_weight_is_set (total->sum))
    total->sum = piece->weight;
  else if (!wb_weight_add (total->sum, piece->weight, &total->sum, NULL))
    total->overflow = TRUE;
}

static void
append_weights (GString     *text,
                const Total *total)
{
  if (wb_weight_is_set (total->sum) && !total->overflow)
    {
      g_autofree char *weight = wb_words_weight (total->sum);

      g_string_append_printf (text, " · %s", weight);
    }
  if (total->n_unweighed > 0 && total->n > 0)
    {
      g_string_append (text, " · ");
      g_string_append_printf (text,
                              ngettext ("%u without weight", "%u without weight",
                                        total->n_unweighed),
                              total->n_unweighed);
    }
}

char *
wb_inventory_summary_count (GListModel *shown,
                            guint       n_all)
{
  g_autoptr (GString) text = g_string_new (NULL);
  Total total = { 0 };
  guint n = g_list_model_get_n_items (shown);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (WbRecordItem) item = g_list_model_get_item (shown, i);

      add_piece (&total, wb_record_item_get_record (item));
    }

  if (n == n_all)
    g_string_append_printf (text, ngettext ("%u piece", "%u pieces", n), n);
  else
    /* Translators: how many pieces are shown, and how many there are. */
    g_string_append_printf (text, ngettext ("%u of %u piece", "%u of %u pieces", n_all), n, n_all);
  append_weights (text, &total);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
describe_one (const WbJob   *job,
              const WbPiece *piece)
{
  g_autofree char *tag = wb_words_tag (job, piece);
  g_autofree char *marks = piece->marks != NULL ? wb_words_marks (piece->marks, NULL) : NULL;
  const char *what = piece->description != NULL ? piece->description : piece->contents;
  guint n_photos = wb_photo_count_of_piece (job, piece->record.id);
  g_autoptr (GString) text = g_string_new (tag);

  if (what != NULL)
    g_string_append_printf (text, " · %s", what);
  if (marks != NULL)
    g_string_append_printf (text, " · %s", marks);
  if (n_photos > 0)
    {
      g_string_append (text, " · ");
      g_string_append_printf (text, ngettext ("%u photo", "%u photos", n_photos), n_photos);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
wb_inventory_summary_selected (const WbJob *job,
                               GPtrArray   *ids)
{
  g_autoptr (GString) text = NULL;
  Total total = { 0 };

  if (ids->len == 0)
    return NULL;

  for (guint i = 0; i < ids->len; i++)
    {
      const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, g_ptr_array_index (ids, i));

      if (piece != NULL && ids->len == 1)
        return describe_one (job, piece);
      if (piece != NULL)
        add_piece (&total, piece);
    }

  text = g_string_new (NULL);
  g_string_append_printf (text, ngettext ("%u selected", "%u selected", total.n), total.n);
  append_weights (text, &total);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* --- tags ------------------------------------------------------------------------------------- */

static void
append_link (GString          *text,
             const char       *deed,
             const WbTagSheet *sheet,
             gint64            tag,
             const char       *words)
{
  g_string_append_printf (text, "<a href=\"%s:%s/%" G_GINT64_FORMAT "\">%s</a>", deed,
                          sheet->lot != NULL ? sheet->lot->record.id : "", tag, words);
}

/* "17, 19–25", each a link; "and 12 more" after the first few. */
static void
append_ranges (GString          *text,
               const char       *deed,
               const WbTagSheet *sheet,
               const GArray     *ranges)
{
  for (guint i = 0; i < MIN (ranges->len, NAMED); i++)
    {
      const WbTagRange *range = &g_array_index (ranges, WbTagRange, i);
      g_autofree char *words = NULL;

      if (range->first == range->last)
        words = g_strdup_printf ("%" G_GINT64_FORMAT, range->first);
      else
        words = g_strdup_printf ("%" G_GINT64_FORMAT "–%" G_GINT64_FORMAT, range->first,
                                 range->last);
      if (i > 0)
        g_string_append (text, ", ");
      append_link (text, deed, sheet, range->first, words);
    }
  if (ranges->len > NAMED)
    /* Translators: ends a list of numbers. */
    g_string_append_printf (text, ngettext (" and %u more", " and %u more", ranges->len - NAMED),
                            ranges->len - NAMED);
}

static void
append_repeats (GString          *text,
                const WbTagSheet *sheet)
{
  for (guint i = 0; i < MIN (sheet->repeats->len, NAMED); i++)
    {
      const WbTagRepeat *repeat = &g_array_index (sheet->repeats, WbTagRepeat, i);
      g_autofree char *words = g_strdup_printf ("%" G_GINT64_FORMAT, repeat->tag);

      if (i > 0)
        g_string_append (text, ", ");
      append_link (text, "find", sheet, repeat->tag, words);
      g_string_append_c (text, ' ');
      if (repeat->count == 2)
        g_string_append (text, _("twice"));
      else
        g_string_append_printf (text, ngettext ("%u time", "%u times", repeat->count),
                                repeat->count);
    }
  if (sheet->repeats->len > NAMED)
    g_string_append_printf (text,
                            ngettext (" and %u more", " and %u more", sheet->repeats->len - NAMED),
                            sheet->repeats->len - NAMED);
}

static void
append_separator (GString *text,
                  gsize    start)
{
  if (text->len > start)
    g_string_append (text, "; ");
}

static void
append_sheet (GString          *text,
              const WbTagSheet *sheet)
{
  g_autofree char *name = sheet->lot != NULL
    ? wb_lot_choice_describe (sheet->lot, FALSE) : g_strdup (_("No lot"));
  g_autofree char *escaped = g_markup_escape_text (name, -1);
  gsize start;

  if (text->len > 0)
    g_string_append_c (text, '\n');
  g_string_append_printf (text, "<b>%s</b>: ", escaped);
  start = text->len;

  if (sheet->missing->len > 0)
    {
      append_ranges (text, "enter", sheet, sheet->missing);
      /* Translators: follows one or more numbers of tags. */
      g_string_append_printf (text, " %s", _("missing"));
    }
  if (sheet->repeats->len > 0)
    {
      append_separator (text, start);
      append_repeats (text, sheet);
    }
  if (sheet->outside->len > 0)
    {
      append_separator (text, start);
      append_ranges (text, "find", sheet, sheet->outside);
      /* Translators: follows one or more numbers of tags. */
      g_string_append_printf (text, " %s", _("not in the lot"));
    }
  if (sheet->n_untagged > 0)
    {
      g_autofree char *words = g_strdup_printf (ngettext ("%u line without a tag",
                                                          "%u lines without a tag",
                                                          sheet->n_untagged), sheet->n_untagged);

      append_separator (text, start);
      append_link (text, "untagged", sheet, 0, words);
    }
}

char *
wb_inventory_summary_tags (const WbJob *job)
{
  g_autoptr (GPtrArray) sheets = wb_tags_check (job);
  g_autoptr (GString) text = g_string_new (NULL);
  guint n = 0;

  for (guint i = 0; i < sheets->len; i++)
    {
      const WbTagSheet *sheet = g_ptr_array_index (sheets, i);

      if (wb_tag_sheet_is_clean (sheet))
        continue;
      if (n++ < NAMED_LOTS)
        append_sheet (text, sheet);
    }
  if (n > NAMED_LOTS)
    {
      g_string_append_c (text, '\n');
      g_string_append_printf (text,
                              ngettext ("and %u more lot", "and %u more lots",
                                        n - NAMED_LOTS), n - NAMED_LOTS);
    }
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}
