/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The records of one kind of the open job as a list of WbRecordItem. The list is told the job of
 * the moment and turns the difference to what it shows into as few changes as it can. */
#pragma once

#include <gio/gio.h>

#include "core/wb-job.h"

G_BEGIN_DECLS

#define WB_TYPE_RECORD_LIST (wb_record_list_get_type ())
G_DECLARE_FINAL_TYPE (WbRecordList, wb_record_list, WB, RECORD_LIST, GObject)

WbRecordList *wb_record_list_new    (WbKind        kind) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_record_list_set_job:
 *
 * Shows the records of @job. A record that was there before keeps its item; items whose record
 * changed notify; a few runs of added and removed records are told as list changes of their own.
 * Many of them, and a changed order, are told as one exchange of the part they touch, for each
 * change costs whoever shows the list.
 */
void          wb_record_list_set_job (WbRecordList *self,
                                      const WbJob  *job);

G_END_DECLS
