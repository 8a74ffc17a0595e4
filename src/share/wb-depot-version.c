/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A published version: judged and written. Its limits are for what comes from a server that anybody
 * may have written to; reading stands in wb-depot-version-read.c. */
#include "config.h"

#include "share/wb-depot-version.h"

#include "core/wb-photo.h"
#include "core/wb-record.h"
#include "share/wb-bag-name.h"
#include "share/wb-share.h"

#include <json-glib/json-glib.h>
#include <string.h>

#define MAX_KEY 40

/* --- life ------------------------------------------------------------------------------------- */

static void
clear_file (WbVersionFile *file)
{
  g_clear_pointer (&file->name, g_free);
  g_clear_pointer (&file->sha256, g_free);
}

WbVersionFile *
wb_version_file_new (const char *name,
                     const char *sha256,
                     gint64      size)
{
  WbVersionFile *file = g_new0 (WbVersionFile, 1);

  file->name = g_strdup (name);
  file->sha256 = g_strdup (sha256);
  file->size = size;
  return file;
}

void
wb_version_file_free (WbVersionFile *self)
{
  if (self == NULL)
    return;
  clear_file (self);
  g_free (self);
}

WbVersion *
wb_version_new (void)
{
  WbVersion *self = g_new0 (WbVersion, 1);

  self->parents = g_new0 (char *, 1);
  self->files = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_version_file_free);
  self->summary = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  return self;
}

void
wb_version_free (WbVersion *self)
{
  if (self == NULL)
    return;
  g_free (self->sha256);
  g_free (self->job);
  g_strfreev (self->parents);
  g_free (self->at);
  g_free (self->by);
  g_free (self->desk);
  clear_file (&self->document);
  g_clear_pointer (&self->files, g_ptr_array_unref);
  g_hash_table_unref (self->summary);
  g_free (self);
}

/* --- names ------------------------------------------------------------------------------------ */

gboolean
wb_version_is_hash (const char *text)
{
  return wb_photo_hash_is_valid (text);
}

gboolean
wb_version_is_job (const char *id)
{
  return wb_record_id_is_valid (id) && strspn (id, ".") < strlen (id);
}

char *
wb_version_file_name (gint64      number,
                      const char *sha256)
{
  return g_strdup_printf ("%06" G_GINT64_FORMAT "-%s.json", number, sha256);
}

gboolean
wb_version_file_name_read (const char  *name,
                           gint64      *number,
                           char       **sha256)
{
  g_autofree char *hash = NULL;

  if (strlen (name) != 6 + 1 + 64 + 5 || strspn (name, G_CSET_DIGITS) != 6 || name[6] != '-' ||
      !g_str_has_suffix (name, ".json"))
    return FALSE;
  hash = g_strndup (name + 7, 64);
  *number = g_ascii_strtoll (name, NULL, 10);
  if (!wb_version_is_hash (hash) || *number < 1)
    return FALSE;
  *sha256 = g_steal_pointer (&hash);
  return TRUE;
}

/* --- judging ---------------------------------------------------------------------------------- */

static gboolean
refuse (GError     **error,
        const char  *what)
{
  g_set_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_STRANGER, "%s", what);
  return FALSE;
}

/* A text for a person: of one line, and not endless. */
static gboolean
is_line (const char *text)
{
  gsize length = text != NULL ? strlen (text) : 0;

  if (length == 0 || length > WB_VERSION_MAX_TEXT || !g_utf8_validate (text, -1, NULL))
    return FALSE;
  for (const char *at = text; *at != '\0'; at++)
    if (g_ascii_iscntrl (*at))
      return FALSE;
  return TRUE;
}

static gboolean
check_parents (const WbVersion  *self,
               GError          **error)
{
  gsize n = g_strv_length (self->parents);

  if (n > WB_VERSION_MAX_PARENTS)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, "parents", "there are more than %d",
                            WB_VERSION_MAX_PARENTS);
  for (gsize i = 0; i < n; i++)
    if (!wb_version_is_hash (self->parents[i]) ||
        (i > 0 && strcmp (self->parents[i - 1], self->parents[i]) >= 0))
      return refuse (error, "parents: they are hashes, sorted, each once");
  return self->number > (n > 0 ? 1 : 0) ||
         refuse (error, "number: it is higher than that of any parent");
}

static gboolean
check_file (const WbVersionFile  *file,
            GError              **error)
{
  if (!wb_version_is_hash (file->sha256))
    return refuse (error, "sha256: this is not 64 hexadecimal digits in lower case");
  return (file->size >= 0 && file->size <= WB_VERSION_MAX_SIZE) ||
         wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, file->sha256, "no file has such a size");
}

static gboolean
check_files (const WbVersion  *self,
             GError          **error)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n = self->files != NULL ? self->files->len : 0;

  if (n > WB_VERSION_MAX_FILES)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, "files", "there are more than %d",
                            WB_VERSION_MAX_FILES);
  for (guint i = 0; i < n; i++)
    {
      const WbVersionFile *file = g_ptr_array_index (self->files, i);

      if (!wb_bag_name_check (file->name, error) || !check_file (file, error))
        return FALSE;
      if (!g_hash_table_add (seen, wb_bag_name_key (file->name)))
        return wb_share_refuse (error, WB_SHARE_ERROR_CLASH, file->name,
                                "two files have this name");
    }
  return TRUE;
}

static gboolean
check_summary (const WbVersion  *self,
               GError          **error)
{
  GHashTableIter iter;
  gpointer key, text;

  if (g_hash_table_size (self->summary) > WB_VERSION_MAX_SUMMARY)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, "summary", "it has more than %d parts",
                            WB_VERSION_MAX_SUMMARY);
  g_hash_table_iter_init (&iter, self->summary);
  while (g_hash_table_iter_next (&iter, &key, &text))
    {
      gsize length = strspn (key, G_CSET_a_2_z G_CSET_DIGITS "_");

      if (length == 0 || length > MAX_KEY || ((const char *) key)[length] != '\0')
        return refuse (error, "summary: a key has small letters, digits and “_”, up to 40");
      if (!is_line (text))
        return refuse (error, "summary: each part is a text of one line, up to 1000 bytes");
    }
  return TRUE;
}

gboolean
wb_version_check (const WbVersion  *self,
                  GError          **error)
{
  if (!wb_version_is_job (self->job))
    return wb_share_refuse (error, WB_SHARE_ERROR_NAME, self->job != NULL ? self->job : "",
                            "this cannot be the id of a job on a server");
  if (self->number < 1 || self->number > WB_VERSION_MAX_NUMBER)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, self->job,
                            "a version has a number from 1 to %d", WB_VERSION_MAX_NUMBER);
  if (!wb_photo_time_is_valid (self->at, TRUE))
    return refuse (error, "at: this is not a time such as 2026-03-05T08:00:00Z");
  if (!is_line (self->by))
    return refuse (error, "by: a name of one line is needed, up to 1000 bytes");
  if (self->desk != NULL && !is_line (self->desk))
    return refuse (error, "desk: this is not a text of one line, up to 1000 bytes");

  return check_parents (self, error) && check_file (&self->document, error) &&
         check_files (self, error) && check_summary (self, error);
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
add_file (JsonBuilder         *builder,
          const WbVersionFile *file)
{
  json_builder_begin_object (builder);
  if (file->name != NULL)
    add_text (builder, "name", file->name);
  add_text (builder, "sha256", file->sha256);
  add_integer (builder, "size", file->size);
  json_builder_end_object (builder);
}

static void
add_summary (JsonBuilder *builder,
             GHashTable  *summary)
{
  g_autoptr (GList) keys = g_list_sort (g_hash_table_get_keys (summary), (GCompareFunc) strcmp);

  json_builder_set_member_name (builder, "summary");
  json_builder_begin_object (builder);
  for (GList *at = keys; at != NULL; at = at->next)
    add_text (builder, at->data, g_hash_table_lookup (summary, at->data));
  json_builder_end_object (builder);
}

static void
add_lists (JsonBuilder     *builder,
           const WbVersion *self)
{
  json_builder_set_member_name (builder, "parents");
  json_builder_begin_array (builder);
  for (gsize i = 0; self->parents[i] != NULL; i++)
    json_builder_add_string_value (builder, self->parents[i]);
  json_builder_end_array (builder);
  json_builder_set_member_name (builder, "document");
  add_file (builder, &self->document);
  json_builder_set_member_name (builder, "files");
  json_builder_begin_array (builder);
  for (guint i = 0; i < self->files->len; i++)
    add_file (builder, g_ptr_array_index (self->files, i));
  json_builder_end_array (builder);
}

GBytes *
wb_version_write (WbVersion *self)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (JsonNode) root = NULL;
  char *text;
  gsize length;

  g_return_val_if_fail (self->files != NULL, NULL);

  json_builder_begin_object (builder);
  add_text (builder, "format", WB_VERSION_FORMAT);
  add_integer (builder, "version", WB_VERSION_VERSION);
  add_text (builder, "job", self->job);
  add_integer (builder, "number", self->number);
  add_text (builder, "at", self->at);
  add_text (builder, "by", self->by);
  if (self->desk != NULL)
    add_text (builder, "desk", self->desk);
  add_lists (builder, self);
  add_summary (builder, self->summary);
  json_builder_end_object (builder);

  root = json_builder_get_root (builder);
  json_generator_set_root (generator, root);
  text = json_generator_to_data (generator, &length);
  g_free (self->sha256);
  self->sha256 = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) text, length);
  return g_bytes_new_take (text, length);
}
