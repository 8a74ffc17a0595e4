/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changing many lines in one step. What a text means for a piece is the line's. */
#include "config.h"

#include "desk/inventory/wb-inventory-deeds.h"

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
