/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error domain of bundles and of file servers. What the own disk says stays G_IO_ERROR, and
 * cancelling is always G_IO_ERROR_CANCELLED. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

#define WB_SHARE_ERROR (wb_share_error_quark ())

/**
 * WbShareError:
 * @WB_SHARE_ERROR_NOT_A_BUNDLE: neither a folder nor a zip or tar archive with a bag in it
 * @WB_SHARE_ERROR_VERSION: made by another version of BagIt than 1.0
 * @WB_SHARE_ERROR_ENCODING: its tag files are in another encoding than UTF-8
 * @WB_SHARE_ERROR_TAG_FILE: a tag file is not written as RFC 8493 has it
 * @WB_SHARE_ERROR_ALGORITHM: no manifest with checksums that are strong enough
 * @WB_SHARE_ERROR_INCOMPLETE: a file that has to be there is not
 * @WB_SHARE_ERROR_UNLISTED: a file is there that a manifest should list and does not
 * @WB_SHARE_ERROR_ALTERED: a file is not what a manifest says
 * @WB_SHARE_ERROR_OXUM: size or number of files are not what bag-info.txt says
 * @WB_SHARE_ERROR_FETCH: parts of it are to be fetched from elsewhere
 * @WB_SHARE_ERROR_NAME: a name that is not safe to use
 * @WB_SHARE_ERROR_CLASH: two names for one, or one name for two
 * @WB_SHARE_ERROR_KIND: a link, device, pipe or a file with holes
 * @WB_SHARE_ERROR_NESTED: an archive or another bag inside
 * @WB_SHARE_ERROR_LIMIT: more or larger files than are read
 * @WB_SHARE_ERROR_RATIO: it unpacks to far more than any job does
 * @WB_SHARE_ERROR_DAMAGED: the archive cannot be read to its end
 * @WB_SHARE_ERROR_STRANGER: a file that has no place in it
 * @WB_SHARE_ERROR_SOURCE: a file that is to be packed or sent is gone or is not what it was
 * @WB_SHARE_ERROR_UNREACHABLE: the server's name is not known, or nothing answers there
 * @WB_SHARE_ERROR_TIMEOUT: it answers too slowly, or has stopped answering
 * @WB_SHARE_ERROR_CERTIFICATE: its certificate does not prove that it is the server that was meant
 * @WB_SHARE_ERROR_HOST_KEY_UNKNOWN: nobody has confirmed its host key; the message ends in the
 *   fingerprint
 * @WB_SHARE_ERROR_HOST_KEY_CHANGED: its host key is another than was confirmed
 * @WB_SHARE_ERROR_LOGIN: it does not accept user name and password, or the key
 * @WB_SHARE_ERROR_FORBIDDEN: who is logged in may not do this
 * @WB_SHARE_ERROR_NOT_FOUND: the file or folder is not there
 * @WB_SHARE_ERROR_EXISTS: there is a file of that name, which is left as it is
 * @WB_SHARE_ERROR_LOCKED: somebody else holds it for now
 * @WB_SHARE_ERROR_FULL: no room is left there
 * @WB_SHARE_ERROR_READ_ONLY: nothing can be written there
 * @WB_SHARE_ERROR_SERVER: the server has a fault of its own
 * @WB_SHARE_ERROR_PROTOCOL: an answer that makes no sense, or of another size than announced
 * @WB_SHARE_ERROR_CHANGED: somebody else has published the job meanwhile
 * @WB_SHARE_ERROR_FORMAT: what lies there is not ours, or of a newer version
 * @WB_SHARE_ERROR_CLOCK: the clock of this computer and that of the server differ too much
 * @WB_SHARE_ERROR_LIBRARY: a library that is needed for it is not on this computer
 *
 * Every message names the file of the bundle, or the server or the file on it, or the library first,
 * then what is wrong with it.
 */
typedef enum
{
  WB_SHARE_ERROR_NOT_A_BUNDLE,
  WB_SHARE_ERROR_VERSION,
  WB_SHARE_ERROR_ENCODING,
  WB_SHARE_ERROR_TAG_FILE,
  WB_SHARE_ERROR_ALGORITHM,
  WB_SHARE_ERROR_INCOMPLETE,
  WB_SHARE_ERROR_UNLISTED,
  WB_SHARE_ERROR_ALTERED,
  WB_SHARE_ERROR_OXUM,
  WB_SHARE_ERROR_FETCH,
  WB_SHARE_ERROR_NAME,
  WB_SHARE_ERROR_CLASH,
  WB_SHARE_ERROR_KIND,
  WB_SHARE_ERROR_NESTED,
  WB_SHARE_ERROR_LIMIT,
  WB_SHARE_ERROR_RATIO,
  WB_SHARE_ERROR_DAMAGED,
  WB_SHARE_ERROR_STRANGER,
  WB_SHARE_ERROR_SOURCE,
  WB_SHARE_ERROR_UNREACHABLE,
  WB_SHARE_ERROR_TIMEOUT,
  WB_SHARE_ERROR_CERTIFICATE,
  WB_SHARE_ERROR_HOST_KEY_UNKNOWN,
  WB_SHARE_ERROR_HOST_KEY_CHANGED,
  WB_SHARE_ERROR_LOGIN,
  WB_SHARE_ERROR_FORBIDDEN,
  WB_SHARE_ERROR_NOT_FOUND,
  WB_SHARE_ERROR_EXISTS,
  WB_SHARE_ERROR_LOCKED,
  WB_SHARE_ERROR_FULL,
  WB_SHARE_ERROR_READ_ONLY,
  WB_SHARE_ERROR_SERVER,
  WB_SHARE_ERROR_PROTOCOL,
  WB_SHARE_ERROR_CHANGED,
  WB_SHARE_ERROR_FORMAT,
  WB_SHARE_ERROR_CLOCK,
  WB_SHARE_ERROR_LIBRARY,
} WbShareError;

#define WB_SHARE_ERROR_LAST WB_SHARE_ERROR_LIBRARY

GQuark wb_share_error_quark (void);

/** Returns: whether the same may work later without anybody doing anything about it. */
gboolean wb_share_error_may_pass (WbShareError code) G_GNUC_CONST;

/** Sets @error with @file, made fit to be shown, before the message. Returns: %FALSE. */
gboolean wb_share_refuse (GError       **error,
                          WbShareError   code,
                          const char    *file,
                          const char    *format,
                          ...) G_GNUC_PRINTF (4, 5);

/** @reason: (transfer full): why something could not be looked at or removed. Returns: whether that
 * is only that it is not there (%WB_SHARE_ERROR_NOT_FOUND); all else is passed on to @error. */
gboolean wb_share_is_absent (GError  *reason,
                             GError **error);

/** Sets @error to the %G_IO_ERROR that @code, an errno, stands for. Returns: %FALSE. */
gboolean wb_share_fail   (GError       **error,
                          int            code,
                          const char    *path);

G_END_DECLS
