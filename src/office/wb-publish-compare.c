/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Compares a job in the book with the one on a server, stores what somebody made of both, and reads
 * a published job without taking it in. How a version is fetched and judged stands in
 * wb-publish-fetch.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-publish-compare.h"

#include "core/wb-core.h"
#include "core/wb-json-check.h"
#include "office/wb-job-document.h"
#include "office/wb-publish-private.h"
#include "share/wb-share.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

struct _WbComparison
{
  gatomicrefcount  references;
  char            *server_id;
  WbDepotJob      *there;
  char            *sha256;     /* of the version that was compared */
  char            *document;   /* of theirs */
  guint            n_others;
  WbJob           *base;
  WbJob           *mine;
  WbJob           *theirs;
  WbMerge         *merge;
};

WbComparison *
wb_comparison_ref (WbComparison *self)
{
  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_comparison_unref (WbComparison *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->references))
    return;

  g_clear_pointer (&self->merge, wb_merge_free);
  g_clear_pointer (&self->base, wb_job_unref);
  g_clear_pointer (&self->mine, wb_job_unref);
  g_clear_pointer (&self->theirs, wb_job_unref);
  g_clear_pointer (&self->there, wb_depot_job_free);
  g_free (self->server_id);
  g_free (self->sha256);
  g_free (self->document);
  g_free (self);
}

static const WbVersion *
version_of (const WbComparison *self)
{
  for (guint i = 0; i < self->there->heads->len; i++)
    {
      const WbVersion *version = g_ptr_array_index (self->there->heads, i);

      if (strcmp (version->sha256, self->sha256) == 0)
        return version;
    }
  g_assert_not_reached ();
}

WbMerge *
wb_comparison_get_merge (WbComparison *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->merge;
}

WbJob *
wb_comparison_get_base (WbComparison *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->base;
}

WbJob *
wb_comparison_get_mine (WbComparison *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->mine;
}

WbJob *
wb_comparison_get_theirs (WbComparison *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->theirs;
}

const char *
wb_comparison_get_server (WbComparison *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->server_id;
}

const char *
wb_comparison_get_at (WbComparison *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return version_of (self)->at;
}

const char *
wb_comparison_get_by (WbComparison *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return version_of (self)->by;
}

const char *
wb_comparison_get_desk (WbComparison *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return version_of (self)->desk;
}

guint
wb_comparison_get_n_others (WbComparison *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->n_others;
}

/* --- a document alone ------------------------------------------------------------------------- */

static WbJob *
read_job (const WbShareLink  *link,
          const WbVersion    *version,
          const char         *path,
          char              **document,
          GError            **error)
{
  g_autofree char *text = NULL;
  g_autoptr (WbJob) job = NULL;
  gsize length;

  if (!g_file_get_contents (path, &text, &length, error))
    return NULL;
  job = wb_job_document_read (text, (gssize) length, error);
  if (job == NULL)
    {
      g_prefix_error (error, "%s: ", link->server->name);
      return NULL;
    }
  if (strcmp (wb_job_get_id (job), version->job) != 0)
    {
      wb_share_refuse (error, WB_SHARE_ERROR_FORMAT, link->server->name,
                       "what lies there as job %s is another job", version->job);
      return NULL;
    }
  if (document != NULL)
    *document = g_steal_pointer (&text);
  return g_steal_pointer (&job);
}

WbJob *
wb_share_link_fetch_document (WbShareLink      *link,
                              const WbVersion  *version,
                              char            **document,
                              WbProgress       *progress,
                              GCancellable     *cancellable,
                              GError          **error)
{
  g_autofree char *folder = NULL;
  g_autofree char *path = NULL;
  WbJob *job = NULL;

  if (version->document.size > WB_JSON_MAX_BYTES)
    {
      wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, link->server->name,
                       "the job's document has more than %d MB", WB_JSON_MAX_BYTES / (1024 * 1024));
      return NULL;
    }
  folder = g_dir_make_tmp ("wainbook-peek-XXXXXX", error);
  if (folder == NULL)
    return NULL;

  path = g_build_filename (folder, version->document.sha256, NULL);
  wb_progress_begin (progress, N_("Reading the published job…"), 0, 0);
  if (wb_depot_fetch_document (link->depot, version, folder,
                               progress != NULL ? wb_progress_set : NULL, progress, cancellable,
                               error))
    job = read_job (link, version, path, document, error);
  wb_share_remove_folder (folder);
  return job;
}

WbJob *
wb_office_peek_published (WbOffice      *self,
                          const char    *server_id,
                          WbSecret      *secret,
                          const char    *job_id,
                          WbProgress    *progress,
                          GCancellable  *cancellable,
                          GError       **error)
{
  g_autoptr (WbShareLink) link = NULL;
  const WbVersion *newest;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (server_id != NULL && job_id != NULL, NULL);

  wb_progress_begin (progress, N_("Asking the server…"), 0, 0);
  link = wb_share_link_open (self, server_id, secret, cancellable, error);
  if (link == NULL)
    return NULL;
  link->there = wb_depot_heads (link->depot, job_id, cancellable, error);
  if (link->there == NULL)
    return NULL;

  newest = wb_share_link_newest (link->there);
  if (newest == NULL)
    {
      wb_share_link_refuse_absent (link, error);
      return NULL;
    }
  return wb_share_link_fetch_document (link, newest, NULL, progress, cancellable, error);
}

/* --- comparing -------------------------------------------------------------------------------- */

/* Whether both sides have the job. */
static gboolean
check_there (const WbShareLink  *link,
             const char         *job_id,
             GError            **error)
{
  if (link->mine == NULL)
    {
      g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND, "there is no job %s", job_id);
      return FALSE;
    }
  return link->there->heads->len > 0 || wb_share_link_refuse_absent (link, error);
}

WbComparison *
wb_office_compare_published (WbOffice      *self,
                             const char    *server_id,
                             WbSecret      *secret,
                             const char    *job_id,
                             WbProgress    *progress,
                             GCancellable  *cancellable,
                             GError       **error)
{
  g_autoptr (WbShareLink) link = NULL;
  g_autoptr (WbComparison) comparison = NULL;
  g_autoptr (WbJob) base = NULL;
  const WbVersion *version;
  GError *fault = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (server_id != NULL && job_id != NULL, NULL);

  wb_progress_begin (progress, N_("Asking the server…"), 0, 0);
  link = wb_share_link_open (self, server_id, secret, cancellable, error);
  if (link == NULL || !wb_share_link_look (link, job_id, cancellable, error) ||
      !check_there (link, job_id, error))
    return NULL;

  comparison = g_new0 (WbComparison, 1);
  g_atomic_ref_count_init (&comparison->references);
  version = wb_share_link_unseen (link, &comparison->n_others);
  if (version == NULL)
    version = wb_share_link_newest (link->there);
  comparison->theirs = wb_share_link_fetch_document (link, version, &comparison->document, progress,
                                                     cancellable, error);
  if (comparison->theirs == NULL)
    return NULL;
  base = wb_share_link_load_base (link, version, cancellable, &fault);
  if (fault != NULL)
    {
      g_propagate_error (error, fault);
      return NULL;
    }
  comparison->merge = wb_merge_new (base, link->mine, comparison->theirs, error);
  if (comparison->merge == NULL)
    return NULL;

  comparison->base = g_steal_pointer (&base);
  comparison->server_id = g_strdup (server_id);
  comparison->sha256 = g_strdup (version->sha256);
  comparison->mine = wb_job_ref (link->mine);
  comparison->there = g_steal_pointer (&link->there);
  return g_steal_pointer (&comparison);
}

/* --- storing ---------------------------------------------------------------------------------- */

/* The job stays as it is here; what is noted is that the version there was seen. */
static WbJob *
keep_mine (WbShareLink         *link,
           const WbComparison  *comparison,
           GCancellable        *cancellable,
           GError             **error)
{
  const WbVersion *version = version_of (comparison);
  g_auto (GStrv) heads = wb_share_link_seen_with (link, version);
  g_autofree char *at = wb_share_link_now ();
  g_autoptr (GPtrArray) papers = g_ptr_array_new ();
  g_autoptr (GBytes) base = wb_share_link_base_after (link, comparison->document,
                                                      comparison->n_others, cancellable, error);
  const WbPublication publication = { version->job, link->server->id, heads, NULL, at };

  if (base == NULL)
    return NULL;
  return wb_book_take_published (wb_office_get_book (link->office), comparison->mine,
                                 comparison->mine, _("Kept as it is here"), papers, &publication,
                                 base, cancellable, error);
}

static WbJob *
store (WbShareLink         *link,
       const WbComparison  *comparison,
       WbMergeChoice        whole,
       WbProgress          *progress,
       GCancellable        *cancellable,
       GError             **error)
{
  const WbShareTake how = { .merge = comparison->merge, .whole = whole };

  if (!wb_share_link_look_here (link, wb_job_get_id (comparison->mine), cancellable, error))
    return NULL;
  if (link->mine == NULL ||
      wb_job_get_revision (link->mine) != wb_job_get_revision (comparison->mine))
    {
      g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT,
                   "the job was changed here after it was compared");
      return NULL;
    }

  if (whole == WB_MERGE_MINE)
    return keep_mine (link, comparison, cancellable, error);
  return wb_share_link_take (link, version_of (comparison), comparison->n_others, &how, progress,
                             cancellable, error);
}

WbJob *
wb_office_store_merged (WbOffice       *self,
                        WbComparison   *comparison,
                        WbMergeChoice   whole,
                        WbSecret       *secret,
                        WbProgress     *progress,
                        GCancellable   *cancellable,
                        GError        **error)
{
  g_autoptr (WbShareLink) link = NULL;
  WbJob *stored;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (comparison != NULL, NULL);

  if (whole == WB_MERGE_UNDECIDED && wb_merge_n_undecided (comparison->merge) > 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "what is here and what is there differ in %u places that nobody has decided on",
                   wb_merge_n_undecided (comparison->merge));
      return NULL;
    }
  link = wb_share_link_open (self, comparison->server_id, secret, cancellable, error);
  if (link == NULL)
    return NULL;

  /* Lent for as long as it takes. */
  link->there = comparison->there;
  stored = store (link, comparison, whole, progress, cancellable, error);
  link->there = NULL;
  return stored;
}
