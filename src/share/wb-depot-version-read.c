/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the file of a published version. It comes from a server that anybody may have written to:
 * the text is looked at as a whole before a parser gets it, nothing in it is passed over, and
 * wb_version_check() has the last word. */
#include "config.h"

#include "share/wb-depot-version.h"

#include "core/wb-json-check.h"
#include "share/wb-bag-name.h"
#include "share/wb-share.h"

#include <json-glib/json-glib.h>
#include <string.h>

/* --- parts ------------------------------------------------------------------------------------ */

static gboolean
refuse (GError     **error,
        const char  *what)
{
  g_set_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_STRANGER, "%s", what);
  return FALSE;
}

static gboolean
read_text (JsonObject  *object,
           const char  *key,
           char       **out,
           GError     **error)
{
  JsonNode *node = json_object_get_member (object, key);

  if (node == NULL || !JSON_NODE_HOLDS_VALUE (node) ||
      json_node_get_value_type (node) != G_TYPE_STRING)
    {
      g_set_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_STRANGER,
                   "%s: a text in quotation marks was expected", key);
      return FALSE;
    }
  *out = json_node_dup_string (node);
  return TRUE;
}

static gboolean
read_integer (JsonObject  *object,
              const char  *key,
              gint64      *out,
              GError     **error)
{
  JsonNode *node = json_object_get_member (object, key);

  if (node == NULL || !JSON_NODE_HOLDS_VALUE (node) ||
      json_node_get_value_type (node) != G_TYPE_INT64)
    {
      g_set_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_STRANGER,
                   "%s: a whole number was expected", key);
      return FALSE;
    }
  *out = json_node_get_int (node);
  return TRUE;
}

static JsonNode *
find_part (JsonObject    *object,
           const char    *key,
           JsonNodeType   type,
           GError       **error)
{
  JsonNode *node = json_object_get_member (object, key);

  if (node != NULL && json_node_get_node_type (node) == type)
    return node;
  g_set_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_STRANGER, "%s: %s was expected", key,
               type == JSON_NODE_ARRAY ? "an array in square brackets" : "an object in braces");
  return NULL;
}

/* No member but those named. */
static gboolean
check_keys (JsonObject         *object,
            const char *const  *known,
            GError            **error)
{
  JsonObjectIter iter;
  const char *key;

  json_object_iter_init (&iter, object);
  while (json_object_iter_next (&iter, &key, NULL))
    if (!g_strv_contains (known, key))
      return wb_share_refuse (error, WB_SHARE_ERROR_STRANGER, key, "there is no such part here");
  return TRUE;
}

/* @named: whether it has a name; the document has none. */
static gboolean
read_file (JsonNode       *node,
           gboolean        named,
           WbVersionFile  *file,
           GError        **error)
{
  static const char *const known[] = { "sha256", "size", "name", NULL };
  static const char *const unnamed[] = { "sha256", "size", NULL };
  JsonObject *object;

  if (!JSON_NODE_HOLDS_OBJECT (node))
    return refuse (error, "files: an object in braces was expected");
  object = json_node_get_object (node);
  return check_keys (object, named ? known : unnamed, error) &&
         (!named || read_text (object, "name", &file->name, error)) &&
         read_text (object, "sha256", &file->sha256, error) &&
         read_integer (object, "size", &file->size, error);
}

static gboolean
read_parents (WbVersion   *self,
              JsonObject  *root,
              GError     **error)
{
  JsonNode *node = find_part (root, "parents", JSON_NODE_ARRAY, error);
  g_autoptr (GPtrArray) parents = g_ptr_array_new_with_free_func (g_free);
  JsonArray *array;

  if (node == NULL)
    return FALSE;
  array = json_node_get_array (node);
  for (guint i = 0; i < MIN (json_array_get_length (array), WB_VERSION_MAX_PARENTS + 1); i++)
    {
      JsonNode *element = json_array_get_element (array, i);

      if (!JSON_NODE_HOLDS_VALUE (element) ||
          json_node_get_value_type (element) != G_TYPE_STRING)
        return refuse (error, "parents: a text in quotation marks was expected");
      g_ptr_array_add (parents, json_node_dup_string (element));
    }
  g_ptr_array_add (parents, NULL);
  g_strfreev (self->parents);
  self->parents = (GStrv) g_ptr_array_free (g_steal_pointer (&parents), FALSE);
  return TRUE;
}

static gboolean
read_files (WbVersion   *self,
            JsonObject  *root,
            GError     **error)
{
  JsonNode *document = find_part (root, "document", JSON_NODE_OBJECT, error);
  JsonNode *node = document != NULL ? find_part (root, "files", JSON_NODE_ARRAY, error) : NULL;
  JsonArray *array;

  if (node == NULL || !read_file (document, FALSE, &self->document, error))
    return FALSE;
  array = json_node_get_array (node);
  for (guint i = 0; i < MIN (json_array_get_length (array), WB_VERSION_MAX_FILES + 1); i++)
    {
      g_autoptr (WbVersionFile) file = wb_version_file_new (NULL, NULL, 0);

      if (!read_file (json_array_get_element (array, i), TRUE, file, error))
        return FALSE;
      g_ptr_array_add (self->files, g_steal_pointer (&file));
    }
  return TRUE;
}

static gboolean
read_summary (WbVersion   *self,
              JsonObject  *root,
              GError     **error)
{
  JsonNode *node = find_part (root, "summary", JSON_NODE_OBJECT, error);
  JsonObjectIter iter;
  const char *key;

  if (node == NULL)
    return FALSE;
  json_object_iter_init (&iter, json_node_get_object (node));
  while (json_object_iter_next (&iter, &key, NULL))
    {
      char *text;

      if (!read_text (json_node_get_object (node), key, &text, error))
        return FALSE;
      g_hash_table_insert (self->summary, g_strdup (key), text);
    }
  return TRUE;
}

/* --- the whole -------------------------------------------------------------------------------- */

/* What it says it is; first of all, since of something else every other message would mislead. */
static gboolean
check_format (JsonObject  *root,
              GError     **error)
{
  g_autofree char *format = NULL;
  gint64 version;

  if (!read_text (root, "format", &format, error) ||
      !read_integer (root, "version", &version, error))
    return FALSE;
  if (strcmp (format, WB_VERSION_FORMAT) != 0 || version < 1)
    return refuse (error, "format: this is not a published job");
  if (version > WB_VERSION_VERSION)
    {
      g_set_error_literal (error, WB_SHARE_ERROR, WB_SHARE_ERROR_FORMAT,
                           "version: it was published by a newer version of Wainbook");
      return FALSE;
    }
  return TRUE;
}

static gboolean
read_root (WbVersion   *self,
           JsonObject  *root,
           GError     **error)
{
  static const char *const known[] = { "format", "version", "job", "number", "at", "by", "desk",
                                       "parents", "document", "files", "summary", NULL };

  return check_format (root, error) && check_keys (root, known, error) &&
         read_text (root, "job", &self->job, error) &&
         read_integer (root, "number", &self->number, error) &&
         read_text (root, "at", &self->at, error) && read_text (root, "by", &self->by, error) &&
         (!json_object_has_member (root, "desk") || read_text (root, "desk", &self->desk, error)) &&
         read_parents (self, root, error) && read_files (self, root, error) &&
         read_summary (self, root, error) && wb_version_check (self, error);
}

static WbVersion *
parse (const char  *text,
       gsize        length,
       GError     **error)
{
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();
  g_autoptr (WbVersion) self = wb_version_new ();
  g_autoptr (GError) fault = NULL;
  JsonNode *root;

  if (length > WB_VERSION_MAX_BYTES)
    {
      g_set_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_LIMIT, "it has more than %d MiB",
                   WB_VERSION_MAX_BYTES / (1024 * 1024));
      return NULL;
    }
  if (!wb_json_check (text, (gssize) length, &fault) ||
      !json_parser_load_from_data (parser, text, (gssize) length, &fault))
    {
      refuse (error, fault->message);
      return NULL;
    }
  root = json_parser_get_root (parser);
  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root))
    {
      refuse (error, "an object in braces was expected");
      return NULL;
    }
  return read_root (self, json_node_get_object (root), error) ? g_steal_pointer (&self) : NULL;
}

WbVersion *
wb_version_read (const char  *name,
                 GBytes      *bytes,
                 GError     **error)
{
  gsize length;
  const char *text = g_bytes_get_data (bytes, &length);
  WbVersion *self = parse (text != NULL ? text : "", length, error);

  if (self == NULL)
    {
      g_autofree char *shown = wb_bag_name_display (name);

      g_prefix_error (error, "“%s”: ", shown);
      return NULL;
    }
  self->sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  return self;
}
