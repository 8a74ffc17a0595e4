/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Good files of versions, changed at random, through fuzz-depot.c. The seed of a run is printed;
 * --seed repeats it. */
#include "config.h"

#include "fuzz-depot.h"
#include "random-version.h"

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

static void
change (GByteArray *bytes)
{
  static const char *const words[] = {
    "{", "}", "[", "]", ",", ":", "\"", "null", "-1", "1e9", "..", "/", "\\u0000", "\\",
    "999999999999999999", "\"size\":0,", "true", "\xff", "\"name\":\"a\"",
  };
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
      g_autoptr (WbVersion) version = random_version ();
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
      g_autoptr (WbVersion) version = random_version ();
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
      g_autofree char *hash = random_hash ();
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
