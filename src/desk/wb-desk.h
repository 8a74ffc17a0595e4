/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The door to the room with the windows. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * wb_desk_run:
 * @argc: number of words, the program's name among them
 * @argv: the words: files to open, options of the application
 *
 * Shows the window and returns when the last one is closed.
 *
 * Returns: the exit status
 */
int wb_desk_run (int    argc,
                 char **argv);

G_END_DECLS
