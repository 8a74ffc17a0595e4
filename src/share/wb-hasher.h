/* SPDX-License-Identifier: GPL-3.0-or-later */
/* SHA-256 of what passes by, reckoned in a thread of its own: hashing takes about as long as a fast
 * line takes to send, and neither should wait for the other. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/** WbHasher: a hash on its way. One thread at a time uses it. */
typedef struct _WbHasher WbHasher;

/** @size: bytes that are expected; for a few, no thread is started. Returns: (transfer full) */
WbHasher   *wb_hasher_new    (gint64         size) G_GNUC_WARN_UNUSED_RESULT;
void        wb_hasher_free   (WbHasher      *self);

/** Adds bytes, which are copied. Waits when the thread is 2 MiB behind. */
void        wb_hasher_update (WbHasher      *self,
                              const guint8  *bytes,
                              gsize          length);

/** Returns: (transfer none): 64 small hexadecimal digits. Nothing can be added any more. */
const char *wb_hasher_finish (WbHasher      *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbHasher, wb_hasher_free)

G_END_DECLS
