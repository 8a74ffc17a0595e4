/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One published job in a list; immutable. */
#pragma once

#include <gio/gio.h>

#include "office/wb-publish.h"

G_BEGIN_DECLS

#define WB_TYPE_PUBLISHED_ITEM (wb_published_item_get_type ())
G_DECLARE_FINAL_TYPE (WbPublishedItem, wb_published_item, WB, PUBLISHED_ITEM, GObject)

/** @job: (transfer full) */
WbPublishedItem      *wb_published_item_new     (WbPublishedJob  *job) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none) */
const WbPublishedJob *wb_published_item_get_job (WbPublishedItem *self);
/** Returns: (transfer full): number and shipper, or what else it is called. */
char                 *wb_published_item_title   (WbPublishedItem *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
