/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Codes of SQLite and of the file system, made into ours. Private to the store. */
#pragma once

#include "store/wb-store.h"

G_BEGIN_DECLS

/** Returns: what an SQLite result code, plain or extended, means to us. */
WbStoreError  wb_store_error_from_sqlite (int            code);
/** Returns: (transfer none): a sentence for it, without a capital and a full stop. */
const char   *wb_store_sentence          (int            sqlite_code);

/** Returns: what an errno value means to us. */
WbStoreError  wb_store_error_from_errno  (int            code);

/** Sets @error with the book's file name before the message. */
void          wb_store_set_error         (const char    *path,
                                          WbStoreError   code,
                                          GError       **error,
                                          const char    *format,
                                          ...) G_GNUC_PRINTF (4, 5);
/** As wb_store_set_error(), with what errno says after the message. */
void          wb_store_set_errno         (const char    *path,
                                          int            code,
                                          GError       **error,
                                          const char    *message);

G_END_DECLS
