/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The known_hosts file is read and written whole; one thread of the program at a time. */
#include "config.h"

#include "share/wb-host-key.h"

#include "share/wb-share.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>

#define SSH_PORT 22

static GMutex file_lock;

char *
wb_host_key_fingerprint (const guint8 *key,
                         gsize         length)
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autofree char *text = NULL;
  guint8 digest[32];
  gsize size = sizeof digest;

  g_checksum_update (checksum, key, (gssize) length);
  g_checksum_get_digest (checksum, digest, &size);
  text = g_base64_encode (digest, size);
  text[strcspn (text, "=")] = '\0';
  return g_strconcat ("SHA256:", text, NULL);
}

char *
wb_host_key_kind (const guint8 *key,
                  gsize         length)
{
  gsize size;

  if (length < 4 || length > WB_HOST_KEY_MAX_KEY)
    return NULL;
  size = (gsize) key[0] << 24 | (gsize) key[1] << 16 | (gsize) key[2] << 8 | (gsize) key[3];
  if (size == 0 || size > 64 || size >= length - 4)
    return NULL;
  for (gsize i = 4; i < 4 + size; i++)
    if (!g_ascii_isalnum (key[i]) && strchr ("-@._", key[i]) == NULL)
      return NULL;
  return g_strndup ((const char *) key + 4, size);
}

/* --- the file's text -------------------------------------------------------------------------- */

/* The name that a server has in the file. */
static char *
file_name_of (const char *host,
              guint       port)
{
  g_autofree char *small = g_ascii_strdown (host, -1);

  return port == SSH_PORT ? g_steal_pointer (&small) : g_strdup_printf ("[%s]:%u", small, port);
}

/* Whether @names, the first word of a line, has @name among those that commas part. */
static gboolean
names_have (const char *names,
            const char *name)
{
  g_auto (GStrv) all = g_strsplit (names, ",", -1);

  for (gsize i = 0; all[i] != NULL; i++)
    if (g_ascii_strcasecmp (all[i], name) == 0)
      return TRUE;
  return FALSE;
}

/* Returns: (nullable): the words of a line that is about @name. */
static char **
words_about (const char *line,
             const char *name)
{
  g_auto (GStrv) words = g_strsplit_set (line, " \t\r", -1);

  return words[0] != NULL && words[1] != NULL && words[2] != NULL && names_have (words[0], name)
         ? g_steal_pointer (&words) : NULL;
}

WbHostKeyState
wb_host_key_state (const char   *text,
                   const char   *host,
                   guint         port,
                   const guint8 *key,
                   gsize         length)
{
  g_autofree char *name = file_name_of (host, port);
  g_autofree char *wanted = g_base64_encode (key, length);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  WbHostKeyState state = WB_HOST_KEY_UNKNOWN;

  for (gsize i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) words = words_about (lines[i], name);

      if (words == NULL)
        continue;
      if (g_str_equal (words[2], wanted))
        return WB_HOST_KEY_KNOWN;
      state = WB_HOST_KEY_CHANGED;
    }
  return state;
}

/* --- the file --------------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): what is in @file, "" when there is none. */
static char *
load (const char  *file,
      GError     **error)
{
  g_autoptr (GError) reason = NULL;
  g_autofree char *text = NULL;
  gsize length;
  GStatBuf found;

  if (g_stat (file, &found) != 0)
    {
      if (errno == ENOENT || errno == ENOTDIR)
        return g_strdup ("");
      wb_share_fail (error, errno, file);
      return NULL;
    }
  if (!S_ISREG (found.st_mode) || found.st_size > WB_HOST_KEY_MAX_FILE)
    {
      wb_share_fail (error, S_ISREG (found.st_mode) ? EFBIG : EINVAL, file);
      return NULL;
    }
  if (!g_file_get_contents (file, &text, &length, &reason))
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s", reason->message);
      return NULL;
    }
  return g_steal_pointer (&text);
}

static gboolean
save (const char  *file,
      const char  *text,
      GError     **error)
{
  g_autofree char *folder = g_path_get_dirname (file);
  g_autoptr (GError) reason = NULL;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    return wb_share_fail (error, errno, folder);
  if (g_file_set_contents_full (file, text, -1,
                                G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0600,
                                &reason))
    return TRUE;
  g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s", reason->message);
  return FALSE;
}

static gboolean
add (const char    *file,
     const char    *text,
     const char    *host,
     guint          port,
     const guint8  *key,
     gsize          length,
     GError       **error)
{
  g_autofree char *name = file_name_of (host, port);
  g_autofree char *kind = wb_host_key_kind (key, length);
  g_autofree char *encoded = g_base64_encode (key, length);
  gboolean open_line = *text != '\0' && !g_str_has_suffix (text, "\n");
  g_autofree char *all = g_strdup_printf ("%s%s%s %s %s\n", text, open_line ? "\n" : "", name, kind,
                                          encoded);

  return save (file, all, error);
}

/* With the lock held. */
static gboolean
check_locked (const char    *file,
              const char    *host,
              guint          port,
              const guint8  *key,
              gsize          length,
              const char    *confirmed,
              GError       **error)
{
  g_autofree char *fingerprint = wb_host_key_fingerprint (key, length);
  g_autofree char *text = file != NULL ? load (file, error) : g_strdup ("");

  if (text == NULL)
    return FALSE;
  switch (wb_host_key_state (text, host, port, key, length))
    {
    case WB_HOST_KEY_KNOWN:
      return TRUE;
    case WB_HOST_KEY_CHANGED:
      return wb_share_refuse (error, WB_SHARE_ERROR_HOST_KEY_CHANGED, host,
                              "its host key is not the one that was confirmed: %s", fingerprint);
    case WB_HOST_KEY_UNKNOWN:
      break;
    }
  if (g_strcmp0 (confirmed, fingerprint) != 0)
    return wb_share_refuse (error, WB_SHARE_ERROR_HOST_KEY_UNKNOWN, host,
                            "nobody has confirmed its host key: %s", fingerprint);
  return file == NULL || add (file, text, host, port, key, length, error);
}

gboolean
wb_host_key_check (const char    *file,
                   const char    *host,
                   guint          port,
                   const guint8  *key,
                   gsize          length,
                   const char    *confirmed,
                   GError       **error)
{
  g_autofree char *kind = wb_host_key_kind (key, length);
  gboolean good;

  if (kind == NULL)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, host, "what it shows is no host key");
  g_mutex_lock (&file_lock);
  good = check_locked (file, host, port, key, length, confirmed, error);
  g_mutex_unlock (&file_lock);
  return good;
}

/* With the lock held. */
static gboolean
forget_locked (const char  *file,
               const char  *host,
               guint        port,
               GError     **error)
{
  g_autofree char *name = file_name_of (host, port);
  g_autofree char *text = load (file, error);
  g_auto (GStrv) lines = NULL;
  g_autoptr (GString) left = g_string_new (NULL);

  if (text == NULL)
    return FALSE;
  lines = g_strsplit (text, "\n", -1);
  for (gsize i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) words = words_about (lines[i], name);

      if (words == NULL && (lines[i + 1] != NULL || *lines[i] != '\0'))
        g_string_append_printf (left, "%s\n", lines[i]);
    }
  return g_str_equal (left->str, text) || save (file, left->str, error);
}

gboolean
wb_host_key_forget (const char  *file,
                    const char  *host,
                    guint        port,
                    GError     **error)
{
  gboolean done;

  g_mutex_lock (&file_lock);
  done = forget_locked (file, host, port, error);
  g_mutex_unlock (&file_lock);
  return done;
}
