/* SPDX-License-Identifier: GPL-3.0-or-later */
/* SHA-256 (FIPS 180-4) at the speed of the processor: by its own instructions where it has them,
 * else by GLib, which is several times slower. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/** WbSha256: a hash on its way. */
typedef struct _WbSha256 WbSha256;

WbSha256   *wb_sha256_new    (void) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_sha256_new(), by GLib whatever the processor has. */
WbSha256   *wb_sha256_new_plain (void) G_GNUC_WARN_UNUSED_RESULT;
void        wb_sha256_free   (WbSha256      *self);

void        wb_sha256_update (WbSha256      *self,
                              const guint8  *bytes,
                              gsize          length);

/** Returns: (transfer none): 64 small hexadecimal digits. Nothing can be added any more. */
const char *wb_sha256_finish (WbSha256      *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbSha256, wb_sha256_free)

G_END_DECLS
