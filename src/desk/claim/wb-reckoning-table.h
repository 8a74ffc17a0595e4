/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* A reckoning line by line: loss, allowed, deducted and owed under both choices. Every amount
 * answers "why?". */
#define WB_TYPE_RECKONING_TABLE (wb_reckoning_table_get_type ())
G_DECLARE_FINAL_TYPE (WbReckoningTable, wb_reckoning_table, WB, RECKONING_TABLE, GtkWidget)

/** @reckoning: (nullable): %NULL shows no line. */
void wb_reckoning_table_show (WbReckoningTable *self,
                              WbReckoning      *reckoning);

G_END_DECLS
