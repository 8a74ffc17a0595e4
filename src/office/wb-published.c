/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks over what is published on a server: the list of jobs by what their versions say of
 * themselves, and whether the files of one are what they were. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-publish.h"

#include "office/wb-publish-private.h"
#include "office/wb-words.h"
#include "share/wb-share.h"

#include <glib/gi18n.h>

void
wb_published_job_free (WbPublishedJob *self)
{
  if (self == NULL)
    return;

  g_free (self->id);
  g_free (self->number);
  g_free (self->shipper);
  g_free (self->from_city);
  g_free (self->to_city);
  g_free (self->pickup);
  g_free (self->stage);
  g_free (self->at);
  g_free (self->by);
  g_free (self->desk);
  g_free (self->fault);
  g_free (self);
}

/* --- the list --------------------------------------------------------------------------------- */

static char *
told (const WbVersion *version,
      const char      *key)
{
  return g_strdup (g_hash_table_lookup (version->summary, key));
}

static WbPublishedJob *
published_of (const WbDepotJob *job)
{
  WbPublishedJob *self = g_new0 (WbPublishedJob, 1);
  const WbVersion *newest = job->error == NULL ? wb_share_link_newest (job) : NULL;

  self->id = g_strdup (job->job);
  if (job->error != NULL)
    self->fault = wb_words_error (job->error);
  if (newest == NULL)
    return self;

  self->n_heads = job->heads->len;
  self->number = told (newest, "number");
  self->shipper = told (newest, "shipper");
  self->from_city = told (newest, "from_city");
  self->to_city = told (newest, "to_city");
  self->pickup = told (newest, "pickup");
  self->stage = told (newest, "stage");
  self->at = g_strdup (newest->at);
  self->by = g_strdup (newest->by);
  self->desk = g_strdup (newest->desk);
  return self;
}

gboolean
wb_published_job_fits (const WbPublishedJob *job,
                       const char           *query)
{
  g_autofree char *text = g_strjoin (" ", job->id, job->number != NULL ? job->number : "",
                                     job->shipper != NULL ? job->shipper : "",
                                     job->from_city != NULL ? job->from_city : "",
                                     job->to_city != NULL ? job->to_city : "",
                                     job->by != NULL ? job->by : "", NULL);

  return query == NULL || *query == '\0' || g_str_match_string (query, text, TRUE);
}

GPtrArray *
wb_office_list_published (WbOffice      *self,
                          const char    *server_id,
                          WbSecret      *secret,
                          const char    *query,
                          GCancellable  *cancellable,
                          GError       **error)
{
  g_autoptr (WbShareLink) link = NULL;
  g_autoptr (GPtrArray) jobs = NULL;
  GPtrArray *found;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (server_id != NULL, NULL);

  link = wb_share_link_open (self, server_id, secret, cancellable, error);
  jobs = link != NULL ? wb_depot_list (link->depot, cancellable, error) : NULL;
  if (jobs == NULL)
    return NULL;

  found = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_published_job_free);
  for (guint i = 0; i < jobs->len; i++)
    {
      g_autoptr (WbPublishedJob) job = published_of (g_ptr_array_index (jobs, i));

      if ((job->at != NULL || job->fault != NULL) && wb_published_job_fits (job, query))
        g_ptr_array_add (found, g_steal_pointer (&job));
    }
  return found;
}

/* --- the check -------------------------------------------------------------------------------- */

typedef struct
{
  GPtrArray *faults;
  guint      n_files;
} Look;

static void
tell (const WbVersionFile *file,
      WbDepotState         state,
      gpointer             data)
{
  Look *look = data;
  const char *name = file->name != NULL ? file->name : "job.json";

  look->n_files++;
  switch (state)
    {
    case WB_DEPOT_SAME:
      break;
    case WB_DEPOT_MISSING:
      g_ptr_array_add (look->faults, g_strdup_printf (_("%s is missing."), name));
      break;
    case WB_DEPOT_ALTERED:
      g_ptr_array_add (look->faults, g_strdup_printf (_("%s was altered."), name));
      break;
    case WB_DEPOT_SIZE:
      g_ptr_array_add (look->faults, g_strdup_printf (_("%s has another size."), name));
      break;
    }
}

GPtrArray *
wb_office_verify_published (WbOffice      *self,
                            const char    *server_id,
                            WbSecret      *secret,
                            const char    *job_id,
                            guint         *n_files,
                            WbProgress    *progress,
                            GCancellable  *cancellable,
                            GError       **error)
{
  g_autoptr (GPtrArray) faults = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (WbShareLink) link = NULL;
  Look look = { faults, 0 };

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (server_id != NULL && job_id != NULL && n_files != NULL, NULL);

  link = wb_share_link_open (self, server_id, secret, cancellable, error);
  if (link == NULL || !wb_share_link_look (link, job_id, cancellable, error))
    return NULL;
  if (link->there->heads->len == 0)
    {
      wb_share_link_refuse_absent (link, error);
      return NULL;
    }

  wb_progress_begin (progress, N_("Checking what is published…"), 0, 0);
  for (guint i = 0; i < link->there->heads->len; i++)
    if (!wb_depot_verify (link->depot, g_ptr_array_index (link->there->heads, i), tell, &look,
                          progress != NULL ? wb_progress_set : NULL, progress, cancellable, error))
      return NULL;
  *n_files = look.n_files;
  return g_steal_pointer (&faults);
}
