/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads what is sent to a server, from memory or from a file. Each byte passes through the hash as
 * it is read, so that a file that was changed since it was hashed never gets the name of what it
 * was. */
#include "config.h"

#include "share/wb-remote-private.h"

#include "share/wb-hasher.h"
#include "share/wb-share.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define CHUNK (256 * 1024)

struct _WbRemoteReader
{
  const WbRemoteSource *source;
  int                   fd;        /* -1 for memory */
  WbHasher             *hasher;    /* of what was read */
  gint64                position;
};

static const char *
name_of (const WbRemoteSource *source)
{
  const char *slash = source->file != NULL ? strrchr (source->file, '/') : NULL;

  if (slash != NULL)
    return slash + 1;
  return source->file != NULL ? source->file : source->sha256;
}

static gboolean
refuse (const WbRemoteSource  *source,
        const char            *why,
        GError               **error)
{
  return wb_share_refuse (error, WB_SHARE_ERROR_SOURCE, name_of (source), "%s", why);
}

/* Pipes and devices are not waited for. */
static gboolean
open_file (WbRemoteReader  *self,
           GError         **error)
{
  struct stat about;

  self->fd = g_open (self->source->file, O_RDONLY | O_CLOEXEC | O_NONBLOCK, 0);
  if (self->fd < 0 || fstat (self->fd, &about) != 0)
    return refuse (self->source, g_strerror (errno), error);
  if (!S_ISREG (about.st_mode))
    return refuse (self->source, "it is not a file", error);
  return about.st_size == self->source->size ||
         refuse (self->source, "its size is another than it was", error);
}

WbRemoteReader *
wb_remote_reader_new (const WbRemoteSource  *source,
                      GError               **error)
{
  g_autoptr (WbRemoteReader) self = g_new0 (WbRemoteReader, 1);
  gboolean good;

  self->source = source;
  self->fd = -1;
  self->hasher = wb_hasher_new (source->size);
  if (source->file != NULL)
    good = open_file (self, error);
  else
    good = (gint64) g_bytes_get_size (source->bytes) == source->size ||
           refuse (source, "its size is another than it was", error);
  return good ? g_steal_pointer (&self) : NULL;
}

void
wb_remote_reader_free (WbRemoteReader *self)
{
  if (self->fd >= 0)
    close (self->fd);
  wb_hasher_free (self->hasher);
  g_free (self);
}

gint64
wb_remote_reader_tell (const WbRemoteReader *self)
{
  return self->position;
}

static gssize
read_bytes (WbRemoteReader  *self,
            guint8          *buffer,
            gsize            length)
{
  gssize got;

  if (self->fd < 0)
    {
      const guint8 *bytes = g_bytes_get_data (self->source->bytes, NULL);

      memcpy (buffer, bytes + self->position, length);
      return (gssize) length;
    }
  do
    got = read (self->fd, buffer, length);
  while (got < 0 && errno == EINTR);
  return got;
}

gssize
wb_remote_reader_read (WbRemoteReader  *self,
                       guint8          *buffer,
                       gsize            length,
                       GError         **error)
{
  gsize wanted = (gsize) MIN ((gint64) MIN (length, G_MAXINT), self->source->size - self->position);
  gssize got;

  if (wanted == 0)
    return 0;
  got = read_bytes (self, buffer, wanted);
  if (got < 0)
    {
      refuse (self->source, g_strerror (errno), error);
      return -1;
    }
  if (got == 0)
    {
      refuse (self->source, "it ends earlier than it did", error);
      return -1;
    }
  wb_hasher_update (self->hasher, buffer, (gsize) got);
  self->position += got;
  return got;
}

static gboolean
rewind_to_start (WbRemoteReader  *self,
                 GError         **error)
{
  if (self->fd >= 0 && lseek (self->fd, 0, SEEK_SET) != 0)
    return refuse (self->source, g_strerror (errno), error);
  wb_hasher_free (self->hasher);
  self->hasher = wb_hasher_new (self->source->size);
  self->position = 0;
  return TRUE;
}

gboolean
wb_remote_reader_seek (WbRemoteReader  *self,
                       gint64           offset,
                       GError         **error)
{
  g_autofree guint8 *chunk = NULL;

  if (offset < self->position && !rewind_to_start (self, error))
    return FALSE;
  if (offset > self->position)
    chunk = g_malloc (CHUNK);
  while (self->position < offset)
    {
      gssize got = wb_remote_reader_read (self, chunk,
                                          (gsize) MIN (CHUNK, offset - self->position), error);

      if (got < 0)
        return FALSE;
      if (got == 0)
        return refuse (self->source, "it ends earlier than it did", error);
    }
  return TRUE;
}

gboolean
wb_remote_reader_finish (WbRemoteReader  *self,
                         GError         **error)
{
  if (self->position != self->source->size)
    return refuse (self->source, "it was not read to its end", error);
  return strcmp (wb_hasher_finish (self->hasher), self->source->sha256) == 0 ||
         refuse (self->source, "it is not what it was", error);
}
