/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error domain of bundles and file servers, and the two ways in which an error is made. */
#include "config.h"

#include "share/wb-share.h"

#include "share/wb-bag-name.h"

#include <gio/gio.h>

G_DEFINE_QUARK (wb-share-error-quark, wb_share_error)

gboolean
wb_share_error_may_pass (WbShareError code)
{
  static const WbShareError passing[] = {
    WB_SHARE_ERROR_UNREACHABLE,
    WB_SHARE_ERROR_TIMEOUT,
    WB_SHARE_ERROR_LOCKED,
    WB_SHARE_ERROR_SERVER,
    WB_SHARE_ERROR_PROTOCOL,   /* most often an answer that was cut off */
  };

  for (gsize i = 0; i < G_N_ELEMENTS (passing); i++)
    if (passing[i] == code)
      return TRUE;
  return FALSE;
}

gboolean
wb_share_refuse (GError       **error,
                 WbShareError   code,
                 const char    *file,
                 const char    *format,
                 ...)
{
  g_autofree char *name = wb_bag_name_display (file);
  g_autofree char *message = NULL;
  va_list arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, WB_SHARE_ERROR, (int) code, "“%s”: %s", name, message);
  return FALSE;
}

gboolean
wb_share_is_absent (GError  *reason,
                    GError **error)
{
  gboolean absent = g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);

  if (absent)
    g_error_free (reason);
  else
    g_propagate_error (error, reason);
  return absent;
}

gboolean
wb_share_fail (GError     **error,
               int          code,
               const char  *path)
{
  g_autofree char *name = wb_bag_name_display (path);

  g_set_error (error, G_IO_ERROR, (int) g_io_error_from_errno (code), "“%s”: %s", name,
               g_strerror (code));
  return FALSE;
}
