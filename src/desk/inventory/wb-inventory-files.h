/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asking for the file of an import or an export, and writing the export. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-job.h"

G_BEGIN_DECLS

/** WbFileChosen: @file: (transfer none): what the person chose; not called when they chose
 * nothing. */
typedef void (*WbFileChosen) (GtkWidget *widget,
                              GFile     *file);

/** Asks for a list to read. @widget stays alive until the answer. */
void     wb_inventory_ask_import   (GtkWidget    *widget,
                                    WbFileChosen  chosen);
/** Asks where to write, proposing a name made of @number (nullable), the job's. */
void     wb_inventory_ask_export   (GtkWidget    *widget,
                                    const char   *number,
                                    WbFileChosen  chosen);

/** Writes the inventory of @job as comma-separated values, off the main loop and whole or not at
 * all. */
void     wb_inventory_write_async  (WbJob               *job,
                                    GFile               *file,
                                    GCancellable        *cancellable,
                                    GAsyncReadyCallback  callback,
                                    gpointer             data);
gboolean wb_inventory_write_finish (GAsyncResult  *result,
                                    GError       **error);

G_END_DECLS
