/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Offers of the catalogue. What a line means by its words core finds; what an offer looks like is
 * the field's own. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-line-catalog.h"

#include "core/wb-packing.h"
#include "office/wb-lift-setting.h"
#include "office/wb-words-packing.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- kinds of cartons ------------------------------------------------------------------------- */

static gboolean
begins (const char *name,
        const char *start)
{
  g_autofree char *folded = g_utf8_casefold (name, -1);

  return g_str_has_prefix (folded, start);
}

static gboolean
is_meant (const WbCatalogEntry *entry,
          const char           *start)
{
  if (begins (entry->name, start))
    return TRUE;
  for (guint i = 0; entry->also != NULL && entry->also[i] != NULL; i++)
    if (begins (entry->also[i], start))
      return TRUE;
  return FALSE;
}

char **
wb_line_catalog_complete (WbCatalog   *catalog,
                          char       **texts,
                          const char  *typed,
                          guint        most)
{
  g_auto (GStrv) known = texts;
  g_autofree char *start = g_utf8_casefold (typed, -1);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  guint n = known != NULL ? g_strv_length (known) : 0;

  if (known != NULL)
    g_strv_builder_addv (builder, (const char **) known);
  for (guint i = 0; *typed != '\0' && i < wb_catalog_count (catalog, WB_CATALOG_CARTON); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_nth (catalog, WB_CATALOG_CARTON, i);

      if (n >= most || !is_meant (entry, start) || g_str_equal (entry->name, typed)
          || (known != NULL && g_strv_contains ((const char *const *) known, entry->name)))
        continue;
      g_strv_builder_add (builder, entry->name);
      n++;
    }
  return n > 0 ? g_strv_builder_end (builder) : NULL;
}

/* --- figures ---------------------------------------------------------------------------------- */

static void
offer (WbCatalog     *catalog,
       WbLineEntry   *entry,
       const WbPiece *piece)
{
  const WbCatalogEntry *found = wb_packing_entry (catalog, piece);
  gboolean weight = wb_line_entry_get_part (entry) == WB_LINE_WEIGHT;
  g_autofree char *text = NULL;
  g_autofree char *words = NULL;

  if (found != NULL)
    text = weight ? wb_weight_to_text (found->weight) : wb_volume_to_text (found->volume);
  if (text == NULL || *text == '\0')
    {
      wb_line_entry_offer (entry, NULL, NULL);
      return;
    }

  /* Translators: beneath a field; %s is a usual weight or volume that the Down key puts there. */
  words = g_strdup_printf (_("↓ usually %s"), text);
  wb_line_entry_offer (entry, text, words);
}

static void
caution (WbCatalog    *catalog,
         WbLineEntry  *entry,
         WbWeightUnit  unit)
{
  g_autoptr (WbPiece) scratch = wb_record_new (WB_KIND_PIECE, "scratch");
  g_autofree char *words = NULL;
  WbWeight weight = WB_WEIGHT_UNSET;
  WbLift lift;

  if (!wb_weight_parse (wb_line_entry_get_text (entry), unit, &scratch->weight, NULL))
    return;
  lift = wb_packing_lift (catalog, scratch, wb_lift_setting_get (), &weight, NULL);
  words = wb_words_lift_short (lift, weight);
  if (words != NULL)
    wb_line_entry_set_hint (entry, words);
}

void
wb_line_catalog_advise (WbCatalog     *catalog,
                        WbLineEntry   *entry,
                        const WbPiece *piece,
                        WbWeightUnit   unit)
{
  if (wb_line_entry_has_error (entry))
    return;
  if (*wb_line_entry_get_text (entry) == '\0')
    offer (catalog, entry, piece);
  else if (wb_line_entry_get_part (entry) == WB_LINE_WEIGHT)
    caution (catalog, entry, unit);
}
