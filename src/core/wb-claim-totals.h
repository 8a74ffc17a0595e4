/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* What all open claims of an office come to: asked, owed, set aside, paid, recovered. Pure sums
 * over plain rows, one currency apart from another. That a reserve is set aside on each open claim is
 * common practice of claims offices, not a rule of law. */

/**
 * WbClaimRow: what one claim adds; all amounts are minor units of @currency
 * @reckoned: the claim could be reckoned; else @owed and @balance are 0 and count for nothing
 * @reserved: a reserve was set aside, though it may be of 0
 * @owed: under the side that applies, the freight that goes back included
 * @balance: @owed less what was paid
 * @recovered: came back from handlers, by the charge statements; @charged to them
 */
typedef struct
{
  char     currency[4];
  gboolean reckoned;
  gboolean reserved;
  gint64   demanded;
  gint64   owed;
  gint64   reserve;
  gint64   paid;
  gint64   balance;
  gint64   charged;
  gint64   recovered;
} WbClaimRow;

/**
 * WbClaimTotals: of all claims in one currency
 * @n_unreckoned: claims of which nobody can say what is owed; their other amounts are in the sums
 * @n_unreserved: claims with nothing set aside; they count as 0
 * @difference: reserve less what is owed, over the claims that were reckoned; negative when too
 *   little was set aside
 */
typedef struct
{
  char   currency[4];
  guint  n_claims;
  guint  n_unreckoned;
  guint  n_unreserved;
  gint64 demanded;
  gint64 owed;
  gint64 reserve;
  gint64 paid;
  gint64 balance;
  gint64 charged;
  gint64 recovered;
  gint64 difference;
} WbClaimTotals;

/**
 * wb_claim_row_read:
 * @reckoning: (nullable): of the claim; %NULL when it could not be reckoned
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_OVERFLOW when a claim's amounts do not add up.
 */
gboolean wb_claim_row_read (const WbJob        *job,
                            const WbClaim      *claim,
                            const WbReckoning  *reckoning,
                            WbClaimRow         *out,
                            GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_claim_totals:
 * @rows: (element-type WbClaimRow)
 *
 * Returns: (transfer full) (nullable) (element-type WbClaimTotals): by currency; empty for no rows.
 * %NULL with %WB_CORE_ERROR_OVERFLOW. The order of @rows changes nothing.
 */
GArray  *wb_claim_totals   (GArray             *rows,
                            GError            **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
