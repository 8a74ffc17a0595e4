/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines as texts. Everything here is a function of the job and of what was typed. */
#include "config.h"

#include "desk/inventory/wb-line-texts.h"

#include "core/wb-tags.h"
#include "desk/inventory/wb-lot-choice.h"

#include <glib/gi18n.h>

char **
wb_line_texts_of_piece (const WbPiece *piece)
{
  char **texts = g_new0 (char *, WB_LINE_N_TEXTS + 1);

  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    texts[i] = wb_line_show (piece, (WbLinePart) i);
  texts[WB_LINE_LOT] = g_strdup (piece->lot != NULL ? piece->lot : "");
  return texts;
}

void
wb_line_texts_set (char       **texts,
                   int          index,
                   const char  *text)
{
  char *copy = g_strdup (text);

  g_free (texts[index]);
  texts[index] = copy;
}

const char *
wb_line_texts_get_lot (char **texts)
{
  return *texts[WB_LINE_LOT] != '\0' ? texts[WB_LINE_LOT] : NULL;
}

gboolean
wb_line_texts_equal (char **a,
                     char **b)
{
  return g_strv_equal ((const char *const *) a, (const char *const *) b);
}

gboolean
wb_line_texts_are_bare (char **texts)
{
  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    if (wb_line_field ((WbLinePart) i)->row != WB_LINE_ROW_STAYS
        && !wb_line_is_carried ((WbLinePart) i) && *texts[i] != '\0')
      return FALSE;
  return TRUE;
}

gboolean
wb_line_texts_have_more (char **texts)
{
  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    if (wb_line_field ((WbLinePart) i)->row == WB_LINE_ROW_MORE && *texts[i] != '\0')
      return TRUE;
  return FALSE;
}

const WbPiece *
wb_line_find_last (const WbJob *job,
                   const char  *lot,
                   gboolean     any)
{
  for (guint i = wb_job_count (job, WB_KIND_PIECE); i > 0; i--)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i - 1);

      if (any || g_strcmp0 (piece->lot, lot) == 0)
        return piece;
    }
  return NULL;
}

char *
wb_line_next_tag (const WbJob   *job,
                  const char    *lot,
                  const WbPiece *after)
{
  gint64 tag = wb_tags_next (job, lot, after != NULL ? after->tag : WB_INTEGER_UNSET);

  return tag != WB_INTEGER_UNSET ? g_strdup_printf ("%" G_GINT64_FORMAT, tag) : g_strdup ("");
}

char **
wb_line_texts_start (const WbJob    *job,
                     const WbPiece  *after,
                     char          **last)
{
  g_autoptr (WbPiece) blank = wb_record_new (WB_KIND_PIECE, "blank");
  char **texts = wb_line_texts_of_piece (after != NULL ? after : blank);

  if (after == NULL && wb_job_count (job, WB_KIND_LOT) > 0)
    wb_line_texts_set (texts, WB_LINE_LOT,
                       ((const WbRecord *) wb_job_nth (job, WB_KIND_LOT, 0))->id);
  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    if (!wb_line_is_carried ((WbLinePart) i))
      wb_line_texts_set (texts, i, "");
  g_free (texts[WB_LINE_TAG]);
  texts[WB_LINE_TAG] = wb_line_next_tag (job, wb_line_texts_get_lot (texts), after);

  /* The kind of carton waits in its field while loose pieces are entered. */
  if (after != NULL && after->form == WB_FORM_LOOSE && last != NULL)
    wb_line_texts_set (texts, WB_LINE_CARTON, last[WB_LINE_CARTON]);
  return texts;
}

gboolean
wb_line_texts_read (char         **texts,
                    char         **unless,
                    WbPiece       *piece,
                    const char    *currency,
                    WbWeightUnit   unit,
                    char         **errors)
{
  gboolean good = TRUE;

  if (unless == NULL || !g_str_equal (texts[WB_LINE_LOT], unless[WB_LINE_LOT]))
    wb_set_text (&piece->lot, wb_line_texts_get_lot (texts));

  for (int i = 0; i < WB_LINE_N_PARTS; i++)
    {
      g_autoptr (GError) error = NULL;

      errors[i] = NULL;
      if (unless != NULL && g_str_equal (texts[i], unless[i]))
        continue;
      if (wb_line_read (piece, (WbLinePart) i, texts[i], currency, unit, &error))
        continue;
      errors[i] = g_strdup (error->message);
      good = FALSE;
    }

  if (piece->form == WB_FORM_LOOSE)
    wb_set_text (&piece->carton, NULL);
  return good;
}

char *
wb_line_find_end (const WbJob *job,
                  const char  *lot,
                  const char  *tag)
{
  const WbLot *roll = wb_job_find (job, WB_KIND_LOT, lot);
  g_autofree char *name = NULL;

  if (roll == NULL || roll->last == WB_INTEGER_UNSET || *tag != '\0')
    return NULL;

  name = wb_lot_choice_describe (roll, FALSE);
  /* Translators: a lot of tags and its last tag. */
  return g_strdup_printf (_("Lot %s ends with tag %d. Choose the next lot."), name,
                          (int) roll->last);
}

char *
wb_line_find_oddity (const WbJob   *job,
                     const WbPiece *piece)
{
  const WbLot *lot = wb_job_find (job, WB_KIND_LOT, piece->lot);
  g_autofree char *name = NULL;

  if (piece->tag == WB_INTEGER_UNSET)
    return g_strdup (_("The line has no tag. Press Enter again to take it so."));

  if (wb_tags_count (job, piece->lot, piece->tag, piece->record.id) > 0)
    return g_strdup (_("Another line has this tag. Press Enter again to take it so."));

  if (lot == NULL || ((lot->first == WB_INTEGER_UNSET || piece->tag >= lot->first)
                      && (lot->last == WB_INTEGER_UNSET || piece->tag <= lot->last)))
    return NULL;

  name = wb_lot_choice_describe (lot, TRUE);
  /* Translators: %s is a lot of tags with its range. */
  return g_strdup_printf (_("Lot %s has no such tag. Press Enter again to take it so."), name);
}
