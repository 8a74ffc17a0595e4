/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One piece as it was and as it came: a photo from its origin beside one from delivery. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"
#include "desk/photos/wb-photo-shelf.h"

G_BEGIN_DECLS

#define WB_TYPE_PHOTO_COMPARE (wb_photo_compare_get_type ())
G_DECLARE_FINAL_TYPE (WbPhotoCompare, wb_photo_compare, WB, PHOTO_COMPARE, GtkWidget)

GtkWidget *wb_photo_compare_new  (WbJobModel     *model,
                                  WbPhotoShelf   *shelf);
/** @piece: (nullable): id; %NULL lets go of the pictures. @photo: (nullable): the one to begin
 * with */
void       wb_photo_compare_show (WbPhotoCompare *self,
                                  const char     *piece,
                                  const char     *photo);

G_END_DECLS
