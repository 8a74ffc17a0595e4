/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* The charge statements of a claim, one handler at a time, to be read, copied and saved: as they
 * were made out, or how they would read today where nothing was stated yet. Says where one no
 * longer agrees with what its handler bears.
 * Actions: "statement.copy", "statement.save", "statement.next", "statement.previous". */
#define WB_TYPE_STATEMENT_WINDOW (wb_statement_window_get_type ())
G_DECLARE_FINAL_TYPE (WbStatementWindow, wb_statement_window, WB, STATEMENT_WINDOW, AdwWindow)

/** @handler: (nullable): whose statement is shown first */
GtkWidget  *wb_statement_window_new      (GtkWindow         *parent,
                                          WbReckoning       *reckoning,
                                          const char        *handler) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): the statement that is shown. */
const char *wb_statement_window_get_text (WbStatementWindow *self);

G_END_DECLS
