/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed lists: finding, reading, and that every list of this room is well formed. */
#include "config.h"

#include <string.h>

#include "core/wb-clock.h"
#include "core/wb-core.h"
#include "core/wb-enum.h"
#include "core/wb-reckoning.h"

static const WbEnumValue fruit_values[] = {
  { 0, "none", "No fruit" },
  { 3, "apple", "Apple" },
  { 1, "red-currant", "Red currant" },
  { -2, "fig", "Fig" },
};
static const WbEnum fruits = { "fruit", fruit_values, G_N_ELEMENTS (fruit_values) };

static void
test_find (void)
{
  g_assert_true (wb_enum_find (&fruits, 3) == &fruit_values[1]);
  g_assert_true (wb_enum_find (&fruits, -2) == &fruit_values[3]);
  g_assert_null (wb_enum_find (&fruits, 2));

  g_assert_true (wb_enum_find_nick (&fruits, "red-currant") == &fruit_values[2]);
  g_assert_null (wb_enum_find_nick (&fruits, "Red-Currant"));
  g_assert_null (wb_enum_find_nick (&fruits, "red"));
  g_assert_null (wb_enum_find_nick (&fruits, ""));

  g_assert_cmpstr (wb_enum_nick (&fruits, 0), ==, "none");
  g_assert_cmpstr (wb_enum_nick (&fruits, 1), ==, "red-currant");
}

static void
test_parse (void)
{
  g_autoptr (GError) error = NULL;
  int value = 99;

  g_assert_true (wb_enum_parse (&fruits, "fig", &value, &error));
  g_assert_no_error (error);
  g_assert_cmpint (value, ==, -2);

  g_assert_false (wb_enum_parse (&fruits, "pear\n", &value, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
  g_assert_cmpstr (error->message, ==,
                   "“pear ” is not in the list “fruit”; "
                   "allowed are: none, apple, red-currant, fig");
  g_assert_cmpint (value, ==, -2);
}

static void
test_parse_hostile (void)
{
  g_autofree char *endless = g_strnfill (100000, 'x');
  const char *texts[] = { "", " fig", "fig ", "FIG", "\xff\xfe", "fi\xc3", endless };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      int value = 99;

      g_assert_false (wb_enum_parse (&fruits, texts[i], &value, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_cmpuint (strlen (error->message), <, 400);
      g_assert_cmpint (value, ==, 99);
    }
}

static void
check_row (const WbEnum      *list,
           const WbEnumValue *row)
{
  int value = row->value + 1;
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (row->nick, !=, "");
  /* Only the value for nothing may have nothing to say. */
  g_assert_true (row->label[0] != '\0' || row->value == 0);
  g_assert_cmpuint (strspn (row->nick, G_CSET_A_2_Z G_CSET_a_2_z G_CSET_DIGITS "-"), ==,
                    strlen (row->nick));

  /* Both ways lead back to this row, so values and nicks are unique. */
  g_assert_true (wb_enum_find (list, row->value) == row);
  g_assert_true (wb_enum_find_nick (list, row->nick) == row);
  g_assert_cmpstr (wb_enum_nick (list, row->value), ==, row->nick);
  g_assert_true (wb_enum_parse (list, row->nick, &value, &error));
  g_assert_no_error (error);
  g_assert_cmpint (value, ==, row->value);
}

static void
test_all_lists (void)
{
  const WbEnum *lists[] = {
    &wb_stages, &wb_move_types, &wb_estimate_kinds, &wb_roles, &wb_stop_kinds, &wb_weighing_kinds,
    &wb_forms, &wb_packed_by, &wb_handover_kinds, &wb_founds, &wb_choices, &wb_signed,
    &wb_claim_statuses, &wb_losses, &wb_rulings, &wb_terms_keys, &wb_roundings, &wb_measures,
    &wb_carton_rules, &wb_parts_rules, &wb_demand_rules, &wb_salvage_rules, &wb_freight_rules,
    &wb_late_rules, &wb_below_minimum_rules, &wb_deductible_orders, &wb_extraordinary_weights,
    &wb_rules, &wb_figures, &wb_article_weight_sources, &wb_weight_sources, &wb_late_states,
    &wb_missings, &wb_sides, &wb_clock_kinds,
  };

  for (gsize i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_test_message ("list “%s”", lists[i]->name);
      g_assert_cmpstr (lists[i]->name, !=, "");
      g_assert_cmpuint (lists[i]->n_values, >, 1);
      g_assert_nonnull (wb_enum_find (lists[i], 0));

      for (gsize j = 0; j < lists[i]->n_values; j++)
        check_row (lists[i], &lists[i]->values[j]);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/enum/find", test_find);
  g_test_add_func ("/core/enum/parse", test_parse);
  g_test_add_func ("/core/enum/parse/hostile", test_parse_hostile);
  g_test_add_func ("/core/enum/all-lists", test_all_lists);
  return g_test_run ();
}
