/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks a category of depreciation up and puts its percentages on a claim line. Percentages are
 * taken as the catalogue has them; nothing is worked out here. */
#include "config.h"

#include "core/wb-depreciation.h"

#include "core/wb-core.h"
#include "core/wb-text.h"

gboolean
wb_depreciation_rates (const WbCatalog      *catalog,
                       const char           *nick,
                       WbDepreciationRates  *out,
                       GError              **error)
{
  const WbCatalogEntry *entry;

  g_return_val_if_fail (catalog != NULL && nick != NULL && out != NULL, FALSE);

  entry = wb_catalog_find (catalog, WB_CATALOG_DEPRECIATION, nick);
  if (entry == NULL)
    {
      g_autofree char *quoted = wb_text_quote (nick, -1);

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "the catalogue has no category of depreciation %s", quoted);
      return FALSE;
    }
  *out = (WbDepreciationRates) { entry->yearly, entry->flat, entry->least };
  return TRUE;
}

static void
take_back (gint64 *rate,
           gint64  given)
{
  if (*rate == given)
    *rate = WB_INTEGER_UNSET;
}

static void
leave_category (const WbCatalog *catalog,
                WbClaimLine     *line)
{
  WbDepreciationRates rates;

  if (line->category != NULL && wb_depreciation_rates (catalog, line->category, &rates, NULL))
    {
      take_back (&line->depreciation_yearly, rates.yearly);
      take_back (&line->depreciation_flat, rates.flat);
      take_back (&line->depreciation_least, rates.least);
    }
  wb_set_text (&line->category, NULL);
}

WbClaimLine *
wb_depreciation_apply (const WbCatalog    *catalog,
                       const WbClaimLine  *line,
                       const char         *nick,
                       GError            **error)
{
  WbDepreciationRates rates;
  WbClaimLine *changed;

  g_return_val_if_fail (catalog != NULL && line != NULL, NULL);

  if (nick == NULL || *nick == '\0')
    {
      changed = wb_record_copy (line);
      leave_category (catalog, changed);
      return changed;
    }
  if (!wb_depreciation_rates (catalog, nick, &rates, error))
    return NULL;

  changed = wb_record_copy (line);
  wb_set_text (&changed->category, nick);
  changed->depreciation_yearly = rates.yearly;
  changed->depreciation_flat = rates.flat;
  changed->depreciation_least = rates.least;
  return changed;
}

gboolean
wb_depreciation_holds (const WbCatalog   *catalog,
                       const WbClaimLine *line)
{
  WbDepreciationRates rates;

  g_return_val_if_fail (catalog != NULL && line != NULL, FALSE);

  return line->category != NULL
         && wb_depreciation_rates (catalog, line->category, &rates, NULL)
         && line->depreciation_yearly == rates.yearly && line->depreciation_flat == rates.flat
         && line->depreciation_least == rates.least;
}
