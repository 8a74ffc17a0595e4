/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One photo, large, with its pins beside it. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"
#include "desk/photos/wb-photo-shelf.h"

G_BEGIN_DECLS

/* Signals: "step" (int): the next (1) or previous (-1) photo is wanted. */
#define WB_TYPE_PHOTO_VIEWER (wb_photo_viewer_get_type ())
G_DECLARE_FINAL_TYPE (WbPhotoViewer, wb_photo_viewer, WB, PHOTO_VIEWER, GtkWidget)

GtkWidget  *wb_photo_viewer_new       (WbJobModel    *model,
                                       WbPhotoShelf  *shelf);
/** @photo: (nullable): id; %NULL lets go of the picture */
void        wb_photo_viewer_show      (WbPhotoViewer *self,
                                       const char    *photo);
/** Returns: (nullable): id of the photo shown. */
const char *wb_photo_viewer_get_photo (WbPhotoViewer *self);
/** Follows a change of the job. */
void        wb_photo_viewer_update    (WbPhotoViewer *self);

G_END_DECLS
