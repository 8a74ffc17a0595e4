/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One entry of a list in the report: a group, or a claim line behind one. */
#pragma once

#include <gio/gio.h>

#include "core/wb-loss-report.h"

G_BEGIN_DECLS

#define WB_TYPE_REPORT_ITEM (wb_report_item_get_type ())
G_DECLARE_FINAL_TYPE (WbReportItem, wb_report_item, WB, REPORT_ITEM, GObject)

/** Returns: (transfer full): an entry for @group or for @line, of which the other is %NULL; they
 * have to live as long. @scale: amount that the whole width of its bar stands for; not used for a
 * line */
WbReportItem      *wb_report_item_new       (const WbLossGroup  *group,
                                             const WbLossLine   *line,
                                             gint64              scale) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (nullable) */
const WbLossGroup *wb_report_item_get_group (WbReportItem       *self);
/** Returns: (nullable) */
const WbLossLine  *wb_report_item_get_line  (WbReportItem       *self);
gint64             wb_report_item_get_scale (WbReportItem       *self);

G_END_DECLS
