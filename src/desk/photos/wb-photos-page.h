/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The photos of the open job. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

#define WB_TYPE_PHOTOS_PAGE (wb_photos_page_get_type ())
G_DECLARE_FINAL_TYPE (WbPhotosPage, wb_photos_page, WB, PHOTOS_PAGE, GtkWidget)

GtkWidget *wb_photos_page_new        (WbJobModel   *model);

/** Shows only the photos of one piece, by what a person would type for its tag; %NULL shows all. */
void       wb_photos_page_show_piece (WbPhotosPage *self,
                                      const char   *piece);

G_END_DECLS
