/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for the steps of a reckoning: the sentence of the rule with the figures of the step filled
 * in. Nothing is worked out here; every figure comes from the step itself. */
#include "config.h"

#include "office/wb-words.h"

#include "office/wb-words-private.h"

#include <glib/gi18n.h>
#include <string.h>

/* --- filling in ------------------------------------------------------------------------------- */

static char *
words_of_figure (const WbFigure *figure,
                 WbRule          rule,
                 const char     *currency)
{
  const WbEnum *list;
  GDate date;

  if (figure->name == WB_FIGURE_GAPS)
    return wb_words_waiver_gaps ((guint) figure->value);
  if (figure->name == WB_FIGURE_AGE)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d year", "%d years",
                                         (gulong) figure->value),
                            (int) figure->value);

  switch ((WbFigureType) figure->type)
    {
    case WB_FIGURE_TYPE_NONE:
      return g_strdup ("–");

    case WB_FIGURE_TYPE_MONEY:
      return wb_words_minor (figure->value, currency);

    case WB_FIGURE_TYPE_RATE:
      return wb_words_rate ((WbRate) { wb_money (figure->value, currency),
                                      (WbRateUnit) figure->unit });

    case WB_FIGURE_TYPE_WEIGHT:
      return wb_words_weight ((WbWeight) { figure->value, (WbWeightUnit) figure->unit });

    case WB_FIGURE_TYPE_VOLUME:
      return wb_words_volume ((WbVolume) { figure->value, (WbVolumeUnit) figure->unit });

    case WB_FIGURE_TYPE_PERCENT:
      return wb_words_percent (figure->value);

    case WB_FIGURE_TYPE_DATE:
      g_date_clear (&date, 1);
      g_date_set_julian (&date, (guint32) figure->value);
      return wb_words_date (&date);

    case WB_FIGURE_TYPE_NUMBER:
      break;

    case WB_FIGURE_TYPE_CODE:
      list = wb_figure_enum (figure, rule);
      if (list != NULL)
        return g_strdup (wb_words_enum (list, (int) figure->value));
      break;
    }

  return g_strdup_printf ("%" G_GINT64_FORMAT, figure->value);
}

/* Returns: (transfer full) (nullable): what stands for the placeholder @name. */
static char *
words_of_name (const WbReckoning *reckoning,
               const WbReason    *reason,
               const char        *name)
{
  const WbEnumValue *row;

  if (g_str_equal (name, "terms"))
    return g_strdup (reckoning->terms->title);
  if (g_str_equal (name, "key"))
    return g_strdup (wb_words_enum (&wb_terms_keys, reason->key));
  if (g_str_equal (name, "meaning"))
    return g_strdup (_(wb_terms_silent_meaning ((WbTermsKey) reason->key)));
  if (g_str_equal (name, "result"))
    return words_of_figure (&reason->result, (WbRule) reason->rule, reckoning->terms->currency);

  row = wb_enum_find_nick (&wb_figures, name);
  if (row == NULL)
    return NULL;

  for (guint i = 0; i < reason->n_inputs; i++)
    {
      if (reason->inputs[i].name == row->value)
        return words_of_figure (&reason->inputs[i], (WbRule) reason->rule,
                                reckoning->terms->currency);
    }

  if (reason->result.name == row->value)
    return words_of_figure (&reason->result, (WbRule) reason->rule, reckoning->terms->currency);

  return NULL;
}

/* A placeholder that the step does not fill stays as it is, so that it is seen. */
static char *
fill_in (const WbReckoning *reckoning,
         const WbReason    *reason,
         const char        *sentence)
{
  GString *out = g_string_new (NULL);

  while (*sentence != '\0')
    {
      gsize plain = strcspn (sentence, "{");
      const char *close = strchr (sentence + plain, '}');

      g_string_append_len (out, sentence, (gssize) plain);
      sentence += plain;
      if (*sentence == '{' && close != NULL)
        {
          g_autofree char *name = g_strndup (sentence + 1, (gsize) (close - sentence) - 1);
          g_autofree char *words = words_of_name (reckoning, reason, name);

          if (words != NULL)
            g_string_append (out, words);
          else
            g_string_append_len (out, sentence, close + 1 - sentence);
          sentence = close + 1;
        }
      else if (*sentence == '{')
        {
          g_string_append_c (out, *sentence++);
        }
    }

  return g_string_free (out, FALSE);
}

/* --- public ----------------------------------------------------------------------------------- */

char *
wb_words_rule (WbRule rule)
{
  return g_strdup (wb_words_enum (&wb_rules, (int) rule));
}

char *
wb_words_reason (const WbReckoning *reckoning,
                 const WbReason    *reason)
{
  const char *sentence;

  g_return_val_if_fail (reckoning != NULL, NULL);
  g_return_val_if_fail (reason != NULL, NULL);

  sentence = wb_words_sentence_of (reason);
  g_return_val_if_fail (sentence != NULL, NULL);

  return fill_in (reckoning, reason, _(sentence));
}

const char *
wb_words_reason_source (const WbReckoning *reckoning,
                        const WbReason    *reason)
{
  g_return_val_if_fail (reckoning != NULL, NULL);
  g_return_val_if_fail (reason != NULL, NULL);

  return wb_reckoning_citation (reckoning, reason);
}

char *
wb_words_waiver_gaps (guint gaps)
{
  static const struct
  {
    WbWaiverGap gap;
    const char *words;
  } lacking[] = {
    { WB_WAIVER_NO_SIGNER, N_("the name of who signed") },
    { WB_WAIVER_NO_DATE, N_("the day of signing") },
    { WB_WAIVER_NO_MANNER, N_("how it was signed") },
    { WB_WAIVER_NO_DISCLOSURE, N_("the disclosure of the two choices that was given") },
    { WB_WAIVER_AFTER_PICKUP, N_("a day of signing not later than pick-up") },
  };
  g_autoptr (GString) list = g_string_new (NULL);

  if (gaps == WB_WAIVER_COMPLETE)
    return NULL;
  if ((gaps & WB_WAIVER_NOT_CHOSEN) != 0)
    return g_strdup (_("Released value was not chosen."));

  for (gsize i = 0; i < G_N_ELEMENTS (lacking); i++)
    {
      if ((gaps & lacking[i].gap) == 0)
        continue;
      if (list->len > 0)
        /* Translators: between the things that a waiver lacks. */
        g_string_append (list, C_("list", ", "));
      g_string_append (list, _(lacking[i].words));
    }

  /* Translators: %s is a list of what is missing. */
  return g_strdup_printf (_("The waiver lacks: %s."), list->str);
}

char *
wb_words_caution (void)
{
  return g_strdup (_("This reckoning follows the terms file and the figures entered; it is a "
                     "working paper, not legal "
                     "advice. Check the figures and the terms before a letter goes out or money "
                     "is paid."));
}
