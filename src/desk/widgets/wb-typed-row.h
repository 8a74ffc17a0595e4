/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row in which a person types a value that is not one field of one record: Enter and leaving the
 * row set it, Escape gives it up, and a text that does not read stays with a sentence beneath. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define WB_TYPE_TYPED_ROW (wb_typed_row_get_type ())
G_DECLARE_FINAL_TYPE (WbTypedRow, wb_typed_row, WB, TYPED_ROW, AdwEntryRow)

/** Takes what was typed. Returns: %FALSE with @error when it does not read. */
typedef gboolean (*WbTypedFunc) (const char  *text,
                                 gpointer     data,
                                 GError     **error);

/** @set: called with @data; @title: already translated */
GtkWidget *wb_typed_row_new      (const char   *title,
                                  WbTypedFunc   set,
                                  gpointer      data);

/** Shows the value that holds, unless a person is typing. */
void       wb_typed_row_show     (WbTypedRow   *self,
                                  const char   *text);
/** Shows that what is typed does not go, as if setting it had failed with @error. */
void       wb_typed_row_refuse   (WbTypedRow   *self,
                                  const GError *error);
/** Shows a hint beneath the row as long as what is typed is good; %NULL for none. */
void       wb_typed_row_set_hint (WbTypedRow   *self,
                                  const char   *hint);

G_END_DECLS
