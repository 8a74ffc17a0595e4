/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Adds up claims. Which claims are meant, and where they come from, is for those who call. */
#include "config.h"

#define G_LOG_DOMAIN "wb-core"

#include "core/wb-claim-totals.h"

#include "core/wb-core.h"

#include <string.h>

static gboolean
add (gint64  *sum,
     gint64   term,
     GError **error)
{
  if (!__builtin_add_overflow (*sum, term, sum))
    return TRUE;
  g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW,
                       "the claims add up to more than can be counted");
  return FALSE;
}

/* --- one claim -------------------------------------------------------------------------------- */

static gboolean
add_demands (const WbJob    *job,
             const WbClaim  *claim,
             WbClaimRow     *out,
             GError        **error)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim->record.id) == 0 &&
          !add (&out->demanded, line->demanded.minor, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
add_payments (const WbJob    *job,
              const WbClaim  *claim,
              WbClaimRow     *out,
              GError        **error)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAYMENT); i++)
    {
      const WbPayment *payment = wb_job_nth (job, WB_KIND_PAYMENT, i);

      if (g_strcmp0 (payment->claim, claim->record.id) == 0 &&
          !add (&out->paid, payment->amount.minor, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
add_charges (const WbJob    *job,
             const WbClaim  *claim,
             WbClaimRow     *out,
             GError        **error)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CHARGE); i++)
    {
      const WbHandlerCharge *charge = wb_job_nth (job, WB_KIND_CHARGE, i);

      if (g_strcmp0 (charge->claim, claim->record.id) == 0 &&
          (!add (&out->charged, charge->amount.minor, error) ||
           !add (&out->recovered, charge->recovered.minor, error)))
        return FALSE;
    }
  return TRUE;
}

gboolean
wb_claim_row_read (const WbJob        *job,
                   const WbClaim      *claim,
                   const WbReckoning  *reckoning,
                   WbClaimRow         *out,
                   GError            **error)
{
  WbClaimRow row = { 0 };

  g_return_val_if_fail (job != NULL && claim != NULL && out != NULL, FALSE);

  memcpy (row.currency, wb_job_get_currency (job), sizeof row.currency);
  row.reserved = wb_money_is_set (claim->reserve);
  row.reserve = claim->reserve.minor;
  if (reckoning != NULL)
    {
      const WbSideReckoning *side = &reckoning->side[reckoning->applies];

      row.reckoned = TRUE;
      row.balance = side->balance;
      if (!add (&row.owed, side->owed, error) || !add (&row.owed, side->freight_refund, error))
        return FALSE;
    }
  if (!add_demands (job, claim, &row, error) || !add_payments (job, claim, &row, error) ||
      !add_charges (job, claim, &row, error))
    return FALSE;
  *out = row;
  return TRUE;
}

/* --- all of them ------------------------------------------------------------------------------ */

static int
compare_rows (gconstpointer a,
              gconstpointer b)
{
  return strcmp (((const WbClaimRow *) a)->currency, ((const WbClaimRow *) b)->currency);
}

static gboolean
add_row (WbClaimTotals     *totals,
         const WbClaimRow  *row,
         GError           **error)
{
  totals->n_claims++;
  totals->n_unreckoned += row->reckoned ? 0 : 1;
  totals->n_unreserved += row->reserved ? 0 : 1;
  if (row->reckoned &&
      (!add (&totals->owed, row->owed, error) || !add (&totals->balance, row->balance, error) ||
       !add (&totals->difference, row->reserve, error) ||
       !add (&totals->difference, -row->owed, error)))
    return FALSE;
  return add (&totals->demanded, row->demanded, error) &&
         add (&totals->reserve, row->reserve, error) &&
         add (&totals->paid, row->paid, error) &&
         add (&totals->charged, row->charged, error) &&
         add (&totals->recovered, row->recovered, error);
}

GArray *
wb_claim_totals (GArray  *rows,
                 GError **error)
{
  g_autoptr (GArray) out = g_array_new (FALSE, TRUE, sizeof (WbClaimTotals));
  g_autoptr (GArray) sorted = NULL;

  g_return_val_if_fail (rows != NULL, NULL);

  sorted = g_array_copy (rows);
  g_array_sort (sorted, compare_rows);
  for (guint i = 0; i < sorted->len; i++)
    {
      const WbClaimRow *row = &g_array_index (sorted, WbClaimRow, i);

      if (i == 0 || compare_rows (row, row - 1) != 0)
        {
          WbClaimTotals totals = { 0 };

          memcpy (totals.currency, row->currency, sizeof totals.currency);
          g_array_append_val (out, totals);
        }
      if (!add_row (&g_array_index (out, WbClaimTotals, out->len - 1), row, error))
        return NULL;
    }
  return g_steal_pointer (&out);
}
