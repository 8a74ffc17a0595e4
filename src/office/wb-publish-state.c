/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a job in the book stands to the one on a server: told from the versions that the book has seen,
 * the document that both had then, and what is here and there now. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-publish-private.h"

#include "office/wb-job-document.h"
#include "share/wb-share.h"
#include "store/wb-server-store.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>

static const WbEnumValue state_values[] = {
  { WB_PUBLISH_NEVER, "never", N_("Never published") },
  { WB_PUBLISH_SAME, "same", N_("As published") },
  { WB_PUBLISH_CHANGED_HERE, "changed-here", N_("Changed here since it was published") },
  { WB_PUBLISH_CHANGED_THERE, "changed-there", N_("Changed on the server") },
  { WB_PUBLISH_CHANGED_BOTH, "changed-both", N_("Changed here and on the server") },
};

const WbEnum wb_publish_states = { "state", state_values, G_N_ELEMENTS (state_values) };

void
wb_publish_status_free (WbPublishStatus *self)
{
  if (self == NULL)
    return;

  g_free (self->at);
  g_free (self->by);
  g_free (self->desk);
  g_free (self);
}

/* --- a server --------------------------------------------------------------------------------- */

void
wb_share_link_close (WbShareLink *self)
{
  if (self == NULL)
    return;

  g_clear_pointer (&self->there, wb_depot_job_free);
  g_clear_pointer (&self->seen, wb_publication_free);
  g_clear_pointer (&self->mine, wb_job_unref);
  g_clear_pointer (&self->depot, wb_depot_free);
  g_clear_pointer (&self->remote, wb_remote_close);
  g_clear_pointer (&self->server, wb_server_free);
  g_free (self->document);
  g_free (self->hash);
  g_free (self);
}

WbShareLink *
wb_share_link_open (WbOffice      *office,
                    const char    *server_id,
                    WbSecret      *secret,
                    GCancellable  *cancellable,
                    GError       **error)
{
  g_autoptr (WbShareLink) self = g_new0 (WbShareLink, 1);
  g_autofree char *name = g_strconcat (server_id, ".json", NULL);
  g_autofree char *folder = g_build_filename (g_get_user_cache_dir (), "wainbook", "published", NULL);
  g_autofree char *cache = g_build_filename (folder, name, NULL);

  self->office = office;
  self->server = wb_book_load_server (wb_office_get_book (office), server_id, cancellable, error);
  if (self->server == NULL)
    return NULL;
  self->remote = wb_share_open (self->server, secret, NULL, cancellable, error);
  if (self->remote == NULL)
    return NULL;

  (void) g_mkdir_with_parents (folder, 0700);
  self->depot = wb_depot_new (self->remote, cache, server_id);
  return g_steal_pointer (&self);
}

char *
wb_share_link_now (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  return g_date_time_format (now, "%Y-%m-%dT%H:%M:%SZ");
}

/* --- one job ---------------------------------------------------------------------------------- */

gboolean
wb_share_link_look_here (WbShareLink   *self,
                         const char    *job_id,
                         GCancellable  *cancellable,
                         GError       **error)
{
  GError *fault = NULL;

  g_clear_pointer (&self->mine, wb_job_unref);
  g_clear_pointer (&self->document, g_free);
  g_clear_pointer (&self->hash, g_free);
  g_clear_pointer (&self->seen, wb_publication_free);
  self->mine = wb_office_load_job (self->office, job_id, cancellable, &fault);
  if (g_error_matches (fault, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
    {
      g_error_free (fault);
      return TRUE;
    }
  if (self->mine == NULL)
    {
      g_propagate_error (error, fault);
      return FALSE;
    }

  self->document = wb_job_document_write (self->mine);
  self->hash = g_compute_checksum_for_string (G_CHECKSUM_SHA256, self->document, -1);
  return wb_book_load_publication (wb_office_get_book (self->office), job_id, self->server->id,
                                   &self->seen, cancellable, error);
}

gboolean
wb_share_link_look (WbShareLink   *self,
                    const char    *job_id,
                    GCancellable  *cancellable,
                    GError       **error)
{
  if (!wb_share_link_look_here (self, job_id, cancellable, error))
    return FALSE;

  g_clear_pointer (&self->there, wb_depot_job_free);
  self->there = wb_depot_heads (self->depot, job_id, cancellable, error);
  return self->there != NULL;
}

static gboolean
is_seen (const WbShareLink *self,
         const WbVersion   *version)
{
  return (self->seen != NULL &&
          g_strv_contains ((const char *const *) self->seen->heads, version->sha256)) ||
         g_strcmp0 (self->hash, version->document.sha256) == 0;
}

const WbVersion *
wb_share_link_unseen (const WbShareLink *self,
                      guint             *n_others)
{
  const WbVersion *newest = NULL;
  guint n = 0;

  for (guint i = 0; i < self->there->heads->len; i++)
    {
      const WbVersion *version = g_ptr_array_index (self->there->heads, i);

      if (is_seen (self, version))
        continue;
      n++;
      if (newest == NULL || strcmp (version->at, newest->at) > 0)
        newest = version;
    }

  if (n_others != NULL)
    *n_others = n > 0 ? n - 1 : 0;
  return newest;
}

const WbVersion *
wb_share_link_newest (const WbDepotJob *there)
{
  const WbVersion *newest = NULL;

  for (guint i = 0; i < there->heads->len; i++)
    {
      const WbVersion *version = g_ptr_array_index (there->heads, i);

      if (newest == NULL || strcmp (version->at, newest->at) > 0)
        newest = version;
    }
  return newest;
}

gboolean
wb_share_link_refuse_absent (const WbShareLink  *self,
                             GError            **error)
{
  return wb_share_refuse (error, WB_SHARE_ERROR_NOT_FOUND, self->server->name,
                          "the job was never published there");
}

WbPublishState
wb_share_link_state (const WbShareLink *self)
{
  guint n_heads = self->there->heads->len;
  gboolean changed;

  if (n_heads == 0)
    return WB_PUBLISH_NEVER;

  if (n_heads == 1)
    {
      const WbVersion *only = g_ptr_array_index (self->there->heads, 0);

      if (g_strcmp0 (self->hash, only->document.sha256) == 0)
        return WB_PUBLISH_SAME;
    }

  changed = self->hash != NULL &&
            (self->seen == NULL || strcmp (self->seen->document, self->hash) != 0);
  if (wb_share_link_unseen (self, NULL) != NULL)
    return changed ? WB_PUBLISH_CHANGED_BOTH : WB_PUBLISH_CHANGED_THERE;

  /* Two versions that were both seen are still to be made one. */
  return changed || n_heads > 1 ? WB_PUBLISH_CHANGED_HERE : WB_PUBLISH_SAME;
}

WbPublishStatus *
wb_office_publish_status (WbOffice      *self,
                          const char    *server_id,
                          WbSecret      *secret,
                          const char    *job_id,
                          GCancellable  *cancellable,
                          GError       **error)
{
  g_autoptr (WbShareLink) link = NULL;
  const WbVersion *newest;
  WbPublishStatus *status;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (server_id != NULL && job_id != NULL, NULL);

  link = wb_share_link_open (self, server_id, secret, cancellable, error);
  if (link == NULL || !wb_share_link_look (link, job_id, cancellable, error))
    return NULL;

  status = g_new0 (WbPublishStatus, 1);
  status->state = wb_share_link_state (link);
  status->n_heads = link->there->heads->len;
  newest = wb_share_link_newest (link->there);
  if (newest != NULL)
    {
      status->number = newest->number;
      status->at = g_strdup (newest->at);
      status->by = g_strdup (newest->by);
      status->desk = g_strdup (newest->desk);
    }
  return status;
}
