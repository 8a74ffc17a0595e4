/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "random-version.h"

#include <string.h>

static guint
any (guint limit)
{
  return (guint) g_test_rand_int_range (0, (gint32) limit);
}

char *
random_hash (void)
{
  g_autofree char *text = g_strdup_printf ("%d", g_test_rand_int ());

  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
}

static gint
compare_texts (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

WbVersion *
random_version (void)
{
  static const char *const texts[] = { "R. Clerk", "Zoë \"Z\" O'Brien", "日本", "a\\b", "x" };
  WbVersion *version = wb_version_new ();
  g_autoptr (GPtrArray) parents = g_ptr_array_new ();

  for (guint n = any (4); n > 0; n--)
    g_ptr_array_add (parents, random_hash ());
  g_ptr_array_sort (parents, compare_texts);
  g_ptr_array_add (parents, NULL);
  g_strfreev (version->parents);
  version->parents = (GStrv) g_ptr_array_free (g_steal_pointer (&parents), FALSE);
  version->job = g_strdup ("0f0c8a52-6a0e-4d6f-9a35-0d8f6f0b7c11");
  version->number = 2 + any (1000);
  version->at = g_strdup ("2026-03-05T08:00:00Z");
  version->by = g_strdup (texts[any (G_N_ELEMENTS (texts))]);
  version->desk = any (2) == 0 ? g_strdup (texts[any (G_N_ELEMENTS (texts))]) : NULL;
  version->document.sha256 = random_hash ();
  version->document.size = any (100000);
  for (guint i = any (5); i > 0; i--)
    {
      g_autofree char *hash = random_hash ();
      g_autofree char *name = g_strdup_printf ("photos/%u ü.jpg", i);

      g_ptr_array_add (version->files, wb_version_file_new (name, hash, any (100000)));
    }
  for (guint i = any (5); i > 0; i--)
    g_hash_table_insert (version->summary, g_strdup_printf ("key_%u", i),
                         g_strdup (texts[any (G_N_ELEMENTS (texts))]));
  return version;
}
