/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is due as a list that views can show: an object for an entry is made when it is asked for, so
 * that a hundred thousand of them cost nothing. */
#pragma once

#include <gio/gio.h>

#include "office/wb-due.h"

G_BEGIN_DECLS

#define WB_TYPE_DUE_ITEM (wb_due_item_get_type ())
G_DECLARE_FINAL_TYPE (WbDueItem, wb_due_item, WB, DUE_ITEM, GObject)

/** Returns: (transfer none): the entry. */
const WbDue *wb_due_item_get_due (WbDueItem *self);
/** Returns: whether it is the first of its group. */
gboolean     wb_due_item_leads   (WbDueItem *self);

#define WB_TYPE_DUE_MODEL (wb_due_model_get_type ())
G_DECLARE_FINAL_TYPE (WbDueModel, wb_due_model, WB, DUE_MODEL, GObject)

/** Returns: (transfer full): a list of #WbDueItem for the entries of @due. */
WbDueModel   *wb_due_model_new     (WbDueList *due) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
