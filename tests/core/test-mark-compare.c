/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-mark-compare.h"

#include "random-values.h"

static const struct
{
  const char *known;
  const char *noted;
  const char *fresh;
} cases[] = {
  { "", "", "" },
  { "", "SC 4-8", "SC 4-8" },
  { "SC 4", "SC 4", "" },
  { "SC 4", "SC 4-8", "SC 8" },
  { "SC 4", "CH 4", "CH 4" },
  { "SC 4", "SC 8, CH 4", "SC 8, CH 4" },
  { "SC", "SC 4", "" },
  { "SC 4", "SC", "" },
  { "MCU", "MCU", "" },
  { "SC 4-8, CH 3", "CH 3-10, SC 8, BR", "CH 10, BR" },
};

static void
test_cases (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (WbMarks) known = wb_marks_from_text (cases[i].known);
      g_auto (WbMarks) noted = wb_marks_from_text (cases[i].noted);
      g_auto (WbMarks) fresh = { NULL, 0 };
      g_autofree char *text = NULL;

      wb_marks_find_new (&noted, &known, &fresh);
      text = wb_marks_to_text (&fresh);
      g_assert_cmpstr (text, ==, cases[i].fresh);
    }
}

static void
test_add (void)
{
  g_auto (WbMarks) marks = wb_marks_from_text ("SC 4, CH");
  g_auto (WbMarks) more = wb_marks_from_text ("BR 3; SC 8-4; CH 1");
  g_autofree char *text = NULL;

  wb_marks_add (&marks, &more);
  text = wb_marks_to_text (&marks);
  g_assert_cmpstr (text, ==, "SC 4-8, CH 1, BR 3");
}

static void
test_unreadable (void)
{
  g_auto (WbMarks) none = wb_marks_from_text (NULL);
  g_auto (WbMarks) rubbish = wb_marks_from_text ("XX 99");

  g_assert_true (wb_marks_is_empty (&none));
  g_assert_true (wb_marks_is_empty (&rubbish));
}

/* What was noted is never new a second time, and nothing new is lost. */
static void
test_property (void)
{
  static const char *const pieces[] = { "SC ", "CH ", "BR ", "MCU ", "1 ", "4 ", "8 ", NULL };

  random_begin ();
  for (guint round = 0; round < 2000; round++)
    {
      g_autofree char *tail = random_text (pieces, 8);
      g_autofree char *other = random_text (pieces, 8);
      g_autofree char *text_a = g_strconcat ("D ", tail, NULL);
      g_autofree char *text_b = g_strconcat ("D ", other, NULL);
      g_auto (WbMarks) a = wb_marks_from_text (text_a);
      g_auto (WbMarks) b = wb_marks_from_text (text_b);
      g_auto (WbMarks) fresh = { NULL, 0 };
      g_auto (WbMarks) again = { NULL, 0 };

      wb_marks_find_new (&b, &a, &fresh);
      wb_marks_add (&a, &fresh);
      wb_marks_find_new (&b, &a, &again);
      g_assert_true (wb_marks_is_empty (&again));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/mark-compare/cases", test_cases);
  g_test_add_func ("/core/mark-compare/add", test_add);
  g_test_add_func ("/core/mark-compare/unreadable", test_unreadable);
  g_test_add_func ("/core/mark-compare/property", test_property);
  return g_test_run ();
}
