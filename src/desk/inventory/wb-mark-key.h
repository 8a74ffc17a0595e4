/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A button that shows which condition codes and place numbers there are. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** Returns: (transfer floating): the button. */
GtkWidget *wb_mark_key_new (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
