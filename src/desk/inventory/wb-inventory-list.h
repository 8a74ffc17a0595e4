/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All pieces of the open job as one table that filters, sorts and selects. Filtering and sorting
 * thousands of lines goes in small steps between frames, so a piece that was just added or looked
 * for may take a moment to be in its place. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signals: "edit" (const char *id): Enter or a double click on a line; "changed": other lines are
 * shown or selected; told when filter and sort have come to rest, and at most once a turn of the
 * main loop. */
#define WB_TYPE_INVENTORY_LIST (wb_inventory_list_get_type ())
G_DECLARE_FINAL_TYPE (WbInventoryList, wb_inventory_list, WB, INVENTORY_LIST, GtkWidget)

/** @model: the job to show; once only. */
void               wb_inventory_list_set_model     (WbInventoryList *self,
                                                    WbJobModel      *model);

/** Returns: (transfer none): the lines shown, as #WbRecordItem, in the order shown, with their
 * selection. */
GtkSelectionModel *wb_inventory_list_get_selection (WbInventoryList *self);
/** Returns: (transfer full) (element-type utf8): the ids of the selected pieces, in the order
 * shown. */
GPtrArray *wb_inventory_list_get_selected (WbInventoryList *self) G_GNUC_WARN_UNUSED_RESULT;

/** Shows only pieces in which every one of @words occurs. */
void               wb_inventory_list_set_words     (WbInventoryList *self,
                                                    const char      *words);
/** Whether words hold lines back. */
gboolean           wb_inventory_list_is_filtered   (WbInventoryList *self);

/** Whether the words let piece @id through, shown already or not. */
gboolean           wb_inventory_list_lets_through  (WbInventoryList *self,
                                                    const char      *id);

/** Whether filtering and sorting are done, and what is shown is what will be shown. */
gboolean           wb_inventory_list_is_at_rest    (WbInventoryList *self);

/** Sorts by a column's id, the other way round when it is sorted so already; "" is the order of
 * entry. */
void               wb_inventory_list_sort_by       (WbInventoryList *self,
                                                    const char      *column);

/** Selects the piece, scrolls to it and, when @focus, moves the focus to its line; waits for a
 * filter or a sort under way. Without @focus it happens before the next frame, so that entering a
 * line and scrolling to it do not add up. */
void               wb_inventory_list_reveal        (WbInventoryList *self,
                                                    const char      *id,
                                                    gboolean         focus);

/** Returns: (transfer none) (nullable): id of the line shown @step lines below the piece (above
 * when negative), %NULL beyond either end or when the piece is not shown. */
const char        *wb_inventory_list_neighbour     (WbInventoryList *self,
                                                    const char      *id,
                                                    int              step);

G_END_DECLS
