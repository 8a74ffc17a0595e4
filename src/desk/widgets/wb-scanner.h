/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tells what a scanner sends that behaves like a keyboard: characters as fast as no person types
 * them, and Enter at their end. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** Keys of a scanner are less than this apart, taken all together; a person's are more. */
#define WB_SCANNER_GAP_MS 30

/** Returns: whether @text is something for @widget; changes nothing. */
typedef gboolean (*WbScanIsForFunc) (GtkWidget  *widget,
                                     const char *text);
typedef void     (*WbScannedFunc)   (GtkWidget  *widget,
                                     const char *text);

/**
 * wb_scanner_watch:
 *
 * Calls @scanned with what is scanned while the focus is within @widget, when @is_for says so. A
 * field that has the focus sees the characters meanwhile; it then gets the text back that it had,
 * and never sees the Enter. Anything else with the focus sees the first of them only.
 */
void wb_scanner_watch (GtkWidget       *widget,
                       WbScanIsForFunc  is_for,
                       WbScannedFunc    scanned);

G_END_DECLS
