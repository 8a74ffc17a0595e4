/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Is a bag complete and valid (RFC 8493, 3)? Everything is in the private copy by now. The order of
 * the checks is the order in which faults are named: what the bag says it is, its tag files, what
 * should be there, and at last what is in the files. */
#include "config.h"

#include "share/wb-bag-private.h"

#include "share/wb-bag-name.h"
#include "share/wb-bag-tags.h"
#include "share/wb-share.h"

#include <string.h>

#define CHUNK (256 * 1024)

typedef struct
{
  WbBag             *bag;
  const WbBagLimits *limits;
  GCancellable      *cancellable;
} Check;

/* WbManifest: one manifest, of the payload or of tags. */
typedef struct
{
  const WbBagFile      *file;
  const WbBagAlgorithm *algorithm;   /* (nullable): one not known */
  gboolean              of_tags;
  GPtrArray            *lines;       /* WbBagLine */
} WbManifest;

static void
manifest_free (gpointer data)
{
  WbManifest *manifest = data;

  g_clear_pointer (&manifest->lines, g_ptr_array_unref);
  g_free (manifest);
}

/* --- reading ---------------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): the text of a tag file. */
static char *
read_tag_file (Check            *check,
               const WbBagFile  *file,
               gsize            *length,
               GError          **error)
{
  char *text = NULL;

  if (file->size > check->limits->max_tag_bytes)
    {
      wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, file->path,
                       "the file has more than %" G_GINT64_FORMAT " bytes",
                       check->limits->max_tag_bytes);
      return NULL;
    }
  if (!g_file_get_contents (file->copy, &text, length, error))
    return NULL;
  return text;
}

/* SHA-256 was taken while the file came in; any other sum is taken of the private copy. */
static char *
digest_of (Check                 *check,
           const WbBagFile       *file,
           const WbBagAlgorithm  *algorithm,
           GError               **error)
{
  g_autoptr (GChecksum) checksum = NULL;
  g_autoptr (GFile) copy = NULL;
  g_autoptr (GFileInputStream) stream = NULL;
  g_autofree guint8 *chunk = NULL;
  gssize length;

  if (algorithm->type == G_CHECKSUM_SHA256)
    return g_strdup (file->sha256);

  checksum = g_checksum_new (algorithm->type);
  copy = g_file_new_for_path (file->copy);
  stream = g_file_read (copy, check->cancellable, error);
  if (stream == NULL)
    return NULL;
  chunk = g_malloc (CHUNK);
  while ((length = g_input_stream_read (G_INPUT_STREAM (stream), chunk, CHUNK, check->cancellable,
                                        error)) > 0)
    g_checksum_update (checksum, chunk, length);
  return length == 0 ? g_strdup (g_checksum_get_string (checksum)) : NULL;
}

/* --- the declaration -------------------------------------------------------------------------- */

static gboolean
check_declaration (Check   *check,
                   GError **error)
{
  const WbBagFile *file = wb_bag_find (check->bag, "bagit.txt");
  g_autofree char *text = NULL;
  gsize length;

  text = read_tag_file (check, file, &length, error);
  return text != NULL && wb_bag_declaration_check (text, length, error);
}

static gboolean
has_payload_folder (const WbBag *bag)
{
  for (guint i = 0; i < bag->folders->len; i++)
    if (strcmp (g_ptr_array_index (bag->folders, i), "data") == 0)
      return TRUE;
  return bag->payload->len > 0;
}

static gboolean
check_parts (Check   *check,
             GError **error)
{
  for (guint i = 0; i < check->bag->files->len; i++)
    {
      const WbBagFile *file = g_ptr_array_index (check->bag->files, i);

      if (g_str_has_suffix (file->path, "/bagit.txt"))
        return wb_share_refuse (error, WB_SHARE_ERROR_NESTED, file->path,
                                "there is another bag inside");
    }
  return has_payload_folder (check->bag) ||
         wb_share_refuse (error, WB_SHARE_ERROR_INCOMPLETE, "data", "the folder is not there");
}

static gboolean
check_fetch (Check   *check,
             GError **error)
{
  const WbBagFile *file = wb_bag_find (check->bag, "fetch.txt");
  g_autofree char *text = NULL;
  gsize length;

  if (file == NULL)
    return TRUE;
  text = read_tag_file (check, file, &length, error);
  return text != NULL &&
         (wb_bag_fetch_is_empty (text, length) ||
          wb_share_refuse (error, WB_SHARE_ERROR_FETCH, file->path,
                           "parts of the bundle are to be fetched from elsewhere"));
}

/* --- finding manifests ------------------------------------------------------------------------ */

/* Returns: (transfer full) (nullable): "sha256" of "manifest-sha256.txt"; NULL for another name. */
static char *
algorithm_of (const char *path,
              const char *prefix)
{
  gsize skip = strlen (prefix), length = strlen (path);

  if (!g_str_has_prefix (path, prefix) || !g_str_has_suffix (path, ".txt") || length < skip + 4)
    return NULL;
  return g_strndup (path + skip, length - skip - 4);
}

static gboolean
add_manifest (Check            *check,
              GPtrArray        *manifests,
              const WbBagFile  *file,
              const char       *name,
              gboolean          of_tags,
              GError          **error)
{
  g_autofree char *text = NULL;
  WbManifest *manifest;
  gsize length;

  if (*name == '\0' || name[strspn (name, "abcdefghijklmnopqrstuvwxyz0123456789")] != '\0')
    return wb_share_refuse (error, WB_SHARE_ERROR_TAG_FILE, file->path,
                            "the name of the checksum has other signs than a to z and digits");
  text = read_tag_file (check, file, &length, error);
  if (text == NULL)
    return FALSE;
  manifest = g_new0 (WbManifest, 1);
  g_ptr_array_add (manifests, manifest);
  manifest->file = file;
  manifest->of_tags = of_tags;
  manifest->algorithm = wb_bag_algorithm (name);
  manifest->lines = wb_bag_manifest_parse (file->path, text, length, manifest->algorithm, of_tags,
                                           error);
  return manifest->lines != NULL;
}

/* Returns: (transfer full) (element-type WbManifest) (nullable): by name. */
static GPtrArray *
find_manifests (Check     *check,
                gboolean   of_tags,
                GError   **error)
{
  g_autoptr (GPtrArray) manifests = g_ptr_array_new_with_free_func (manifest_free);

  for (guint i = 0; i < check->bag->files->len; i++)
    {
      const WbBagFile *file = g_ptr_array_index (check->bag->files, i);
      g_autofree char *name = algorithm_of (file->path, of_tags ? "tagmanifest-" : "manifest-");

      if (strchr (file->path, '/') == NULL && name != NULL &&
          !add_manifest (check, manifests, file, name, of_tags, error))
        return NULL;
    }
  return g_steal_pointer (&manifests);
}

/* --- holding files against them --------------------------------------------------------------- */

static gboolean
check_listed (Check             *check,
              const WbManifest  *manifest,
              GError           **error)
{
  for (guint i = 0; i < manifest->lines->len; i++)
    {
      const WbBagLine *line = g_ptr_array_index (manifest->lines, i);

      if (wb_bag_find (check->bag, line->path) == NULL)
        return wb_share_refuse (error, WB_SHARE_ERROR_INCOMPLETE, line->path,
                                "the file is not there, and %s lists it", manifest->file->path);
    }
  return TRUE;
}

static gboolean
check_digests (Check             *check,
               const WbManifest  *manifest,
               GError           **error)
{
  for (guint i = 0; manifest->algorithm != NULL && i < manifest->lines->len; i++)
    {
      const WbBagLine *line = g_ptr_array_index (manifest->lines, i);
      const WbBagFile *file = wb_bag_find (check->bag, line->path);
      g_autofree char *digest = digest_of (check, file, manifest->algorithm, error);

      if (digest == NULL)
        return FALSE;
      if (strcmp (digest, line->digest) != 0)
        return wb_share_refuse (error, WB_SHARE_ERROR_ALTERED, line->path,
                                "the file is not what %s says", manifest->file->path);
    }
  return TRUE;
}

/* Returns: (transfer full): composed names. */
static GHashTable *
names_listed (const WbManifest *manifest)
{
  GHashTable *names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < manifest->lines->len; i++)
    {
      const WbBagLine *line = g_ptr_array_index (manifest->lines, i);

      g_hash_table_add (names, wb_bag_name_normal (line->path));
    }
  return names;
}

/* @files: (element-type WbBagFile) */
static gboolean
check_all_listed (const WbManifest  *manifest,
                  GPtrArray         *files,
                  GError           **error)
{
  g_autoptr (GHashTable) names = names_listed (manifest);

  for (guint i = 0; i < files->len; i++)
    {
      const WbBagFile *file = g_ptr_array_index (files, i);
      g_autofree char *name = wb_bag_name_normal (file->path);

      if (!g_hash_table_contains (names, name))
        return wb_share_refuse (error, WB_SHARE_ERROR_UNLISTED, file->path,
                                "%s does not list the file", manifest->file->path);
    }
  return TRUE;
}

/* Returns: (transfer container) (element-type WbBagFile): the payload manifests. */
static GPtrArray *
payload_manifest_files (const WbBag *bag)
{
  GPtrArray *files = g_ptr_array_new ();

  for (guint i = 0; i < bag->files->len; i++)
    {
      WbBagFile *file = g_ptr_array_index (bag->files, i);
      g_autofree char *name = algorithm_of (file->path, "manifest-");

      if (name != NULL && strchr (file->path, '/') == NULL)
        g_ptr_array_add (files, file);
    }
  return files;
}

static gboolean
check_tag_manifests (Check   *check,
                     GError **error)
{
  g_autoptr (GPtrArray) manifests = find_manifests (check, TRUE, error);
  g_autoptr (GPtrArray) to_be_listed = payload_manifest_files (check->bag);

  if (manifests == NULL)
    return FALSE;
  for (guint i = 0; i < manifests->len; i++)
    {
      const WbManifest *manifest = g_ptr_array_index (manifests, i);

      if (!check_listed (check, manifest, error) ||
          !check_digests (check, manifest, error) ||
          !check_all_listed (manifest, to_be_listed, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
has_strong (GPtrArray *manifests)
{
  for (guint i = 0; i < manifests->len; i++)
    {
      const WbManifest *manifest = g_ptr_array_index (manifests, i);

      if (manifest->algorithm != NULL && manifest->algorithm->strong)
        return TRUE;
    }
  return FALSE;
}

static gboolean
check_complete (Check      *check,
                GPtrArray  *manifests,
                GError    **error)
{
  if (manifests->len == 0)
    return wb_share_refuse (error, WB_SHARE_ERROR_INCOMPLETE, "manifest-sha256.txt",
                            "the file is not there, nor is another manifest");
  if (!has_strong (manifests))
    return wb_share_refuse (error, WB_SHARE_ERROR_ALGORITHM,
                            ((const WbManifest *) g_ptr_array_index (manifests, 0))->file->path,
                            "its checksums are weak or of an unknown kind, and there is no "
                            "manifest with SHA-256 or SHA-512");
  for (guint i = 0; i < manifests->len; i++)
    if (!check_listed (check, g_ptr_array_index (manifests, i), error) ||
        !check_all_listed (g_ptr_array_index (manifests, i), check->bag->payload, error))
      return FALSE;
  return TRUE;
}

/* --- bag-info.txt ----------------------------------------------------------------------------- */

static gboolean
check_oxum (Check       *check,
            const char  *value,
            GError     **error)
{
  guint64 octets, streams, size = 0;

  if (!wb_bag_oxum_parse (value, &octets, &streams))
    return wb_share_refuse (error, WB_SHARE_ERROR_TAG_FILE, "bag-info.txt",
                            "Payload-Oxum is not two numbers with a full stop between");
  for (guint i = 0; i < check->bag->payload->len; i++)
    size += (guint64) ((const WbBagFile *) g_ptr_array_index (check->bag->payload, i))->size;
  if (octets == size && streams == check->bag->payload->len)
    return TRUE;
  return wb_share_refuse (error, WB_SHARE_ERROR_OXUM, "bag-info.txt",
                          "Payload-Oxum says %" G_GUINT64_FORMAT " bytes in %" G_GUINT64_FORMAT
                          " files; there are %" G_GUINT64_FORMAT " in %u",
                          octets, streams, size, check->bag->payload->len);
}

static gboolean
check_info (Check   *check,
            GError **error)
{
  const WbBagFile *file = wb_bag_find (check->bag, "bag-info.txt");
  g_autofree char *text = NULL;
  gsize length;
  guint n = 0;

  if (file == NULL)
    return TRUE;
  text = read_tag_file (check, file, &length, error);
  if (text == NULL)
    return FALSE;
  check->bag->info = wb_bag_info_parse (text, length, error);
  if (check->bag->info == NULL)
    return FALSE;
  for (guint i = 0; i < check->bag->info->len; i++)
    {
      const WbBagElement *element = g_ptr_array_index (check->bag->info, i);

      if (g_ascii_strcasecmp (element->label, "Payload-Oxum") != 0)
        continue;
      if (++n > 1)
        return wb_share_refuse (error, WB_SHARE_ERROR_TAG_FILE, file->path,
                                "Payload-Oxum is there more than once");
      if (!check_oxum (check, element->value, error))
        return FALSE;
    }
  return TRUE;
}

/* --- all of it -------------------------------------------------------------------------------- */

gboolean
wb_bag_check (WbBag              *self,
              const WbBagLimits  *limits,
              GCancellable       *cancellable,
              GError            **error)
{
  Check check = { self, limits, cancellable };
  g_autoptr (GPtrArray) manifests = NULL;

  if (!check_declaration (&check, error) || !check_parts (&check, error) ||
      !check_fetch (&check, error) || !check_tag_manifests (&check, error))
    return FALSE;
  manifests = find_manifests (&check, FALSE, error);
  if (manifests == NULL || !check_complete (&check, manifests, error) ||
      !check_info (&check, error))
    return FALSE;
  for (guint i = 0; i < manifests->len; i++)
    if (!check_digests (&check, g_ptr_array_index (manifests, i), error))
      return FALSE;
  return TRUE;
}
