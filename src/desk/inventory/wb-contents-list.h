/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The things inside one piece as a table to look at and to choose from. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-entities.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/** Fills the empty @view with the things of @piece. Returns: (transfer full): its model, whose
 * items are #WbRecordItem; it follows the job. */
GtkSingleSelection *wb_contents_list_set_up    (GtkColumnView      *view,
                                                WbJobModel         *model,
                                                const char         *piece)
    G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable) (transfer none): the thing at @position. */
const WbThing      *wb_contents_list_nth       (GListModel         *things,
                                                guint               position);

/** Returns: (nullable) (transfer none): the thing @step places after the one with @id. */
const WbThing      *wb_contents_list_neighbour (GListModel         *things,
                                                const char         *id,
                                                int                 step);

/** Selects the thing with @id and scrolls to it. */
void                wb_contents_list_select    (GtkColumnView      *view,
                                                GtkSingleSelection *things,
                                                const char         *id);

G_END_DECLS
