/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A flat button with a few words or an amount on it that answers "why?" in a popover. What the answer
 * is, its kinds say. */
#define WB_TYPE_ANSWER_BUTTON (wb_answer_button_get_type ())
G_DECLARE_DERIVABLE_TYPE (WbAnswerButton, wb_answer_button, WB, ANSWER_BUTTON, GtkWidget)

/**
 * WbAnswerButtonClass:
 * @new_answer: (transfer full) (nullable): a new popover; %NULL when there is nothing to answer
 */
struct _WbAnswerButtonClass
{
  GtkWidgetClass parent_class;

  GtkWidget *(*new_answer) (WbAnswerButton *self);
};

/** Returns: (transfer none): what stands on it. */
const char *wb_answer_button_get_text  (WbAnswerButton *self);

/** Opens the popover, as a press does. */
void        wb_answer_button_explain   (WbAnswerButton *self);

/* --- for the kinds ---------------------------------------------------------------------------- */

/** Returns: (transfer none): the label on the button, to be dressed. */
GtkLabel   *wb_answer_button_get_label (WbAnswerButton *self);

/**
 * wb_answer_button_show:
 * @text: what stands on it
 * @asked: (nullable): what is explained, as a sentence; it names the button for a screen reader. %NULL
 *   takes the button out of use.
 */
void        wb_answer_button_show      (WbAnswerButton *self,
                                        const char     *text,
                                        const char     *asked);

/** Closes an open popover, whose answer is no longer true. */
void        wb_answer_button_take_back (WbAnswerButton *self);

G_END_DECLS
