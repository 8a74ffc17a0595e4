/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Articles of several parts and sets, in words. What is wrong with one is core's to find. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-groups-overview.h"

#include "core/wb-parts.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static void
append_sentence (GString    *text,
                 const char *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
}

/* "2, 3 and 5" would need a grammar for each language; commas do. */
static char *
list_numbers (const GArray *numbers)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < numbers->len; i++)
    g_string_append_printf (text, "%s%" G_GINT64_FORMAT, i > 0 ? ", " : "",
                            g_array_index (numbers, gint64, i));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* NULL when nothing is wrong. */
static char *
describe_faults (const WbGroup *group)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (group->faults & WB_GROUP_ALONE)
    append_sentence (text, group->is_set
                     ? _("Only one thing is in this set. Give its other pieces the same name, or "
                         "say how many are under the tag.")
                     : _("Only one tag has this article. Give its other parts the same name, or "
                         "take the name away."));
  if (group->faults & WB_GROUP_MISSING)
    {
      g_autofree char *numbers = list_numbers (group->missing);
      /* Translators: %s is one or more numbers of parts. */
      g_autofree char *sentence = g_strdup_printf (ngettext ("Part %s is missing.",
                                                             "Parts %s are missing.",
                                                             group->missing->len), numbers);

      append_sentence (text, sentence);
    }
  if (group->faults & WB_GROUP_REPEATED)
    append_sentence (text, _("Two parts have the same number."));
  if (group->faults & WB_GROUP_UNNUMBERED)
    append_sentence (text, _("Not every part says its number."));
  if (group->faults & WB_GROUP_DISAGREE)
    append_sentence (text, _("The parts do not agree on how many there are."));
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

static char *
describe_weight (const WbGroup *group)
{
  WbWeight sum = WB_WEIGHT_UNSET;

  for (guint i = 0; i < group->pieces->len; i++)
    {
      const WbPiece *piece = g_ptr_array_index (group->pieces, i);

      if (!wb_weight_is_set (piece->weight))
        return NULL;
      if (!wb_weight_is_set (sum))
        sum = piece->weight;
      else if (!wb_weight_add (sum, piece->weight, &sum, NULL))
        return NULL;
    }
  return wb_words_weight (sum);
}

static char *
describe_title (const WbGroup *group)
{
  g_autofree char *weight = describe_weight (group);
  g_autofree char *title = NULL;

  if (group->is_set)
    /* Translators: the name of a pair or set, and how many tags it has. */
    title = g_strdup_printf (ngettext ("Set “%s”, %u tag", "Set “%s”, %u tags", group->pieces->len),
                             group->name, group->pieces->len);
  else
    /* Translators: the name of an article in several parts, and how many tags it has. */
    title = g_strdup_printf (ngettext ("Article “%s”, %u tag", "Article “%s”, %u tags",
                                       group->pieces->len), group->name, group->pieces->len);
  return weight != NULL ? g_strdup_printf ("%s · %s", title, weight) : g_steal_pointer (&title);
}

static void
add_piece (WbPieceOverview *overview,
           const WbJob     *job,
           const WbPiece   *piece)
{
  g_autofree char *tag = wb_words_tag (job, piece);
  g_autofree char *weight = wb_weight_is_set (piece->weight) ? wb_words_weight (piece->weight)
                                                             : NULL;

  wb_piece_overview_add_piece (overview, tag,
                               piece->description != NULL ? piece->description : "", weight,
                               piece->record.id);
}

static void
fill (WbPieceOverview *overview,
      WbJobModel      *model)
{
  const WbJob *job = wb_job_model_get_job (model);
  g_autoptr (GPtrArray) groups = wb_groups_find (job);

  for (guint i = 0; i < groups->len; i++)
    {
      const WbGroup *group = g_ptr_array_index (groups, i);
      g_autofree char *title = describe_title (group);
      g_autofree char *faults = describe_faults (group);

      wb_piece_overview_add_group (overview, title, faults, faults != NULL);
      for (guint k = 0; k < group->pieces->len; k++)
        add_piece (overview, job, g_ptr_array_index (group->pieces, k));
    }
}

WbPieceOverview *
wb_groups_overview_new (GtkWindow  *parent,
                        WbJobModel *model)
{
  return wb_piece_overview_new (parent, model, _("Articles and Sets"), _("No Articles or Sets"),
                                _("Lines that have the same text under “Part of article” or “Part "
                                  "of set” stand here together. Ctrl+Shift+P in the strip makes "
                                  "the next part of a line."),
                                fill);
}

char *
wb_groups_overview_warn (const WbJob *job)
{
  g_autoptr (GPtrArray) groups = wb_groups_find (job);
  g_autofree char *words = NULL;
  guint n = 0;

  for (guint i = 0; i < groups->len; i++)
    if (((const WbGroup *) g_ptr_array_index (groups, i))->faults != WB_GROUP_GOOD)
      n++;
  if (n == 0)
    return NULL;

  words = g_strdup_printf (ngettext ("%u article or set", "%u articles or sets", n), n);
  /* Translators: %s says how many articles or sets. */
  return g_strdup_printf (ngettext ("<a href=\"show:groups\">%s</a> is not whole",
                                    "<a href=\"show:groups\">%s</a> are not whole", n), words);
}
