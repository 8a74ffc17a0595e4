/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one door for whatever makes files of versions: libFuzzer, or test-depot-mutations. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** Gives @data to the reader as the file of a version, and as the name of one, and aborts when what
 * comes out breaks a promise. */
int   LLVMFuzzerTestOneInput (const guint8 *data,
                              gsize         size);

/** Whether @data is the file of a version, which is held against everything that a version
 * promises. */
gboolean fuzz_version        (const guint8 *data,
                              gsize         size);

G_END_DECLS
