/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person at this desk prefers; nothing of it belongs to a book. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** Shows the preferences above @window. */
void wb_preferences_show (GtkWindow *window);

G_END_DECLS
