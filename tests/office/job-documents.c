/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lets a test in another language see what the program writes and what it reads.
 *
 *   job-documents tables         one line a field: array or object, name, type, choices or maximum, "required" or "-"
 *   job-documents write COUNT    that many random job documents, one JSON text a line; the first line is a comment
 *   job-documents read           one JSON text a line from standard input; answers each with "ok" or the message */
#include "config.h"

#include "office/wb-job-document.h"

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
  else
    return 2;

  return 0;
}
