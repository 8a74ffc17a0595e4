/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order as a paper: who, where, when, for how much, how heavy, and how far the carrier is
 * liable. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-papers-private.h"

#include "office/wb-charge-lines.h"
#include "office/wb-words-record.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- parties and stops ------------------------------------------------------------------------ */

static void
add_parties (WbDocument  *self,
             const WbJob *job)
{
  WbBlock *table;

  if (wb_job_count (job, WB_KIND_PARTY) == 0)
    return;
  wb_document_add_heading (self, 1, _("Parties"));
  table = wb_document_add_table (self, "llll", _("Role"), _("Name"), _("Address"),
                                 _("Telephone and e-mail"));
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);
      g_autofree char *dot = party->dot_number != NULL
                             /* Translators: the number that a carrier has from the US Department of
                              * Transportation. */
                             ? g_strdup_printf (_("US DOT %s"), party->dot_number) : NULL;
      g_autofree char *name = wb_paper_join ("\n", party->name, party->company, dot, wb_paper_end);
      g_autofree char *address = wb_paper_address (party->street, party->city, party->region,
                                                   party->postal_code, party->country);
      g_autofree char *reach = wb_paper_join ("\n", party->phone, party->email, wb_paper_end);

      wb_table_add_row (table, wb_words_enum (&wb_roles, (int) party->role), name, address, reach);
      wb_table_add_note (table, party->notes);
    }
}

/* "3 Mar 2026 to 5 Mar 2026, 8-12". */
static char *
days_of (const WbStop *stop)
{
  g_autofree char *on = wb_date_is_set (&stop->on) ? wb_words_date (&stop->on) : NULL;
  g_autofree char *until = wb_date_is_set (&stop->until) ? wb_words_date (&stop->until) : NULL;
  /* Translators: between the first and the last day. */
  g_autofree char *days = wb_paper_join (_(" to "), on, until, wb_paper_end);

  return wb_paper_join (", ", days, stop->hours, wb_paper_end);
}

static void
add_stops (WbDocument  *self,
           const WbJob *job)
{
  WbBlock *table;

  if (wb_job_count (job, WB_KIND_STOP) == 0)
    return;
  wb_document_add_heading (self, 1, _("Stops"));
  table = wb_document_add_table (self, "llll", _("Stop"), _("Where"), _("When"), _("Telephone"));
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i);
      g_autofree char *address = wb_paper_address (stop->street, stop->city, stop->region,
                                                   stop->postal_code, stop->country);
      g_autofree char *where = wb_paper_join ("\n", stop->name, address, wb_paper_end);
      g_autofree char *when = days_of (stop);

      wb_table_add_row (table, wb_words_enum (&wb_stop_kinds, (int) stop->kind), where, when,
                        stop->phone);
      wb_table_add_note (table, stop->access);
    }
}

/* --- weights ---------------------------------------------------------------------------------- */

static void
add_weighings (WbDocument  *self,
               const WbJob *job)
{
  WbBlock *table;

  if (wb_job_count (job, WB_KIND_WEIGHING) == 0)
    return;
  table = wb_document_add_table (self, "lllrrr", _("Weighing"), _("Scale and place"),
                                 _("Ticket"), _("Gross"), _("Tare"), _("Net"));
  for (guint i = 0; i < wb_job_count (job, WB_KIND_WEIGHING); i++)
    {
      const WbWeighing *weighing = wb_job_nth (job, WB_KIND_WEIGHING, i);
      g_autofree char *on = wb_paper_value (weighing, "on");
      g_autofree char *kind = wb_paper_value (weighing, "kind");
      g_autofree char *what = wb_paper_join (", ", kind, on, wb_paper_end);
      g_autofree char *scale = wb_paper_join (", ", weighing->scale, weighing->vehicle,
                                              weighing->weighed_by, wb_paper_end);
      g_autofree char *gross = wb_paper_value (weighing, "gross");
      g_autofree char *tare = wb_paper_value (weighing, "tare");
      g_autofree char *net = wb_paper_value (weighing, "net");

      wb_table_add_row (table, what, scale, weighing->ticket, gross, tare, net);
      wb_document_add_day (self, &weighing->on);
    }
}

static void
add_weights (WbDocument         *self,
             const WbPaperInput *input)
{
  g_autofree char *governs = NULL;

  governs = wb_words_shipment_weight (input->job, input->terms != NULL
                                                  ? input->terms->constructive_weight
                                                  : WB_WEIGHT_UNSET);
  wb_document_add_heading (self, 1, _("Weight"));
  wb_paper_add_fields (self, wb_job_order (input->job), "estimated_weight", "volume",
                       "minimum_weight", "delivered_weight", NULL);
  add_weighings (self, input->job);
  wb_document_add_text (self, WB_BLOCK_PARAGRAPH, governs);
}

/* --- charges ---------------------------------------------------------------------------------- */

/* What may be asked for at delivery, when it can be said. */
static void
add_collectable (WbDocument         *self,
                 const WbPaperInput *input)
{
  g_autoptr (GPtrArray) lines = wb_charge_lines (input->job, input->terms != NULL
                                                             ? input->terms->constructive_weight
                                                             : WB_WEIGHT_UNSET);
  WbBlock *table = NULL;

  for (guint i = 0; i < lines->len; i++)
    {
      const WbChargeLine *line = g_ptr_array_index (lines, i);

      if (line->kind == WB_CHARGE_LINE_GAP)
        continue;
      if (table == NULL)
        {
          wb_document_add_heading (self, 2, _("What may be asked for at delivery"));
          table = wb_document_add_table (self, "llr", _("What"), _("How it comes about"),
                                         _("Amount"));
        }
      if (line->kind == WB_CHARGE_LINE_TOTAL)
        wb_table_add_total (table, line->title, line->note, line->amount);
      else
        wb_table_add_row (table, line->title, line->note, line->amount);
    }
}

static void
add_charges (WbDocument         *self,
             const WbPaperInput *input)
{
  wb_document_add_heading (self, 1, _("Estimate and charges"));
  wb_paper_add_fields (self, wb_job_order (input->job), "estimate_kind", "estimate",
                       "estimated_on", "survey", "freight_charge", "other_charge",
                       "minimum_charge", "requested_charge", "impracticable_charge", "per_diem",
                       "payment_form", "payment_terms", "notify_charges", "insurance",
                       "insurance_premium", NULL);
  add_collectable (self, input);
}

/* --- the order -------------------------------------------------------------------------------- */

static void
add_dates (WbDocument    *self,
           const WbOrder *order)
{
  static const char *const agreed[] = { "survey_on", "pack_on", "pickup_from", "pickup_to",
                                        "delivery_from", "delivery_to", "storage_from",
                                        "storage_to" };
  const WbRecordType *type = wb_record_type (WB_KIND_ORDER);

  wb_document_add_heading (self, 1, _("Dates"));
  wb_paper_add_fields (self, order, "booked_on", NULL);
  /* Days that were agreed may lie ahead, and are no day of the paper. */
  for (gsize i = 0; i < G_N_ELEMENTS (agreed); i++)
    {
      g_autofree char *words = wb_paper_value (order, agreed[i]);

      wb_document_add_field (self, wb_words_field (wb_record_type_field (type, agreed[i])), words);
    }
  wb_paper_add_fields (self, order, "picked_up_on", "delivered_on", "guaranteed", "storage_days",
                       "storage_notice_on", "closed_on", NULL);
}

WbDocument *
wb_paper_order (const WbPaperInput *input)
{
  const WbOrder *order = wb_job_order (input->job);
  WbDocument *self = wb_paper_begin (input, _("Order"));

  wb_paper_add_fields (self, order, "number", "bill_number", "stage", "move_type", "region",
                       "coordinator", "vehicle", NULL);
  add_parties (self, input->job);
  add_stops (self, input->job);
  add_dates (self, order);
  add_charges (self, input);
  add_weights (self, input);
  if (order->special_services != NULL || order->notes != NULL)
    wb_document_add_heading (self, 1, _("Services and notes"));
  wb_document_add_text (self, WB_BLOCK_PARAGRAPH, order->special_services);
  wb_document_add_text (self, WB_BLOCK_PARAGRAPH, order->notes);
  wb_paper_add_valuation (self, input);
  return self;
}
