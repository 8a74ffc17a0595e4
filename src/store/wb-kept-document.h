/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Documents that the book keeps for good, found by the SHA-256 of their bytes. Private to the
 * store. */
#pragma once

#include "store/wb-sqlite.h"

G_BEGIN_DECLS

/** Returns: (transfer full) (nullable): the hash of @document, which the book has from now on. */
char   *wb_kept_document_enter (WbSqlite    *book,
                                GBytes      *document,
                                GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): see wb_book_read_document(). */
GBytes *wb_kept_document_read  (WbSqlite    *book,
                                const char  *hash,
                                GError     **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
