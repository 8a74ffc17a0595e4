/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One line of a list of pieces at a handover. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

#define WB_TYPE_PASS_ITEM (wb_pass_item_get_type ())
G_DECLARE_FINAL_TYPE (WbPassItem, wb_pass_item, WB, PASS_ITEM, GObject)

/** @piece: id; @tag: its tag in words; @what: what it is; @state: what the handover says of it. */
WbPassItem *wb_pass_item_new       (const char *piece,
                                    const char *tag,
                                    const char *what,
                                    const char *state) G_GNUC_WARN_UNUSED_RESULT;
const char *wb_pass_item_get_piece (WbPassItem *self);
const char *wb_pass_item_get_tag   (WbPassItem *self);
const char *wb_pass_item_get_what  (WbPassItem *self);
const char *wb_pass_item_get_state (WbPassItem *self);

/** Whether both say the same of the same piece. */
gboolean    wb_pass_item_equal     (WbPassItem *self,
                                    WbPassItem *other);

G_END_DECLS
