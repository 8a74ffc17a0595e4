/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads and writes files whole. What stands in them is for others. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <unistd.h>

/* --- reading ---------------------------------------------------------------------------------- */

#define CHUNK (256 * 1024)

GBytes *
wb_file_read (GFile         *file,
              gsize          max,
              GCancellable  *cancellable,
              GError       **error)
{
  g_autoptr (GFileInputStream) stream = NULL;
  g_autoptr (GByteArray) bytes = NULL;
  g_autofree guint8 *chunk = NULL;
  gssize length;

  g_return_val_if_fail (G_IS_FILE (file), NULL);

  stream = g_file_read (file, cancellable, error);
  if (stream == NULL)
    return NULL;

  bytes = g_byte_array_new ();
  chunk = g_malloc (CHUNK);
  while ((length = g_input_stream_read (G_INPUT_STREAM (stream), chunk, CHUNK, cancellable,
                                        error)) > 0)
    {
      if ((gsize) length > max - bytes->len)
        {
          g_autofree char *name = g_file_get_parse_name (file);

          g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                       "“%s” is too large; expected no more than %" G_GSIZE_FORMAT " KiB",
                       name, max / 1024);
          return NULL;
        }
      g_byte_array_append (bytes, chunk, (guint) length);
    }

  if (length < 0)
    return NULL;

  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}

/* --- writing ---------------------------------------------------------------------------------- */

static gboolean
fail (const char *path,
      int         code,
      GError    **error)
{
  g_set_error (error, G_IO_ERROR, (int) g_io_error_from_errno (code), "“%s”: %s", path,
               g_strerror (code));
  return FALSE;
}

static int
write_all (int     fd,
           GBytes *bytes)
{
  gsize left;
  const char *at = g_bytes_get_data (bytes, &left);

  while (left > 0)
    {
      gssize written = write (fd, at, left);

      if (written < 0 && errno == EINTR)
        continue;
      if (written < 0)
        return errno;
      at += written;
      left -= (gsize) written;
    }

  return fsync (fd) != 0 && errno != EINVAL && errno != EROFS ? errno : 0;
}

/* A name that exists is never replaced by link(); where the file system has no hard links, a look
 * beforehand has to do. */
static int
put_in_place (const char *temporary,
              const char *path,
              gboolean    replace)
{
  if (replace)
    return g_rename (temporary, path) == 0 ? 0 : errno;

  if (link (temporary, path) == 0)
    return g_unlink (temporary) == 0 ? 0 : errno;
  if (errno != EPERM && errno != ENOSYS && errno != EOPNOTSUPP)
    return errno;
  if (g_file_test (path, G_FILE_TEST_EXISTS))
    return EEXIST;

  return g_rename (temporary, path) == 0 ? 0 : errno;
}

gboolean
wb_file_write (const char  *path,
               GBytes      *bytes,
               gboolean     replace,
               GError     **error)
{
  g_autofree char *temporary = NULL;
  int fd, code;

  g_return_val_if_fail (path != NULL, FALSE);
  g_return_val_if_fail (bytes != NULL, FALSE);

  if (g_file_test (path, G_FILE_TEST_IS_DIR))
    return fail (path, EISDIR, error);
  if (!replace && g_file_test (path, G_FILE_TEST_EXISTS))
    return fail (path, EEXIST, error);

  temporary = g_strconcat (path, ".XXXXXX", NULL);
  fd = g_mkstemp_full (temporary, O_WRONLY | O_CLOEXEC, 0666);
  if (fd < 0)
    return fail (path, errno, error);

  code = write_all (fd, bytes);
  if (close (fd) != 0 && code == 0)
    code = errno;
  if (code == 0)
    code = put_in_place (temporary, path, replace);
  if (code == 0)
    return TRUE;

  g_unlink (temporary);
  return fail (path, code, error);
}
