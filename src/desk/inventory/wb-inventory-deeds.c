/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Removing and changing many lines. The rules of what may go are core's; here they become sentences
 * that name tags and claims instead of ids. */
#include "config.h"

#include "desk/inventory/wb-inventory-deeds.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

static char *
describe_claim_line (const WbJob       *job,
                     const WbPiece     *piece,
                     const WbClaimLine *line)
{
  const WbClaim *claim = wb_job_find (job, WB_KIND_CLAIM, line->claim);
  const char *number = claim != NULL && claim->number != NULL ? claim->number : "–";
  g_autofree char *tag = wb_words_tag (job, piece);

  /* Translators: a tag, the number of a line and the number of a claim. */
  return g_strdup_printf (_("%s stays on the inventory: line %d of claim %s is about it. "
                            "Nothing was removed."),
                          tag, (int) line->number, number);
}

static char *
describe_finding (const WbJob     *job,
                  const WbPiece   *piece,
                  const WbFinding *finding)
{
  const WbHandover *handover = wb_job_find (job, WB_KIND_HANDOVER, finding->handover);
  const char *kind = handover != NULL
                     ? wb_words_enum (&wb_handover_kinds, (int) handover->kind) : "–";
  g_autofree char *tag = wb_words_tag (job, piece);

  /* Translators: a tag and a kind of handover, such as "Residence to vehicle". */
  return g_strdup_printf (_("%s stays on the inventory: it was noted at the handover “%s”. "
                            "Nothing was removed."),
                          tag, kind);
}

/* The first of @ids that a claim line or a finding is about, as a sentence. */
static char *
describe_dependent (const WbJob *job,
                    GHashTable  *ids)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (line->piece != NULL && g_hash_table_contains (ids, line->piece))
        return describe_claim_line (job, wb_job_find (job, WB_KIND_PIECE, line->piece), line);
    }
  for (guint i = 0; i < wb_job_count (job, WB_KIND_FINDING); i++)
    {
      const WbFinding *finding = wb_job_nth (job, WB_KIND_FINDING, i);

      if (finding->piece != NULL && g_hash_table_contains (ids, finding->piece))
        return describe_finding (job, wb_job_find (job, WB_KIND_PIECE, finding->piece), finding);
    }
  return NULL;
}

WbJob *
wb_inventory_remove (const WbJob  *job,
                     GPtrArray    *ids,
                     char        **refusal)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GHashTable) lookup = NULL;
  WbJob *fewer = wb_job_without_many (job, WB_KIND_PIECE, ids, &error);

  if (fewer != NULL)
    return fewer;

  lookup = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < ids->len; i++)
    g_hash_table_add (lookup, g_ptr_array_index (ids, i));

  *refusal = describe_dependent (job, lookup);
  if (*refusal == NULL)
    *refusal = wb_words_error (error);
  return NULL;
}

static gboolean
change_piece (WbPiece             *piece,
              const WbJob         *job,
              const WbLineChange  *changes,
              guint                n_changes,
              guint               *bad,
              GError             **error)
{
  for (guint i = 0; i < n_changes; i++)
    {
      *bad = i;
      if (!wb_line_read (piece, changes[i].part, changes[i].text, wb_job_get_currency (job),
                         WB_WEIGHT_UNIT_LB,
                         error))
        return FALSE;
      if (changes[i].part == WB_LINE_CARTON && piece->carton != NULL
          && piece->form == WB_FORM_LOOSE)
        piece->form = WB_FORM_CARTON;
    }
  return TRUE;
}

WbJob *
wb_inventory_change (const WbJob         *job,
                     GPtrArray           *ids,
                     const WbLineChange  *changes,
                     guint                n_changes,
                     guint               *bad,
                     GError             **error)
{
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func (wb_record_unref);

  for (guint i = 0; i < ids->len; i++)
    {
      gconstpointer before = wb_job_find (job, WB_KIND_PIECE, g_ptr_array_index (ids, i));
      g_autoptr (WbPiece) piece = NULL;

      if (before == NULL)
        continue;
      piece = wb_record_copy (before);
      if (!change_piece (piece, job, changes, n_changes, bad, error))
        return NULL;
      g_ptr_array_add (pieces, g_steal_pointer (&piece));
    }
  return wb_job_with_many (job, pieces);
}
