/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error domain of bundles. What the disk says stays G_IO_ERROR, and cancelling is always
 * G_IO_ERROR_CANCELLED. */
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
 * @WB_SHARE_ERROR_SOURCE: a file that is to be packed is gone or is not what it was
 *
 * Every message names the file of the bundle first, then what is wrong with it.
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
} WbShareError;

GQuark wb_share_error_quark (void);

/** Sets @error with @file, made fit to be shown, before the message. Returns: %FALSE. */
gboolean wb_share_refuse (GError       **error,
                          WbShareError   code,
                          const char    *file,
                          const char    *format,
                          ...) G_GNUC_PRINTF (4, 5);

/** Sets @error to the %G_IO_ERROR that @code, an errno, stands for. Returns: %FALSE. */
gboolean wb_share_fail   (GError       **error,
                          int            code,
                          const char    *path);

G_END_DECLS
