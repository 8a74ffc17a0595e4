/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentences of the rules: one table with a sentence or several for each rule, and which of them
 * a step takes. They are filled in elsewhere (wb-words-reason.c). */
#include "config.h"

#include "office/wb-words-private.h"

#include <glib/gi18n.h>

#define MAX_SENTENCES 9

/* --- which sentence of a rule ----------------------------------------------------------------- */

/* Returns: the value of a figure of the step, 0 when it has none of that name. */
static gint64
value_of (const WbReason *reason,
          WbFigureName    name)
{
  for (guint i = 0; i < reason->n_inputs; i++)
    {
      if (reason->inputs[i].name == name)
        return reason->inputs[i].value;
    }

  return reason->result.name == name ? reason->result.value : 0;
}

static gboolean
has_figure (const WbReason *reason,
            WbFigureName    name)
{
  for (guint i = 0; i < reason->n_inputs; i++)
    {
      if (reason->inputs[i].name == name)
        return TRUE;
    }

  return reason->result.name == name;
}

static guint
pick_terms (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_COUNT) != 0 ? 1 : 0;
}

static guint
pick_choice (const WbReason *reason)
{
  WbChoice choice = (WbChoice) value_of (reason, WB_FIGURE_CHOICE);
  gboolean valid = value_of (reason, WB_FIGURE_GAPS) == WB_WAIVER_COMPLETE;
  gboolean full = value_of (reason, WB_FIGURE_SIDE) == WB_SIDE_FULL;

  switch (choice)
    {
    case WB_CHOICE_FULL:
      return full ? 0 : 1;
    case WB_CHOICE_NONE:
      return full ? 2 : 3;
    case WB_CHOICE_RELEASED:
      return (full ? 4 : 6) + (valid ? 1 : 0);
    }

  g_assert_not_reached ();
}

static guint
pick_filing (const WbReason *reason)
{
  return (guint) value_of (reason, WB_FIGURE_LATE);
}

static guint
pick_late (const WbReason *reason)
{
  switch ((WbLateRule) value_of (reason, WB_FIGURE_CODE))
    {
    case WB_LATE_FLAGGED:
      return 0;
    case WB_LATE_ACTUAL_VALUE:
      return value_of (reason, WB_FIGURE_LATE) == WB_TOO_LATE ? 2 : 1;
    case WB_LATE_BARRED:
      return 3;
    }

  g_assert_not_reached ();
}

static guint
pick_shipment_weight (const WbReason *reason)
{
  return has_figure (reason, WB_FIGURE_VOLUME) ? 1 : 0;
}

static guint
pick_minimum (const WbReason *reason)
{
  if (has_figure (reason, WB_FIGURE_RATE))
    return has_figure (reason, WB_FIGURE_VOLUME) ? 1 : 0;

  return value_of (reason, WB_FIGURE_LOSS) > 0 ? 2 : 3;
}

static guint
pick_declared (const WbReason *reason)
{
  gint64 declared = value_of (reason, WB_FIGURE_DECLARED);
  gint64 minimum = value_of (reason, WB_FIGURE_MINIMUM);

  if (minimum == 0)
    return 0;
  if (declared >= minimum)
    return 1;

  return value_of (reason, WB_FIGURE_LIMIT) == declared ? 3 : 2;
}

static guint
pick_maximum (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_AMOUNT) > 0 ? 0 : 1;
}

static guint
pick_earlier (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_TAKEN) > 0 ? 1 : 0;
}

static guint
pick_missing (const WbReason *reason)
{
  switch ((WbMissing) value_of (reason, WB_FIGURE_MISSING))
    {
    case WB_MISSING_LOST_WEIGHT:
      return 2;

    case WB_MISSING_FREIGHT_CHARGE:
      return 3;

    case WB_MISSING_NOTHING:
    case WB_MISSING_LOSS_KIND:
    case WB_MISSING_REPLACEMENT:
    case WB_MISSING_REPAIR_OR_REPLACEMENT:
    case WB_MISSING_ARTICLE_WEIGHT:
    case WB_MISSING_SHIPMENT_WEIGHT:
      break;
    }

  return reason->result.value != 0 ? 1 : 0;
}

static guint
pick_depreciation_rate (const WbReason *reason)
{
  guint cut = has_figure (reason, WB_FIGURE_MAXIMUM) ? 1 : 0;

  if (!has_figure (reason, WB_FIGURE_LEAST))
    return has_figure (reason, WB_FIGURE_YEARLY) ? cut : 2;
  if (has_figure (reason, WB_FIGURE_YEARLY))
    return 3 + cut;
  if (reason->inputs[0].name == WB_FIGURE_DEPRECIATION)
    return 5 + cut;

  return 7 + cut;
}

static guint
pick_set_mate (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_CODE) == WB_SETS_ONLY_PIECE ? 0 : 1;
}

static guint
pick_freight_denied (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_DEFENCE) == WB_DEFENCE_SHIPPER ? 0 : 1;
}

static guint
pick_depreciation (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_DEPRECIATION) == 0 ? 0 : 1;
}

static guint
pick_repair (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_APPEARANCE) > 0 ? 1 : 0;
}

static guint
pick_lesser (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_REPLACEMENT) < value_of (reason, WB_FIGURE_REPAIR) ? 1 : 0;
}

static guint
pick_article_weight (const WbReason *reason)
{
  return has_figure (reason, WB_FIGURE_VOLUME) ? 1 : 0;
}

/* Whether several lines are told of together. */
static guint
pick_together (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_COUNT) > 1 ? 1 : 0;
}

/* Within the rate a loss is told of only where other claims used it up. */
static guint
pick_extraordinary (const WbReason *reason)
{
  guint used = value_of (reason, WB_FIGURE_LOSS) <= reason->result.value ? 2 : 0;

  return used + pick_together (reason);
}

static guint
pick_article_limit (const WbReason *reason)
{
  guint shared = value_of (reason, WB_FIGURE_COUNT) > 1 ? 1 : 0;

  return (has_figure (reason, WB_FIGURE_RATE) ? 0 : 2) + shared;
}

static guint
pick_shipment_limit (const WbReason *reason)
{
  return value_of (reason, WB_FIGURE_LOSS) > value_of (reason, WB_FIGURE_LIMIT) ? 1 : 0;
}

static guint
pick_owed (const WbReason *reason)
{
  guint whole = reason->line == WB_REASON_WHOLE_CLAIM ? 3 : 0;

  if (reason->result.value == value_of (reason, WB_FIGURE_LOSS))
    return whole;

  return whole + (value_of (reason, WB_FIGURE_DEDUCTIBLE) > 0 ? 2 : 1);
}

static guint
pick_freight (const WbReason *reason)
{
  gboolean total = reason->key == WB_KEY_FREIGHT_TOTAL_LOSS;

  if (reason->result.value == 0)
    return total ? 3 : 1;
  if (value_of (reason, WB_FIGURE_LATE) != WB_NOT_LATE)
    return total ? 5 : 4;

  return total ? 2 : 0;
}

static guint
pick_paid (const WbReason *reason)
{
  return (has_figure (reason, WB_FIGURE_FREIGHT) ? 2 : 0) + (reason->result.value < 0 ? 1 : 0);
}

/* --- the table -------------------------------------------------------------------------------- */

typedef struct
{
  WbRule      rule;
  guint     (*pick) (const WbReason *reason);   /* NULL: the first */
  const char *sentences[MAX_SENTENCES];
} RuleWords;

static const RuleWords rule_words[] = {
  { WB_RULE_TERMS, pick_terms, {
    /* Translators: words in braces, such as {weight}, are filled in with figures; keep them as they
     * are and put them wherever the sentence needs them. {result} is what the step comes to. */
    N_("The terms “{terms}”, in force from {result}, govern this shipment."),
    N_("The terms “{terms}”, in force from {result}, were chosen for this job by a person."),
  } },
  { WB_RULE_CHOICE, pick_choice, {
    N_("The shipper chose full value protection, so that applies."),
    N_("The shipper chose full value protection, which these terms do not have, so released value "
       "applies."),
    N_("No choice is noted and full value was not waived, so full value protection applies."),
    N_("No choice is noted; without a waiver these terms apply released value."),
    /* Translators: {gaps} is a whole sentence that says what the waiver lacks. */
    N_("The shipper chose released value, but the waiver of full value is not valid. {gaps} So "
       "full value protection applies."),
    N_("The shipper chose released value, which these terms do not have, so full value protection "
       "applies."),
    N_("The shipper chose released value. {gaps} These terms apply released value all the same."),
    N_("The shipper chose released value and waived full value in due form, so released value "
       "applies."),
  } },
  { WB_RULE_FILING, pick_filing, {
    N_("The claim was received on {date}, in time: the last day to claim is {last-day}."),
    N_("The claim was received on {date}, late: the last day to claim was {last-day}."),
    N_("The claim was received on {date}, later than a late claim is looked at; the last day to "
       "claim was {last-day}."),
    N_("Whether the claim came in time is not known: the day of delivery or the day of receipt is "
       "not noted."),
  } },
  { WB_RULE_LATE, pick_late, {
    N_("That the claim is late changes no amount under these terms; it is only marked."),
    N_("A late claim is settled at actual value, that is with depreciation, under both choices, "
       "when it is received by {last-day}."),
    N_("The last day even for a late claim was {last-day}, so nothing is paid."),
    N_("A late claim is not paid under these terms."),
  } },
  { WB_RULE_SILENT, NULL, {
    /* Translators: {meaning} is a whole sentence, such as "There is no last day to claim." */
    N_("The terms do not say anything on “{key}”. It is taken thus: {meaning}"),
  } },
  { WB_RULE_SHIPMENT_WEIGHT, pick_shipment_weight, {
    N_("The weight of the shipment is {result}; it comes from this source: {weight-source}."),
    N_("Nobody weighed the shipment. Its {volume} at {weight} a cubic foot make {result}."),
  } },
  { WB_RULE_MINIMUM_VALUE, pick_minimum, {
    N_("At {rate} for {weight} the shipment is worth at least {result}."),
    N_("At {rate} for {volume} the shipment is worth at least {result}."),
    N_("That is {loss}; no shipment counts for less than {minimum}, so the least value is "
       "{result}."),
    N_("No shipment counts for less than {result}."),
  } },
  { WB_RULE_DECLARED_VALUE, pick_declared, {
    N_("The declared value is {declared}; that is the limit for the whole shipment."),
    N_("The declared value is {declared}, not under the minimum of {minimum}; so the limit for "
       "the whole shipment is {result}."),
    N_("The declared value of {declared} is under the minimum of {minimum} and is raised to it; "
       "so the limit for the whole shipment is {result}."),
    N_("The declared value of {declared} is under the minimum of {minimum}; these terms keep it "
       "as the limit for the whole shipment."),
  } },
  { WB_RULE_MAXIMUM_VALUE, pick_maximum, {
    N_("These terms go no higher than {maximum} for a shipment, so the limit of {amount} comes "
       "down to {result}."),
    N_("These terms pay no more than {maximum} for a whole shipment."),
  } },
  { WB_RULE_EARLIER_PAYMENTS, pick_earlier, {
    N_("Other claims on this shipment were paid {earlier}; of its limit of {amount} there is "
       "{result} left."),
    N_("Other claims on this shipment were paid {earlier} after a deductible of {taken}; of its "
       "limit of {amount} there is {result} left."),
  } },
  { WB_RULE_DEDUCTIBLE_LEFT, NULL, {
    N_("Of the deductible of {amount} other claims have borne {taken}; {result} is left."),
  } },
  { WB_RULE_MISSING_FIGURE, pick_missing, {
    N_("This cannot be reckoned yet; what is missing is {missing}."),
    N_("One rule could not be applied, so {result} may be too much; what is missing is {missing}."),
    N_("No freight is given back for this line yet; what is missing is {missing}."),
    N_("No freight can be given back yet; what is missing is {missing}."),
  } },
  { WB_RULE_REPLACEMENT, NULL, {
    N_("A like article costs {result} today."),
  } },
  { WB_RULE_DEPRECIATION_RATE, pick_depreciation_rate, {
    N_("Depreciation of {yearly} a year and an age of {age} make {result}."),
    N_("Depreciation of {yearly} a year and an age of {age} make more than the most that these "
       "terms take, which is {maximum}."),
    N_("Depreciation is noted as {depreciation}; these terms take no more than {maximum}."),
    N_("Depreciation of {yearly} a year and an age of {age} make less than the least that comes "
       "off such a thing, which is {least}."),
    N_("Depreciation of {yearly} a year and an age of {age} make less than the least that comes "
       "off such a thing, which is {least}; these terms take no more than {maximum}."),
    N_("Depreciation is noted as {depreciation}, less than the least that comes off such a thing, "
       "which is {least}."),
    N_("Depreciation is noted as {depreciation}, less than the least that comes off such a thing, "
       "which is {least}; these terms take no more than {maximum}."),
    N_("At least {least} comes off such a thing, whatever its age."),
    N_("At least {least} comes off such a thing, whatever its age; these terms take no more than "
       "{maximum}."),
  } },
  { WB_RULE_DEPRECIATION, pick_depreciation, {
    N_("A like article costs {replacement} today; no depreciation is noted, so its actual value is "
       "{result}."),
    N_("A like article costs {replacement} today; less depreciation of {depreciation} its actual "
       "value is {result}."),
  } },
  { WB_RULE_SALVAGE, NULL, {
    N_("The customer keeps what is left, worth {salvage}; that comes off {amount} and leaves "
       "{result}."),
  } },
  { WB_RULE_SALVAGE_TAKEN, NULL, {
    N_("The carrier takes what is left, so nothing comes off the value of {amount} for it."),
  } },
  { WB_RULE_REPAIR, pick_repair, {
    N_("The repair costs {repair}."),
    N_("The repair costs {repair}, and {appearance} is allowed for what it leaves to be seen: "
       "{result} together."),
  } },
  { WB_RULE_LESSER, pick_lesser, {
    N_("To put it right costs {repair}, not more than its value of {replacement}; the loss is "
       "{result}."),
    N_("To put it right costs {repair}, more than its value of {replacement}; the loss is "
       "{result}."),
  } },
  { WB_RULE_DEMAND, NULL, {
    N_("The customer asked for {demanded}, less than {amount}; no more than was asked is paid."),
  } },
  { WB_RULE_DENIED, NULL, {
    N_("The adjuster denied this line, so nothing of its loss of {loss} is allowed."),
  } },
  { WB_RULE_BARRED, NULL, {
    N_("The claim came too late, so nothing of the loss of {loss} is allowed."),
  } },
  { WB_RULE_SET_MATE, pick_set_mate, {
    N_("This thing is sound and is claimed because its set was broken. These terms pay only for "
       "the piece of a set that was lost or damaged, so nothing of {loss} is allowed."),
    N_("This thing is sound and is claimed because its set was broken. These terms pay for the "
       "mates too, so {result} is reckoned like any loss."),
  } },
  { WB_RULE_LINE_LIMIT, NULL, {
    N_("These terms pay no more than {limit} for one line; the loss of {loss} comes down to "
       "{result}."),
  } },
  { WB_RULE_THING_LEFT, NULL, {
    N_("Other claims were paid {earlier} for the same thing, which is worth {replacement}; of this "
       "line’s loss of {loss}, {result} is left to pay for."),
  } },
  { WB_RULE_ELSEWHERE, pick_together, {
    N_("A line of another claim is about the same article. What was paid there without naming the "
       "line is not taken off here: compare the two claims, so that nothing is paid twice."),
    N_("Lines of other claims ({count}) are about the same article. What was paid there without "
       "naming them is not taken off here: compare the claims, so that nothing is paid twice."),
  } },
  { WB_RULE_ARTICLE_WEIGHT, pick_article_weight, {
    N_("The article weighs {result}; source: {weight-source}."),
    N_("No weight of the article is noted. Its {volume} at {weight} a cubic foot make {result}."),
  } },
  { WB_RULE_EXTRAORDINARY, pick_extraordinary, {
    N_("The loss of {loss} is more than {rate}. For {weight} no more than {result} is paid, unless "
       "the shipper signed a list with a higher value for the article."),
    N_("The {count} lines of the article have lost {loss} together, more than {rate}. For {weight} "
       "no more than {result} is paid, unless the shipper signed a list with a higher value for "
       "the article."),
    N_("At {rate} for {weight} no more than {result} is paid for the article, unless the shipper "
       "signed a list with a higher value for it; the loss is {loss}."),
    N_("At {rate} for {weight} no more than {result} is paid for the article, unless the shipper "
       "signed a list with a higher value for it; its {count} lines have lost {loss} together."),
  } },
  { WB_RULE_LISTED, pick_together, {
    N_("The article is on the list that the shipper signed, with a value of {listed}; up to "
       "{result} is paid of the loss of {loss}."),
    N_("The article is on the list that the shipper signed, with a value of {listed}; up to "
       "{result} is paid of the {loss} that its {count} lines have lost together."),
  } },
  { WB_RULE_ARTICLE_LIMIT, pick_article_limit, {
    N_("At {rate} for {weight} no more than {result} is paid for the article; the loss is {loss}."),
    N_("At {rate} for {weight} no more than {result} is paid for the article; {count} lines of "
       "this claim belong to it and have lost {loss} together."),
    N_("No more than {result} is paid for one article; the loss is {loss}."),
    N_("No more than {result} is paid for one article; {count} lines of this claim belong to it "
       "and have lost {loss} together."),
  } },
  { WB_RULE_ARTICLE_LEFT, NULL, {
    N_("Other claims were paid {earlier} for the same article, with what they bore of the "
       "deductible; of its limit of {amount} there is {result} left."),
  } },
  { WB_RULE_ARTICLE_SHARE, NULL, {
    N_("The {limit} for the article is shared among its lines ({count}) in proportion; this one "
       "has lost {loss} and gets {result}."),
  } },
  { WB_RULE_SHIPMENT_LIMIT, pick_shipment_limit, {
    N_("All lines together come to {loss}, within the limit of {limit} that is left for the "
       "shipment."),
    N_("All lines together come to {loss}, over the limit of {limit} that is left for the "
       "shipment; {result} is shared among them in proportion."),
  } },
  { WB_RULE_SHIPMENT_SHARE, NULL, {
    N_("The {limit} left for the shipment is shared among all lines in proportion to what each "
       "comes to; this one comes to {loss} and gets {result}."),
  } },
  { WB_RULE_DEDUCTIBLE, NULL, {
    N_("The deductible of {deductible} comes off {loss} once for the shipment, shared among the "
       "lines in proportion; {result} is left."),
  } },
  { WB_RULE_DEDUCTIBLE_SHARE, NULL, {
    N_("This line’s share of the deductible of {deductible} is {result}, in proportion to its "
       "{loss}."),
  } },
  { WB_RULE_OWED, pick_owed, {
    N_("For this line the whole loss of {loss} is owed."),
    N_("For this line {result} is owed of a loss of {loss}."),
    N_("For this line {result} is owed of a loss of {loss}; the customer bears {deductible} of "
       "the deductible."),
    N_("For the whole claim the whole loss of {loss} is owed."),
    N_("For the whole claim {result} is owed of a loss of {loss}."),
    N_("For the whole claim {result} is owed of a loss of {loss}; the customer bears {deductible} "
       "of the deductible."),
  } },
  { WB_RULE_FREIGHT_DENIED, pick_freight_denied, {
    N_("This line was lost by an act or omission of the shipper, so none of the freight goes back "
       "for it."),
    N_("This line was denied, but the right to the freight on what was lost is in addition to a "
       "claim for the goods; the line counts as lost."),
  } },
  { WB_RULE_FREIGHT_REFUND, pick_freight, {
    N_("Of the shipment’s {weight}, {lost-weight} was lost; that share of the charges of "
       "{freight} is {result} and goes back to the customer."),
    N_("Of the shipment’s {weight}, {lost-weight} was lost; these terms give no freight back for "
       "that."),
    N_("The whole shipment was lost; of the charges of {freight}, {result} goes back to the "
       "customer."),
    N_("The whole shipment was lost; these terms give no freight back for that."),
    N_("The claim came too late for the goods, but their freight is owed besides: of the "
       "shipment’s {weight}, {lost-weight} was lost, and that share of the charges of {freight}, "
       "{result}, goes back to the customer."),
    N_("The claim came too late for the goods, but their freight is owed besides: the whole "
       "shipment was lost, and of the charges of {freight}, {result} goes back to the customer."),
  } },
  { WB_RULE_PAID, pick_paid, {
    N_("Of the {loss} that is due, {earlier} was already paid; {result} is left to pay."),
    N_("Only {loss} is due, but {earlier} was already paid; the balance is {result}."),
    N_("Of the {loss} that is due, {earlier} was already paid, {freight} of it as freight that "
       "goes back; {result} is left to pay."),
    N_("Only {loss} is due, but {earlier} was already paid, {freight} of it as freight that goes "
       "back; the balance is {result}."),
  } },
};

/* Every rule has its row, at its own place. */
G_STATIC_ASSERT (G_N_ELEMENTS (rule_words) == WB_RULE_PAID + 1);

const char *
wb_words_sentence_of (const WbReason *reason)
{
  const RuleWords *words;
  guint index;

  g_return_val_if_fail (reason->rule < G_N_ELEMENTS (rule_words), NULL);

  words = &rule_words[reason->rule];
  index = words->pick != NULL ? words->pick (reason) : 0;
  g_return_val_if_fail (index < MAX_SENTENCES, NULL);

  return words->sentences[index];
}
