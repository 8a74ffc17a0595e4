/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a category of the catalogue gives a claim line: its percentages of depreciation. What the
 * line then comes to is the reckoning's affair, which looks at the line alone. */
#pragma once

#include "core/wb-catalog.h"
#include "core/wb-entities.h"

G_BEGIN_DECLS

/**
 * WbDepreciationRates: hundredths of a percent, each %WB_INTEGER_UNSET when the category has none
 * @yearly: for each year of age
 * @flat: whatever the age; a category has it or @yearly, never both
 * @least: comes off when age gives less
 */
typedef struct
{
  gint64 yearly;
  gint64 flat;
  gint64 least;
} WbDepreciationRates;

/**
 * wb_depreciation_rates:
 * @nick: of a category: wb_catalog_nth (catalog, WB_CATALOG_DEPRECIATION, …)->nick
 * @out: (out): all unset for a category whose table says in words what is to be done
 *   (WbCatalogEntry.rule)
 *
 * %FALSE with %WB_CORE_ERROR_MISSING when the catalogue has no such category (any more); @out is
 * untouched then.
 */
gboolean     wb_depreciation_rates  (const WbCatalog     *catalog,
                                     const char          *nick,
                                     WbDepreciationRates *out,
                                     GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_depreciation_apply:
 * @nick: (nullable): the category; %NULL or "" takes the line out of its category
 *
 * Gives a line a category and its percentages, those that the category has not are unset; the age
 * stays as it is. Out of a category the line loses those percentages that came from it and keeps
 * those that a person changed.
 * Returns: (transfer full) (nullable): the changed copy, or %NULL as wb_depreciation_rates().
 */
WbClaimLine *wb_depreciation_apply  (const WbCatalog     *catalog,
                                     const WbClaimLine   *line,
                                     const char          *nick,
                                     GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Whether the percentages of @line are those of its category: %FALSE when a person changed one, or
 * when the line has no category or one that the catalogue does not know. */
gboolean     wb_depreciation_holds  (const WbCatalog     *catalog,
                                     const WbClaimLine   *line);

G_END_DECLS
