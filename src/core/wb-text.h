/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parsers of this room share: white space, positions, quoting and guesses for messages. It
 * knows nothing of what is parsed. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * wb_text_quote:
 * @length: bytes of @text, or -1 when it ends in NUL
 *
 * Makes text of unknown origin fit for a message: in quotes, cut after 60 characters, control
 * characters as spaces, valid UTF-8.
 *
 * Returns: (transfer full): the quoted text
 */
char       *wb_text_quote      (const char *text,
                                gssize      length) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: the first byte of @text that is no white space; no-break spaces are white space too. */
const char *wb_text_skip_space (const char *text);

/** Returns: the 1-based number of the character of @text at which @at points. */
gsize       wb_text_position   (const char *text,
                                const char *at);

/** WbTextGuess: the name that comes nearest to what a person wrote; %NULL when none is near. */
typedef struct
{
  const char *written;
  const char *nearest;
  guint       edits;
} WbTextGuess;

WbTextGuess wb_text_guess_begin (const char  *written);
void        wb_text_guess_try   (WbTextGuess *self,
                                 const char  *name);

G_END_DECLS
