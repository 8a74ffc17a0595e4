/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on the photos of a job: take in, list, compare their files. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "core/wb-count-entry.h"
#include "office/wb-photo-import.h"
#include "office/wb-photo-pictures.h"
#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- add -------------------------------------------------------------------------------------- */

/* What the options say of every photo. %FALSE with the fault told. */
static gboolean
read_options (const WbToolOptions  *options,
              WbJob                *job,
              const WbPiece       **piece,
              int                  *moment)
{
  g_autoptr (GError) error = NULL;

  *piece = NULL;
  *moment = WB_MOMENT_NONE;
  if (options->piece != NULL)
    {
      *piece = wb_count_find_piece (job, options->piece, &error);
      if (*piece == NULL)
        return wb_tool_fail ("--piece", error) == WB_TOOL_DONE;
    }
  if (options->moment != NULL && !wb_enum_parse (&wb_moments, options->moment, moment, &error))
    return wb_tool_fail ("--moment", error) == WB_TOOL_DONE;
  return TRUE;
}

static GPtrArray *
sources_of (const WbToolOptions *options)
{
  GPtrArray *sources = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_photo_source_free);

  for (guint i = 2; options->arguments[i] != NULL; i++)
    {
      g_autoptr (GFile) file = g_file_new_for_commandline_arg (options->arguments[i]);

      g_ptr_array_add (sources, wb_photo_source_new_file (file));
    }
  return sources;
}

static void
complain_of_results (GPtrArray *results)
{
  for (guint i = 0; i < results->len; i++)
    {
      const WbPhotoResult *result = g_ptr_array_index (results, i);
      g_autofree char *words = wb_photo_result_words (result);

      if (result->outcome != WB_PHOTO_TAKEN || result->error != NULL)
        wb_tool_complain ("%s: %s", result->name, words);
    }
}

/* The records are nobody's yet, so they may still be written. */
static gboolean
save_photos (const WbToolOptions *options,
             WbOffice            *office,
             WbJob               *job,
             GPtrArray           *records,
             const WbPiece       *piece,
             int                  moment)
{
  g_autoptr (WbJob) with = NULL;
  g_autoptr (WbJob) saved = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < records->len; i++)
    {
      WbPhoto *photo = g_ptr_array_index (records, i);

      photo->moment = (WbMoment) moment;
      wb_set_text (&photo->piece, piece != NULL ? piece->record.id : NULL);
    }

  with = wb_job_with_many (job, records);
  saved = wb_office_save_job (office, job, with, _("Take in photos"), NULL, &error);
  if (saved == NULL)
    wb_tool_fail (options->arguments[0], error);
  return saved != NULL;
}

int
wb_tool_photo_add (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (GPtrArray) sources = sources_of (options);
  g_autoptr (GPtrArray) results = NULL;
  g_autoptr (GPtrArray) records = NULL;
  g_autofree char *words = NULL;
  g_autoptr (GError) error = NULL;
  const WbPiece *piece;
  guint counts[5] = { 0 };
  int moment;

  if (job == NULL || !read_options (options, job, &piece, &moment))
    return WB_TOOL_FAILED;

  results = wb_office_take_photos (office, job, sources, NULL, NULL, &error);
  if (results == NULL)
    return wb_tool_fail (NULL, error);

  complain_of_results (results);
  records = wb_photo_results_records (results, counts);
  if (records->len > 0 && !save_photos (options, office, job, records, piece, moment))
    return WB_TOOL_FAILED;

  words = wb_photo_results_words (results);
  wb_tool_print_line ("%s\n", words);
  return counts[WB_PHOTO_REFUSED] > 0 || records->len + counts[WB_PHOTO_AGAIN] == 0 ? WB_TOOL_FAILED
                                                                                    : WB_TOOL_DONE;
}

/* --- list ------------------------------------------------------------------------------------- */

static char *
tag_of (const WbJob   *job,
        const WbPhoto *photo)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, photo->piece);

  return piece != NULL ? wb_words_tag (job, piece) : g_strdup ("");
}

static void
print_table (const WbJob *job)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("llllll");
  g_autoptr (GString) out = g_string_new (NULL);

  wb_text_table_add_row (table, _("Photo"), _("Piece"), _("Moment"), _("Taken"), _("Taken in"),
                         _("Caption"));
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);
      g_autofree char *tag = tag_of (job, photo);
      g_autofree char *taken = wb_words_photo_taken (photo);
      g_autofree char *imported = wb_words_photo_imported (photo);

      wb_text_table_add_row (table, photo->name != NULL ? photo->name : photo->hash, tag,
                             wb_words_enum (&wb_moments, (int) photo->moment), taken, imported,
                             photo->caption != NULL ? photo->caption : "");
    }
  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
add_field (JsonBuilder    *builder,
           const WbPhoto  *photo,
           const WbField  *field)
{
  if (!wb_record_field_is_set (field, photo))
    return;

  json_builder_set_member_name (builder, field->name);
  if (field->type == WB_FIELD_INTEGER)
    {
      json_builder_add_int_value (builder, G_STRUCT_MEMBER (gint64, photo, field->offset));
    }
  else
    {
      g_autofree char *text = wb_record_get_text (photo, field);

      json_builder_add_string_value (builder, text);
    }
}

/* The fields of the record, as a job document has them, and where the file is. */
static void
print_json (WbOffice    *office,
            const WbJob *job)
{
  const WbRecordType *type = wb_record_type (WB_KIND_PHOTO);
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);
      g_autofree char *path = wb_office_photo_path (office, photo);
      g_autofree char *name = path != NULL ? g_filename_display_name (path) : NULL;

      json_builder_begin_object (builder);
      json_builder_set_member_name (builder, "id");
      json_builder_add_string_value (builder, photo->record.id);
      for (gsize f = 0; f < type->n_fields; f++)
        add_field (builder, photo, &type->fields[f]);
      if (name != NULL)
        {
          json_builder_set_member_name (builder, "file");
          json_builder_add_string_value (builder, name);
        }
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
}

int
wb_tool_photo_list (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;

  if (job == NULL)
    return WB_TOOL_FAILED;

  if (options->json)
    print_json (office, job);
  else
    print_table (job);
  return WB_TOOL_DONE;
}

/* --- verify ----------------------------------------------------------------------------------- */

static void
verify_job (WbOffice *office,
            WbJob    *job,
            guint    *n_photos,
            guint    *n_faults)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);
      g_autoptr (GError) error = NULL;
      g_autofree char *about = NULL;

      *n_photos += 1;
      if (wb_office_check_photo (office, photo, TRUE, NULL, &error))
        continue;
      *n_faults += 1;
      about = g_strjoin (", ", wb_job_order (job)->number, photo->name, photo->hash, NULL);
      wb_tool_fail (about, error);
    }
}

static int
tell_verified (guint n_photos,
               guint n_faults)
{
  if (n_faults > 0)
    {
      wb_tool_complain (ngettext ("%u of %u photos is not as it was taken in.",
                                  "%u of %u photos are not as they were taken in.", n_faults),
                        n_faults, n_photos);
      return WB_TOOL_FAILED;
    }

  wb_tool_print_line (ngettext ("%u photo, as it was taken in.\n",
                                "%u photos, all as they were taken in.\n", n_photos), n_photos);
  return WB_TOOL_DONE;
}

int
wb_tool_photo_verify (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GError) error = NULL;
  guint n_photos = 0, n_faults = 0;

  if (office == NULL)
    return WB_TOOL_FAILED;

  if (options->arguments[1] != NULL)
    {
      g_autoptr (WbJob) job = wb_tool_find_job (options, office);

      if (job == NULL)
        return WB_TOOL_FAILED;
      verify_job (office, job, &n_photos, &n_faults);
      return tell_verified (n_photos, n_faults);
    }

  jobs = wb_office_list_jobs (office, NULL, 0, NULL, &error);
  for (guint i = 0; jobs != NULL && i < jobs->len; i++)
    {
      const WbJobSummary *summary = g_ptr_array_index (jobs, i);
      g_autoptr (WbJob) job = wb_office_load_job (office, summary->id, NULL, &error);

      if (job == NULL)
        return wb_tool_fail (summary->number, error);
      verify_job (office, job, &n_photos, &n_faults);
    }
  return jobs != NULL ? tell_verified (n_photos, n_faults)
                      : wb_tool_fail (options->arguments[0], error);
}

/* --- unused ----------------------------------------------------------------------------------- */

int
wb_tool_photo_unused (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (GPtrArray) unused = NULL;
  g_autoptr (GError) error = NULL;

  if (office == NULL)
    return WB_TOOL_FAILED;

  unused = wb_office_unused_photos (office, NULL, &error);
  if (unused == NULL)
    return wb_tool_fail (options->arguments[0], error);

  for (guint i = 0; i < unused->len; i++)
    {
      g_autofree char *name = g_filename_display_name (g_ptr_array_index (unused, i));

      wb_tool_print_line ("%s\n", name);
    }
  return WB_TOOL_DONE;
}
