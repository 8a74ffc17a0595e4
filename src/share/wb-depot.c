/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looking at what is published of a job: the mark of a depot, the versions and their heads. The
 * list of all jobs is made in wb-depot-list.c, publishing stands in wb-depot-publish.c, fetching in
 * wb-depot-fetch.c. */
#include "config.h"

#include "share/wb-depot-private.h"

#include "core/wb-json-check.h"
#include "share/wb-share.h"

#include <json-glib/json-glib.h>
#include <string.h>

#define MARKER_MAX_BYTES 4096

/* --- life ------------------------------------------------------------------------------------- */

WbDepot *
wb_depot_new (WbRemote   *remote,
              const char *cache,
              const char *server)
{
  WbDepot *self = g_new0 (WbDepot, 1);

  self->remote = remote;
  self->cache = wb_depot_cache_new (cache, server, wb_remote_get_address (remote));
  self->known = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                       (GDestroyNotify) wb_version_free);
  return self;
}

void
wb_depot_free (WbDepot *self)
{
  if (self == NULL)
    return;
  wb_depot_cache_free (self->cache);
  g_hash_table_unref (self->known);
  g_free (self);
}

WbDepotJob *
wb_depot_job_new (const char *id)
{
  WbDepotJob *self = g_new0 (WbDepotJob, 1);

  self->job = g_strdup (id);
  self->versions = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_version_free);
  self->heads = g_ptr_array_new ();
  return self;
}

void
wb_depot_job_free (WbDepotJob *self)
{
  if (self == NULL)
    return;
  g_free (self->job);
  g_ptr_array_unref (self->heads);
  g_ptr_array_unref (self->versions);
  g_clear_error (&self->error);
  g_free (self);
}

WbVersion *
wb_depot_copy_version (const WbVersion *version,
                       gboolean         with_files)
{
  WbVersion *copy = wb_version_new ();
  GHashTableIter iter;
  gpointer key, text;

  g_strfreev (copy->parents);
  copy->sha256 = g_strdup (version->sha256);
  copy->job = g_strdup (version->job);
  copy->number = version->number;
  copy->parents = g_strdupv (version->parents);
  copy->at = g_strdup (version->at);
  copy->by = g_strdup (version->by);
  copy->desk = g_strdup (version->desk);
  copy->document.sha256 = g_strdup (version->document.sha256);
  copy->document.size = version->document.size;
  g_hash_table_iter_init (&iter, version->summary);
  while (g_hash_table_iter_next (&iter, &key, &text))
    g_hash_table_insert (copy->summary, g_strdup (key), g_strdup (text));
  if (!with_files || version->files == NULL)
    {
      g_clear_pointer (&copy->files, g_ptr_array_unref);
      return copy;
    }
  for (guint i = 0; i < version->files->len; i++)
    {
      const WbVersionFile *file = g_ptr_array_index (version->files, i);

      g_ptr_array_add (copy->files, wb_version_file_new (file->name, file->sha256, file->size));
    }
  return copy;
}

gint64
wb_depot_total_size (const WbVersion *version)
{
  gint64 total = version->document.size;

  for (guint i = 0; i < version->files->len; i++)
    total += ((const WbVersionFile *) g_ptr_array_index (version->files, i))->size;
  return total;
}

char *
wb_depot_object_path (const char *sha256)
{
  return g_strdup_printf ("objects/%.2s/%s", sha256, sha256);
}

/* --- small files ------------------------------------------------------------------------------ */

typedef struct
{
  GByteArray *bytes;
  const char *path;
  gsize       most;
} Gather;

static gboolean
gather (const guint8  *bytes,
        gsize          length,
        gpointer       data,
        GError       **error)
{
  Gather *self = data;

  if (length > self->most - self->bytes->len)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, self->path,
                            "it has more than %" G_GSIZE_FORMAT " bytes", self->most);
  g_byte_array_append (self->bytes, bytes, (guint) length);
  return TRUE;
}

GBytes *
wb_depot_read_small (WbDepot       *self,
                     const char    *path,
                     gsize          most,
                     GCancellable  *cancellable,
                     GError       **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  Gather state = { bytes, path, most };

  if (!wb_remote_get (self->remote, path, 0, gather, &state, NULL, NULL, cancellable, error))
    return NULL;
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}

/* --- the marker ------------------------------------------------------------------------------- */

static gboolean
check_marker_text (GBytes  *bytes,
                   GError **error)
{
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();
  gsize length;
  const char *text = g_bytes_get_data (bytes, &length);
  JsonNode *root = NULL, *format = NULL, *version = NULL;

  if (text != NULL && wb_json_check (text, (gssize) length, NULL) &&
      json_parser_load_from_data (parser, text, (gssize) length, NULL))
    root = json_parser_get_root (parser);
  if (root != NULL && JSON_NODE_HOLDS_OBJECT (root))
    {
      format = json_object_get_member (json_node_get_object (root), "format");
      version = json_object_get_member (json_node_get_object (root), "version");
    }
  if (format == NULL || !JSON_NODE_HOLDS_VALUE (format) ||
      g_strcmp0 (json_node_get_string (format), WB_DEPOT_FORMAT) != 0 || version == NULL ||
      !JSON_NODE_HOLDS_VALUE (version) || json_node_get_value_type (version) != G_TYPE_INT64 ||
      json_node_get_int (version) < 1)
    return wb_share_refuse (error, WB_SHARE_ERROR_FORMAT, WB_DEPOT_MARKER,
                            "it does not say that published jobs lie here");
  return json_node_get_int (version) == WB_DEPOT_VERSION ||
         wb_share_refuse (error, WB_SHARE_ERROR_FORMAT, WB_DEPOT_MARKER,
                          "the jobs here were published by a newer version of Wainbook");
}

/* Half written, by a server that does not keep to putting files in their place whole. */
static gboolean
is_half_a_marker (GBytes *bytes)
{
  gsize length;
  const char *text = g_bytes_get_data (bytes, &length);

  return length < strlen (WB_DEPOT_MARK) - 1 &&
         (length == 0 || memcmp (text, WB_DEPOT_MARK, length) == 0);
}

gboolean
wb_depot_check_marker (WbDepot       *self,
                       gboolean      *found,
                       GCancellable  *cancellable,
                       GError       **error)
{
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) fault = NULL;

  *found = TRUE;
  if (self->marked)
    return TRUE;
  bytes = wb_depot_read_small (self, WB_DEPOT_MARKER, MARKER_MAX_BYTES, cancellable, &fault);
  if (bytes == NULL)
    {
      *found = FALSE;
      if (g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND))
        return TRUE;
      if (g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_LIMIT))
        fault->code = WB_SHARE_ERROR_FORMAT;
      g_propagate_error (error, g_steal_pointer (&fault));
      return FALSE;
    }
  *found = !is_half_a_marker (bytes);
  if (!*found)
    return TRUE;
  self->marked = check_marker_text (bytes, error);
  return self->marked;
}

/* --- versions --------------------------------------------------------------------------------- */

/* Whether a version that could not be had is merely no version, and the rest can be looked at. */
static gboolean
is_broken (const GError *error)
{
  return error->domain == WB_SHARE_ERROR &&
         (error->code == WB_SHARE_ERROR_STRANGER || error->code == WB_SHARE_ERROR_NAME ||
          error->code == WB_SHARE_ERROR_CLASH || error->code == WB_SHARE_ERROR_LIMIT ||
          error->code == WB_SHARE_ERROR_ALTERED || error->code == WB_SHARE_ERROR_NOT_FOUND);
}

static WbVersion *
read_version (WbDepot       *self,
              const char    *job,
              const char    *name,
              gint64         number,
              const char    *sha256,
              GCancellable  *cancellable,
              GError       **error)
{
  g_autofree char *path = g_strdup_printf ("jobs/%s/%s", job, name);
  g_autoptr (GBytes) bytes = wb_depot_read_small (self, path, WB_VERSION_MAX_BYTES, cancellable,
                                                  error);
  g_autofree char *digest = NULL;
  g_autoptr (WbVersion) version = NULL;

  if (bytes == NULL)
    return NULL;
  digest = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  if (strcmp (digest, sha256) != 0)
    {
      wb_share_refuse (error, WB_SHARE_ERROR_ALTERED, path, "it is not what its name says");
      return NULL;
    }
  version = wb_version_read (path, bytes, error);
  if (version == NULL)
    return NULL;
  if (version->number != number || strcmp (version->job, job) != 0)
    {
      wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, path,
                       "it is of another job or has another number");
      return NULL;
    }
  return g_steal_pointer (&version);
}

/* Returns: (transfer none) (nullable): a version, read once. */
static const WbVersion *
know_version (WbDepot       *self,
              const char    *job,
              const char    *name,
              gint64         number,
              const char    *sha256,
              GCancellable  *cancellable,
              GError       **error)
{
  WbVersion *version = g_hash_table_lookup (self->known, sha256);

  if (version != NULL && strcmp (version->job, job) == 0 && version->number == number)
    return version;
  version = read_version (self, job, name, number, sha256, cancellable, error);
  if (version == NULL)
    return NULL;
  g_hash_table_replace (self->known, version->sha256, version);
  wb_depot_cache_add (self->cache, version);
  return version;
}

static gboolean
add_version (WbDepot              *self,
             WbDepotJob           *job,
             const WbRemoteEntry  *entry,
             GCancellable         *cancellable,
             GError              **error)
{
  g_autofree char *sha256 = NULL;
  g_autoptr (GError) fault = NULL;
  const WbVersion *version;
  gint64 number;

  if (entry->is_folder || !wb_version_file_name_read (entry->name, &number, &sha256))
    return TRUE;
  if (job->versions->len >= WB_DEPOT_MAX_VERSIONS)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, job->job,
                            "the job has more than %d versions", WB_DEPOT_MAX_VERSIONS);

  version = wb_depot_cache_find (self->cache, sha256);
  if (version == NULL || strcmp (version->job, job->job) != 0 || version->number != number)
    version = know_version (self, job->job, entry->name, number, sha256, cancellable, &fault);
  if (version != NULL)
    {
      g_ptr_array_add (job->versions, wb_depot_copy_version (version, FALSE));
      return TRUE;
    }
  if (!is_broken (fault))
    {
      g_propagate_error (error, g_steal_pointer (&fault));
      return FALSE;
    }
  job->n_broken++;
  return TRUE;
}

/* --- heads ------------------------------------------------------------------------------------ */

static gint
compare_versions (gconstpointer a,
                  gconstpointer b)
{
  const WbVersion *left = *(const WbVersion *const *) a;
  const WbVersion *right = *(const WbVersion *const *) b;

  if (left->number != right->number)
    return left->number < right->number ? -1 : 1;
  return strcmp (left->sha256, right->sha256);
}

/* A version whose number is not above that of each of its parents is a lie, and takes nobody's
 * place. Versions come by number, so that its parents were judged before; and since numbers rise,
 * nothing can be its own ancestor. */
void
wb_depot_find_heads (WbDepotJob *job)
{
  g_autoptr (GHashTable) whole = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) replaced = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) later = g_hash_table_new (g_str_hash, g_str_equal);

  g_ptr_array_sort (job->versions, compare_versions);
  for (guint i = 0; i < job->versions->len; i++)
    {
      const WbVersion *version = g_ptr_array_index (job->versions, i);

      g_hash_table_add (later, version->sha256);
    }
  for (guint i = 0; i < job->versions->len; )
    {
      const WbVersion *version = g_ptr_array_index (job->versions, i);
      gboolean good = TRUE;

      for (gsize k = 0; version->parents[k] != NULL; k++)
        {
          const WbVersion *parent = g_hash_table_lookup (whole, version->parents[k]);

          if (parent != NULL ? parent->number >= version->number
                             : g_hash_table_contains (later, version->parents[k]))
            good = FALSE;
        }
      if (!good)
        {
          g_hash_table_remove (later, version->sha256);
          g_ptr_array_remove_index (job->versions, i);
          job->n_broken++;
          continue;
        }
      g_hash_table_insert (whole, version->sha256, (gpointer) version);
      for (gsize k = 0; version->parents[k] != NULL; k++)
        g_hash_table_add (replaced, version->parents[k]);
      i++;
    }
  for (guint i = 0; i < job->versions->len; i++)
    {
      WbVersion *version = g_ptr_array_index (job->versions, i);

      if (!g_hash_table_contains (replaced, version->sha256))
        g_ptr_array_add (job->heads, version);
    }
}

gboolean
wb_depot_look_into (WbDepot       *self,
                    WbDepotJob    *job,
                    GCancellable  *cancellable,
                    GError       **error)
{
  g_autofree char *folder = g_strdup_printf ("jobs/%s", job->job);
  g_autoptr (GError) fault = NULL;
  g_autoptr (GPtrArray) entries = wb_remote_list (self->remote, folder, cancellable, &fault);

  if (entries == NULL)
    {
      return wb_share_is_absent (g_steal_pointer (&fault), error);
    }
  for (guint i = 0; i < entries->len; i++)
    if (!add_version (self, job, g_ptr_array_index (entries, i), cancellable, error))
      return FALSE;
  wb_depot_find_heads (job);
  return TRUE;
}

/* Gives a head, which may come from the cache, its files. @broken: (out): it is no version any
 * more. */
static gboolean
complete_head (WbDepot       *self,
               WbVersion     *head,
               gboolean      *broken,
               GCancellable  *cancellable,
               GError       **error)
{
  g_autofree char *name = wb_version_file_name (head->number, head->sha256);
  g_autoptr (GError) fault = NULL;
  const WbVersion *whole = know_version (self, head->job, name, head->number, head->sha256,
                                         cancellable, &fault);

  if (whole == NULL)
    {
      *broken = is_broken (fault);
      if (*broken)
        wb_depot_cache_forget (self->cache, head->sha256);
      else
        g_propagate_error (error, g_steal_pointer (&fault));
      return *broken;
    }
  head->files = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_version_file_free);
  for (guint i = 0; i < whole->files->len; i++)
    {
      const WbVersionFile *file = g_ptr_array_index (whole->files, i);

      g_ptr_array_add (head->files, wb_version_file_new (file->name, file->sha256, file->size));
    }
  return TRUE;
}

/* Each time that a head from the cache turns out to be broken there is one less in it. */
static WbDepotJob *
look_for_heads (WbDepot       *self,
                const char    *id,
                GCancellable  *cancellable,
                GError       **error)
{
  for (;;)
    {
      g_autoptr (WbDepotJob) job = wb_depot_job_new (id);
      gboolean broken = FALSE;

      if (!wb_depot_look_into (self, job, cancellable, error))
        return NULL;
      for (guint i = 0; !broken && i < job->heads->len; i++)
        if (!complete_head (self, g_ptr_array_index (job->heads, i), &broken, cancellable, error))
          return NULL;
      if (!broken)
        return g_steal_pointer (&job);
    }
}

WbDepotJob *
wb_depot_look (WbDepot       *self,
               const char    *id,
               GCancellable  *cancellable,
               GError       **error)
{
  gboolean found;

  if (!wb_version_is_job (id))
    {
      wb_share_refuse (error, WB_SHARE_ERROR_NAME, id,
                       "this cannot be the id of a job on a server");
      return NULL;
    }
  if (!wb_depot_check_marker (self, &found, cancellable, error))
    return NULL;
  return found ? look_for_heads (self, id, cancellable, error) : wb_depot_job_new (id);
}

WbDepotJob *
wb_depot_heads (WbDepot       *self,
                const char    *id,
                GCancellable  *cancellable,
                GError       **error)
{
  WbDepotJob *job = wb_depot_look (self, id, cancellable, error);

  wb_depot_cache_save (self->cache);
  return job;
}
