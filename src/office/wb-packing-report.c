/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes down what core worked out about the packing of a job. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-packing-report.h"

#include "office/wb-text-table.h"
#include "office/wb-words-packing.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <json-glib/json-glib.h>

static const WbForm forms[] = { WB_FORM_CARTON, WB_FORM_LOOSE, WB_FORM_CRATE };

/* --- text ------------------------------------------------------------------------------------- */

static void
append_rows (GString         *out,
             const WbPacking *packing)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("lrrrrrl");
  GPtrArray *rows = wb_packing_rows (packing);

  wb_text_table_add_row (table, _("Carton or material"), _("CP"), _("PBO"), _("Unknown"),
                         _("Planned"), _("Used"), _("Difference"));
  for (guint i = 0; i < rows->len; i++)
    {
      const WbPackingRow *row = g_ptr_array_index (rows, i);
      g_autofree char *item = wb_words_packing_item (row);
      g_autofree char *carrier = g_strdup_printf ("%u", row->carrier);
      g_autofree char *owner = g_strdup_printf ("%u", row->owner);
      g_autofree char *unknown = g_strdup_printf ("%u", row->unknown);
      g_autofree char *planned = wb_words_packing_number (row->planned);
      g_autofree char *used = wb_words_packing_number (row->used);
      g_autofree char *difference = wb_words_packing_difference (row->difference);

      wb_text_table_add_row (table, item, carrier, owner, unknown, planned, used, difference);
    }
  wb_text_table_append (table, 0, out);
  g_string_append_c (out, '\n');
}

static gboolean
append_totals (GString          *out,
               const WbPacking  *packing,
               GError          **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      g_autofree char *words = NULL;
      WbPackingTotals totals;

      if (!wb_packing_totals (packing, forms[i], &totals, error))
        return FALSE;
      if (totals.n == 0)
        continue;
      words = wb_words_packing_totals (&totals, forms[i]);
      wb_text_append_paragraph (out, 0, 2, words);
    }
  g_string_append_c (out, '\n');
  return TRUE;
}

/* The carton's line, and beneath it what was not met. */
static void
append_piece (WbTextTable     *table,
              const WbPacking *packing,
              const WbJob     *job,
              const WbPiece   *piece,
              const char      *caution)
{
  g_autoptr (GPtrArray) states = wb_packing_states (packing, piece);
  g_autofree char *tag = wb_words_tag (job, piece);
  g_autofree char *counts = wb_words_packing_counts (wb_packing_counts (packing, piece));

  wb_text_table_add_row (table, tag, piece->carton != NULL ? piece->carton : "–",
                         piece->room != NULL ? piece->room : "–",
                         piece->packer != NULL ? piece->packer : "–",
                         piece->checked_by != NULL ? piece->checked_by : "–", counts,
                         caution != NULL ? caution : "");
  for (guint i = 0; i < states->len; i++)
    {
      const WbPackingState *state = g_ptr_array_index (states, i);
      g_autofree char *check = NULL;
      g_autofree char *words = NULL;
      g_autofree char *note = NULL;

      if (state->state != WB_CHECK_UNMET)
        continue;
      check = wb_words_packing_check (state);
      words = wb_words_packing_state (state);
      note = g_strdup_printf ("%s: %s", check, words);
      wb_text_table_add_note (table, 2, note);
    }
}

static void
append_pieces (GString         *out,
               WbCatalog       *catalog,
               const WbPacking *packing,
               const WbJob     *job,
               WbWeight         threshold)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("lllllll");

  wb_text_table_add_row (table, _("Tag"), _("Kind"), _("Room"), _("Packer"), _("Checked by"),
                         _("Checks"), _("Caution"));
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);
      WbWeight weight = WB_WEIGHT_UNSET;
      WbLift lift = wb_packing_lift (catalog, piece, threshold, &weight, NULL);
      g_autofree char *caution = wb_words_lift_short (lift, weight);

      if (piece->form == WB_FORM_CARTON)
        append_piece (table, packing, job, piece, caution);
    }
  wb_text_table_append (table, 0, out);
}

char *
wb_packing_report (WbCatalog  *catalog,
                   WbJob      *job,
                   WbWeight    threshold,
                   GError    **error)
{
  g_autoptr (WbPacking) packing = NULL;
  g_autoptr (GString) out = g_string_new (NULL);

  g_return_val_if_fail (catalog != NULL && job != NULL, NULL);

  packing = wb_packing_new (catalog, job);
  append_rows (out, packing);
  if (!append_totals (out, packing, error))
    return NULL;
  append_pieces (out, catalog, packing, job, threshold);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/* --- JSON ------------------------------------------------------------------------------------- */

static void
add_text (JsonBuilder *builder,
          const char  *name,
          const char  *text)
{
  if (text == NULL || *text == '\0')
    return;
  json_builder_set_member_name (builder, name);
  json_builder_add_string_value (builder, text);
}

static void
add_number (JsonBuilder *builder,
            const char  *name,
            gint64       number)
{
  if (number == WB_INTEGER_UNSET)
    return;
  json_builder_set_member_name (builder, name);
  json_builder_add_int_value (builder, number);
}

static void
add_row (JsonBuilder        *builder,
         const WbPackingRow *row)
{
  json_builder_begin_object (builder);
  add_text (builder, "item", row->item);
  if (row->entry != NULL)
    {
      add_text (builder, "kind", wb_enum_nick (&wb_catalog_kinds, (int) row->entry->kind));
      add_text (builder, "name", row->entry->name);
      add_text (builder, "unit", row->entry->unit);
    }
  add_number (builder, "packed_by_carrier", row->carrier);
  add_number (builder, "packed_by_owner", row->owner);
  add_number (builder, "packed_by_unknown", row->unknown);
  add_number (builder, "planned", row->planned);
  add_number (builder, "used", row->used);
  json_builder_set_member_name (builder, "counted");
  json_builder_add_boolean_value (builder, row->counted);
  add_number (builder, "difference", row->difference);
  json_builder_end_object (builder);
}

static void
add_totals (JsonBuilder           *builder,
            const WbPackingTotals *totals,
            WbForm                 form)
{
  g_autofree char *volume = wb_volume_to_text (totals->volume);
  g_autofree char *weight = wb_weight_to_text (totals->weight);

  json_builder_set_member_name (builder, wb_enum_nick (&wb_forms, (int) form));
  json_builder_begin_object (builder);
  add_number (builder, "pieces", totals->n);
  add_text (builder, "volume", volume);
  add_number (builder, "without_volume", totals->n_without_volume);
  add_text (builder, "weight", weight);
  add_number (builder, "by_usual_weight", totals->n_usual_weight);
  add_number (builder, "without_weight", totals->n_without_weight);
  json_builder_end_object (builder);
}

static void
add_checks (JsonBuilder     *builder,
            const WbPacking *packing,
            const WbPiece   *piece)
{
  g_autoptr (GPtrArray) states = wb_packing_states (packing, piece);

  json_builder_set_member_name (builder, "checks");
  json_builder_begin_array (builder);
  for (guint i = 0; i < states->len; i++)
    {
      const WbPackingState *state = g_ptr_array_index (states, i);

      json_builder_begin_object (builder);
      add_text (builder, "rule", state->rule);
      add_text (builder, "name", state->check != NULL ? state->check->name : NULL);
      add_text (builder, "state", wb_enum_nick (&wb_checks, (int) state->state));
      if (state->record != NULL && state->state != WB_CHECK_OPEN)
        {
          g_autofree char *on = wb_date_to_text (&state->record->on);

          add_text (builder, "by", state->record->by);
          add_text (builder, "on", on);
          add_text (builder, "notes", state->record->notes);
        }
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
}

static void
add_piece (JsonBuilder     *builder,
           WbCatalog       *catalog,
           const WbPacking *packing,
           const WbPiece   *piece,
           WbWeight         threshold)
{
  WbWeight weight = WB_WEIGHT_UNSET;
  WbLift lift = wb_packing_lift (catalog, piece, threshold, &weight, NULL);
  g_autofree char *heavy = wb_weight_to_text (weight);

  json_builder_begin_object (builder);
  add_text (builder, "id", piece->record.id);
  add_text (builder, "lot", piece->lot);
  add_number (builder, "tag", piece->tag);
  add_text (builder, "carton", piece->carton);
  add_text (builder, "room", piece->room);
  add_text (builder, "packed_by", wb_enum_nick (&wb_packed_by, (int) piece->packed_by));
  add_text (builder, "packer", piece->packer);
  add_text (builder, "checked_by", piece->checked_by);
  if (lift != WB_LIFT_NONE)
    {
      add_text (builder, "heavy", heavy);
      json_builder_set_member_name (builder, "heavy_by_usual_weight");
      json_builder_add_boolean_value (builder, lift == WB_LIFT_USUAL_WEIGHT);
    }
  add_checks (builder, packing, piece);
  json_builder_end_object (builder);
}

static void
add_pieces (JsonBuilder     *builder,
            WbCatalog       *catalog,
            const WbPacking *packing,
            const WbJob     *job,
            WbWeight         threshold)
{
  json_builder_set_member_name (builder, "cartons");
  json_builder_begin_array (builder);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (piece->form == WB_FORM_CARTON)
        add_piece (builder, catalog, packing, piece, threshold);
    }
  json_builder_end_array (builder);
}

char *
wb_packing_report_json (WbCatalog  *catalog,
                        WbJob      *job,
                        WbWeight    threshold,
                        GError    **error)
{
  g_autoptr (WbPacking) packing = NULL;
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *text = NULL;
  GPtrArray *rows;

  g_return_val_if_fail (catalog != NULL && job != NULL, NULL);

  packing = wb_packing_new (catalog, job);
  rows = wb_packing_rows (packing);
  json_builder_begin_object (builder);
  add_text (builder, "job", wb_job_order (job)->number);

  json_builder_set_member_name (builder, "items");
  json_builder_begin_array (builder);
  for (guint i = 0; i < rows->len; i++)
    add_row (builder, g_ptr_array_index (rows, i));
  json_builder_end_array (builder);

  json_builder_set_member_name (builder, "totals");
  json_builder_begin_object (builder);
  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      WbPackingTotals totals;

      if (!wb_packing_totals (packing, forms[i], &totals, error))
        return NULL;
      add_totals (builder, &totals, forms[i]);
    }
  json_builder_end_object (builder);

  add_pieces (builder, catalog, packing, job, threshold);
  json_builder_end_object (builder);

  root = json_builder_get_root (builder);
  text = json_to_string (root, TRUE);
  return g_strconcat (text, "\n", NULL);
}
