/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Catalogue files on disk: those that came with the program and those of the office. */
#pragma once

#include "core/wb-catalog.h"

G_BEGIN_DECLS

/**
 * wb_catalog_file_add:
 * @catalog: a catalogue still private to the caller
 * @path: a file name
 * @replace: whether its entries take the place of those of the same nick
 * @n_entries: (out) (optional): how many entries it has
 *
 * Reads and checks one catalogue file; messages call it by its base name. Fails as
 * wb_catalog_add(), also when the file cannot be read.
 */
gboolean    wb_catalog_file_add        (WbCatalog   *catalog,
                                        const char  *path,
                                        gboolean     replace,
                                        guint       *n_entries,
                                        GError     **error);

/**
 * wb_catalog_folder_load_all:
 * @faults: (out) (transfer full): messages of files left out and of checks for cartons that are not
 *   there, "FILE:LINE: …"
 *
 * Every file "*.catalog" of the shipped catalogues, by name, then of the user's data folder
 * (wainbook/catalogs), whose entries take the place of the former.
 */
WbCatalog  *wb_catalog_folder_load_all (GStrv       *faults) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
