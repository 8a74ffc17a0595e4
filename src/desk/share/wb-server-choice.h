/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which server is meant: the only one, or the one that a person chooses. */
#pragma once

#include "desk/window/wb-window.h"

G_BEGIN_DECLS

/** Called with the server that was chosen; not at all when none is. */
typedef void (*WbServerChosenFunc) (const char *server_id,
                                    gpointer    data);

/**
 * wb_server_choose:
 * @heading: of the question, when there are several
 * @accept: label of the button that takes the choice, with a mnemonic
 *
 * Finds out which server of the book that @window shows is meant. Where there is none yet it says so
 * and leads to where one is added. @data is freed in any case.
 */
void wb_server_choose (WbWindow           *window,
                       const char         *heading,
                       const char         *accept,
                       WbServerChosenFunc  chosen,
                       gpointer            data,
                       GDestroyNotify      free_data);

G_END_DECLS
