/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of words share. */
#pragma once

#include "office/wb-words.h"

G_BEGIN_DECLS

/** Returns: (nullable): the sentence for a step, not translated, with its placeholders ("{loss}");
 * never %NULL for a step of a reckoning. */
const char *wb_words_sentence_of (const WbReason *reason);

G_END_DECLS
