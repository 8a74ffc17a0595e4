/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on jobs: list, show, put in, write out. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "core/wb-json-check.h"
#include "office/wb-file.h"
#include "office/wb-job-document.h"
#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <string.h>

/* --- list ------------------------------------------------------------------------------------- */

static const char *
or_nothing (const char *text)
{
  return text != NULL ? text : "";
}

static void
print_table (GPtrArray *jobs)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("lllllrl");
  g_autoptr (GString) out = g_string_new (NULL);

  wb_text_table_add_row (table, _("Number"), _("Shipper"), _("Way"), _("Pick-up"), _("Stage"),
                         _("Pieces"), _("Claims"));
  for (guint i = 0; i < jobs->len; i++)
    {
      const WbJobSummary *job = g_ptr_array_index (jobs, i);
      g_autofree char *way = g_strdup_printf ("%s → %s", or_nothing (job->from_city),
                                              or_nothing (job->to_city));
      g_autofree char *pickup = wb_words_date (&job->pickup);
      g_autofree char *pieces = g_strdup_printf ("%u", job->n_pieces);

      wb_text_table_add_row (table, or_nothing (job->number), or_nothing (job->shipper),
                             job->from_city != NULL || job->to_city != NULL ? way : "", pickup,
                             wb_words_enum (&wb_stages,
                                            (int) job->stage), pieces, or_nothing (job->claims));
    }

  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
add_summary (JsonBuilder        *builder,
             const WbJobSummary *job)
{
  g_autofree char *pickup = wb_date_to_text (&job->pickup);
  g_autofree char *delivery = wb_date_to_text (&job->delivery);
  g_auto (GStrv) claims = g_strsplit (or_nothing (job->claims), ", ", -1);

  json_builder_begin_object (builder);
  wb_tool_json_add_text (builder, "id", job->id);
  wb_tool_json_add_text (builder, "number", job->number);
  wb_tool_json_add_text (builder, "bill_number", job->bill_number);
  wb_tool_json_add_text (builder, "stage", wb_enum_nick (&wb_stages, (int) job->stage));
  wb_tool_json_add_text (builder, "shipper", job->shipper);
  wb_tool_json_add_text (builder, "from", job->from_city);
  wb_tool_json_add_text (builder, "to", job->to_city);
  wb_tool_json_add_text (builder, "pickup", pickup);
  wb_tool_json_add_text (builder, "delivery", delivery);
  json_builder_set_member_name (builder, "pieces");
  json_builder_add_int_value (builder, job->n_pieces);
  json_builder_set_member_name (builder, "claims");
  json_builder_begin_array (builder);
  for (guint i = 0; claims[i] != NULL; i++)
    json_builder_add_string_value (builder, claims[i]);
  json_builder_end_array (builder);
  json_builder_set_member_name (builder, "open_claims");
  json_builder_add_int_value (builder, job->n_open_claims);
  json_builder_end_object (builder);
}

static void
print_json (GPtrArray *jobs)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < jobs->len; i++)
    add_summary (builder, g_ptr_array_index (jobs, i));
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
}

int
wb_tool_job_list (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GError) error = NULL;

  if (office == NULL)
    return WB_TOOL_FAILED;

  jobs = wb_office_list_jobs (office, options->find, 0, NULL, &error);
  if (jobs == NULL)
    return wb_tool_fail (options->arguments[0], error);

  if (options->json)
    print_json (jobs);
  else
    print_table (jobs);
  return WB_TOOL_DONE;
}

/* --- show ------------------------------------------------------------------------------------- */

/* What a reference means to a person: the tag of a piece, the number of a claim. */
static char *
words_of_reference (const WbJob   *job,
                    const WbField *field,
                    const char    *id)
{
  gconstpointer target = wb_job_find (job, field->refers, id);

  if (target != NULL && field->refers == WB_KIND_PIECE)
    return wb_words_tag (job, target);
  if (target != NULL && field->refers == WB_KIND_CLAIM)
    return g_strdup (((const WbClaim *) target)->number);
  if (target != NULL && field->refers == WB_KIND_LOT)
    return g_strjoin (" ", ((const WbLot *) target)->colour, ((const WbLot *) target)->number,
                      NULL);
  if (target != NULL && field->refers == WB_KIND_HANDOVER)
    return g_strdup (wb_words_enum (&wb_handover_kinds, ((const WbHandover *) target)->kind));

  return g_strdup (id);
}

static char *
words_of_value (const WbJob    *job,
                const WbRecord *record,
                const WbField  *field)
{
  if (field->type != WB_FIELD_REFERENCE)
    return wb_words_value (record, field);

  return words_of_reference (job, field, G_STRUCT_MEMBER (const char *, record, field->offset));
}

static void
append_record (GString        *out,
               const WbJob    *job,
               const WbRecord *record)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("ll");

  for (gsize i = 0; i < record->type->n_fields; i++)
    {
      const WbField *field = &record->type->fields[i];
      g_autofree char *words = NULL;

      if (!wb_record_field_is_set (field, record))
        continue;
      words = words_of_value (job, record, field);
      wb_text_table_add_row (table, wb_words_field (field), words);
    }

  wb_text_table_append (table, 2, out);
}

static void
append_kind (GString     *out,
             const WbJob *job,
             WbKind       kind)
{
  const WbRecordType *type = wb_record_type (kind);

  for (guint i = 0; i < wb_job_count (job, kind); i++)
    {
      if (type->single)
        g_string_append_printf (out, "%s\n", _(type->label));
      else
        g_string_append_printf (out, "%s %u\n", _(type->label), i + 1);
      append_record (out, job, wb_job_nth (job, kind, i));
      g_string_append_c (out, '\n');
    }
}

/* The inventory, one line a piece. */
static void
append_pieces (GString     *out,
               const WbJob *job)
{
  const WbRecordType *type = wb_record_type (WB_KIND_PIECE);
  const WbField *packed_by = wb_record_type_field (type, "packed_by");
  g_autoptr (WbTextTable) table = wb_text_table_new ("llllrl");

  if (wb_job_count (job, WB_KIND_PIECE) == 0)
    return;

  wb_text_table_add_row (table, _("Tag"), _("Piece"), _("Room"), _("Packed by"), _("Weight"),
                         _("Marks"));
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);
      g_autofree char *tag = wb_words_tag (job, piece);
      g_autofree char *weight = wb_words_weight (piece->weight);
      g_autofree char *packer = wb_record_get_text (piece, packed_by);
      const char *name = piece->description != NULL ? piece->description : piece->contents;

      wb_text_table_add_row (table, tag, or_nothing (name), or_nothing (piece->room),
                             piece->packed_by == WB_PACKED_UNKNOWN ? "–" : packer, weight,
                             or_nothing (piece->marks));
    }

  g_string_append_printf (out, "%s\n", _("Inventory"));
  wb_text_table_append (table, 2, out);
  g_string_append_c (out, '\n');
}

void
wb_tool_print_job (const WbToolOptions *options,
                   WbOffice            *office,
                   WbJob               *job)
{
  g_autoptr (GString) out = NULL;

  if (options->json)
    {
      g_autofree char *text = wb_job_document_write (job);

      wb_tool_print (text);
      return;
    }

  out = g_string_new (NULL);
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      if (kind == WB_KIND_PIECE)
        append_pieces (out, job);
      else
        append_kind (out, job, (WbKind) kind);
    }
  wb_tool_append_keeping (out, job);
  wb_tool_append_charges (out, office, job);

  g_string_truncate (out, out->len - 1);
  wb_tool_print (out->str);
}

int
wb_tool_job_show (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;

  if (job == NULL)
    return WB_TOOL_FAILED;
  if (options->piece != NULL)
    return wb_tool_show_piece (options, job);

  wb_tool_print_job (options, office, job);
  return WB_TOOL_DONE;
}

/* --- import and export ------------------------------------------------------------------------ */

static WbJob *
read_document (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_commandline_arg (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = wb_file_read (file, WB_JSON_MAX_BYTES, NULL, &error);
  WbJob *job = NULL;

  if (bytes != NULL)
    {
      gsize length;
      const char *text = g_bytes_get_data (bytes, &length);

      job = wb_job_document_read (text != NULL ? text : "", (gssize) length, &error);
    }
  if (job == NULL)
    wb_tool_fail (path, error);

  return job;
}

int
wb_tool_job_import (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_job_unref);
  g_autoptr (GError) error = NULL;
  gboolean good = office != NULL;

  for (guint i = 1; office != NULL && options->arguments[i] != NULL; i++)
    {
      WbJob *job = read_document (options->arguments[i]);

      if (job != NULL)
        g_ptr_array_add (jobs, job);
      else
        good = FALSE;
    }

  if (!good)
    {
      if (office != NULL)
        wb_tool_complain (_("Nothing was put into the book."));
      return WB_TOOL_FAILED;
    }

  if (!wb_office_add_jobs (office, jobs, _("Import job document"), NULL, &error))
    return wb_tool_fail (NULL, error);

  wb_tool_print_line (ngettext ("Put %u job into the book.\n", "Put %u jobs into the book.\n",
                                jobs->len), jobs->len);
  return WB_TOOL_DONE;
}

int
wb_tool_job_export (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autofree char *text = NULL;

  if (job == NULL)
    return WB_TOOL_FAILED;

  text = wb_job_document_write (job);
  return wb_tool_deliver (options, text, strlen (text));
}
