/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the selected photos show and when, to be set for all of them at once; and of a single one
 * what its camera wrote. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"
#include "desk/photos/wb-photo-shelf.h"

G_BEGIN_DECLS

#define WB_TYPE_PHOTO_DETAILS (wb_photo_details_get_type ())
G_DECLARE_FINAL_TYPE (WbPhotoDetails, wb_photo_details, WB, PHOTO_DETAILS, GtkWidget)

GtkWidget *wb_photo_details_new        (WbJobModel     *model,
                                        WbPhotoShelf   *shelf);
/** @ids: (element-type utf8) (transfer none): of photos; may be empty */
void       wb_photo_details_show       (WbPhotoDetails *self,
                                        GPtrArray      *ids);
/** Gives the focus to the tag of the piece. */
void       wb_photo_details_focus      (WbPhotoDetails *self);

G_END_DECLS
