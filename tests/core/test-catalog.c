/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Catalogue files: the shipped ones are read as they are and say where every figure comes from;
 * every mistake is told with its place; whatever bytes come, reading them does no harm. */
#include "config.h"

#include <string.h>

#include "catalog-fixture.h"
#include "core/wb-core.h"

#define FILE_NAME "own.catalog"
#define N_MUTATIONS 3000

static gboolean
add (WbCatalog   *catalog,
     const char  *text,
     gboolean     replace,
     GError     **error)
{
  return wb_catalog_add (catalog, text, strlen (text), FILE_NAME, replace, NULL, error);
}

/* --- shipped files ---------------------------------------------------------------------------- */

static gboolean
says_how_far (const char *source)
{
  return strstr (source, "seen on") != NULL || strstr (source, "seen in") != NULL
         || strstr (source, "from memory") != NULL
         || strstr (source, "common practice") != NULL;
}

static void
test_shipped (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "catalogs", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();
  g_autoptr (GPtrArray) faults = wb_catalog_check (catalog);
  const char *name;
  guint n_files = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    n_files += g_str_has_suffix (name, ".catalog") ? 1 : 0;
  g_assert_cmpuint (n_files, ==, G_N_ELEMENTS (catalog_shipped));
  g_assert_cmpuint (faults->len, ==, 0);

  for (guint kind = 0; kind < WB_N_CATALOG_KINDS; kind++)
    {
      g_assert_cmpuint (wb_catalog_count (catalog, (WbCatalogKind) kind), >, 7);
      for (guint i = 0; i < wb_catalog_count (catalog, (WbCatalogKind) kind); i++)
        {
          const WbCatalogEntry *entry = wb_catalog_nth (catalog, (WbCatalogKind) kind, i);
          guint n_sources = 0;

          for (guint key = 0; key < WB_N_CATALOG_KEYS; key++)
            if (entry->source[key] != NULL)
              {
                g_assert_true (says_how_far (entry->source[key]));
                n_sources++;
              }
          g_assert_cmpuint (n_sources, >, 0);
        }
    }
}

/* The inside sizes that are whole inches come to the volume that the trade calls the carton by. */
static void
test_inside (void)
{
  static const struct
  {
    const char *nick;
    const char *inside;
    gint64      cubic_inches;
  } cases[] = {
    { "medium", "18 × 18 × 16 in", 3 * 1728 },
    { "large", "18 × 18 × 24 in", 45 * 1728 / 10 },
    { "extra-large", "24 × 18 × 24 in", 6 * 1728 },
    { "dish", "18 × 18 × 28 in", 525 * 1728 / 100 },
  };
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_find (catalog, WB_CATALOG_CARTON, cases[i].nick);
      g_autofree char *inside = wb_catalog_inside_to_text (entry);

      g_assert_cmpstr (inside, ==, cases[i].inside);
      g_assert_cmpint (entry->inside[0] * entry->inside[1] * entry->inside[2], ==,
                       cases[i].cubic_inches * 1000000);
    }
}

/* What stands in FORMAT.md: every heading and key. */
static void
test_format_is_described (void)
{
  g_autofree char *text = catalog_read_shipped ("FORMAT.md");

  for (guint i = 0; i < WB_N_CATALOG_KINDS; i++)
    {
      g_autofree char *heading = g_strdup_printf ("`[%s]`", wb_catalog_kinds.values[i].nick);

      g_assert_nonnull (strstr (text, heading));
    }
  for (guint i = 0; i < WB_N_CATALOG_KEYS; i++)
    {
      g_autofree char *row = g_strdup_printf ("\n| `%s` | ", wb_catalog_keys.values[i].nick);

      g_assert_nonnull (strstr (text, row));
    }
}

/* --- finding ---------------------------------------------------------------------------------- */

static void
test_match (void)
{
  static const struct
  {
    const char *text;
    const char *nick;
  } cases[] = {
    { "dish pack", "dish" },     { "Dish-Pack", "dish" }, { "  DISH   PACK ", "dish" },
    { "dish", "dish" },          { "small", "small" },    { "Carton 1.5", "small" },
    { "Wardrobe", "wardrobe" },  { "extra large", "extra-large" },
    { "extra-large", "extra-large" }, { "barrel of nails", NULL }, { "", NULL }, { "…", NULL },
    { "paper", NULL },
  };
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_match (catalog, WB_CATALOG_CARTON, cases[i].text);

      g_assert_cmpstr (entry != NULL ? entry->nick : NULL, ==, cases[i].nick);
    }
  g_assert_null (wb_catalog_match (catalog, WB_CATALOG_CARTON, NULL));
  g_assert_cmpstr (wb_catalog_match_item (catalog, "packing PAPER")->nick, ==, "paper");
  g_assert_cmpstr (wb_catalog_match_item (catalog, "lamp")->nick, ==, "lamp");
}

static void
test_description (void)
{
  static const struct
  {
    const char *text;
    const char *nick;
  } cases[] = {
    { "Sofa, three seats", "sofa" },        { "Loveseat, matches sofa", "love-seat" },
    { "Desk chair on castors", "desk-chair" }, { "Writing desk, oak", "desk" },
    { "Mattress, queen, bagged", "mattress-queen" }, { "Bicycle, child", "bicycle-child" },
    { "Bicycle, blue", "bicycle" },         { "Upright piano", "piano-upright" },
    { "Sofabed", NULL },                    { "Desks", NULL },
    { "Kayak", NULL },                      { "", NULL },
  };
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const WbCatalogEntry *entry = wb_catalog_match_description (catalog, cases[i].text);

      g_assert_cmpstr (entry != NULL ? entry->nick : NULL, ==, cases[i].nick);
    }
  g_assert_null (wb_catalog_match_description (catalog, NULL));
}

/* --- an office's own file --------------------------------------------------------------------- */

static void
test_replace (void)
{
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();
  g_autoptr (GError) error = NULL;
  guint n = wb_catalog_count (catalog, WB_CATALOG_CARTON);
  const WbCatalogEntry *entry;

  g_assert_false (add (catalog, "[carton]\nnick = small\nname = Book box\n", FALSE, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CATALOG);
  g_clear_error (&error);

  g_assert_true (add (catalog,
                      "[carton]\nnick = small\nname = Our book box\nalso = tiny\n"
                      "weight = 18 kg ; weighed here\n"
                      "[carton]\nnick = television\ndropped = yes\n"
                      "[check]\nnick = bottom-taped\ndropped = yes\n"
                      "[carton]\nnick = harp\nname = Harp crate\n",
                      TRUE, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (wb_catalog_count (catalog, WB_CATALOG_CARTON), ==, n);

  entry = wb_catalog_nth (catalog, WB_CATALOG_CARTON, 0);
  g_assert_cmpstr (entry->name, ==, "Our book box");
  g_assert_cmpstr (entry->file, ==, FILE_NAME);
  g_assert_cmpstr (entry->source[WB_CATALOG_WEIGHT], ==, "weighed here");
  g_assert_false (wb_volume_is_set (entry->volume));
  g_assert_true (wb_catalog_match (catalog, WB_CATALOG_CARTON, "Tiny") == entry);
  g_assert_null (wb_catalog_match (catalog, WB_CATALOG_CARTON, "book carton"));
  g_assert_null (wb_catalog_find (catalog, WB_CATALOG_CARTON, "television"));
  g_assert_null (wb_catalog_match (catalog, WB_CATALOG_CARTON, "TV carton"));
  g_assert_null (wb_catalog_find (catalog, WB_CATALOG_CHECK, "bottom-taped"));
  g_assert_cmpstr (wb_catalog_nth (catalog, WB_CATALOG_CARTON, n - 1)->nick, ==, "harp");
}

/* A file that does not go with the others changes nothing. */
static void
test_all_or_none (void)
{
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();
  g_autoptr (GError) error = NULL;
  g_autofree char *message = NULL;
  guint n = wb_catalog_count (catalog, WB_CATALOG_CARTON);

  g_assert_false (add (catalog,
                       "[carton]\nnick = small\nname = Ours\n"
                       "[carton]\nnick = other\nname = Dish Pack\n",
                       TRUE, &error));
  message = g_strdup_printf ("own.catalog:4: “Dish Pack” is what the entry of cartons.catalog, "
                             "line %u, is called already; expected a nick and names of its own",
                             wb_catalog_find (catalog, WB_CATALOG_CARTON, "dish")->line);
  g_assert_cmpstr (error->message, ==, message);
  g_assert_cmpuint (wb_catalog_count (catalog, WB_CATALOG_CARTON), ==, n);
  g_assert_cmpstr (wb_catalog_find (catalog, WB_CATALOG_CARTON, "small")->name, ==, "Small carton");
  g_assert_nonnull (wb_catalog_match (catalog, WB_CATALOG_CARTON, "book carton"));
}

static void
test_unknown_carton (void)
{
  g_autoptr (WbCatalog) catalog = catalog_new_shipped ();
  g_autoptr (GPtrArray) faults = NULL;
  g_autoptr (GError) error = NULL;

  add (catalog,
       "\n[check]\nnick = a\nname = A\ncartons = dish, dihs\nrule = B. ; common practice\n", TRUE,
       &error);
  g_assert_no_error (error);
  faults = wb_catalog_check (catalog);
  g_assert_cmpuint (faults->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (faults, 0), ==,
                   "own.catalog:2: there is no carton “dihs”; expected the nick of a carton of the "
                   "catalogue");
}

/* --- mistakes --------------------------------------------------------------------------------- */

static const struct
{
  const char *name;
  const char *text;
  const char *message;   /* a pattern, behind "own.catalog:" */
} mistakes[] = {
  { "empty", "", "1: the file has no entry; expected [carton], [material], [article], "
    "[check] or [depreciation]" },
  { "comment-only", "# nothing\n\n", "3: the file has no entry; expected*" },
  { "before-heading", "nick = a\n", "1: this stands before the first heading; expected [carton]*" },
  { "heading", "[box]\n", "1: unknown heading “box”; expected [carton], [material]*" },
  { "heading-open", "[carton\n",
    "1: the heading does not end; expected a line such as “[carton]”*" },
  { "heading-nothing", "[]\n", "1: unknown heading “”; expected*" },
  { "nonsense", "[carton]\nnick a\n", "2: “nick a” does not read; expected “key = value”*" },
  { "no-nick", "[carton]\nname = A\n", "1: this carton has no “nick”; expected up to 64*" },
  { "no-name", "\n[carton]\nnick = a\n", "2: this carton has no “name”; expected up to 100*" },
  { "nick", "[carton]\nnick = A b\n", "2: “nick” cannot be “A b”; expected up to 64 small*" },
  { "no-value", "[carton]\nnick =\n", "2: “nick” has no value; expected*" },
  { "key", "[carton]\nnick = a\nwieght = 4 lb\n",
    "3: unknown key “wieght” in [carton]; expected perhaps “weight”" },
  { "key-far", "[carton]\nnick = a\ncolourfulness = 4\n",
    "3: unknown key “colourfulness” in [carton]; expected a key of the catalogue format" },
  { "key-elsewhere", "[article]\nnick = a\ninside = 1 x 1 x 1 in ; x\n",
    "3: “inside” does not belong in [article]; expected a key of that heading" },
  { "twice", "[carton]\nnick = a\nnick = b\n",
    "3: “nick” stands here a second time; expected it once, and it is on line 2 already" },
  { "weight-unit", "[carton]\nnick = a\nweight = 40 ; x\n", "3: “weight” does not read: *" },
  { "weight-zero", "[carton]\nnick = a\nweight = 0 lb ; x\n",
    "3: “weight” cannot be “0 lb”; expected a weight with its unit*" },
  { "weight-huge", "[carton]\nnick = a\nweight = 99999999999 lb ; x\n", "3: “weight”*" },
  { "volume", "[carton]\nnick = a\nvolume = -3 cuft ; x\n", "3: “volume” does not read: *" },
  { "inside", "[carton]\nnick = a\ninside = 18 x 18 in ; x\n",
    "3: “inside” cannot be “18 x 18 in”; expected length, width and height*" },
  { "inside-unit", "[carton]\nnick = a\ninside = 18 x 18 x 28 ; x\n", "3: “inside” cannot be*" },
  { "inside-zero", "[carton]\nnick = a\ninside = 0 x 18 x 28 in ; x\n", "3: “inside” cannot be*" },
  { "inside-huge", "[carton]\nnick = a\ninside = 9999999999999999999 x 1 x 1 in ; x\n",
    "3: “inside” cannot be*" },
  { "no-source", "[carton]\nnick = a\nweight = 40 lb\n",
    "3: “weight” has no source; expected “; ” and where the value comes from, such as “; from "
    "memory”" },
  { "empty-source", "[carton]\nnick = a\nweight = 40 lb ;\n",
    "3: nothing stands after the semicolon; expected where the value comes from" },
  { "no-rule", "[check]\nnick = a\nname = A\ncartons = all\n", "1: this check has no “rule”*" },
  { "rule-source", "[check]\nnick = a\nrule = Look.\n", "3: “rule” has no source*" },
  { "cartons", "[check]\nnick = a\ncartons = dish,, small\n", "3: “cartons” cannot be*" },
  { "life", "[depreciation]\nnick = a\nlife = 10 ; x\n",
    "3: “life” cannot be “10”; expected a number of years, such as “10 years”" },
  { "life-half", "[depreciation]\nnick = a\nlife = 1.5 years ; x\n", "3: “life” cannot be*" },
  { "life-zero", "[depreciation]\nnick = a\nlife = 0 years ; x\n", "3: “life” cannot be*" },
  { "life-alone", "[depreciation]\nnick = a\nname = A\nlife = 3 years ; x\nleast = 5 % ; x\n",
    "4: “life” has no effect here, because no percentage is worked out from it; expected “yearly” "
    "with it" },
  { "yearly-sign", "[depreciation]\nnick = a\nyearly = 7 ; x\n",
    "3: “yearly” does not read: “7” has no percent sign at its end; expected a percentage above 0, "
    "as printed, such as “7 %”" },
  { "yearly-zero", "[depreciation]\nnick = a\nyearly = 0 % ; x\n",
    "3: “yearly” cannot be “0 %”; expected a percentage above 0*" },
  { "flat-large", "[depreciation]\nnick = a\nflat = 100.01 % ; x\n",
    "3: “flat” does not read: “100.01 %” is more than the whole; expected*" },
  { "least-source", "[depreciation]\nnick = a\nleast = 10 %\n", "3: “least” has no source*" },
  { "yearly-and-flat",
    "[depreciation]\nnick = a\nname = A\nyearly = 7 % ; x\nflat = 40 % ; x\n",
    "4: “yearly” has no effect beside “flat”, which comes off whatever the age; expected one of "
    "them" },
  { "says-nothing", "[depreciation]\nnick = a\nname = A\n",
    "1: this depreciation says nothing; expected “yearly”, “flat” or “least”, or “rule” when its "
    "table has no percentage" },
  { "rate-elsewhere", "[article]\nnick = a\nyearly = 7 % ; x\n",
    "3: “yearly” does not belong in [article]; expected a key of that heading" },
  { "dropped", "[carton]\nnick = a\ndropped = no\n", "3: “dropped” cannot be “no”; expected yes" },
  { "control", "[carton]\nnick = \x01\n", "2: a control character (number 1)*" },
  { "utf-8", "[carton]\nnick = \xff\n", "2: this line is not UTF-8*" },
  { "same-nick", "[carton]\nnick = a\nname = A\n[material]\nnick = a\nname = B ; x\n",
    "4: “a” is what the entry of own.catalog, line 1, is called already*" },
  { "same-nick-of-a-kind", "[carton]\nnick = a\nname = A\n[carton]\nnick = a\nname = B\n",
    "4: “a” is what the entry of own.catalog, line 1, is called already*" },
  { "same-name", "[article]\nnick = a\nname = X-y\n[article]\nnick = b\nname = B\nalso = x Y\n",
    "4: “x Y” is what the entry of own.catalog, line 1, is called already*" },
};

static void
test_mistake (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (WbCatalog) catalog = wb_catalog_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *pattern = g_strconcat (FILE_NAME ":", mistakes[i].message, NULL);

  g_assert_false (add (catalog, mistakes[i].text, TRUE, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CATALOG);
  if (!g_pattern_match_simple (pattern, error->message))
    g_assert_cmpstr (error->message, ==, pattern);
  for (guint kind = 0; kind < WB_N_CATALOG_KINDS; kind++)
    g_assert_cmpuint (wb_catalog_count (catalog, (WbCatalogKind) kind), ==, 0);
}

/* --- files that mean harm --------------------------------------------------------------------- */

static void
test_too_much (void)
{
  g_autoptr (WbCatalog) catalog = wb_catalog_new ();
  g_autofree char *large = g_strnfill (1024 * 1024 + 1, '#');
  g_autofree char *line = g_strnfill (1024 * 1024, 'x');
  g_autoptr (GString) many = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  g_assert_false (add (catalog, large, TRUE, &error));
  g_assert_nonnull (strstr (error->message, "expected at most 1048576"));
  g_clear_error (&error);

  g_assert_false (add (catalog, line, TRUE, &error));
  g_assert_cmpuint (strlen (error->message), <, 400);
  g_clear_error (&error);

  for (guint i = 0; i < 2001; i++)
    g_string_append_printf (many, "[carton]\nnick = n%u\nname = N%u\n", i, i);
  g_assert_false (add (catalog, many->str, TRUE, &error));
  g_assert_cmpstr (error->message, ==,
                   FILE_NAME ":6001: the file has too many entries; expected at most 2000");
  g_clear_error (&error);

  g_assert_false (wb_catalog_add (catalog, "[carton]\0", 9, FILE_NAME, TRUE, NULL, &error));
  g_assert_nonnull (strstr (error->message, "zero byte"));
}

static void
mutate (GString *text)
{
  static const char *const pieces[] = { ";", "=", "[", "]", "\n", ",", "x", "all", "[check]\n",
                                        "nick = a\n", "dropped = yes\n", "\x01", "\xff", "€",
                                        "99999999999999999999", "-" };
  gsize at = (gsize) g_test_rand_int_range (0, (gint32) text->len + 1);
  gsize wanted = (gsize) g_test_rand_int_range (0, 60);
  gsize length = MIN (text->len - at, wanted);

  if (g_test_rand_bit ())
    g_string_erase (text, (gssize) at, (gssize) length);
  if (g_test_rand_bit ())
    g_string_insert (text, (gssize) at,
                     pieces[g_test_rand_int_range (0, (gint32) G_N_ELEMENTS (pieces))]);
}

/* A damaged file is taken whole or told of by place, and leaves a catalogue that works. */
static void
test_mutations (void)
{
  for (guint i = 0; i < N_MUTATIONS; i++)
    {
      const char *name = catalog_shipped[i % G_N_ELEMENTS (catalog_shipped)];
      g_autofree char *shipped = catalog_read_shipped (name);
      g_autoptr (GString) text = g_string_new (shipped);
      g_autoptr (WbCatalog) catalog = wb_catalog_new ();
      g_autoptr (GPtrArray) faults = NULL;
      g_autoptr (GError) error = NULL;
      guint n_entries = 0;

      for (int n = g_test_rand_int_range (1, 5); n > 0; n--)
        mutate (text);
      if (wb_catalog_add (catalog, text->str, text->len, name, TRUE, &n_entries, &error))
        g_assert_cmpuint (n_entries, >, 0);
      else
        g_assert_true (g_str_has_prefix (error->message, name));
      faults = wb_catalog_check (catalog);
      wb_catalog_match (catalog, WB_CATALOG_CARTON, "dish pack");
      wb_catalog_match_description (catalog, "Sofa, grey");
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/catalog/shipped", test_shipped);
  g_test_add_func ("/core/catalog/inside", test_inside);
  g_test_add_func ("/core/catalog/format-is-described", test_format_is_described);
  g_test_add_func ("/core/catalog/match", test_match);
  g_test_add_func ("/core/catalog/description", test_description);
  g_test_add_func ("/core/catalog/replace", test_replace);
  g_test_add_func ("/core/catalog/all-or-none", test_all_or_none);
  g_test_add_func ("/core/catalog/unknown-carton", test_unknown_carton);
  g_test_add_func ("/core/catalog/too-much", test_too_much);
  g_test_add_func ("/core/catalog/mutations", test_mutations);
  for (guint i = 0; i < G_N_ELEMENTS (mistakes); i++)
    {
      g_autofree char *path = g_strconcat ("/core/catalog/mistake/", mistakes[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_mistake);
    }
  return g_test_run ();
}
