/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes, finds and compares the files of photos. What is in them is not looked at, and which job
 * they belong to is not known here. */
#include "config.h"

#define G_LOG_DOMAIN "wb-store"

#include "store/wb-photo-store.h"

#include "core/wb-photo.h"
#include "store/wb-picture.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define CHUNK (256 * 1024)

/* --- names ------------------------------------------------------------------------------------ */

char *
wb_photo_store_folder (const char *book)
{
  return g_strconcat (book, ".photos", NULL);
}

static char *
drawer_of (const char *folder,
           const char *hash)
{
  const char name[] = { hash[0], hash[1], '\0' };

  return g_build_filename (folder, name, NULL);
}

char *
wb_photo_store_path (const char *folder,
                     const char *hash)
{
  g_autofree char *drawer = NULL;

  if (!wb_photo_hash_is_valid (hash))
    return NULL;

  drawer = drawer_of (folder, hash);
  return g_build_filename (drawer, hash, NULL);
}

/* --- failures --------------------------------------------------------------------------------- */

static gboolean
fail (const char *path,
      int         code,
      GError    **error)
{
  g_autofree char *name = g_filename_display_name (path);

  g_set_error (error, G_IO_ERROR, (int) g_io_error_from_errno (code), "“%s”: %s", name,
               g_strerror (code));
  return FALSE;
}

static gboolean
fail_picture (const char     *path,
              WbPictureError  code,
              const char     *what,
              GError        **error)
{
  g_autofree char *name = g_filename_display_name (path);

  g_set_error (error, WB_PICTURE_ERROR, (int) code, "“%s”: %s", name, what);
  return FALSE;
}

/* --- reading ---------------------------------------------------------------------------------- */

/* A symbolic link in the folder is not what was put there. Does not wait for a pipe. */
static int
open_photo (const char   *path,
            struct stat  *about,
            GError      **error)
{
  int fd = open (path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);

  if (fd < 0 && (errno == ENOENT || errno == ENOTDIR))
    fail_picture (path, WB_PICTURE_ERROR_MISSING, "the file is gone", error);
  else if (fd < 0 && errno == ELOOP)
    fail_picture (path, WB_PICTURE_ERROR_CHANGED, "a link stands where the file was", error);
  else if (fd < 0)
    fail (path, errno, error);
  if (fd < 0)
    return -1;

  if (fstat (fd, about) == 0 && S_ISREG (about->st_mode))
    return fd;
  fail_picture (path, WB_PICTURE_ERROR_CHANGED, "something else stands where the file was", error);
  close (fd);
  return -1;
}

/* Reads to the end and gives each part to @checksum and, when that is wanted, to @bytes. */
static gboolean
read_through (const char    *path,
              int            fd,
              GChecksum     *checksum,
              GByteArray    *bytes,
              GCancellable  *cancellable,
              GError       **error)
{
  g_autofree guint8 *chunk = g_malloc (CHUNK);
  gint64 total = 0;

  for (;;)
    {
      gssize length = read (fd, chunk, CHUNK);

      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
      if (length < 0 && errno == EINTR)
        continue;
      if (length < 0)
        return fail (path, errno, error);
      if (length == 0)
        return TRUE;

      total += length;
      if (total > WB_PHOTO_MAX_BYTES)
        return fail_picture (path, WB_PICTURE_ERROR_CHANGED, "the file has grown", error);
      g_checksum_update (checksum, chunk, length);
      if (bytes != NULL)
        g_byte_array_append (bytes, chunk, (guint) length);
    }
}

/* @bytes: (nullable): gets the contents */
static gboolean
compare_hash (const char    *path,
              int            fd,
              const char    *hash,
              GByteArray    *bytes,
              GCancellable  *cancellable,
              GError       **error)
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);

  if (!read_through (path, fd, checksum, bytes, cancellable, error))
    return FALSE;
  if (strcmp (g_checksum_get_string (checksum), hash) == 0)
    return TRUE;
  return fail_picture (path, WB_PICTURE_ERROR_CHANGED, "the file is not what was taken in", error);
}

/* Returns: (transfer full) (nullable): the path, or %NULL with @error. */
static char *
path_or_error (const char  *folder,
               const char  *hash,
               GError     **error)
{
  char *path = wb_photo_store_path (folder, hash);

  if (path == NULL)
    g_set_error_literal (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_MISSING,
                         "the photo has no usable hash");
  return path;
}

gboolean
wb_photo_store_check (const char    *folder,
                      const char    *hash,
                      gint64         size,
                      gboolean       whole,
                      GCancellable  *cancellable,
                      GError       **error)
{
  g_autofree char *path = path_or_error (folder, hash, error);
  struct stat about;
  gboolean good;
  int fd;

  if (path == NULL)
    return FALSE;

  fd = open_photo (path, &about, error);
  if (fd < 0)
    return FALSE;

  if (size >= 0 && about.st_size != size)
    good = fail_picture (path, WB_PICTURE_ERROR_CHANGED, "the file has another size", error);
  else
    good = !whole || compare_hash (path, fd, hash, NULL, cancellable, error);
  close (fd);
  return good;
}

GBytes *
wb_photo_store_read (const char    *folder,
                     const char    *hash,
                     GCancellable  *cancellable,
                     GError       **error)
{
  g_autofree char *path = path_or_error (folder, hash, error);
  g_autoptr (GByteArray) bytes = NULL;
  struct stat about;
  gboolean good;
  int fd;

  if (path == NULL)
    return NULL;

  fd = open_photo (path, &about, error);
  if (fd < 0)
    return NULL;

  bytes = g_byte_array_sized_new ((guint) CLAMP (about.st_size, 0, WB_PHOTO_MAX_BYTES));
  good = compare_hash (path, fd, hash, bytes, cancellable, error);
  close (fd);
  return good ? g_byte_array_free_to_bytes (g_steal_pointer (&bytes)) : NULL;
}

/* --- taking in -------------------------------------------------------------------------------- */

struct _WbPhotoIntake
{
  char      *folder;
  char      *path;       /* of the temporary file */
  int        fd;
  gint64     size;
  GChecksum *checksum;
};

static gboolean
make_folder (const char  *path,
             GError     **error)
{
  return g_mkdir_with_parents (path, 0777) == 0 || fail (path, errno, error);
}

WbPhotoIntake *
wb_photo_intake_begin (const char  *folder,
                       GError     **error)
{
  g_autoptr (WbPhotoIntake) self = NULL;

  if (!make_folder (folder, error))
    return NULL;

  self = g_new0 (WbPhotoIntake, 1);
  self->folder = g_strdup (folder);
  self->checksum = g_checksum_new (G_CHECKSUM_SHA256);
  self->path = g_build_filename (folder, ".taking-XXXXXX", NULL);
  /* Only to be read, so that nobody retouches it by mistake. */
  self->fd = g_mkstemp_full (self->path, O_WRONLY | O_CLOEXEC, 0444);
  if (self->fd < 0)
    {
      int code = errno;

      g_clear_pointer (&self->path, g_free);
      fail (folder, code, error);
      return NULL;
    }
  return g_steal_pointer (&self);
}

void
wb_photo_intake_free (WbPhotoIntake *self)
{
  if (self->fd >= 0)
    close (self->fd);
  if (self->path != NULL)
    g_unlink (self->path);
  g_free (self->path);
  g_free (self->folder);
  g_checksum_free (self->checksum);
  g_free (self);
}

gboolean
wb_photo_intake_write (WbPhotoIntake  *self,
                       const guint8   *bytes,
                       gsize           length,
                       GError        **error)
{
  if (length > (gsize) (WB_PHOTO_MAX_BYTES - self->size))
    {
      g_set_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_TOO_LARGE,
                   "the file has more than %" G_GINT64_FORMAT " MiB",
                   WB_PHOTO_MAX_BYTES / (1024 * 1024));
      return FALSE;
    }

  self->size += (gint64) length;
  g_checksum_update (self->checksum, bytes, (gssize) length);
  while (length > 0)
    {
      gssize written = write (self->fd, bytes, length);

      if (written < 0 && errno == EINTR)
        continue;
      if (written < 0)
        return fail (self->folder, errno, error);
      bytes += written;
      length -= (gsize) written;
    }
  return TRUE;
}

const char *
wb_photo_intake_get_path (WbPhotoIntake *self)
{
  return self->path;
}

gint64
wb_photo_intake_get_size (WbPhotoIntake *self)
{
  return self->size;
}

/* A name in a folder is on the disk when the folder is. */
static int
sync_folder (const char *path)
{
  int fd = open (path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  int code = 0;

  if (fd < 0)
    return errno;
  if (fsync (fd) != 0 && errno != EINVAL && errno != EROFS && errno != ENOTSUP)
    code = errno;
  close (fd);
  return code;
}

static int
close_synced (WbPhotoIntake *self)
{
  int code = fsync (self->fd) != 0 && errno != EINVAL ? errno : 0;

  if (close (self->fd) != 0 && code == 0)
    code = errno;
  self->fd = -1;
  return code;
}

/* What is there already is what it should be, most likely; else the good file takes its place. */
static gboolean
is_there (WbPhotoIntake *self,
          const char    *hash)
{
  return wb_photo_store_check (self->folder, hash, self->size, TRUE, NULL, NULL);
}

char *
wb_photo_intake_keep (WbPhotoIntake  *self,
                      GError        **error)
{
  const char *hash = g_checksum_get_string (self->checksum);
  g_autofree char *drawer = drawer_of (self->folder, hash);
  g_autofree char *path = wb_photo_store_path (self->folder, hash);
  int code = close_synced (self);

  if (code != 0)
    {
      fail (self->folder, code, error);
      return NULL;
    }
  if (!make_folder (drawer, error))
    return NULL;
  if (is_there (self, hash))
    return g_strdup (hash);

  if (g_rename (self->path, path) != 0)
    {
      fail (path, errno, error);
      return NULL;
    }
  g_clear_pointer (&self->path, g_free);
  code = sync_folder (drawer);
  if (code == 0)
    code = sync_folder (self->folder);
  if (code != 0)
    {
      fail (drawer, code, error);
      return NULL;
    }
  return g_strdup (hash);
}

/* --- what nobody uses ------------------------------------------------------------------------- */

static gboolean
list_drawer (const char  *path,
             GHashTable  *used,
             GPtrArray   *unused,
             GError     **error)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, error);
  const char *name;

  if (dir == NULL)
    return FALSE;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (!g_hash_table_contains (used, name))
      g_ptr_array_add (unused, g_build_filename (path, name, NULL));
  return TRUE;
}

static gint
by_name (gconstpointer a,
         gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

GPtrArray *
wb_photo_store_unused (const char  *folder,
                       GHashTable  *used,
                       GError     **error)
{
  g_autoptr (GPtrArray) unused = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = NULL;
  const char *name;

  if (!g_file_test (folder, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&unused);

  dir = g_dir_open (folder, 0, error);
  if (dir == NULL)
    return NULL;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (!g_file_test (path, G_FILE_TEST_IS_DIR))
        g_ptr_array_add (unused, g_steal_pointer (&path));
      else if (!list_drawer (path, used, unused, error))
        return NULL;
    }
  g_ptr_array_sort (unused, by_name);
  return g_steal_pointer (&unused);
}
