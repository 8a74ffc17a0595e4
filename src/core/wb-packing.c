/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Works out the packing of a job. What a kind of carton asks for stands in the catalogue; what was
 * done stands in the records of the job. */
#include "config.h"

#include "core/wb-packing.h"

#include "core/wb-catalog-private.h"

struct _WbPacking
{
  WbCatalog  *catalog;
  WbJob      *job;
  GPtrArray  *rows;      /* WbPackingRow */
  GHashTable *records;   /* id of a piece to a GPtrArray of its WbPackingCheck */
};

/* --- rows ------------------------------------------------------------------------------------- */

/* The row of what @text means, made when there is none yet. What the catalogue does not know is one
 * kind however it is spaced and capitalised. */
static WbPackingRow *
find_row (WbPacking  *self,
          GHashTable *by_name,
          const char *text)
{
  const WbCatalogEntry *entry = wb_catalog_match_item (self->catalog, text);
  g_autofree char *name = entry != NULL ? g_strdup (entry->nick) : wb_catalog_fold (text);
  WbPackingRow *row = g_hash_table_lookup (by_name, name);

  if (row != NULL)
    return row;

  row = g_new0 (WbPackingRow, 1);
  row->item = entry != NULL ? entry->nick : text;
  row->entry = entry;
  row->planned = WB_INTEGER_UNSET;
  row->used = WB_INTEGER_UNSET;
  row->difference = WB_INTEGER_UNSET;
  g_hash_table_insert (by_name, g_steal_pointer (&name), row);
  g_ptr_array_add (self->rows, row);
  return row;
}

static void
count_pieces (WbPacking  *self,
              GHashTable *by_name)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (self->job, WB_KIND_PIECE, i);
      WbPackingRow *row;

      if (piece->form != WB_FORM_CARTON || piece->carton == NULL)
        continue;

      row = find_row (self, by_name, piece->carton);
      switch (piece->packed_by)
        {
        case WB_PACKED_BY_CARRIER:
          row->carrier++;
          break;
        case WB_PACKED_BY_OWNER:
          row->owner++;
          break;
        case WB_PACKED_UNKNOWN:
          row->unknown++;
          break;
        }
    }
}

/* Adds a number of a record to that of a row; their size is limited, so that sums fit. */
static gint64
add_given (gint64 sum,
           gint64 number)
{
  if (number == WB_INTEGER_UNSET)
    return sum;
  return sum == WB_INTEGER_UNSET ? number : sum + number;
}

static void
add_materials (WbPacking  *self,
               GHashTable *by_name)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_MATERIAL); i++)
    {
      const WbMaterial *material = wb_job_nth (self->job, WB_KIND_MATERIAL, i);
      WbPackingRow *row;

      if (material->item == NULL)
        continue;
      row = find_row (self, by_name, material->item);
      if (row->material == NULL)
        row->material = material;
      row->planned = add_given (row->planned, material->planned);
      row->used = add_given (row->used, material->used);
    }
}

static gboolean
is_carton (const WbPackingRow *row)
{
  return (row->entry != NULL && row->entry->kind == WB_CATALOG_CARTON)
         || row->carrier + row->owner + row->unknown > 0;
}

static void
finish_rows (WbPacking *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      WbPackingRow *row = g_ptr_array_index (self->rows, i);

      if (row->used == WB_INTEGER_UNSET && is_carton (row))
        {
          row->used = row->carrier;
          row->counted = TRUE;
        }
      if (row->used != WB_INTEGER_UNSET && row->planned != WB_INTEGER_UNSET)
        row->difference = row->used - row->planned;
    }
}

/* The rows known to the catalogue in its order, in front of the others. */
static void
sort_rows (WbPacking  *self,
           GHashTable *by_name)
{
  static const WbCatalogKind kinds[] = { WB_CATALOG_CARTON, WB_CATALOG_MATERIAL };
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (guint i = 0; i < wb_catalog_count (self->catalog, kinds[k]); i++)
      {
        const WbCatalogEntry *entry = wb_catalog_nth (self->catalog, kinds[k], i);
        WbPackingRow *row = g_hash_table_lookup (by_name, entry->nick);

        if (row != NULL && row->entry == entry)
          g_ptr_array_add (sorted, row);
      }
  for (guint i = 0; i < self->rows->len; i++)
    {
      WbPackingRow *row = g_ptr_array_index (self->rows, i);

      if (row->entry == NULL)
        g_ptr_array_add (sorted, row);
    }

  g_assert (sorted->len == self->rows->len);
  for (guint i = 0; i < sorted->len; i++)
    g_ptr_array_index (self->rows, i) = g_ptr_array_index (sorted, i);
}

/* --- life ------------------------------------------------------------------------------------- */

static void
index_records (WbPacking *self)
{
  self->records = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                         (GDestroyNotify) g_ptr_array_unref);
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PACKING_CHECK); i++)
    {
      const WbPackingCheck *check = wb_job_nth (self->job, WB_KIND_PACKING_CHECK, i);
      GPtrArray *list;

      if (check->piece == NULL || check->rule == NULL)
        continue;
      list = g_hash_table_lookup (self->records, check->piece);
      if (list == NULL)
        {
          list = g_ptr_array_new ();
          g_hash_table_insert (self->records, check->piece, list);
        }
      g_ptr_array_add (list, (gpointer) check);
    }
}

WbPacking *
wb_packing_new (WbCatalog *catalog,
                WbJob     *job)
{
  g_autoptr (GHashTable) by_name = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  WbPacking *self;

  g_return_val_if_fail (catalog != NULL && job != NULL, NULL);

  self = g_new0 (WbPacking, 1);
  self->catalog = wb_catalog_ref (catalog);
  self->job = wb_job_ref (job);
  self->rows = g_ptr_array_new_with_free_func (g_free);
  count_pieces (self, by_name);
  add_materials (self, by_name);
  finish_rows (self);
  sort_rows (self, by_name);
  index_records (self);
  return self;
}

void
wb_packing_free (WbPacking *self)
{
  g_return_if_fail (self != NULL);

  g_ptr_array_unref (self->rows);
  g_hash_table_unref (self->records);
  wb_catalog_unref (self->catalog);
  wb_job_unref (self->job);
  g_free (self);
}

GPtrArray *
wb_packing_rows (const WbPacking *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->rows;
}

/* --- totals ----------------------------------------------------------------------------------- */

static gboolean
add_volume (WbPackingTotals *totals,
            WbVolume         volume,
            GError         **error)
{
  if (!wb_volume_is_set (volume))
    {
      totals->n_without_volume++;
      return TRUE;
    }
  if (wb_volume_is_set (totals->volume))
    return wb_volume_add (totals->volume, volume, &totals->volume, error);
  totals->volume = volume;
  return TRUE;
}

static gboolean
add_weight (WbPackingTotals *totals,
            WbWeight         weight,
            GError         **error)
{
  if (!wb_weight_is_set (weight))
    {
      totals->n_without_weight++;
      return TRUE;
    }
  if (wb_weight_is_set (totals->weight))
    return wb_weight_add (totals->weight, weight, &totals->weight, error);
  totals->weight = weight;
  return TRUE;
}

gboolean
wb_packing_totals (const WbPacking  *self,
                   WbForm            form,
                   WbPackingTotals  *out,
                   GError          **error)
{
  WbPackingTotals totals = { 0 };

  g_return_val_if_fail (self != NULL && out != NULL, FALSE);

  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (self->job, WB_KIND_PIECE, i);
      const WbCatalogEntry *entry = wb_packing_entry (self->catalog, piece);
      gboolean usual = !wb_weight_is_positive (piece->weight) && entry != NULL
                       && wb_weight_is_set (entry->weight);
      WbWeight own = wb_weight_is_positive (piece->weight) ? piece->weight : WB_WEIGHT_UNSET;

      if (piece->form != form)
        continue;
      totals.n++;
      totals.n_usual_weight += usual ? 1 : 0;
      if (!add_volume (&totals,
                       wb_volume_is_set (piece->volume) || entry == NULL ? piece->volume
                                                                         : entry->volume,
                       error)
          || !add_weight (&totals, usual ? entry->weight : own, error))
        return FALSE;
    }

  *out = totals;
  return TRUE;
}

/* --- checks ----------------------------------------------------------------------------------- */

const WbPackingCheck *
wb_packing_record (const WbPacking *self,
                   const char      *piece,
                   const char      *rule)
{
  const GPtrArray *list;

  g_return_val_if_fail (self != NULL && piece != NULL && rule != NULL, NULL);

  list = g_hash_table_lookup (self->records, piece);
  for (guint i = list != NULL ? list->len : 0; i > 0; i--)
    {
      const WbPackingCheck *check = g_ptr_array_index (list, i - 1);

      if (g_str_equal (check->rule, rule))
        return check;
    }
  return NULL;
}

static void
add_state (GPtrArray            *states,
           const char           *rule,
           const WbCatalogEntry *check,
           const WbPackingCheck *record)
{
  WbPackingState *state = g_new (WbPackingState, 1);

  state->rule = rule;
  state->check = check;
  state->record = record;
  state->state = record != NULL ? record->state : WB_CHECK_OPEN;
  g_ptr_array_add (states, state);
}

/* The notes on checks that the catalogue does not have, each rule once; one that was opened again
 * says nothing. */
static void
add_unknown (const WbPacking *self,
             const WbPiece   *piece,
             GPtrArray       *states)
{
  const GPtrArray *list = g_hash_table_lookup (self->records, piece->record.id);

  for (guint i = 0; list != NULL && i < list->len; i++)
    {
      const WbPackingCheck *check = g_ptr_array_index (list, i);

      if (check->state != WB_CHECK_OPEN
          && wb_catalog_find (self->catalog, WB_CATALOG_CHECK, check->rule) == NULL
          && wb_packing_record (self, piece->record.id, check->rule) == check)
        add_state (states, check->rule, NULL, check);
    }
}

GPtrArray *
wb_packing_states (const WbPacking *self,
                   const WbPiece   *piece)
{
  g_autoptr (GPtrArray) states = NULL;
  const WbCatalogEntry *carton;
  gboolean ours;

  g_return_val_if_fail (self != NULL && piece != NULL, NULL);

  states = g_ptr_array_new_with_free_func (g_free);
  carton = wb_catalog_match (self->catalog, WB_CATALOG_CARTON, piece->carton);
  ours = piece->form == WB_FORM_CARTON && piece->packed_by != WB_PACKED_BY_OWNER;
  for (guint i = 0; i < wb_catalog_count (self->catalog, WB_CATALOG_CHECK); i++)
    {
      const WbCatalogEntry *check = wb_catalog_nth (self->catalog, WB_CATALOG_CHECK, i);
      const WbPackingCheck *record = wb_packing_record (self, piece->record.id, check->nick);
      gboolean noted = record != NULL && record->state != WB_CHECK_OPEN;

      if (noted || (ours && wb_catalog_check_is_for (check, carton)))
        add_state (states, check->nick, check, record);
    }
  add_unknown (self, piece, states);
  return g_steal_pointer (&states);
}

WbPackingCounts
wb_packing_counts (const WbPacking *self,
                   const WbPiece   *piece)
{
  g_autoptr (GPtrArray) states = wb_packing_states (self, piece);
  WbPackingCounts counts = { 0 };

  for (guint i = 0; i < states->len; i++)
    {
      const WbPackingState *state = g_ptr_array_index (states, i);

      switch (state->state)
        {
        case WB_CHECK_OPEN:
          counts.open++;
          break;
        case WB_CHECK_MET:
          counts.met++;
          break;
        case WB_CHECK_UNMET:
          counts.unmet++;
          break;
        }
    }
  return counts;
}

/* --- weights ---------------------------------------------------------------------------------- */

const WbCatalogEntry *
wb_packing_entry (const WbCatalog *catalog,
                  const WbPiece   *piece)
{
  g_return_val_if_fail (catalog != NULL && piece != NULL, NULL);

  switch (piece->form)
    {
    case WB_FORM_CARTON:
      return wb_catalog_match (catalog, WB_CATALOG_CARTON, piece->carton);
    case WB_FORM_LOOSE:
      return wb_catalog_match_description (catalog, piece->description);
    case WB_FORM_CRATE:
      return NULL;
    }
  g_return_val_if_reached (NULL);
}

WbLift
wb_packing_lift (const WbCatalog       *catalog,
                 const WbPiece         *piece,
                 WbWeight               threshold,
                 WbWeight              *weight,
                 const WbCatalogEntry **entry)
{
  gboolean own = wb_weight_is_positive (piece->weight);
  const WbCatalogEntry *found = own ? NULL : wb_packing_entry (catalog, piece);
  WbWeight heavy = own ? piece->weight : found != NULL ? found->weight : WB_WEIGHT_UNSET;

  if (!wb_weight_is_positive (threshold) || !wb_weight_is_set (heavy)
      || heavy.grains < threshold.grains)
    return WB_LIFT_NONE;

  if (weight != NULL)
    *weight = heavy;
  if (entry != NULL)
    *entry = found;
  return own ? WB_LIFT_WEIGHT : WB_LIFT_USUAL_WEIGHT;
}
