/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the memory of a depot and the file that keeps it share. */
#pragma once

#include "share/wb-depot-private.h"

G_BEGIN_DECLS

/**
 * WbDepotCache:
 * @path: (nullable): where it is kept
 * @server: id and address of the server that it is of
 * @versions: sha256 → WbVersion without files
 * @folders: job → WbDepotFolder
 * @complete: sha256 → gint64, what wb_depot_cache_complete_since() says of a version
 * @fresh: whether there is something that the file has not
 */
struct _WbDepotCache
{
  char       *path;
  char       *server;
  GHashTable *versions;
  GHashTable *folders;
  GHashTable *complete;
  gboolean    fresh;
};

/** WbDepotFolder: @changed: when, in unix seconds; @hashes: of the versions that were in it then */
typedef struct
{
  gint64 changed;
  GStrv  hashes;
} WbDepotFolder;

void     wb_depot_folder_free     (WbDepotFolder *self);

/** Fills @self from its file. Returns: %FALSE when there is none, or something else is in it; what
 * was read by then is to be forgotten. */
gboolean wb_depot_cache_read_file (WbDepotCache  *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
