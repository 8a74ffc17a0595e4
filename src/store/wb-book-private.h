/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What lies between the book as an object and its file: recognising it, making it, bringing it up
 * to date. Private to the store. */
#pragma once

#include "store/wb-book.h"
#include "store/wb-sqlite.h"

G_BEGIN_DECLS

/** Marks a database file as an office book: "WBok". */
#define WB_BOOK_APPLICATION_ID 0x57426f6b

/** Returns: (transfer none) (array zero-terminated): the statements that make each version of a
 * book of the one before; the first makes version 1 of nothing. */
const char *const *wb_migrations       (void);

/**
 * wb_migrate:
 * @book: a connection that may write
 * @cancellable: looked at between and within the steps
 *
 * Brings a book to the last of @migrations in one transaction. Before an existing book is touched
 * it is copied to "NAME.before-N", N being the version it gets, or "NAME.before-N.2" and so on when
 * that is taken.
 */
gboolean           wb_migrate          (WbSqlite          *book,
                                        const char *const *migrations,
                                        GCancellable      *cancellable,
                                        GError           **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_book_open(), for a program that knows other versions of a book than this one. */
WbBook            *wb_book_open_with   (const char        *path,
                                        WbBookMode         mode,
                                        const char *const *migrations,
                                        GCancellable      *cancellable,
                                        GError           **error) G_GNUC_WARN_UNUSED_RESULT;

/** Has the writer do @work in one transaction, after what is queued already, and waits for it. */
gboolean           wb_book_write       (WbBook            *self,
                                        WbSqliteWork       work,
                                        gpointer           data,
                                        GCancellable      *cancellable,
                                        GError           **error) G_GNUC_WARN_UNUSED_RESULT;
/** Does @work on a reader's connection, which sees one state of the book throughout. */
gboolean           wb_book_read        (WbBook            *self,
                                        WbSqliteWork       work,
                                        gpointer           data,
                                        GCancellable      *cancellable,
                                        GError           **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): a connection that may write to the book at @path
 * (absolute), which is whole and up to date. See wb_book_open() for the errors. */
WbSqlite          *wb_book_file_open   (const char        *path,
                                        WbBookMode         mode,
                                        const char *const *migrations,
                                        GCancellable      *cancellable,
                                        GError           **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
