/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The packing checks of one carton, each kept by one key. It shows and asks; what a key does to the
 * job is the page's. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-packing.h"

G_BEGIN_DECLS

/* Signals: "note" (const char *rule, int state): somebody says how a check was kept; "all-met":
 * that all the open ones are; "next": goes to the next open check; "seen" (const char *rule): wants
 * to write what was seen; "leave": goes back to the cartons; "changed": another check is
 * selected. */
#define WB_TYPE_CHECK_LIST (wb_check_list_get_type ())
G_DECLARE_FINAL_TYPE (WbCheckList, wb_check_list, WB, CHECK_LIST, GtkWidget)

/** @states: (element-type WbPackingState): the checks; the selected one stays selected, unless they
 * are those of another carton (@anew). */
void        wb_check_list_show         (WbCheckList *self,
                                        GPtrArray   *states,
                                        gboolean     anew);

/** Returns: (nullable) (transfer none): nick of the selected check. */
const char *wb_check_list_get_selected (WbCheckList *self);

/** Selects the first open check behind the selected one, or before it when there is none behind, or
 * the first of all (@from_top), and gives it the focus. Returns: whether there is one. */
gboolean    wb_check_list_go_to_open   (WbCheckList *self,
                                        gboolean     from_top);

/** Gives the focus to the selected check, or to the first. */
gboolean    wb_check_list_focus        (WbCheckList *self);

G_END_DECLS
