/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row in which a person types one field of a record. Unfocused it shows the value as one reads
 * it, focused as one types it. A text that does not read stays where it is with a sentence beneath,
 * until it is mended or given up with Escape; the job keeps the last good value. Enter and leaving
 * the row set the value. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model", "field" ("order.number"), "record-id"; "invalid" (read only): the text in it
 * does not read. */
#define WB_TYPE_FIELD_ROW (wb_field_row_get_type ())
G_DECLARE_FINAL_TYPE (WbFieldRow, wb_field_row, WB, FIELD_ROW, AdwEntryRow)

/**
 * wb_field_widget_new:
 * @id: (nullable): the record; may be %NULL for the order and the valuation
 * @field: name of the field ("room")
 *
 * Returns: (transfer floating): the row that suits the field: #WbFieldRow, #WbTextRow for text of
 * several lines, #WbChoiceRow for a closed list, #WbSwitchRow for yes or no. Not for references:
 * their page knows what to offer.
 */
GtkWidget *wb_field_widget_new     (WbJobModel *model,
                                    WbKind      kind,
                                    const char *id,
                                    const char *field);

/** Shows @note beneath the row as a warning as long as the text itself is good; %NULL for none. */
void       wb_field_row_set_note   (WbFieldRow *self,
                                    const char *note);

/** Gives up what is typed and not set yet. Returns: whether there was something. */
gboolean   wb_field_row_revert     (WbFieldRow *self);

G_END_DECLS
