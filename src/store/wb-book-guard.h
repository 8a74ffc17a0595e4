/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps other processes from taking an open book for one that nobody has open. Private to the
 * store. */
#pragma once

#include "store/wb-sqlite.h"

G_BEGIN_DECLS

typedef struct _WbBookGuard WbBookGuard;

/**
 * wb_book_guard_new:
 * @book: an open connection to the book
 *
 * A process loses all its locks on a file as soon as any part of it closes that file, as a file
 * chooser does that looks what kind of file it is. SQLite goes by such locks: without them the next
 * process to close the book would put the log away while this one still writes into it. The guard
 * holds the same ranges by locks of another kind, which stay.
 * Returns: (transfer full): a guard; one of a book without a log, or on a system without such locks,
 * holds nothing.
 */
WbBookGuard *wb_book_guard_new     (WbSqlite    *book) G_GNUC_WARN_UNUSED_RESULT;

/** Lets go, so that the last connection can put the log away. */
void         wb_book_guard_let_go  (WbBookGuard *self);

/** Closes the guard's files; after the connections, whose locks go with that. */
void         wb_book_guard_free    (WbBookGuard *self);

G_END_DECLS
