/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Good bags, changed at random in their bytes, their files and their names, through fuzz-bag.c.
 * Whatever is done to one, it is refused, or what comes out is what went in. The seed of a run is
 * printed; --seed repeats it. */
#include "config.h"

#include "fuzz-bag.h"

#include "share/wb-bag.h"
#include "support/wb-test-folder.h"

#include <stdio.h>
#include <string.h>

/* How often each case changes something; with -m slow, a hundred times as often. */
#define ROUNDS 400

static guint
rounds (void)
{
  return g_test_slow () ? 100 * ROUNDS : ROUNDS;
}

/* --- a bag in memory -------------------------------------------------------------------------- */

typedef struct
{
  char       *name;
  GByteArray *bytes;
  char        type;      /* of a tar entry: '0' is a file */
} Entry;

static void
entry_free (gpointer data)
{
  Entry *entry = data;

  g_free (entry->name);
  g_byte_array_unref (entry->bytes);
  g_free (entry);
}

static void
add_entry (GPtrArray  *entries,
           const char *name,
           const void *bytes,
           gsize       length,
           char        type)
{
  Entry *entry = g_new0 (Entry, 1);

  entry->name = g_strdup (name);
  entry->bytes = g_byte_array_new ();
  g_byte_array_append (entry->bytes, bytes, (guint) length);
  entry->type = type;
  g_ptr_array_add (entries, entry);
}

static void
add_tree (GPtrArray  *entries,
          const char *root,
          const char *prefix)
{
  g_autofree char *folder = g_build_filename (root, prefix, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = *prefix != '\0' ? g_strconcat (prefix, "/", name, NULL) : g_strdup (name);
      g_autofree char *place = g_build_filename (root, path, NULL);
      g_autofree char *text = NULL;
      gsize length;

      if (g_file_test (place, G_FILE_TEST_IS_DIR))
        {
          add_tree (entries, root, path);
          continue;
        }
      g_assert_true (g_file_get_contents (place, &text, &length, NULL));
      add_entry (entries, path, text, length, '0');
    }
}

/* Writes a bag of a few files to @target. */
static void
write_bag (const char *target)
{
  static const char *const names[] = { "data/job.json", "data/photos/1.jpg", "data/photos/2.jpg",
                                       "data/papers/a 100%.txt" };
  static const char *const info[] = { "Bagging-Date", "2026-03-04", "External-Identifier", "J-1", NULL };
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_bag_item_free);
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *text = g_strnfill (40 * i * i, (char) ('a' + i));
      g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));

      g_ptr_array_add (items, wb_bag_item_new_bytes (names[i], bytes));
    }
  g_assert_true (wb_bag_write (target, "J-1", items, info, FALSE, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
}

/* Returns: (transfer full) (element-type Entry): the files of such a bag. */
static GPtrArray *
good_entries (void)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func (entry_free);
  g_autofree char *root = g_dir_make_tmp ("wainbook-XXXXXX", NULL);
  g_autofree char *target = g_build_filename (root, "bag", NULL);

  write_bag (target);
  add_tree (entries, target, "");
  wb_test_remove_tree (root);
  return entries;
}

/* Returns: (transfer full): the bytes of such a bag in an archive. */
static GByteArray *
good_archive (const char *name)
{
  g_autofree char *root = g_dir_make_tmp ("wainbook-XXXXXX", NULL);
  g_autofree char *target = g_build_filename (root, name, NULL);
  char *text;
  gsize length;

  write_bag (target);
  g_assert_true (g_file_get_contents (target, &text, &length, NULL));
  wb_test_remove_tree (root);
  return g_byte_array_new_take ((guint8 *) text, length);
}

/* --- tar, by hand ----------------------------------------------------------------------------- */

static void
append_header (GByteArray  *out,
               const Entry *entry)
{
  char header[512] = { 0 };
  guint sum = 0;

  snprintf (header, 100, "%s", entry->name);
  snprintf (header + 100, 8, "%07o", 0644u);
  snprintf (header + 108, 8, "%07o", 0u);
  snprintf (header + 116, 8, "%07o", 0u);
  snprintf (header + 124, 12, "%011o", entry->bytes->len);
  snprintf (header + 136, 12, "%011o", 0u);
  memset (header + 148, ' ', 8);
  header[156] = entry->type;
  if (entry->type == '1' || entry->type == '2')
    snprintf (header + 157, 100, "data/job.json");
  memcpy (header + 257, "ustar\0" "00", 8);
  for (gsize i = 0; i < sizeof header; i++)
    sum += (guchar) header[i];
  snprintf (header + 148, 8, "%06o", sum);
  g_byte_array_append (out, (const guint8 *) header, sizeof header);
}

/* Returns: (transfer full). */
static GByteArray *
pack (GPtrArray *entries)
{
  static const guint8 zeros[1024];
  GByteArray *out = g_byte_array_new ();

  for (guint i = 0; i < entries->len; i++)
    {
      const Entry *entry = g_ptr_array_index (entries, i);

      append_header (out, entry);
      g_byte_array_append (out, entry->bytes->data, entry->bytes->len);
      g_byte_array_append (out, zeros, (512 - entry->bytes->len % 512) % 512);
    }
  g_byte_array_append (out, zeros, 1024);
  return out;
}

/* --- changes ---------------------------------------------------------------------------------- */

static guint
any (guint n)
{
  return (guint) g_test_rand_int_range (0, (gint32) n);
}

/* Values that mean something to somebody. */
static guint8
odd_byte (void)
{
  static const guint8 odd[] = { 0, '\n', '\r', '/', '\\', '.', '%', ' ', ':', 0x7f, 0x80, 0xff, '0' };

  return any (2) == 0 ? odd[any (G_N_ELEMENTS (odd))] : (guint8) any (256);
}

static void
change_bytes (GByteArray *bytes)
{
  guint at = bytes->len > 0 ? any (bytes->len) : 0;
  guint8 byte = odd_byte ();

  switch (any (5))
    {
    case 0:
      if (bytes->len > 0)
        bytes->data[at] = byte;
      break;
    case 1:
      if (bytes->len > 0)
        g_byte_array_remove_range (bytes, at, 1 + any (MIN (bytes->len - at, 40)));
      break;
    case 2:
      g_byte_array_append (bytes, &byte, 1);
      memmove (bytes->data + at + 1, bytes->data + at, bytes->len - at - 1);
      bytes->data[at] = byte;
      break;
    case 3:
      g_byte_array_set_size (bytes, at);
      break;
    case 4:
      {
        g_autofree guint8 *copy = g_memdup2 (bytes->data + at, bytes->len - at);

        g_byte_array_append (bytes, copy, MIN (bytes->len - at, 200));
      }
      break;
    default:
      break;
    }
}

static void
change_name (Entry *entry)
{
  static const char *const odd[] = {
    "../x", "/x", "data/../x", "data\\x", "C:x", "data/JOB.json", "data/job.json", "bagit.txt",
    "manifest-md5.txt", "tagmanifest-sha256.txt", "fetch.txt", "data", "data/", "data/x/bagit.txt",
    "x/bagit.txt", "", ".", "./bagit.txt", "data/\xff", "data/e\xcc\x81", "data/photos", "NUL",
  };
  g_autofree char *before = g_steal_pointer (&entry->name);

  if (any (2) == 0)
    entry->name = g_strdup (odd[any (G_N_ELEMENTS (odd))]);
  else
    entry->name = g_strdup_printf ("%s%c", before, 'a' + (char) any (26));
}

static void
change_entries (GPtrArray *entries)
{
  static const char types[] = "0123456789AgxLKSVM";
  Entry *entry = entries->len > 0 ? g_ptr_array_index (entries, any (entries->len)) : NULL;
  Entry *other = entries->len > 0 ? g_ptr_array_index (entries, any (entries->len)) : NULL;

  if (entry == NULL)
    return;
  switch (any (7))
    {
    case 0:
    case 1:
      change_bytes (entry->bytes);
      break;
    case 2:
      change_name (entry);
      break;
    case 3:
      g_ptr_array_remove_index (entries, any (entries->len));
      break;
    case 4:
      add_entry (entries, entry->name, other->bytes->data, other->bytes->len, '0');
      break;
    case 5:
      entry->type = types[any (sizeof types - 1)];
      break;
    case 6:
      {
        GByteArray *bytes = entry->bytes;

        entry->bytes = other->bytes;
        other->bytes = bytes;
      }
      break;
    default:
      break;
    }
}

/* --- cases ------------------------------------------------------------------------------------ */

static void
sort_out (guint       *n_good,
          const char  *expected,
          GByteArray  *archive)
{
  g_autofree char *payload = fuzz_payload (archive->data, archive->len);

  if (payload == NULL)
    return;
  g_assert_cmpstr (payload, ==, expected);
  ++*n_good;
}

static void
test_files (void)
{
  g_autoptr (GPtrArray) good = good_entries ();
  g_autoptr (GByteArray) archive = pack (good);
  g_autofree char *expected = fuzz_payload (archive->data, archive->len);
  guint n_good = 0;

  g_assert_nonnull (expected);
  for (guint i = 0; i < rounds (); i++)
    {
      g_autoptr (GPtrArray) entries = g_ptr_array_new_with_free_func (entry_free);
      g_autoptr (GByteArray) changed = NULL;
      guint n = 1 + any (3);

      for (guint k = 0; k < good->len; k++)
        {
          const Entry *entry = g_ptr_array_index (good, k);

          add_entry (entries, entry->name, entry->bytes->data, entry->bytes->len, '0');
        }
      for (guint k = 0; k < n; k++)
        change_entries (entries);
      changed = pack (entries);
      sort_out (&n_good, expected, changed);
    }
  g_test_message ("%u of %u were good", n_good, rounds ());
  g_assert_cmpuint (n_good, <, rounds () / 2);
}

static void
test_archive (gconstpointer data)
{
  g_autoptr (GByteArray) good = good_archive (data);
  g_autofree char *expected = fuzz_payload (good->data, good->len);
  guint n_good = 0;

  g_assert_nonnull (expected);
  for (guint i = 0; i < rounds (); i++)
    {
      g_autoptr (GByteArray) changed = g_byte_array_new ();
      guint n = 1 + any (4);

      g_byte_array_append (changed, good->data, good->len);
      for (guint k = 0; k < n; k++)
        change_bytes (changed);
      sort_out (&n_good, expected, changed);
    }
  g_test_message ("%u of %u were good", n_good, rounds ());
}

/* Every part of the reader that takes text, with changed and with made-up ones. */
static void
test_texts (void)
{
  static const char *const texts[] = {
    "", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n",
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855  data/100%25\r\n",
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855  bagit.txt\n",
    "Payload-Oxum: 12.3\nA: b\n  c\r", "data/photos/caf\xc3\xa9.jpg",
  };

  for (guint i = 0; i < 10 * rounds (); i++)
    {
      guint part = 1 + any (FUZZ_N - 1);
      const char *text = texts[any (2) == 0 ? part : any (G_N_ELEMENTS (texts))];
      g_autoptr (GByteArray) input = g_byte_array_new ();
      guint n = any (5);

      g_byte_array_append (input, (const guint8 *) text, (guint) strlen (text));
      for (guint k = 0; k < n; k++)
        change_bytes (input);
      g_byte_array_set_size (input, input->len + 1);
      memmove (input->data + 1, input->data, input->len - 1);
      input->data[0] = (guint8) part;
      LLVMFuzzerTestOneInput (input->data, input->len);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share/mutations/files", test_files);
  g_test_add_data_func ("/share/mutations/archive/zip", "x.zip", test_archive);
  g_test_add_data_func ("/share/mutations/archive/tar.gz", "x.tar.gz", test_archive);
  g_test_add_func ("/share/mutations/texts", test_texts);
  return g_test_run ();
}
