/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A strict look at a JSON text before a parser gets it: what the parser would let pass, or would
 * not survive, is refused here with its place. It builds nothing. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** Largest document that is read, in bytes, and how deep arrays and objects may stand in one
 * another. */
#define WB_JSON_MAX_BYTES (64 * 1024 * 1024)
#define WB_JSON_MAX_DEPTH 16

/**
 * wb_json_check:
 * @length: bytes of @text, or -1 when it ends in a NUL byte
 *
 * Checks that @text is one JSON value (RFC 8259) in UTF-8, no object has a key twice, every number
 * is a whole one that fits 64 bits, no text holds a NUL character. A message has the form
 * "pieces[12].weight: what is wrong (line 80, column 15)".
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE, or %WB_CORE_ERROR_RANGE when the text is
 * too large or too deep.
 */
gboolean wb_json_check (const char  *text,
                        gssize       length,
                        GError     **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
