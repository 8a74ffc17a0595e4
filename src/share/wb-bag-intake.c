/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The private folder: files go in under numbers, through a hash, and never more than the limits
 * allow. Which of them a bag should have is not known here. */
#include "config.h"

#include "share/wb-bag-private.h"

#include "share/wb-bag-name.h"
#include "share/wb-share.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

struct _WbBagIntake
{
  const WbBagLimits *limits;
  char              *folder;
  GPtrArray         *files;
  GPtrArray         *folders;     /* names */
  GHashTable        *names;       /* key → how it is written, of files */
  GHashTable        *parents;     /* the same of folders, named or implied */
  gint64             total;

  /* the file that is being taken in */
  WbBagFile         *file;
  GChecksum         *checksum;
  int                fd;
  guint8             head[WB_BAG_HEAD];
  gsize              head_length;
};

/* --- making and removing ---------------------------------------------------------------------- */

static void
file_free (gpointer data)
{
  WbBagFile *file = data;

  g_free (file->path);
  g_free (file->copy);
  g_free (file->sha256);
  g_free (file);
}

void
wb_bag_remove_scratch (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (folder);
}

WbBagIntake *
wb_bag_intake_new (const char         *scratch,
                   const WbBagLimits  *limits,
                   GError            **error)
{
  g_autofree char *folder = g_build_filename (scratch, "bundle-XXXXXX", NULL);
  WbBagIntake *self;

  if (g_mkdir_with_parents (scratch, 0700) != 0 || g_mkdtemp_full (folder, 0700) == NULL)
    {
      wb_share_fail (error, errno, scratch);
      return NULL;
    }
  self = g_new0 (WbBagIntake, 1);
  self->limits = limits;
  self->folder = g_steal_pointer (&folder);
  self->files = g_ptr_array_new_with_free_func (file_free);
  self->folders = g_ptr_array_new_with_free_func (g_free);
  self->names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->parents = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->fd = -1;
  return self;
}

static void
drop_file (WbBagIntake *self)
{
  if (self->fd >= 0)
    close (self->fd);
  self->fd = -1;
  g_clear_pointer (&self->checksum, g_checksum_free);
  self->file = NULL;
}

void
wb_bag_intake_free (WbBagIntake *self)
{
  drop_file (self);
  if (self->folder != NULL)
    wb_bag_remove_scratch (self->folder);
  g_free (self->folder);
  g_clear_pointer (&self->files, g_ptr_array_unref);
  g_clear_pointer (&self->folders, g_ptr_array_unref);
  g_hash_table_unref (self->names);
  g_hash_table_unref (self->parents);
  g_free (self);
}

void
wb_bag_intake_steal (WbBagIntake  *self,
                     char        **folder,
                     GPtrArray   **files,
                     GPtrArray   **folders)
{
  *folder = g_steal_pointer (&self->folder);
  *files = g_steal_pointer (&self->files);
  *folders = g_steal_pointer (&self->folders);
}

gint64
wb_bag_intake_total (const WbBagIntake *self)
{
  return self->total;
}

/* --- names ------------------------------------------------------------------------------------ */

static gboolean
refuse_clash (const char  *path,
              const char  *other,
              GError     **error)
{
  g_autofree char *name = wb_bag_name_display (other);

  if (strcmp (path, other) == 0)
    return wb_share_refuse (error, WB_SHARE_ERROR_CLASH, path, "the name is there twice");
  return wb_share_refuse (error, WB_SHARE_ERROR_CLASH, path,
                          "“%s” is there too, and some computers take both for the same", name);
}

/* Enters a folder and those that it lies in, each of which may be written in one way only. */
static gboolean
enter_folder (WbBagIntake  *self,
              const char   *path,
              GError      **error)
{
  g_autofree char *key = wb_bag_name_key (path);
  const char *slash = strrchr (path, '/');
  const char *other = g_hash_table_lookup (self->names, key);

  if (other != NULL)
    return refuse_clash (path, other, error);
  other = g_hash_table_lookup (self->parents, key);
  if (other != NULL)
    return strcmp (other, path) == 0 || refuse_clash (path, other, error);
  if (g_hash_table_size (self->parents) >= self->limits->max_files)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, path, "there are more than %u folders",
                            self->limits->max_files);
  g_hash_table_insert (self->parents, g_steal_pointer (&key), g_strdup (path));
  if (slash != NULL)
    {
      g_autofree char *parent = g_strndup (path, (gsize) (slash - path));

      return enter_folder (self, parent, error);
    }
  return TRUE;
}

gboolean
wb_bag_intake_folder (WbBagIntake  *self,
                      const char   *path,
                      GError      **error)
{
  if (!wb_bag_name_check (path, error) || !enter_folder (self, path, error))
    return FALSE;
  g_ptr_array_add (self->folders, g_strdup (path));
  if (self->folders->len > self->limits->max_files)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, path, "there are more than %u folders",
                            self->limits->max_files);
  return TRUE;
}

static gboolean
enter_file (WbBagIntake  *self,
            const char   *path,
            GError      **error)
{
  g_autofree char *key = wb_bag_name_key (path);
  const char *slash = strrchr (path, '/');
  const char *other = g_hash_table_lookup (self->names, key);

  if (other == NULL)
    other = g_hash_table_lookup (self->parents, key);
  if (other != NULL)
    return refuse_clash (path, other, error);
  if (slash != NULL)
    {
      g_autofree char *parent = g_strndup (path, (gsize) (slash - path));

      if (!enter_folder (self, parent, error))
        return FALSE;
    }
  g_hash_table_insert (self->names, g_steal_pointer (&key), g_strdup (path));
  return TRUE;
}

/* --- files ------------------------------------------------------------------------------------ */

gboolean
wb_bag_intake_begin (WbBagIntake  *self,
                     const char   *path,
                     GError      **error)
{
  g_autofree char *number = g_strdup_printf ("%u", self->files->len);
  WbBagFile *file;

  g_return_val_if_fail (self->file == NULL, FALSE);

  if (self->files->len >= self->limits->max_files)
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, path, "there are more than %u files",
                            self->limits->max_files);
  if (!wb_bag_name_check (path, error) || !enter_file (self, path, error))
    return FALSE;

  file = g_new0 (WbBagFile, 1);
  file->path = g_strdup (path);
  file->copy = g_build_filename (self->folder, number, NULL);
  g_ptr_array_add (self->files, file);
  self->fd = g_open (file->copy, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (self->fd < 0)
    return wb_share_fail (error, errno, file->copy);
  self->file = file;
  self->checksum = g_checksum_new (G_CHECKSUM_SHA256);
  self->head_length = 0;
  return TRUE;
}

static void
keep_head (WbBagIntake  *self,
           const guint8 *bytes,
           gsize         length)
{
  gsize n = MIN (length, sizeof self->head - self->head_length);

  if (n > 0)
    memcpy (self->head + self->head_length, bytes, n);
  self->head_length += n;
}

gboolean
wb_bag_intake_write (WbBagIntake    *self,
                     gconstpointer   bytes,
                     gsize           length,
                     GError        **error)
{
  const guint8 *at = bytes;

  if (length > (gsize) (self->limits->max_file_bytes - self->file->size))
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, self->file->path,
                            "the file has more than %" G_GINT64_FORMAT " bytes",
                            self->limits->max_file_bytes);
  if (length > (gsize) (self->limits->max_bytes - self->total))
    return wb_share_refuse (error, WB_SHARE_ERROR_LIMIT, self->file->path,
                            "here all files together pass %" G_GINT64_FORMAT " bytes",
                            self->limits->max_bytes);
  self->file->size += (gint64) length;
  self->total += (gint64) length;
  g_checksum_update (self->checksum, at, (gssize) length);
  keep_head (self, at, length);
  while (length > 0)
    {
      gssize written = write (self->fd, at, length);

      if (written < 0 && errno == EINTR)
        continue;
      if (written < 0)
        return wb_share_fail (error, errno, self->file->copy);
      at += written;
      length -= (gsize) written;
    }
  return TRUE;
}

gboolean
wb_bag_intake_end (WbBagIntake  *self,
                   GError      **error)
{
  WbBagFile *file = self->file;
  int code = close (self->fd) != 0 ? errno : 0;

  self->fd = -1;
  file->sha256 = g_strdup (g_checksum_get_string (self->checksum));
  drop_file (self);
  if (code != 0)
    return wb_share_fail (error, code, file->copy);
  if (wb_bag_is_archive (self->head, self->head_length))
    return wb_share_refuse (error, WB_SHARE_ERROR_NESTED, file->path,
                            "this is an archive or a compressed file itself");
  return TRUE;
}

gboolean
wb_bag_is_archive (const guint8 *head,
                   gsize         length)
{
  static const struct
  {
    gsize       at;
    gsize       length;
    const char *bytes;
  } signs[] = {
    { 0, 4, "PK\x03\x04" }, { 0, 4, "PK\x05\x06" }, { 0, 4, "PK\x07\x08" },
    { 0, 3, "\x1f\x8b\x08" }, { 0, 2, "\x1f\x9d" }, { 0, 3, "BZh" },
    { 0, 6, "\xfd" "7zXZ\0" }, { 0, 4, "\x28\xb5\x2f\xfd" }, { 0, 4, "\x04\x22\x4d\x18" },
    { 0, 6, "7z\xbc\xaf\x27\x1c" }, { 0, 6, "Rar!\x1a\x07" }, { 0, 4, "MSCF" },
    { 0, 4, "xar!" }, { 0, 7, "!<arch>" }, { 0, 6, "070701" }, { 0, 6, "070707" },
    { 257, 5, "ustar" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    if (length >= signs[i].at + signs[i].length &&
        memcmp (head + signs[i].at, signs[i].bytes, signs[i].length) == 0)
      return TRUE;
  return FALSE;
}
