/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands beneath a field of the strip while it is typed in. */
#pragma once

#include "desk/inventory/wb-line-entry.h"

G_BEGIN_DECLS

/**
 * wb_line_advise:
 * @job: for suggestions and the currency
 * @unit: unit of a bare weight
 * @final: the clerk is done with the field, so that what cannot be read is wrong and not just
 *   unfinished
 *
 * Shows in @entry what its text means, how it could go on, or what is wrong with it. The text stays
 * as it is.
 * Returns: whether it can be read.
 */
gboolean wb_line_advise (WbLineEntry  *entry,
                         const WbJob  *job,
                         WbWeightUnit  unit,
                         gboolean      final);

G_END_DECLS
