/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on published jobs: publish one, fetch one, say how one stands, list and check what is on
 * a server. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-publish.h"
#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <inttypes.h>
#include <string.h>

void
wb_tool_place_clear (WbToolPlace *self)
{
  g_clear_object (&self->office);
  g_clear_pointer (&self->server, wb_server_free);
  g_clear_pointer (&self->secret, wb_secret_unref);
}

gboolean
wb_tool_place_open (WbToolPlace         *self,
                    const WbToolOptions *options,
                    const char          *server)
{
  self->office = wb_tool_open (options);
  if (self->office != NULL)
    self->server = wb_tool_find_server (self->office, server);
  return self->server != NULL && wb_tool_need_secret (self->server, &self->secret);
}

const char *
wb_tool_number_of (const WbJob *job)
{
  const char *number = wb_job_order (job)->number;

  return number != NULL ? number : wb_job_get_id (job);
}

int
wb_tool_job_publish (const WbToolOptions *options)
{
  g_auto (WbToolPlace) place = { NULL };
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbPublishStatus) status = NULL;
  g_autoptr (GError) error = NULL;

  if (!wb_tool_place_open (&place, options, options->arguments[2]))
    return WB_TOOL_FAILED;
  job = wb_tool_find_job (options, place.office);
  if (job == NULL)
    return WB_TOOL_FAILED;

  status = wb_office_publish (place.office, place.server->id, place.secret, wb_job_get_id (job),
                              NULL, NULL, &error);
  if (status == NULL)
    return wb_tool_fail (wb_tool_number_of (job), error);
  /* Translators: the number of a job, the name of a server, and the number of a version. */
  wb_tool_print_line (_("Job %s is on “%s” as version %" PRId64 ".\n"),
                      wb_tool_number_of (job), place.server->name, status->number);
  return WB_TOOL_DONE;
}

int
wb_tool_job_status (const WbToolOptions *options)
{
  g_auto (WbToolPlace) place = { NULL };
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbPublishStatus) status = NULL;
  g_autoptr (GError) error = NULL;

  if (!wb_tool_place_open (&place, options, options->arguments[2]))
    return WB_TOOL_FAILED;
  job = wb_tool_find_job (options, place.office);
  if (job == NULL)
    return WB_TOOL_FAILED;

  status = wb_office_publish_status (place.office, place.server->id, place.secret,
                                     wb_job_get_id (job), NULL, &error);
  if (status == NULL)
    return wb_tool_fail (wb_tool_number_of (job), error);
  /* Translators: the number of a job, and how it stands to the server in a few words. */
  wb_tool_print_line (_("%s: %s\n"), wb_tool_number_of (job),
                      wb_words_enum (&wb_publish_states, (int) status->state));
  if (status->at != NULL)
    /* Translators: a person, and a date with a time. */
    wb_tool_print_line (_("Last published by %s at %s.\n"), status->by, status->at);
  return WB_TOOL_DONE;
}

/* --- what is on a server ---------------------------------------------------------------------- */

char *
wb_tool_find_published (WbOffice       *office,
                        const WbServer *server,
                        WbSecret       *secret,
                        const char     *number)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = wb_office_list_published (office, server->id, secret, NULL, NULL,
                                                         &error);

  if (jobs == NULL)
    {
      wb_tool_fail (server->name, error);
      return NULL;
    }
  for (guint i = 0; i < jobs->len; i++)
    {
      const WbPublishedJob *job = g_ptr_array_index (jobs, i);

      if (strcmp (job->id, number) == 0 ||
          (job->number != NULL && g_ascii_strcasecmp (job->number, number) == 0))
        return g_strdup (job->id);
    }
  /* Translators: the number of a job, and the name of a server. */
  wb_tool_complain (_("There is no published job %s on “%s”."), number, server->name);
  return NULL;
}

/* Returns: %FALSE with the fault told. */
static gboolean
read_side (const char    *text,
           WbMergeChoice *side)
{
  *side = WB_MERGE_UNDECIDED;
  if (text == NULL)
    return TRUE;
  if (strcmp (text, "here") == 0)
    *side = WB_MERGE_MINE;
  else if (strcmp (text, "there") == 0)
    *side = WB_MERGE_THEIRS;
  else
    wb_tool_complain (_("“%s” is neither “here” nor “there”."), text);
  return *side != WB_MERGE_UNDECIDED;
}

int
wb_tool_job_fetch (const WbToolOptions *options)
{
  WbMergeChoice side;
  g_auto (WbToolPlace) place = { NULL };
  g_autofree char *id = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GError) error = NULL;

  if (!read_side (options->conflicts, &side) ||
      !wb_tool_place_open (&place, options, options->arguments[2]))
    return WB_TOOL_FAILED;
  id = wb_tool_find_published (place.office, place.server, place.secret,
                               options->arguments[1]);
  if (id == NULL)
    return WB_TOOL_FAILED;

  job = wb_office_fetch (place.office, place.server->id, place.secret, id, side, NULL, NULL,
                         &error);
  if (job == NULL)
    {
      wb_tool_fail (options->arguments[1], error);
      wb_tool_complain (_("The book was not changed."));
      return WB_TOOL_FAILED;
    }
  /* Translators: the number of a job, and the name of a server. */
  wb_tool_print_line (_("Job %s is in the book as it is on “%s”.\n"), wb_tool_number_of (job),
                      place.server->name);
  return WB_TOOL_DONE;
}

/* Tells how the checked job stands to the one in the book, if that has it. */
static int
tell_state (const WbToolPlace *place,
            const char        *id)
{
  g_autoptr (WbJob) job = wb_office_load_job (place->office, id, NULL, NULL);
  g_autoptr (WbPublishStatus) status = NULL;
  g_autoptr (GError) error = NULL;

  if (job == NULL)
    {
      wb_tool_print_line (_("The book does not have the job.\n"));
      return WB_TOOL_DONE;
    }
  status = wb_office_publish_status (place->office, place->server->id, place->secret, id, NULL,
                                     &error);
  if (status == NULL)
    return wb_tool_fail (wb_tool_number_of (job), error);
  if (status->state == WB_PUBLISH_SAME)
    wb_tool_print_line (_("The book has the same job, by its hash.\n"));
  else
    /* Translators: how the job in the book stands to the one on the server, in a few words. */
    wb_tool_print_line (_("The book has another state of the job: %s.\n"),
                        wb_words_enum (&wb_publish_states, (int) status->state));
  return WB_TOOL_DONE;
}

int
wb_tool_job_verify (const WbToolOptions *options)
{
  g_auto (WbToolPlace) place = { NULL };
  g_autofree char *id = NULL;
  g_autoptr (GPtrArray) faults = NULL;
  g_autoptr (GError) error = NULL;
  guint n_files = 0;

  if (!wb_tool_place_open (&place, options, options->arguments[2]))
    return WB_TOOL_FAILED;
  id = wb_tool_find_published (place.office, place.server, place.secret,
                               options->arguments[1]);
  if (id == NULL)
    return WB_TOOL_FAILED;

  faults = wb_office_verify_published (place.office, place.server->id, place.secret, id, &n_files,
                                       NULL, NULL, &error);
  if (faults == NULL)
    return wb_tool_fail (options->arguments[1], error);
  for (guint i = 0; i < faults->len; i++)
    wb_tool_complain ("%s", (const char *) g_ptr_array_index (faults, i));
  if (faults->len > 0)
    return WB_TOOL_FAILED;
  wb_tool_print_line (ngettext ("%u file, whole and unchanged.\n",
                                "%u files, all whole and unchanged.\n", n_files), n_files);
  return tell_state (&place, id);
}

static const char *
or_empty (const char *text)
{
  return text != NULL ? text : "";
}

static void
print_jobs (GPtrArray *jobs)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("llllll");
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < jobs->len; i++)
    {
      const WbPublishedJob *job = g_ptr_array_index (jobs, i);

      if (job->fault != NULL)
        wb_tool_complain ("%s: %s", job->id, job->fault);
      else
        wb_text_table_add_row (table, job->number != NULL ? job->number : job->id,
                               or_empty (job->shipper), or_empty (job->from_city),
                               or_empty (job->to_city), job->at, job->by);
    }
  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
print_jobs_json (GPtrArray *jobs)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < jobs->len; i++)
    {
      const WbPublishedJob *job = g_ptr_array_index (jobs, i);

      json_builder_begin_object (builder);
      wb_tool_json_add_text (builder, "id", job->id);
      wb_tool_json_add_text (builder, "number", job->number);
      wb_tool_json_add_text (builder, "shipper", job->shipper);
      wb_tool_json_add_text (builder, "from_city", job->from_city);
      wb_tool_json_add_text (builder, "to_city", job->to_city);
      wb_tool_json_add_text (builder, "pickup", job->pickup);
      wb_tool_json_add_text (builder, "stage", job->stage);
      wb_tool_json_add_text (builder, "at", job->at);
      wb_tool_json_add_text (builder, "by", job->by);
      wb_tool_json_add_text (builder, "desk", job->desk);
      wb_tool_json_add_text (builder, "fault", job->fault);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
}

int
wb_tool_server_jobs (const WbToolOptions *options)
{
  g_auto (WbToolPlace) place = { NULL };
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GError) error = NULL;

  if (!wb_tool_place_open (&place, options, options->arguments[1]))
    return WB_TOOL_FAILED;
  jobs = wb_office_list_published (place.office, place.server->id, place.secret, options->find,
                                   NULL, &error);
  if (jobs == NULL)
    return wb_tool_fail (place.server->name, error);
  if (options->json)
    print_jobs_json (jobs);
  else
    print_jobs (jobs);
  return WB_TOOL_DONE;
}
