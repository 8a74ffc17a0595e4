/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shared by the files that read and hold a catalogue; no other file includes it. */
#pragma once

#include "core/wb-catalog.h"

G_BEGIN_DECLS

void       wb_catalog_entry_free (WbCatalogEntry  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbCatalogEntry, wb_catalog_entry_free)

/**
 * wb_catalog_parse:
 *
 * Reads the entries of one file; that two of them have one nick or name is not looked for here.
 * Returns: (transfer full) (element-type WbCatalogEntry): at least one, or %NULL with
 * %WB_CORE_ERROR_CATALOG.
 */
GPtrArray *wb_catalog_parse      (const char      *text,
                                  gsize            length,
                                  const char      *file,
                                  GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @text without case, and with one space between words and none around
 * them; anything but letters and digits separates words. */
char      *wb_catalog_fold       (const char      *text) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
