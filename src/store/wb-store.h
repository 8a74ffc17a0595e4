/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error domain of the office book. Codes of SQLite and of the file system become one of
 * these before they leave the room; cancelling is always G_IO_ERROR_CANCELLED. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

#define WB_STORE_ERROR (wb_store_error_quark ())

/**
 * WbStoreError:
 * @WB_STORE_ERROR_NOT_A_BOOK: the file is something else than an office book
 * @WB_STORE_ERROR_NEWER: the book was written by a newer version
 * @WB_STORE_ERROR_CORRUPT: the book is damaged
 * @WB_STORE_ERROR_BUSY: somebody else holds the book; trying again later may help
 * @WB_STORE_ERROR_FULL: no room left on the disk
 * @WB_STORE_ERROR_CONSTRAINT: the book refuses what contradicts the rest of it
 * @WB_STORE_ERROR_NOT_FOUND: no such file, folder or job
 * @WB_STORE_ERROR_EXISTS: a file or job of that name is there already
 * @WB_STORE_ERROR_DENIED: the file or its folder may not be read or written
 * @WB_STORE_ERROR_CONFLICT: somebody else stored or removed the job meanwhile
 * @WB_STORE_ERROR_CLOSED: the book was closed
 * @WB_STORE_ERROR_IO: the disk or the network share could not be read or written
 * @WB_STORE_ERROR_INTERNAL: a mistake of the program itself
 *
 * Every message names the book's file first, then what is wrong.
 */
typedef enum
{
  WB_STORE_ERROR_NOT_A_BOOK,
  WB_STORE_ERROR_NEWER,
  WB_STORE_ERROR_CORRUPT,
  WB_STORE_ERROR_BUSY,
  WB_STORE_ERROR_FULL,
  WB_STORE_ERROR_CONSTRAINT,
  WB_STORE_ERROR_NOT_FOUND,
  WB_STORE_ERROR_EXISTS,
  WB_STORE_ERROR_DENIED,
  WB_STORE_ERROR_CONFLICT,
  WB_STORE_ERROR_CLOSED,
  WB_STORE_ERROR_IO,
  WB_STORE_ERROR_INTERNAL,
} WbStoreError;

GQuark wb_store_error_quark (void);

G_END_DECLS
