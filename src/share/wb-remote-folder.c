/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A remote that is a folder of this computer, most often a share that is mounted on it. Every step
 * below the folder is taken from an open folder and follows no link. */
#define _GNU_SOURCE   /* renameat2 () */
#include "config.h"

#include "share/wb-remote-private.h"

#include "share/wb-share.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define CHUNK (256 * 1024)

/* --- errors ----------------------------------------------------------------------------------- */

static const struct
{
  int           code;
  WbShareError  error;
} errno_table[] = {
  { ENOENT, WB_SHARE_ERROR_NOT_FOUND },
  { ENOTDIR, WB_SHARE_ERROR_NOT_FOUND },
  { EEXIST, WB_SHARE_ERROR_EXISTS },
  { ENOTEMPTY, WB_SHARE_ERROR_EXISTS },
  { EISDIR, WB_SHARE_ERROR_EXISTS },
  { EACCES, WB_SHARE_ERROR_FORBIDDEN },
  { EPERM, WB_SHARE_ERROR_FORBIDDEN },
  { ELOOP, WB_SHARE_ERROR_FORBIDDEN },
  { EROFS, WB_SHARE_ERROR_READ_ONLY },
  { ENOSPC, WB_SHARE_ERROR_FULL },
  { EDQUOT, WB_SHARE_ERROR_FULL },
  { EFBIG, WB_SHARE_ERROR_FULL },
  { EBUSY, WB_SHARE_ERROR_LOCKED },
  { ETXTBSY, WB_SHARE_ERROR_LOCKED },
  { ETIMEDOUT, WB_SHARE_ERROR_TIMEOUT },
  { ENOTCONN, WB_SHARE_ERROR_UNREACHABLE },
  { EHOSTDOWN, WB_SHARE_ERROR_UNREACHABLE },
  { EHOSTUNREACH, WB_SHARE_ERROR_UNREACHABLE },
  { ENETUNREACH, WB_SHARE_ERROR_UNREACHABLE },
  { ECONNABORTED, WB_SHARE_ERROR_UNREACHABLE },
  { ECONNRESET, WB_SHARE_ERROR_UNREACHABLE },
  { ESTALE, WB_SHARE_ERROR_UNREACHABLE },
};

/* Any other fault is the share's own. Returns: %FALSE. */
static gboolean
fail (GError     **error,
      int          code,
      const char  *path)
{
  WbShareError found = WB_SHARE_ERROR_SERVER;

  for (gsize i = 0; i < G_N_ELEMENTS (errno_table); i++)
    if (errno_table[i].code == code)
      found = errno_table[i].error;
  return wb_share_refuse (error, found, path, "%s", g_strerror (code));
}

/* --- the way down ----------------------------------------------------------------------------- */

static int
open_base (WbRemote  *remote,
           GError   **error)
{
  int fd = open (remote->base, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

  if (fd < 0)
    fail (error, errno, remote->base);
  return fd;
}

/* Opens the folder @name of @parent, made if @make and not there. Takes @parent. */
static int
open_step (int          parent,
           const char  *name,
           gboolean     make,
           const char  *path,
           GError     **error)
{
  const int flags = O_RDONLY | O_DIRECTORY | O_CLOEXEC | O_NOFOLLOW;
  int fd = openat (parent, name, flags);

  if (fd < 0 && errno == ENOENT && make && (mkdirat (parent, name, 0777) == 0 || errno == EEXIST))
    fd = openat (parent, name, flags);
  if (fd < 0)
    fail (error, errno, path);
  close (parent);
  return fd;
}

/* Opens the first @n folders of @names. */
static int
open_steps (WbRemote    *remote,
            GStrv        names,
            gsize        n,
            gboolean     make,
            const char  *path,
            GError     **error)
{
  int fd = open_base (remote, error);

  for (gsize i = 0; i < n && fd >= 0; i++)
    fd = open_step (fd, names[i], make, path, error);
  return fd;
}

static int
open_folder (WbRemote    *remote,
             const char  *folder,
             GError     **error)
{
  g_auto (GStrv) names = g_strsplit (folder, "/", -1);

  return open_steps (remote, names, g_strv_length (names), FALSE, folder, error);
}

/* Opens the folder above @path. @name: (out) (transfer none): the last name, in @path */
static int
open_parent (WbRemote    *remote,
             const char  *path,
             gboolean     make,
             const char **name,
             GError     **error)
{
  g_auto (GStrv) names = g_strsplit (path, "/", -1);
  const char *slash = strrchr (path, '/');

  *name = slash != NULL ? slash + 1 : path;
  return open_steps (remote, names, g_strv_length (names) - 1, make, path, error);
}

/* --- looking ---------------------------------------------------------------------------------- */

static gboolean
add_entry (GPtrArray   *entries,
           int          folder,
           const char  *name,
           GError     **error)
{
  struct stat about;

  if (!wb_remote_name_is_plain (name))
    return TRUE;
  if (fstatat (folder, name, &about, AT_SYMLINK_NOFOLLOW) != 0)
    return errno == ENOENT || fail (error, errno, name);
  if (!S_ISREG (about.st_mode) && !S_ISDIR (about.st_mode))
    return TRUE;
  return wb_remote_entries_add (entries, name, about.st_size, about.st_mtime,
                                S_ISDIR (about.st_mode), error);
}

static gboolean
add_entries (GPtrArray     *entries,
             DIR           *dir,
             const char    *folder,
             GCancellable  *cancellable,
             GError       **error)
{
  struct dirent *entry;

  while ((errno = 0, entry = readdir (dir)) != NULL)
    if (g_cancellable_set_error_if_cancelled (cancellable, error) ||
        !add_entry (entries, dirfd (dir), entry->d_name, error))
      return FALSE;
  return errno == 0 || fail (error, errno, folder);
}

static GPtrArray *
folder_list (WbRemote      *remote,
             const char    *folder,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autoptr (GPtrArray) entries = wb_remote_entries_new ();
  int fd = open_folder (remote, folder, error);
  DIR *dir;
  gboolean good;

  if (fd < 0)
    return NULL;
  dir = fdopendir (fd);
  if (dir == NULL)
    {
      fail (error, errno, folder);
      close (fd);
      return NULL;
    }
  good = add_entries (entries, dir, folder, cancellable, error);
  closedir (dir);
  return good ? g_steal_pointer (&entries) : NULL;
}

static gboolean
folder_stat (WbRemote       *remote,
             const char     *path,
             WbRemoteEntry  *entry,
             GCancellable   *cancellable,
             GError        **error)
{
  const char *name;
  int parent = open_parent (remote, path, FALSE, &name, error);
  struct stat about;
  int code;

  if (parent < 0)
    return FALSE;
  code = fstatat (parent, name, &about, AT_SYMLINK_NOFOLLOW) == 0 ? 0 : errno;
  close (parent);
  if (code != 0)
    return fail (error, code, path);
  if (!S_ISREG (about.st_mode) && !S_ISDIR (about.st_mode))
    return wb_share_refuse (error, WB_SHARE_ERROR_FORBIDDEN, path,
                            "this is neither a file nor a folder");
  entry->name = g_strdup (name);
  entry->is_folder = S_ISDIR (about.st_mode);
  entry->size = entry->is_folder ? -1 : about.st_size;
  entry->changed = about.st_mtime;
  return TRUE;
}

/* --- reading ---------------------------------------------------------------------------------- */

static int
open_file (WbRemote     *remote,
           const char   *path,
           struct stat  *about,
           GError      **error)
{
  const char *name;
  int parent = open_parent (remote, path, FALSE, &name, error);
  int fd;

  if (parent < 0)
    return -1;
  fd = openat (parent, name, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
  if (fd < 0 || fstat (fd, about) != 0)
    fail (error, errno, path);
  else if (S_ISREG (about->st_mode))
    {
      close (parent);
      return fd;
    }
  else
    wb_share_refuse (error, WB_SHARE_ERROR_NOT_FOUND, path, "this is not a file");
  if (fd >= 0)
    close (fd);
  close (parent);
  return -1;
}

static gboolean
pass_file (int                    fd,
           const char            *path,
           gint64                 offset,
           gint64                 size,
           WbRemoteSinkFunc       sink,
           gpointer               sink_data,
           WbRemoteProgressFunc   progress,
           gpointer               progress_data,
           GCancellable          *cancellable,
           GError               **error)
{
  g_autofree guint8 *chunk = g_malloc (CHUNK);

  if (offset > size)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, path, "it is shorter than it was");
  if (lseek (fd, offset, SEEK_SET) < 0)
    return fail (error, errno, path);
  while (!g_cancellable_set_error_if_cancelled (cancellable, error))
    {
      gssize got = read (fd, chunk, CHUNK);

      if (got < 0 && errno == EINTR)
        continue;
      if (got < 0)
        return fail (error, errno, path);
      if (got == 0 || offset > size - got)
        return (got == 0 && offset == size) ||
               wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, path,
                                "its size changed while it was read");
      if (!sink (chunk, (gsize) got, sink_data, error))
        return FALSE;
      offset += got;
      if (progress != NULL)
        progress (offset, size, progress_data);
    }
  return FALSE;
}

static gboolean
folder_get (WbRemote              *remote,
            const char            *path,
            gint64                 offset,
            WbRemoteSinkFunc       sink,
            gpointer               sink_data,
            WbRemoteProgressFunc   progress,
            gpointer               progress_data,
            GCancellable          *cancellable,
            GError               **error)
{
  struct stat about;
  int fd = open_file (remote, path, &about, error);
  gboolean good;

  if (fd < 0)
    return FALSE;
  good = pass_file (fd, path, offset, about.st_size, sink, sink_data, progress, progress_data,
                    cancellable, error);
  close (fd);
  return good;
}

/* --- writing ---------------------------------------------------------------------------------- */

static gboolean
write_all (int           fd,
           const guint8 *bytes,
           gsize         length,
           const char   *path,
           GError      **error)
{
  while (length > 0)
    {
      gssize written = write (fd, bytes, length);

      if (written < 0 && errno == EINTR)
        continue;
      if (written <= 0)
        return fail (error, written < 0 ? errno : EIO, path);
      bytes += written;
      length -= (gsize) written;
    }
  return TRUE;
}

static gboolean
write_source (int                    fd,
              const char            *path,
              const WbRemoteSource  *source,
              WbRemoteProgressFunc   progress,
              gpointer               progress_data,
              GCancellable          *cancellable,
              GError               **error)
{
  g_autoptr (WbRemoteReader) reader = wb_remote_reader_new (source, error);
  g_autofree guint8 *chunk = g_malloc (CHUNK);
  gssize got;

  if (reader == NULL)
    return FALSE;
  while ((got = wb_remote_reader_read (reader, chunk, CHUNK, error)) > 0)
    {
      if (g_cancellable_set_error_if_cancelled (cancellable, error) ||
          !write_all (fd, chunk, (gsize) got, path, error))
        return FALSE;
      if (progress != NULL)
        progress (wb_remote_reader_tell (reader), source->size, progress_data);
    }
  if (got < 0 || !wb_remote_reader_finish (reader, error))
    return FALSE;
  return fsync (fd) == 0 || errno == EINVAL || errno == ENOTSUP || fail (error, errno, path);
}

/* A name without a file in it, in the folder @incoming. Two that send the same do not meet. */
static char *
make_part (int                    incoming,
           const WbRemoteSource  *source,
           int                   *fd,
           GError               **error)
{
  g_autofree char *unique = g_uuid_string_random ();
  g_autofree char *part = g_strdup_printf ("%s.%.8s.part", source->sha256, unique);

  *fd = openat (incoming, part, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0666);
  if (*fd < 0)
    {
      fail (error, errno, part);
      return NULL;
    }
  return g_steal_pointer (&part);
}

/* Gives @part the name @name, which nothing may have yet. Some shares know only one of the two ways
 * to do so, and a few know none: there, a look beforehand has to do. Returns: an errno. */
static int
put_in_place (int         incoming,
              const char *part,
              int         parent,
              const char *name)
{
  struct stat about;

  if (renameat2 (incoming, part, parent, name, RENAME_NOREPLACE) == 0)
    return 0;
  if (errno != EINVAL && errno != ENOSYS && errno != ENOTSUP)
    return errno;
  if (linkat (incoming, part, parent, name, 0) == 0)
    return unlinkat (incoming, part, 0) == 0 ? 0 : errno;
  if (errno == EEXIST)
    return EEXIST;
  if (fstatat (parent, name, &about, AT_SYMLINK_NOFOLLOW) == 0)
    return EEXIST;
  return renameat (incoming, part, parent, name) == 0 ? 0 : errno;
}

/* Puts @part, which lies whole in @incoming, at @path. */
static gboolean
place_part (WbRemote    *remote,
            int          incoming,
            const char  *part,
            const char  *path,
            GError     **error)
{
  const char *name;
  int parent = open_parent (remote, path, TRUE, &name, error);
  int code;

  if (parent < 0)
    return FALSE;
  code = put_in_place (incoming, part, parent, name);
  if (code == 0 && fsync (parent) != 0 && errno != EINVAL && errno != ENOTSUP)
    code = errno;
  close (parent);
  return code == 0 || fail (error, code, path);
}

static gboolean
send_part (WbRemote              *remote,
           int                    incoming,
           const char            *path,
           const WbRemoteSource  *source,
           WbRemoteProgressFunc   progress,
           gpointer               progress_data,
           GCancellable          *cancellable,
           GError               **error)
{
  int fd;
  g_autofree char *part = make_part (incoming, source, &fd, error);
  gboolean good;

  if (part == NULL)
    return FALSE;
  good = write_source (fd, path, source, progress, progress_data, cancellable, error);
  if (close (fd) != 0 && good)
    good = fail (error, errno, path);
  good = good && place_part (remote, incoming, part, path, error);
  if (!good)
    unlinkat (incoming, part, 0);
  return good;
}

static gboolean
folder_make_base (WbRemote      *remote,
                  GCancellable  *cancellable,
                  GError       **error)
{
  int fd;

  if (g_mkdir (remote->base, 0777) != 0 && errno != EEXIST)
    return fail (error, errno, remote->base);
  fd = open_base (remote, error);
  if (fd >= 0)
    close (fd);
  return fd >= 0;
}

static gboolean
folder_put (WbRemote              *remote,
            const char            *path,
            const WbRemoteSource  *source,
            WbRemoteProgressFunc   progress,
            gpointer               progress_data,
            GCancellable          *cancellable,
            GError               **error)
{
  g_auto (WbRemoteEntry) found = { NULL };
  int base, incoming;
  gboolean good;

  if (folder_stat (remote, path, &found, cancellable, NULL))
    return fail (error, EEXIST, path);
  base = open_base (remote, error);
  if (base < 0)
    return FALSE;
  incoming = open_step (base, WB_REMOTE_INCOMING, TRUE, path, error);
  if (incoming < 0)
    return FALSE;
  good = send_part (remote, incoming, path, source, progress, progress_data, cancellable, error);
  close (incoming);
  return good;
}

static gboolean
folder_remove (WbRemote      *remote,
               const char    *path,
               GCancellable  *cancellable,
               GError       **error)
{
  const char *name;
  int parent = open_parent (remote, path, FALSE, &name, error);
  int code = 0;

  if (parent < 0)
    return FALSE;
  if (unlinkat (parent, name, 0) != 0)
    code = errno;
  if ((code == EISDIR || code == EPERM) && unlinkat (parent, name, AT_REMOVEDIR) == 0)
    code = 0;
  else if (code == EISDIR)
    code = errno;
  close (parent);
  return code == 0 || fail (error, code, path);
}

/* --- the kind --------------------------------------------------------------------------------- */

static gboolean
folder_open (WbRemote  *remote,
             GError   **error)
{
  return TRUE;
}

static void
folder_close (WbRemote *remote)
{
}

const WbRemoteMethods wb_remote_folder_methods = {
  .size = sizeof (WbRemote),
  .open = folder_open,
  .close = folder_close,
  .make_base = folder_make_base,
  .list = folder_list,
  .stat = folder_stat,
  .get = folder_get,
  .put = folder_put,
  .remove = folder_remove,
};
