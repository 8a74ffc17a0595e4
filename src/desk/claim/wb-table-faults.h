/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What was typed into the cells of a table and does not read: kept by record and column, so that it
 * is there again when the row comes back into sight. */

typedef struct _WbTableFaults WbTableFaults;

WbTableFaults *wb_table_faults_new     (void) G_GNUC_WARN_UNUSED_RESULT;
void           wb_table_faults_free    (WbTableFaults *self);

/** Keeps @text and what is wrong with it for a cell; @message %NULL takes the cell's fault away. */
void           wb_table_faults_set     (WbTableFaults *self,
                                        const char    *id,
                                        guint          column,
                                        const char    *text,
                                        const char    *message);
void           wb_table_faults_clear   (WbTableFaults *self);

/** Returns: whether the cell has a fault; then @text and @message are set to what is kept. */
gboolean       wb_table_faults_find    (WbTableFaults *self,
                                        const char    *id,
                                        guint          column,
                                        const char   **text,
                                        const char   **message);

/** Returns: (transfer full) (nullable): all faults, a line each, with the headings of their
 * columns; %NULL when there is none. @title_of gives the heading of a column. */
char          *wb_table_faults_words   (WbTableFaults *self,
                                        const char    *(*title_of) (guint    column,
                                                                    gpointer data),
                                        gpointer       data) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTableFaults, wb_table_faults_free)

G_END_DECLS
