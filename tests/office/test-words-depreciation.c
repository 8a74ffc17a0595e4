/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every category of the shipped catalogue is told in a sentence and has a source, and a line says
 * how it stands to its own. */
#include "config.h"

#include <string.h>

#include "../core/catalog-fixture.h"
#include "core/wb-depreciation.h"
#include "office/wb-words-depreciation.h"

static void
test_category (void)
{
  static const struct
  {
    const char *nick;
    const char *words;
  } cases[] = {
    { "carpet-over-200", "7 % for each year of age; average life 15 years." },
    { "books", "40 % whatever the age." },
    { "fine-china", "At least 10 %." },
    { "computers", "The table leaves the life of a computer to be decided and prints no "
                   "percentage. The adjuster enters one." },
  };
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_find (catalog, WB_CATALOG_DEPRECIATION,
                                                     cases[i].nick);
      g_autofree char *words = wb_words_depreciation (entry);

      g_assert_cmpstr (words, ==, cases[i].words);
    }
  for (guint i = 0; i < wb_catalog_count (catalog, WB_CATALOG_DEPRECIATION); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_nth (catalog, WB_CATALOG_DEPRECIATION, i);
      g_autofree char *words = wb_words_depreciation (entry);

      g_assert_true (g_str_has_suffix (words, "."));
      g_assert_true (g_str_has_prefix (wb_words_depreciation_source (entry), "seen in "));
    }
}

static void
test_both (void)
{
  static const char own[] = "[depreciation]\nnick = furs\nname = Furs\n"
                            "yearly = 5 % ; common practice, no source\n"
                            "least = 12.5 % ; common practice, no source\n";
  g_autoptr (WbCatalog) catalog = wb_catalog_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;

  g_assert_true (wb_catalog_add (catalog, own, strlen (own), "own.catalog", TRUE, NULL, &error));
  words = wb_words_depreciation (wb_catalog_find (catalog, WB_CATALOG_DEPRECIATION, "furs"));
  g_assert_cmpstr (words, ==, "5 % for each year of age. At least 12.5 %.");
}

static void
test_line (void)
{
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();
  g_autoptr (WbClaimLine) line = wb_record_new (WB_KIND_CLAIM_LINE, "line-1");
  g_autoptr (WbClaimLine) china = NULL;
  g_autofree char *held = NULL;
  g_autofree char *changed = NULL;
  g_autofree char *gone = NULL;

  g_assert_null (wb_words_depreciation_of_line (catalog, line));
  china = wb_depreciation_apply (catalog, line, "fine-china", NULL);
  held = wb_words_depreciation_of_line (catalog, china);
  g_assert_cmpstr (held, ==, "Fine china and crystal: At least 10 %.");
  china->depreciation_least = 0;
  changed = wb_words_depreciation_of_line (catalog, china);
  g_assert_cmpstr (changed, ==, "Fine china and crystal: At least 10 %. The line has other "
                                "percentages, which count.");
  wb_set_text (&china->category, "porcelain-2");
  gone = wb_words_depreciation_of_line (catalog, china);
  g_assert_cmpstr (gone, ==, "The catalogue has no category “porcelain-2” any more. The "
                             "percentages of the line stand.");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/office/words/depreciation/category", test_category);
  g_test_add_func ("/office/words/depreciation/both", test_both);
  g_test_add_func ("/office/words/depreciation/line", test_line);

  return g_test_run ();
}
