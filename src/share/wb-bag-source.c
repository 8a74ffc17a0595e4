/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads folders. Every step down is taken from a folder that is open already and follows no link,
 * so nothing outside is reached, even when somebody changes the folder meanwhile. Archives are read
 * in wb-bag-archive.c. */
#include "config.h"

#include "share/wb-bag-private.h"

#include "share/wb-bag-name.h"
#include "share/wb-share.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define CHUNK (256 * 1024)

typedef struct
{
  WbBagIntake       *intake;
  WbBagProgressFunc  progress;
  gpointer           data;
  GCancellable      *cancellable;
  guint8            *chunk;
} Walk;

/* --- one folder ------------------------------------------------------------------------------- */

static int
by_name (gconstpointer a,
         gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* Takes @fd. Returns: (transfer full) (element-type filename) (nullable). */
static GPtrArray *
list_names (int          fd,
            const char  *path,
            GError     **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  DIR *dir = fdopendir (fd);
  struct dirent *entry;
  int code;

  if (dir == NULL)
    {
      wb_share_fail (error, errno, path);
      close (fd);
      return NULL;
    }
  while ((errno = 0, entry = readdir (dir)) != NULL)
    if (strcmp (entry->d_name, ".") != 0 && strcmp (entry->d_name, "..") != 0)
      g_ptr_array_add (names, g_strdup (entry->d_name));
  code = errno;
  closedir (dir);
  if (code != 0)
    {
      wb_share_fail (error, code, path);
      return NULL;
    }
  g_ptr_array_sort (names, by_name);
  return g_steal_pointer (&names);
}

static gboolean
pass_bytes (Walk        *walk,
            int          fd,
            const char  *path,
            GError     **error)
{
  for (;;)
    {
      gssize length = read (fd, walk->chunk, CHUNK);

      if (g_cancellable_set_error_if_cancelled (walk->cancellable, error))
        return FALSE;
      if (length < 0 && errno == EINTR)
        continue;
      if (length < 0)
        return wb_share_fail (error, errno, path);
      if (length == 0)
        return TRUE;
      if (!wb_bag_intake_write (walk->intake, walk->chunk, (gsize) length, error))
        return FALSE;
      if (walk->progress != NULL)
        walk->progress (wb_bag_intake_total (walk->intake), 0, walk->data);
    }
}

static gboolean walk_folder (Walk        *walk,
                             int          fd,
                             const char  *prefix,
                             GError     **error);

/* Takes @fd, which is what @path is. */
static gboolean
pass_on (Walk        *walk,
         int          fd,
         const char  *path,
         GError     **error)
{
  struct stat about;
  gboolean good = FALSE;

  if (fstat (fd, &about) != 0)
    wb_share_fail (error, errno, path);
  else if (S_ISDIR (about.st_mode))
    return (wb_bag_intake_folder (walk->intake, path, error) || (close (fd), FALSE)) &&
           walk_folder (walk, fd, path, error);
  else if (!S_ISREG (about.st_mode))
    wb_share_refuse (error, WB_SHARE_ERROR_KIND, path,
                            "this is neither a file nor a folder");
  else
    good = wb_bag_intake_begin (walk->intake, path, error) &&
           pass_bytes (walk, fd, path, error) &&
           wb_bag_intake_end (walk->intake, error);
  close (fd);
  return good;
}

static gboolean
pass_entry (Walk        *walk,
            int          folder,
            const char  *name,
            const char  *path,
            GError     **error)
{
  struct stat about;
  int fd;

  /* A device is not even opened. */
  if (fstatat (folder, name, &about, AT_SYMLINK_NOFOLLOW) != 0)
    return wb_share_fail (error, errno, path);
  if (S_ISLNK (about.st_mode))
    return wb_share_refuse (error, WB_SHARE_ERROR_KIND, path, "this is a link");
  if (!S_ISREG (about.st_mode) && !S_ISDIR (about.st_mode))
    return wb_share_refuse (error, WB_SHARE_ERROR_KIND, path,
                            "this is neither a file nor a folder");

  fd = openat (folder, name, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
  if (fd < 0 && errno == ELOOP)
    return wb_share_refuse (error, WB_SHARE_ERROR_KIND, path, "this is a link");
  if (fd < 0)
    return wb_share_fail (error, errno, path);
  return pass_on (walk, fd, path, error);
}

/* Takes @fd. */
static gboolean
walk_folder (Walk        *walk,
             int          fd,
             const char  *prefix,
             GError     **error)
{
  int folder = fcntl (fd, F_DUPFD_CLOEXEC, 0);
  g_autoptr (GPtrArray) names = list_names (fd, prefix, error);
  gboolean good = names != NULL && folder >= 0;

  if (names != NULL && folder < 0)
    wb_share_fail (error, errno, prefix);
  for (guint i = 0; good && i < names->len; i++)
    {
      const char *name = g_ptr_array_index (names, i);
      g_autofree char *path = *prefix != '\0' ? g_strconcat (prefix, "/", name, NULL)
                                              : g_strdup (name);

      good = pass_entry (walk, folder, name, path, error);
    }
  if (folder >= 0)
    close (folder);
  return good;
}

/* --- what there is ---------------------------------------------------------------------------- */

/* Takes @fd. */
static gboolean
read_folder (int                 fd,
             WbBagIntake        *intake,
             WbBagProgressFunc   progress,
             gpointer            data,
             GCancellable       *cancellable,
             GError            **error)
{
  g_autofree guint8 *chunk = g_malloc (CHUNK);
  Walk walk = { intake, progress, data, cancellable, chunk };

  return walk_folder (&walk, fd, "", error);
}

gboolean
wb_bag_source_read (const char         *path,
                    WbBagIntake        *intake,
                    const WbBagLimits  *limits,
                    WbBagProgressFunc   progress,
                    gpointer            data,
                    GCancellable       *cancellable,
                    GError            **error)
{
  int fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  struct stat about;
  gboolean good;

  if (fd < 0)
    return wb_share_fail (error, errno, path);
  if (fstat (fd, &about) != 0)
    good = wb_share_fail (error, errno, path);
  else if (S_ISDIR (about.st_mode))
    return read_folder (fd, intake, progress, data, cancellable, error);
  else if (!S_ISREG (about.st_mode))
    good = wb_share_refuse (error, WB_SHARE_ERROR_KIND, path,
                            "this is neither a file nor a folder");
  else
    good = wb_bag_archive_read (fd, about.st_size, path, intake, limits, progress, data,
                                cancellable, error);
  close (fd);
  return good;
}
