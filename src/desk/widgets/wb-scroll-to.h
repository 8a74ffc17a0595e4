/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Brings a widget that was just made into view. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_scroll_to:
 *
 * Scrolls the scrolled window around @widget so far that it is seen whole, or its top when it is larger. The toolkit does this when
 * the focus moves, but for a widget that has no place yet it cannot; so this waits until the next frame has laid it out.
 */
void wb_scroll_to (GtkWidget *widget);

G_END_DECLS
