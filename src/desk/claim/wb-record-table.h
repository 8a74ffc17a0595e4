/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* The records of one kind that belong to a claim or a line of it, a row each, every cell typed into
 * from the keyboard. Left and Right go along the row, Up, Down and Enter along the column, Tab goes
 * past the table; where Enter finds no further row, the page is asked for a new record. What does not
 * read is said in words below the table. */
#define WB_TYPE_RECORD_TABLE (wb_record_table_get_type ())
G_DECLARE_FINAL_TYPE (WbRecordTable, wb_record_table, WB, RECORD_TABLE, GtkWidget)

/* Property: "selected-id" (string, nullable, read only).
 * Signal: "record-wanted": somebody pressed Enter in the last row. */

/**
 * WbTableColumn:
 * @field: (nullable): the field's name; %NULL for the column of notices
 * @title: short heading, marked for translation
 * @chars: width in characters
 * @warns: what the column of notices says is a warning, and is marked as one
 * @numeric: what the column of notices says is an amount, and stands at the right
 */
typedef struct
{
  const char *field;
  const char *title;
  guint       chars;
  gboolean    warns;
  gboolean    numeric;
} WbTableColumn;

/**
 * WbTableNotice:
 *
 * Returns: (transfer full) (nullable): what is to be said about a record, one sentence or more
 */
typedef char *(*WbTableNotice) (gconstpointer record,
                                gpointer      data);

/** Fills the table; once, before it is shown. @columns must outlive it. */
void        wb_record_table_set_up           (WbRecordTable       *self,
                                              WbJobModel          *model,
                                              WbKind               kind,
                                              const char          *label,
                                              const WbTableColumn *columns,
                                              guint                n_columns);
/** @data must outlive the table. */
void        wb_record_table_set_notice       (WbRecordTable       *self,
                                              WbTableNotice        notice,
                                              gpointer             data);
/** Asks for all notices anew. */
void        wb_record_table_renew_notices    (WbRecordTable       *self);

/** Shows the records of the claim with @owner_id; of quotes, those of the line with it. */
void        wb_record_table_set_owner        (WbRecordTable       *self,
                                              const char          *owner_id);
guint       wb_record_table_get_n_rows       (WbRecordTable       *self);

/** Returns: (nullable) (transfer none): id of the selected record. */
const char *wb_record_table_get_selected_id  (WbRecordTable       *self);
void        wb_record_table_select           (WbRecordTable       *self,
                                              const char          *id);
/** Selects a record and gives the focus to its cell of @field, as soon as it is there. */
void        wb_record_table_edit             (WbRecordTable       *self,
                                              const char          *id,
                                              const char          *field);

G_END_DECLS
