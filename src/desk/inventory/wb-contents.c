/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Things to text and back. Sums are core's. */
#include "config.h"

#include "desk/inventory/wb-contents.h"

#include "desk/inventory/wb-line.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <inttypes.h>

const WbField *
wb_thing_field (WbThingPart part)
{
  static const char *const names[] = { "quantity", "description", "value", "weight", "notes" };

  G_STATIC_ASSERT (G_N_ELEMENTS (names) == WB_THING_N_PARTS);
  return wb_record_type_field (wb_record_type (WB_KIND_THING), names[part]);
}

char *
wb_thing_show (const WbThing *thing,
               WbThingPart    part)
{
  return wb_record_get_text (thing, wb_thing_field (part));
}

gboolean
wb_thing_read (WbThing      *thing,
               WbThingPart   part,
               const char   *text,
               const char   *currency,
               GError      **error)
{
  const WbField *field = wb_thing_field (part);
  g_autofree char *typed = g_strstrip (g_strdup (text));
  g_autofree char *whole = part == WB_THING_WEIGHT
                           ? wb_line_complete_weight (typed, WB_WEIGHT_UNIT_LB) : g_strdup (typed);
  g_autofree char *sentence = NULL;
  g_autoptr (GError) refusal = NULL;

  if (wb_record_set_text (thing, field, whole, currency, &refusal))
    return TRUE;
  sentence = wb_line_describe_refusal (field, typed, refusal);
  g_set_error_literal (error, refusal->domain, refusal->code, sentence);
  return FALSE;
}

/* --- what a list comes to --------------------------------------------------------------------- */

static char *
count_things (gint64 n)
{
  guint64 count = (guint64) n;

  return g_strdup_printf (ngettext ("%" PRIu64 " thing",
                                    "%" PRIu64 " things", count), count);
}

char *
wb_contents_total (GPtrArray *things)
{
  g_autoptr (GString) text = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *count = NULL;
  WbThingTotals totals;

  if (things->len == 0)
    return g_strdup (_("Nothing listed yet"));
  if (!wb_things_total (things, &totals, &error))
    return g_strdup (_("The values or weights of the contents are too large to add up."));

  count = count_things (totals.count);
  text = g_string_new (count);
  if (wb_money_is_set (totals.value))
    {
      g_autofree char *value = wb_words_money (totals.value);

      g_string_append_printf (text, " · %s", value);
      if (totals.n_unvalued > 0)
        g_string_append_printf (text, ngettext (" · %u line without value",
                                                " · %u lines without value", totals.n_unvalued),
                                totals.n_unvalued);
    }
  if (wb_weight_is_set (totals.weight))
    {
      g_autofree char *weight = wb_words_weight (totals.weight);

      g_string_append_printf (text, " · %s", weight);
      if (totals.n_unweighed > 0)
        g_string_append_printf (text, ngettext (" · %u line without weight",
                                                " · %u lines without weight", totals.n_unweighed),
                                totals.n_unweighed);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
wb_contents_describe (const WbJob *job,
                      const char  *piece)
{
  g_autoptr (GPtrArray) things = wb_things_of (job, piece);
  g_autoptr (GStrvBuilder) names = g_strv_builder_new ();
  g_auto (GStrv) all = NULL;
  g_autofree char *list = NULL;
  g_autofree char *count = NULL;
  gint64 n = 0;

  if (things->len == 0)
    return NULL;
  for (guint i = 0; i < things->len; i++)
    {
      const WbThing *thing = g_ptr_array_index (things, i);

      n += wb_thing_count (thing);
      g_strv_builder_add (names, thing->description);
    }
  all = g_strv_builder_end (names);
  list = g_strjoinv (", ", all);
  count = count_things (n);
  /* Translators: how many things are in a carton, and what they are. */
  return g_strdup_printf (_("%s: %s"), count, list);
}

char *
wb_contents_spell (const WbJob *job,
                   const char  *piece)
{
  g_autoptr (GPtrArray) things = wb_things_of (job, piece);
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *total = NULL;

  if (things->len == 0)
    return NULL;
  for (guint i = 0; i < things->len; i++)
    {
      const WbThing *thing = g_ptr_array_index (things, i);

      if (wb_thing_count (thing) != 1)
        g_string_append_printf (text, "%" G_GINT64_FORMAT " × ", wb_thing_count (thing));
      g_string_append_printf (text, "%s\n", thing->description);
    }
  total = wb_contents_total (things);
  g_string_append (text, total);
  return g_string_free (g_steal_pointer (&text), FALSE);
}
