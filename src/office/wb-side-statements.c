/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about one choice of liability, made from the preview's figures. Works nothing out; what
 * applies and what is missing is said in wb-valuation-verdict.c. */
#define G_LOG_DOMAIN "wb-office"
#include "config.h"

#include "office/wb-side-statements.h"

#include <glib/gi18n.h>

#include "office/wb-words.h"

/* What a statement is made from. */
typedef struct
{
  const WbValuationPreview *preview;
  const WbSidePreview      *side;
  const WbSideTerms        *rules;
  WbScope                   scope;
  GPtrArray                *list;
} Writer;

#define NO_KEY (-1)

static void
statement_free (gpointer data)
{
  WbStatement *statement = data;

  g_free (statement->text);
  g_free (statement);
}

/* Takes @text. */
static void
add (Writer *writer,
     int     key,
     char   *text)
{
  WbStatement *statement = g_new0 (WbStatement, 1);

  statement->text = text;
  if (key != NO_KEY)
    statement->source = wb_terms_citation (writer->preview->terms, writer->scope, (WbTermsKey) key);
  g_ptr_array_add (writer->list, statement);
}

/* Takes @text. */
static void
add_gap (Writer *writer,
         char   *text)
{
  add (writer, NO_KEY, text);
  ((WbStatement *) g_ptr_array_index (writer->list, writer->list->len - 1))->is_gap = TRUE;
}

/* --- how a loss is measured ------------------------------------------------------------------- */

static void
say_measure (Writer *writer)
{
  switch (writer->rules->measure)
    {
    case WB_MEASURE_REPLACEMENT:
      add (writer, WB_KEY_MEASURE,
           g_strdup (_("What is lost or ruined counts at what a like thing costs today, whatever "
                       "its age. What is damaged counts at its repair, or at that value when the "
                       "repair costs more.")));
      break;
    case WB_MEASURE_ACTUAL_VALUE:
      add (writer, WB_KEY_MEASURE,
           g_strdup (_("What is lost or ruined counts at what it was worth: the cost of a like "
                       "thing today, less depreciation for its age. What is damaged counts at its "
                       "repair, or at that value when the repair costs more.")));
      break;
    }
}

/* --- articles --------------------------------------------------------------------------------- */

static char *
describe_weight (const WbArticlePreview *article)
{
  g_autofree char *weight = NULL;

  if (wb_volume_is_set (article->volume))
    return wb_words_volume (article->volume);

  weight = wb_words_weight (article->weight);
  if (article->constructive)
    /* Translators: a weight worked out from the volume. */
    return g_strdup_printf (_("%s by its volume"), weight);

  return g_steal_pointer (&weight);
}

/* "the heaviest carton on this inventory (62 lb, blue 204-007)". */
static char *
describe_heaviest (const WbValuationPreview *preview,
                   const WbArticlePreview   *article)
{
  g_autofree char *tag = wb_words_tag (preview->job, article->piece);
  g_autofree char *weight = describe_weight (article);

  if (article->by_thing)
    /* Translators: a weight, and a tag. */
    return g_strdup_printf (_("all that is in the heaviest carton on this inventory (%s, %s) "
                              "together"), weight, tag);
  if (article->n_pieces > 1)
    /* Translators: the name of a thing taken apart, its number of pieces, its weight. */
    return g_strdup_printf (ngettext ("the heaviest article on this inventory (%s, %u piece, %s)",
                                      "the heaviest article on this inventory (%s, %u pieces, %s)",
                                      article->n_pieces),
                            article->piece->article, article->n_pieces, weight);
  if (article->piece->form == WB_FORM_CARTON)
    /* Translators: a weight, and a tag. */
    return g_strdup_printf (_("the heaviest carton on this inventory (%s, %s)"), weight, tag);

  /* Translators: a weight, and a tag. */
  return g_strdup_printf (_("the heaviest piece on this inventory (%s, %s)"), weight, tag);
}

static void
say_heaviest (Writer *writer)
{
  const WbArticlePreview *heaviest = &writer->side->heaviest;
  g_autofree char *what = NULL;
  g_autofree char *limit = wb_words_money (heaviest->limit);
  g_autofree char *rate = wb_words_rate (writer->rules->article_rate);

  if (heaviest->piece == NULL || !wb_money_is_set (heaviest->limit))
    return;

  what = describe_heaviest (writer->preview, heaviest);
  if (wb_rate_is_set (writer->rules->article_rate))
    add (writer, WB_KEY_ARTICLE_RATE,
         /* Translators: a rate, an article, an amount: "At $0.60 per pound, the heaviest carton …
          * would bring at most $37.20." */
         g_strdup_printf (_("At %s, %s would bring at most %s."), rate, what, limit));
  else
    /* Translators: an amount. */
    add (writer, WB_KEY_ARTICLE_LIMIT, g_strdup_printf (_("One article brings at most %s, whatever "
                                                          "it weighs."), limit));
}

static void
say_article_sum (Writer *writer)
{
  guint counted = writer->side->n_articles - writer->side->n_without_weight;
  g_autofree char *sum = wb_words_money (writer->side->article_sum);

  if (!wb_money_is_set (writer->side->article_sum))
    return;

  add (writer, NO_KEY,
       /* Translators: a number of articles, and an amount. */
       g_strdup_printf (ngettext ("If all was lost, the %u article with a weight on this inventory "
                                  "would bring at most %s.",
                                  "If all was lost, the %u articles with a weight on this "
                                  "inventory would bring at most %s together.", counted),
                        counted, sum));
}

static void
say_articles (Writer *writer)
{
  guint missing = writer->side->n_without_weight;

  if (!writer->side->article_limits)
    return;

  say_heaviest (writer);
  say_article_sum (writer);
  if ((writer->side->gaps & WB_VALUATION_GAP_NO_ARTICLES) != 0)
    add_gap (writer, g_strdup (_("Nothing is on the inventory yet, so no example can be given. "
                                 "Enter the pieces on the Inventory page.")));
  if ((writer->side->gaps & WB_VALUATION_GAP_ARTICLE_WEIGHT) != 0)
    add_gap (writer, g_strdup_printf (ngettext ("%u article on the inventory has no weight and is "
                                                "left out. Enter it on the Inventory page.",
                                                "%u articles on the inventory have no weight and "
                                                "are left out. Enter them on the Inventory page.",
                                                missing), missing));
}

/* --- the shipment ----------------------------------------------------------------------------- */

static void
say_weight (Writer *writer)
{
  g_autofree char *weight = wb_words_weight (writer->side->weight);

  if (wb_rate_is_set (writer->rules->shipment_rate)
      && !wb_rate_is_by_volume (writer->rules->shipment_rate)
      && wb_weight_is_set (writer->side->weight))
    add (writer, WB_KEY_SHIPMENT_WEIGHT,
         /* Translators: the weight of the shipment, and where it comes from. */
         g_strdup_printf (_("The shipment weighs %s (source: %s)."), weight,
                          wb_words_enum (&wb_weight_sources, (int) writer->side->weight_source)));
}

static void
say_minimum (Writer *writer)
{
  g_autofree char *rate = wb_words_rate (writer->rules->shipment_rate);
  g_autofree char *by_weight = wb_words_money (writer->side->by_weight);
  g_autofree char *minimum = wb_words_money (writer->side->minimum);

  if (wb_money_is_set (writer->side->by_weight))
    add (writer, WB_KEY_SHIPMENT_RATE,
         /* Translators: a rate, and an amount. */
         g_strdup_printf (_("At %s that makes %s."), rate, by_weight));

  if (writer->side->floor_counts)
    /* Translators: an amount. */
    add (writer, WB_KEY_SHIPMENT_MINIMUM, g_strdup_printf (_("No shipment counts for less than %s, "
                                                             "so that is the least value of this "
                                                             "one."), minimum));

  if ((writer->side->gaps & WB_VALUATION_GAP_SHIPMENT_WEIGHT) != 0)
    add_gap (writer, g_strdup_printf (_("The least value goes by the weight of the shipment, at "
                                        "%s, and no weight is known. Enter a weighing, the volume "
                                        "or an estimate on the Order page."), rate));
  if ((writer->side->gaps & WB_VALUATION_GAP_SHIPMENT_VOLUME) != 0)
    add_gap (writer, g_strdup_printf (_("The least value goes by the volume of the shipment, at "
                                        "%s, and no volume is known. Enter it on the Order page."),
                                      rate));
}

static void
say_declared (Writer *writer)
{
  WbMoney value = wb_job_valuation (writer->preview->job)->declared_value;
  g_autofree char *declared = wb_words_money (value);
  g_autofree char *minimum = wb_words_money (writer->side->minimum);

  switch (writer->side->declared)
    {
    case WB_DECLARED_IGNORED:
      break;
    case WB_DECLARED_NOT_GIVEN:
      add (writer, WB_KEY_DECLARED_VALUE, g_strdup (_("No value was declared, so the least value "
                                                      "counts.")));
      break;
    case WB_DECLARED_COUNTS:
      /* Translators: an amount. */
      add (writer, WB_KEY_DECLARED_VALUE,
           g_strdup_printf (_("The declared value of %s counts."), declared));
      break;
    case WB_DECLARED_RAISED:
      add (writer, WB_KEY_BELOW_MINIMUM,
           /* Translators: two amounts. */
           g_strdup_printf (_("The declared value of %s is under the least value and is raised to "
                              "%s."), declared, minimum));
      break;
    case WB_DECLARED_KEPT:
      /* Translators: an amount. */
      add (writer, WB_KEY_BELOW_MINIMUM,
           g_strdup_printf (_("The declared value of %s is under the least value; these terms let "
                              "it count all the same."),
                            declared));
      break;
    }
}

static void
say_limit (Writer *writer)
{
  g_autofree char *limit = wb_words_money (writer->side->limit);

  if (writer->side->cut_to_maximum)
    add (writer, WB_KEY_SHIPMENT_MAXIMUM, g_strdup_printf (_("These terms go no higher than %s for "
                                                             "a shipment."), limit));
  if (wb_money_is_set (writer->side->limit))
    /* Translators: an amount. */
    add (writer, NO_KEY, g_strdup_printf (_("So the carrier answers for up to %s for the whole "
                                            "shipment."), limit));
  else if (!writer->side->has_limit)
    add (writer, NO_KEY, g_strdup (_("There is no limit for the shipment as a whole, and no value "
                                     "need be declared.")));
}

static void
say_line_limit (Writer *writer)
{
  g_autofree char *limit = wb_words_money (writer->rules->line_limit);

  if (wb_money_is_set (writer->rules->line_limit))
    add (writer, WB_KEY_LINE_LIMIT,
         g_strdup_printf (_("One line of a claim brings at most %s."), limit));
}

/* --- extraordinary value ---------------------------------------------------------------------- */

static void
say_extraordinary (Writer *writer)
{
  g_autofree char *rate = wb_words_rate (writer->rules->extraordinary_rate);
  g_autofree char *listed = wb_words_money (writer->side->listed);
  gboolean signed_list = wb_job_valuation (writer->preview->job)->high_value_list;
  guint n = writer->side->n_listed;

  if (!wb_rate_is_set (writer->rules->extraordinary_rate))
    return;

  add (writer, WB_KEY_EXTRAORDINARY_RATE,
       /* Translators: a rate. */
       g_strdup_printf (_("A thing worth more than %s brings no more than that, unless it is on a "
                          "list that the shipper signed."), rate));
  if (n > 0 && signed_list)
    /* Translators: a number of pieces, and an amount. */
    add (writer, NO_KEY, g_strdup_printf (ngettext ("%u piece is on the signed list, with %s.",
                                                    "%u pieces are on the signed list, with %s "
                                                    "together.", n), n, listed));
  else if (n > 0)
    /* Translators: a number of pieces, and an amount. */
    add_gap (writer, g_strdup_printf (ngettext ("%u piece has a listed value, %s, but no signed "
                                                "list is noted below, so it does not count.",
                                                "%u pieces have listed values, %s together, but no "
                                                "signed list is noted below, so they do not count.",
                                                n),
                                      n, listed));
}

/* --- what the customer bears ------------------------------------------------------------------ */

static void
say_deductible (Writer *writer)
{
  g_autofree char *deductible = wb_words_money (writer->side->deductible);

  if (!writer->rules->deductible)
    return;

  if (wb_money_is_set (writer->side->deductible) && writer->side->deductible.minor > 0)
    /* Translators: an amount. */
    add (writer, WB_KEY_DEDUCTIBLE,
         g_strdup_printf (_("The customer bears the first %s, once for the whole shipment."),
                          deductible));
  else
    add (writer, WB_KEY_DEDUCTIBLE, g_strdup (_("No deductible was agreed: the customer bears "
                                                "nothing of what is allowed.")));
}

static void
say_charge (Writer *writer)
{
  g_autofree char *deductible = wb_words_money (writer->side->deductible);

  if (writer->side->n_charges == 0)
    add (writer, NO_KEY, g_strdup (_("These terms list no charge for this choice.")));
  else if ((writer->side->gaps & WB_VALUATION_GAP_CHARGE) != 0)
    /* Translators: an amount. */
    add_gap (writer, g_strdup_printf (_("The terms list no charge for a deductible of %s. Choose "
                                        "one of those below, or enter the charge of the tariff."),
                                      deductible));
}

GPtrArray *
wb_side_statements (const WbValuationPreview *preview,
                    WbSide                    side)
{
  Writer writer = {
    .preview = preview,
    .side = &preview->side[side],
    .rules = &preview->terms->side[side],
    .scope = side == WB_SIDE_RELEASED ? WB_SCOPE_RELEASED : WB_SCOPE_FULL,
    .list = g_ptr_array_new_with_free_func (statement_free),
  };

  if (!writer.side->offered)
    {
      add (&writer, WB_KEY_OFFERED, g_strdup (_("These terms do not have this choice.")));
      return writer.list;
    }

  say_measure (&writer);
  say_articles (&writer);
  say_line_limit (&writer);
  say_weight (&writer);
  say_minimum (&writer);
  say_declared (&writer);
  say_limit (&writer);
  say_extraordinary (&writer);
  say_deductible (&writer);
  say_charge (&writer);

  return writer.list;
}
