/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one door for whatever makes inputs: libFuzzer, or test-mutations. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** What the first byte of an input chooses. */
enum
{
  FUZZ_ARCHIVE,
  FUZZ_DECLARATION,
  FUZZ_MANIFEST,
  FUZZ_TAG_MANIFEST,
  FUZZ_INFO,
  FUZZ_NAME,
  FUZZ_N
};

/** Gives @data to the part of the reader that its first byte chooses, and aborts when what comes
 * out breaks a promise. */
int   LLVMFuzzerTestOneInput (const guint8 *data,
                              gsize         size);

/** Returns: (transfer full) (nullable): the payload of the archive in @data as lines "SHA256 PATH",
 * when it is a valid bag. */
char *fuzz_payload           (const guint8 *data,
                              gsize         size) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
