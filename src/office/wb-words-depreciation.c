/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about categories of depreciation, from what the catalogue says of each. Works no
 * figure out. */
#include "config.h"

#include "office/wb-words-depreciation.h"

#include "core/wb-depreciation.h"
#include "core/wb-percent.h"

#include <glib/gi18n.h>

static char *
describe_percentage (const WbCatalogEntry *category)
{
  g_autofree char *percent = NULL;

  if (category->flat != WB_INTEGER_UNSET)
    {
      percent = wb_percent_to_text (category->flat);
      /* Translators: %s is a percentage of depreciation, "40 %". */
      return g_strdup_printf (_("%s whatever the age."), percent);
    }
  if (category->yearly == WB_INTEGER_UNSET)
    return NULL;
  percent = wb_percent_to_text (category->yearly);
  if (category->life == WB_INTEGER_UNSET)
    /* Translators: %s is a percentage of depreciation, "7 %". */
    return g_strdup_printf (_("%s for each year of age."), percent);
  /* Translators: the first is a percentage of depreciation, "7 %", the second a number of years. */
  return g_strdup_printf (ngettext ("%s for each year of age; average life %d year.",
                                    "%s for each year of age; average life %d years.",
                                    (gulong) category->life),
                          percent, (int) category->life);
}

static char *
describe_least (const WbCatalogEntry *category)
{
  g_autofree char *percent = NULL;

  if (category->least == WB_INTEGER_UNSET)
    return NULL;
  percent = wb_percent_to_text (category->least);
  /* Translators: %s is a percentage of depreciation, "10 %". */
  return g_strdup_printf (_("At least %s."), percent);
}

char *
wb_words_depreciation (const WbCatalogEntry *category)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *percentage = NULL;
  g_autofree char *least = NULL;

  g_return_val_if_fail (category != NULL && category->kind == WB_CATALOG_DEPRECIATION, NULL);

  percentage = describe_percentage (category);
  least = describe_least (category);
  if (percentage != NULL)
    g_string_append (text, percentage);
  if (least != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", least);
  if (category->rule != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", category->rule);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

const char *
wb_words_depreciation_source (const WbCatalogEntry *category)
{
  static const WbCatalogKey keys[] = { WB_CATALOG_YEARLY, WB_CATALOG_FLAT, WB_CATALOG_LEAST,
                                       WB_CATALOG_RULE };

  g_return_val_if_fail (category != NULL && category->kind == WB_CATALOG_DEPRECIATION, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    if (category->source[keys[i]] != NULL)
      return category->source[keys[i]];
  return NULL;
}

char *
wb_words_depreciation_of_line (const WbCatalog   *catalog,
                               const WbClaimLine *line)
{
  const WbCatalogEntry *category;
  g_autofree char *words = NULL;

  g_return_val_if_fail (catalog != NULL && line != NULL, NULL);

  if (line->category == NULL)
    return NULL;
  category = wb_catalog_find (catalog, WB_CATALOG_DEPRECIATION, line->category);
  if (category == NULL)
    /* Translators: %s is the short name of a category of depreciation that is no longer there. */
    return g_strdup_printf (_("The catalogue has no category “%s” any more. The percentages of "
                              "the line stand."),
                            line->category);
  words = wb_words_depreciation (category);
  if (wb_depreciation_holds (catalog, line))
    /* Translators: the name of a category of depreciation, and what it takes off. */
    return g_strdup_printf (_("%s: %s"), category->name, words);
  /* Translators: the name of a category of depreciation, and what it takes off. */
  return g_strdup_printf (_("%s: %s The line has other percentages, which count."), category->name,
                          words);
}
