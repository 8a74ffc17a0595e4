/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A photo with its pins, to be looked at closely. The arrow keys move a cross over the picture,
 * Enter says “here”; so does a click. Plus, minus and 0 zoom; what the cross is at stays in
 * view. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-job.h"
#include "desk/photos/wb-photo-picture.h"

G_BEGIN_DECLS

/* Signal "place" (int x, int y): a place was chosen, in hundredths of a percent of the upright
 * picture. Only while the canvas takes places. */
#define WB_TYPE_PHOTO_CANVAS (wb_photo_canvas_get_type ())
G_DECLARE_FINAL_TYPE (WbPhotoCanvas, wb_photo_canvas, WB, PHOTO_CANVAS, GtkWidget)

GtkWidget *wb_photo_canvas_new          (void);

/** @picture: (nullable): kept as long as it is shown */
void       wb_photo_canvas_set_picture  (WbPhotoCanvas        *self,
                                         const WbPhotoPicture *picture);
/** Shows the pins of @photo in @job, numbered in the job's order; %NULL for none. */
void       wb_photo_canvas_set_pins     (WbPhotoCanvas        *self,
                                         const WbJob          *job,
                                         const char           *photo);
/** Makes one pin stand out; %NULL for none. */
void       wb_photo_canvas_choose_pin   (WbPhotoCanvas        *self,
                                         const char           *id);
/** Whether places can be chosen; as made they can. */
void       wb_photo_canvas_set_takes_places (WbPhotoCanvas    *self,
                                             gboolean          takes_places);
/** Zooms by one step in (1) or out (-1), or back to the whole picture (0). */
void       wb_photo_canvas_zoom         (WbPhotoCanvas        *self,
                                         int                   step);

G_END_DECLS
