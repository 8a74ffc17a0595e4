/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tags to pieces. Several lines may have one tag: in different lots, or by mistake. */
#include "config.h"

#include "desk/inventory/wb-inventory-find.h"

#include <glib/gi18n.h>
#include <string.h>

/* A bare number as long as this is no quantity or weight that somebody typed. */
#define SCANNED_DIGITS 4

GPtrArray *
wb_inventory_find_scan (const WbJob     *job,
                        const WbTagScan *scan)
{
  if (!wb_tag_scan_fits_job (scan, job))
    return g_ptr_array_new ();
  return wb_tag_scan_find (scan, job);
}

/* Whether the job has a lot that @scan may mean. */
static gboolean
has_lot (const WbJob     *job,
         const WbTagScan *scan)
{
  guint n = wb_job_count (job, WB_KIND_LOT);

  for (guint i = 0; i < n; i++)
    if (wb_tag_scan_fits_lot (scan, wb_job_nth (job, WB_KIND_LOT, i)))
      return TRUE;
  return FALSE;
}

/* "blue 204": what the scan says of the lot. */
static char *
describe_lot (const WbTagScan *scan)
{
  g_autoptr (GStrvBuilder) parts = g_strv_builder_new ();
  g_auto (GStrv) all = NULL;

  g_strv_builder_addv (parts, (const char **) scan->words);
  if (scan->colour != NULL)
    g_strv_builder_add (parts, scan->colour);
  if (scan->lot != NULL)
    g_strv_builder_add (parts, scan->lot);
  all = g_strv_builder_end (parts);
  return g_strjoinv (" ", all);
}

char *
wb_inventory_describe_miss (const WbJob     *job,
                            const WbTagScan *scan)
{
  g_autofree char *lot = describe_lot (scan);

  if (!wb_tag_scan_fits_job (scan, job))
    /* Translators: the number of a tag, and of a job. */
    return g_strdup_printf (_("Tag %d belongs to job %s, not to this one."), (int) scan->tag,
                            scan->job);
  if (!wb_tag_scan_has_lot (scan))
    return g_strdup_printf (_("No line has the tag %d."), (int) scan->tag);
  if (!has_lot (job, scan))
    /* Translators: %s is the colour or the number of a lot, or both. */
    return g_strdup_printf (_("This job has no lot “%s”."), lot);
  /* Translators: the number of a tag, and the colour or the number of a lot, or both. */
  return g_strdup_printf (_("No line has the tag %d of lot %s."), (int) scan->tag, lot);
}

gboolean
wb_inventory_is_scan (const WbJob     *job,
                      const WbTagScan *scan,
                      const char      *text)
{
  switch (scan->form)
    {
    case WB_TAG_SCAN_NUMBER:
      return strlen (text) >= SCANNED_DIGITS;
    case WB_TAG_SCAN_WORDS:
      return has_lot (job, scan);
    case WB_TAG_SCAN_JOINED:
    case WB_TAG_SCAN_NAMED:
      return TRUE;
    }
  return FALSE;
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
