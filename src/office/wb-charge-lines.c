/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences for the sum that may be asked for at delivery. The sum is worked out in core; nothing
 * is added up here. */
#include "config.h"

#include "office/wb-charge-lines.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

static void
line_free (gpointer data)
{
  WbChargeLine *line = data;

  g_free (line->amount);
  g_free (line->note);
  g_free (line);
}

/* Takes @note. */
static void
add_line (GPtrArray        *lines,
          WbChargeLineKind  kind,
          const char       *nick,
          const char       *title,
          WbMoney           money,
          char             *note,
          const char       *citation,
          const char       *field)
{
  WbChargeLine *line = g_new0 (WbChargeLine, 1);

  line->kind = kind;
  line->nick = nick;
  line->title = title;
  line->amount = wb_money_is_set (money) ? wb_words_money (money) : NULL;
  line->money = money;
  line->note = note;
  line->citation = citation;
  line->field = field;
  g_ptr_array_add (lines, line);
}

static void
add_gap (GPtrArray  *lines,
         const char *title,
         const char *note,
         const char *field)
{
  add_line (lines, WB_CHARGE_LINE_GAP, "gap", title, WB_MONEY_UNSET, g_strdup (note), NULL, field);
}

/* --- what is missing -------------------------------------------------------------------------- */

static void
add_gaps (GPtrArray *lines,
          guint      gaps)
{
  if ((gaps & WB_CHARGE_GAP_ESTIMATE_KIND) != 0)
    add_gap (lines, _("The kind of the estimate is missing"),
             _("A binding estimate is asked for as it is, a non-binding one up to 110 %. Choose "
               "which it is."), "estimate_kind");
  if ((gaps & WB_CHARGE_GAP_ESTIMATE) != 0)
    add_gap (lines, _("The estimate is missing"),
             _("What may be asked for at delivery goes by its amount. Enter it."), "estimate");
  if ((gaps & WB_CHARGE_GAP_SHIPPED) != 0)
    add_gap (lines, _("The weight of the whole shipment is missing"),
             _("A part was delivered, and its share goes by the weight of all. Add the weighing, "
               "or enter the volume."), "volume");
  if ((gaps & WB_CHARGE_GAP_CHARGED) != 0)
    add_gap (lines, _("The charges are missing"),
             _("No more than was charged may be asked for. Until the charges are entered, the most "
               "by the estimate is shown."), "freight_charge");
}

static void
add_other_authority (GPtrArray     *lines,
                     const WbOrder *order)
{
  const char *words = NULL;

  switch (order->move_type)
    {
    case WB_MOVE_INTERSTATE:
      return;
    case WB_MOVE_INTRASTATE:
      words = _("The move stays within one state: the state’s rules and the carrier’s tariff say "
                "what may be asked for at delivery. The 110 % rule is for moves between states.");
      break;
    case WB_MOVE_MILITARY:
      words = _("The Department of Defense pays by its contract; nothing is asked for at delivery "
                "by the rules for moves between states.");
      break;
    case WB_MOVE_NONE:
      words = _("Choose the kind of move: it decides whose rules say what may be asked for.");
      break;
    case WB_MOVE_OTHER:
      words = _("The limits that Wainbook knows are those for moves between states in the United "
                "States.");
      break;
    }
  add_gap (lines, _("Other rules decide"), words, "move_type");
}

/* --- the sum ---------------------------------------------------------------------------------- */

/* Returns: (transfer full): "110 % of the non-binding estimate of $4,000.00". */
static char *
describe_estimate (const WbDeliveryCharges *charges)
{
  g_autofree char *estimate = wb_words_money (charges->estimate);

  if (charges->estimate_kind == WB_ESTIMATE_BINDING)
    /* Translators: an amount. */
    return g_strdup_printf (_("The binding estimate of %s"), estimate);

  /* Translators: an amount, and a percentage as a number. */
  return g_strdup_printf (_("At most %2$d %% of the non-binding estimate of %1$s"), estimate,
                          (int) wb_collect_rules_interstate.non_binding_percent);
}

static const char *
describe_source (WbWeightSource source)
{
  switch (source)
    {
    case WB_WEIGHT_SOURCE_NONE:
      return "";
    case WB_WEIGHT_SOURCE_REWEIGH:
      return _("by the reweigh");
    case WB_WEIGHT_SOURCE_WEIGHING:
      return _("by the weighing");
    case WB_WEIGHT_SOURCE_CONSTRUCTIVE:
      return _("the constructive weight noted");
    case WB_WEIGHT_SOURCE_VOLUME:
      return _("reckoned from the volume");
    case WB_WEIGHT_SOURCE_ESTIMATE:
      return _("by the estimate only");
    }
  g_return_val_if_reached ("");
}

static char *
describe_transport (const WbDeliveryCharges *charges,
                    WbWeightSource           source)
{
  g_autofree char *estimate = describe_estimate (charges);
  g_autofree char *share = NULL;
  g_autofree char *charged = NULL;
  GString *words = g_string_new (estimate);

  if (wb_weight_is_set (charges->delivered))
    {
      g_autofree char *delivered = wb_words_weight (charges->delivered);
      g_autofree char *shipped = wb_words_weight (charges->shipped);

      /* Translators: the weight delivered, the weight of all, where that comes from. */
      share = g_strdup_printf (_(", for the share delivered: %s of %s (%s)"), delivered, shipped,
                               describe_source (source));
      g_string_append (words, share);
    }
  if (charges->estimate_kind == WB_ESTIMATE_NON_BINDING && wb_money_is_set (charges->charged))
    {
      g_autofree char *sum = wb_words_money (charges->charged);

      /* Translators: an amount. */
      charged = g_strdup_printf (_("; the charges come to %s"), sum);
      g_string_append (words, charged);
    }
  g_string_append_c (words, '.');
  return g_string_free (words, FALSE);
}

static char *
describe_impracticable (const WbDeliveryCharges *charges)
{
  g_autofree char *noted = wb_words_money (charges->impracticable);

  if (!wb_money_is_set (charges->impracticable))
    return g_strdup (_("None is noted."));

  /* Translators: an amount, and a percentage as a number. */
  return g_strdup_printf (_("Of the %1$s noted, at most %2$d %% of the charges above."), noted,
                          (int) wb_collect_rules_interstate.impracticable_percent);
}

static const char *
transport_citation (const WbDeliveryCharges *charges)
{
  if (!wb_weight_is_set (charges->delivered))
    return charges->estimate_kind == WB_ESTIMATE_BINDING ? "49 CFR 375.703(a)"
                                                         : "49 CFR 375.703(b)";

  return charges->delivered.grains == 0 ? "49 CFR 375.709" : "49 CFR 375.707(a)(1)(i)";
}

static void
add_sum (GPtrArray               *lines,
         const WbDeliveryCharges *charges,
         WbWeightSource           source,
         const WbCollectable     *sum)
{
  gboolean lost = wb_weight_is_set (charges->delivered) && charges->delivered.grains == 0;

  add_line (lines, WB_CHARGE_LINE_PART, "transport", _("By the estimate"), sum->transport,
            describe_transport (charges, source), transport_citation (charges), "estimate");
  add_line (lines, WB_CHARGE_LINE_PART, "requested",
            _("Services asked for after the bill of lading"), sum->requested,
            g_strdup (lost ? _("All was lost: nothing but the valuation charge is collected.")
                           : _("In full.")), lost ? "49 CFR 375.709" : "49 CFR 375.703",
            "requested_charge");
  add_line (lines, WB_CHARGE_LINE_PART, "valuation", _("Valuation charge"), sum->valuation,
            g_strdup (_("In full, whatever was lost.")), "49 CFR 375.707(a)(1)(iv), 375.709",
            NULL);
  add_line (lines, WB_CHARGE_LINE_PART, "impracticable", _("Impracticable operations"),
            sum->impracticable, describe_impracticable (charges), "49 CFR 375.703",
            "impracticable_charge");
  add_line (lines, WB_CHARGE_LINE_TOTAL, "maximum", _("The most that may be asked for"),
            sum->maximum, g_strdup (_("For this amount the goods have to be handed over.")),
            "49 CFR 375.703, 375.707", NULL);
  add_line (lines, WB_CHARGE_LINE_LATER, "later", _("Billed later"), sum->billed_later,
            g_strdup (_("What was charged beyond it, on the freight bill.")),
            "49 CFR 375.703, 375.707(a)(2), 375.807", NULL);
}

GPtrArray *
wb_charge_lines (const WbJob *job,
                 WbWeight     per_cuft)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (line_free);
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;
  WbDeliveryCharges charges;
  WbWeightSource source;
  WbCollectable sum;
  guint gaps;

  g_return_val_if_fail (job != NULL, lines);

  gaps = wb_delivery_charges (job, per_cuft, &charges, &source);
  if ((gaps & WB_CHARGE_GAP_NOT_FEDERAL) != 0)
    {
      add_other_authority (lines, wb_job_order (job));
      return lines;
    }

  add_gaps (lines, gaps);
  if ((gaps & (WB_CHARGE_GAP_ESTIMATE | WB_CHARGE_GAP_ESTIMATE_KIND | WB_CHARGE_GAP_SHIPPED)) != 0)
    return lines;

  if (wb_collect_at_delivery (&wb_collect_rules_interstate, &charges, WB_ROUND_HALF_UP, &sum,
                              &error))
    {
      add_sum (lines, &charges, source, &sum);
      return lines;
    }

  words = wb_words_error (error);
  add_gap (lines, _("The sum cannot be made"), words,
           wb_weight_is_set (charges.delivered) ? "delivered_weight" : "estimate");
  return lines;
}

WbWeight
wb_per_cuft_of (const WbTermsSet *terms,
                const WbJob      *job)
{
  const WbTerms *edition = wb_terms_set_find (terms, wb_job_order (job), NULL);

  return edition != NULL ? edition->constructive_weight : WB_WEIGHT_UNSET;
}
