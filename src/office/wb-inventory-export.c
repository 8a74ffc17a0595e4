/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An inventory as comma-separated values: one row a piece, the lot by its colour and number, every
 * field under its name. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-inventory-csv.h"

#include "office/wb-csv.h"
#include "office/wb-inventory-columns.h"

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

static void
append_piece (GString       *out,
              const WbJob   *job,
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
  g_string_append (out, "\r\n");
}

GBytes *
wb_inventory_csv_export (const WbJob *job)
{
  const WbRecordType *type = wb_record_type (WB_KIND_PIECE);
  g_autoptr (GString) out = g_string_new ("lot_colour,lot_number");

  g_return_val_if_fail (job != NULL, NULL);

  for (gsize i = 0; i < type->n_fields; i++)
    {
      if (type->fields[i].type != WB_FIELD_REFERENCE)
        g_string_append_printf (out, ",%s", type->fields[i].name);
    }
  g_string_append (out, "\r\n");

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    append_piece (out, job, wb_job_nth (job, WB_KIND_PIECE, i));

  return g_string_free_to_bytes (g_steal_pointer (&out));
}
