/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds and reads catalogue files. What stands in them core decides; a bad one is left out and its
 * message kept, so that it never stops the office. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-catalog-folder.h"

#include "core/wb-core.h"
#include "core/wb-lines.h"
#include "office/wb-data-dir.h"
#include "office/wb-file.h"

#include <gio/gio.h>
#include <string.h>

#define SUFFIX ".catalog"

gboolean
wb_catalog_file_add (WbCatalog   *catalog,
                     const char  *path,
                     gboolean     replace,
                     guint       *n_entries,
                     GError     **error)
{
  g_autofree char *name = NULL;
  g_autoptr (GFile) file = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) reading = NULL;
  gconstpointer text;
  gsize length;

  g_return_val_if_fail (catalog != NULL, FALSE);
  g_return_val_if_fail (path != NULL, FALSE);

  name = g_path_get_basename (path);
  file = g_file_new_for_path (path);
  bytes = wb_file_read (file, WB_LINES_MAX_BYTES, NULL, &reading);
  if (bytes == NULL)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CATALOG, "%s:1: cannot be read: %s", name,
                   reading->message);
      return FALSE;
    }

  text = g_bytes_get_data (bytes, &length);
  return wb_catalog_add (catalog, text, length, name, replace, n_entries, error);
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
    if (g_str_has_suffix (name, SUFFIX) && *name != '.')
      g_ptr_array_add (names, g_strdup (name));

  g_ptr_array_sort (names, compare_names);
  return g_steal_pointer (&names);
}

static void
add_folder (WbCatalog  *catalog,
            const char *folder,
            gboolean    replace,
            GPtrArray  *faults)
{
  g_autoptr (GPtrArray) names = list_files (folder);

  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (folder, g_ptr_array_index (names, i), NULL);
      g_autoptr (GError) error = NULL;

      if (!wb_catalog_file_add (catalog, path, replace, NULL, &error))
        {
          g_info ("Catalogue left out: %s", error->message);
          g_ptr_array_add (faults, g_strdup (error->message));
        }
    }
}

WbCatalog *
wb_catalog_folder_load_all (GStrv *faults)
{
  g_autoptr (WbCatalog) catalog = wb_catalog_new ();
  g_autoptr (GPtrArray) messages = g_ptr_array_new_null_terminated (1, g_free, TRUE);
  g_autoptr (GPtrArray) unknown = NULL;
  g_autofree char *shipped = wb_data_dir_build_path ("catalogs", NULL);
  g_autofree char *own = g_build_filename (g_get_user_data_dir (), "wainbook", "catalogs", NULL);

  g_return_val_if_fail (faults != NULL, NULL);

  add_folder (catalog, shipped, FALSE, messages);
  add_folder (catalog, own, TRUE, messages);
  unknown = wb_catalog_check (catalog);
  for (guint i = 0; i < unknown->len; i++)
    g_ptr_array_add (messages, g_strdup (g_ptr_array_index (unknown, i)));

  *faults = (GStrv) g_ptr_array_steal (messages, NULL);
  return g_steal_pointer (&catalog);
}
