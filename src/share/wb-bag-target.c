/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes files into a folder, or through libarchive into one archive. Which files these are is
 * decided in wb-bag-write.c. */
#define _GNU_SOURCE   /* renameat2 () */
#include "config.h"

#include "share/wb-bag-target.h"

#include "share/wb-archive.h"
#include "share/wb-bag-name.h"
#include "share/wb-bag.h"
#include "share/wb-share.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Bytes of the folder's name inside of an archive. */
#define MAX_BASE 100

struct _WbBagTarget
{
  char                 *path;
  char                 *temporary;   /* (nullable): a folder or a file; NULL once in place */
  char                 *base;

  /* a folder */
  GPtrArray            *folders;     /* made in it, in their order */
  char                 *file;        /* that is being written */

  /* an archive */
  struct archive       *archive;     /* (nullable) */
  gboolean              zip;

  int                   fd;          /* of the file, or of the archive */
};

/* --- names ------------------------------------------------------------------------------------ */

static gboolean
ends_in (const char *name,
         const char *ending)
{
  gsize length = strlen (name), wanted = strlen (ending);

  return length > wanted && g_ascii_strcasecmp (name + length - wanted, ending) == 0;
}

gboolean
wb_bag_name_is_archive (const char *target)
{
  return ends_in (target, ".zip") || ends_in (target, ".tar.gz") || ends_in (target, ".tgz");
}

/* A name that every reader takes. */
static char *
plain_name (const char *name)
{
  g_autofree char *plain = g_strndup (name, MAX_BASE);
  gsize length;

  g_strcanon (plain, G_CSET_A_2_Z G_CSET_a_2_z G_CSET_DIGITS "-_.", '-');
  length = strlen (plain);
  if (length > 0 && plain[length - 1] == '.')
    plain[length - 1] = '-';
  return wb_bag_name_check (plain, NULL) ? g_steal_pointer (&plain) : g_strdup ("bundle");
}

/* --- archives --------------------------------------------------------------------------------- */

static gboolean
fail_archive (WbBagTarget  *self,
              GError      **error)
{
  int code = archive_errno (self->archive);

  return wb_share_fail (error, code > 0 ? code : EIO, self->path);
}

static gboolean
open_archive (WbBagTarget  *self,
              GError      **error)
{
  int status;

  self->fd = g_mkstemp_full (self->temporary, O_WRONLY | O_CLOEXEC, 0666);
  if (self->fd < 0)
    {
      wb_share_fail (error, errno, self->path);
      g_clear_pointer (&self->temporary, g_free);
      return FALSE;
    }
  self->archive = archive_write_new ();
  if (self->zip)
    status = archive_write_set_format_zip (self->archive);
  else
    status = archive_write_set_format_gnutar (self->archive) |
             archive_write_add_filter_gzip (self->archive) |
             archive_write_set_options (self->archive, "gzip:!timestamp");
  return (status == ARCHIVE_OK && archive_write_open_fd (self->archive, self->fd) == ARCHIVE_OK) ||
         fail_archive (self, error);
}

/* Names are ASCII, which every locale has. No owner, and no time: the same input gives the same
 * bytes, on any day and in any zone. */
static gboolean
begin_entry (WbBagTarget  *self,
             const char   *path,
             gint64        size,
             gboolean      pack,
             GError      **error)
{
  g_autofree char *name = g_strconcat (self->base, "/", path, NULL);
  struct archive_entry *entry = archive_entry_new ();
  int status = ARCHIVE_OK;

  archive_entry_set_pathname (entry, name);
  archive_entry_set_filetype (entry, AE_IFREG);
  archive_entry_set_perm (entry, 0644);
  archive_entry_set_size (entry, size);
  if (self->zip)
    status = pack ? archive_write_zip_set_compression_deflate (self->archive)
                  : archive_write_zip_set_compression_store (self->archive);
  if (status == ARCHIVE_OK)
    status = archive_write_header (self->archive, entry);
  archive_entry_free (entry);
  return status == ARCHIVE_OK || fail_archive (self, error);
}

/* --- folders ---------------------------------------------------------------------------------- */

static gboolean
open_folder (WbBagTarget  *self,
             GError      **error)
{
  if (g_mkdtemp_full (self->temporary, 0777) != NULL)
    return TRUE;
  wb_share_fail (error, errno, self->path);
  g_clear_pointer (&self->temporary, g_free);
  return FALSE;
}

/* Makes the folders in which @path lies. */
static gboolean
make_parents (WbBagTarget  *self,
              const char   *path,
              GError      **error)
{
  for (const char *slash = strchr (path, '/'); slash != NULL; slash = strchr (slash + 1, '/'))
    {
      g_autofree char *name = g_strndup (path, (gsize) (slash - path));
      g_autofree char *folder = g_build_filename (self->temporary, name, NULL);

      if (g_ptr_array_find_with_equal_func (self->folders, folder, g_str_equal, NULL))
        continue;
      if (g_mkdir (folder, 0777) != 0)
        return wb_share_fail (error, errno, folder);
      g_ptr_array_add (self->folders, g_steal_pointer (&folder));
    }
  return TRUE;
}

static gboolean
begin_file (WbBagTarget  *self,
            const char   *path,
            GError      **error)
{
  if (!make_parents (self, path, error))
    return FALSE;
  g_free (self->file);
  self->file = g_build_filename (self->temporary, path, NULL);
  self->fd = g_open (self->file, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0666);
  return self->fd >= 0 || wb_share_fail (error, errno, self->file);
}

/* --- both ------------------------------------------------------------------------------------- */

WbBagTarget *
wb_bag_target_new (const char  *path,
                   const char  *base,
                   GError     **error)
{
  g_autoptr (WbBagTarget) self = NULL;
  gboolean opened;

  if (wb_bag_name_is_archive (path) && !wb_archive_open (error))
    return NULL;
  self = g_new0 (WbBagTarget, 1);
  self->path = g_canonicalize_filename (path, NULL);
  self->temporary = g_strconcat (self->path, ".XXXXXX", NULL);
  self->base = plain_name (base);
  self->folders = g_ptr_array_new_with_free_func (g_free);
  self->fd = -1;
  self->zip = ends_in (path, ".zip");
  opened = wb_bag_name_is_archive (path) ? open_archive (self, error) : open_folder (self, error);
  return opened ? g_steal_pointer (&self) : NULL;
}

gboolean
wb_bag_target_begin (WbBagTarget  *self,
                     const char   *path,
                     gint64        size,
                     gboolean      pack,
                     GError      **error)
{
  return self->archive != NULL ? begin_entry (self, path, size, pack, error)
                               : begin_file (self, path, error);
}

gboolean
wb_bag_target_write (WbBagTarget   *self,
                     const guint8  *bytes,
                     gsize          length,
                     GError       **error)
{
  while (length > 0)
    {
      gssize written;

      if (self->archive != NULL)
        written = archive_write_data (self->archive, bytes, length);
      else
        written = write (self->fd, bytes, length);
      if (self->archive == NULL && written < 0 && errno == EINTR)
        continue;
      if (written <= 0)
        return self->archive != NULL ? fail_archive (self, error)
                                     : wb_share_fail (error, errno, self->file);
      bytes += written;
      length -= (gsize) written;
    }
  return TRUE;
}

/* Returns: an errno. */
static int
sync_and_close (int *fd)
{
  int code = fsync (*fd) != 0 && errno != EINVAL && errno != EROFS && errno != ENOTSUP ? errno : 0;

  if (close (*fd) != 0 && code == 0)
    code = errno;
  *fd = -1;
  return code;
}

static int
sync_folder (const char *path)
{
  int fd = open (path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

  return fd >= 0 ? sync_and_close (&fd) : errno;
}

gboolean
wb_bag_target_end (WbBagTarget  *self,
                   GError      **error)
{
  int code;

  if (self->archive != NULL)
    return archive_write_finish_entry (self->archive) == ARCHIVE_OK || fail_archive (self, error);
  code = sync_and_close (&self->fd);
  return code == 0 || wb_share_fail (error, code, self->file);
}

static gboolean
finish_contents (WbBagTarget  *self,
                 GError      **error)
{
  int code = 0;

  if (self->archive != NULL)
    {
      if (archive_write_close (self->archive) != ARCHIVE_OK)
        return fail_archive (self, error);
      code = sync_and_close (&self->fd);
      return code == 0 || wb_share_fail (error, code, self->path);
    }
  for (guint i = 0; i < self->folders->len && code == 0; i++)
    code = sync_folder (g_ptr_array_index (self->folders, i));
  if (code == 0)
    code = sync_folder (self->temporary);
  return code == 0 || wb_share_fail (error, code, self->path);
}

/* Returns: an errno. Where the file system cannot rename without replacing, a look beforehand has
 * to do. */
static int
put_in_place (const char *temporary,
              const char *path,
              gboolean    replace)
{
  struct stat about;

  if (replace)
    return rename (temporary, path) == 0 ? 0 : errno;
  if (renameat2 (AT_FDCWD, temporary, AT_FDCWD, path, RENAME_NOREPLACE) == 0)
    return 0;
  if (errno != EINVAL && errno != ENOSYS)
    return errno;
  if (lstat (path, &about) == 0)
    return EEXIST;
  return rename (temporary, path) == 0 ? 0 : errno;
}

gboolean
wb_bag_target_finish (WbBagTarget  *self,
                      gboolean      replace,
                      GError      **error)
{
  g_autofree char *parent = g_path_get_dirname (self->path);
  int code;

  if (!finish_contents (self, error))
    return FALSE;
  code = put_in_place (self->temporary, self->path, replace && self->archive != NULL);
  if (code != 0)
    return wb_share_fail (error, code, self->path);
  g_clear_pointer (&self->temporary, g_free);
  code = sync_folder (parent);
  return code == 0 || wb_share_fail (error, code, self->path);
}

static void
remove_tree (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *child = g_build_filename (path, name, NULL);

      remove_tree (child);
    }
  g_remove (path);
}

void
wb_bag_target_free (WbBagTarget *self)
{
  /* What was not finished gets its end now, in a file that goes in the next moment: libarchive frees
   * a compressor only by ending its work. */
  if (self->archive != NULL)
    archive_write_free (self->archive);
  if (self->fd >= 0)
    close (self->fd);
  if (self->temporary != NULL)
    remove_tree (self->temporary);
  g_free (self->temporary);
  g_free (self->path);
  g_free (self->base);
  g_free (self->file);
  g_ptr_array_unref (self->folders);
  g_free (self);
}
