/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person should know about the book as a whole: terms that were left out, and changes to a
 * job other than the one shown that could not be stored. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-open-jobs.h"

G_BEGIN_DECLS

/* Properties: "open-jobs" (WbOpenJobs, nullable), "shown" (WbJobModel, nullable): the job that is
 * shown and tells of itself. */
#define WB_TYPE_NOTICES (wb_notices_get_type ())
G_DECLARE_FINAL_TYPE (WbNotices, wb_notices, WB, NOTICES, GtkWidget)

G_END_DECLS
