/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "desk/claim/wb-record-table.h"

G_BEGIN_DECLS

/* Which columns the tables of a claim have. */

/** Returns: (array length=n): the columns of claim lines. */
const WbTableColumn *wb_claim_line_columns (guint *n);
/** Returns: (array length=n): the columns of payments. */
const WbTableColumn *wb_payment_columns    (guint *n);

G_END_DECLS
