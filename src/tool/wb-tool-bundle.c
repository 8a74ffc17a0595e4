/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on bundles: pack a job, take one in, look whether one is good. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "office/wb-bundle.h"

#include <glib/gi18n.h>

static void
warn_of_lost (const WbBundleReport *report)
{
  if (report->n_lost_papers > 0)
    wb_tool_complain (ngettext ("%u kept paper that the job names is not in the book it was packed "
                                "from, and so not in the bundle.",
                                "%u kept papers that the job names are not in the book it was "
                                "packed from, and so not in the bundle.",
                                report->n_lost_papers), report->n_lost_papers);
}

int
wb_tool_bundle_write (const WbToolOptions *options)
{
  const char *target = options->arguments[2];
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (WbBundleReport) report = NULL;
  g_autofree char *words = NULL;
  g_autoptr (GError) error = NULL;

  if (job == NULL)
    return WB_TOOL_FAILED;
  report = wb_office_bundle_write (office, job, target, FALSE, NULL, NULL, &error);
  if (report == NULL)
    return wb_tool_fail (target, error);
  warn_of_lost (report);
  words = wb_bundle_report_words (report);
  wb_tool_print_line (_("Packed %s.\n"), words);
  return WB_TOOL_DONE;
}

int
wb_tool_bundle_read (const WbToolOptions *options)
{
  const char *source = options->arguments[1];
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbBundleReport) report = NULL;
  g_autofree char *words = NULL;
  g_autoptr (GError) error = NULL;

  if (office == NULL)
    return WB_TOOL_FAILED;
  report = wb_office_bundle_read (office, source, NULL, NULL, &error);
  if (report == NULL)
    {
      wb_tool_fail (source, error);
      wb_tool_complain (_("Nothing was put into the book."));
      return WB_TOOL_FAILED;
    }
  warn_of_lost (report);
  words = wb_bundle_report_words (report);
  wb_tool_print_line (_("Took in %s.\n"), words);
  return WB_TOOL_DONE;
}

int
wb_tool_bundle_check (const WbToolOptions *options)
{
  const char *source = options->arguments[0];
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBundleReport) report = wb_bundle_check (source, NULL, NULL, &error);
  g_autofree char *words = NULL;

  if (report == NULL)
    return wb_tool_fail (source, error);
  warn_of_lost (report);
  words = wb_bundle_report_words (report);
  wb_tool_print_line (_("Whole and unchanged: %s.\n"), words);
  if (report->packed_on != NULL)
    wb_tool_print_line (_("Packed on %s.\n"), report->packed_on);
  return WB_TOOL_DONE;
}
