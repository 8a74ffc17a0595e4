/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The photos of a claimed piece as small pictures in the order of the move, from its origin to its
 * delivery. One that is activated leads to the photos page with all of the piece. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

#define WB_TYPE_EVIDENCE_PHOTOS (wb_evidence_photos_get_type ())
G_DECLARE_FINAL_TYPE (WbEvidencePhotos, wb_evidence_photos, WB, EVIDENCE_PHOTOS, GtkWidget)

/** Shows the photos of @piece, an id in @job; %NULL shows none. Is hidden while there are none. */
void wb_evidence_photos_show (WbEvidencePhotos *self,
                              WbOffice         *office,
                              WbJob            *job,
                              const char       *piece);

G_END_DECLS
