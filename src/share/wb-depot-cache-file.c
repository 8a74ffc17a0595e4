/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file in which the memory of a depot is kept. It may be thrown away at any time; its first
 * line is the hash of the rest, and whatever is wrong with it, it is passed over as a whole. */
#include "config.h"

#include "share/wb-depot-cache-private.h"

#include "core/wb-json-check.h"

#include <json-glib/json-glib.h>
#include <string.h>

#define CACHE_FORMAT "wainbook-depot-cache"
#define CACHE_VERSION 2
#define HASH_LENGTH 64

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
  WbDepotFolder *folder = g_new0 (WbDepotFolder, 1);

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

/* Returns: %FALSE when a time is no number, or of a version that is not known. */
static gboolean
read_complete (WbDepotCache *self,
               JsonObject   *root)
{
  JsonNode *node = part_of (root, "complete", JSON_NODE_OBJECT);
  JsonObjectIter iter;
  const char *sha256;

  if (node == NULL)
    return FALSE;
  json_object_iter_init (&iter, json_node_get_object (node));
  while (json_object_iter_next (&iter, &sha256, NULL))
    {
      gint64 at = integer_of (json_node_get_object (node), sha256);

      if (at < 0 || !g_hash_table_contains (self->versions, sha256))
        return FALSE;
      wb_depot_cache_set_complete (self, sha256, at);
    }
  return TRUE;
}

gboolean
wb_depot_cache_read_file (WbDepotCache *self)
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
         read_members (self, root, "folders", read_folder) &&
         read_complete (self, root);
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
add_versions (JsonBuilder  *builder,
              WbDepotCache *self)
{
  GHashTableIter iter;
  gpointer version;

  json_builder_set_member_name (builder, "versions");
  json_builder_begin_object (builder);
  g_hash_table_iter_init (&iter, self->versions);
  while (g_hash_table_iter_next (&iter, NULL, &version))
    add_version (builder, version);
  json_builder_end_object (builder);
}

static void
add_folders (JsonBuilder  *builder,
             WbDepotCache *self)
{
  GHashTableIter iter;
  gpointer job, data;

  json_builder_set_member_name (builder, "folders");
  json_builder_begin_object (builder);
  g_hash_table_iter_init (&iter, self->folders);
  while (g_hash_table_iter_next (&iter, &job, &data))
    {
      const WbDepotFolder *folder = data;

      json_builder_set_member_name (builder, job);
      json_builder_begin_object (builder);
      add_integer (builder, "changed", folder->changed);
      add_texts (builder, "versions", (const char *const *) folder->hashes);
      json_builder_end_object (builder);
    }
  json_builder_end_object (builder);
}

static void
add_complete (JsonBuilder  *builder,
              WbDepotCache *self)
{
  GHashTableIter iter;
  gpointer sha256, at;

  json_builder_set_member_name (builder, "complete");
  json_builder_begin_object (builder);
  g_hash_table_iter_init (&iter, self->complete);
  while (g_hash_table_iter_next (&iter, &sha256, &at))
    add_integer (builder, sha256, *(gint64 *) at);
  json_builder_end_object (builder);
}

void
wb_depot_cache_save (WbDepotCache *self)
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
  add_versions (builder, self);
  add_folders (builder, self);
  add_complete (builder, self);
  json_builder_end_object (builder);
  root = json_builder_get_root (builder);
  json_generator_set_root (generator, root);
  text = json_generator_to_data (generator, NULL);
  hash = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
  sealed = g_strconcat (hash, "\n", text, NULL);
  self->fresh = !g_file_set_contents_full (self->path, sealed, -1,
                                           G_FILE_SET_CONTENTS_CONSISTENT, 0600, NULL);
}
