/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-apportion.h"

G_BEGIN_DECLS

/* What the handlers are asked to bear of a claim, stated to them and followed to payment. The
 * right to recover from the carrier over whose route the loss happened is 49 USC 14706(b), known
 * from memory; between a carrier and its handlers their agreement decides. Pure. */

/** Returns: (transfer container) (element-type WbHandlerCharge): the charges of a claim to handler
 * @index, in the job's order. They belong to the job. */
GPtrArray *wb_charges_of       (const WbApportionment *self,
                                guint                  index) G_GNUC_WARN_UNUSED_RESULT;

/** Whether there is something to state to handler @index: it is not the carrier, and bears a part
 * or was charged one before. */
gboolean   wb_charge_is_needed (const WbApportionment *self,
                                guint                  index);

/**
 * wb_charge_state:
 * @statements: (array) (element-type utf8): a statement for each handler of @self; not looked at
 *   where wb_charge_is_needed() says that none is
 * @on: the day on which they are made out
 * @new_id: makes an id for a new charge; (transfer full)
 *
 * Gives every handler that needs one a charge of what it bears, with that day and its statement;
 * one that it has is brought up to date and keeps what was recovered and its notes. Of several
 * that a handler has the first takes over what was recovered by the others, which go.
 * Returns: (transfer full) (nullable): the job with them, or %NULL with %WB_CORE_ERROR_MISSING
 * when no handler bears a part, or %WB_CORE_ERROR_OVERFLOW.
 */
WbJob     *wb_charge_state     (const WbApportionment *self,
                                const char *const     *statements,
                                const GDate           *on,
                                char                *(*new_id) (void),
                                GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** WbChargeSums: of all handlers but the carrier. @open: charged and not recovered; @over: came
 * back beyond what was charged */
typedef struct
{
  gint64 charged;
  gint64 recovered;
  gint64 open;
  gint64 over;
} WbChargeSums;

/** Returns: %FALSE with %WB_CORE_ERROR_OVERFLOW when they do not add up in 64 bits. */
gboolean   wb_charge_add_up    (const WbApportionment *self,
                                WbChargeSums          *out,
                                GError               **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
