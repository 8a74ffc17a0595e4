/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of the shipped catalogue that somebody published, and how far each was checked. A
 * figure that is not in this table must not be called seen. */
#include "config.h"

#include <string.h>

#include "core/wb-catalog.h"
#include "core/wb-packing.h"

/* Cubic feet as on the web page of one mover; no official table was seen. */
static const struct
{
  const char *nick;
  const char *volume;
  const char *note;      /* what the source also says, or NULL */
} volumes[] = {
  { "small", "1.50 cuft", NULL },
  { "medium", "3 cuft", NULL },
  { "large", "4.50 cuft", NULL },
  { "extra-large", "6 cuft", NULL },
  { "mirror", "5 cuft", "about 5" },
  { "lamp", "5 cuft", "about 5" },
  { "dish", "6.20 cuft", "5.2 to 5.25 cuft from memory" },
  { "wardrobe", "15 cuft", "10 to 16 cuft from memory" },
};

#define SEEN "seen on one mover's page only"

static WbCatalog *
load (void)
{
  static const char *const names[] = { "articles.catalog", "cartons.catalog" };
  WbCatalog *catalog = wb_catalog_new ();

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "catalogs",
                                                names[i], NULL);
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;

      g_file_get_contents (path, &text, NULL, &error);
      g_assert_no_error (error);
      if (!wb_catalog_add (catalog, text, strlen (text), names[i], FALSE, NULL, &error))
        g_error ("%s", error->message);
    }
  return catalog;
}

static void
test_volumes (void)
{
  g_autoptr (WbCatalog) catalog = load ();
  guint n_seen = 0;

  for (guint i = 0; i < G_N_ELEMENTS (volumes); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_find (catalog, WB_CATALOG_CARTON, volumes[i].nick);
      const char *source = entry->source[WB_CATALOG_VOLUME];
      g_autofree char *volume = wb_volume_to_text (entry->volume);

      g_assert_cmpstr (volume, ==, volumes[i].volume);
      g_assert_nonnull (strstr (source, SEEN));
      g_assert_nonnull (strstr (source, "no official table seen"));
      if (volumes[i].note != NULL)
        g_assert_nonnull (strstr (source, volumes[i].note));
    }

  for (guint i = 0; i < wb_catalog_count (catalog, WB_CATALOG_CARTON); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_nth (catalog, WB_CATALOG_CARTON, i);
      const char *source = entry->source[WB_CATALOG_VOLUME];

      n_seen += source != NULL && strstr (source, SEEN) != NULL ? 1 : 0;
    }
  g_assert_cmpuint (n_seen, ==, G_N_ELEMENTS (volumes));
}

/* No table of weights and no table of sizes was seen, so nothing claims one. */
static void
test_nothing_claimed (void)
{
  static const WbCatalogKey keys[] = { WB_CATALOG_WEIGHT, WB_CATALOG_INSIDE };
  static const WbCatalogKind kinds[] = { WB_CATALOG_CARTON, WB_CATALOG_ARTICLE };
  g_autoptr (WbCatalog) catalog = load ();
  guint n = 0;

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (guint i = 0; i < wb_catalog_count (catalog, kinds[k]); i++)
      for (guint j = 0; j < G_N_ELEMENTS (keys); j++)
        {
          const char *source = wb_catalog_nth (catalog, kinds[k], i)->source[keys[j]];

          if (source == NULL)
            continue;
          g_assert_nonnull (strstr (source, "from memory"));
          g_assert_null (strstr (source, "seen on"));
          n++;
        }
  g_assert_cmpuint (n, >, 80);
}

/* The revised NIOSH lifting equation starts from 23 kg, about 51 lb (seen: ccohs.ca; OSHA's eTool
 * for the pounds). The caution is set below it. */
static void
test_lifting (void)
{
  gint64 threshold = WB_PACKING_LIFT_DEFAULT_LB * WB_GRAINS_PER_LB;

  g_assert_cmpint (threshold, ==, 50 * WB_GRAINS_PER_LB);
  g_assert_cmpint (threshold, <, 23 * WB_GRAINS_PER_KG);
  /* 23 kg is nearer to 51 lb than to any other whole number of pounds. */
  g_assert_cmpint ((2 * 23 * WB_GRAINS_PER_KG + WB_GRAINS_PER_LB) / (2 * WB_GRAINS_PER_LB), ==, 51);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/published/catalog/volumes", test_volumes);
  g_test_add_func ("/published/catalog/nothing-claimed", test_nothing_claimed);
  g_test_add_func ("/published/catalog/lifting", test_lifting);
  return g_test_run ();
}
