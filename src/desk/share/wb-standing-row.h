/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How one job stands on one server: a line of words with the step that suits. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-server-settings.h"

G_BEGIN_DECLS

#define WB_TYPE_STANDING_ROW (wb_standing_row_get_type ())
G_DECLARE_FINAL_TYPE (WbStandingRow, wb_standing_row, WB, STANDING_ROW, GtkWidget)

/** Returns: (transfer none): a row that asks nothing yet. */
GtkWidget  *wb_standing_row_new        (WbOffice       *office,
                                        const WbServer *server,
                                        const char     *job_id,
                                        const char     *title);
/** Asks the server, off the main loop; once more when it is asked already. */
void        wb_standing_row_ask        (WbStandingRow  *self);
/** The job was stored here: what is shown follows at once, and the server is asked a moment later. */
void        wb_standing_row_job_stored (WbStandingRow  *self);
/** The job is on its way there: the queue says how far, and this row nothing. */
void        wb_standing_row_set_quiet  (WbStandingRow  *self,
                                        gboolean        quiet);
/** Returns: (transfer none): the server's id. */
const char *wb_standing_row_get_server (WbStandingRow  *self);

G_END_DECLS
