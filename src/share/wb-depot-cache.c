/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a list of published jobs remembers between two looks at a server: versions, which never
 * change, and for folders that have been quiet for a day, which of them lie there. The file may be
 * thrown away at any time; its first line is the hash of the rest, and whatever is wrong with it,
 * it is passed over as a whole. */
#include "config.h"

#include "share/wb-depot-private.h"

#include "core/wb-json-check.h"

#include <json-glib/json-glib.h>
#include <string.h>

#define CACHE_FORMAT "wainbook-depot-cache"
#define CACHE_VERSION 1
#define HASH_LENGTH 64

/* Clocks differ, and times of change may be no finer than a second: within this time of a change,
 * in seconds, there may have been another that cannot be told from it. */
#define QUIET (24 * 60 * 60)

struct _WbDepotCache
{
  char       *path;
  char       *server;
  GHashTable *versions;   /* sha256 → WbVersion without files */
  GHashTable *folders;    /* job → Folder */
  gboolean    fresh;      /* there is something that the file has not */
};

typedef struct
{
  gint64 changed;
  GStrv  hashes;
} Folder;

static void
folder_free (gpointer data)
{
  Folder *folder = data;

  g_strfreev (folder->hashes);
  g_free (folder);
}

static void
forget_all (WbDepotCache *self)
{
  g_hash_table_remove_all (self->versions);
  g_hash_table_remove_all (self->folders);
}

/* --- reading ---------------------------------------------------------------------------------- */

/* Returns: (nullable): the text of @key, owned by the object. */
static const char *
text_of (JsonObject *object,
         const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  return node != NULL && JSON_NODE_HOLDS_VALUE (node) &&
         json_node_get_value_type (node) == G_TYPE_STRING ? json_node_get_string (node) : NULL;
}

static gint64
integer_of (JsonObject *object,
            const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  return node != NULL && JSON_NODE_HOLDS_VALUE (node) &&
         json_node_get_value_type (node) == G_TYPE_INT64 ? json_node_get_int (node) : -1;
}

static JsonNode *
part_of (JsonObject   *object,
         const char   *key,
         JsonNodeType  type)
{
  JsonNode *node = json_object_get_member (object, key);

  return node != NULL && json_node_get_node_type (node) == type ? node : NULL;
}

/* Returns: (transfer full) (nullable): an array of texts. */
static GStrv
texts_of (JsonObject *object,
          const char *key)
{
  JsonNode *node = part_of (object, key, JSON_NODE_ARRAY);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  JsonArray *array;

  if (node == NULL)
    return NULL;
  array = json_node_get_array (node);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      JsonNode *element = json_array_get_element (array, i);

      if (!JSON_NODE_HOLDS_VALUE (element) ||
          json_node_get_value_type (element) != G_TYPE_STRING)
        return NULL;
      g_ptr_array_add (texts, json_node_dup_string (element));
    }
  g_ptr_array_add (texts, NULL);
  return (GStrv) g_ptr_array_free (g_steal_pointer (&texts), FALSE);
}

static gboolean
read_summary (WbVersion  *version,
              JsonObject *object)
{
  JsonNode *node = part_of (object, "summary", JSON_NODE_OBJECT);
  JsonObjectIter iter;
  const char *key;

  if (node == NULL)
    return FALSE;
  json_object_iter_init (&iter, json_node_get_object (node));
  while (json_object_iter_next (&iter, &key, NULL))
    {
      const char *text = text_of (json_node_get_object (node), key);

      if (text == NULL)
        return FALSE;
      g_hash_table_insert (version->summary, g_strdup (key), g_strdup (text));
    }
  return TRUE;
}

static gboolean
read_version (WbDepotCache *self,
              const char   *sha256,
              JsonObject   *object)
{
  g_autoptr (WbVersion) version = wb_version_new ();
  GStrv parents = texts_of (object, "parents");

  if (parents == NULL)
    return FALSE;
  g_strfreev (version->parents);
  version->parents = parents;
  version->sha256 = g_strdup (sha256);
  version->job = g_strdup (text_of (object, "job"));
  version->number = integer_of (object, "number");
  version->at = g_strdup (text_of (object, "at"));
  version->by = g_strdup (text_of (object, "by"));
  version->desk = g_strdup (text_of (object, "desk"));
  version->document.sha256 = g_strdup (text_of (object, "document"));
  version->document.size = integer_of (object, "size");
  if (!wb_version_is_hash (sha256) || !read_summary (version, object) ||
      !wb_version_check (version, NULL))
    return FALSE;
  g_clear_pointer (&version->files, g_ptr_array_unref);
  sha256 = version->sha256;
  g_hash_table_replace (self->versions, (gpointer) sha256, g_steal_pointer (&version));
  return TRUE;
}

static gboolean
read_folder (WbDepotCache *self,
             const char   *job,
             JsonObject   *object)
{
  Folder *folder = g_new0 (Folder, 1);

  g_hash_table_insert (self->folders, g_strdup (job), folder);
  folder->changed = integer_of (object, "changed");
  folder->hashes = texts_of (object, "versions");
  if (folder->changed <= 0 || folder->hashes == NULL)
    return FALSE;
  for (gsize i = 0; folder->hashes[i] != NULL; i++)
    {
      const WbVersion *version = g_hash_table_lookup (self->versions, folder->hashes[i]);

      if (version == NULL || strcmp (version->job, job) != 0)
        return FALSE;
    }
  return TRUE;
}

typedef gboolean (*ReadFunc) (WbDepotCache *self,
                              const char   *key,
                              JsonObject   *object);

static gboolean
read_members (WbDepotCache *self,
              JsonObject   *root,
              const char   *key,
              ReadFunc      read)
{
  JsonNode *node = part_of (root, key, JSON_NODE_OBJECT);
  JsonObjectIter iter;
  const char *name;
  JsonNode *member;

  if (node == NULL)
    return FALSE;
  json_object_iter_init (&iter, json_node_get_object (node));
  while (json_object_iter_next (&iter, &name, &member))
    if (!JSON_NODE_HOLDS_OBJECT (member) || !read (self, name, json_node_get_object (member)))
      return FALSE;
  return TRUE;
}

/* Returns: (nullable): what comes after the first line, if that is its hash. */
static const char *
sealed_text (const char *text,
             gsize      *length)
{
  const char *body = text + HASH_LENGTH + 1;
  g_autofree char *hash = NULL;

  if (*length < HASH_LENGTH + 1 || text[HASH_LENGTH] != '\n')
    return NULL;
  *length -= HASH_LENGTH + 1;
  hash = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) body, *length);
  return strncmp (hash, text, HASH_LENGTH) == 0 ? body : NULL;
}

static gboolean
read_cache (WbDepotCache *self)
{
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();
  g_autofree char *content = NULL;
  const char *text;
  JsonObject *root;
  gsize length;

  if (!g_file_get_contents (self->path, &content, &length, NULL) ||
      (text = sealed_text (content, &length)) == NULL ||
      !wb_json_check (text, (gssize) length, NULL) ||
      !json_parser_load_from_data (parser, text, (gssize) length, NULL) ||
      !JSON_NODE_HOLDS_OBJECT (json_parser_get_root (parser)))
    return FALSE;
  root = json_node_get_object (json_parser_get_root (parser));
  return g_strcmp0 (text_of (root, "format"), CACHE_FORMAT) == 0 &&
         integer_of (root, "version") == CACHE_VERSION &&
         g_strcmp0 (text_of (root, "server"), self->server) == 0 &&
         read_members (self, root, "versions", read_version) &&
         read_members (self, root, "folders", read_folder);
}

WbDepotCache *
wb_depot_cache_new (const char *path,
                    const char *server)
{
  WbDepotCache *self = g_new0 (WbDepotCache, 1);

  self->path = g_strdup (path);
  self->server = g_strdup (server);
  self->versions = g_hash_table_new_full (g_str_hash, g_str_equal, NULL,
                                          (GDestroyNotify) wb_version_free);
  self->folders = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, folder_free);
  if (path != NULL && !read_cache (self))
    forget_all (self);
  return self;
}

void
wb_depot_cache_free (WbDepotCache *self)
{
  if (self == NULL)
    return;
  g_hash_table_unref (self->folders);
  g_hash_table_unref (self->versions);
  g_free (self->path);
  g_free (self->server);
  g_free (self);
}

/* --- asking and telling ----------------------------------------------------------------------- */

const WbVersion *
wb_depot_cache_find (WbDepotCache *self,
                     const char   *sha256)
{
  return g_hash_table_lookup (self->versions, sha256);
}

void
wb_depot_cache_add (WbDepotCache    *self,
                    const WbVersion *version)
{
  WbVersion *copy = wb_depot_copy_version (version, FALSE);

  g_hash_table_replace (self->versions, copy->sha256, copy);
  self->fresh = TRUE;
}

void
wb_depot_cache_forget (WbDepotCache *self,
                       const char   *sha256)
{
  WbVersion *version = g_hash_table_lookup (self->versions, sha256);

  if (version == NULL)
    return;
  g_hash_table_remove (self->folders, version->job);
  g_hash_table_remove (self->versions, sha256);
  self->fresh = TRUE;
}

const char *const *
wb_depot_cache_folder (WbDepotCache *self,
                       const char   *job,
                       gint64        changed)
{
  const Folder *folder = g_hash_table_lookup (self->folders, job);

  if (folder == NULL || changed <= 0 || folder->changed != changed)
    return NULL;
  return (const char *const *) folder->hashes;
}

void
wb_depot_cache_set_folder (WbDepotCache     *self,
                           const WbDepotJob *job,
                           gint64            changed)
{
  gint64 now = g_get_real_time () / G_USEC_PER_SEC;
  Folder *folder;

  if (changed <= 0 || changed > now - QUIET || job->n_broken > 0)
    {
      self->fresh |= g_hash_table_remove (self->folders, job->job);
      return;
    }
  folder = g_new0 (Folder, 1);
  folder->changed = changed;
  folder->hashes = g_new0 (char *, job->versions->len + 1);
  for (guint i = 0; i < job->versions->len; i++)
    folder->hashes[i] = g_strdup (((WbVersion *) g_ptr_array_index (job->versions, i))->sha256);
  g_hash_table_replace (self->folders, g_strdup (job->job), folder);
  self->fresh = TRUE;
}

/* --- writing ---------------------------------------------------------------------------------- */

static void
add_text (JsonBuilder *builder,
          const char  *key,
          const char  *text)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_string_value (builder, text);
}

static void
add_integer (JsonBuilder *builder,
             const char  *key,
             gint64       number)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_int_value (builder, number);
}

static void
add_texts (JsonBuilder        *builder,
           const char         *key,
           const char *const  *texts)
{
  json_builder_set_member_name (builder, key);
  json_builder_begin_array (builder);
  for (gsize i = 0; texts[i] != NULL; i++)
    json_builder_add_string_value (builder, texts[i]);
  json_builder_end_array (builder);
}

static void
add_version (JsonBuilder     *builder,
             const WbVersion *version)
{
  GHashTableIter iter;
  gpointer key, text;

  json_builder_set_member_name (builder, version->sha256);
  json_builder_begin_object (builder);
  add_text (builder, "job", version->job);
  add_integer (builder, "number", version->number);
  add_texts (builder, "parents", (const char *const *) version->parents);
  add_text (builder, "at", version->at);
  add_text (builder, "by", version->by);
  if (version->desk != NULL)
    add_text (builder, "desk", version->desk);
  add_text (builder, "document", version->document.sha256);
  add_integer (builder, "size", version->document.size);
  json_builder_set_member_name (builder, "summary");
  json_builder_begin_object (builder);
  g_hash_table_iter_init (&iter, version->summary);
  while (g_hash_table_iter_next (&iter, &key, &text))
    add_text (builder, key, text);
  json_builder_end_object (builder);
  json_builder_end_object (builder);
}

static void
add_versions (JsonBuilder *builder,
              GPtrArray   *jobs)
{
  json_builder_set_member_name (builder, "versions");
  json_builder_begin_object (builder);
  for (guint i = 0; i < jobs->len; i++)
    {
      const WbDepotJob *job = g_ptr_array_index (jobs, i);

      for (guint k = 0; k < job->versions->len; k++)
        add_version (builder, g_ptr_array_index (job->versions, k));
    }
  json_builder_end_object (builder);
}

static void
add_folders (JsonBuilder  *builder,
             WbDepotCache *self,
             GPtrArray    *jobs)
{
  json_builder_set_member_name (builder, "folders");
  json_builder_begin_object (builder);
  for (guint i = 0; i < jobs->len; i++)
    {
      const WbDepotJob *job = g_ptr_array_index (jobs, i);
      const Folder *folder = g_hash_table_lookup (self->folders, job->job);

      if (folder == NULL)
        continue;
      json_builder_set_member_name (builder, job->job);
      json_builder_begin_object (builder);
      add_integer (builder, "changed", folder->changed);
      add_texts (builder, "versions", (const char *const *) folder->hashes);
      json_builder_end_object (builder);
    }
  json_builder_end_object (builder);
}

void
wb_depot_cache_save (WbDepotCache *self,
                     GPtrArray    *jobs)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *text = NULL;
  g_autofree char *hash = NULL;
  g_autofree char *sealed = NULL;

  if (self->path == NULL || !self->fresh)
    return;
  json_builder_begin_object (builder);
  add_text (builder, "format", CACHE_FORMAT);
  add_integer (builder, "version", CACHE_VERSION);
  add_text (builder, "server", self->server);
  add_versions (builder, jobs);
  add_folders (builder, self, jobs);
  json_builder_end_object (builder);
  root = json_builder_get_root (builder);
  json_generator_set_root (generator, root);
  text = json_generator_to_data (generator, NULL);
  hash = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
  sealed = g_strconcat (hash, "\n", text, NULL);
  self->fresh = !g_file_set_contents_full (self->path, sealed, -1,
                                           G_FILE_SET_CONTENTS_CONSISTENT, 0600, NULL);
}
