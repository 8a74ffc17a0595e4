/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/claim/wb-answer-button.h"

G_BEGIN_DECLS

/* A few words or an amount as a flat button; pressed, it says why that is so, in a popover whose
 * text can be copied. */
#define WB_TYPE_WHY_BUTTON (wb_why_button_get_type ())
G_DECLARE_FINAL_TYPE (WbWhyButton, wb_why_button, WB, WHY_BUTTON, WbAnswerButton)

/** @numeric: it shows an amount, which stands on the right */
GtkWidget  *wb_why_button_new      (gboolean     numeric) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_why_button_show:
 * @label: what stands on it
 * @heading: what is explained, as a sentence; it names the button for a screen reader too
 * @why: the answer, a paragraph a line
 *
 * An open popover closes when what it explains has changed.
 */
void        wb_why_button_show     (WbWhyButton *self,
                                    const char  *label,
                                    const char  *heading,
                                    const char  *why);

/** Returns: (transfer none): the answer. */
const char *wb_why_button_get_why  (WbWhyButton *self);

G_END_DECLS
