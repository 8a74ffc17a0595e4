/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An import while it runs: how far it is, and a button that stops it. Puts the photos into the
 * job in one step and says what became of the files. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"
#include "office/wb-photo-import.h"

G_BEGIN_DECLS

/* Signal "done": an import is over; the photos are in the job. */
#define WB_TYPE_PHOTO_INTAKE_BAR (wb_photo_intake_bar_get_type ())
G_DECLARE_FINAL_TYPE (WbPhotoIntakeBar, wb_photo_intake_bar, WB, PHOTO_INTAKE_BAR, GtkWidget)

GtkWidget *wb_photo_intake_bar_new  (WbJobModel       *model);

/**
 * wb_photo_intake_bar_take:
 * @sources: (transfer full) (element-type WbPhotoSource)
 * @piece: (nullable): id of the piece that the photos show
 *
 * Starts an import, or lets it wait until the one that runs is over.
 */
void       wb_photo_intake_bar_take (WbPhotoIntakeBar *self,
                                     GPtrArray        *sources,
                                     const char       *piece,
                                     WbMoment          moment);
void       wb_photo_intake_bar_stop (WbPhotoIntakeBar *self);
gboolean   wb_photo_intake_bar_is_running (WbPhotoIntakeBar *self);

G_END_DECLS
