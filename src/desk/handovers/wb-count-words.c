/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the count panel says. Reads values only; the deeds are in core. */
#include "config.h"

#include "desk/handovers/wb-count-words.h"

#include <glib/gi18n.h>

#include "core/wb-mark-compare.h"
#include "office/wb-words-trail.h"

static void
append (GString *text,
        char    *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
  g_free (sentence);
}

/* The tags of the entry that no piece has, by lot. */
static char *
describe_strays (const WbCountEntry *entry)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < entry->parts->len; i++)
    {
      const WbCountPart *part = g_ptr_array_index (entry->parts, i);
      g_autofree char *lot = wb_words_lot (part->lot);
      g_autofree char *tags = wb_tag_ranges_to_text (part->strays);

      if (part->strays->len > 0)
        g_string_append_printf (text, "%s%s: %s", text->len > 0 ? "; " : "", lot, tags);
    }
  return g_string_free (text, FALSE);
}

static void
append_strays_and_repeats (GString            *text,
                           const WbCountEntry *entry,
                           gint64              n_again)
{
  g_autofree char *strays = describe_strays (entry);

  if (entry->n_strays > 0)
    /* Translators: tags by lot. */
    append (text, g_strdup_printf (_("Not on the inventory, so over: %s."), strays));
  if (n_again > 0)
    append (text, g_strdup_printf (ngettext ("%u was counted before.", "%u were counted before.",
                                             (gulong) n_again), (guint) n_again));
}

char *
wb_count_words_counted (const WbCountEntry *entry,
                        gint64              n_again)
{
  GString *text = g_string_new (NULL);
  gint64 n = entry->n_listed + entry->n_strays;

  append (text, g_strdup_printf (ngettext ("Counted %u tag.", "Counted %u tags.", (gulong) n),
                                 (guint) n));
  append_strays_and_repeats (text, entry, n_again);
  return g_string_free (text, FALSE);
}

char *
wb_count_words_preview (const WbCountEntry *entry,
                        gint64              n_again)
{
  GString *text = g_string_new (NULL);
  gint64 n = entry->n_listed + entry->n_strays;

  append (text, g_strdup_printf (ngettext ("Enter counts %u tag.", "Enter counts %u tags.",
                                           (gulong) n), (guint) n));
  append_strays_and_repeats (text, entry, n_again);
  return g_string_free (text, FALSE);
}

static char *
marks_in_words (const WbMarks *marks)
{
  g_autofree char *text = wb_marks_to_text (marks);
  char *words = wb_words_marks (text, NULL);

  return words != NULL ? words : g_steal_pointer (&text);
}

/* What of @marks was noted before: all of it without what is new. */
static char *
describe_known (const WbPass *pass,
                const char   *typed)
{
  g_auto (WbMarks) known = wb_marks_from_text (pass->known_marks);
  g_auto (WbMarks) noted = wb_marks_from_text (pass->noted_marks);
  g_auto (WbMarks) marks = wb_marks_from_text (typed);
  g_auto (WbMarks) fresh = { NULL, 0 };
  g_auto (WbMarks) old = { NULL, 0 };
  g_autofree char *words = NULL;

  wb_marks_add (&known, &noted);
  wb_marks_find_new (&marks, &known, &fresh);
  if (wb_marks_is_empty (&fresh))
    return g_strdup (_("All of it was there before: nothing is new."));

  wb_marks_find_new (&marks, &fresh, &old);
  if (wb_marks_is_empty (&old))
    return NULL;

  words = marks_in_words (&old);
  /* Translators: condition marks in words. */
  return g_strdup_printf (_("There before: %s."), words);
}

char *
wb_count_words_marks (const WbJob   *job,
                      const WbTrail *trail,
                      guint          handover,
                      guint          piece,
                      const char    *marks)
{
  const WbPiece *record = wb_job_nth (job, WB_KIND_PIECE, piece);
  const WbPass *pass = wb_trail_pass (trail, handover, piece);
  const char *what = record->description != NULL ? record->description : record->contents;
  g_auto (WbMarks) typed = wb_marks_from_text (marks);
  g_autofree char *tag = wb_words_tag (job, record);
  g_autofree char *words = marks_in_words (&typed);
  char *known = describe_known (pass, marks);
  GString *text = g_string_new (NULL);

  /* Translators: a tag, what the piece is, condition marks in words. */
  append (text, g_strdup_printf (_("%s, %s: %s."), tag, what != NULL ? what : _("not described"),
                                 words));
  if (known != NULL)
    append (text, known);
  return g_string_free (text, FALSE);
}

char *
wb_count_words_finish (const WbJob           *job,
                       const WbHandoverFacts *facts)
{
  g_autofree char *left = wb_words_pieces (job, facts->left);
  g_autofree char *figures = wb_words_handover_figures (facts);

  /* Translators: how many pieces, which, and what was counted so far. */
  return g_strdup_printf (ngettext ("%u piece was not counted and becomes short: %s.\n\nCount so "
                                    "far: %s.",
                                    "%u pieces were not counted and become short: %s.\n\nCount so "
                                    "far: %s.", facts->left->len), facts->left->len, left,
                          figures);
}
