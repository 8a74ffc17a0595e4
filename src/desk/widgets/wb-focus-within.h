/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tab for widgets that say themselves where the focus goes. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_focus_within:
 * @widget: a widget that takes no focus itself
 * @direction: where the focus goes
 *
 * Moves the focus on among the children of @widget, in their order. For the class's focus function
 * of every widget that has a grab_focus function of its own: without it the toolkit takes that one
 * for Tab as well, so that Tab always enters at the same place and Shift+Tab never gets out.
 *
 * Returns: %FALSE when the focus leaves @widget
 */
gboolean wb_focus_within (GtkWidget        *widget,
                          GtkDirectionType  direction);

/**
 * wb_focus_next_part:
 * @box: a box whose children are the parts of a page, one below the other
 * @backward: up instead of down
 *
 * Moves the focus from the part that has it into the next one that can have it, past the last into
 * the first.
 *
 * Returns: whether there was one
 */
gboolean wb_focus_next_part (GtkWidget        *box,
                             gboolean          backward);

G_END_DECLS
