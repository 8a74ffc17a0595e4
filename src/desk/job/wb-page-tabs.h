/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tabs of a job's pages. They wrap into a second row where the window is narrow or the text
 * large, and are one stop of the Tab key: the arrow keys go from one to the next. */
#pragma once

#include <adwaita.h>

#include "desk/job/wb-page-list.h"

G_BEGIN_DECLS

#define WB_TYPE_PAGE_TABS (wb_page_tabs_get_type ())
G_DECLARE_FINAL_TYPE (WbPageTabs, wb_page_tabs, WB, PAGE_TABS, GtkWidget)

/** Makes a tab for @entry; chosen, it shows the page of that name through "job.show-page". */
void wb_page_tabs_add    (WbPageTabs        *self,
                          const WbPageEntry *entry);

/** Marks the tab of the page called @name as the chosen one. */
void wb_page_tabs_choose (WbPageTabs        *self,
                          const char        *name);

G_END_DECLS
