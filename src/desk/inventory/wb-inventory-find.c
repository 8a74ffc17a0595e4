/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tags to pieces. Several lines may have one tag: in different lots, or by mistake. */
#include "config.h"

#include "desk/inventory/wb-inventory-find.h"

#include <string.h>

#define TAG_MAX 999999

gboolean
wb_inventory_parse_tag (const char  *text,
                        char       **lot_number,
                        gint64      *tag)
{
  g_autofree char *bare = g_strstrip (g_strdup (text));
  const char *dash = strrchr (bare, '-');
  guint64 number;

  *lot_number = NULL;
  if (!g_ascii_string_to_unsigned (dash != NULL ? dash + 1 : bare, 10, 0, TAG_MAX, &number, NULL))
    return FALSE;

  if (dash != NULL)
    *lot_number = g_strndup (bare, (gsize) (dash - bare));
  *tag = (gint64) number;
  return TRUE;
}

GPtrArray *
wb_inventory_find_tag (const WbJob *job,
                       const char  *lot_number,
                       gint64       tag)
{
  GPtrArray *found = g_ptr_array_new ();
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);
      const WbLot *lot;

      if (piece->tag != tag)
        continue;
      lot = wb_job_find (job, WB_KIND_LOT, piece->lot);
      if (lot_number == NULL || (lot != NULL && g_strcmp0 (lot->number, lot_number) == 0))
        g_ptr_array_add (found, piece->record.id);
    }
  return found;
}

GPtrArray *
wb_inventory_find_in_lot (const WbJob *job,
                          const char  *lot,
                          gint64       tag)
{
  GPtrArray *found = g_ptr_array_new ();
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (piece->tag == tag && g_strcmp0 (piece->lot, lot) == 0)
        g_ptr_array_add (found, piece->record.id);
    }
  return found;
}

const char *
wb_inventory_find_next (GPtrArray  *found,
                        const char *current)
{
  for (guint i = 0; i < found->len; i++)
    if (g_strcmp0 (g_ptr_array_index (found, i), current) == 0)
      return g_ptr_array_index (found, (i + 1) % found->len);
  return g_ptr_array_index (found, 0);
}
