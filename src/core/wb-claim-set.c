/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds what belongs together with a claim line and adds lines for it. How a limit is shared is the
 * reckoning's. */
#include "config.h"

#include "core/wb-claim-set.h"

#include "core/wb-core.h"

static const WbPiece *
piece_of (const WbJob       *job,
          const WbClaimLine *line)
{
  return wb_job_find (job, WB_KIND_PIECE, line->piece);
}

/* The line of the claim on a piece; the first when there are several. */
static const WbClaimLine *
find_line (const WbJob *job,
           const char  *claim_id,
           const char  *piece_id)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim_id) == 0 && g_strcmp0 (line->piece, piece_id) == 0)
        return line;
    }
  return NULL;
}

GArray *
wb_claim_set_mates (const WbJob       *job,
                    const WbClaimLine *line)
{
  GArray *mates = g_array_new (FALSE, TRUE, sizeof (WbMate));
  const WbPiece *own = piece_of (job, line);

  if (own == NULL || own->set == NULL)
    return mates;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (piece != own && g_strcmp0 (piece->set, own->set) == 0)
        {
          WbMate mate = { piece, find_line (job, line->claim, piece->record.id) };

          g_array_append_val (mates, mate);
        }
    }
  return mates;
}

GPtrArray *
wb_claim_set_parts (const WbJob       *job,
                    const WbClaimLine *line)
{
  GPtrArray *parts = g_ptr_array_new ();
  const WbPiece *own = piece_of (job, line);

  if (own == NULL || own->article == NULL)
    return parts;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (piece != own && g_strcmp0 (piece->article, own->article) == 0)
        g_ptr_array_add (parts, (gpointer) piece);
    }
  return parts;
}

GPtrArray *
wb_claim_set_sharers (const WbJob       *job,
                      const WbClaimLine *line)
{
  GPtrArray *sharers = g_ptr_array_new ();
  const WbPiece *own = piece_of (job, line);

  if (own == NULL)
    return sharers;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *other = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);
      const WbPiece *piece = piece_of (job, other);

      if (other == line || piece == NULL || g_strcmp0 (other->claim, line->claim) != 0)
        continue;
      if (piece == own || (own->article != NULL && g_strcmp0 (piece->article, own->article) == 0))
        g_ptr_array_add (sharers, (gpointer) other);
    }
  return sharers;
}

gint64
wb_claim_next_number (const WbJob *job,
                      const char  *claim_id)
{
  gint64 last = 0;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim_id) == 0)
        last = MAX (last, line->number);
    }
  return last + 1;
}

static WbClaimLine *
new_mate (const WbClaimLine *line,
          const WbPiece     *piece,
          const char        *id,
          gint64             number)
{
  WbClaimLine *mate = wb_record_new (WB_KIND_CLAIM_LINE, id);

  wb_set_text (&mate->claim, line->claim);
  wb_set_text (&mate->piece, piece->record.id);
  wb_set_text (&mate->item, piece->description);
  mate->number = number;
  mate->loss = WB_LOSS_DAMAGED;
  mate->set_mate = TRUE;
  mate->cause = line->cause;
  return mate;
}

WbJob *
wb_claim_set_add_mates (const WbJob        *job,
                        const WbClaimLine  *line,
                        char             *(*new_id) (void),
                        GError            **error)
{
  g_autoptr (GArray) mates = wb_claim_set_mates (job, line);
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (wb_record_unref);
  gint64 number = wb_claim_next_number (job, line->claim);

  for (guint i = 0; i < mates->len; i++)
    {
      const WbMate *mate = &g_array_index (mates, WbMate, i);
      g_autofree char *id = NULL;

      if (mate->line != NULL)
        continue;
      id = new_id ();
      g_ptr_array_add (lines, new_mate (line, mate->piece, id, number++));
    }
  if (lines->len == 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   mates->len == 0 ? "the piece of line %" G_GINT64_FORMAT " is of no set"
                   : "every piece of the set of line %" G_GINT64_FORMAT " is claimed already",
                   line->number);
      return NULL;
    }
  return wb_job_with_many (job, lines);
}
