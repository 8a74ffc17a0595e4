/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From which weight on this desk cautions of lifting: a preference of one person, which the window
 * and the command line read alike. What the caution says is in wb-words.h. */
#pragma once

#include "core/wb-weight.h"

G_BEGIN_DECLS

/** Name of the preference; its value is a weight as text, "" for no caution. */
#define WB_LIFT_SETTING "lifting-caution"

/** Returns: the weight; unset for no caution. Where the preferences are not installed, or hold what
 * is no weight, it is the usual one (WB_PACKING_LIFT_DEFAULT_LB). */
WbWeight wb_lift_setting_get   (void);

/** Reads what a person typed: a weight, bare in pounds, or nothing. %FALSE with a
 * %WB_CORE_ERROR. */
gboolean wb_lift_setting_parse (const char  *text,
                                WbWeight    *out,
                                GError     **error);

G_END_DECLS
