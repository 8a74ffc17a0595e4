/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hands of a person: keys that go through the X server to whatever has the focus. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_test_type:
 * @window: a presented window; it gets the focus of the X server
 * @keys: text to type, ASCII; "\n" is Enter, "\t" Tab, and a key by name stands in braces:
 *   "{Escape}", "{ctrl+d}", "{F2}"
 *
 * Presses the keys one after the other and waits until the window has dealt with them. While a
 * popover has the keys, the
 * window does not hear of the last one; then a moment is waited.
 */
void wb_test_type (GtkWidget  *window,
                   const char *keys);

G_END_DECLS
