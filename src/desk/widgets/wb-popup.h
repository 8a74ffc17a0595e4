/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Popping up beside a widget that may still be on its way into view. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_popup:
 * @popover: has its parent already, which has just got the focus or is about to be scrolled to
 *
 * Pops @popover up as soon as its parent can be seen. Toolkit and display place a popover by where
 * its parent is on a monitor, and have no place for it beside one that is out of sight.
 */
void wb_popup (GtkPopover *popover);

G_END_DECLS
