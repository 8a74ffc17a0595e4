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
  static const char *const names[] = { "articles.catalog", "cartons.catalog",
                                       "depreciation.catalog" };
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

/* Average useful life and yearly percentage as printed in directive d110 v234 s588 of the Canadian
 * National Joint Council (seen up to women's clothing); what it prints of replacement cost that is
 * left is here what comes off. The last two: GAO B-266114 (seen). -1: none. */
static const struct
{
  const char *nick;
  gint        life;
  gint        yearly;
  gint        flat;
  gint        least;
} depreciations[] = {
  { "appliances", 10, 10, -1, -1 },
  { "tv-tube-black-and-white", 4, 25, -1, -1 },
  { "tv-tube-colour", 6, 16, -1, -1 },
  { "computers", -1, -1, -1, -1 },
  { "bedroom-bathroom", 10, 10, -1, -1 },
  { "bath-mat", 3, 33, -1, -1 },
  { "wool-blanket", 20, 5, -1, -1 },
  { "linen", 5, 20, -1, -1 },
  { "reference-books", 25, 4, -1, -1 },
  { "boxes", 20, 5, -1, -1 },
  { "mens-coat", 5, 20, -1, -1 },
  { "mens-leather-jacket", 10, 10, -1, -1 },
  { "mens-shirt", 3, 33, -1, -1 },
  { "womens-coat", 5, 20, -1, -1 },
  { "childrens-coat", 3, 33, -1, -1 },
  { "childrens-clothing", 2, 50, -1, -1 },
  { "oriental-rug", 25, 4, -1, -1 },
  { "carpet-under-100", 5, 20, -1, -1 },
  { "carpet-100-to-200", 10, 10, -1, -1 },
  { "carpet-over-200", 15, 7, -1, -1 },
  { "glassware", 5, 20, -1, -1 },
  { "dishes", 10, 10, -1, -1 },
  { "grandfather-clock", 33, 3, -1, -1 },
  { "clock-under-25", 10, 10, -1, -1 },
  { "clock-over-25", 20, 5, -1, -1 },
  { "books", -1, -1, 100 - 60, -1 },
  { "paperbacks", -1, -1, 100 - 50, -1 },
  { "bric-a-brac", -1, -1, 100 - 75, -1 },
  { "fine-china", -1, -1, -1, 100 - 90 },
  { "childrens-shoes", -1, -1, -1, -1 },
  { "furs", -1, -1, -1, -1 },
  { "compact-discs", -1, -1, 10, -1 },
  { "phonograph-records", -1, -1, 50, -1 },
};

static void
assert_percent (gint64 found,
                gint   expected)
{
  g_assert_cmpint (found, ==, expected < 0 ? WB_INTEGER_UNSET : (gint64) expected * 100);
}

static void
test_depreciations (void)
{
  g_autoptr (WbCatalog) catalog = load ();

  g_assert_cmpuint (wb_catalog_count (catalog, WB_CATALOG_DEPRECIATION), ==,
                    G_N_ELEMENTS (depreciations));
  for (guint i = 0; i < G_N_ELEMENTS (depreciations); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_find (catalog, WB_CATALOG_DEPRECIATION,
                                                     depreciations[i].nick);
      gboolean has_none = depreciations[i].yearly < 0 && depreciations[i].flat < 0
                          && depreciations[i].least < 0;

      g_assert_nonnull (entry);
      g_assert_cmpint (entry->life, ==,
                       depreciations[i].life < 0 ? WB_INTEGER_UNSET : depreciations[i].life);
      assert_percent (entry->yearly, depreciations[i].yearly);
      assert_percent (entry->flat, depreciations[i].flat);
      assert_percent (entry->least, depreciations[i].least);
      g_assert_true (has_none == (entry->rule != NULL));
    }
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
  g_test_add_func ("/published/catalog/depreciations", test_depreciations);
  g_test_add_func ("/published/catalog/nothing-claimed", test_nothing_claimed);
  g_test_add_func ("/published/catalog/lifting", test_lifting);
  return g_test_run ();
}
