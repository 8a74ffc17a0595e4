/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A menu of which nothing but its button is made before somebody opens it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** Gives @button a menu that opens like any other: its popover takes longer to make than all the
 * rest of a row. */
void wb_menu_later (GtkMenuButton *button,
                    GMenuModel    *model);

G_END_DECLS
