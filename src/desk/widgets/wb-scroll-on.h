/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list that scrolls inside a page that scrolls. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_scroll_on:
 * @inner: a scroller of a list or a table within a scroller of a page
 *
 * Once the list is at its end, the wheel goes on with the page; the toolkit alone would stay in the
 * list, and whoever reads the page from its top to its end would be caught there.
 */
void wb_scroll_on (GtkScrolledWindow *inner);

G_END_DECLS
