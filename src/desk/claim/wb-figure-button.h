/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/claim/wb-amount.h"
#include "desk/claim/wb-answer-button.h"

G_BEGIN_DECLS

/* One amount of a reckoning; pressed, it says why it is what it is. */
#define WB_TYPE_FIGURE_BUTTON (wb_figure_button_get_type ())
G_DECLARE_FINAL_TYPE (WbFigureButton, wb_figure_button, WB, FIGURE_BUTTON, WbAnswerButton)

GtkWidget *wb_figure_button_new      (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_figure_button_show:
 * @reckoning: (nullable): %NULL shows nothing and takes the button out of use
 * @line: index into its lines, or %WB_REASON_WHOLE_CLAIM
 *
 * An open popover closes when what it explains has changed.
 */
void       wb_figure_button_show     (WbFigureButton *self,
                                      WbReckoning    *reckoning,
                                      int             line,
                                      WbSide          side,
                                      WbAmount        amount);

/** An amount that matters more than those around it. */
void       wb_figure_button_set_bold (WbFigureButton *self,
                                      gboolean        bold);

G_END_DECLS
