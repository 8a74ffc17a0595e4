/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A category gives a claim line its percentages and takes back what it gave; what a person changed
 * stays the person's. */
#include "config.h"

#include <string.h>

#include "catalog-fixture.h"
#include "core/wb-core.h"
#include "core/wb-depreciation.h"

#define NONE WB_INTEGER_UNSET

static WbClaimLine *
new_line (void)
{
  WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, "line-1");

  wb_set_text (&line->claim, "claim-1");
  line->number = 1;
  line->age_years = 4;
  return line;
}

static void
assert_rates (const WbClaimLine *line,
              const char        *category,
              gint64             yearly,
              gint64             flat,
              gint64             least)
{
  g_assert_cmpstr (line->category, ==, category);
  g_assert_cmpint (line->depreciation_yearly, ==, yearly);
  g_assert_cmpint (line->depreciation_flat, ==, flat);
  g_assert_cmpint (line->depreciation_least, ==, least);
  g_assert_cmpint (line->age_years, ==, 4);
}

static WbClaimLine *
apply (const WbCatalog   *catalog,
       const WbClaimLine *line,
       const char        *nick)
{
  g_autoptr (GError) error = NULL;
  WbClaimLine *changed = wb_depreciation_apply (catalog, line, nick, &error);

  g_assert_no_error (error);
  g_assert_true (changed != line);
  return changed;
}

static void
test_rates (void)
{
  static const struct
  {
    const char *nick;
    gint64      yearly, flat, least;
  } cases[] = {
    { "carpet-over-200", 700, NONE, NONE }, { "tv-tube-colour", 1600, NONE, NONE },
    { "books", NONE, 4000, NONE },          { "fine-china", NONE, NONE, 1000 },
    { "computers", NONE, NONE, NONE },      { "furs", NONE, NONE, NONE },
  };
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();
  WbDepreciationRates rates = { 1, 2, 3 };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_assert_true (wb_depreciation_rates (catalog, cases[i].nick, &rates, &error));
      g_assert_no_error (error);
      g_assert_cmpint (rates.yearly, ==, cases[i].yearly);
      g_assert_cmpint (rates.flat, ==, cases[i].flat);
      g_assert_cmpint (rates.least, ==, cases[i].least);
    }

  rates = (WbDepreciationRates) { 1, 2, 3 };
  g_assert_false (wb_depreciation_rates (catalog, "small", &rates, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_assert_cmpstr (error->message, ==, "the catalogue has no category of depreciation “small”");
  g_assert_cmpint (rates.yearly, ==, 1);
}

static void
test_apply (void)
{
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();
  g_autoptr (WbClaimLine) line = new_line ();
  g_autoptr (WbClaimLine) rug = apply (catalog, line, "oriental-rug");
  g_autoptr (WbClaimLine) books = apply (catalog, rug, "books");
  g_autoptr (WbClaimLine) china = apply (catalog, books, "fine-china");
  g_autoptr (WbClaimLine) none = apply (catalog, china, NULL);
  g_autoptr (WbClaimLine) unknown = NULL;
  g_autoptr (GError) error = NULL;

  assert_rates (line, NULL, NONE, NONE, NONE);
  g_assert_false (wb_depreciation_holds (catalog, line));
  assert_rates (rug, "oriental-rug", 400, NONE, NONE);
  g_assert_true (wb_depreciation_holds (catalog, rug));
  assert_rates (books, "books", NONE, 4000, NONE);
  assert_rates (china, "fine-china", NONE, NONE, 1000);
  assert_rates (none, NULL, NONE, NONE, NONE);

  unknown = wb_depreciation_apply (catalog, rug, "rugs", &error);
  g_assert_null (unknown);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
}

/* Out of the category go its percentages, not those that a person typed. */
static void
test_changed_by_hand (void)
{
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();
  g_autoptr (WbClaimLine) line = new_line ();
  g_autoptr (WbClaimLine) china = apply (catalog, line, "fine-china");
  g_autoptr (WbClaimLine) none = NULL;
  g_autoptr (WbClaimLine) lost = NULL;

  china->depreciation_yearly = 550;
  g_assert_false (wb_depreciation_holds (catalog, china));
  none = apply (catalog, china, "");
  assert_rates (none, NULL, 550, NONE, NONE);

  wb_set_text (&china->category, "gone");
  g_assert_false (wb_depreciation_holds (catalog, china));
  lost = apply (catalog, china, NULL);
  assert_rates (lost, NULL, 550, NONE, 1000);
}

/* The office's own table takes the place of a shipped category. */
static void
test_own (void)
{
  static const char own[] = "[depreciation]\nnick = furs\nname = Furs\n"
                            "yearly = 5 % ; common practice, no source\n"
                            "least = 12.5 % ; common practice, no source\n";
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();
  g_autoptr (WbClaimLine) line = new_line ();
  g_autoptr (WbClaimLine) fur = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_catalog_add (catalog, own, strlen (own), "own.catalog", TRUE, NULL, &error));
  g_assert_no_error (error);
  fur = apply (catalog, line, "furs");
  assert_rates (fur, "furs", 500, NONE, 1250);
}

static void
test_description (void)
{
  static const struct
  {
    const char *description;
    const char *nick;
  } cases[] = {
    { "Oriental rug, red", "oriental-rug" }, { "Paperback books, one box", "paperbacks" },
    { "Books", "books" },                    { "12 record albums", "phonograph-records" },
    { "Mink coat", "furs" },                 { "Grandfather clock", "grandfather-clock" },
    { "Garden gnome", NULL },                { "", NULL },
  };
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_match_depreciation (catalog, cases[i].description);

      g_assert_cmpstr (entry != NULL ? entry->nick : NULL, ==, cases[i].nick);
    }
  g_assert_null (wb_catalog_match_depreciation (catalog, NULL));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/depreciation/rates", test_rates);
  g_test_add_func ("/core/depreciation/apply", test_apply);
  g_test_add_func ("/core/depreciation/changed-by-hand", test_changed_by_hand);
  g_test_add_func ("/core/depreciation/own", test_own);
  g_test_add_func ("/core/depreciation/description", test_description);

  return g_test_run ();
}
