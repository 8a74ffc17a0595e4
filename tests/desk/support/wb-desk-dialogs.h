/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Windows and questions found by what stands over them. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** Returns: (transfer none) (nullable): the window that is shown with @words as the heading of its
 * question, or as its title. */
GtkWindow  *wb_desk_dialogs_find      (const char *words);

/** Returns: (transfer none): the same, once it is there. */
GtkWindow  *wb_desk_dialogs_wait_for  (const char *words);

/** Waits until it is not shown any more. */
void        wb_desk_dialogs_wait_gone (const char *words);

/** Returns: what the question @dialog says below its heading. */
const char *wb_desk_dialogs_body_of   (GtkWindow  *dialog);

G_END_DECLS
