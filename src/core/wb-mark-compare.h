/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-mark.h"

G_BEGIN_DECLS

/* What two lists of marks say together: which of the marks noted now were there before. */

/**
 * wb_marks_find_new:
 * @noted: what was noted now
 * @known: what was noted before
 * @out: (out): the part of @noted that @known does not say; empty it with wb_marks_clear()
 *
 * A mark is known when the same condition was noted at a place it shares. Of a mark with several
 * places only those not known remain. A condition without a place may be anywhere: it shares its
 * place with every mark of that condition, on either side.
 */
void     wb_marks_find_new (const WbMarks *noted,
                            const WbMarks *known,
                            WbMarks       *out);

/** Adds the conditions and places of @more to @self, each once, in the order they came. */
void     wb_marks_add      (WbMarks       *self,
                            const WbMarks *more);

/** Whether @self says nothing. */
gboolean wb_marks_is_empty (const WbMarks *self);

/** Returns: (transfer full): the marks in canonical or typed text; none for %NULL and for text that
 * does not read. */
WbMarks  wb_marks_from_text (const char   *text) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
