/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of valuable articles, who signed it, and what should be on it, in words. The rate comes
 * from the terms that govern the job; what is above it is core's to find. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-groups-overview.h"

#include "core/wb-high-value.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* That of full value protection: released value has its own, lower limit for every article. */
static WbRate
find_rate (WbJobModel *model)
{
  WbTermsSet *set = wb_office_get_terms (wb_job_model_get_office (model));
  WbTerms *terms = wb_terms_set_find (set, wb_job_order (wb_job_model_get_job (model)), NULL);

  return terms != NULL ? terms->side[WB_SIDE_FULL].extraordinary_rate : (WbRate) { 0 };
}

static void
append_sentence (GString    *text,
                 const char *sentence)
{
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
}

/* "Signed by A. Lindqvist on 4 March 2026." */
static char *
describe_signature (const WbValuation *valuation)
{
  g_autofree char *date = wb_words_date (&valuation->high_value_signed_on);

  /* Translators: who signed a list, and a date. */
  return g_strdup_printf (_("Signed by %s on %s."), valuation->high_value_signed_by, date);
}

static char *
describe_gaps (const WbJob *job,
               guint        gaps)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (gaps == WB_HIGH_VALUE_SIGNED)
    return describe_signature (wb_job_valuation (job));
  if (gaps & WB_HIGH_VALUE_NOT_STATED)
    append_sentence (text, _("The valuation does not say that the shipper signed this list."));
  if (gaps & WB_HIGH_VALUE_NO_SIGNER)
    append_sentence (text, _("Nobody is named who signed it."));
  if (gaps & WB_HIGH_VALUE_NO_DATE)
    append_sentence (text, _("No day is given on which it was signed."));
  if (gaps & WB_HIGH_VALUE_LATE)
    append_sentence (text, _("It was signed after the day of pick-up."));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
add_entry (WbPieceOverview   *overview,
           const WbJob       *job,
           const WbHighValue *entry)
{
  g_autofree char *tag = wb_words_tag (job, entry->piece);
  g_autofree char *value = wb_words_money (entry->value);
  g_autofree char *weight = wb_weight_is_set (entry->weight) ? wb_words_weight (entry->weight)
                                                             : NULL;
  g_autofree char *cap = wb_money_is_set (entry->cap) ? wb_words_money (entry->cap) : NULL;
  const char *what = entry->piece->description;
  g_autoptr (GString) text = NULL;

  if (entry->thing != NULL)
    what = entry->thing->description;
  else if (entry->state == WB_HIGH_VALUE_UNLISTED)
    what = _("all that is inside");
  text = g_string_new (what != NULL ? what : "");
  if (weight != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", weight);
  if (cap != NULL && entry->state == WB_HIGH_VALUE_UNLISTED)
    {
      g_string_append (text, text->len > 0 ? " · " : "");
      /* Translators: %s is an amount of money. */
      g_string_append_printf (text, _("%s at most when it is not listed"), cap);
    }
  wb_piece_overview_add_piece (overview, tag, text->str, value, entry->piece->record.id);
}

static void
add_entries (WbPieceOverview       *overview,
             const WbJob           *job,
             const WbHighValueList *list,
             WbHighValueState       state)
{
  for (guint i = 0; i < list->entries->len; i++)
    {
      const WbHighValue *entry = &g_array_index (list->entries, WbHighValue, i);

      if (entry->state == state)
        add_entry (overview, job, entry);
    }
}

static void
add_listed (WbPieceOverview       *overview,
            const WbJob           *job,
            const WbHighValueList *list)
{
  guint gaps = wb_high_value_gaps (job);
  g_autofree char *sum = wb_words_money (list->listed);
  g_autofree char *signature = describe_gaps (job, gaps);
  /* Translators: a number of articles, and the sum of their values. */
  g_autofree char *title = g_strdup_printf (ngettext ("On the list: %u article, %s",
                                                      "On the list: %u articles, %s",
                                                      list->n_listed), list->n_listed, sum);

  wb_piece_overview_add_group (overview, title, signature, gaps != WB_HIGH_VALUE_SIGNED);
  add_entries (overview, job, list, WB_HIGH_VALUE_LISTED);
}

static void
add_unlisted (WbPieceOverview       *overview,
              const WbJob           *job,
              const WbHighValueList *list,
              WbRate                 rate)
{
  g_autofree char *words = wb_words_rate (rate);
  /* Translators: %s is a rate, such as "$100.00 per pound". */
  g_autofree char *title = g_strdup_printf (_("Worth more than %s and not on the list"), words);

  wb_piece_overview_add_group (overview, title,
                               _("Tell the shipper, and give the line a listed value when the "
                                 "shipper lists it."), TRUE);
  add_entries (overview, job, list, WB_HIGH_VALUE_UNLISTED);
}

static void
fill (WbPieceOverview *overview,
      WbJobModel      *model)
{
  const WbJob *job = wb_job_model_get_job (model);
  WbRate rate = find_rate (model);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbHighValueList) list = wb_high_value_list (job, rate, &error);

  if (list == NULL)
    {
      wb_piece_overview_add_group (overview, _("The list cannot be made"),
                                   _("The values of the inventory are too large to add up."), TRUE);
      return;
    }
  if (list->n_unlisted > 0)
    add_unlisted (overview, job, list, rate);
  if (list->n_listed > 0)
    add_listed (overview, job, list);
}

WbPieceOverview *
wb_high_value_overview_new (GtkWindow  *parent,
                            WbJobModel *model)
{
  return wb_piece_overview_new (parent, model, _("High-Value Articles"),
                                _("No High-Value Articles"),
                                _("A line with a listed value stands here, and so does what is "
                                  "worth more than the terms allow without a list, by the values "
                                  "in the lists of contents."),
                                fill);
}

char *
wb_high_value_overview_warn (WbJobModel *model)
{
  const WbJob *job = wb_job_model_get_job (model);
  g_autoptr (WbHighValueList) list = wb_high_value_list (job, find_rate (model), NULL);
  g_autofree char *words = NULL;

  if (list != NULL && list->n_unlisted > 0)
    {
      words = g_strdup_printf (ngettext ("%u article of high value", "%u articles of high value",
                                         list->n_unlisted), list->n_unlisted);
      /* Translators: %s says how many articles of high value. */
      return g_strdup_printf (ngettext ("<a href=\"show:high-value\">%s</a> is not listed",
                                        "<a href=\"show:high-value\">%s</a> are not listed",
                                        list->n_unlisted), words);
    }
  if (list != NULL && list->n_listed > 0 && wb_high_value_gaps (job) != WB_HIGH_VALUE_SIGNED)
    return g_strdup (_("<a href=\"show:high-value\">The list of high-value articles</a> is not "
                       "signed"));
  return NULL;
}
