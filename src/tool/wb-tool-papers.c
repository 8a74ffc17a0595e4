/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command that writes the papers of a job as PDF files. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "office/wb-papers.h"
#include "office/wb-text-table.h"

#include <glib/gi18n.h>

int
wb_tool_job_papers (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (WbTextTable) table = wb_text_table_new ("ll");
  g_autoptr (GString) out = g_string_new (NULL);
  g_autoptr (GPtrArray) files = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = NULL;

  if (job == NULL)
    return WB_TOOL_FAILED;
  folder = options->arguments[2] != NULL ? g_strdup (options->arguments[2])
                                         : wb_papers_folder_name (job);
  files = wb_office_save_papers (office, job, folder, options->replace, NULL, NULL, &error);
  if (files == NULL)
    return wb_tool_fail (NULL, error);
  for (guint i = 0; i < files->len; i++)
    {
      const WbPaperFile *file = g_ptr_array_index (files, i);
      g_autofree char *path = g_build_filename (folder, file->name, NULL);

      wb_text_table_add_row (table, path, file->title);
    }
  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
  return WB_TOOL_DONE;
}
