/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a screen reader calls a row of a list. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * wb_row_name_set:
 * @cell: what a factory put into a row of a list or into a cell of a table, after it is bound
 * @name: what the row is about, in a few words
 *
 * Names the row around @cell. In a list view the row has the focus and not what is in it, and it
 * has no name of its own.
 */
void wb_row_name_set (GtkWidget  *cell,
                      const char *name);

G_END_DECLS
