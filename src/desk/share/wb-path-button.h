/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A button in a row where a path is typed: the file or folder can be pointed at instead. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/** @title: of the chooser and the button's accessible name, translated; @row: gets the path, and is
 * as if Enter had been pressed. Returns: (transfer none): put at the end of @row */
GtkWidget *wb_path_button_add (AdwEntryRow          *row,
                               const char           *title,
                               GtkFileChooserAction  action);

G_END_DECLS
