/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds what is on the list of valuable articles and what is missing from it. Which rate makes an
 * article valuable is the terms'. */
#include "config.h"

#include "core/wb-high-value.h"

#include "core/wb-things.h"

typedef struct
{
  const WbJob      *job;
  WbRate            rate;
  GHashTable       *articles;   /* name of an article → WbWeight *, unset when a part has none */
  GHashTable       *things;     /* id of a piece → GPtrArray of WbThing */
  WbHighValueList  *list;
} Search;

static void
search_clear (Search *self)
{
  g_clear_pointer (&self->articles, g_hash_table_unref);
  g_clear_pointer (&self->things, g_hash_table_unref);
  g_clear_pointer (&self->list, wb_high_value_list_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Search, search_clear)

void
wb_high_value_list_free (WbHighValueList *self)
{
  g_array_unref (self->entries);
  g_free (self);
}

/* --- what belongs together -------------------------------------------------------------------- */

static gboolean
collect_articles (Search  *self,
                  GError **error)
{
  guint n = wb_job_count (self->job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (self->job, WB_KIND_PIECE, i);
      WbWeight *sum;

      if (piece->article == NULL)
        continue;
      sum = g_hash_table_lookup (self->articles, piece->article);
      if (sum == NULL)
        {
          sum = g_new (WbWeight, 1);
          *sum = piece->weight;
          g_hash_table_insert (self->articles, piece->article, sum);
        }
      else if (!wb_weight_is_positive (piece->weight))
        {
          *sum = WB_WEIGHT_UNSET;
        }
      else if (wb_weight_is_set (*sum) && !wb_weight_add (*sum, piece->weight, sum, error))
        {
          return FALSE;
        }
    }
  return TRUE;
}

static void
collect_things (Search *self)
{
  guint n = wb_job_count (self->job, WB_KIND_THING);

  for (guint i = 0; i < n; i++)
    {
      const WbThing *thing = wb_job_nth (self->job, WB_KIND_THING, i);
      GPtrArray *things = g_hash_table_lookup (self->things, thing->piece);

      if (things == NULL)
        {
          things = g_ptr_array_new ();
          g_hash_table_insert (self->things, thing->piece, things);
        }
      g_ptr_array_add (things, (gpointer) thing);
    }
}

static WbWeight
get_weight (Search        *self,
            const WbPiece *piece)
{
  const WbWeight *sum = piece->article != NULL
                        ? g_hash_table_lookup (self->articles, piece->article) : NULL;
  WbWeight weight = sum != NULL ? *sum : piece->weight;

  return wb_weight_is_positive (weight) ? weight : WB_WEIGHT_UNSET;
}

/* --- listed and not --------------------------------------------------------------------------- */

/* What the carrier may pay for @weight when nothing is listed; unset when that cannot be said. */
static gboolean
find_cap (Search    *self,
          WbWeight   weight,
          WbMoney   *cap,
          GError   **error)
{
  *cap = WB_MONEY_UNSET;
  if (!wb_rate_is_set (self->rate) || wb_rate_is_by_volume (self->rate)
      || !wb_weight_is_set (weight))
    return TRUE;
  return wb_rate_apply (self->rate, weight, WB_VOLUME_UNSET, WB_ROUND_DOWN, cap, error);
}

static gboolean
add_listed (Search         *self,
            const WbPiece  *piece,
            GError        **error)
{
  WbHighValue entry = { .state = WB_HIGH_VALUE_LISTED, .piece = piece,
                        .value = piece->listed_value };
  WbMoney *sum = &self->list->listed;

  entry.weight = get_weight (self, piece);
  if (!find_cap (self, entry.weight, &entry.cap, error))
    return FALSE;
  if (!wb_money_is_set (*sum))
    *sum = piece->listed_value;
  else if (!wb_money_add (*sum, piece->listed_value, sum, error))
    return FALSE;
  self->list->n_listed++;
  g_array_append_val (self->list->entries, entry);
  return TRUE;
}

/* Adds what is worth more than its cap. Sets @above, when given, to whether it was. */
static gboolean
add_unlisted (Search         *self,
              WbHighValue     entry,
              gboolean       *above,
              GError        **error)
{
  if (!find_cap (self, entry.weight, &entry.cap, error))
    return FALSE;
  if (!wb_money_is_set (entry.value) || !wb_money_is_set (entry.cap)
      || entry.value.minor <= entry.cap.minor)
    return TRUE;

  entry.state = WB_HIGH_VALUE_UNLISTED;
  self->list->n_unlisted++;
  g_array_append_val (self->list->entries, entry);
  *above = TRUE;
  return TRUE;
}

/* Thing by thing; and when no thing is, all of them together as one article. */
static gboolean
look_inside (Search         *self,
             const WbPiece  *piece,
             GError        **error)
{
  GPtrArray *things = g_hash_table_lookup (self->things, piece->record.id);
  WbWeight carton = get_weight (self, piece);
  WbThingTotals totals;
  gboolean above = FALSE;

  if (things == NULL)
    return TRUE;

  for (guint i = 0; i < things->len; i++)
    {
      const WbThing *thing = g_ptr_array_index (things, i);
      WbWeight weight = wb_weight_is_positive (thing->weight) ? thing->weight : carton;
      WbHighValue entry = { .piece = piece, .thing = thing, .value = thing->value,
                            .weight = weight };

      if (!add_unlisted (self, entry, &above, error))
        return FALSE;
    }
  if (above)
    return TRUE;

  if (!wb_things_total (things, &totals, error))
    return FALSE;
  return add_unlisted (self, (WbHighValue) { .piece = piece, .value = totals.value,
                                             .weight = carton }, &above, error);
}

WbHighValueList *
wb_high_value_list (const WbJob  *job,
                    WbRate        rate,
                    GError      **error)
{
  g_auto (Search) self = { .job = job, .rate = rate };
  guint n = wb_job_count (job, WB_KIND_PIECE);

  self.articles = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);
  self.things = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                       (GDestroyNotify) g_ptr_array_unref);
  self.list = g_new0 (WbHighValueList, 1);
  self.list->entries = g_array_new (FALSE, TRUE, sizeof (WbHighValue));

  if (!collect_articles (&self, error))
    return NULL;
  collect_things (&self);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (!(wb_money_is_set (piece->listed_value) ? add_listed : look_inside) (&self, piece, error))
        return NULL;
    }
  return g_steal_pointer (&self.list);
}

guint
wb_high_value_gaps (const WbJob *job)
{
  const WbValuation *valuation = wb_job_valuation (job);
  const WbOrder *order = wb_job_order (job);
  guint gaps = WB_HIGH_VALUE_SIGNED;

  if (!valuation->high_value_list)
    gaps |= WB_HIGH_VALUE_NOT_STATED;
  if (valuation->high_value_signed_by == NULL)
    gaps |= WB_HIGH_VALUE_NO_SIGNER;
  if (!g_date_valid (&valuation->high_value_signed_on))
    gaps |= WB_HIGH_VALUE_NO_DATE;
  else if (g_date_valid (&order->picked_up_on)
           && g_date_compare (&valuation->high_value_signed_on, &order->picked_up_on) > 0)
    gaps |= WB_HIGH_VALUE_LATE;
  return gaps;
}
