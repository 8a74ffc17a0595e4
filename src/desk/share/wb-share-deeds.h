/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a main window does with a job and a server: publish it, bring in what was changed there, check
 * what lies there. Each asks what it has to and shows how far it is. */
#pragma once

#include "desk/window/wb-window.h"

G_BEGIN_DECLS

/** Puts a job into the queue to be published, with all that is unsaved. @server_id: (nullable): %NULL
 * for the only one, or the one that is then chosen among several */
void wb_share_publish (WbWindow   *window,
                       const char *server_id,
                       const char *job_id,
                       const char *title);

/**
 * wb_share_bring:
 * @over: where it is asked for and told
 * @server_id: (nullable): as of wb_share_publish()
 *
 * Brings a published job into the book. One that was changed here as well is shown difference by
 * difference first, and what is decided stored and published. Afterwards the job is open in @window.
 */
void wb_share_bring   (WbWindow   *window,
                       GtkWindow  *over,
                       const char *server_id,
                       const char *job_id,
                       const char *title);

/** Reads every file of a published job back and says what came of it. */
void wb_share_verify  (GtkWindow  *over,
                       WbOffice   *office,
                       const char *server_id,
                       const char *job_id,
                       const char *title);

G_END_DECLS
