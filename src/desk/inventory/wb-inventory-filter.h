/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which pieces a person means by some words: every word has to occur in the tag, description,
 * contents, room, packer or serial number, whatever the case and the accents. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

#define WB_TYPE_INVENTORY_FILTER (wb_inventory_filter_get_type ())
G_DECLARE_FINAL_TYPE (WbInventoryFilter, wb_inventory_filter, WB, INVENTORY_FILTER, GtkFilter)

WbInventoryFilter *wb_inventory_filter_new       (WbJobModel *model) G_GNUC_WARN_UNUSED_RESULT;

/** Words to look for; empty text lets every piece through. */
void               wb_inventory_filter_set_words (WbInventoryFilter *self,
                                                  const char        *words);
gboolean           wb_inventory_filter_is_empty  (WbInventoryFilter *self);

/** Tells the list to look at the pieces again, because records changed. */
void               wb_inventory_filter_refresh   (WbInventoryFilter *self);

G_END_DECLS
