/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Passes connections on to a port of 127.0.0.1 and counts the bytes, for what a line costs. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

typedef struct _WbBenchRelay WbBenchRelay;

/** Returns: (transfer full): a relay to @port, at work in threads of its own. */
WbBenchRelay *wb_bench_relay_new       (guint16             port) G_GNUC_WARN_UNUSED_RESULT;

/** Ends it, once every connection was closed by the one who made it. */
void          wb_bench_relay_free      (WbBenchRelay       *self);

/** Returns: where it listens. */
guint16       wb_bench_relay_get_port  (const WbBenchRelay *self);

/** Returns: bytes that went through so far, in both directions together. */
gint64        wb_bench_relay_get_bytes (WbBenchRelay       *self);

G_END_DECLS
