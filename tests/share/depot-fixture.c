/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "depot-fixture.h"

#include "faulty-remote.h"
#include "support/wb-test-folder.h"

#include <glib/gstdio.h>
#include <string.h>

/* --- folders ---------------------------------------------------------------------------------- */

char *
depot_fixture_folder (void)
{
  g_autofree char *name = g_build_filename (g_access ("/dev/shm", W_OK) == 0 ? "/dev/shm"
                                                                             : g_get_tmp_dir (),
                                            "wainbook-depot-XXXXXX", NULL);
  char *folder = g_mkdtemp (g_steal_pointer (&name));

  g_assert_nonnull (folder);
  return folder;
}

void
depot_fixture_remove (const char *folder)
{
  wb_test_remove_tree (folder);
}

static void
add_files (GHashTable *files,
           const char *root,
           const char *prefix)
{
  g_autofree char *folder = g_build_filename (root, prefix, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = *prefix != '\0' ? g_strconcat (prefix, "/", name, NULL)
                                              : g_strdup (name);
      g_autofree char *place = g_build_filename (root, path, NULL);
      g_autofree char *text = NULL;
      gsize length;

      if (strcmp (path, "incoming") == 0)
        continue;
      if (g_file_test (place, G_FILE_TEST_IS_DIR))
        {
          add_files (files, root, path);
          continue;
        }
      g_assert_true (g_file_get_contents (place, &text, &length, NULL));
      g_hash_table_insert (files, g_steal_pointer (&path),
                           g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *) text,
                                                        length));
    }
}

GHashTable *
depot_fixture_files (const char *folder)
{
  GHashTable *files = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  add_files (files, folder, "");
  return files;
}

void
depot_fixture_write (const char *folder,
                     const char *path,
                     const char *text,
                     gssize      length)
{
  g_autofree char *place = g_build_filename (folder, path, NULL);
  g_autofree char *parent = g_path_get_dirname (place);

  g_assert_cmpint (g_mkdir_with_parents (parent, 0700), ==, 0);
  g_assert_true (g_file_set_contents (place, text, length, NULL));
}

/* --- drafts ----------------------------------------------------------------------------------- */

static WbDepotItem *
make_item (const char *folder,
           guint       seed,
           guint       index)
{
  guint size = (seed * 7919 + index * 104729) % 3000;
  g_autofree char *text = g_malloc0 (size + 1);
  g_autofree char *sha256 = NULL;
  g_autofree char *file = g_strdup_printf ("%s/%u-%u", folder, seed, index);
  g_autofree char *name = g_strdup_printf ("photos/%u.jpg", index);

  for (guint i = 0; i < size; i++)
    text[i] = (char) ('a' + (seed + index * 3 + i * i) % 26);
  sha256 = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *) text, size);
  g_assert_true (g_file_set_contents (file, text, size, NULL));
  return wb_depot_item_new (name, file, sha256, size);
}

DepotDraft *
depot_fixture_draft (const char       *folder,
                     const char       *job,
                     guint             seed,
                     guint             n_files,
                     const WbDepotJob *parents)
{
  DepotDraft *self = g_new0 (DepotDraft, 1);
  guint n = parents != NULL ? parents->heads->len : 0;

  self->parents = g_new0 (char *, n + 1);
  for (guint i = 0; i < n; i++)
    self->parents[i] = g_strdup (((WbVersion *) g_ptr_array_index (parents->heads, i))->sha256);
  self->text = g_strdup_printf ("{\"job\":%u}", seed);
  self->at = g_strdup_printf ("2026-03-05T08:%02u:%02uZ", seed / 60 % 60, seed % 60);
  self->draft.job = job;
  self->draft.parents = (const char *const *) self->parents;
  self->draft.at = self->at;
  self->draft.by = "R. Clerk";
  self->draft.desk = "front";
  self->draft.document = g_bytes_new (self->text, strlen (self->text));
  self->draft.items = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_depot_item_free);
  for (guint i = 0; i < n_files; i++)
    g_ptr_array_add (self->draft.items, make_item (folder, seed % 5, i));
  self->draft.summary = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, NULL);
  g_hash_table_insert (self->draft.summary, (gpointer) "customer", (gpointer) "A. Shipper");
  g_hash_table_insert (self->draft.summary, (gpointer) "number", self->at);
  return self;
}

void
depot_fixture_free (DepotDraft *self)
{
  if (self == NULL)
    return;
  g_strfreev (self->parents);
  g_bytes_unref (self->draft.document);
  g_ptr_array_unref (self->draft.items);
  g_hash_table_unref (self->draft.summary);
  g_free (self->text);
  g_free (self->at);
  g_free (self);
}

/* --- by a remote that works ------------------------------------------------------------------- */

char *
depot_fixture_publish (const char       *server,
                       const DepotDraft *draft)
{
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (GError) error = NULL;
  char *sha256;

  g_assert_true (wb_depot_publish (depot, &draft->draft, NULL, NULL, &sha256, NULL, &error));
  g_assert_no_error (error);
  g_assert_nonnull (sha256);
  return sha256;
}

WbDepotJob *
depot_fixture_look (const char *server,
                    const char *job)
{
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (GError) error = NULL;
  WbDepotJob *looked = wb_depot_heads (depot, job, NULL, &error);

  g_assert_no_error (error);
  return looked;
}

static void
check_file (const char          *folder,
            const WbVersionFile *file)
{
  g_autofree char *place = g_build_filename (folder, file->sha256, NULL);
  g_autofree char *text = NULL;
  g_autofree char *sha256 = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (place, &text, &length, NULL));
  sha256 = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *) text, length);
  g_assert_cmpstr (sha256, ==, file->sha256);
  g_assert_cmpint ((gint64) length, ==, file->size);
}

void
depot_fixture_check (const char      *server,
                     const WbVersion *version)
{
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autofree char *folder = depot_fixture_folder ();
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_depot_fetch (depot, version, folder, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  check_file (folder, &version->document);
  for (guint i = 0; i < version->files->len; i++)
    check_file (folder, g_ptr_array_index (version->files, i));
  depot_fixture_remove (folder);
}
