/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Charge statements: what a handler is asked to bear of a claim, line by line and why, as a text
 * that is sent to it; and whether what was stated still agrees with what it bears. */
#pragma once

#include "core/wb-charge.h"

G_BEGIN_DECLS

/**
 * wb_charge_statement_write:
 * @handler: its place among the handlers
 * @on: the day on which it is made out
 *
 * Returns: (transfer full): the statement to it. It says nothing of what was recovered, so that it
 * stays the same while the reckoning and the day do.
 */
char  *wb_charge_statement_write (const WbApportionment *self,
                                  guint                  handler,
                                  const GDate           *on) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the job with a charge, made out on @on with its statement,
 * for every handler that needs one: see wb_charge_state(). */
WbJob *wb_charge_statement_state (const WbApportionment *self,
                                  const GDate           *on,
                                  GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable) (transfer none): the statement as it was made out to @handler, or %NULL
 * when none was. @on: (out) (optional): when */
const char *wb_charge_statement_kept (const WbApportionment *self,
                                      guint                  handler,
                                      GDate                 *on);

/** Returns: (transfer full): a name for the file of a statement:
 * "C-2026-0017-Quarry-Warehouse.txt". */
char  *wb_charge_statement_file_name (const WbApportionment *self,
                                      guint                  handler) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): how what was stated to @handler differs from what it bears
 * now, in amount or in words, and what to do; %NULL when it agrees or nothing is to be stated.
 * That nothing was stated yet is told too once somebody else was charged. */
char  *wb_charge_difference      (const WbApportionment *self,
                                  guint                  handler) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what was charged on the claim, what came back and what is open, in a
 * sentence; that nothing was charged yet when nothing was. */
char  *wb_charge_sums_in_words   (const WbApportionment *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
