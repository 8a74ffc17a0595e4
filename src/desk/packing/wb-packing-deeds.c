/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes the records of a person's deeds. What they come to is worked out in core. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/packing/wb-packing-deeds.h"

#include "core/wb-core.h"
#include "office/wb-office.h"

#include <string.h>

/* --- checks ----------------------------------------------------------------------------------- */

static WbPackingCheck *
make_check (const WbPacking *packing,
            const char      *piece,
            const char      *rule)
{
  const WbPackingCheck *before = wb_packing_record (packing, piece, rule);
  g_autofree char *id = NULL;
  WbPackingCheck *check;

  if (before != NULL)
    return wb_record_copy (before);

  id = wb_office_new_id ();
  check = wb_record_new (WB_KIND_PACKING_CHECK, id);
  wb_set_text (&check->piece, piece);
  wb_set_text (&check->rule, rule);
  return check;
}

static WbPackingCheck *
note (const WbPacking *packing,
      const char      *piece,
      const char      *rule,
      WbCheck          state,
      const char      *by,
      const GDate     *today)
{
  WbPackingCheck *check = make_check (packing, piece, rule);

  check->state = state;
  if (state == WB_CHECK_OPEN)
    {
      wb_set_text (&check->by, NULL);
      wb_set_text (&check->notes, NULL);
      g_date_clear (&check->on, 1);
    }
  else
    {
      wb_set_text (&check->by, by);
      check->on = *today;
    }
  return check;
}

/* Who looks at the piece: whom it names, else @by, whom it names from then on. */
static const char *
take_checker (WbJob      *job,
              const char *piece_id,
              const char *by,
              GPtrArray  *changed)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, piece_id);

  if (piece == NULL || piece->checked_by != NULL)
    return piece != NULL ? piece->checked_by : by;

  if (by != NULL && *by != '\0')
    {
      WbPiece *named = wb_record_copy (piece);

      wb_set_text (&named->checked_by, by);
      g_ptr_array_add (changed, named);
    }
  return by;
}

WbJob *
wb_packing_note_check (const WbPacking *packing,
                       WbJob           *job,
                       const char      *piece,
                       const char      *rule,
                       WbCheck          state,
                       const char      *by,
                       const GDate     *today)
{
  g_autoptr (GPtrArray) changed = g_ptr_array_new_with_free_func (wb_record_unref);
  const char *checker = state == WB_CHECK_OPEN ? by : take_checker (job, piece, by, changed);

  g_ptr_array_add (changed, note (packing, piece, rule, state, checker, today));
  return wb_job_with_many (job, changed);
}

WbJob *
wb_packing_note_all_met (const WbPacking *packing,
                         WbJob           *job,
                         const char      *piece,
                         const char      *by,
                         const GDate     *today)
{
  g_autoptr (GPtrArray) changed = g_ptr_array_new_with_free_func (wb_record_unref);
  const WbPiece *record = wb_job_find (job, WB_KIND_PIECE, piece);
  g_autoptr (GPtrArray) states = NULL;
  const char *checker;
  guint n = 0;

  g_return_val_if_fail (record != NULL, NULL);

  states = wb_packing_states (packing, record);
  checker = take_checker (job, piece, by, changed);
  for (guint i = 0; i < states->len; i++)
    {
      const WbPackingState *state = g_ptr_array_index (states, i);

      if (state->state != WB_CHECK_OPEN)
        continue;
      g_ptr_array_add (changed, note (packing, piece, state->rule, WB_CHECK_MET, checker, today));
      n++;
    }
  return n > 0 ? wb_job_with_many (job, changed) : NULL;
}

WbJob *
wb_packing_note_seen (const WbPacking *packing,
                      WbJob           *job,
                      const char      *piece,
                      const char      *rule,
                      const char      *notes)
{
  const WbPackingCheck *before = wb_packing_record (packing, piece, rule);
  g_autofree char *stripped = g_strstrip (g_strdup (notes));
  g_autoptr (WbPackingCheck) check = NULL;

  if (before == NULL || before->state == WB_CHECK_OPEN)
    return NULL;

  check = wb_record_copy (before);
  wb_set_text (&check->notes, stripped);
  return wb_job_with (job, check);
}

/* --- cartons and materials -------------------------------------------------------------------- */

const WbPackingRow *
wb_packing_find_row (WbCatalog       *catalog,
                     const WbPacking *packing,
                     const char      *words)
{
  const WbCatalogEntry *entry = wb_catalog_match_item (catalog, words);
  GPtrArray *rows = wb_packing_rows (packing);

  for (guint i = 0; i < rows->len; i++)
    {
      const WbPackingRow *row = g_ptr_array_index (rows, i);

      if (entry != NULL ? row->entry == entry
                        : row->entry == NULL && g_ascii_strcasecmp (row->item, words) == 0)
        return row;
    }
  return NULL;
}

static WbMaterial *
make_material (const WbPackingRow *row,
               const char         *item)
{
  g_autofree char *id = NULL;
  WbMaterial *material;

  if (row != NULL && row->material != NULL)
    return wb_record_copy (row->material);

  id = wb_office_new_id ();
  material = wb_record_new (WB_KIND_MATERIAL, id);
  wb_set_text (&material->item, item);
  return material;
}

static const WbPackingRow *
find_item (const WbPacking *packing,
           const char      *item)
{
  GPtrArray *rows = wb_packing_rows (packing);

  for (guint i = 0; i < rows->len; i++)
    {
      const WbPackingRow *row = g_ptr_array_index (rows, i);

      if (g_str_equal (row->item, item))
        return row;
    }
  return NULL;
}

/* What the other records of the row have of a number, so that the first can make up the rest. */
static gint64
count_others (const WbPackingRow *row,
              gboolean            planned)
{
  gint64 all, own;

  if (row == NULL || row->material == NULL)
    return 0;
  all = planned ? row->planned : row->counted ? WB_INTEGER_UNSET : row->used;
  own = planned ? row->material->planned : row->material->used;
  if (all == WB_INTEGER_UNSET)
    return 0;
  return own == WB_INTEGER_UNSET ? all : all - own;
}

WbJob *
wb_packing_set_number (const WbPacking *packing,
                       WbJob           *job,
                       const char      *item,
                       const char      *field,
                       const char      *text,
                       GError         **error)
{
  const WbPackingRow *row = find_item (packing, item);
  g_autoptr (WbMaterial) material = make_material (row, item);
  gboolean planned = g_str_equal (field, "planned");
  gint64 *number = planned ? &material->planned : &material->used;
  gint64 others = count_others (row, planned);

  if (!wb_record_set_text (material,
                           wb_record_type_field (wb_record_type (WB_KIND_MATERIAL), field), text,
                           wb_job_get_currency (job), error))
    return NULL;

  if (*number != WB_INTEGER_UNSET && *number < others)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "other lines of the same have %" G_GINT64_FORMAT " already", others);
      return NULL;
    }
  if (*number != WB_INTEGER_UNSET)
    *number -= others;
  return wb_job_with (job, material);
}

WbJob *
wb_packing_add_item (WbCatalog       *catalog,
                     const WbPacking *packing,
                     WbJob           *job,
                     const char      *words)
{
  const WbCatalogEntry *entry = wb_catalog_match_item (catalog, words);
  g_autoptr (WbMaterial) material = NULL;

  if (wb_packing_find_row (catalog, packing, words) != NULL)
    return NULL;

  material = make_material (NULL, entry != NULL ? entry->nick : words);
  return wb_job_with (job, material);
}
