/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on packing: the cartons, materials and checks of a job, and faults in catalogue
 * files. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "office/wb-catalog-folder.h"
#include "office/wb-lift-setting.h"
#include "office/wb-packing-report.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

int
wb_tool_packing_show (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  WbWeight threshold = wb_lift_setting_get ();
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  WbCatalog *catalog;

  if (job == NULL)
    return WB_TOOL_FAILED;

  catalog = wb_office_get_catalog (office);
  text = options->json ? wb_packing_report_json (catalog, job, threshold, &error)
                       : wb_packing_report (catalog, job, threshold, &error);
  if (text == NULL)
    return wb_tool_fail (options->arguments[1], error);

  wb_tool_print (text);
  return WB_TOOL_DONE;
}

/* The message has the form "FILE:LINE: what is wrong", as other programs expect it. */
static void
complain_of_message (const char *message)
{
  g_autofree char *sentence = wb_words_sentence (message);

  wb_tool_complain ("%s", sentence);
}

/* Whether a file of the catalogue goes with all the others: those that came with the program and
 * those of the office. */
static gboolean
check_file (const char *path)
{
  g_auto (GStrv) others = NULL;
  g_autoptr (WbCatalog) catalog = wb_catalog_folder_load_all (&others);
  g_autoptr (GPtrArray) faults = NULL;
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *place = g_strconcat (name, ":", NULL);
  g_autoptr (GError) error = NULL;
  guint n_entries, n_faults = 0;

  if (!wb_catalog_file_add (catalog, path, TRUE, &n_entries, &error))
    {
      complain_of_message (error->message);
      return FALSE;
    }

  faults = wb_catalog_check (catalog);
  for (guint i = 0; i < faults->len; i++)
    if (g_str_has_prefix (g_ptr_array_index (faults, i), place))
      {
        complain_of_message (g_ptr_array_index (faults, i));
        n_faults++;
      }
  if (n_faults > 0)
    return FALSE;

  /* Translators: name of a file, how many entries it has. */
  wb_tool_print_line (ngettext ("%s: %u entry, in order.\n", "%s: %u entries, in order.\n",
                                n_entries),
                      path, n_entries);
  return TRUE;
}

int
wb_tool_catalog_check (const WbToolOptions *options)
{
  gboolean good = TRUE;

  for (guint i = 0; options->arguments[i] != NULL; i++)
    if (!check_file (options->arguments[i]))
      good = FALSE;

  return good ? WB_TOOL_DONE : WB_TOOL_FAILED;
}
