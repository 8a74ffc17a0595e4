/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shipped catalogue, for tests. */
#pragma once

#include "core/wb-catalog.h"

/** Returns: (transfer full): the text of a shipped file. */
static inline char *
catalog_read_shipped (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("WAINBOOK_DATA_DIR"), "catalogs", name, NULL);
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static const char *const catalog_shipped[] = { "articles.catalog", "cartons.catalog",
                                               "depreciation.catalog",
                                               "packing-checks.catalog" };

/** Returns: (transfer full): all shipped files together. */
static inline WbCatalog *
catalog_new_shipped (void)
{
  WbCatalog *catalog = wb_catalog_new ();

  for (guint i = 0; i < G_N_ELEMENTS (catalog_shipped); i++)
    {
      g_autofree char *text = catalog_read_shipped (catalog_shipped[i]);
      g_autoptr (GError) error = NULL;

      if (!wb_catalog_add (catalog, text, strlen (text), catalog_shipped[i], FALSE, NULL, &error))
        g_error ("%s", error->message);
    }
  return catalog;
}
