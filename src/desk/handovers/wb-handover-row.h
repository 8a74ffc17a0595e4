/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One handover in the list of a job's handovers. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-trail.h"

G_BEGIN_DECLS

#define WB_TYPE_HANDOVER_ROW (wb_handover_row_get_type ())
G_DECLARE_FINAL_TYPE (WbHandoverRow, wb_handover_row, WB, HANDOVER_ROW, GtkListBoxRow)

/** Returns: (transfer floating): an empty row. */
GtkWidget *wb_handover_row_new  (void) G_GNUC_WARN_UNUSED_RESULT;

/** Shows the handover at place @handover. */
void       wb_handover_row_show (WbHandoverRow *self,
                                 const WbTrail *trail,
                                 guint          handover);

G_END_DECLS
