/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables' columns, in the order in which an adjuster fills them in. */
#include "config.h"

#include "desk/claim/wb-claim-columns.h"

#include <glib/gi18n.h>

static const WbTableColumn claim_line_columns[] = {
  { "number", N_("No."), 3 },
  { "item", N_("What is claimed"), 19 },
  { "piece", N_("Piece"), 13 },
  { NULL, N_("Notice"), 3, .warns = TRUE },
  { "loss", N_("Loss"), 10 },
  { "demanded", N_("Demanded"), 8 },
  { "replacement", N_("Replacement"), 8 },
  { "repair", N_("Repair"), 8 },
  /* Translators: what is allowed for a blemish that a repair leaves. */
  { "appearance", N_("Appearance"), 9 },
  { "salvage", N_("Salvage"), 9 },
  { "weight", N_("Weight"), 8 },
  { "age_years", N_("Years"), 4 },
  { "depreciation_yearly", N_("A year"), 6 },
  /* Translators: depreciation that does not go by the years. */
  { "depreciation_flat", N_("Flat"), 6 },
  { "ruling", N_("Ruling"), 10 },
  { "ruling_reason", N_("Reason"), 20 },
};

static const WbTableColumn payment_columns[] = {
  { "on", N_("Paid on"), 11 },
  { "amount", N_("Amount"), 11 },
  { "claim_line", N_("For line"), 6 },
  { "freight_refund", N_("Freight in it"), 11 },
  { "deductible_taken", N_("Deductible taken"), 11 },
  { "notes", N_("Notes"), 40 },
};

const WbTableColumn *
wb_claim_line_columns (guint *n)
{
  *n = G_N_ELEMENTS (claim_line_columns);
  return claim_line_columns;
}

const WbTableColumn *
wb_payment_columns (guint *n)
{
  *n = G_N_ELEMENTS (payment_columns);
  return payment_columns;
}
