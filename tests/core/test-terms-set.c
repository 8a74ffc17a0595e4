/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The regimes of an office together: what may not stand beside each other, what gives way, and
 * which edition governs an order on the first and last days. */
#include "config.h"

#include "core/wb-core.h"
#include "core/wb-terms.h"

#define assert_date(date, text)                       \
  G_STMT_START {                                      \
    g_autofree char *date_text = wb_date_to_text (&(date)); \
    g_assert_cmpstr (date_text, ==, text);            \
  } G_STMT_END

/* --- sets ------------------------------------------------------------------------------------- */

/* @head: move type and region lines, or ""; @days: editions as "FROM UNTIL" pairs, UNTIL "-" for
 *   none */
static GPtrArray *
make_regime (const char *regime,
             const char *head,
             const char *days)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (GStrv) words = g_strsplit (days, " ", -1);
  g_autofree char *file = g_strconcat (regime, ".terms", NULL);
  g_autoptr (GError) error = NULL;
  GPtrArray *editions;

  g_string_append_printf (text, "regime = %s\ntitle = T\ncurrency = USD\n%s", regime, head);
  for (guint i = 0; words[i] != NULL; i += 2)
    {
      g_string_append_printf (text, "[edition]\nfrom = %s\n", words[i]);
      if (!g_str_equal (words[i + 1], "-"))
        g_string_append_printf (text, "until = %s\n", words[i + 1]);
      g_string_append (text, "[full]\nshipment-minimum = 1.00\n");
    }
  editions = wb_terms_parse (text->str, text->len, file, &error);
  g_assert_no_error (error);
  return editions;
}

static void
add (WbTermsSet *set,
     const char *regime,
     const char *head,
     const char *days,
     gboolean    replace)
{
  g_autoptr (GPtrArray) editions = make_regime (regime, head, days);
  g_autoptr (GError) error = NULL;

  if (!wb_terms_set_add (set, editions, replace, &error))
    g_error ("%s", error->message);
}

static void
assert_not_added (WbTermsSet *set,
                  const char *regime,
                  const char *head,
                  const char *days,
                  gboolean    replace,
                  const char *message)
{
  g_autoptr (GPtrArray) editions = make_regime (regime, head, days);
  g_autoptr (GError) error = NULL;
  guint count = wb_terms_set_count (set);

  g_assert_false (wb_terms_set_add (set, editions, replace, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);
  g_assert_cmpstr (error->message, ==, message);
  g_assert_cmpuint (wb_terms_set_count (set), ==, count);
}

static void
test_set_order (void)
{
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();
  g_autoptr (WbTermsSet) same = NULL;

  add (set, "b", "", "2010-01-01 2010-12-31 2011-01-01 -", FALSE);
  add (set, "a", "", "2012-01-01 -", FALSE);
  same = wb_terms_set_ref (set);

  g_assert_cmpuint (wb_terms_set_count (same), ==, 3);
  g_assert_cmpstr (wb_terms_set_nth (same, 0)->regime, ==, "a");
  g_assert_cmpstr (wb_terms_set_nth (same, 1)->regime, ==, "b");
  assert_date (wb_terms_set_nth (same, 1)->from, "2010-01-01");
  assert_date (wb_terms_set_nth (same, 2)->from, "2011-01-01");
}

static void
test_set_overlap (void)
{
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();

  add (set, "a", "move-type = intrastate\nregion = WA\n", "2010-01-01 2010-12-31 2012-01-01 -",
       FALSE);

  assert_not_added (set, "b", "move-type = intrastate\nregion = wa\n", "2010-12-31 2011-06-30",
                    FALSE,
                    "b.terms:6: for intrastate moves in wa the regime “a” in a.terms:6 governs "
                    "pick-ups from 2010-01-01 until 2010-12-31 already; expected days that do not "
                    "overlap, or no “move-type”");
  assert_not_added (set, "b", "move-type = intrastate\nregion = WA\n", "2011-01-01 2012-01-01",
                    TRUE,
                    "b.terms:6: for intrastate moves in WA the regime “a” in a.terms:11 governs "
                    "pick-ups from 2012-01-01 on already; expected days that do not overlap, or no "
                    "“move-type”");

  /* The gap between two editions is free; so are other regions, other moves, and regimes chosen
   * by name only. */
  add (set, "b", "move-type = intrastate\nregion = WA\n", "2011-01-01 2011-12-31", FALSE);
  add (set, "c", "move-type = intrastate\nregion = OR\n", "2010-01-01 -", FALSE);
  add (set, "d", "move-type = intrastate\n", "2010-01-01 -", FALSE);
  add (set, "e", "move-type = interstate\n", "2010-01-01 -", FALSE);
  add (set, "f", "", "2010-01-01 -", FALSE);
  add (set, "g", "", "2010-01-01 -", FALSE);
  g_assert_cmpuint (wb_terms_set_count (set), ==, 8);
}

static void
test_set_replace (void)
{
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();

  add (set, "a", "move-type = interstate\n", "2010-01-01 2010-12-31 2011-01-01 -", FALSE);
  add (set, "b", "move-type = military\n", "2010-01-01 -", FALSE);

  assert_not_added (set, "a", "move-type = other\n", "2010-01-01 -", FALSE,
                    "a.terms:5: the regime “a” is in a.terms:5 already; expected another “regime”, "
                    "or only one of the two files");
  assert_not_added (set, "a", "move-type = military\n", "2010-01-01 -", TRUE,
                    "a.terms:5: for military moves the regime “b” in b.terms:5 governs pick-ups "
                    "from 2010-01-01 on already; expected days that do not overlap, or no "
                    "“move-type”");

  add (set, "a", "move-type = interstate\n", "2009-06-01 -", TRUE);
  g_assert_cmpuint (wb_terms_set_count (set), ==, 2);
  assert_date (wb_terms_set_nth (set, 0)->from, "2009-06-01");
}

/* --- finding ---------------------------------------------------------------------------------- */

typedef struct
{
  WbMoveType  move_type;
  const char *region;
  const char *terms;
  const char *picked_up_on;
  const char *pickup_from;
  const char *found;         /* "regime from", or NULL */
  const char *message;
} Search;

static const Search searches[] = {
  /* first and last day of editions, and the days beside them */
  { WB_MOVE_INTERSTATE, NULL, NULL, "2010-01-01", NULL, "inter 2010-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, "2010-12-31", NULL, "inter 2010-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, "2011-01-01", NULL, "inter 2011-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, "2199-12-31", NULL, "inter 2011-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, "2009-12-31", NULL, NULL,
    "no terms for interstate moves govern a pick-up on 2009-12-31; there are some from 2010-01-01 "
    "until 2010-12-31, from 2011-01-01 on" },
  { WB_MOVE_INTRASTATE, "WA", NULL, "2015-01-01", NULL, "state 2015-01-01" },
  { WB_MOVE_INTRASTATE, "WA", NULL, "2015-01-02", NULL, NULL,
    "no terms for intrastate moves in WA govern a pick-up on 2015-01-02; there are some from "
    "2015-01-01 until 2015-01-01" },
  /* the actual day goes before the agreed one */
  { WB_MOVE_INTERSTATE, NULL, NULL, "2011-01-01", "2010-12-31", "inter 2011-01-01" },
  { WB_MOVE_INTERSTATE, NULL, NULL, NULL, "2010-12-31", "inter 2010-01-01" },
  /* regions */
  { WB_MOVE_INTERSTATE, "WA", NULL, "2010-06-01", NULL, "inter 2010-01-01" },
  { WB_MOVE_INTRASTATE, "wa", NULL, "2015-01-01", NULL, "state 2015-01-01" },
  { WB_MOVE_INTRASTATE, "OR", NULL, "2015-01-01", NULL, NULL,
    "there are no terms for intrastate moves in OR" },
  { WB_MOVE_INTRASTATE, NULL, NULL, "2015-01-01", NULL, NULL,
    "there are no terms for intrastate moves" },
  { WB_MOVE_MILITARY, NULL, NULL, "2015-01-01", NULL, NULL,
    "there are no terms for military moves" },
  /* an order's own choice goes before its kind of move */
  { WB_MOVE_INTRASTATE, "WA", "named", "2010-06-01", NULL, "named 2010-01-01" },
  { WB_MOVE_NONE, NULL, "named", "2010-06-01", NULL, "named 2010-01-01" },
  { WB_MOVE_INTERSTATE, NULL, "state", "2015-01-01", NULL, "state 2015-01-01" },
  { WB_MOVE_INTERSTATE, NULL, "named", "2009-12-31", NULL, NULL,
    "no terms of the regime “named” govern a pick-up on 2009-12-31; there are some from 2010-01-01 "
    "on" },
  { WB_MOVE_INTERSTATE, NULL, "nowhere", "2010-06-01", NULL, NULL,
    "there are no terms of the regime “nowhere”" },
};

static WbTermsSet *
make_set (void)
{
  WbTermsSet *set = wb_terms_set_new ();

  add (set, "inter", "move-type = interstate\n", "2010-01-01 2010-12-31 2011-01-01 -", FALSE);
  add (set, "state", "move-type = intrastate\nregion = WA\n", "2015-01-01 2015-01-01", FALSE);
  add (set, "named", "", "2010-01-01 -", FALSE);
  return set;
}

static WbOrder *
make_order (const Search *row)
{
  WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");

  order->move_type = row->move_type;
  wb_set_text (&order->region, row->region);
  wb_set_text (&order->terms, row->terms);
  if (row->picked_up_on != NULL)
    g_assert_true (wb_date_parse (row->picked_up_on, &order->picked_up_on, NULL));
  if (row->pickup_from != NULL)
    g_assert_true (wb_date_parse (row->pickup_from, &order->pickup_from, NULL));
  return order;
}

static void
test_find (void)
{
  g_autoptr (WbTermsSet) set = make_set ();

  for (guint i = 0; i < G_N_ELEMENTS (searches); i++)
    {
      const Search *row = &searches[i];
      g_autoptr (WbOrder) order = make_order (row);
      g_autoptr (GError) error = NULL;
      const WbTerms *terms = wb_terms_set_find (set, order, &error);

      if (row->found != NULL)
        {
          g_autofree char *from = NULL;
          g_autofree char *found = NULL;

          g_assert_no_error (error);
          from = wb_date_to_text (&terms->from);
          found = g_strdup_printf ("%s %s", terms->regime, from);
          g_assert_cmpstr (found, ==, row->found);
        }
      else
        {
          g_assert_null (terms);
          g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS);
          g_assert_cmpstr (error->message, ==, row->message);
        }
    }
}

static void
test_find_lacks (void)
{
  static const Search rows[] = {
    { WB_MOVE_NONE, NULL, NULL, "2010-06-01", NULL, NULL,
      "the order has neither a type of move nor a choice of terms" },
    { WB_MOVE_INTERSTATE, NULL, NULL, NULL, NULL, NULL,
      "the order has no day of pick-up, neither actual nor agreed" },
    { WB_MOVE_NONE, NULL, "named", NULL, NULL, NULL,
      "the order has no day of pick-up, neither actual nor agreed" },
  };
  g_autoptr (WbTermsSet) set = make_set ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (WbOrder) order = make_order (&rows[i]);
      g_autoptr (GError) error = NULL;

      g_assert_null (wb_terms_set_find (set, order, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
      g_assert_cmpstr (error->message, ==, rows[i].message);
    }
}

/* Where no regime has the order's region, that of the kind of move and no region governs; but a
 * region's own regime is not left for it because of a date. */
static void
test_find_without_region (void)
{
  static const Search rows[] = {
    { WB_MOVE_INTRASTATE, "OR", NULL, "2014-01-01", NULL, "everywhere 2010-01-01" },
    { WB_MOVE_INTRASTATE, NULL, NULL, "2014-01-01", NULL, "everywhere 2010-01-01" },
    { WB_MOVE_INTRASTATE, "WA", NULL, "2014-01-01", NULL, NULL },
  };
  g_autoptr (WbTermsSet) set = make_set ();

  add (set, "everywhere", "move-type = intrastate\n", "2010-01-01 -", FALSE);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (WbOrder) order = make_order (&rows[i]);
      const WbTerms *terms = wb_terms_set_find (set, order, NULL);

      if (rows[i].found == NULL)
        g_assert_null (terms);
      else
        g_assert_cmpstr (terms->regime, ==, "everywhere");
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/core/terms/set/order", test_set_order);
  g_test_add_func ("/core/terms/set/overlap", test_set_overlap);
  g_test_add_func ("/core/terms/set/replace", test_set_replace);
  g_test_add_func ("/core/terms/find/edition", test_find);
  g_test_add_func ("/core/terms/find/lacks", test_find_lacks);
  g_test_add_func ("/core/terms/find/without-region", test_find_without_region);

  return g_test_run ();
}
