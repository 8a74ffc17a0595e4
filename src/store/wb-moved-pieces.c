/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Counts the pieces of delivered jobs by what a report asks of them. What the texts mean, and which
 * of them are the same, is for others. */
#include "config.h"

#include "store/wb-moved-pieces.h"

#include "core/wb-calendar.h"

/* The crew is that of the first pick-up with one; the lane goes from the first pick-up with a
 * region to the last delivery: as in core/wb-loss-line.c. */
#define COUNT_PIECES \
  "SELECT job.currency, \"order\".delivered_on," \
  " (SELECT crew FROM handover WHERE handover.job_id = job.id AND kind = 'pickup'" \
  "   AND trim (coalesce (crew, '')) <> '' ORDER BY position LIMIT 1)," \
  " (SELECT region FROM stop WHERE stop.job_id = job.id AND kind = 'pickup'" \
  "   AND region IS NOT NULL ORDER BY position LIMIT 1)," \
  " (SELECT region FROM stop WHERE stop.job_id = job.id AND kind = 'delivery'" \
  "   ORDER BY position DESC LIMIT 1)," \
  " piece.form, piece.carton, piece.packed_by, piece.packer, piece.room, count (*)" \
  " FROM job JOIN \"order\" ON \"order\".job_id = job.id JOIN piece ON piece.job_id = job.id" \
  " WHERE job.removed = 0 AND \"order\".delivered_on IS NOT NULL" \
  " GROUP BY job.doc, piece.form, piece.carton, piece.packed_by, piece.packer, piece.room"

static const char *
text_at (sqlite3_stmt *statement,
         int           column)
{
  return (const char *) sqlite3_column_text (statement, column);
}

/* Returns: whether a book can hold such a row; its own checks see to that. */
static gboolean
read_row (sqlite3_stmt  *statement,
          WbMovedPieces *out)
{
  int form, packed_by;

  *out = (WbMovedPieces) { .currency = text_at (statement, 0), .crew = text_at (statement, 2),
                           .from_region = text_at (statement, 3),
                           .to_region = text_at (statement, 4), .carton = text_at (statement, 6),
                           .packer = text_at (statement, 8), .room = text_at (statement, 9),
                           .n = sqlite3_column_int64 (statement, 10) };
  if (!wb_date_parse (text_at (statement, 1), &out->delivered_on, NULL) ||
      !wb_enum_parse (&wb_forms, text_at (statement, 5), &form, NULL) ||
      !wb_enum_parse (&wb_packed_by, text_at (statement, 7), &packed_by, NULL))
    return FALSE;
  out->form = (WbForm) form;
  out->packed_by = (WbPackedBy) packed_by;
  return TRUE;
}

gboolean
wb_moved_pieces_scan (WbSqlite           *book,
                      WbMovedPiecesFunc   each,
                      gpointer            data,
                      GError            **error)
{
  sqlite3_stmt *statement = wb_sqlite_prepare (book, COUNT_PIECES, error);
  WbMovedPieces row;
  WbStep step;

  if (statement == NULL)
    return FALSE;
  while ((step = wb_sqlite_step (book, statement, error)) == WB_STEP_ROW)
    {
      if (!read_row (statement, &row))
        {
          sqlite3_reset (statement);
          wb_sqlite_set_error (book, WB_STORE_ERROR_CORRUPT, error,
                               "a piece of a delivered job holds what no piece can");
          return FALSE;
        }
      each (&row, data);
    }
  return step == WB_STEP_END;
}
