/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the two halves of the valuation preview share; for them only. */
#pragma once

#include "core/wb-valuation-preview.h"

G_BEGIN_DECLS

/** Returns: (transfer full) (nullable): the articles of the inventory, in the order of each one's
 * first piece; what an entry holds is known to wb-valuation-articles.c. */
GArray  *wb_valuation_list_articles    (const WbTerms      *terms,
                                        const WbJob        *job,
                                        GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Fills in the figures of articles of one side. */
gboolean wb_valuation_preview_articles (WbSidePreview      *side,
                                        GArray             *articles,
                                        const WbTerms      *terms,
                                        const WbSideTerms  *rules,
                                        GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Adds @more to @sum, which may be unset. */
gboolean wb_valuation_add              (WbMoney            *sum,
                                        WbMoney             more,
                                        GError            **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
