/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one table of keys: what each does, where it acts, and how the list of keys names it. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/** Gives the application the keys of its own and of the windows' actions ("app.…", "win.…"). */
void       wb_accelerators_install        (GtkApplication *application);

/** Returns: (transfer none) (nullable): what a window shows: where its keys act. */
typedef GtkWidget *(*WbPageFunc) (GtkWidget *window);

/**
 * wb_accelerators_watch:
 *
 * Makes the keys of all other actions work in @window, wherever the focus is: the action is looked
 * for upward from the focus, then upward from what @get_page gives.
 */
void       wb_accelerators_watch          (GtkWidget      *window,
                                           WbPageFunc      get_page);

/** Shows the list of all keys above @window. */
void       wb_accelerators_show           (GtkWindow      *window);

G_END_DECLS
