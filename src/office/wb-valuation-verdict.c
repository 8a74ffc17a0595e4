/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which choice applies and what that means in money; what keeps it from being said. Works nothing
 * out. */
#define G_LOG_DOMAIN "wb-office"
#include "config.h"

#include "office/wb-side-statements.h"

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

/* Who chose, when, how it was signed and which disclosure was given, as far as it is noted. */
static char *
say_signature (const WbValuation *valuation)
{
  g_autofree char *day = wb_words_date (&valuation->signed_on);
  GString *words = g_string_new (NULL);

  if (valuation->choice == WB_CHOICE_NONE || valuation->signed_by == NULL)
    return g_string_free (words, TRUE);

  if (wb_date_is_set (&valuation->signed_on))
    /* Translators: a person and a date. */
    g_string_append_printf (words, _("Signed by %s on %s"), valuation->signed_by, day);
  else
    /* Translators: a person. */
    g_string_append_printf (words, _("Signed by %s, no day noted"), valuation->signed_by);
  if (valuation->signed_how != WB_SIGNED_NOT)
    g_string_append_printf (words, " · %s",
                            wb_words_enum (&wb_signed, (int) valuation->signed_how));
  if (valuation->disclosure != NULL)
    /* Translators: which disclosure of both choices was given. */
    g_string_append_printf (words, _(" · Disclosure given: %s"), valuation->disclosure);
  g_string_append_c (words, '.');
  return g_string_free (words, FALSE);
}

/* What the waiver that does not count costs: the difference between both choices. */
static char *
say_difference (const WbValuationPreview *preview,
                WbMoney                   here,
                WbMoney                   there)
{
  WbMoney more;
  g_autofree char *words = NULL;

  if (wb_job_valuation (preview->job)->choice != WB_CHOICE_RELEASED
      || preview->applies != WB_SIDE_FULL || !wb_money_subtract (here, there, &more, NULL)
      || more.minor <= 0)
    return g_strdup ("");

  words = wb_words_money (more);
  /* Translators: an amount. */
  return g_strdup_printf (_(" What the waiver lacks means up to %s more."), words);
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
  g_autofree char *difference = NULL;

  if (!wb_money_is_set (here))
    return NULL;
  if (!wb_money_is_set (there))
    /* Translators: an amount. */
    return g_strdup_printf (_("The carrier answers for up to %s if all is lost."), most);

  difference = say_difference (preview, here, there);
  /* Translators: an amount, the other choice of liability, its amount, a sentence or nothing. */
  return g_strdup_printf (_("The carrier answers for up to %s if all is lost. %s would come to at "
                            "most %s.%s"),
                          most, other, most_there, difference);
}

char *
wb_valuation_verdict (const WbValuationPreview *preview)
{
  g_autofree char *why = say_why (preview);
  g_autofree char *signature = say_signature (wb_job_valuation (preview->job));
  g_autofree char *money = say_money (preview);
  GString *words = g_string_new (why);

  if (signature != NULL)
    g_string_append_printf (words, " %s", signature);
  if (money != NULL)
    g_string_append_printf (words, " %s", money);
  return g_string_free (words, FALSE);
}

const char *
wb_valuation_gap_note (const WbJob *job,
                       const char  *field)
{
  guint gaps;

  if (wb_job_valuation (job)->choice != WB_CHOICE_RELEASED)
    return NULL;

  gaps = wb_job_waiver_gaps (job);
  if ((gaps & WB_WAIVER_NO_SIGNER) != 0 && g_str_equal (field, "signed_by"))
    return _("The waiver does not count without the name of who signed it.");
  if ((gaps & WB_WAIVER_NO_DATE) != 0 && g_str_equal (field, "signed_on"))
    return _("The waiver does not count without the day when it was signed.");
  if ((gaps & WB_WAIVER_AFTER_PICKUP) != 0 && g_str_equal (field, "signed_on"))
    return _("The waiver does not count: it was signed after the day of pick-up.");
  if ((gaps & WB_WAIVER_NO_DISCLOSURE) != 0 && g_str_equal (field, "disclosure"))
    return _("The waiver does not count without the disclosure of both choices that was given.");

  return NULL;
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
