/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which choice applies and what that means in money; what keeps it from being said. Works nothing
 * out. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/valuation/wb-side-statements.h"

#include <glib/gi18n.h>

#include "core/wb-core.h"
#include "office/wb-words.h"

static WbSide
other_side (WbSide side)
{
  return side == WB_SIDE_FULL ? WB_SIDE_RELEASED : WB_SIDE_FULL;
}

/* The most that a side could come to for everything: the limit of the shipment, or of all articles
 * together. */
static WbMoney
most_of (const WbSidePreview *side)
{
  if (wb_money_is_set (side->limit)
      && (!wb_money_is_set (side->article_sum) || side->limit.minor <= side->article_sum.minor))
    return side->limit;
  if (side->has_limit && !wb_money_is_set (side->limit))
    return WB_MONEY_UNSET;
  if ((side->gaps & WB_VALUATION_GAP_ARTICLE_WEIGHT) != 0)
    return WB_MONEY_UNSET;

  return side->article_sum;
}

static char *
say_why (const WbValuationPreview *preview)
{
  const char *name = wb_words_enum (&wb_sides, preview->applies);
  WbChoice choice = wb_job_valuation (preview->job)->choice;
  g_autofree char *gaps = wb_words_waiver_gaps (preview->waiver_gaps);

  if (!preview->by_default && choice == WB_CHOICE_RELEASED)
    /* Translators: a choice of liability. */
    return g_strdup_printf (_("%s applies: the shipper chose it and waived full value in due "
                              "form."),
                            name);
  if (!preview->by_default)
    /* Translators: a choice of liability. */
    return g_strdup_printf (_("%s applies: the shipper chose it."), name);
  if (choice == WB_CHOICE_RELEASED && gaps != NULL)
    /* Translators: a choice of liability, and a sentence that says what the waiver lacks. */
    return g_strdup_printf (_("%s applies although released value was chosen, because the waiver "
                              "of full value is not valid. %s"), name, gaps);
  if (choice == WB_CHOICE_NONE)
    /* Translators: a choice of liability. */
    return g_strdup_printf (_("%s applies, because no choice of the shipper is noted."), name);

  /* Translators: a choice of liability. */
  return g_strdup_printf (_("%s applies, because these terms do not have the other choice."), name);
}

/* What the choice means in money, beside the other one as far as both are known. */
static char *
say_money (const WbValuationPreview *preview)
{
  WbMoney here = most_of (&preview->side[preview->applies]);
  WbMoney there = most_of (&preview->side[other_side (preview->applies)]);
  const char *other = wb_words_enum (&wb_sides, other_side (preview->applies));
  g_autofree char *most = wb_words_money (here);
  g_autofree char *most_there = wb_words_money (there);

  if (!wb_money_is_set (here))
    return NULL;
  if (!wb_money_is_set (there))
    /* Translators: an amount. */
    return g_strdup_printf (_("The carrier answers for up to %s if all is lost."), most);

  /* Translators: an amount, the other choice of liability, its amount. */
  return g_strdup_printf (_("The carrier answers for up to %s if all is lost. %s would come to at "
                            "most %s."),
                          most, other, most_there);
}

char *
wb_valuation_verdict (const WbValuationPreview *preview)
{
  g_autofree char *why = say_why (preview);
  g_autofree char *money = say_money (preview);

  if (money == NULL)
    return g_steal_pointer (&why);

  return g_strdup_printf ("%s %s", why, money);
}

char *
wb_valuation_no_terms (const WbOrder *order,
                       const GError  *error)
{
  gboolean no_type = order->move_type == WB_MOVE_NONE && order->terms == NULL;
  gboolean no_day = !wb_date_is_set (&order->picked_up_on) && !wb_date_is_set (&order->pickup_from);

  if (!g_error_matches (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING))
    return wb_words_error (error);

  if (no_type && no_day)
    return g_strdup (_("Which terms govern this shipment is not known, because the type of the "
                       "move and the day of pick-up are missing. Enter both on the Order page."));
  if (no_type)
    return g_strdup (_("Which terms govern this shipment is not known, because the type of the "
                       "move is missing. Enter it on the Order page."));

  return g_strdup (_("Which terms govern this shipment is not known, because the day of pick-up is "
                     "missing. Enter it on the Order page: the actual day, or the first day "
                     "agreed."));
}

char *
wb_valuation_charge_note (const WbValuationPreview *preview)
{
  WbMoney by_terms = preview->side[preview->applies].charge;
  WbMoney noted = wb_job_valuation (preview->job)->charge;
  g_autofree char *text = wb_words_money (by_terms);

  if (!wb_money_is_set (by_terms) || wb_money_equal (by_terms, noted))
    return NULL;

  /* Translators: an amount. */
  return g_strdup_printf (_("By the terms the charge is %s."), text);
}
