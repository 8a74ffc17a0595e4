/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds and reads terms files. What stands in them core decides; a bad one is left out and its
 * message kept, so that it never stops the office. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-terms-folder.h"

#include "core/wb-core.h"
#include "office/wb-data-dir.h"
#include "office/wb-file.h"

#include <gio/gio.h>
#include <string.h>

#define SUFFIX ".terms"
#define BLANK  "blank.terms"

GPtrArray *
wb_terms_file_read (const char  *path,
                    GError     **error)
{
  g_autofree char *name = NULL;
  g_autoptr (GFile) file = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) reading = NULL;
  gconstpointer text;
  gsize length;

  g_return_val_if_fail (path != NULL, NULL);

  name = g_path_get_basename (path);
  file = g_file_new_for_path (path);
  bytes = wb_file_read (file, WB_TERMS_FILE_MAX_BYTES, NULL, &reading);
  if (bytes == NULL)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS, "%s:1: cannot be read: %s",
                   name, reading->message);
      return NULL;
    }

  text = g_bytes_get_data (bytes, &length);
  return wb_terms_parse (text != NULL ? text : "", length, name, error);
}

static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static GPtrArray *
list_files (const char *folder)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      if (g_str_has_suffix (name, SUFFIX) && *name != '.' && !g_str_equal (name, BLANK))
        g_ptr_array_add (names, g_strdup (name));
    }

  g_ptr_array_sort (names, compare_names);
  return g_steal_pointer (&names);
}

void
wb_terms_folder_add (WbTermsSet *set,
                     const char *folder,
                     gboolean    replace,
                     GPtrArray  *faults)
{
  g_autoptr (GPtrArray) names = NULL;

  g_return_if_fail (set != NULL);
  g_return_if_fail (folder != NULL);
  g_return_if_fail (faults != NULL);

  names = list_files (folder);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (folder, g_ptr_array_index (names, i), NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) editions = wb_terms_file_read (path, &error);

      if (editions == NULL || !wb_terms_set_add (set, editions, replace, &error))
        {
          g_info ("Terms left out: %s", error->message);
          g_ptr_array_add (faults, g_strdup (error->message));
        }
    }
}

WbTermsSet *
wb_terms_folder_load_all (GStrv *faults)
{
  g_autoptr (WbTermsSet) set = wb_terms_set_new ();
  g_autoptr (GPtrArray) messages = g_ptr_array_new_null_terminated (1, g_free, TRUE);
  g_autofree char *shipped = wb_data_dir_build_path ("terms", NULL);
  g_autofree char *own = g_build_filename (g_get_user_data_dir (), "wainbook", "terms", NULL);

  g_return_val_if_fail (faults != NULL, NULL);

  wb_terms_folder_add (set, shipped, FALSE, messages);
  wb_terms_folder_add (set, own, TRUE, messages);

  *faults = (GStrv) g_ptr_array_steal (messages, NULL);
  return g_steal_pointer (&set);
}
