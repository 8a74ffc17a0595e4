/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Going to a field of a claim, a line, a payment or a quote: the claim that it belongs to is shown
 * first, and of a line the row is chosen. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-claim-page-private.h"

#include "desk/claim/wb-claim-columns.h"
#include "desk/widgets/wb-scroll-to.h"

static gboolean
reveal_claim (WbClaimPage *self,
              const char  *id,
              const char  *field)
{
  if (wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM, id) == NULL)
    return FALSE;

  wb_claim_page_show_now (self, id);
  if (!wb_reveal_within (GTK_WIDGET (self), WB_KIND_CLAIM, id, field))
    {
      gtk_widget_child_focus (GTK_WIDGET (self->head), GTK_DIR_TAB_FORWARD);
      wb_scroll_to (GTK_WIDGET (self->head));
    }
  return TRUE;
}

static gboolean
has_column (const WbTableColumn *columns,
            guint                n,
            const char          *field)
{
  for (guint i = 0; i < n; i++)
    if (field != NULL && g_strcmp0 (columns[i].field, field) == 0)
      return TRUE;

  return FALSE;
}

static gboolean
reveal_line (WbClaimPage *self,
             const char  *id,
             const char  *field)
{
  const WbClaimLine *line = wb_job_find (wb_job_model_get_job (self->model), WB_KIND_CLAIM_LINE,
                                         id);
  const WbTableColumn *columns;
  guint n;

  if (line == NULL)
    return FALSE;

  columns = wb_claim_line_columns (&n);
  wb_claim_page_show_now (self, line->claim);
  wb_record_table_select (self->lines, id);
  wb_scroll_to (GTK_WIDGET (self->lines));
  /* What the table has no column for may stand beside the chosen line. */
  if (has_column (columns, n, field))
    wb_record_table_edit (self->lines, id, field);
  else if (!wb_reveal_within (GTK_WIDGET (self), WB_KIND_CLAIM_LINE, id, field))
    wb_record_table_edit (self->lines, id, "item");
  return TRUE;
}

static gboolean
reveal_payment (WbClaimPage *self,
                const char  *id,
                const char  *field)
{
  const WbPayment *payment = wb_job_find (wb_job_model_get_job (self->model), WB_KIND_PAYMENT, id);
  const WbTableColumn *columns;
  guint n;

  if (payment == NULL)
    return FALSE;

  columns = wb_payment_columns (&n);
  wb_claim_page_show_now (self, payment->claim);
  wb_scroll_to (GTK_WIDGET (self->payments));
  wb_record_table_edit (self->payments, id, has_column (columns, n, field) ? field : "on");
  return TRUE;
}

/* The quotes stand beside their line. */
static gboolean
reveal_quote (WbClaimPage *self,
              const char  *id,
              const char  *field)
{
  const WbQuote *quote = wb_job_find (wb_job_model_get_job (self->model), WB_KIND_QUOTE, id);

  if (quote == NULL || !reveal_line (self, quote->claim_line, NULL))
    return FALSE;

  wb_quote_box_edit (self->quotes, id, field);
  wb_scroll_to (GTK_WIDGET (self->quotes));
  return TRUE;
}

/* Without a record it is the page itself that is meant, where claims begin. */
static gboolean
reveal (WbRevealer *revealer,
        WbKind      kind,
        const char *id,
        const char *field)
{
  WbClaimPage *self = WB_CLAIM_PAGE (revealer);

  if (id == NULL)
    {
      gtk_widget_grab_focus (GTK_WIDGET (self));
      return TRUE;
    }
  if (kind == WB_KIND_CLAIM)
    return reveal_claim (self, id, field);
  if (kind == WB_KIND_CLAIM_LINE)
    return reveal_line (self, id, field);
  if (kind == WB_KIND_PAYMENT)
    return reveal_payment (self, id, field);
  if (kind == WB_KIND_QUOTE)
    return reveal_quote (self, id, field);

  return FALSE;
}

void
wb_claim_page_init_revealer (WbRevealerInterface *iface)
{
  iface->reveal = reveal;
}
