/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a bag has in it when it is written: the payload, and the tag files made from its names,
 * hashes and sizes. How it gets onto the disk stands in wb-bag-target.c. */
#include "config.h"

#include "share/wb-bag-private.h"

#include "share/wb-bag-name.h"
#include "share/wb-bag-target.h"
#include "share/wb-share.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>

#define CHUNK (256 * 1024)

struct _WbBagItem
{
  char   *path;
  GBytes *bytes;    /* or */
  char   *file;
  char   *sha256;
  gint64  size;
};

static WbBagItem *
item_new (const char *path)
{
  WbBagItem *self = g_new0 (WbBagItem, 1);

  self->path = g_strdup (path);
  return self;
}

WbBagItem *
wb_bag_item_new_bytes (const char *path,
                       GBytes     *bytes)
{
  WbBagItem *self = item_new (path);

  self->bytes = g_bytes_ref (bytes);
  self->sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  self->size = (gint64) g_bytes_get_size (bytes);
  return self;
}

WbBagItem *
wb_bag_item_new_file (const char *path,
                      const char *file,
                      const char *sha256)
{
  WbBagItem *self = item_new (path);

  self->file = g_strdup (file);
  self->sha256 = g_strdup (sha256);
  return self;
}

void
wb_bag_item_free (WbBagItem *self)
{
  g_free (self->path);
  g_clear_pointer (&self->bytes, g_bytes_unref);
  g_free (self->file);
  g_free (self->sha256);
  g_free (self);
}

gint64
wb_bag_item_get_size (const WbBagItem *self)
{
  return self->size;
}

/* --- what is to be written -------------------------------------------------------------------- */

static int
by_path (gconstpointer a,
         gconstpointer b)
{
  const WbBagItem *one = *(WbBagItem *const *) a, *other = *(WbBagItem *const *) b;

  return strcmp (one->path, other->path);
}

static gboolean
measure (WbBagItem  *item,
         GError    **error)
{
  struct stat about;

  if (item->file == NULL)
    return TRUE;
  if (g_stat (item->file, &about) != 0)
    return wb_share_fail (error, errno, item->file);
  if (!S_ISREG (about.st_mode))
    return wb_share_refuse (error, WB_SHARE_ERROR_KIND, item->file, "this is not a file");
  item->size = about.st_size;
  return TRUE;
}

/* What is written has to be read back: the same rules and limits. */
static gboolean
check_item (const WbBagItem  *item,
            GHashTable       *seen,
            GError          **error)
{
  if (!g_str_has_prefix (item->path, "data/"))
    return wb_share_refuse (error, WB_SHARE_ERROR_NAME, item->path, "it is not below data/");
  if (!wb_bag_name_check (item->path, error))
    return FALSE;
  if (!g_str_is_ascii (item->path))
    return wb_share_refuse (error, WB_SHARE_ERROR_NAME, item->path, "it is not in ASCII");
  if (!g_hash_table_add (seen, wb_bag_name_key (item->path)))
    return wb_share_refuse (error, WB_SHARE_ERROR_CLASH, item->path, "the name is there twice");
  if (item->size > wb_bag_limits.max_file_bytes)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, item->path,
                            "the file has more than %" G_GINT64_FORMAT " bytes",
                            wb_bag_limits.max_file_bytes);
  return TRUE;
}

/* @total: (out): bytes of all. The tag files that come along are few and small. */
static gboolean
check_items (GPtrArray  *items,
             gint64     *total,
             GError    **error)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  *total = 0;
  for (guint i = 0; i < items->len; i++)
    {
      WbBagItem *item = g_ptr_array_index (items, i);

      if (!measure (item, error) || !check_item (item, seen, error))
        return FALSE;
      *total += item->size;
      if (*total > wb_bag_limits.max_bytes / 2 || i + 100 > wb_bag_limits.max_files)
        return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, item->path,
                                "there are more files or bytes than a bundle may have");
    }
  return TRUE;
}

/* --- tag files -------------------------------------------------------------------------------- */

static GBytes *
bytes_of (GString *text)
{
  return g_string_free_to_bytes (text);
}

static void
append_line (GString         *out,
             const WbBagItem *item)
{
  g_autofree char *name = wb_bag_name_encode (item->path);

  g_string_append_printf (out, "%s  %s\n", item->sha256, name);
}

static GBytes *
make_manifest (GPtrArray *items)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < items->len; i++)
    append_line (out, g_ptr_array_index (items, i));
  return bytes_of (out);
}

/* A value is one line. */
static void
append_element (GString    *out,
                const char *label,
                const char *value)
{
  g_autofree char *line = g_utf8_make_valid (value, -1);

  g_strdelimit (line, "\r\n", ' ');
  g_string_append_printf (out, "%s: %s\n", label, line);
}

static GBytes *
make_info (const char *const *info,
           gint64             total,
           guint              n_items)
{
  GString *out = g_string_new (NULL);
  g_autofree char *oxum = g_strdup_printf ("%" G_GINT64_FORMAT ".%u", total, n_items);

  for (gsize i = 0; info[i] != NULL && info[i + 1] != NULL; i += 2)
    append_element (out, info[i], info[i + 1]);
  append_element (out, "Payload-Oxum", oxum);
  return bytes_of (out);
}

static void
add_tag_file (GPtrArray  *items,
              const char *path,
              GBytes     *bytes)
{
  g_ptr_array_add (items, wb_bag_item_new_bytes (path, bytes));
  g_bytes_unref (bytes);
}

/* Returns: (transfer full) (element-type WbBagItem): without the tag manifest, by name. */
static GPtrArray *
make_tag_files (GPtrArray         *items,
                const char *const *info,
                gint64             total)
{
  GPtrArray *tags = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_bag_item_free);
  static const char declaration[] = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";

  add_tag_file (tags, "bag-info.txt", make_info (info, total, items->len));
  add_tag_file (tags, "bagit.txt", g_bytes_new_static (declaration, sizeof declaration - 1));
  add_tag_file (tags, "manifest-sha256.txt", make_manifest (items));
  return tags;
}

/* --- writing ---------------------------------------------------------------------------------- */

typedef struct
{
  WbBagTarget       *target;
  WbBagProgressFunc  progress;
  gpointer           data;
  GCancellable      *cancellable;
  gint64             done;
  gint64             all;
} Writing;

static gboolean
pass_on (Writing       *writing,
         const guint8  *bytes,
         gsize          length,
         GError       **error)
{
  if (g_cancellable_set_error_if_cancelled (writing->cancellable, error) ||
      !wb_bag_target_write (writing->target, bytes, length, error))
    return FALSE;
  writing->done += (gint64) length;
  if (writing->progress != NULL)
    writing->progress (writing->done, writing->all, writing->data);
  return TRUE;
}

static gboolean
refuse_change (const WbBagItem  *item,
               GError          **error)
{
  return wb_share_refuse (error, WB_SHARE_ERROR_SOURCE, item->path,
                          "the file %s is not what its hash says", item->file);
}

/* Copies and looks whether these are the bytes that the manifest names. */
static gboolean
copy_file (Writing          *writing,
           const WbBagItem  *item,
           GError          **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (item->file);
  g_autoptr (GFileInputStream) stream = g_file_read (file, writing->cancellable, error);
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autofree guint8 *chunk = g_malloc (CHUNK);
  gint64 size = 0;
  gssize length;

  if (stream == NULL)
    return FALSE;
  while ((length = g_input_stream_read (G_INPUT_STREAM (stream), chunk, CHUNK,
                                        writing->cancellable, error)) > 0)
    {
      if (size == 0 && wb_bag_is_archive (chunk, (gsize) length))
        return wb_share_refuse (error, WB_SHARE_ERROR_NESTED, item->path,
                                "this is an archive or a compressed file itself");
      size += length;
      if (size > item->size)
        return refuse_change (item, error);
      g_checksum_update (checksum, chunk, length);
      if (!pass_on (writing, chunk, (gsize) length, error))
        return FALSE;
    }
  if (length < 0)
    return FALSE;
  return (size == item->size && strcmp (g_checksum_get_string (checksum), item->sha256) == 0) ||
         refuse_change (item, error);
}

static gboolean
copy_bytes (Writing          *writing,
            const WbBagItem  *item,
            GError          **error)
{
  gsize length;
  const guint8 *bytes = g_bytes_get_data (item->bytes, &length);

  if (wb_bag_is_archive (bytes, length))
    return wb_share_refuse (error, WB_SHARE_ERROR_NESTED, item->path,
                            "this is an archive or a compressed file itself");
  return length == 0 || pass_on (writing, bytes, length, error);
}

/* Pictures are as small as they get. */
static gboolean
write_items (Writing    *writing,
             GPtrArray  *items,
             GError    **error)
{
  for (guint i = 0; i < items->len; i++)
    {
      const WbBagItem *item = g_ptr_array_index (items, i);

      if (!wb_bag_target_begin (writing->target, item->path, item->size, item->file == NULL,
                                error) ||
          !(item->file != NULL ? copy_file (writing, item, error)
                               : copy_bytes (writing, item, error)) ||
          !wb_bag_target_end (writing->target, error))
        return FALSE;
    }
  return TRUE;
}

/* Returns: (transfer container) (element-type WbBagItem): all of a bag, by name. */
static GPtrArray *
all_items (GPtrArray *items,
           GPtrArray *tags)
{
  GPtrArray *all = g_ptr_array_new ();

  for (guint i = 0; i < items->len; i++)
    g_ptr_array_add (all, g_ptr_array_index (items, i));
  for (guint i = 0; i < tags->len; i++)
    g_ptr_array_add (all, g_ptr_array_index (tags, i));
  g_ptr_array_sort (all, by_path);
  return all;
}

gboolean
wb_bag_write (const char          *target,
              const char          *base,
              GPtrArray           *items,
              const char *const   *info,
              gboolean             replace,
              WbBagProgressFunc    progress,
              gpointer             data,
              GCancellable        *cancellable,
              GError             **error)
{
  g_autoptr (GPtrArray) tags = NULL;
  g_autoptr (GPtrArray) all = NULL;
  g_autoptr (WbBagTarget) place = NULL;
  Writing writing = { NULL, progress, data, cancellable };

  g_return_val_if_fail (target != NULL && base != NULL, FALSE);
  g_return_val_if_fail (items != NULL && info != NULL, FALSE);

  g_ptr_array_sort (items, by_path);
  if (!check_items (items, &writing.all, error))
    return FALSE;
  if (g_file_test (target, G_FILE_TEST_EXISTS) && !(replace && wb_bag_name_is_archive (target)))
    return wb_share_fail (error, EEXIST, target);

  tags = make_tag_files (items, info, writing.all);
  add_tag_file (tags, "tagmanifest-sha256.txt", make_manifest (tags));
  all = all_items (items, tags);
  place = wb_bag_target_new (target, base, error);
  if (place == NULL)
    return FALSE;
  writing.target = place;
  return write_items (&writing, all, error) && wb_bag_target_finish (place, replace, error);
}
