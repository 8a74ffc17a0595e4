/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Good files of versions, changed at random, through fuzz-depot.c. The seed of a run is printed;
 * --seed repeats it. */
#include "config.h"

#include "fuzz-depot.h"

#include "share/wb-depot-version.h"

#include <string.h>

#define ROUNDS 4000

static guint
any (guint limit)
{
  return (guint) g_test_rand_int_range (0, (gint32) limit);
}

static guint
rounds (void)
{
  return g_test_slow () ? 100 * ROUNDS : ROUNDS;
}

static char *
any_hash (void)
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

static WbVersion *
any_version (void)
{
  static const char *const texts[] = { "R. Clerk", "Zoë \"Z\" O'Brien", "日本", "a\\b", "x" };
  WbVersion *version = wb_version_new ();
  g_autoptr (GPtrArray) parents = g_ptr_array_new ();

  for (guint n = any (4); n > 0; n--)
    g_ptr_array_add (parents, any_hash ());
  g_ptr_array_sort (parents, compare_texts);
  g_ptr_array_add (parents, NULL);
  g_strfreev (version->parents);
  version->parents = (GStrv) g_ptr_array_free (g_steal_pointer (&parents), FALSE);
  version->job = g_strdup ("0f0c8a52-6a0e-4d6f-9a35-0d8f6f0b7c11");
  version->number = 2 + any (1000);
  version->at = g_strdup ("2026-03-05T08:00:00Z");
  version->by = g_strdup (texts[any (G_N_ELEMENTS (texts))]);
  version->desk = any (2) == 0 ? g_strdup (texts[any (G_N_ELEMENTS (texts))]) : NULL;
  version->document.sha256 = any_hash ();
  version->document.size = any (100000);
  for (guint i = any (5); i > 0; i--)
    {
      g_autofree char *hash = any_hash ();
      g_autofree char *name = g_strdup_printf ("photos/%u ü.jpg", i);

      g_ptr_array_add (version->files, wb_version_file_new (name, hash, any (100000)));
    }
  for (guint i = any (5); i > 0; i--)
    g_hash_table_insert (version->summary, g_strdup_printf ("key_%u", i),
                         g_strdup (texts[any (G_N_ELEMENTS (texts))]));
  return version;
}

static void
change (GByteArray *bytes)
{
  static const char *const words[] = { "{", "}", "[", "]", ",", ":", "\"", "null", "-1", "1e9", "..",
                                       "/", "\\u0000", "\\", "999999999999999999", "\"size\":0,",
                                       "true", "\xff", "\"name\":\"a\"" };
  const char *word = words[any (G_N_ELEMENTS (words))];
  guint at = bytes->len > 0 ? any (bytes->len) : 0;
  guint n;

  switch (any (5))
    {
    case 0:
      if (bytes->len > 0)
        bytes->data[at] ^= (guint8) (1 + any (255));
      break;
    case 1:
      n = 1 + any (40);
      n = MIN (n, bytes->len - at);
      if (n > 0)
        g_byte_array_remove_range (bytes, at, n);
      break;
    case 2:
      n = 1 + any (80);
      n = MIN (n, bytes->len - at);
      if (n > 0)
        {
          g_autofree guint8 *copy = g_memdup2 (bytes->data + at, n);

          g_byte_array_append (bytes, copy, n);
        }
      break;
    case 3:
      if (bytes->len > 0 && bytes->len - at > strlen (word))
        memcpy (bytes->data + at, word, strlen (word));
      break;
    default:
      n = (guint) strlen (word);
      g_byte_array_append (bytes, (const guint8 *) word, n);
      memmove (bytes->data + at + n, bytes->data + at, bytes->len - n - at);
      memcpy (bytes->data + at, word, n);
      break;
    }
}

static void
test_good (void)
{
  for (guint i = 0; i < rounds () / 20; i++)
    {
      g_autoptr (WbVersion) version = any_version ();
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) bytes = NULL;
      gsize length;

      g_assert_true (wb_version_check (version, &error));
      g_assert_no_error (error);
      bytes = wb_version_write (version);
      g_assert_true (fuzz_version (g_bytes_get_data (bytes, &length), g_bytes_get_size (bytes)));
    }
}

static void
test_changed (void)
{
  guint n_good = 0;

  for (guint i = 0; i < rounds (); i++)
    {
      g_autoptr (WbVersion) version = any_version ();
      g_autoptr (GBytes) bytes = wb_version_write (version);
      g_autoptr (GByteArray) changed = g_byte_array_new ();

      g_byte_array_append (changed, g_bytes_get_data (bytes, NULL),
                           (guint) g_bytes_get_size (bytes));
      for (guint n = 1 + any (3); n > 0; n--)
        change (changed);
      n_good += fuzz_version (changed->data, changed->len);
    }
  g_test_message ("%u of %u were good", n_good, rounds ());
  g_assert_cmpuint (n_good, <, rounds () / 2);
}

static void
test_names (void)
{
  for (guint i = 0; i < rounds (); i++)
    {
      g_autofree char *hash = any_hash ();
      g_autofree char *name = wb_version_file_name (1 + any (999999), hash);
      g_autoptr (GByteArray) bytes = g_byte_array_new ();

      g_byte_array_append (bytes, (const guint8 *) name, (guint) strlen (name));
      for (guint n = any (3); n > 0; n--)
        change (bytes);
      LLVMFuzzerTestOneInput (bytes->data, bytes->len);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/depot/mutations/good", test_good);
  g_test_add_func ("/depot/mutations/changed", test_changed);
  g_test_add_func ("/depot/mutations/names", test_names);
  return g_test_run ();
}
