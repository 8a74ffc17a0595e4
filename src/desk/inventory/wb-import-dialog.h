/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window that reads a list of pieces from a file, says row by row what is wrong with it, and lets
 * the person take the good rows or none. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signals: "reported": the file was read, or could not be; what came of it is shown;
 * "taken" (const char *sentence): the rows are in the job; the sentence says how many. */
#define WB_TYPE_IMPORT_DIALOG (wb_import_dialog_get_type ())
G_DECLARE_FINAL_TYPE (WbImportDialog, wb_import_dialog, WB, IMPORT_DIALOG, AdwWindow)

/** Starts reading @file at once. @parent: (nullable): the window that it belongs to. */
WbImportDialog *wb_import_dialog_new (GtkWindow  *parent,
                                      WbJobModel *model,
                                      GFile      *file) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
