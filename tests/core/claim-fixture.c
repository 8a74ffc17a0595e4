/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "claim-fixture.h"

#include <string.h>

WbTerms *
claim_parse_terms (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) editions = wb_terms_parse (text, strlen (text), "test", &error);

  g_assert_no_error (error);
  return wb_terms_ref (g_ptr_array_index (editions, 0));
}

gpointer
claim_add (ClaimFixture *fixture,
           WbKind        kind,
           const char   *id)
{
  gpointer record = wb_record_new (kind, id);

  g_ptr_array_add (fixture->records, record);
  return record;
}

WbMoney
dollars (gint64 amount)
{
  return wb_money (amount * 100, "USD");
}

WbWeight
pounds (gint64 amount)
{
  return wb_weight (amount * 100, WB_WEIGHT_UNIT_LB);
}

void
claim_set_up_with (ClaimFixture *fixture,
                   const char   *terms)
{
  WbOrder *order;
  WbWeighing *weighing;
  WbClaim *claim;

  fixture->terms = claim_parse_terms (terms);
  fixture->empty = wb_job_new ("job", "USD");
  fixture->records = g_ptr_array_new_with_free_func (wb_record_unref);
  order = claim_add (fixture, WB_KIND_ORDER, "order");
  wb_set_text (&order->number, "J-1");
  g_date_set_dmy (&order->picked_up_on, 1, G_DATE_MARCH, 2024);
  g_date_set_dmy (&order->delivered_on, 10, G_DATE_MARCH, 2024);
  claim_add (fixture, WB_KIND_VALUATION, "valuation");
  weighing = claim_add (fixture, WB_KIND_WEIGHING, "scale");
  weighing->kind = WB_WEIGHING_FIRST;
  weighing->net = pounds (5000);
  claim = claim_add (fixture, WB_KIND_CLAIM, "claim");
  wb_set_text (&claim->number, "C-1");
  g_date_set_dmy (&claim->received_on, 1, G_DATE_APRIL, 2024);
}

void
claim_set_up (ClaimFixture  *fixture,
              gconstpointer  data)
{
  claim_set_up_with (fixture, TERMS_HEAD TERMS_USUAL);
}

void
claim_tear_down (ClaimFixture  *fixture,
                 gconstpointer  data)
{
  wb_terms_unref (fixture->terms);
  wb_job_unref (fixture->empty);
  g_ptr_array_unref (fixture->records);
}

gpointer
claim_find (ClaimFixture *fixture,
            WbKind        kind)
{
  for (guint i = 0; i < fixture->records->len; i++)
    if (((WbRecord *) g_ptr_array_index (fixture->records, i))->type->kind == kind)
      return g_ptr_array_index (fixture->records, i);
  g_assert_not_reached ();
}

WbPiece *
claim_add_piece (ClaimFixture *fixture,
                 const char   *id,
                 WbForm        form,
                 gint64        lb)
{
  WbPiece *piece = claim_add (fixture, WB_KIND_PIECE, id);

  piece->form = form;
  piece->weight = lb > 0 ? pounds (lb) : WB_WEIGHT_UNSET;
  return piece;
}

WbClaimLine *
claim_add_line (ClaimFixture *fixture,
                const char   *piece,
                WbLoss        loss,
                gint64        replacement,
                gint64        repair)
{
  g_autofree char *id = g_strdup_printf ("l%u", ++fixture->n_lines);
  WbClaimLine *line = claim_add (fixture, WB_KIND_CLAIM_LINE, id);

  wb_set_text (&line->claim, "claim");
  wb_set_text (&line->piece, piece);
  line->number = fixture->n_lines;
  line->loss = loss;
  line->replacement = replacement > 0 ? dollars (replacement) : WB_MONEY_UNSET;
  line->repair = repair > 0 ? dollars (repair) : WB_MONEY_UNSET;
  return line;
}

WbReckoning *
claim_reckon (ClaimFixture *fixture)
{
  g_autoptr (WbJob) job = wb_job_with_many (fixture->empty, fixture->records);
  g_autoptr (GError) error = NULL;
  WbReckoning *reckoning;

  wb_job_check (job, &error);
  g_assert_no_error (error);
  reckoning = wb_reckon (fixture->terms, job, "claim", &error);
  g_assert_no_error (error);
  return reckoning;
}

void
claim_sign_waiver (ClaimFixture *fixture)
{
  WbValuation *valuation = claim_find (fixture, WB_KIND_VALUATION);

  valuation->choice = WB_CHOICE_RELEASED;
  wb_set_text (&valuation->signed_by, "The shipper");
  g_date_set_dmy (&valuation->signed_on, 1, G_DATE_MARCH, 2024);
  valuation->signed_how = WB_SIGNED_ON_PAPER;
  wb_set_text (&valuation->disclosure, "Both choices with their cost");
}

const WbReason *
claim_find_reason (const WbReckoning *reckoning,
                   WbRule             rule,
                   WbScope            scope,
                   gint               line)
{
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    if (reason->rule == rule && reason->scope == scope && reason->line == line)
      return reason;
  return NULL;
}
