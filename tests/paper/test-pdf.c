/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Documents as PDF, looked at by other programs: what is on which page, whether heads are said
 * again, that the same content gives the same bytes, and what happens when nobody takes them. */
#include "paper/wb-pdf.h"

#include "pdf-reader.h"

#include <string.h>

static GBytes *
print (const WbDocument *document)
{
  g_autoptr (GError) error = NULL;
  GBytes *pdf = wb_pdf_to_bytes (document, WB_PAGE_LETTER, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (pdf);
  return pdf;
}

static WbDocument *
make_list (guint n_rows)
{
  WbDocument *document = wb_document_new ("Inventory", "J-2026-0001");
  WbBlock *table;

  wb_document_set_author (document, "Harbour & Hill Movers");
  wb_document_add_field (document, "Shipper", "Ada Brook");
  wb_document_add_field (document, "From", "Dayton, OH");
  wb_document_add_field (document, "To", "Portland, OR");
  wb_document_add_heading (document, 1, "Pieces");
  table = wb_document_add_table (document, "rllrr", "Tag", "What it is", "Room", "Weight", "Value");
  for (guint i = 1; i <= n_rows; i++)
    {
      g_autofree char *tag = g_strdup_printf ("T%05u", i);
      g_autofree char *what = g_strdup_printf ("Carton %u%s", i, i % 7 == 0
                                               ? " with a long list of contents: plates, cups, two "
                                                 "lamps, a clock, books and the rest of the shelf"
                                               : "");

      wb_table_add_row (table, tag, what, "Kitchen", "62 lb", "$1,234.56");
    }
  wb_table_add_total (table, "", "Together", "", "31,000 lb", "$617,280.00");
  return document;
}

static void
test_long_table (void)
{
  g_autoptr (WbDocument) document = make_list (500);
  g_autoptr (GBytes) pdf = print (document);
  g_autofree char *text = pdf_text (pdf);
  g_auto (GStrv) pages = g_strsplit (text, "\f", -1);
  guint n = pdf_n_pages (pdf);
  g_autofree char *last = g_strdup_printf ("Page %u of %u", n, n);

  pdf_check (pdf);
  pdf_show (pdf, "list", 2);
  g_assert_cmpuint (n, >, 5);
  g_assert_cmpuint (g_strv_length (pages), ==, n + 1);
  for (guint i = 1; i <= 500; i++)
    {
      g_autofree char *tag = g_strdup_printf ("T%05u", i);

      g_assert_cmpuint (pdf_count (text, tag), ==, 1);
    }
  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpuint (pdf_count (pages[i], "What it is"), ==, 1);
      g_assert_nonnull (strstr (pages[i], "J-2026-0001 · Inventory"));
    }
  g_assert_nonnull (strstr (pages[n - 1], last));
  g_assert_cmpuint (pdf_count (text, "$617,280.00"), ==, 1);
}

static void
test_empty (void)
{
  g_autoptr (WbDocument) document = wb_document_new ("Nothing", NULL);
  g_autoptr (GBytes) pdf = NULL;
  g_autofree char *text = NULL;
  WbBlock *table = wb_document_add_table (document, "lr", NULL);

  g_assert_cmpuint (wb_table_n_rows (table), ==, 0);
  wb_document_add_text (document, WB_BLOCK_PARAGRAPH, "");
  wb_document_add_field (document, "Label", NULL);
  pdf = print (document);
  text = pdf_text (pdf);
  pdf_check (pdf);
  g_assert_cmpuint (pdf_n_pages (pdf), ==, 1);
  g_assert_cmpuint (pdf_count (text, "Nothing"), ==, 2);
  g_assert_nonnull (strstr (text, "Page 1 of 1"));
  g_assert_null (strstr (text, "Label"));
}

static void
test_same_bytes (void)
{
  g_autoptr (WbDocument) first = make_list (40);
  g_autoptr (WbDocument) second = make_list (40);
  g_autoptr (WbDocument) other = make_list (40);
  g_autoptr (GBytes) a = NULL;
  g_autoptr (GBytes) b = NULL;
  g_autoptr (GBytes) c = NULL;
  g_autofree char *info = NULL;
  GDate day;

  g_date_clear (&day, 1);
  g_date_set_dmy (&day, 4, G_DATE_MARCH, 2026);
  wb_document_add_day (first, &day);
  wb_document_add_day (second, &day);
  g_date_subtract_days (&day, 1);
  wb_document_add_day (first, &day);
  wb_document_add_day (other, &day);
  a = print (first);
  g_usleep (1100 * 1000);
  b = print (second);
  c = print (other);
  g_assert_true (g_bytes_equal (a, b));
  g_assert_false (g_bytes_equal (a, c));

  info = pdf_read_with (a, "TZ=UTC pdfinfo -isodates %s");
  g_assert_nonnull (strstr (info, "CreationDate:    2026-03-04T00:00:00Z"));
  g_assert_nonnull (strstr (info, "Title:           Inventory\n"));
  g_assert_nonnull (strstr (info, "Author:          Harbour & Hill Movers\n"));
  g_assert_nonnull (strstr (info, "Page size:       612 x 792 pts (letter)"));
}

static void
test_a4 (void)
{
  g_autoptr (WbDocument) document = make_list (3);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) pdf = wb_pdf_to_bytes (document, WB_PAGE_A4, NULL, NULL, &error);
  g_autofree char *info = NULL;

  g_assert_no_error (error);
  info = pdf_read_with (pdf, "pdfinfo %s");
  g_assert_nonnull (strstr (info, "(A4)"));
}

/* A row and a word that are longer than a page, names from everywhere, and a line that runs from
 * right to left. */
static void
test_odd_texts (void)
{
  g_autoptr (WbDocument) document = wb_document_new ("Names", "J-2026-0002");
  g_autoptr (GString) words = g_string_new (NULL);
  g_autoptr (GString) endless = g_string_new ("START");
  g_autoptr (GBytes) pdf = NULL;
  g_autofree char *text = NULL;
  WbBlock *table = wb_document_add_table (document, "lll", "Name", "Notes", "End");

  for (guint i = 0; i < 4000; i++)
    g_string_append_printf (words, "w%u ", i);
  for (guint i = 0; i < 400; i++)
    g_string_append (endless, "abcdefghij");
  wb_table_add_row (table, "Łukasz Ørsted-Ñandú", words->str, "END1");
  wb_table_add_row (table, "שלום עולם", endless->str, "END2");
  wb_table_add_row (table, "Ελένη Ξένου\nЖанна Щукина", "tab\there", "END3");
  pdf = print (document);
  text = pdf_text (pdf);
  pdf_check (pdf);
  pdf_show (pdf, "names", 3);
  g_assert_nonnull (strstr (text, "Ørsted"));
  g_assert_nonnull (strstr (text, "Ελένη"));
  g_assert_nonnull (strstr (text, "Щукина"));
  g_assert_cmpuint (pdf_count (text, "END1"), ==, 1);
  g_assert_cmpuint (pdf_count (text, "END2"), ==, 1);
  g_assert_cmpuint (pdf_count (text, "END3"), ==, 1);
  for (guint i = 0; i < 4000; i++)
    {
      g_autofree char *word = g_strdup_printf ("w%u ", i);
      g_autofree char *at_end = g_strdup_printf ("w%u\n", i);

      g_assert_cmpuint (pdf_count (text, word) + pdf_count (text, at_end), ==, 1);
    }
}

/* A heading is not left alone at the foot of a page. */
static void
test_headings_keep (void)
{
  for (guint n = 40; n < 60; n++)
    {
      g_autoptr (WbDocument) document = wb_document_new ("Keep", NULL);
      g_autoptr (GBytes) pdf = NULL;
      g_autofree char *text = NULL;
      g_auto (GStrv) pages = NULL;

      for (guint i = 0; i < n; i++)
        wb_document_add_text (document, WB_BLOCK_PARAGRAPH, "One line of text.");
      wb_document_add_heading (document, 1, "LONELY");
      wb_document_add_heading (document, 2, "SECOND");
      wb_document_add_text (document, WB_BLOCK_PARAGRAPH, "COMPANY");
      pdf = print (document);
      text = pdf_text (pdf);
      pages = g_strsplit (text, "\f", -1);
      for (guint i = 0; pages[i] != NULL; i++)
        g_assert_cmpint (strstr (pages[i], "LONELY") != NULL, ==,
                         strstr (pages[i], "COMPANY") != NULL);
    }
}

static void
test_outline (void)
{
  g_autoptr (WbDocument) document = make_list (200);
  g_autoptr (GBytes) pdf = NULL;
  g_autofree char *structure = NULL;
  g_autofree char *outline = NULL;

  wb_document_add_heading (document, 1, "The second part");
  wb_document_add_text (document, WB_BLOCK_ITEM, "An item");
  pdf = print (document);
  structure = pdf_read_with (pdf, "pdfinfo -struct-text %s");
  g_assert_nonnull (strstr (structure, "H1"));
  g_assert_nonnull (strstr (structure, "Table"));
  g_assert_nonnull (strstr (structure, "TH"));
  g_assert_nonnull (strstr (structure, "LI"));
  g_assert_nonnull (strstr (structure, "T00200"));
  outline = pdf_read_with (pdf, "qpdf --json --json-key=outlines %s");
  g_assert_nonnull (strstr (outline, "The second part"));
  g_assert_nonnull (strstr (outline, "Pieces"));
}

static gboolean
refuse_cb (const guint8 *bytes,
           gsize         length,
           gpointer      data)
{
  guint *left = data;

  return (*left)-- > 0;
}

static void
test_sink_fails (void)
{
  g_autoptr (WbDocument) document = make_list (100);

  for (guint n = 0; n < 3; n++)
    {
      g_autoptr (GError) error = NULL;
      guint left = n;

      g_assert_false (wb_pdf_write (document, WB_PAGE_LETTER, refuse_cb, &left, NULL, NULL,
                                    &error));
      g_assert_error (error, WB_PAPER_ERROR, WB_PAPER_ERROR_WRITE);
    }
}

static gboolean
stop_cb (guint    page,
         guint    n_pages,
         gpointer data)
{
  guint *left = data;

  if (*left == 0)
    return FALSE;
  --*left;
  return TRUE;
}

static void
test_stopped (void)
{
  g_autoptr (WbDocument) document = make_list (100);
  guint n_told = 0;

  for (guint n = 0; ; n++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) pdf = NULL;
      guint left = n;

      pdf = wb_pdf_to_bytes (document, WB_PAGE_LETTER, stop_cb, &left, &error);
      if (pdf != NULL)
        {
          g_assert_no_error (error);
          /* Each page is laid out once and drawn once. */
          g_assert_cmpuint (n, ==, 2 * pdf_n_pages (pdf));
          break;
        }
      g_assert_error (error, WB_PAPER_ERROR, WB_PAPER_ERROR_STOPPED);
      n_told++;
    }
  g_assert_cmpuint (n_told, >, 2);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/paper/pdf/long-table", test_long_table);
  g_test_add_func ("/paper/pdf/empty", test_empty);
  g_test_add_func ("/paper/pdf/same-bytes", test_same_bytes);
  g_test_add_func ("/paper/pdf/a4", test_a4);
  g_test_add_func ("/paper/pdf/odd-texts", test_odd_texts);
  g_test_add_func ("/paper/pdf/headings-keep", test_headings_keep);
  g_test_add_func ("/paper/pdf/outline", test_outline);
  g_test_add_func ("/paper/pdf/sink-fails", test_sink_fails);
  g_test_add_func ("/paper/pdf/stopped", test_stopped);

  return g_test_run ();
}
