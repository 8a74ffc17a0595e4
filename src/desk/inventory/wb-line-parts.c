/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of an article as they are entered. How parts are numbered is core's. */
#include "config.h"

#include "desk/inventory/wb-line-parts.h"

#include "core/wb-parts.h"

/* What parts mostly have in common, beside what a new line takes over anyway. */
static const WbLinePart shared[] = {
  WB_LINE_ROOM, WB_LINE_PACKED_BY, WB_LINE_PACKER, WB_LINE_FORM, WB_LINE_CARTON, WB_LINE_SET,
  WB_LINE_DISASSEMBLY, WB_LINE_PACKED_ON, WB_LINE_CHECKED_BY,
};

/* How many parts of the article there are already; what becomes the first part counts. */
static gint64
count_parts (const WbJob *job,
             const char  *article)
{
  guint n = wb_job_count (job, WB_KIND_PIECE);
  gint64 count = 0;

  for (guint i = 0; article != NULL && i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (g_strcmp0 (piece->article, article) == 0)
        count++;
    }
  return MAX (count, 1);
}

/* What the first part is called goes for all; others say what they are beside it. */
static const WbPiece *
find_first (const WbJob   *job,
            const WbPiece *part)
{
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; part->article != NULL && i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (g_strcmp0 (piece->article, part->article) == 0)
        return piece;
    }
  return part;
}

char **
wb_line_next_part (const WbJob    *job,
                   const WbPiece  *before,
                   char          **base,
                   int            *position)
{
  char **texts = g_strdupv (base);
  gint64 part, of, first_part, first_of;
  g_autofree char *own = wb_part_parse (before->description, &part, &of);
  g_autofree char *name = wb_part_parse (find_first (job, before)->description, &first_part,
                                         &first_of);
  gint64 next = part != WB_INTEGER_UNSET ? part + 1 : count_parts (job, before->article) + 1;
  g_autofree char *description = wb_part_to_text (name, next, MAX (of, next));
  g_autofree char *article = before->article != NULL ? g_strdup (before->article)
                                                     : wb_parts_name (job, before);

  for (gsize i = 0; i < G_N_ELEMENTS (shared); i++)
    {
      g_autofree char *text = wb_line_show (before, shared[i]);

      wb_line_texts_set (texts, (int) shared[i], text);
    }
  wb_line_texts_set (texts, WB_LINE_DESCRIPTION, description);
  wb_line_texts_set (texts, WB_LINE_ARTICLE, article);
  *position = (int) g_utf8_strlen (name, -1);
  return texts;
}

WbJob *
wb_line_enter_part (const WbJob *job,
                    WbPiece     *piece,
                    const char  *before)
{
  g_autoptr (WbJob) with = wb_job_with (job, piece);
  const WbPiece *first = wb_job_find (with, WB_KIND_PIECE, before);
  g_autoptr (WbJob) together = NULL;
  g_autoptr (GPtrArray) numbered = NULL;

  if (first == NULL || piece->article == NULL
      || (first->article != NULL && !g_str_equal (first->article, piece->article)))
    return g_steal_pointer (&with);

  if (first->article == NULL)
    {
      g_autoptr (WbPiece) named = wb_record_copy (first);

      wb_set_text (&named->article, piece->article);
      together = wb_job_with (with, named);
    }
  else
    {
      together = wb_job_ref (with);
    }
  numbered = wb_parts_number (together, piece->article);
  return wb_job_with_many (together, numbered);
}
