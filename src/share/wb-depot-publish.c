/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Putting a version on a server: first everything that it names, its own file last. Each step can
 * be done again, so that a publishing that was cut off anywhere is completed by doing all of it
 * once more. What of it is there already is found in wb-depot-send.c. */
#include "config.h"

#include "share/wb-depot-private.h"

#include "share/wb-share.h"

#include <string.h>

typedef struct
{
  WbDepot            *depot;
  const WbDepotDraft *draft;
  WbVersion          *version;
  WbDepotSending     *sending;
  GCancellable       *cancellable;
} Publish;

WbDepotItem *
wb_depot_item_new (const char *name,
                   const char *file,
                   const char *sha256,
                   gint64      size)
{
  WbDepotItem *self = g_new0 (WbDepotItem, 1);

  self->name = g_strdup (name);
  self->file = g_strdup (file);
  self->sha256 = g_strdup (sha256);
  self->size = size;
  return self;
}

void
wb_depot_item_free (WbDepotItem *self)
{
  if (self == NULL)
    return;
  g_free (self->name);
  g_free (self->file);
  g_free (self->sha256);
  g_free (self);
}

/* --- the version ------------------------------------------------------------------------------ */

static gint
compare_texts (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* Returns: (transfer full): @texts sorted, each once. */
static GStrv
sorted (const char *const *texts)
{
  g_autoptr (GPtrArray) all = g_ptr_array_new ();
  GPtrArray *out = g_ptr_array_new ();

  for (gsize i = 0; texts != NULL && texts[i] != NULL; i++)
    g_ptr_array_add (all, (gpointer) texts[i]);
  g_ptr_array_sort (all, compare_texts);
  for (guint i = 0; i < all->len; i++)
    if (i == 0 || strcmp (g_ptr_array_index (all, i - 1), g_ptr_array_index (all, i)) != 0)
      g_ptr_array_add (out, g_strdup (g_ptr_array_index (all, i)));
  g_ptr_array_add (out, NULL);
  return (GStrv) g_ptr_array_free (out, FALSE);
}

/* One more than the highest of the parents that are there. */
static gint64
next_number (const WbVersion  *version,
             const WbDepotJob *job)
{
  gint64 highest = g_strv_length (version->parents) > 0 ? 1 : 0;

  for (guint i = 0; i < job->versions->len; i++)
    {
      const WbVersion *other = g_ptr_array_index (job->versions, i);

      if (g_strv_contains ((const char *const *) version->parents, other->sha256))
        highest = MAX (highest, other->number);
    }
  return highest + 1;
}

/* Everything but the number, which depends on what is published already. */
static WbVersion *
make_version (const WbDepotDraft *draft)
{
  WbVersion *version = wb_version_new ();
  GHashTableIter iter;
  gpointer key, text;

  g_strfreev (version->parents);
  version->parents = sorted (draft->parents);
  version->job = g_strdup (draft->job);
  version->at = g_strdup (draft->at);
  version->by = g_strdup (draft->by);
  version->desk = g_strdup (draft->desk);
  version->document.sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, draft->document);
  version->document.size = (gint64) g_bytes_get_size (draft->document);
  for (guint i = 0; draft->items != NULL && i < draft->items->len; i++)
    {
      const WbDepotItem *item = g_ptr_array_index (draft->items, i);

      g_ptr_array_add (version->files, wb_version_file_new (item->name, item->sha256, item->size));
    }
  if (draft->summary == NULL)
    return version;
  g_hash_table_iter_init (&iter, draft->summary);
  while (g_hash_table_iter_next (&iter, &key, &text))
    g_hash_table_insert (version->summary, g_strdup (key), g_strdup (text));
  return version;
}

/* --- the mark --------------------------------------------------------------------------------- */

static gboolean
put_bytes (Publish     *self,
           const char  *path,
           GBytes      *bytes,
           GError     **error)
{
  g_autofree char *sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  WbRemoteSource source = { bytes, NULL, (gint64) g_bytes_get_size (bytes), sha256 };

  return wb_remote_put (self->depot->remote, path, &source, NULL, NULL, self->cancellable, error);
}

/* Puts a file that may be there. @there: (out): it was. */
static gboolean
put_unless_there (Publish     *self,
                  const char  *path,
                  GBytes      *bytes,
                  gboolean    *there,
                  GError     **error)
{
  g_autoptr (GError) fault = NULL;

  *there = FALSE;
  if (put_bytes (self, path, bytes, &fault))
    return TRUE;
  *there = g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_EXISTS);
  if (!*there)
    g_propagate_error (error, g_steal_pointer (&fault));
  return *there;
}

/* Somebody else may make the depot in the same moment. Half a mark is taken away: it is nobody's.
 * */
static gboolean
mark_depot (Publish  *self,
            GError  **error)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (WB_DEPOT_MARK, strlen (WB_DEPOT_MARK));
  gboolean found, there;

  if (!wb_depot_check_marker (self->depot, &found, self->cancellable, error))
    return FALSE;
  for (guint attempt = 0; !found && attempt < 2; attempt++)
    {
      if (!put_unless_there (self, WB_DEPOT_MARKER, bytes, &there, error) ||
          !wb_depot_check_marker (self->depot, &found, self->cancellable, error))
        return FALSE;
      if (!found && there && !wb_depot_remove_damaged (self->depot, WB_DEPOT_MARKER, self->cancellable, error))
        return FALSE;
    }
  return found || wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, WB_DEPOT_MARKER,
                                   "it was put on the server and is not there");
}

/* --- objects ---------------------------------------------------------------------------------- */

static gboolean
put_objects (Publish  *self,
             GError  **error)
{
  WbRemoteSource document = { self->draft->document, NULL, self->version->document.size,
                              self->version->document.sha256 };

  for (guint i = 0; self->draft->items != NULL && i < self->draft->items->len; i++)
    {
      const WbDepotItem *item = g_ptr_array_index (self->draft->items, i);
      WbRemoteSource source = { NULL, item->file, item->size, item->sha256 };

      if (!wb_depot_send (self->sending, &source, error))
        return FALSE;
    }
  return wb_depot_send (self->sending, &document, error);
}

/* --- heads ------------------------------------------------------------------------------------ */

static gboolean
heads_are (const WbDepotJob  *job,
           const char *const *hashes)
{
  if (job->heads->len != g_strv_length ((char **) hashes))
    return FALSE;
  for (guint i = 0; i < job->heads->len; i++)
    if (!g_strv_contains (hashes, ((WbVersion *) g_ptr_array_index (job->heads, i))->sha256))
      return FALSE;
  return TRUE;
}

static gboolean
stands (const WbDepotJob *job,
        const char       *sha256)
{
  for (guint i = 0; i < job->versions->len; i++)
    if (strcmp (((WbVersion *) g_ptr_array_index (job->versions, i))->sha256, sha256) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
say_changed (const WbDepotJob  *job,
             GError           **error)
{
  const WbVersion *head = job->heads->len > 0 ? g_ptr_array_index (job->heads, 0) : NULL;

  return wb_share_refuse (error, WB_SHARE_ERROR_CHANGED, job->job,
                          "published meanwhile by %s at %s", head != NULL ? head->by : "nobody",
                          head != NULL ? head->at : "no time");
}

/* What the version is worth once it stands. */
static gboolean
judge_standing (Publish           *self,
                const WbDepotJob  *job,
                char             **sha256,
                GError           **error)
{
  const char *own[] = { self->version->sha256, NULL };

  if (sha256 != NULL)
    *sha256 = g_strdup (self->version->sha256);
  if (heads_are (job, own))
    return TRUE;
  for (guint i = 0; i < job->heads->len; i++)
    {
      const WbVersion *head = g_ptr_array_index (job->heads, i);

      if (strcmp (head->sha256, self->version->sha256) != 0)
        return wb_share_refuse (error, WB_SHARE_ERROR_CHANGED, job->job,
                                "published as well by %s at %s", head->by, head->at);
    }
  g_assert_not_reached ();
}

/* --- all of it -------------------------------------------------------------------------------- */

/* Puts the file of the version, and looks what came of it. What lies under its name and is
 * something else is half of it, from a server that does not keep to putting files in their place
 * whole. */
static gboolean
put_version (Publish   *self,
             GBytes    *bytes,
             char     **sha256,
             GError   **error)
{
  g_autofree char *name = wb_version_file_name (self->version->number, self->version->sha256);
  g_autofree char *path = g_strdup_printf ("jobs/%s/%s", self->version->job, name);

  for (guint attempt = 0; attempt < 2; attempt++)
    {
      g_autoptr (WbDepotJob) after = NULL;
      gboolean there;

      if (!put_unless_there (self, path, bytes, &there, error))
        return FALSE;
      after = wb_depot_look (self->depot, self->version->job, self->cancellable, error);
      if (after == NULL)
        return FALSE;
      if (stands (after, self->version->sha256))
        {
          wb_depot_cache_set_complete (self->depot->cache, self->version->sha256, self->sending->since);
          return judge_standing (self, after, sha256, error);
        }
      if (!there)
        break;
      if (!wb_depot_remove_damaged (self->depot, path, self->cancellable, error))
        return FALSE;
    }
  return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, path,
                          "it was put on the server and is not there whole");
}

static gboolean
publish (Publish   *self,
         char     **sha256,
         GError   **error)
{
  const char *const *parents = (const char *const *) self->version->parents;
  g_autoptr (WbDepotJob) before = NULL;
  g_autoptr (WbDepotJob) sent = NULL;
  g_autoptr (GBytes) bytes = NULL;

  if (!mark_depot (self, error))
    return FALSE;
  before = wb_depot_look (self->depot, self->version->job, self->cancellable, error);
  if (before == NULL)
    return FALSE;
  self->version->number = next_number (self->version, before);
  if (!wb_version_check (self->version, error))
    return FALSE;
  bytes = wb_version_write (self->version);
  if (stands (before, self->version->sha256))
    return judge_standing (self, before, sha256, error);
  if (!heads_are (before, parents))
    return say_changed (before, error);

  wb_depot_sending_trust (self->sending, before);
  if (!put_objects (self, error))
    return FALSE;
  /* Sending may have taken hours. */
  sent = wb_depot_look (self->depot, self->version->job, self->cancellable, error);
  if (sent == NULL)
    return FALSE;
  if (!heads_are (sent, parents))
    return say_changed (sent, error);
  return put_version (self, bytes, sha256, error);
}

gboolean
wb_depot_publish (WbDepot               *depot,
                  const WbDepotDraft    *draft,
                  WbRemoteProgressFunc   progress,
                  gpointer               progress_data,
                  char                 **sha256,
                  GCancellable          *cancellable,
                  GError               **error)
{
  g_autoptr (WbVersion) version = make_version (draft);
  g_autoptr (GHashTable) trusted = g_hash_table_new (g_str_hash, g_str_equal);
  WbDepotSending sending = { depot, trusted, 0, FALSE, progress, progress_data, 0, 0, cancellable };
  Publish self = { depot, draft, version, &sending, cancellable };
  gboolean done;

  if (sha256 != NULL)
    *sha256 = NULL;
  /* A number that any version may have, until the right one is known. */
  version->number = WB_VERSION_MAX_NUMBER;
  if (!wb_version_check (version, error))
    return FALSE;
  sending.total = wb_depot_total_size (version);
  done = publish (&self, sha256, error);
  wb_depot_cache_save (depot->cache);
  return done;
}
