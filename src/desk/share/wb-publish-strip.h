/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the open job stands on the office's servers, in words, and what is to be done about it; and how
 * far it is when it is on its way. Not seen while the office has no server. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property "model" (WbJobModel). */
#define WB_TYPE_PUBLISH_STRIP (wb_publish_strip_get_type ())
G_DECLARE_FINAL_TYPE (WbPublishStrip, wb_publish_strip, WB, PUBLISH_STRIP, GtkWidget)

/** Asks the servers anew how the job stands. */
void wb_publish_strip_ask (WbPublishStrip *self);

G_END_DECLS
