/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line of Wainbook: the deeds of the office without a window. Nothing here touches
 * a display. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * wb_tool_is_command:
 * @word: the first word of a command line
 *
 * Returns: whether the command line has a command of that name
 */
gboolean wb_tool_is_command (const char *word);

/**
 * wb_tool_run:
 * @argc: number of words, the program's name among them
 * @argv: the words; argv[1] is the command
 *
 * Runs one command. Results go to standard output, what went wrong to standard error.
 *
 * Returns: the exit status: 0 done, 1 the command failed, 2 it was not understood
 */
int wb_tool_run (int    argc,
                 char **argv);

G_END_DECLS
