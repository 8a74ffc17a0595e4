/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A category of depreciation in words: the same in the window and in what is written. */
#pragma once

#include "core/wb-catalog.h"
#include "core/wb-entities.h"

G_BEGIN_DECLS

/** Returns: (transfer full): what a category takes off, as a sentence: "7 % for each year of age;
 * average life 15 years.", "40 % whatever the age.", "At least 10 %.", or what its table says where
 * it has no percentage. @category: of the kind %WB_CATALOG_DEPRECIATION. */
char       *wb_words_depreciation        (const WbCatalogEntry *category) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable): where the figures or words of a category come from and how far that was
 * checked. */
const char *wb_words_depreciation_source (const WbCatalogEntry *category);

/** Returns: (transfer full) (nullable): how a line stands to its category: "Fine china and crystal:
 * at least 10 %.", that a person changed a percentage of it, or that the catalogue does not know
 * it; %NULL for a line without one. */
char       *wb_words_depreciation_of_line (const WbCatalog     *catalog,
                                           const WbClaimLine   *line) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
