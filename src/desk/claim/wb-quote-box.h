/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The quotes beside the chosen claim line: noted, compared, and one of each kind taken as the
 * figure of the line. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model" (WbJobModel).
 * Actions: "quotes.add", "quotes.take", "quotes.remove". */
#define WB_TYPE_QUOTE_BOX (wb_quote_box_get_type ())
G_DECLARE_FINAL_TYPE (WbQuoteBox, wb_quote_box, WB, QUOTE_BOX, GtkWidget)

/** @line_id: (nullable): the line that is shown; to be called after each change of the job. */
void wb_quote_box_show (WbQuoteBox *self,
                        const char *line_id);

/** Adds a quote to the line that is shown and begins to edit it. */
void wb_quote_box_add  (WbQuoteBox *self);

/** Chooses the quote @id of the line that is shown and begins to edit its @field; %NULL: the first. */
void wb_quote_box_edit (WbQuoteBox *self,
                        const char *id,
                        const char *field);

G_END_DECLS
