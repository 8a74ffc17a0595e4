/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the tallies of a handover, lot by lot. What a missing tag means is not decided here. */
#include "config.h"

#include "core/wb-tally.h"

struct _WbTallySheet
{
  GHashTable    *tags;        /* lot id, "" for none → GArray of WbTagRange */
  GArray        *nothing;
  const WbTally *unreadable;
};

static void
add_tally (WbTallySheet  *self,
           const WbTally *tally)
{
  const char *lot = tally->lot != NULL ? tally->lot : "";
  g_autoptr (GArray) tags = wb_tag_ranges_parse (tally->tags != NULL ? tally->tags : "", NULL);
  GArray *before = g_hash_table_lookup (self->tags, lot);

  if (tags == NULL)
    {
      if (self->unreadable == NULL)
        self->unreadable = tally;
      return;
    }

  g_hash_table_insert (self->tags, g_strdup (lot),
                       before != NULL ? wb_tag_ranges_merge (before, tags)
                                      : g_steal_pointer (&tags));
}

WbTallySheet *
wb_tally_sheet_new (const WbJob *job,
                    const char  *handover)
{
  WbTallySheet *self = g_new0 (WbTallySheet, 1);

  self->nothing = wb_tag_ranges_new ();
  self->tags = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                      (GDestroyNotify) g_array_unref);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_TALLY); i++)
    {
      const WbTally *tally = wb_job_nth (job, WB_KIND_TALLY, i);

      if (g_strcmp0 (tally->handover, handover) == 0)
        add_tally (self, tally);
    }
  return self;
}

void
wb_tally_sheet_free (WbTallySheet *self)
{
  g_hash_table_unref (self->tags);
  g_array_unref (self->nothing);
  g_free (self);
}

const GArray *
wb_tally_sheet_tags (const WbTallySheet *self,
                     const char         *lot)
{
  const GArray *tags = g_hash_table_lookup (self->tags, lot != NULL ? lot : "");

  return tags != NULL ? tags : self->nothing;
}

gboolean
wb_tally_sheet_has (const WbTallySheet *self,
                    const char         *lot,
                    gint64              tag)
{
  return tag != WB_INTEGER_UNSET && wb_tag_ranges_contain (wb_tally_sheet_tags (self, lot), tag);
}

const WbTally *
wb_tally_sheet_unreadable (const WbTallySheet *self)
{
  return self->unreadable;
}

static gint
compare_tags (gconstpointer a,
              gconstpointer b)
{
  const gint64 x = *(const gint64 *) a;
  const gint64 y = *(const gint64 *) b;

  return (x > y) - (x < y);
}

GArray *
wb_tally_listed_tags (const WbJob *job,
                      const char  *lot)
{
  g_autoptr (GArray) tags = g_array_new (FALSE, FALSE, sizeof (gint64));
  GArray *listed = wb_tag_ranges_new ();

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (piece->tag != WB_INTEGER_UNSET && piece->tag > 0 && g_strcmp0 (piece->lot, lot) == 0)
        g_array_append_val (tags, piece->tag);
    }

  /* Sorted, so that each is added at the end. */
  g_array_sort (tags, compare_tags);
  for (guint i = 0; i < tags->len; i++)
    {
      gint64 tag = g_array_index (tags, gint64, i);

      wb_tag_ranges_add (listed, tag, tag);
    }
  return listed;
}
