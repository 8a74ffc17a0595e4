/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list of contents as the text of one cell: a line for each thing, its parts between upright
 * strokes.
 *
 *     12 | dinner plates | 4.50 USD | 1.5 lb | Spode
 *     | gravy boat
 *
 * How many, what, value of one, weight of one, notes; what is not given is left empty, and empty
 * parts at the end are left out. In a text "\|" is a stroke, "\\" a backslash, "\n" and "\r" line
 * breaks, "\s" and "\t" white space at its ends. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer full): the text for @things (element-type WbThing); "" for none. */
char      *wb_things_cell_write (GPtrArray   *things) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_things_cell_read:
 * @piece: id of the piece that gets the things
 * @currency: the job's
 *
 * Returns: (transfer full) (element-type WbThing) (nullable): new things, none for an empty cell, or
 * %NULL with %G_IO_ERROR_INVALID_DATA that names the line within the cell and what is wrong.
 */
GPtrArray *wb_things_cell_read  (const char  *cell,
                                 const char  *piece,
                                 const char  *currency,
                                 GError     **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
