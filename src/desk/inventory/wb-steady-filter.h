/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A filtered list that changes in steps so small that the window stays lively. The toolkit's own
 * filter list looks at 512 items a turn and tells of them at once, for which a column view makes
 * two hundred rows of cells anew; here a step is as large as a few milliseconds allow. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Property: "pending" (guint, read only): how many items are still to be looked at. */
#define WB_TYPE_STEADY_FILTER (wb_steady_filter_get_type ())
G_DECLARE_FINAL_TYPE (WbSteadyFilter, wb_steady_filter, WB, STEADY_FILTER, GObject)

/** Returns: (transfer full): the items of @source that @filter lets through; empty at first, it
 * fills while the main loop turns. A few items added to @source are there at once, and a few
 * removed from it gone; many that it has no more are pending, and shown until their turn comes. */
WbSteadyFilter *wb_steady_filter_new         (GListModel *source,
                                              GtkFilter  *filter) G_GNUC_WARN_UNUSED_RESULT;

/** Says which of the items shown a person looks at: steps are smallest near it. */
void            wb_steady_filter_set_centre  (WbSteadyFilter *self,
                                              guint           place);

guint           wb_steady_filter_get_pending (WbSteadyFilter *self);

G_END_DECLS
