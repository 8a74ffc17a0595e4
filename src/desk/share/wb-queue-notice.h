/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Says above the list of jobs that something is on its way to a server, or needs somebody, and leads to
 * the list of transfers. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

#define WB_TYPE_QUEUE_NOTICE (wb_queue_notice_get_type ())
G_DECLARE_FINAL_TYPE (WbQueueNotice, wb_queue_notice, WB, QUEUE_NOTICE, GtkWidget)

/** @office: (nullable): whose queue it tells of */
void wb_queue_notice_set_office (WbQueueNotice *self,
                                 WbOffice      *office);

G_END_DECLS
