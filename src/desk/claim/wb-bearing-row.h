/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

#include "core/wb-apportion.h"

G_BEGIN_DECLS

/* A line of a claim and who bears it, in words, for a list.
 * Signal: "changed". */
#define WB_TYPE_BEARING_ROW (wb_bearing_row_get_type ())
G_DECLARE_FINAL_TYPE (WbBearingRow, wb_bearing_row, WB, BEARING_ROW, GObject)

WbBearingRow *wb_bearing_row_new         (const WbApportionment *apportionment,
                                          guint                  line) G_GNUC_WARN_UNUSED_RESULT;
/** Takes the words of line @line anew. */
void          wb_bearing_row_read        (WbBearingRow          *self,
                                          const WbApportionment *apportionment,
                                          guint                  line);

/* All (transfer none). */
const char   *wb_bearing_row_get_id      (WbBearingRow          *self);   /* of the claim line */
const char   *wb_bearing_row_get_name    (WbBearingRow          *self);   /* "3. Kitchen table" */
const char   *wb_bearing_row_get_owed    (WbBearingRow          *self);
const char   *wb_bearing_row_get_bearers (WbBearingRow          *self);
const char   *wb_bearing_row_get_ground  (WbBearingRow          *self);   /* short */
const char   *wb_bearing_row_get_why     (WbBearingRow          *self);   /* a paragraph a line */

G_END_DECLS
