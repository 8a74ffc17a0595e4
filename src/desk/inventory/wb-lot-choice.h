/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drop-down of the job's lots, with a caption, to stand beside the fields of the strip. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signal: "changed": another lot is chosen, by a person or by wb_lot_choice_set_lot(). */
#define WB_TYPE_LOT_CHOICE (wb_lot_choice_get_type ())
G_DECLARE_FINAL_TYPE (WbLotChoice, wb_lot_choice, WB, LOT_CHOICE, GtkWidget)

GtkWidget  *wb_lot_choice_new       (void) G_GNUC_WARN_UNUSED_RESULT;
void        wb_lot_choice_set_model (WbLotChoice *self,
                                     WbJobModel  *model);

/** Returns: (transfer none) (nullable): id of the lot; %NULL for none. */
const char *wb_lot_choice_get_lot   (WbLotChoice *self);
/** @lot: (nullable): chooses no lot when it is %NULL or not in the job. */
void        wb_lot_choice_set_lot   (WbLotChoice *self,
                                     const char  *lot);

/** Returns: (transfer full): "blue 204", "blue 204 (1–300)" when @range: a lot as a person reads
 * it. */
char       *wb_lot_choice_describe  (const WbLot *lot,
                                     gboolean     range) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
