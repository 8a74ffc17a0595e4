/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An inventory as comma-separated values: one row a piece, the lot by its colour and number, every
 * field under its name, the list of contents in a cell of its own. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-inventory-csv.h"

#include "office/wb-csv.h"
#include "office/wb-inventory-columns.h"
#include "office/wb-things-cell.h"

static void
append_text (GString    *out,
             const char *text)
{
  g_autofree char *escaped = wb_inventory_escape_text (text != NULL ? text : "");

  wb_csv_append_field (out, escaped);
}

static void
append_field (GString        *out,
              const WbPiece  *piece,
              const WbField  *field)
{
  g_autofree char *text = NULL;

  if (!wb_record_field_is_set (field, piece) && field->type != WB_FIELD_ENUM)
    return;

  text = wb_record_get_text (piece, field);
  if (field->type == WB_FIELD_TEXT)
    append_text (out, text);
  else
    wb_csv_append_field (out, text);
}

/* Returns: (transfer full): id of a piece → GPtrArray of its things. */
static GHashTable *
collect_things (const WbJob *job)
{
  GHashTable *all = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                           (GDestroyNotify) g_ptr_array_unref);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_THING); i++)
    {
      const WbThing *thing = wb_job_nth (job, WB_KIND_THING, i);
      GPtrArray *things = g_hash_table_lookup (all, thing->piece);

      if (things == NULL)
        {
          things = g_ptr_array_new ();
          g_hash_table_insert (all, thing->piece, things);
        }
      g_ptr_array_add (things, (gpointer) thing);
    }
  return all;
}

static void
append_things (GString       *out,
               GHashTable    *all,
               const WbPiece *piece)
{
  GPtrArray *things = g_hash_table_lookup (all, piece->record.id);
  g_autofree char *cell = things != NULL ? wb_things_cell_write (things) : NULL;

  append_text (out, cell);
}

static void
append_piece (GString       *out,
              const WbJob   *job,
              GHashTable    *things,
              const WbPiece *piece)
{
  const WbRecordType *type = piece->record.type;
  const WbLot *lot = wb_job_find (job, WB_KIND_LOT, piece->lot);

  append_text (out, lot != NULL ? lot->colour : NULL);
  g_string_append_c (out, ',');
  append_text (out, lot != NULL ? lot->number : NULL);
  for (gsize i = 0; i < type->n_fields; i++)
    {
      if (type->fields[i].type == WB_FIELD_REFERENCE)
        continue;
      g_string_append_c (out, ',');
      append_field (out, piece, &type->fields[i]);
    }
  g_string_append_c (out, ',');
  append_things (out, things, piece);
  g_string_append (out, "\r\n");
}

GBytes *
wb_inventory_csv_export (const WbJob *job)
{
  const WbRecordType *type = wb_record_type (WB_KIND_PIECE);
  g_autoptr (GString) out = g_string_new ("lot_colour,lot_number");
  g_autoptr (GHashTable) things = NULL;

  g_return_val_if_fail (job != NULL, NULL);

  for (gsize i = 0; i < type->n_fields; i++)
    {
      if (type->fields[i].type != WB_FIELD_REFERENCE)
        g_string_append_printf (out, ",%s", type->fields[i].name);
    }
  g_string_append (out, ",things\r\n");

  things = collect_things (job);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    append_piece (out, job, things, wb_job_nth (job, WB_KIND_PIECE, i));

  return g_string_free_to_bytes (g_steal_pointer (&out));
}
