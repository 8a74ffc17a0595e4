/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Counts the pieces that were moved, without loading any job. Private to the store. */
#pragma once

#include "store/wb-book.h"
#include "store/wb-sqlite.h"

G_BEGIN_DECLS

/** See wb_book_scan_moved_pieces(). */
gboolean wb_moved_pieces_scan (WbSqlite           *book,
                               WbMovedPiecesFunc   each,
                               gpointer            data,
                               GError            **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
