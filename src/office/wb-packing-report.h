/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The packing of a job as text for a terminal and as JSON for other programs. */
#pragma once

#include "core/wb-packing.h"

G_BEGIN_DECLS

/**
 * wb_packing_report:
 * @threshold: from which weight on lifting is cautioned of; unset for never
 *
 * Cartons and materials planned and used, what they come to, and every carton with its checks.
 * Returns: (transfer full) (nullable): text that ends in a line break, or %NULL with
 * %WB_CORE_ERROR_OVERFLOW.
 */
char *wb_packing_report      (WbCatalog  *catalog,
                              WbJob      *job,
                              WbWeight    threshold,
                              GError    **error) G_GNUC_WARN_UNUSED_RESULT;

/** The same as JSON: what is not known has no member. */
char *wb_packing_report_json (WbCatalog  *catalog,
                              WbJob      *job,
                              WbWeight    threshold,
                              GError    **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
