/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks other programs about a PDF file. */
#include "pdf-reader.h"

#include <glib/gstdio.h>
#include <string.h>

static char *
keep (GBytes *pdf)
{
  char *path = NULL;
  g_autoptr (GError) error = NULL;
  int fd = g_file_open_tmp ("wainbook-XXXXXX.pdf", &path, &error);

  g_assert_no_error (error);
  g_close (fd, NULL);
  g_file_set_contents (path, g_bytes_get_data (pdf, NULL), (gssize) g_bytes_get_size (pdf), &error);
  g_assert_no_error (error);
  return path;
}

char *
pdf_read_with (GBytes     *pdf,
               const char *program)
{
  g_autofree char *path = keep (pdf);
  g_autofree char *quoted = g_shell_quote (path);
  g_autoptr (GString) line = g_string_new (program);
  const char *argv[] = { "sh", "-c", NULL, NULL };
  g_autofree char *err = NULL;
  g_autoptr (GError) error = NULL;
  char *out = NULL;
  int status;

  g_string_replace (line, "%s", quoted, 0);
  argv[2] = line->str;
  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, &err, &status,
                &error);
  g_assert_no_error (error);
  g_unlink (path);
  if (!g_spawn_check_wait_status (status, NULL))
    g_error ("%s: %s%s", line->str, out, err);
  return out;
}

char *
pdf_text (GBytes *pdf)
{
  return pdf_read_with (pdf, "pdftotext -layout -enc UTF-8 %s -");
}

guint
pdf_n_pages (GBytes *pdf)
{
  g_autofree char *info = pdf_read_with (pdf, "pdfinfo %s");
  const char *pages = strstr (info, "\nPages:");

  g_assert_nonnull (pages);
  return (guint) g_ascii_strtoull (pages + strlen ("\nPages:"), NULL, 10);
}

void
pdf_check (GBytes *pdf)
{
  g_autofree char *qpdf = pdf_read_with (pdf, "qpdf --check %s 2>&1");
  g_autofree char *fonts = pdf_read_with (pdf, "pdffonts %s");
  g_autofree char *info = pdf_read_with (pdf, "pdfinfo %s");
  g_auto (GStrv) lines = g_strsplit (fonts, "\n", -1);

  g_assert_null (strstr (qpdf, "WARNING"));
  g_assert_nonnull (strstr (qpdf, "No syntax or stream encoding errors found"));
  g_assert_nonnull (strstr (info, "Tagged:          yes"));
  g_assert_cmpuint (g_strv_length (lines), >, 3);
  for (guint i = 2; lines[i] != NULL && *lines[i] != '\0'; i++)
    {
      /* name, type (two words), encoding, emb, sub, uni, object ID */
      g_autoptr (GRegex) embedded = g_regex_new (" yes +yes +(yes|no) +\\d+ +\\d+$", 0, 0, NULL);

      if (!g_regex_match (embedded, lines[i], 0, NULL))
        g_error ("a font is not in the file: %s", lines[i]);
    }
}

guint
pdf_count (const char *text,
           const char *needle)
{
  guint n = 0;

  for (const char *at = strstr (text, needle); at != NULL; at = strstr (at + 1, needle))
    n++;
  return n;
}

void
pdf_show (GBytes     *pdf,
          const char *name,
          guint       n)
{
  const char *folder = g_getenv ("WB_ARTEFACTS");
  g_autofree char *line = NULL;
  g_autofree char *out = NULL;

  if (folder == NULL)
    return;
  g_assert_cmpint (g_mkdir_with_parents (folder, 0755), ==, 0);
  line = g_strdup_printf ("pdftoppm -r 80 -png -l %u %%s '%s/paper-%s'", n, folder, name);
  out = pdf_read_with (pdf, line);
}
