/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reckoning as a value: its life, its closed lists and its canonical listing. How it is
 * worked out stands in wb-reckon.c. */
#include "core/wb-reckon-private.h"

#include "core/wb-percent.h"

#define N_(text) text
#define LIST(name, identifier)                                                                     \
  const WbEnum identifier = { name, identifier##_values, G_N_ELEMENTS (identifier##_values) }

static const WbEnumValue wb_rules_values[] = {
  { WB_RULE_TERMS,             "terms",             N_ ("Terms that govern") },
  { WB_RULE_CHOICE,            "choice",            N_ ("Which choice applies") },
  { WB_RULE_FILING,            "filing",            N_ ("Time to claim") },
  { WB_RULE_LATE,              "late",              N_ ("Late claim") },
  { WB_RULE_SILENT,            "silent",            N_ ("The terms do not say") },
  { WB_RULE_SHIPMENT_WEIGHT,   "shipment-weight",   N_ ("Weight of the shipment") },
  { WB_RULE_MINIMUM_VALUE,     "minimum-value",     N_ ("Least value of the shipment") },
  { WB_RULE_DECLARED_VALUE,    "declared-value",    N_ ("Declared value") },
  { WB_RULE_MAXIMUM_VALUE,     "maximum-value",     N_ ("Greatest value of the shipment") },
  { WB_RULE_EARLIER_PAYMENTS,  "earlier-payments",  N_ ("Earlier payments") },
  { WB_RULE_DEDUCTIBLE_LEFT,   "deductible-left",   N_ ("Deductible left to bear") },
  { WB_RULE_MISSING_FIGURE,    "missing-figure",    N_ ("A figure is missing") },
  { WB_RULE_REPLACEMENT,       "replacement",       N_ ("Replacement cost") },
  { WB_RULE_DEPRECIATION_RATE, "depreciation-rate", N_ ("Percentage of depreciation") },
  { WB_RULE_DEPRECIATION,      "depreciation",      N_ ("Depreciation") },
  { WB_RULE_SALVAGE,           "salvage",           N_ ("Salvage") },
  { WB_RULE_SALVAGE_TAKEN,     "salvage-taken",     N_ ("Salvage taken by the carrier") },
  { WB_RULE_REPAIR,            "repair",            N_ ("Repair") },
  { WB_RULE_LESSER,            "lesser",            N_ ("Lesser of repair and value") },
  { WB_RULE_DEMAND,            "demand",            N_ ("Demand") },
  { WB_RULE_DENIED,            "denied",            N_ ("Denied") },
  { WB_RULE_BARRED,            "barred",            N_ ("Too late to be paid") },
  { WB_RULE_SET_MATE,          "set-mate",          N_ ("Sound mate of a set") },
  { WB_RULE_LINE_LIMIT,        "line-limit",        N_ ("Limit of a line") },
  { WB_RULE_THING_LEFT,        "thing-left",        N_ ("Paid in another claim") },
  { WB_RULE_ELSEWHERE,         "elsewhere",         N_ ("Also in another claim") },
  { WB_RULE_ARTICLE_WEIGHT,    "article-weight",    N_ ("Weight of the article") },
  { WB_RULE_EXTRAORDINARY,     "extraordinary",     N_ ("Extraordinary value") },
  { WB_RULE_LISTED,            "listed",            N_ ("Extraordinary value, listed") },
  { WB_RULE_ARTICLE_LIMIT,     "article-limit",     N_ ("Limit of the article") },
  { WB_RULE_ARTICLE_LEFT,      "article-left",      N_ ("Limit left for the article") },
  { WB_RULE_ARTICLE_SHARE,     "article-share",     N_ ("Share of the article’s limit") },
  { WB_RULE_SHIPMENT_LIMIT,    "shipment-limit",    N_ ("Limit of the shipment") },
  { WB_RULE_SHIPMENT_SHARE,    "shipment-share",    N_ ("Share of the shipment’s limit") },
  { WB_RULE_DEDUCTIBLE,        "deductible",        N_ ("Deductible") },
  { WB_RULE_DEDUCTIBLE_SHARE,  "deductible-share",  N_ ("Share of the deductible") },
  { WB_RULE_OWED,              "owed",              N_ ("Owed") },
  { WB_RULE_FREIGHT_DENIED,    "freight-denied",    N_ ("Freight of a denied line") },
  { WB_RULE_FREIGHT_REFUND,    "freight-refund",    N_ ("Freight refund") },
  { WB_RULE_PAID,              "paid",              N_ ("Already paid") },
};
LIST ("rule", wb_rules);

static const WbEnumValue wb_figures_values[] = {
  { WB_FIGURE_NONE,          "none",          "" },
  { WB_FIGURE_AMOUNT,        "amount",        N_ ("amount") },
  { WB_FIGURE_REPLACEMENT,   "replacement",   N_ ("replacement cost") },
  { WB_FIGURE_REPAIR,        "repair",        N_ ("repair cost") },
  { WB_FIGURE_APPEARANCE,    "appearance",    N_ ("appearance allowance") },
  { WB_FIGURE_DEPRECIATION,  "depreciation",  N_ ("depreciation") },
  { WB_FIGURE_YEARLY,        "yearly",        N_ ("depreciation a year") },
  { WB_FIGURE_AGE,           "age",           N_ ("age in years") },
  { WB_FIGURE_LEAST,         "least",         N_ ("least depreciation") },
  { WB_FIGURE_SALVAGE,       "salvage",       N_ ("salvage") },
  { WB_FIGURE_DEMANDED,      "demanded",      N_ ("demanded") },
  { WB_FIGURE_LOSS,          "loss",          N_ ("loss") },
  { WB_FIGURE_WEIGHT,        "weight",        N_ ("weight") },
  { WB_FIGURE_VOLUME,        "volume",        N_ ("volume") },
  { WB_FIGURE_WEIGHT_SOURCE, "weight-source", N_ ("source of the weight") },
  { WB_FIGURE_RATE,          "rate",          N_ ("rate") },
  { WB_FIGURE_LIMIT,         "limit",         N_ ("limit") },
  { WB_FIGURE_MINIMUM,       "minimum",       N_ ("minimum") },
  { WB_FIGURE_MAXIMUM,       "maximum",       N_ ("maximum") },
  { WB_FIGURE_DECLARED,      "declared",      N_ ("declared value") },
  { WB_FIGURE_LISTED,        "listed",        N_ ("listed value") },
  { WB_FIGURE_EARLIER,       "earlier",       N_ ("earlier payments") },
  { WB_FIGURE_DEDUCTIBLE,    "deductible",    N_ ("deductible") },
  { WB_FIGURE_TAKEN,         "taken",         N_ ("deductible already taken") },
  { WB_FIGURE_FREIGHT,       "freight",       N_ ("freight") },
  { WB_FIGURE_LOST_WEIGHT,   "lost-weight",   N_ ("weight of what was lost") },
  { WB_FIGURE_COUNT,         "count",         N_ ("count") },
  { WB_FIGURE_SIDE,          "side",          N_ ("side") },
  { WB_FIGURE_CHOICE,        "choice",        N_ ("choice") },
  { WB_FIGURE_GAPS,          "gaps",          N_ ("gaps of the waiver") },
  { WB_FIGURE_DATE,          "date",          N_ ("date") },
  { WB_FIGURE_LAST_DAY,      "last-day",      N_ ("last day") },
  { WB_FIGURE_LATE,          "late",          N_ ("in time or late") },
  { WB_FIGURE_MISSING,       "missing",       N_ ("missing") },
  { WB_FIGURE_CODE,          "code",          N_ ("rule of the terms") },
  { WB_FIGURE_DEFENCE,       "defence",       N_ ("defence") },
};
LIST ("figure", wb_figures);

static const WbEnumValue wb_article_weight_sources_values[] = {
  { WB_ARTICLE_WEIGHT_NONE,   "none",   N_ ("not known") },
  { WB_ARTICLE_WEIGHT_PIECE,  "piece",  N_ ("weight on the inventory") },
  { WB_ARTICLE_WEIGHT_PARTS,  "parts",  N_ ("weights of all its parts") },
  { WB_ARTICLE_WEIGHT_THING,  "thing",  N_ ("weight of the thing itself") },
  { WB_ARTICLE_WEIGHT_VOLUME, "volume", N_ ("constructive weight by volume") },
};
LIST ("source of an article’s weight", wb_article_weight_sources);

static const WbEnumValue wb_weight_sources_values[] = {
  { WB_WEIGHT_SOURCE_NONE,         "none",         N_ ("not known") },
  { WB_WEIGHT_SOURCE_REWEIGH,      "reweigh",      N_ ("reweigh") },
  { WB_WEIGHT_SOURCE_WEIGHING,     "weighing",     N_ ("weighing") },
  { WB_WEIGHT_SOURCE_CONSTRUCTIVE, "constructive", N_ ("constructive weight") },
  { WB_WEIGHT_SOURCE_VOLUME,       "volume",       N_ ("constructive weight by volume") },
  { WB_WEIGHT_SOURCE_ESTIMATE,     "estimate",     N_ ("estimated weight") },
};
LIST ("source of the shipment’s weight", wb_weight_sources);

static const WbEnumValue wb_late_states_values[] = {
  { WB_NOT_LATE,     "in-time",  N_ ("in time") },
  { WB_LATE,         "late",     N_ ("late") },
  { WB_TOO_LATE,     "too-late", N_ ("too late") },
  { WB_LATE_UNKNOWN, "unknown",  N_ ("not known") },
};
LIST ("time of filing", wb_late_states);

static const WbEnumValue wb_missings_values[] = {
  { WB_MISSING_NOTHING,               "nothing",               "" },
  { WB_MISSING_LOSS_KIND,             "loss-kind",             N_ ("the kind of loss") },
  { WB_MISSING_REPLACEMENT,           "replacement",           N_ ("the replacement cost") },
  { WB_MISSING_REPAIR_OR_REPLACEMENT, "repair-or-replacement",
    N_ ("the cost of repair or of replacement") },
  { WB_MISSING_ARTICLE_WEIGHT,        "article-weight",        N_ ("the weight of the article") },
  { WB_MISSING_SHIPMENT_WEIGHT,       "shipment-weight",       N_ ("the weight of the shipment") },
  { WB_MISSING_LOST_WEIGHT,           "lost-weight",           N_ ("the weight of what was lost") },
  { WB_MISSING_FREIGHT_CHARGE,        "freight-charge",        N_ ("the transportation charges") },
};
LIST ("missing figure", wb_missings);

static const WbEnumValue wb_sides_values[] = {
  { WB_SIDE_RELEASED, "released", N_ ("Released value") },
  { WB_SIDE_FULL,     "full",     N_ ("Full value protection") },
};
LIST ("side", wb_sides);

/* --- life ------------------------------------------------------------------------------------- */

G_DEFINE_BOXED_TYPE (WbReckoning, wb_reckoning, wb_reckoning_ref, wb_reckoning_unref)

WbReckoning *
wb_reckoning_ref (WbReckoning *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_reckoning_unref (WbReckoning *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->references))
    return;
  g_free (self->lines);
  wb_reasons_clear (&self->reasons);
  wb_terms_unref (self->terms);
  wb_job_unref (self->job);
  g_free (self);
}

/* --- reasons ---------------------------------------------------------------------------------- */

WbScope
wb_reason_key_scope (const WbReason *reason)
{
  return reason->key < WB_KEY_OFFERED ? WB_SCOPE_GENERAL : (WbScope) reason->scope;
}

const char *
wb_reckoning_citation (const WbReckoning *self,
                       const WbReason    *reason)
{
  if (reason->key == WB_NO_KEY)
    return NULL;
  return wb_terms_citation (self->terms, wb_reason_key_scope (reason), (WbTermsKey) reason->key);
}

static const WbEnum *
code_list_by_rule (WbRule rule)
{
  if (rule == WB_RULE_LATE)
    return &wb_late_rules;
  if (rule == WB_RULE_SET_MATE)
    return &wb_sets_rules;
  return NULL;
}

const WbEnum *
wb_figure_enum (const WbFigure *self,
                WbRule          rule)
{
  switch (self->name)
    {
    case WB_FIGURE_WEIGHT_SOURCE:
      return rule == WB_RULE_ARTICLE_WEIGHT ? &wb_article_weight_sources : &wb_weight_sources;
    case WB_FIGURE_SIDE:
      return &wb_sides;
    case WB_FIGURE_CHOICE:
      return &wb_choices;
    case WB_FIGURE_LATE:
      return &wb_late_states;
    case WB_FIGURE_MISSING:
      return &wb_missings;
    case WB_FIGURE_DEFENCE:
      return &wb_defences;
    case WB_FIGURE_CODE:
      return code_list_by_rule (rule);
    default:
      return NULL;
    }
}

char *
wb_figure_to_text (const WbFigure *self,
                   const char     *currency)
{
  GDate date;

  switch ((WbFigureType) self->type)
    {
    case WB_FIGURE_TYPE_NONE:
      return g_strdup ("");
    case WB_FIGURE_TYPE_MONEY:
      return wb_money_to_text (wb_money (self->value, currency));
    case WB_FIGURE_TYPE_RATE:
      return wb_rate_to_text ((WbRate) { wb_money (self->value, currency),
                                         (WbRateUnit) self->unit });
    case WB_FIGURE_TYPE_WEIGHT:
      return wb_weight_to_text ((WbWeight) { self->value, (WbWeightUnit) self->unit });
    case WB_FIGURE_TYPE_VOLUME:
      return wb_volume_to_text ((WbVolume) { self->value, (WbVolumeUnit) self->unit });
    case WB_FIGURE_TYPE_PERCENT:
      return wb_percent_to_text (self->value);
    case WB_FIGURE_TYPE_DATE:
      g_date_set_julian (&date, (guint32) self->value);
      return wb_date_to_text (&date);
    case WB_FIGURE_TYPE_NUMBER:
    case WB_FIGURE_TYPE_CODE:
      return g_strdup_printf ("%" G_GINT64_FORMAT, self->value);
    }
  g_assert_not_reached ();
}

/* --- listing ---------------------------------------------------------------------------------- */

static void
write_amount (GString    *text,
              const char *name,
              gint64      minor,
              const char *currency)
{
  g_autofree char *amount = wb_minor_to_text (minor, currency);

  g_string_append_printf (text, " %s=%s", name, amount);
}

static void
write_figure (GString         *text,
              const WbFigure  *figure,
              WbRule           rule,
              const char      *currency)
{
  const WbEnum *list = wb_figure_enum (figure, rule);
  g_autofree char *value = list != NULL && figure->type == WB_FIGURE_TYPE_CODE
                           ? g_strdup (wb_enum_nick (list, (int) figure->value))
                           : wb_figure_to_text (figure, currency);

  g_string_append_printf (text, " %s=“%s”", wb_enum_nick (&wb_figures, figure->name), value);
}

static const char *
scope_nick (guint scope)
{
  return scope == WB_SCOPE_GENERAL ? "both" : wb_enum_nick (&wb_sides, (int) scope);
}

static void
write_reason (GString           *text,
              const WbReckoning *self,
              const WbReason    *reason)
{
  WbRule rule = (WbRule) reason->rule;

  g_string_append_printf (text, "reason %s %s", wb_enum_nick (&wb_rules, (int) rule),
                          scope_nick (reason->scope));
  if (reason->line != WB_REASON_WHOLE_CLAIM)
    g_string_append_printf (text, " line=%" G_GINT64_FORMAT,
                            self->lines[reason->line].line->number);
  if (reason->key != WB_NO_KEY)
    g_string_append_printf (text, " key=%s", wb_enum_nick (&wb_terms_keys, reason->key));
  for (guint i = 0; i < reason->n_inputs; i++)
    write_figure (text, &reason->inputs[i], rule, self->terms->currency);
  if (reason->result.type != WB_FIGURE_TYPE_NONE)
    {
      g_string_append (text, " →");
      write_figure (text, &reason->result, rule, self->terms->currency);
    }
  g_string_append_c (text, '\n');
}

static void
write_side (GString           *text,
            const WbReckoning *self,
            WbSide             side)
{
  const WbSideReckoning *totals = &self->side[side];
  const char *currency = self->terms->currency;

  g_string_append_printf (text, "side %s offered=%s complete=%s limited=%s",
                          wb_enum_nick (&wb_sides, (int) side),
                          totals->offered ? "yes" : "no", totals->complete ? "yes" : "no",
                          totals->has_limit ? "yes" : "no");
  write_amount (text, "limit", totals->shipment_limit, currency);
  write_amount (text, "earlier", totals->earlier, currency);
  write_amount (text, "limit-left", totals->limit_left, currency);
  write_amount (text, "deductible", totals->deductible, currency);
  write_amount (text, "loss", totals->loss, currency);
  write_amount (text, "allowed", totals->allowed, currency);
  write_amount (text, "covered", totals->covered, currency);
  write_amount (text, "deducted", totals->deducted, currency);
  write_amount (text, "owed", totals->owed, currency);
  write_amount (text, "freight-refund", totals->freight_refund, currency);
  write_amount (text, "paid", totals->paid, currency);
  if (totals->freight_paid != 0)
    write_amount (text, "freight-paid", totals->freight_paid, currency);
  write_amount (text, "balance", totals->balance, currency);
  g_string_append_c (text, '\n');
  for (guint i = 0; i < self->n_lines; i++)
    {
      const WbLineFigures *figures = &self->lines[i].side[side];

      g_string_append_printf (text, "line %" G_GINT64_FORMAT " %s complete=%s",
                              self->lines[i].line->number,
                              wb_enum_nick (&wb_sides, (int) side),
                              figures->complete ? "yes" : "no");
      write_amount (text, "loss", figures->loss, currency);
      write_amount (text, "allowed", figures->allowed, currency);
      write_amount (text, "covered", figures->covered, currency);
      write_amount (text, "deducted", figures->deducted, currency);
      write_amount (text, "owed", figures->owed, currency);
      g_string_append_c (text, '\n');
    }
}

char *
wb_reckoning_to_text (const WbReckoning *self)
{
  GString *text = g_string_new (NULL);
  g_autofree char *from = wb_date_to_text (&self->terms->from);
  const WbReason *reason;
  WbReasonIter iter;

  g_string_append_printf (text,
                          "reckoning of claim %s\n"
                          "terms %s from %s digest %s\n"
                          "applies %s late %s waiver-gaps %u\n",
                          self->claim->number, self->terms->regime, from, self->terms->digest,
                          wb_enum_nick (&wb_sides, (int) self->applies),
                          wb_enum_nick (&wb_late_states, (int) self->late), self->waiver_gaps);
  for (int side = 0; side < WB_N_SIDES; side++)
    write_side (text, self, (WbSide) side);
  wb_reason_iter_init (&iter, self);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    write_reason (text, self, reason);
  return g_string_free (text, FALSE);
}
