/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A group of the report, or a claim line behind one, as a row. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-catalog.h"
#include "desk/report/wb-report-item.h"

G_BEGIN_DECLS

#define WB_TYPE_REPORT_ROW (wb_report_row_get_type ())
G_DECLARE_FINAL_TYPE (WbReportRow, wb_report_row, WB, REPORT_ROW, GtkWidget)

/** Returns: (transfer none): a row that shows nothing yet. */
GtkWidget *wb_report_row_new  (void);
/** Has the row show @item, whose group is by @by. @catalog: for the names of cartons */
void       wb_report_row_show (WbReportRow     *self,
                               WbReportItem    *item,
                               WbLossBy         by,
                               const WbCatalog *catalog);

G_END_DECLS
