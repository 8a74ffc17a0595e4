/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two overviews of the inventory, and what the page warns of in short: which tags make an
 * article or a set, and which articles are of extraordinary value. */
#pragma once

#include "desk/inventory/wb-piece-overview.h"

G_BEGIN_DECLS

WbPieceOverview *wb_groups_overview_new       (GtkWindow   *parent,
                                               WbJobModel  *model);
/** Returns: (transfer full) (nullable): what is wrong with articles and sets, as markup with a link
 * "show:groups"; %NULL when nothing is. */
char            *wb_groups_overview_warn      (const WbJob *job) G_GNUC_WARN_UNUSED_RESULT;

WbPieceOverview *wb_high_value_overview_new   (GtkWindow   *parent,
                                               WbJobModel  *model);
/** As wb_groups_overview_warn(), with a link "show:high-value", for valuable articles that are not
 * on the list and for a list that is not signed. */
char            *wb_high_value_overview_warn  (WbJobModel  *model) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
