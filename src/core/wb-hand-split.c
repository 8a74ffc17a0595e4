/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks, sets and takes back a split by hand. What each part comes to in money is the
 * apportionment's. */
#include "config.h"

#include "core/wb-hand-split.h"

#include "core/wb-trail.h"

#define WHOLE 10000

static gboolean
is_repeated (const WbHandPart *parts,
             guint             n_parts,
             guint             index)
{
  for (guint i = 0; i < n_parts; i++)
    if (i != index && parts[i].percent != 0
        && wb_trail_same_holder (parts[i].handler, parts[index].handler))
      return TRUE;
  return FALSE;
}

static gboolean
is_blank (const char *text)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text != NULL ? text : ""));

  return *stripped == '\0';
}

WbHandSplitFault
wb_hand_split_check (const WbHandPart *parts,
                     guint             n_parts,
                     const char       *reason,
                     gint64           *total)
{
  gboolean any = FALSE, out_of_range = FALSE, repeated = FALSE;
  gint64 sum = 0;

  for (guint i = 0; i < n_parts; i++)
    {
      gboolean within = parts[i].percent >= 0 && parts[i].percent <= WHOLE;

      out_of_range = out_of_range || !within;
      any = any || parts[i].percent != 0;
      repeated = repeated || (parts[i].percent != 0 && is_repeated (parts, n_parts, i));
      sum += within ? parts[i].percent : 0;
    }
  if (total != NULL)
    *total = sum;
  if (out_of_range)
    return WB_HAND_SPLIT_OUT_OF_RANGE;
  if (!any)
    return WB_HAND_SPLIT_NOBODY;
  if (sum != WHOLE)
    return WB_HAND_SPLIT_NOT_WHOLE;
  if (repeated)
    return WB_HAND_SPLIT_REPEATED;
  return is_blank (reason) ? WB_HAND_SPLIT_NO_REASON : WB_HAND_SPLIT_GOOD;
}

WbJob *
wb_hand_split_clear (WbJob      *job,
                     const char *line_id)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();

  g_return_val_if_fail (job != NULL && line_id != NULL, NULL);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_SHARE); i++)
    {
      const WbShare *share = wb_job_nth (job, WB_KIND_SHARE, i);

      if (g_strcmp0 (share->claim_line, line_id) == 0)
        g_ptr_array_add (ids, share->record.id);
    }
  if (ids->len == 0)
    return wb_job_ref (job);

  /* Nothing refers to a share. */
  return wb_job_without_many (job, WB_KIND_SHARE, ids, NULL);
}

WbJob *
wb_hand_split_set (const WbJob      *job,
                   const char       *line_id,
                   const WbHandPart *parts,
                   guint             n_parts,
                   const char       *reason,
                   char           *(*new_id) (void))
{
  g_autoptr (WbJob) without = NULL;
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);

  g_return_val_if_fail (wb_hand_split_check (parts, n_parts, reason, NULL) == WB_HAND_SPLIT_GOOD,
                        NULL);

  without = wb_hand_split_clear ((WbJob *) job, line_id);
  for (guint i = 0; i < n_parts; i++)
    {
      g_autofree char *id = NULL;
      WbShare *share;

      if (parts[i].percent == 0)
        continue;
      id = new_id ();
      share = wb_record_new (WB_KIND_SHARE, id);
      wb_set_text (&share->claim_line, line_id);
      wb_set_text (&share->handler, parts[i].handler);
      wb_set_text (&share->reason, reason);
      share->percent = parts[i].percent;
      g_ptr_array_add (records, share);
    }
  return wb_job_with_many (without, records);
}

const char *
wb_hand_split_reason (const WbJob *job,
                      const char  *line_id)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_SHARE); i++)
    {
      const WbShare *share = wb_job_nth (job, WB_KIND_SHARE, i);

      if (g_strcmp0 (share->claim_line, line_id) == 0 && share->reason != NULL)
        return share->reason;
    }
  return NULL;
}
