/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks which file to open as a book, or where to make a new one, and has it opened. */
#pragma once

#include "desk/window/wb-window.h"

G_BEGIN_DECLS

/** Shows the chooser for @window; what the person picks is opened in it. */
void wb_book_chooser_run (WbWindow   *window,
                          WbBookMode  mode);

G_END_DECLS
