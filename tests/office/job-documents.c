/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lets a test in another language see what the program writes and what it reads.
 *
 *   job-documents tables         one line a field: array or object, name, type, choices or
 * maximum, "required" or "-"
 *   job-documents write COUNT    that many random job documents, one JSON text a line; the first
 * line is a comment
 *   job-documents read           one JSON text a line from standard input; answers each with "ok"
 * or the message
 *   job-documents reckon COUNT   that many reckonings, one JSON text a line; the first line is a
 * comment
 *   job-documents export FOLDER COUNT   files N.json and N.csv, the job and its inventory
 *   job-documents import FILE    an inventory into an empty job; prints the job's document */
#include "config.h"

#include "office/wb-inventory-csv.h"
#include "office/wb-job-document.h"
#include "office/wb-terms-folder.h"

#include "random-job.h"

#include <json-glib/json-glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *
name_of_type (WbFieldType type)
{
  switch (type)
    {
    case WB_FIELD_TEXT:      return "text";
    case WB_FIELD_MARKS:     return "marks";
    case WB_FIELD_REFERENCE: return "id";
    case WB_FIELD_BOOLEAN:   return "boolean";
    case WB_FIELD_INTEGER:   return "integer";
    case WB_FIELD_PERCENT:   return "percent";
    case WB_FIELD_ENUM:      return "enum";
    case WB_FIELD_DATE:      return "date";
    case WB_FIELD_MONEY:     return "money";
    case WB_FIELD_WEIGHT:    return "weight";
    case WB_FIELD_VOLUME:    return "volume";
    }

  g_assert_not_reached ();
}

static char *
detail_of (const WbField *field)
{
  GString *nicks;

  if (field->type == WB_FIELD_INTEGER)
    return g_strdup_printf ("%" G_GINT64_FORMAT, field->maximum);
  if (field->type != WB_FIELD_ENUM)
    return g_strdup ("-");

  nicks = g_string_new (NULL);
  for (gsize i = 0; i < field->choices->n_values; i++)
    g_string_append_printf (nicks, "%s%s", i > 0 ? "," : "", field->choices->values[i].nick);
  return g_string_free (nicks, FALSE);
}

static void
print_tables (void)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);

      for (gsize i = 0; i < type->n_fields; i++)
        {
          const WbField *field = &type->fields[i];
          g_autofree char *detail = detail_of (field);

          printf ("%s\t%s\t%s\t%s\t%s\n", type->single ? type->name : type->plural, field->name,
                  name_of_type (field->type), detail,
                  (field->flags & WB_FIELD_REQUIRED) != 0 ? "required" : "-");
        }
    }
}

static void
print_documents (guint  count,
                 int    argc,
                 char **argv)
{
  /* Prints the seed as a comment line. */
  g_test_init (&argc, &argv, NULL);

  for (guint i = 0; i < count; i++)
    {
      g_autoptr (WbJob) job = random_job (NULL, 5);
      g_autofree char *text = wb_job_document_write (job);

      /* Line breaks inside texts are written as escapes, so these are between values only. */
      puts (g_strdelimit (text, "\n", ' '));
    }
}

/* Every claim is reckoned by every edition of the shipped terms. */
static void
print_reckonings (guint  count,
                  int    argc,
                  char **argv)
{
  g_auto (GStrv) faults = NULL;
  g_autoptr (WbTermsSet) terms = wb_terms_folder_load_all (&faults);

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < count; i++)
    {
      g_autoptr (WbJob) job = random_claim ();
      const WbRecord *claim = wb_job_count (job, WB_KIND_CLAIM) > 0
                              ? wb_job_nth (job, WB_KIND_CLAIM, 0) : NULL;

      for (guint j = 0; claim != NULL && j < wb_terms_set_count (terms); j++)
        {
          g_autoptr (GError) error = NULL;
          g_autoptr (WbReckoning) reckoning = wb_reckon (wb_terms_set_nth (terms, j), job,
                                                         claim->id, &error);
          g_autofree char *text = NULL;

          g_assert_no_error (error);
          text = wb_reckoning_document_write (reckoning);
          puts (g_strdelimit (text, "\n", ' '));
        }
    }
}

static void
answer_documents (void)
{
  g_autofree char *line = NULL;
  size_t size = 0;

  while (getline (&line, &size, stdin) >= 0)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbJob) job = wb_job_document_read (line, -1, &error);

      puts (job != NULL ? "ok" : error->message);
    }
}

static void
write_file (const char *folder,
            guint       number,
            const char *suffix,
            const char *data,
            gsize       length)
{
  g_autofree char *name = g_strdup_printf ("%u.%s", number, suffix);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, data, (gssize) length, &error);
  g_assert_no_error (error);
}

static void
export_inventories (const char  *folder,
                    guint        count,
                    int          argc,
                    char       **argv)
{
  g_test_init (&argc, &argv, NULL);

  for (guint i = 0; i < count; i++)
    {
      g_autoptr (WbJob) job = random_job (NULL, 12);
      g_autofree char *text = wb_job_document_write (job);
      g_autoptr (GBytes) inventory = wb_inventory_csv_export (job);
      gsize length;
      const char *data = g_bytes_get_data (inventory, &length);

      write_file (folder, i, "json", text, strlen (text));
      write_file (folder, i, "csv", data, length);
    }
}

static int
import_inventory (const char *path)
{
  g_autoptr (WbJob) unnumbered = wb_job_new ("a", "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (unnumbered));
  g_autoptr (WbJob) empty = NULL;
  g_autoptr (WbImportReport) report = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  char *data;
  gsize length;

  if (!g_file_get_contents (path, &data, &length, &error))
    g_error ("%s", error->message);
  wb_set_text (&order->number, "J-1");
  empty = wb_job_with (unnumbered, order);

  bytes = g_bytes_new_take (data, length);
  report = wb_inventory_csv_import (empty, bytes, WB_IMPORT_GOOD_ROWS, &error);
  if (report == NULL)
    {
      fprintf (stderr, "%s\n", error->message);
      return 1;
    }

  for (guint i = 0; i < report->faults->len; i++)
    {
      const WbImportFault *fault = g_ptr_array_index (report->faults, i);

      fprintf (stderr, "%u %s: %s\n", fault->row, fault->column != NULL ? fault->column : "-",
               fault->message);
    }

  text = wb_job_document_write (report->job != NULL ? report->job : empty);
  fputs (text, stdout);
  return 0;
}

int
main (int    argc,
      char **argv)
{
  if (argc == 2 && g_str_equal (argv[1], "tables"))
    print_tables ();
  else if (argc == 3 && g_str_equal (argv[1], "write"))
    print_documents ((guint) atoi (argv[2]), argc, argv);
  else if (argc == 2 && g_str_equal (argv[1], "read"))
    answer_documents ();
  else if (argc == 3 && g_str_equal (argv[1], "reckon"))
    print_reckonings ((guint) atoi (argv[2]), argc, argv);
  else if (argc == 4 && g_str_equal (argv[1], "export"))
    export_inventories (argv[2], (guint) atoi (argv[3]), argc, argv);
  else if (argc == 3 && g_str_equal (argv[1], "import"))
    return import_inventory (argv[2]);
  else
    return 2;

  return 0;
}
