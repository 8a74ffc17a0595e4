/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The amounts of a reckoning by name: value, words and reasons. Works nothing out; every figure
 * stands in the reckoning. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-amount.h"

#include <glib/gi18n.h>
#include <inttypes.h>

#include "office/wb-words.h"

const char *
wb_amount_label (WbAmount amount)
{
  switch (amount)
    {
    case WB_AMOUNT_LOSS:
      return _("Loss");
    case WB_AMOUNT_ALLOWED:
      return _("Allowed");
    case WB_AMOUNT_DEDUCTED:
      return _("Deducted");
    case WB_AMOUNT_OWED:
      return _("Owed");
    case WB_AMOUNT_LIMIT:
      return _("Limit of the shipment");
    case WB_AMOUNT_EARLIER:
      return _("Used by other claims");
    case WB_AMOUNT_LIMIT_LEFT:
      return _("Limit left");
    case WB_AMOUNT_COVERED:
      return _("Within the limit");
    case WB_AMOUNT_DEDUCTIBLE:
      return _("Deductible to bear");
    case WB_AMOUNT_FREIGHT:
      return _("Freight to refund");
    case WB_AMOUNT_PAID:
      return _("Paid so far");
    case WB_AMOUNT_BALANCE:
      return _("Left to pay");
    }

  g_assert_not_reached ();
}

const char *
wb_side_label (WbSide side)
{
  return wb_words_enum (&wb_sides, side);
}

static gint64
line_value (const WbLineFigures *figures,
            WbAmount             amount)
{
  switch (amount)
    {
    case WB_AMOUNT_LOSS:
      return figures->loss;
    case WB_AMOUNT_ALLOWED:
      return figures->allowed;
    case WB_AMOUNT_DEDUCTED:
      return figures->deducted;
    case WB_AMOUNT_OWED:
      return figures->owed;
    case WB_AMOUNT_COVERED:
      return figures->covered;
    case WB_AMOUNT_LIMIT:
    case WB_AMOUNT_EARLIER:
    case WB_AMOUNT_LIMIT_LEFT:
    case WB_AMOUNT_DEDUCTIBLE:
    case WB_AMOUNT_FREIGHT:
    case WB_AMOUNT_PAID:
    case WB_AMOUNT_BALANCE:
      break;
    }

  g_assert_not_reached ();
}

static gint64
claim_value (const WbSideReckoning *side,
             WbAmount               amount)
{
  switch (amount)
    {
    case WB_AMOUNT_LOSS:
      return side->loss;
    case WB_AMOUNT_ALLOWED:
      return side->allowed;
    case WB_AMOUNT_DEDUCTED:
      return side->deducted;
    case WB_AMOUNT_OWED:
      return side->owed;
    case WB_AMOUNT_LIMIT:
      return side->shipment_limit;
    case WB_AMOUNT_EARLIER:
      return side->earlier;
    case WB_AMOUNT_LIMIT_LEFT:
      return side->limit_left;
    case WB_AMOUNT_COVERED:
      return side->covered;
    case WB_AMOUNT_DEDUCTIBLE:
      return side->deductible;
    case WB_AMOUNT_FREIGHT:
      return side->freight_refund;
    case WB_AMOUNT_PAID:
      return side->paid;
    case WB_AMOUNT_BALANCE:
      return side->balance;
    }

  g_assert_not_reached ();
}

gboolean
wb_amount_value (const WbReckoning *reckoning,
                 int                line,
                 WbSide             side,
                 WbAmount           amount,
                 gint64            *minor)
{
  const WbSideReckoning *whole = &reckoning->side[side];

  if (!whole->offered)
    return FALSE;

  if (line != WB_REASON_WHOLE_CLAIM)
    {
      const WbLineFigures *figures = &reckoning->lines[line].side[side];

      *minor = line_value (figures, amount);
      return figures->complete || *minor != 0;
    }

  if ((amount == WB_AMOUNT_LIMIT || amount == WB_AMOUNT_LIMIT_LEFT) && !whole->has_limit)
    return FALSE;
  *minor = claim_value (whole, amount);
  return TRUE;
}

char *
wb_amount_text (const WbReckoning *reckoning,
                int                line,
                WbSide             side,
                WbAmount           amount)
{
  gint64 minor;

  if (!wb_amount_value (reckoning, line, side, amount, &minor))
    return g_strdup ("–");

  return wb_words_minor (minor, wb_job_get_currency (reckoning->job));
}

char *
wb_amount_sentence (const WbReckoning *reckoning,
                    int                line,
                    WbSide             side,
                    WbAmount           amount)
{
  g_autofree char *value = NULL;
  gint64 minor;

  if (wb_amount_value (reckoning, line, side, amount, &minor))
    value = wb_words_minor (minor, wb_job_get_currency (reckoning->job));
  else
    value = g_strdup (_("not reckoned"));

  if (line == WB_REASON_WHOLE_CLAIM)
    /* Translators: an amount's name, a choice of liability, a sum of money: "Owed, full value:
     * $120.00". */
    return g_strdup_printf (_("%s, %s: %s"), wb_amount_label (amount), wb_side_label (side), value);

  /* Translators: an amount's name, a line's number, a choice of liability, a sum of money. */
  return g_strdup_printf (_("%s for line %" PRId64 ", %s: %s"),
                          wb_amount_label (amount), reckoning->lines[line].line->number,
                          wb_side_label (side), value);
}

/* The rule that gives an amount. */
static WbRule
giving_rule (WbAmount amount,
             gboolean whole)
{
  switch (amount)
    {
    case WB_AMOUNT_LOSS:
      return WB_RULE_DEMAND;
    case WB_AMOUNT_ALLOWED:
      return WB_RULE_ARTICLE_SHARE;
    case WB_AMOUNT_COVERED:
      return whole ? WB_RULE_SHIPMENT_LIMIT : WB_RULE_SHIPMENT_SHARE;
    case WB_AMOUNT_DEDUCTED:
      return whole ? WB_RULE_DEDUCTIBLE : WB_RULE_DEDUCTIBLE_SHARE;
    case WB_AMOUNT_OWED:
      return WB_RULE_OWED;
    case WB_AMOUNT_LIMIT:
      return WB_RULE_MAXIMUM_VALUE;
    case WB_AMOUNT_EARLIER:
    case WB_AMOUNT_LIMIT_LEFT:
      return WB_RULE_EARLIER_PAYMENTS;
    case WB_AMOUNT_DEDUCTIBLE:
      return WB_RULE_DEDUCTIBLE_LEFT;
    case WB_AMOUNT_FREIGHT:
      return WB_RULE_FREIGHT_REFUND;
    case WB_AMOUNT_PAID:
    case WB_AMOUNT_BALANCE:
      return WB_RULE_PAID;
    }

  g_assert_not_reached ();
}

/* Where a step stands in the order of the rules. For both choices at once only the freight can lack
 * a figure, and that the terms are silent is noted before any step for which it matters. */
static WbRule
rule_of (const WbReason *reason)
{
  if (reason->rule == WB_RULE_MISSING_FIGURE && reason->scope == WB_SCOPE_GENERAL)
    return WB_RULE_FREIGHT_REFUND;

  return (WbRule) reason->rule;
}

static const WbReason *
nth_reason (GPtrArray *reasons,
            guint      n)
{
  return g_ptr_array_index (reasons, n);
}

/* How many of @reasons, in the order of application, lead up to what @giving gives. It is not noted
 * where it changes nothing; then the rule before it gave the amount. */
static guint
count_leading (GPtrArray *reasons,
               WbRule     giving)
{
  for (guint i = reasons->len; i > 0; i--)
    if (nth_reason (reasons, i - 1)->rule == giving)
      return i;

  for (guint i = reasons->len; i > 0; i--)
    if (nth_reason (reasons, i - 1)->rule != WB_RULE_SILENT
        && rule_of (nth_reason (reasons, i - 1)) <= giving)
      return i;

  return reasons->len;
}

GPtrArray *
wb_amount_reasons (const WbReckoning *reckoning,
                   int                line,
                   WbSide             side,
                   WbAmount           amount)
{
  g_autoptr (GPtrArray) applied = g_ptr_array_new ();
  GPtrArray *reasons = g_ptr_array_new ();
  WbScope scope = side == WB_SIDE_RELEASED ? WB_SCOPE_RELEASED : WB_SCOPE_FULL;
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      if (reason->line == line && (reason->scope == scope || reason->scope == WB_SCOPE_GENERAL))
        g_ptr_array_add (applied, (gpointer) reason);
    }

  for (guint i = count_leading (applied, giving_rule (amount, line == WB_REASON_WHOLE_CLAIM));
       i > 0; i--)
    g_ptr_array_add (reasons, g_ptr_array_index (applied, i - 1));
  return reasons;
}

char *
wb_amount_sum (const WbReckoning *reckoning,
               int                line,
               WbAmount           amount)
{
  if (line != WB_REASON_WHOLE_CLAIM || (amount != WB_AMOUNT_LOSS && amount != WB_AMOUNT_ALLOWED))
    return NULL;

  return g_strdup_printf (ngettext ("What the reckoning of the %u line gives.",
                                    "The sum over the %u lines, each of which says why.",
                                    reckoning->n_lines),
                          reckoning->n_lines);
}
