/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bringing the files of a version here, and looking whether they are all there and unaltered. A
 * file lies under its hash, and under that with ".part" until it is whole. */
#include "config.h"

#include "share/wb-depot-private.h"

#include "share/wb-share.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#define CHUNK (256 * 1024)

/* @seen: whether every byte so far was read from the server
 * @missed: whether something is not there, or is not what it should be */
typedef struct
{
  WbDepot              *depot;
  const char           *folder;
  gboolean              seen;
  gboolean              missed;
  WbRemoteProgressFunc  progress;
  gpointer              progress_data;
  gint64                done;
  gint64                total;
  GCancellable         *cancellable;
} Fetch;

/* One file on its way. @fd: -1 when nothing is kept of it */
typedef struct
{
  const WbVersionFile *file;
  const char          *path;
  int                  fd;
  gint64               size;
  GChecksum           *checksum;
} Incoming;

static void
tell_progress (gint64   done,
               gint64   total,
               gpointer data)
{
  Fetch *self = data;

  if (self->progress != NULL)
    self->progress (self->done + done, self->total, self->progress_data);
}

static gboolean
write_all (int            fd,
           const char    *path,
           const guint8  *bytes,
           gsize          length,
           GError       **error)
{
  while (length > 0)
    {
      gssize n = write (fd, bytes, length);

      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return wb_share_fail (error, errno, path);
      bytes += n;
      length -= (gsize) n;
    }
  return TRUE;
}

/* Takes no more than there has to be, whatever the server sends. */
static gboolean
take_bytes (const guint8  *bytes,
            gsize          length,
            gpointer       data,
            GError       **error)
{
  Incoming *self = data;

  if ((gint64) length > self->file->size - self->size)
    return wb_share_refuse (error, WB_SHARE_ERROR_ALTERED, self->path,
                            "it is longer than its version says");
  if (self->fd >= 0 && !write_all (self->fd, self->path, bytes, length, error))
    return FALSE;
  g_checksum_update (self->checksum, bytes, (gssize) length);
  self->size += (gint64) length;
  return TRUE;
}

static gboolean
is_whole (const Incoming *self)
{
  g_autoptr (GChecksum) copy = g_checksum_copy (self->checksum);

  return self->size == self->file->size &&
         strcmp (g_checksum_get_string (copy), self->file->sha256) == 0;
}

/* --- files of this computer ------------------------------------------------------------------- */

/* Takes what is in @fd, which stands at its start, into the checksum. */
static gboolean
read_back (Incoming      *self,
           const char    *name,
           GCancellable  *cancellable,
           GError       **error)
{
  g_autofree guint8 *chunk = g_malloc (CHUNK);

  for (;;)
    {
      gssize n;

      if (g_cancellable_set_error_if_cancelled (cancellable, error))
        return FALSE;
      n = read (self->fd, chunk, CHUNK);
      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return wb_share_fail (error, errno, name);
      if (n == 0)
        return TRUE;
      g_checksum_update (self->checksum, chunk, n);
      self->size += n;
    }
}

static gboolean
is_here (const WbVersionFile *file,
         const char          *name,
         GCancellable        *cancellable)
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  Incoming incoming = { file, name, -1, 0, checksum };
  gboolean here;

  incoming.fd = g_open (name, O_RDONLY | O_CLOEXEC | O_NOFOLLOW, 0);
  if (incoming.fd < 0)
    return FALSE;
  here = read_back (&incoming, name, cancellable, NULL) && is_whole (&incoming);
  close (incoming.fd);
  return here;
}

static gboolean
start_anew (Incoming    *self,
            const char  *part,
            GError     **error)
{
  if (ftruncate (self->fd, 0) != 0 || lseek (self->fd, 0, SEEK_SET) != 0)
    return wb_share_fail (error, errno, part);
  self->size = 0;
  g_checksum_reset (self->checksum);
  return TRUE;
}

static gboolean
keep (Incoming    *self,
      const char  *part,
      const char  *name,
      GError     **error)
{
  if (fsync (self->fd) != 0 || g_rename (part, name) != 0)
    return wb_share_fail (error, errno, name);
  return TRUE;
}

/* --- one file --------------------------------------------------------------------------------- */

static gboolean
receive (Fetch     *self,
         Incoming  *incoming,
         GError   **error)
{
  g_autoptr (GError) fault = NULL;

  if (incoming->size == incoming->file->size && incoming->size > 0)
    return TRUE;
  if (wb_remote_get (self->depot->remote, incoming->path, incoming->size, take_bytes, incoming,
                     tell_progress, self, self->cancellable, &fault))
    return TRUE;
  self->missed = g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
  if (self->missed)
    return wb_share_refuse (error, WB_SHARE_ERROR_INCOMPLETE, incoming->path,
                            "it is not on the server");
  /* It goes on beyond what its version says. */
  self->missed = g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_ALTERED);
  g_propagate_error (error, g_steal_pointer (&fault));
  return FALSE;
}

/* What was here of it may be of something else: then it comes once more, from its start. */
static gboolean
complete (Fetch       *self,
          Incoming    *incoming,
          const char  *part,
          GError     **error)
{
  g_autoptr (GError) fault = NULL;
  gboolean resumed;

  if (!read_back (incoming, part, self->cancellable, error))
    return FALSE;
  resumed = incoming->size > 0;
  self->seen = self->seen && !resumed;
  if (incoming->size > incoming->file->size && !start_anew (incoming, part, error))
    return FALSE;
  if (!receive (self, incoming, &fault))
    {
      if (!resumed || !g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_ALTERED))
        {
          g_propagate_error (error, g_steal_pointer (&fault));
          return FALSE;
        }
    }
  if (!is_whole (incoming) && resumed &&
      (!start_anew (incoming, part, error) || !receive (self, incoming, error)))
    return FALSE;
  self->missed = !is_whole (incoming);
  return !self->missed || wb_share_refuse (error, WB_SHARE_ERROR_ALTERED, incoming->path,
                                           "it is not what its version says");
}

static gboolean
fetch_file (Fetch                *self,
            const WbVersionFile  *file,
            GError              **error)
{
  g_autofree char *path = wb_depot_object_path (file->sha256);
  g_autofree char *name = g_build_filename (self->folder, file->sha256, NULL);
  g_autofree char *part = g_strconcat (name, ".part", NULL);
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  Incoming incoming = { file, path, -1, 0, checksum };
  gboolean done;

  if (is_here (file, name, self->cancellable))
    self->seen = FALSE;
  else
    {
      incoming.fd = g_open (part, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
      if (incoming.fd < 0)
        return wb_share_fail (error, errno, part);
      done = complete (self, &incoming, part, error) && keep (&incoming, part, name, error);
      close (incoming.fd);
      if (!done)
        {
          /* A part that can never become whole is in the way of the next attempt. */
          if (incoming.size >= file->size)
            g_unlink (part);
          return FALSE;
        }
    }
  self->done += file->size;
  tell_progress (0, self->total, self);
  return !g_cancellable_set_error_if_cancelled (self->cancellable, error);
}

/* Remembers what was found of the version as a whole. */
static void
note_found (const Fetch     *self,
            const WbVersion *version)
{
  if (self->missed)
    wb_depot_cache_set_complete (self->depot->cache, version->sha256, 0);
  else if (self->seen)
    wb_depot_cache_set_complete (self->depot->cache, version->sha256,
                                 g_get_real_time () / G_USEC_PER_SEC);
  wb_depot_cache_save (self->depot->cache);
}

static gboolean
fetch_files (Fetch            *self,
             const WbVersion  *version,
             GError          **error)
{
  if (!fetch_file (self, &version->document, error))
    return FALSE;
  for (guint i = 0; i < version->files->len; i++)
    if (!fetch_file (self, g_ptr_array_index (version->files, i), error))
      return FALSE;
  return TRUE;
}

/* The document alone says nothing of the other files: that it came is not remembered, that it did not
 * come is. */
gboolean
wb_depot_fetch_document (WbDepot               *depot,
                         const WbVersion       *version,
                         const char            *folder,
                         WbRemoteProgressFunc   progress,
                         gpointer               progress_data,
                         GCancellable          *cancellable,
                         GError               **error)
{
  Fetch self = { depot, folder, FALSE, FALSE, progress, progress_data, 0, version->document.size,
                 cancellable };
  gboolean done;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    return wb_share_fail (error, errno, folder);
  done = fetch_file (&self, &version->document, error);
  note_found (&self, version);
  return done;
}

gboolean
wb_depot_fetch (WbDepot               *depot,
                const WbVersion       *version,
                const char            *folder,
                WbRemoteProgressFunc   progress,
                gpointer               progress_data,
                GCancellable          *cancellable,
                GError               **error)
{
  Fetch self = { depot, folder, TRUE, FALSE, progress, progress_data, 0, 0, cancellable };
  gboolean done;

  g_return_val_if_fail (version->files != NULL, FALSE);

  if (g_mkdir_with_parents (folder, 0700) != 0)
    return wb_share_fail (error, errno, folder);
  self.total = wb_depot_total_size (version);
  done = fetch_files (&self, version, error);
  self.seen = self.seen && done;
  note_found (&self, version);
  return done;
}

/* --- verifying -------------------------------------------------------------------------------- */

static gboolean
read_object (Fetch                *self,
             const WbVersionFile  *file,
             const char           *path,
             WbDepotState         *state,
             GError              **error)
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  Incoming incoming = { file, path, -1, 0, checksum };
  g_autoptr (GError) fault = NULL;

  if (wb_remote_get (self->depot->remote, path, 0, take_bytes, &incoming, tell_progress, self,
                     self->cancellable, &fault))
    {
      *state = is_whole (&incoming) ? WB_DEPOT_SAME
             : incoming.size == file->size ? WB_DEPOT_ALTERED : WB_DEPOT_SIZE;
      return TRUE;
    }
  *state = g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND) ? WB_DEPOT_MISSING
                                                                             : WB_DEPOT_SIZE;
  if (*state == WB_DEPOT_MISSING || g_error_matches (fault, WB_SHARE_ERROR, WB_SHARE_ERROR_ALTERED))
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&fault));
  return FALSE;
}

static gboolean
verify_file (Fetch                *self,
             const WbVersionFile  *file,
             WbDepotStateFunc      tell,
             gpointer              data,
             GError              **error)
{
  g_autofree char *path = wb_depot_object_path (file->sha256);
  WbDepotState state;

  if (!read_object (self, file, path, &state, error))
    return FALSE;
  self->missed = self->missed || state != WB_DEPOT_SAME;
  tell (file, state, data);
  self->done += file->size;
  tell_progress (0, self->total, self);
  return TRUE;
}

static gboolean
verify_files (Fetch             *self,
              const WbVersion   *version,
              WbDepotStateFunc   tell,
              gpointer           data,
              GError           **error)
{
  if (!verify_file (self, &version->document, tell, data, error))
    return FALSE;
  for (guint i = 0; i < version->files->len; i++)
    if (!verify_file (self, g_ptr_array_index (version->files, i), tell, data, error))
      return FALSE;
  return TRUE;
}

gboolean
wb_depot_verify (WbDepot               *depot,
                 const WbVersion       *version,
                 WbDepotStateFunc       tell,
                 gpointer               data,
                 WbRemoteProgressFunc   progress,
                 gpointer               progress_data,
                 GCancellable          *cancellable,
                 GError               **error)
{
  Fetch self = { depot, NULL, TRUE, FALSE, progress, progress_data, 0, 0, cancellable };
  gboolean done;

  g_return_val_if_fail (version->files != NULL, FALSE);

  self.total = wb_depot_total_size (version);
  done = verify_files (&self, version, tell, data, error);
  self.seen = done;
  note_found (&self, version);
  return done;
}
