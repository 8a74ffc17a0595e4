/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads one field as it is typed. A code that is still being written is not called wrong; a
 * finished one is at once. */
#include "config.h"

#include "desk/inventory/wb-line-advice.h"

#include "core/wb-mark.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#define N_SUGGESTIONS 4

/* Condition codes whose end is still being typed: the finished ones in words, or what is wrong with
 * them. */
static void
advise_unfinished_marks (WbLineEntry *entry,
                         const char  *text)
{
  g_autofree char *finished = g_strndup (text, wb_line_finished_marks (text));
  g_autofree char *words = NULL;
  g_autofree char *sentence = NULL;
  g_autofree char *going_on = NULL;
  g_autoptr (GError) error = NULL;

  words = wb_words_marks (finished, &error);
  if (words == NULL)
    {
      sentence = g_strconcat (error->message, ".", NULL);
      wb_line_entry_set_error (entry, sentence);
      return;
    }
  going_on = g_strconcat (words, "…", NULL);
  wb_line_entry_set_hint (entry, going_on);
}

static void
advise_good (WbLineEntry   *entry,
             const WbPiece *piece,
             const WbJob   *job,
             gboolean       final)
{
  WbLinePart part = wb_line_entry_get_part (entry);
  g_autofree char *words = NULL;

  if (wb_line_field (part)->suggests && !final)
    {
      wb_line_entry_take_suggestions (entry,
                                      wb_line_suggest (job, part, wb_line_entry_get_text (entry),
                                                       N_SUGGESTIONS));
      return;
    }

  words = wb_line_words (piece, part);
  if (words != NULL && g_str_equal (words, wb_line_entry_get_text (entry)))
    g_clear_pointer (&words, g_free);
  wb_line_entry_set_hint (entry, words);
}

gboolean
wb_line_advise (WbLineEntry  *entry,
                const WbJob  *job,
                WbWeightUnit  unit,
                gboolean      final)
{
  g_autoptr (WbPiece) scratch = wb_record_new (WB_KIND_PIECE, "scratch");
  g_autoptr (GError) error = NULL;
  WbLinePart part = wb_line_entry_get_part (entry);
  const char *text = wb_line_entry_get_text (entry);

  if (wb_line_read (scratch, part, text, wb_job_get_currency (job), unit, &error))
    {
      advise_good (entry, scratch, job, final);
      return TRUE;
    }

  if (final || wb_line_entry_has_error (entry))
    wb_line_entry_set_error (entry, error->message);
  else if (part == WB_LINE_MARKS)
    advise_unfinished_marks (entry, text);
  else
    wb_line_entry_set_hint (entry, NULL);
  return FALSE;
}
