/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-text-table.h"

static void
test_columns (void)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("lrl");
  g_autoptr (GString) out = g_string_new (NULL);

  wb_text_table_add_row (table, "Line", "Owed", "Item");
  wb_text_table_add_row (table, "1", "$1,200.00", "Tisch\nlang");
  wb_text_table_add_note (table, 2, "two words");
  wb_text_table_add_row (table, "日本", "–", "");
  wb_text_table_append (table, 1, out);

  g_assert_cmpuint (wb_text_table_n_rows (table), ==, 3);
  g_assert_cmpstr (out->str, ==,
                   " Line       Owed  Item\n"
                   " 1     $1,200.00  Tisch lang\n"
                   "   two words\n"
                   " 日本          –\n");
}

static void
test_width (void)
{
  g_assert_cmpuint (wb_text_width (""), ==, 0);
  g_assert_cmpuint (wb_text_width ("abc"), ==, 3);
  g_assert_cmpuint (wb_text_width ("é–“"), ==, 3);
  g_assert_cmpuint (wb_text_width ("e\u0301"), ==, 1);
  g_assert_cmpuint (wb_text_width ("日本"), ==, 4);
}

/* Words keep their order, no line is too wide that could be broken, and no line ends in a space. */
static void
test_paragraph (void)
{
  for (guint run = 0; run < 200; run++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      g_autoptr (GString) out = g_string_new (NULL);
      g_auto (GStrv) lines = NULL;
      g_autofree char *joined = NULL;
      guint indent = (guint) g_test_rand_int_range (0, 10);

      for (gint n = g_test_rand_int_range (1, 60); n > 0; n--)
        {
          g_autofree char *word = g_strnfill ((gsize) g_test_rand_int_range (1, 14), 'x');

          g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", word);
        }
      wb_text_append_paragraph (out, indent, 4, text->str);

      g_assert_true (g_str_has_suffix (out->str, "\n"));
      g_string_truncate (out, out->len - 1);
      lines = g_strsplit (out->str, "\n", -1);
      for (guint i = 0; lines[i] != NULL; i++)
        {
          g_assert_cmpuint (wb_text_width (lines[i]), <=, WB_TEXT_WIDTH);
          g_assert_false (g_str_has_suffix (lines[i], " "));
          g_strstrip (lines[i]);
        }
      joined = g_strjoinv (" ", lines);
      g_assert_cmpstr (joined, ==, text->str);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/text-table/columns", test_columns);
  g_test_add_func ("/office/text-table/width", test_width);
  g_test_add_func ("/office/text-table/paragraph", test_paragraph);
  return g_test_run ();
}
