/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file servers of the office, in its book. Every function blocks, and fails as those of
 * wb-book.h do. */
#pragma once

#include "core/wb-server.h"
#include "store/wb-book.h"

G_BEGIN_DECLS

/** Returns: (transfer full) (element-type WbServer): in the order in which they were added. */
GPtrArray *wb_book_list_servers  (WbBook          *self,
                                  GCancellable    *cancellable,
                                  GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the server of that id; %WB_STORE_ERROR_NOT_FOUND. */
WbServer  *wb_book_load_server   (WbBook          *self,
                                  const char      *id,
                                  GCancellable    *cancellable,
                                  GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Adds @server, which is already checked, or changes the one of its id. A name that another has,
 * upper and lower case alike, is %WB_STORE_ERROR_CONSTRAINT. */
gboolean   wb_book_put_server    (WbBook          *self,
                                  const WbServer  *server,
                                  GCancellable    *cancellable,
                                  GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Removes a server, with what was noted of it and what waits for it; %WB_STORE_ERROR_NOT_FOUND. */
gboolean   wb_book_remove_server (WbBook          *self,
                                  const char      *id,
                                  GCancellable    *cancellable,
                                  GError         **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
