/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The jobs whose storage in transit somebody has to see to now, one button each, above the list of
 * jobs. Not to be seen when there are none. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

/* Properties: "office" (nullable). The buttons activate "jobs.open" with the job's id. */
#define WB_TYPE_STORAGE_BANNER (wb_storage_banner_get_type ())
G_DECLARE_FINAL_TYPE (WbStorageBanner, wb_storage_banner, WB, STORAGE_BANNER, GtkWidget)

/** Asks the office anew, a moment later. */
void wb_storage_banner_refresh (WbStorageBanner *self);

G_END_DECLS
