/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on the inventory of a job as a table of comma-separated values. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "office/wb-csv.h"
#include "office/wb-file.h"
#include "office/wb-inventory-csv.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static void
complain_of_fault (const char          *path,
                   const WbImportFault *fault)
{
  if (fault->column != NULL)
    /* Translators: file, line of it, number of the record, heading of the column, a sentence. */
    wb_tool_complain (_("%s:%u: row %u, column “%s”: %s"), path, fault->line, fault->row,
                      fault->column, fault->message);
  else
    /* Translators: a file, its line, the row of the inventory, and what is wrong there. */
    wb_tool_complain (_("%s:%u: row %u: %s"), path, fault->line, fault->row, fault->message);
}

static void
complain_of_ignored (const char     *path,
                     WbImportReport *report)
{
  for (guint i = 0; i < report->ignored->len; i++)
    /* Translators: a file, and the heading of a column. */
    wb_tool_complain (_("%s: the column “%s” means nothing here and was passed over."), path,
                      (char *) g_ptr_array_index (report->ignored, i));
}

static WbImportReport *
import_file (const WbToolOptions *options,
             WbJob               *job)
{
  const char *path = options->arguments[2];
  WbImportMode mode = options->good_rows ? WB_IMPORT_GOOD_ROWS : WB_IMPORT_ALL_OR_NONE;
  g_autoptr (GFile) file = g_file_new_for_commandline_arg (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = wb_file_read (file, WB_CSV_MAX_BYTES, NULL, &error);
  WbImportReport *report = NULL;

  if (bytes != NULL)
    report = wb_inventory_csv_import (job, bytes, mode, &error);
  if (report == NULL)
    wb_tool_fail (path, error);

  return report;
}

/* A table without a row is no failure; a faulty one is, unless its good rows were asked for and
 * there are some. */
static int
status_of (const WbImportReport *report)
{
  return report->faults->len > 0 && report->n_taken == 0 ? WB_TOOL_FAILED : WB_TOOL_DONE;
}

int
wb_tool_inventory_import (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (WbImportReport) report = job != NULL ? import_file (options, job) : NULL;
  g_autoptr (WbJob) saved = NULL;
  g_autoptr (GError) error = NULL;

  if (report == NULL)
    return WB_TOOL_FAILED;

  for (guint i = 0; i < report->faults->len; i++)
    complain_of_fault (options->arguments[2], g_ptr_array_index (report->faults, i));
  complain_of_ignored (options->arguments[2], report);

  if (report->job != NULL)
    {
      saved = wb_office_save_job (office, job, report->job, _("Import inventory"), NULL, &error);
      if (saved == NULL)
        return wb_tool_fail (options->arguments[0], error);
    }

  if (status_of (report) == WB_TOOL_FAILED)
    wb_tool_complain (_("No piece was taken."));
  else
    /* Translators: pieces taken, rows of the table, number of the job. */
    wb_tool_print_line (ngettext ("Took %u piece of %u rows into job %s.\n",
                                  "Took %u pieces of %u rows into job %s.\n",
                                  report->n_taken),
                        report->n_taken, report->n_rows, wb_job_order (job)->number);
  return status_of (report);
}

int
wb_tool_inventory_export (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (GBytes) bytes = NULL;
  const char *text;
  gsize length;

  if (job == NULL)
    return WB_TOOL_FAILED;

  bytes = wb_inventory_csv_export (job);
  text = g_bytes_get_data (bytes, &length);
  return wb_tool_deliver (options, text, length);
}
