/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Condition marks: the tables, what people write, what is refused and with which words. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-mark.h"

#include "random-values.h"

/* Tables */

/* The published table, written down again so that a slip in one of them shows. */
static const struct
{
  const char *code;
  const char *word;
} published[] = {
  { "BE", "bent" }, { "BR", "broken" }, { "BU", "burned" }, { "CH", "chipped" },
  { "CR", "crushed" }, { "CU", "contents and condition unknown" }, { "D", "dented" },
  { "F", "faded" }, { "G", "gouged" }, { "L", "loose" }, { "M", "marred" },
  { "MCU", "mechanical condition unknown" }, { "MI", "mildew" }, { "MO", "moth-eaten" },
  { "P", "peeling" }, { "R", "rubbed" }, { "RU", "rusted" }, { "S", "stretched" },
  { "SC", "scratched" }, { "SH", "short" }, { "SO", "soiled" }, { "ST", "stained" },
  { "T", "torn" }, { "W", "badly worn" }, { "Z", "cracked" },
};

static void
test_conditions (void)
{
  gsize n;
  const WbMarkCode *codes = wb_mark_conditions (&n);

  g_assert_cmpuint (n, ==, 25);
  g_assert_cmpuint (n, ==, G_N_ELEMENTS (published));
  for (gsize i = 0; i < n; i++)
    {
      g_auto (WbMarks) marks = { 0 };
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_cmpstr (codes[i].code, ==, published[i].code);
      g_assert_cmpstr (codes[i].word, ==, published[i].word);
      g_assert_nonnull (strstr (codes[i].source, "V_D_PPLB_HHGDI_EX_CD"));

      g_assert_true (wb_marks_parse (codes[i].code, &marks, &error));
      g_assert_no_error (error);
      g_assert_cmpuint (marks.n_marks, ==, 1);
      g_assert_cmpuint (marks.marks[0].condition, ==, i);
      text = wb_marks_to_text (&marks);
      g_assert_cmpstr (text, ==, codes[i].code);
    }
}

static void
test_places (void)
{
  static const char *const words[] = {
    "arm", "bottom", "corner", "front", "left", "leg", "rear", "right", "side", "top", "veneer",
    "edge", "center", "inside", "seat", "drawer", "door", "shelf", "hardware",
  };
  gsize n;
  const WbMarkCode *codes = wb_mark_places (&n);

  g_assert_cmpuint (n, ==, G_N_ELEMENTS (words));
  for (gsize i = 0; i < n; i++)
    {
      g_auto (WbMarks) marks = { 0 };
      g_autofree char *number = g_strdup_printf ("%" G_GSIZE_FORMAT, i + 1);
      g_autofree char *expected = g_strdup_printf ("SC %s", number);
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_cmpstr (codes[i].code, ==, number);
      g_assert_cmpstr (codes[i].word, ==, words[i]);
      g_assert_cmpstr (codes[i].source, ==, i < 4 ? "trade glossary" : "from memory");

      g_assert_true (wb_marks_parse (expected, &marks, &error));
      g_assert_no_error (error);
      g_assert_cmpuint (marks.marks[0].n_places, ==, 1);
      g_assert_cmpuint (marks.marks[0].places[0], ==, i + 1);
      text = wb_marks_to_text (&marks);
      g_assert_cmpstr (text, ==, expected);
    }
}

/* Reading */

static void
test_parse_cases (void)
{
  static const struct
  {
    const char *text;
    const char *canonical;
  } cases[] = {
    /* nothing */
    { "", "" },
    { "  \t ", "" },
    { "\n\n", "" },
    /* as printed inventories have it */
    { "SC 4-8, CH 3 10; MCU", "SC 4-8, CH 3-10, MCU" },
    { "BR-M-SC 2/7", "BR, M, SC 2-7" },
    { "SC-CH-M", "SC, CH, M" },
    { "SC 4-8 CH 3-10", "SC 4-8, CH 3-10" },
    { "SC-4-8-CH-3", "SC 4-8, CH 3" },
    { "SC/4/8", "SC 4-8" },
    /* glued */
    { "sc4 8", "SC 4-8" },
    { "sc4,8ch3", "SC 4-8, CH 3" },
    { "SC4-8CH3MCU", "SC 4-8, CH 3, MCU" },
    { "Sc10", "SC 10" },
    /* joined in other ways */
    { "SC 4+8", "SC 4-8" },
    { "SC 4 & 8", "SC 4-8" },
    { "sc 4 and 8 and ch 3", "SC 4-8, CH 3" },
    { "SC & CH 4", "SC, CH 4" },
    { "SC 4, 8, 10", "SC 4-8-10" },
    { "SC4.8", "SC 4-8" },
    { "SC: 4, 8. CH: 3.", "SC 4-8, CH 3" },
    { "SC 4–8 — CH 3", "SC 4-8, CH 3" },
    { "SC 4−8", "SC 4-8" },
    { "SC\xc2\xa0""4", "SC 4" },
    { ", SC ,, 4 ,", "SC 4" },
    { "- SC 4", "SC 4" },
    /* parentheses */
    { "SC(4,8)", "SC 4-8" },
    { "SC (4-8), CH (3)", "SC 4-8, CH 3" },
    { "(SC 4) (CH 3)", "SC 4, CH 3" },
    { "SC ((4) 8)", "SC 4-8" },
    { "SC ()", "SC" },
    /* lines */
    { "SC 4\nCH 3", "SC 4, CH 3" },
    { "SC 4\r\nCH 3\r\n", "SC 4, CH 3" },
    { "SC 4;CH 3;", "SC 4, CH 3" },
    /* the order as written, repeats once */
    { "SC 8 4", "SC 8-4" },
    { "Z T BE", "Z, T, BE" },
    { "SC 4, CH 3, SC 8", "SC 4-8, CH 3" },
    { "SC 4 4 8 4", "SC 4-8" },
    { "SC; CH; SC 4", "SC 4, CH" },
    { "MCU MCU", "MCU" },
    { "SC 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19",
      "SC 1-2-3-4-5-6-7-8-9-10-11-12-13-14-15-16-17-18-19" },
    /* letters that could be taken for others */
    { "M CU", "M, CU" },
    { "mcu", "MCU" },
    { "M-CU", "M, CU" },
    { "S ST SO", "S, ST, SO" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (WbMarks) marks = { 0 };
      g_auto (WbMarks) again = { 0 };
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;
      g_autofree char *second = NULL;

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_true (wb_marks_parse (cases[i].text, &marks, &error));
      g_assert_no_error (error);
      text = wb_marks_to_text (&marks);
      g_assert_cmpstr (text, ==, cases[i].canonical);

      g_assert_true (wb_marks_parse (text, &again, &error));
      g_assert_no_error (error);
      second = wb_marks_to_text (&again);
      g_assert_cmpstr (second, ==, text);
    }
}

static void
test_parse_values (void)
{
  g_auto (WbMarks) marks = { 0 };
  g_autoptr (GError) error = NULL;
  gsize n;
  const WbMarkCode *codes = wb_mark_conditions (&n);

  g_assert_true (wb_marks_parse ("CH 10/3, MCU", &marks, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (marks.n_marks, ==, 2);
  g_assert_cmpstr (codes[marks.marks[0].condition].code, ==, "CH");
  g_assert_cmpuint (marks.marks[0].n_places, ==, 2);
  g_assert_cmpuint (marks.marks[0].places[0], ==, 10);
  g_assert_cmpuint (marks.marks[0].places[1], ==, 3);
  g_assert_cmpstr (codes[marks.marks[1].condition].code, ==, "MCU");
  g_assert_cmpuint (marks.marks[1].n_places, ==, 0);

  wb_marks_clear (&marks);
  g_assert_null (marks.marks);
  g_assert_cmpuint (marks.n_marks, ==, 0);
  wb_marks_clear (&marks);
}

static void
test_parse_errors (void)
{
  static const struct
  {
    const char *text;
    const char *message;
  } cases[] = {
    /* unknown conditions, with what may have been meant */
    { "SC 4, STO 3", "At character 7, “STO” is not a condition code; ST is stained" },
    { "SC 4, XQ 3", "At character 7, “XQ” is not a condition code" },
    { "scratch 4", "At character 1, “scratch” is not a condition code; scratched is SC" },
    { "cracks", "At character 1, “cracks” is not a condition code; cracked is Z" },
    { "WORN", "At character 1, “WORN” is not a condition code; badly worn is W" },
    { "SC top", "At character 4, “top” is not a condition code; top is place 10" },
    { "SCM 4", "At character 1, “SCM” is not a condition code; "
               "if several are meant, write them apart, as in “SC-M”" },
    { "S C", "At character 3, “C” is not a condition code" },
    { "N/A", "At character 1, “N” is not a condition code" },
    { "4 × SC", "At character 1, the place “4” has no condition before it; "
                "write that first, as in “SC 4”" },
    { "SÇ 4", "At character 1, “SÇ” is not a condition code; S is stretched" },
    { "– é", "At character 3, “é” is not a condition code" },
    /* unknown places */
    { "SC 0", "At character 4, “0” is not a place; "
              "places are 1 to 19, with a separator between two" },
    { "SC 20", "At character 4, “20” is not a place; "
               "places are 1 to 19, with a separator between two" },
    { "SC48", "At character 3, “48” is not a place; "
              "places are 1 to 19, with a separator between two" },
    { "SC 04", "At character 4, “04” is not a place; write it without the 0 before it" },
    { "SC 0010", "At character 4, “0010” is not a place; write it without the 0 before it" },
    { "SC 00", "At character 4, “00” is not a place; "
               "places are 1 to 19, with a separator between two" },
    { "SC 4294967300", "At character 4, “4294967300” is not a place; "
                       "places are 1 to 19, with a separator between two" },
    /* places without a condition */
    { "4", "At character 1, the place “4” has no condition before it; "
           "write that first, as in “SC 4”" },
    { "4SC", "At character 1, the place “4” has no condition before it; "
             "write that first, as in “SC 4”" },
    { "SC 4; 8", "At character 7, the place “8” has no condition before it; "
                 "write that first, as in “SC 8”" },
    { "SC\n8", "At character 4, the place “8” has no condition before it; "
               "write that first, as in “SC 8”" },
    { "SC 4\xe2\x80\xa8""8", "At character 6, the place “8” has no condition before it; "
                             "write that first, as in “SC 8”" },
    /* other characters */
    { "SC * 4", "At character 4, “*” does not belong between condition codes and places" },
    { "SC #4", "At character 4, “#” does not belong between condition codes and places" },
    { "SC 4?", "At character 5, “?” does not belong between condition codes and places" },
    { "SC ٤", "At character 4, “٤” does not belong between condition codes and places" },
    { "SC\x01""4", "At character 3, “ ” does not belong between condition codes and places" },
    { "SC 4\xff", "At character 5, this is not a letter, a digit or a separator" },
    { "é\xc3", "At character 2, this is not a letter, a digit or a separator" },
    /* parentheses */
    { "SC (4, 8", "At character 4, a parenthesis is opened that is not closed" },
    { "SC (4) (8", "At character 8, a parenthesis is opened that is not closed" },
    { "SC ((4) 8", "At character 4, a parenthesis is opened that is not closed" },
    { "SC 4)", "At character 5, a parenthesis is closed that was not opened" },
    { ")SC 4(", "At character 1, a parenthesis is closed that was not opened" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      WbMark mark = { 0 };
      WbMarks marks = { &mark, 42 };
      g_autoptr (GError) error = NULL;

      g_test_message ("row %" G_GSIZE_FORMAT, i);
      g_assert_false (wb_marks_parse (cases[i].text, &marks, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
      g_assert_cmpstr (error->message, ==, cases[i].message);
      g_assert_true (marks.marks == &mark);
      g_assert_cmpuint (marks.n_marks, ==, 42);
    }
}

/* A message stays short whatever is thrown in. */
static void
test_parse_endless (void)
{
  g_autofree char *letters = g_strnfill (100000, 'M');
  g_autofree char *digits = g_strnfill (100000, '1');
  g_autofree char *open = g_strnfill (100000, '(');
  const char *texts[] = { letters, digits, open };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_auto (WbMarks) marks = { 0 };
      g_autoptr (GError) error = NULL;

      g_assert_false (wb_marks_parse (texts[i], &marks, &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
      g_assert_cmpuint (strlen (error->message), <, 400);
    }
}

/* Random marks */

static gboolean
marks_equal (const WbMarks *a,
             const WbMarks *b)
{
  if (a->n_marks != b->n_marks)
    return FALSE;

  for (gsize i = 0; i < a->n_marks; i++)
    {
      const WbMark *first = &a->marks[i], *second = &b->marks[i];

      if (first->condition != second->condition || first->n_places != second->n_places
          || memcmp (first->places, second->places, first->n_places) != 0)
        return FALSE;
    }

  return TRUE;
}

/* Puts 0 … @n - 1 in a random order. */
static void
shuffle (guint *numbers,
         guint  n)
{
  for (guint i = 0; i < n; i++)
    {
      guint j = (guint) g_test_rand_int_range (0, (gint) i + 1);

      numbers[i] = numbers[j];
      numbers[j] = i;
    }
}

static void
make_random_marks (WbMarks *marks)
{
  guint conditions[25], places[19];

  shuffle (conditions, G_N_ELEMENTS (conditions));
  marks->n_marks = (gsize) g_test_rand_int_range (0, 26);
  marks->marks = g_new0 (WbMark, marks->n_marks);

  for (gsize i = 0; i < marks->n_marks; i++)
    {
      WbMark *mark = &marks->marks[i];

      shuffle (places, G_N_ELEMENTS (places));
      mark->condition = conditions[i];
      mark->n_places = (guint) (g_test_rand_int_range (0, 2) * g_test_rand_int_range (0, 20));
      for (guint j = 0; j < mark->n_places; j++)
        mark->places[j] = (guint8) (places[j] + 1);
    }
}

/* The same marks in another hand: case, separators, glue. */
static char *
write_by_hand (const WbMarks *marks)
{
  static const char *const joints[] = { "-", " ", ",", "/", "+", " & ", ", ", " - ", " and ", "–" };
  static const char *const ends[] = { ",", " ", ";", "\n", "-", "; ", "/", "\r\n", " & " };
  gsize n;
  const WbMarkCode *codes = wb_mark_conditions (&n);
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < marks->n_marks; i++)
    {
      const WbMark *mark = &marks->marks[i];
      const char *code = codes[mark->condition].code;
      g_autofree char *lower = g_ascii_strdown (code, -1);
      gboolean enclosed = g_test_rand_int_range (0, 4) == 0;

      g_string_append (text, g_test_rand_int_range (0, 2) == 0 ? code : lower);
      if (enclosed)
        g_string_append_c (text, '(');
      for (guint j = 0; j < mark->n_places; j++)
        {
          if (j > 0 || g_test_rand_int_range (0, 2) == 0)
            g_string_append (text, joints[g_test_rand_int_range (0, G_N_ELEMENTS (joints))]);
          g_string_append_printf (text, "%u", mark->places[j]);
        }
      if (enclosed)
        g_string_append_c (text, ')');
      g_string_append (text, ends[g_test_rand_int_range (0, G_N_ELEMENTS (ends))]);
    }

  return g_string_free (text, FALSE);
}

static void
test_random (void)
{
  random_begin ();
  for (guint i = 0; i < 3000; i++)
    {
      g_auto (WbMarks) marks = { 0 };
      g_auto (WbMarks) read = { 0 };
      g_auto (WbMarks) deciphered = { 0 };
      g_autofree char *text = NULL;
      g_autofree char *hand = NULL;
      g_autoptr (GError) error = NULL;

      make_random_marks (&marks);
      text = wb_marks_to_text (&marks);
      g_assert_true (wb_marks_parse (text, &read, &error));
      g_assert_no_error (error);
      g_assert_true (marks_equal (&marks, &read));

      hand = write_by_hand (&marks);
      g_assert_true (wb_marks_parse (hand, &deciphered, &error));
      g_assert_no_error (error);
      g_assert_true (marks_equal (&marks, &deciphered));
    }
}

/* Whatever is read is written so that it reads the same; whatever is refused has a reason. */
static void
test_hostile (void)
{
  static const char *const pieces[] = {
    "SC", "ch", "MCU", "M", "s", "Z", "X", "STO", "top", "and", "AND", "é", "1", "4", "10", "19",
    "20", "04", "0", " ", ",", "-", ";", "\n", "/", "(", ")", "&", ".", ":", "–", "*", "%n", "\xff",
    "\xe2\x80", "\t", NULL
  };
  guint read = 0;

  random_begin ();
  for (guint i = 0; i < 20000; i++)
    {
      g_autofree char *text = random_text (pieces, 5);
      g_auto (WbMarks) marks = { 0 };
      g_auto (WbMarks) again = { 0 };
      g_autoptr (GError) error = NULL;

      if (wb_marks_parse (text, &marks, &error))
        {
          g_autofree char *canonical = wb_marks_to_text (&marks);

          g_assert_no_error (error);
          g_assert_true (wb_marks_parse (canonical, &again, NULL));
          g_assert_true (marks_equal (&marks, &again));
          read++;
        }
      else
        {
          g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
          g_assert_true (g_str_has_prefix (error->message, "At character "));
          g_assert_true (g_utf8_validate (error->message, -1, NULL));
          g_assert_null (marks.marks);
        }
    }

  g_assert_cmpuint (read, >, 1000);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/mark/conditions", test_conditions);
  g_test_add_func ("/core/mark/places", test_places);
  g_test_add_func ("/core/mark/parse/cases", test_parse_cases);
  g_test_add_func ("/core/mark/parse/values", test_parse_values);
  g_test_add_func ("/core/mark/parse/errors", test_parse_errors);
  g_test_add_func ("/core/mark/parse/endless", test_parse_endless);
  g_test_add_func ("/core/mark/random", test_random);
  g_test_add_func ("/core/mark/hostile", test_hostile);
  return g_test_run ();
}
