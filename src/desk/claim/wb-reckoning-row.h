/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* One line of a reckoning as a list item. The item stays while the reckoning is made anew, so that
 * the place in the list and the focus stay too. Signal "changed". */
#define WB_TYPE_RECKONING_ROW (wb_reckoning_row_get_type ())
G_DECLARE_FINAL_TYPE (WbReckoningRow, wb_reckoning_row, WB, RECKONING_ROW, GObject)

WbReckoningRow *wb_reckoning_row_new           (WbReckoning    *reckoning,
                                                guint           line) G_GNUC_WARN_UNUSED_RESULT;
/** The row keeps its place; @reckoning has a line there. */
void            wb_reckoning_row_set_reckoning (WbReckoningRow *self,
                                                WbReckoning    *reckoning);
WbReckoning    *wb_reckoning_row_get_reckoning (WbReckoningRow *self);
guint           wb_reckoning_row_get_line      (WbReckoningRow *self);

G_END_DECLS
