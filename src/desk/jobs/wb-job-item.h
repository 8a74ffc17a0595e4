/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One line of the list of jobs. The item of a job stays the same object while its line changes. */
#pragma once

#include "office/wb-office.h"

G_BEGIN_DECLS

/* Property "summary" (pointer, WbJobSummary) notifies. */
#define WB_TYPE_JOB_ITEM (wb_job_item_get_type ())
G_DECLARE_FINAL_TYPE (WbJobItem, wb_job_item, WB, JOB_ITEM, GObject)

WbJobItem          *wb_job_item_new         (const WbJobSummary *summary) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none): valid until the item changes. */
const WbJobSummary *wb_job_item_get_summary (WbJobItem          *self);
/** Takes a copy of @summary, which is of the same job. */
void                wb_job_item_set_summary (WbJobItem          *self,
                                             const WbJobSummary *summary);
/** Returns: (transfer full): the whole line as one sentence, for who cannot see it. */
char               *wb_job_item_describe    (WbJobItem          *self) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): "Dayton, OH → Tulsa, OK", or the one that is known, or
 * %NULL. */
char               *wb_job_route            (const char         *from,
                                             const char         *to) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
