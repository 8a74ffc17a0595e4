/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Groups the lines of finished claims and adds them up. Where lines come from is in wb-loss-line.c;
 * words for groups are made outside core. */
#include "config.h"

#define G_LOG_DOMAIN "wb-core"

#include "core/wb-loss-report.h"

#include "core/wb-calendar.h"
#include "core/wb-catalog-private.h"
#include "core/wb-core.h"

#include <string.h>

void
wb_loss_moved_free (WbLossMoved *self)
{
  if (self == NULL)
    return;

  for (int by = 0; by < WB_N_LOSS_BY; by++)
    g_free (self->keys[by]);
  g_free (self);
}

static void
group_free (WbLossGroup *self)
{
  g_free (self->key);
  g_ptr_array_unref (self->lines);
  g_free (self);
}

void
wb_loss_report_free (WbLossReport *self)
{
  if (self == NULL)
    return;

  g_ptr_array_unref (self->groups);
  g_ptr_array_unref (self->totals);
  g_free (self);
}

gboolean
wb_loss_by_has_moved (WbLossBy by)
{
  switch (by)
    {
    case WB_LOSS_BY_CARTON:
    case WB_LOSS_BY_PACKED_BY:
    case WB_LOSS_BY_PACKER:
    case WB_LOSS_BY_CREW:
    case WB_LOSS_BY_LANE:
    case WB_LOSS_BY_ROOM:
      return TRUE;
    case WB_LOSS_BY_CAUSE:
    case WB_LOSS_BY_HANDLER:
    case WB_LOSS_BY_CATEGORY:
      return FALSE;
    }
  g_return_val_if_reached (FALSE);
}

/* --- finding a group -------------------------------------------------------------------------- */

typedef struct
{
  WbLossReport *report;
  GHashTable   *groups;   /* currency and folded key → group of the report */
  GHashTable   *totals;   /* currency → total of the report */
  const GDate  *from;
  const GDate  *to;
} Grouping;

static WbLossGroup *
group_new (WbLossBy    by,
           const char *key,
           const char *currency)
{
  WbLossGroup *group = g_new0 (WbLossGroup, 1);

  group->key = g_strdup (key);
  memcpy (group->currency, currency, sizeof group->currency);
  group->lines = g_ptr_array_new ();
  group->moved = wb_loss_by_has_moved (by) ? 0 : WB_INTEGER_UNSET;
  return group;
}

/* Keys of ours keep their sign in front, so that nobody called Owner falls in with them; a key of
 * signs alone stands for itself. */
static char *
dup_place (const char *key,
           const char *currency)
{
  g_autofree char *folded = NULL;

  if (key == NULL)
    return g_strconcat (currency, NULL);
  if (*key == '@')
    return g_strconcat (currency, key, NULL);
  folded = wb_catalog_fold (key);
  return g_strconcat (currency, ":", *folded != '\0' ? folded : key, NULL);
}

static WbLossGroup *
find_group (Grouping   *grouping,
            const char *key,
            const char *currency)
{
  g_autofree char *place = dup_place (key, currency);
  WbLossGroup *group = g_hash_table_lookup (grouping->groups, place);

  if (group == NULL)
    {
      group = group_new (grouping->report->by, key, currency);
      g_ptr_array_add (grouping->report->groups, group);
      g_hash_table_insert (grouping->groups, g_steal_pointer (&place), group);
    }
  else if (key != NULL && strcmp (key, group->key) < 0)
    {
      g_free (group->key);
      group->key = g_strdup (key);
    }
  return group;
}

static WbLossGroup *
find_total (Grouping   *grouping,
            const char *currency)
{
  WbLossGroup *total = g_hash_table_lookup (grouping->totals, currency);

  if (total == NULL)
    {
      total = group_new (grouping->report->by, NULL, currency);
      g_ptr_array_add (grouping->report->totals, total);
      g_hash_table_insert (grouping->totals, g_strdup (currency), total);
    }
  return total;
}

/* --- adding ----------------------------------------------------------------------------------- */

static gboolean
add (gint64  *sum,
     gint64   term,
     GError **error)
{
  if (!__builtin_add_overflow (*sum, term, sum))
    return TRUE;
  g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW,
                       "the claims add up to more than can be counted");
  return FALSE;
}

static gboolean
add_line (WbLossGroup       *group,
          const WbLossLine  *line,
          gint64             demanded,
          gint64             owed,
          gint64             paid,
          GError           **error)
{
  g_ptr_array_add (group->lines, (gpointer) line);
  group->n_unreckoned += line->reckoned ? 0 : 1;
  return add (&group->demanded, demanded, error) && add (&group->owed, owed, error) &&
         add (&group->paid, paid, error);
}

static gboolean
add_whole (WbLossGroup       *group,
           const WbLossLine  *line,
           GError           **error)
{
  return add_line (group, line, line->demanded, line->owed, line->paid, error);
}

/* What was asked and paid is shared out as what is owed. */
static gboolean
add_parts (Grouping          *grouping,
           const WbLossLine  *line,
           GError           **error)
{
  g_autofree gint64 *demanded = g_new (gint64, line->n_handlers);
  g_autofree gint64 *paid = g_new (gint64, line->n_handlers);

  if (!wb_minor_split (line->demanded, line->parts, line->n_handlers, demanded, error) ||
      !wb_minor_split (line->paid, line->parts, line->n_handlers, paid, error))
    return FALSE;
  for (guint i = 0; i < line->n_handlers; i++)
    {
      WbLossGroup *group = find_group (grouping, line->handlers[i], line->currency);

      if (!add_line (group, line, demanded[i], line->parts[i], paid[i], error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
is_within (const Grouping *grouping,
           const GDate    *date)
{
  gboolean has_from = grouping->from != NULL && wb_date_is_set (grouping->from);
  gboolean has_to = grouping->to != NULL && wb_date_is_set (grouping->to);

  if (!wb_date_is_set (date))
    return !has_from && !has_to;
  return (!has_from || wb_date_compare (date, grouping->from) >= 0) &&
         (!has_to || wb_date_compare (date, grouping->to) <= 0);
}

static gboolean
take_lines (Grouping   *grouping,
            GPtrArray  *lines,
            GError    **error)
{
  WbLossBy by = grouping->report->by;
  g_autoptr (GHashTable) undated = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < lines->len; i++)
    {
      const WbLossLine *line = g_ptr_array_index (lines, i);

      if (!is_within (grouping, &line->closed_on))
        {
          if (!wb_date_is_set (&line->closed_on))
            g_hash_table_add (undated, line->claim_number != NULL ? line->claim_number
                                                                  : line->claim_id);
          continue;
        }
      if (!add_whole (find_total (grouping, line->currency), line, error))
        return FALSE;
      if (by == WB_LOSS_BY_HANDLER && line->n_handlers > 0
          ? !add_parts (grouping, line, error)
          : !add_whole (find_group (grouping, line->keys[by], line->currency), line, error))
        return FALSE;
    }
  grouping->report->n_undated = g_hash_table_size (undated);
  return TRUE;
}

static gboolean
take_moved (Grouping   *grouping,
            GPtrArray  *moved,
            GError    **error)
{
  WbLossBy by = grouping->report->by;

  for (guint i = 0; wb_loss_by_has_moved (by) && i < moved->len; i++)
    {
      const WbLossMoved *row = g_ptr_array_index (moved, i);

      if (!wb_date_is_set (&row->delivered_on) || !is_within (grouping, &row->delivered_on))
        continue;
      if (!add (&find_total (grouping, row->currency)->moved, row->n, error) ||
          !add (&find_group (grouping, row->keys[by], row->currency)->moved, row->n, error))
        return FALSE;
    }
  return TRUE;
}

/* --- order ------------------------------------------------------------------------------------ */

static int
compare_lines (gconstpointer a,
               gconstpointer b)
{
  const WbLossLine *one = *(const WbLossLine *const *) a;
  const WbLossLine *other = *(const WbLossLine *const *) b;
  int order = g_strcmp0 (one->claim_number, other->claim_number);

  if (order == 0)
    order = g_strcmp0 (one->job_id, other->job_id);
  if (order == 0)
    order = g_strcmp0 (one->claim_id, other->claim_id);
  return order != 0 ? order : g_strcmp0 (one->line_id, other->line_id);
}

static int
compare_groups (gconstpointer a,
                gconstpointer b)
{
  const WbLossGroup *one = *(const WbLossGroup *const *) a;
  const WbLossGroup *other = *(const WbLossGroup *const *) b;
  int order = strcmp (one->currency, other->currency);

  if (order == 0)
    order = (one->key == NULL) - (other->key == NULL);
  if (order == 0)
    order = (one->owed < other->owed) - (one->owed > other->owed);
  if (order == 0)
    order = (one->lines->len < other->lines->len) - (one->lines->len > other->lines->len);
  if (order == 0)
    order = (one->moved < other->moved) - (one->moved > other->moved);
  return order != 0 ? order : g_strcmp0 (one->key, other->key);
}

/* Lines stand by claim, so that those of one claim are neighbours. A piece's id means something
 * within its job only. */
static void
count_group (WbLossGroup *group)
{
  g_autoptr (GHashTable) pieces = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  const WbLossLine *before = NULL;

  g_ptr_array_sort (group->lines, compare_lines);
  for (guint i = 0; i < group->lines->len; i++)
    {
      const WbLossLine *line = g_ptr_array_index (group->lines, i);

      if (before == NULL || !g_str_equal (line->job_id, before->job_id) ||
          !g_str_equal (line->claim_id, before->claim_id))
        group->n_claims++;
      if (line->piece_id != NULL)
        g_hash_table_add (pieces, g_strconcat (line->job_id, "/", line->piece_id, NULL));
      before = line;
    }
  group->n_pieces = g_hash_table_size (pieces);
}

static void
put_in_order (GPtrArray *groups)
{
  for (guint i = 0; i < groups->len; i++)
    count_group (g_ptr_array_index (groups, i));
  g_ptr_array_sort (groups, compare_groups);
}

WbLossReport *
wb_loss_report (GPtrArray    *lines,
                GPtrArray    *moved,
                WbLossBy      by,
                const GDate  *from,
                const GDate  *to,
                GError      **error)
{
  g_autoptr (WbLossReport) report = NULL;
  g_autoptr (GHashTable) groups = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) totals = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  Grouping grouping = { NULL, groups, totals, from, to };

  g_return_val_if_fail (lines != NULL && moved != NULL, NULL);
  g_return_val_if_fail ((int) by >= 0 && by < WB_N_LOSS_BY, NULL);

  report = g_new0 (WbLossReport, 1);
  report->by = by;
  report->groups = g_ptr_array_new_with_free_func ((GDestroyNotify) group_free);
  report->totals = g_ptr_array_new_with_free_func ((GDestroyNotify) group_free);
  grouping.report = report;
  if (!take_lines (&grouping, lines, error) || !take_moved (&grouping, moved, error))
    return NULL;
  put_in_order (report->groups);
  put_in_order (report->totals);
  return g_steal_pointer (&report);
}

/* --- rates ------------------------------------------------------------------------------------ */

static gboolean
has_rate (const WbLossGroup *self)
{
  return self->moved != WB_INTEGER_UNSET && self->moved >= WB_LOSS_FEWEST_FOR_RATE;
}

gboolean
wb_loss_group_rate (const WbLossGroup *self,
                    gint64            *hundredths)
{
  return has_rate (self) &&
         wb_minor_scale (self->n_pieces, 100 * 100, self->moved, WB_ROUND_HALF_UP, hundredths,
                         NULL);
}

gboolean
wb_loss_group_cost (const WbLossGroup *self,
                    gint64            *minor)
{
  return has_rate (self) &&
         wb_minor_scale (self->owed, 100, self->moved, WB_ROUND_HALF_UP, minor, NULL);
}
