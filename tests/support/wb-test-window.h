/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every test of a window needs: waiting for something to become true, and a picture of what
 * a person would see. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * WbTestCondition:
 * @data: what wb_test_wait_until() was given
 *
 * Returns: whether what is waited for has come about
 */
typedef gboolean (*WbTestCondition) (gpointer data);

/**
 * wb_test_wait_until:
 * @condition: what to wait for
 * @data: handed to @condition
 *
 * Turns the main loop until @condition holds, at most ten seconds (the test then fails). Layout,
 * scrolling and idle work land in a later turn, so a test waits for their effect.
 */
void wb_test_wait_until    (WbTestCondition condition,
                            gpointer        data);

/**
 * wb_test_wait_until_drawn:
 * @widget: a widget in a presented window
 *
 * Waits until @widget is mapped and has a size, and one more frame has been drawn.
 */
void wb_test_wait_until_drawn (GtkWidget *widget);

/**
 * wb_test_settle:
 *
 * Turns the main loop until nothing is waiting in it.
 */
void wb_test_settle        (void);

/**
 * wb_test_save_picture:
 * @window: a window that was drawn
 * @name: file name without folder and ending
 *
 * Draws @window once more and keeps the picture as NAME.png in the folder named by the environment
 * variable WB_ARTEFACTS, which is made if need be. Without the variable nothing is kept. The test
 * fails if nothing was drawn or the file cannot be written.
 */
void wb_test_save_picture  (GtkWidget  *window,
                            const char *name);

/**
 * wb_test_find:
 * @root: where to begin
 * @type: type of the widget looked for
 * @label: (nullable): its accessible label, button label or title; %NULL for the first of @type
 *
 * Looks for a widget depth first among the children of @root, the way a person would name it.
 *
 * Returns: (transfer none) (nullable): the widget, %NULL if there is none
 */
GtkWidget *wb_test_find    (GtkWidget  *root,
                            GType       type,
                            const char *label);

/**
 * wb_test_load_style:
 *
 * Loads the program's own style, as the application does, for a test of pages without it. The
 * program's resources have to be linked in.
 */
void wb_test_load_style    (void);

G_END_DECLS
