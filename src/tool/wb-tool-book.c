/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on a book as a whole: make one, look for faults in one. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

int
wb_tool_book_create (const WbToolOptions *options)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) office = wb_office_open (options->arguments[0], WB_BOOK_CREATE, NULL,
                                                &error);

  if (office == NULL)
    return wb_tool_fail (options->arguments[0], error);

  wb_tool_print_line (_("Made the office book “%s”.\n"), options->arguments[0]);
  return WB_TOOL_DONE;
}

/* Returns: whether the job could be read and agrees with itself. */
static gboolean
check_job (WbOffice           *office,
           const WbJobSummary *summary)
{
  const char *name = summary->number != NULL ? summary->number : summary->id;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_load_job (office, summary->id, NULL, &error);

  if (job != NULL && wb_job_check (job, &error))
    return TRUE;

  wb_tool_fail (name, error);
  return FALSE;
}

int
wb_tool_book_check (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GError) error = NULL;
  guint n_faulty = 0;

  if (office == NULL)
    return WB_TOOL_FAILED;

  jobs = wb_office_list_jobs (office, NULL, 0, NULL, &error);
  if (jobs == NULL)
    return wb_tool_fail (options->arguments[0], error);

  for (guint i = 0; i < jobs->len; i++)
    {
      if (!check_job (office, g_ptr_array_index (jobs, i)))
        n_faulty++;
    }

  if (n_faulty > 0)
    {
      wb_tool_complain (ngettext ("%u of %u job is faulty.", "%u of %u jobs are faulty.",
                                  jobs->len), n_faulty, jobs->len);
      return WB_TOOL_FAILED;
    }

  wb_tool_print_line (ngettext ("%u job, and it is in order.\n", "%u jobs, all in order.\n",
                                jobs->len), jobs->len);
  return WB_TOOL_DONE;
}
