/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bags that are written and read back, in all three shapes: what went in comes out, the same input
 * gives the same bytes, and whatever stops the writing leaves nothing behind. */
#include "config.h"

#include "share/wb-bag.h"
#include "share/wb-share.h"
#include "support/wb-test-folder.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char *const shapes[] = { "bag", "bag.zip", "bag.tar.gz" };

typedef struct
{
  char      *root;
  char      *scratch;
  GPtrArray *items;
  GPtrArray *contents;   /* GBytes, of @items before they are sorted */
} Fixture;

static guint
count_entries (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  guint n = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture->root = g_dir_make_tmp ("wainbook-XXXXXX", &error);
  g_assert_no_error (error);
  fixture->scratch = g_build_filename (fixture->root, "scratch", NULL);
  fixture->items = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_bag_item_free);
  fixture->contents = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  g_ptr_array_unref (fixture->items);
  g_ptr_array_unref (fixture->contents);
  wb_test_remove_tree (fixture->root);
  g_free (fixture->root);
  g_free (fixture->scratch);
}

static char *
place (Fixture    *fixture,
       const char *name)
{
  return g_build_filename (fixture->root, name, NULL);
}

/* Bytes of which no file of a known kind consists. */
static GBytes *
random_bytes (gsize length)
{
  guint8 *bytes = g_malloc (length + 1);

  for (gsize i = 0; i < length; i++)
    bytes[i] = (guint8) g_test_rand_int_range (0, 256);
  if (length > 0)
    bytes[0] = 'x';
  if (length > 257)
    bytes[257] = 'x';
  return g_bytes_new_take (bytes, length);
}

static void
add_bytes (Fixture    *fixture,
           const char *path,
           GBytes     *bytes)
{
  g_ptr_array_add (fixture->items, wb_bag_item_new_bytes (path, bytes));
  g_ptr_array_add (fixture->contents, g_bytes_ref (bytes));
}

static void
add_file (Fixture    *fixture,
          const char *path,
          GBytes     *bytes)
{
  g_autofree char *name = g_strdup_printf ("source-%u", fixture->items->len);
  g_autofree char *file = place (fixture, name);
  g_autofree char *hash = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (file, g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes),
                       &error);
  g_assert_no_error (error);
  g_ptr_array_add (fixture->items, wb_bag_item_new_file (path, file, hash));
  g_ptr_array_add (fixture->contents, g_bytes_ref (bytes));
}

/* Empty, small and larger ones; some from memory and some from the disk. */
static void
add_some (Fixture *fixture,
          guint    n)
{
  static const char *const folders[] = { "", "photos/", "papers/", "other 100%/" };

  for (guint i = 0; i < n; i++)
    {
      gsize length = (gsize) g_test_rand_int_range (0, i % 5 == 0 ? 600000 : 300);
      g_autoptr (GBytes) bytes = random_bytes (length);
      g_autofree char *path = g_strdup_printf ("data/%sfile %u%% of it", folders[i % 4], i);

      if (i % 2 == 0)
        add_bytes (fixture, path, bytes);
      else
        add_file (fixture, path, bytes);
    }
}

static const char *const info[] = {
  "Bag-Software-Agent", "a test",
  "Bagging-Date", "2026-03-04",
  "External-Identifier", "J-2026-0001\nnot: a line of its own",
  NULL,
};

static gboolean
write_bag (Fixture    *fixture,
           const char *target,
           gboolean    replace,
           GError    **error)
{
  return wb_bag_write (target, "J 1/..", fixture->items, info, replace, NULL, NULL, NULL, error);
}

static WbBag *
read_bag (Fixture    *fixture,
          const char *source,
          GError    **error)
{
  return wb_bag_read (source, NULL, fixture->scratch, NULL, NULL, NULL, error);
}

/* --- there and back --------------------------------------------------------------------------- */

static void
assert_same (Fixture *fixture,
             WbBag   *bag,
             GHashTable *by_hash)
{
  GPtrArray *payload = wb_bag_get_payload (bag);

  g_assert_cmpuint (payload->len, ==, fixture->items->len);
  for (guint i = 0; i < payload->len; i++)
    {
      const WbBagFile *file = g_ptr_array_index (payload, i);
      g_autofree char *text = NULL;
      g_autofree char *hash = NULL;
      gsize length;
      g_autoptr (GError) error = NULL;

      g_file_get_contents (file->copy, &text, &length, &error);
      g_assert_no_error (error);
      g_assert_cmpint (file->size, ==, (gint64) length);
      hash = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) text, length);
      g_assert_cmpstr (hash, ==, file->sha256);
      g_assert_true (g_hash_table_contains (by_hash, hash));
      g_assert_true (wb_bag_find (bag, file->path) == file);
    }
}

static void
test_round_trip (Fixture       *fixture,
                 gconstpointer  data)
{
  const char *shape = data;
  g_autofree char *target = place (fixture, shape);
  g_autoptr (GHashTable) by_hash = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (WbBag) bag = NULL;
  g_autoptr (GError) error = NULL;

  add_some (fixture, 25);
  for (guint i = 0; i < fixture->contents->len; i++)
    g_hash_table_add (by_hash,
                      g_compute_checksum_for_bytes (G_CHECKSUM_SHA256,
                                                    g_ptr_array_index (fixture->contents, i)));
  write_bag (fixture, target, FALSE, &error);
  g_assert_no_error (error);
  bag = read_bag (fixture, target, &error);
  g_assert_no_error (error);
  assert_same (fixture, bag, by_hash);
  g_assert_cmpstr (wb_bag_get_info (bag, "bagging-date"), ==, "2026-03-04");
  g_assert_cmpstr (wb_bag_get_info (bag, "External-Identifier"), ==,
                   "J-2026-0001 not: a line of its own");
  g_assert_null (wb_bag_get_info (bag, "not"));
  g_assert_cmpuint (count_entries (fixture->scratch), ==, 1);
  g_clear_pointer (&bag, wb_bag_free);
  g_assert_cmpuint (count_entries (fixture->scratch), ==, 0);
}

static void
test_same_bytes (Fixture       *fixture,
                 gconstpointer  data)
{
  const char *shape = data;
  g_autofree char *one = g_strconcat (fixture->root, "/one-", shape, NULL);
  g_autofree char *other = g_strconcat (fixture->root, "/other-", shape, NULL);
  g_autofree char *first = NULL, *second = NULL;
  gsize first_length, second_length;
  g_autoptr (GError) error = NULL;

  add_some (fixture, 12);
  g_setenv ("TZ", "America/Chicago", TRUE);
  write_bag (fixture, one, FALSE, &error);
  g_assert_no_error (error);

  /* Another order, another second, another zone. */
  g_ptr_array_insert (fixture->items, 0, g_ptr_array_steal_index (fixture->items, 7));
  g_usleep (2100000);
  g_setenv ("TZ", "UTC", TRUE);
  write_bag (fixture, other, FALSE, &error);
  g_assert_no_error (error);

  g_file_get_contents (one, &first, &first_length, &error);
  g_assert_no_error (error);
  g_file_get_contents (other, &second, &second_length, &error);
  g_assert_no_error (error);
  g_assert_cmpmem (first, first_length, second, second_length);
}

/* --- what is in the way ----------------------------------------------------------------------- */

static void
test_exists (Fixture       *fixture,
             gconstpointer  data)
{
  const char *shape = data;
  g_autofree char *target = place (fixture, shape);
  g_autofree char *held = NULL;
  g_autoptr (GError) error = NULL;
  guint before;

  add_some (fixture, 3);
  before = count_entries (fixture->root);
  if (wb_bag_name_is_archive (shape))
    g_file_set_contents (target, "mine", -1, &error);
  else
    g_assert_cmpint (g_mkdir (target, 0700), ==, 0);
  g_assert_no_error (error);

  g_assert_false (write_bag (fixture, target, FALSE, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_EXISTS);
  g_clear_error (&error);
  g_assert_cmpuint (count_entries (fixture->root), ==, before + 1);

  /* An archive may be replaced when that was asked for; a folder never is. */
  g_assert_true (write_bag (fixture, target, TRUE, &error) == wb_bag_name_is_archive (shape));
  if (wb_bag_name_is_archive (shape))
    {
      g_autoptr (WbBag) bag = read_bag (fixture, target, &error);

      g_assert_no_error (error);
      g_assert_nonnull (bag);
    }
  else
    {
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_EXISTS);
      g_assert_cmpuint (count_entries (target), ==, 0);
    }
  g_assert_cmpuint (count_entries (fixture->root), <=, before + 2);
}

static void
test_no_folder (Fixture       *fixture,
                gconstpointer  data)
{
  g_autofree char *target = g_strconcat (fixture->root, "/nowhere/", data, NULL);
  g_autoptr (GError) error = NULL;

  add_some (fixture, 3);
  g_assert_false (write_bag (fixture, target, FALSE, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND);
}

/* A file that changed since its hash was taken. */
static void
test_changed (Fixture       *fixture,
              gconstpointer  data)
{
  static const char *const now[] = { "", "shorter", "another as long as it was",
                                     "something longer than what was there" };
  g_autofree char *target = place (fixture, data);
  g_autofree char *file = place (fixture, "source-0");
  g_autoptr (GBytes) bytes = g_bytes_new_static ("the first as long as this", 25);

  add_file (fixture, "data/photo", bytes);
  for (gsize i = 0; i < G_N_ELEMENTS (now); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_true (g_file_set_contents (file, now[i], -1, NULL));
      g_assert_false (write_bag (fixture, target, FALSE, &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_SOURCE);
      g_assert_cmpuint (count_entries (fixture->root), ==, 1);
    }
  g_remove (file);
  g_assert_false (write_bag (fixture, target, FALSE, NULL));
  g_assert_cmpuint (count_entries (fixture->root), ==, 0);
}

static void
test_cannot_be_read_back (Fixture       *fixture,
                          gconstpointer  data)
{
  static const struct
  {
    const char  *path;
    const char  *other;
    const char  *text;
    WbShareError code;
  } rows[] = {
    { "data/../x", "data/y", "", WB_SHARE_ERROR_NAME },
    { "bagit.txt", "data/y", "", WB_SHARE_ERROR_NAME },
    { "data/a\nb", "data/y", "", WB_SHARE_ERROR_NAME },
    { "data/\xc3\xa9", "data/y", "", WB_SHARE_ERROR_NAME },
    { "data/a", "data/A", "", WB_SHARE_ERROR_CLASH },
    { "data/a", "data/b", "PK\003\004", WB_SHARE_ERROR_NESTED },
  };
  g_autofree char *target = place (fixture, data);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GBytes) bytes = g_bytes_new_static (rows[i].text, strlen (rows[i].text));
      g_autoptr (GError) error = NULL;

      g_ptr_array_set_size (fixture->items, 0);
      add_bytes (fixture, rows[i].path, bytes);
      add_bytes (fixture, rows[i].other, bytes);
      g_assert_false (write_bag (fixture, target, FALSE, &error));
      g_assert_error (error, WB_SHARE_ERROR, (int) rows[i].code);
      g_assert_cmpuint (count_entries (fixture->root), ==, 0);
    }
}

/* --- stopping --------------------------------------------------------------------------------- */

typedef struct
{
  GCancellable *cancellable;
  gint64        at;
  gint64        last;
  guint         n;
} Stop;

static void
progress_cb (gint64   done,
             gint64   all,
             gpointer data)
{
  Stop *stop = data;

  g_assert_cmpint (done, >=, stop->last);
  stop->last = done;
  stop->n++;
  if (done >= stop->at)
    g_cancellable_cancel (stop->cancellable);
}

static void
test_cancel (Fixture       *fixture,
             gconstpointer  data)
{
  g_autofree char *target = place (fixture, data);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  Stop stop = { cancellable, 200000 };
  g_autoptr (GBytes) bytes = random_bytes (900000);
  g_autoptr (GError) error = NULL;

  add_bytes (fixture, "data/a", bytes);
  add_file (fixture, "data/b", bytes);
  g_assert_false (wb_bag_write (target, "b", fixture->items, info, FALSE, progress_cb, &stop,
                                cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_clear_error (&error);
  g_assert_cmpuint (stop.n, >, 0);
  g_assert_cmpuint (count_entries (fixture->root), ==, 1);

  write_bag (fixture, target, FALSE, &error);
  g_assert_no_error (error);
  g_cancellable_reset (cancellable);
  stop = (Stop) { cancellable, 200000 };
  g_assert_null (wb_bag_read (target, NULL, fixture->scratch, progress_cb, &stop, cancellable,
                              &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_assert_cmpuint (count_entries (fixture->scratch), ==, 0);
}

/* --- limits ----------------------------------------------------------------------------------- */

static void
test_limits (Fixture       *fixture,
             gconstpointer  data)
{
  g_autofree char *target = place (fixture, data);
  g_autoptr (GBytes) bytes = g_bytes_new_take (g_strnfill (300000, 'x'), 300000);
  gboolean archive = wb_bag_name_is_archive (data);
  g_autoptr (GError) error = NULL;
  struct
  {
    WbBagLimits  limits;
    WbShareError code;
  } rows[] = {
    { wb_bag_limits, WB_SHARE_ERROR_LIMIT }, { wb_bag_limits, WB_SHARE_ERROR_LIMIT },
    { wb_bag_limits, WB_SHARE_ERROR_LIMIT }, { wb_bag_limits, WB_SHARE_ERROR_LIMIT },
    { wb_bag_limits, WB_SHARE_ERROR_RATIO },
  };

  add_bytes (fixture, "data/a", bytes);
  add_bytes (fixture, "data/b", bytes);
  write_bag (fixture, target, FALSE, &error);
  g_assert_no_error (error);

  rows[0].limits.max_files = 5;
  rows[1].limits.max_bytes = 599999;
  rows[2].limits.max_file_bytes = 299999;
  rows[3].limits.max_tag_bytes = 80;
  rows[4].limits.max_ratio = 20;
  rows[4].limits.ratio_slack = 100000;
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (WbBag) bag = wb_bag_read (target, &rows[i].limits, fixture->scratch, NULL, NULL,
                                           NULL, &error);

      /* A folder is not compressed. */
      if (rows[i].code == WB_SHARE_ERROR_RATIO && !archive)
        {
          g_assert_no_error (error);
          continue;
        }
      g_assert_error (error, WB_SHARE_ERROR, (int) rows[i].code);
      g_assert_null (bag);
      g_clear_error (&error);
      g_assert_cmpuint (count_entries (fixture->scratch), ==, 0);
    }
}

int
main (int    argc,
      char **argv)
{
  static const struct
  {
    const char *name;
    void      (*run) (Fixture *, gconstpointer);
    gboolean    archives_only;
  } cases[] = {
    { "round-trip", test_round_trip, FALSE },
    { "same-bytes", test_same_bytes, TRUE },
    { "exists", test_exists, FALSE },
    { "no-folder", test_no_folder, FALSE },
    { "changed", test_changed, FALSE },
    { "cannot-be-read-back", test_cannot_be_read_back, FALSE },
    { "cancel", test_cancel, FALSE },
    { "limits", test_limits, FALSE },
  };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    for (gsize k = cases[i].archives_only ? 1 : 0; k < G_N_ELEMENTS (shapes); k++)
      {
        g_autofree char *path = g_strdup_printf ("/share/bag/%s/%s", cases[i].name, shapes[k]);

        g_test_add (path, Fixture, shapes[k], set_up, cases[i].run, tear_down);
      }
  return g_test_run ();
}
