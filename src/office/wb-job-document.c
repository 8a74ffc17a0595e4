/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job as a JSON document, written by walking the field tables: no kind of record and no field is
 * named here. Booleans and whole numbers are such in JSON; every other value is the canonical text
 * that wb_record_get_text() gives. Reading stands in wb-job-document-read.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-job-document.h"

#include <json-glib/json-glib.h>

static void
write_field (JsonBuilder    *builder,
             gconstpointer   record,
             const WbField  *field)
{
  gconstpointer member = G_STRUCT_MEMBER_P (record, field->offset);

  if (!wb_record_field_is_set (field, record))
    return;

  json_builder_set_member_name (builder, field->name);
  if (field->type == WB_FIELD_BOOLEAN)
    {
      json_builder_add_boolean_value (builder, *(const gboolean *) member);
    }
  else if (field->type == WB_FIELD_INTEGER)
    {
      json_builder_add_int_value (builder, *(const gint64 *) member);
    }
  else
    {
      g_autofree char *text = wb_record_get_text (record, field);

      json_builder_add_string_value (builder, text);
    }
}

static void
write_record (JsonBuilder    *builder,
              const WbRecord *record)
{
  json_builder_begin_object (builder);
  if (!record->type->single)
    {
      json_builder_set_member_name (builder, "id");
      json_builder_add_string_value (builder, record->id);
    }
  for (gsize i = 0; i < record->type->n_fields; i++)
    write_field (builder, record, &record->type->fields[i]);
  json_builder_end_object (builder);
}

static void
write_kind (JsonBuilder *builder,
            const WbJob *job,
            WbKind       kind)
{
  const WbRecordType *type = wb_record_type (kind);
  guint n = wb_job_count (job, kind);

  if (type->single)
    {
      json_builder_set_member_name (builder, type->name);
      write_record (builder, wb_job_nth (job, kind, 0));
    }
  else if (n > 0)
    {
      json_builder_set_member_name (builder, type->plural);
      json_builder_begin_array (builder);
      for (guint i = 0; i < n; i++)
        write_record (builder, wb_job_nth (job, kind, i));
      json_builder_end_array (builder);
    }
}

char *
wb_job_document_write (const WbJob *job)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *text = NULL;

  g_return_val_if_fail (job != NULL, NULL);

  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "format");
  json_builder_add_string_value (builder, WB_JOB_DOCUMENT_FORMAT);
  json_builder_set_member_name (builder, "version");
  json_builder_add_int_value (builder, WB_JOB_DOCUMENT_VERSION);
  json_builder_set_member_name (builder, "id");
  json_builder_add_string_value (builder, wb_job_get_id (job));
  json_builder_set_member_name (builder, "currency");
  json_builder_add_string_value (builder, wb_job_get_currency (job));
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    write_kind (builder, job, (WbKind) kind);
  json_builder_end_object (builder);

  root = json_builder_get_root (builder);
  json_generator_set_root (generator, root);
  json_generator_set_pretty (generator, TRUE);
  json_generator_set_indent (generator, 2);
  text = json_generator_to_data (generator, NULL);

  return g_strconcat (text, "\n", NULL);
}
