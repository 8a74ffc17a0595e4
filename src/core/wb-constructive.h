/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-weight.h"

G_BEGIN_DECLS

/* Net weights that are worked out where the goods alone could not be weighed: 41 CFR 302-7.13.
 * The constructive weight of a volume is wb_weight_from_volume(). Results are rounded half up to
 * a hundredth of the unit of the first weight. */

/**
 * wb_net_of_crated:
 * @gross: weight with crates
 *
 * Crated goods: 60 % of the gross weight; 41 CFR 302-7.13(b).
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_MISSING, _RANGE (negative) or _OVERFLOW.
 */
gboolean wb_net_of_crated      (WbWeight   gross,
                                WbWeight  *out,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_net_of_containers:
 * @gross: weight of the loaded containers
 * @containers: weight of the containers, their inside bracing and padding not counted
 *
 * Goods in special containers whose known weight leaves out the bracing: 85 % of the difference; 41
 * CFR 302-7.13(c).
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_MISSING, _RANGE (negative, or the containers are
 * the heavier) or _OVERFLOW.
 */
gboolean wb_net_of_containers  (WbWeight   gross,
                                WbWeight   containers,
                                WbWeight  *out,
                                GError   **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
