/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-clock.h"

G_BEGIN_DECLS

/* The legal dates of a claim as a plain list: what is to be done by when, how many days are left,
 * and where it is written. */
#define WB_TYPE_CLOCK_LIST (wb_clock_list_get_type ())
G_DECLARE_FINAL_TYPE (WbClockList, wb_clock_list, WB, CLOCK_LIST, GtkWidget)

/** @clocks: (element-type WbClock) (nullable): as wb_claim_clocks() gives them for @terms. */
void  wb_clock_list_show (WbClockList   *self,
                          const WbTerms *terms,
                          GArray        *clocks);

/** Returns: (transfer full): how a clock stands: "31 Mar 2026, 20 days left". */
char *wb_clock_words     (const WbClock *clock) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
