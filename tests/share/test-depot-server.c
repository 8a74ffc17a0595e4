/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published jobs on a real server. Run by tests/support/with-server, which says where it is; all
 * cases share one depot there, each with a job of its own.
 *
 *     test-share-depot-server webdav|sftp|s3 */
#include "config.h"

#include "depot-fixture.h"
#include "remote-env.h"

#include "share/wb-share.h"

#include <string.h>

static char *here;

static WbRemote *
open_remote (void)
{
  g_autoptr (GError) error = NULL;
  WbRemote *remote = remote_from_environment (NULL, &error);

  g_assert_no_error (error);
  return remote;
}

static WbDepotJob *
look (const char *job)
{
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (GError) error = NULL;
  WbDepotJob *looked = wb_depot_heads (depot, job, NULL, &error);

  g_assert_no_error (error);
  return looked;
}

/* Returns: (transfer full) (nullable): the hash of what stands. */
static char *
publish (const DepotDraft  *draft,
         GError           **error)
{
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  char *sha256 = NULL;
  gboolean done = wb_depot_publish (depot, &draft->draft, NULL, NULL, &sha256, NULL, error);

  g_assert_true (!done || sha256 != NULL);
  return sha256;
}

static char *
publish_well (const DepotDraft *draft)
{
  g_autoptr (GError) error = NULL;
  char *sha256 = publish (draft, &error);

  g_assert_no_error (error);
  return sha256;
}

static void
count_states (const WbVersionFile *file,
              WbDepotState         state,
              gpointer             data)
{
  guint *counts = data;

  counts[state]++;
}

/* Two versions, each fetched whole and verified; the same draft once more is found. */
static void
test_versions (void)
{
  g_autoptr (DepotDraft) first = depot_fixture_draft (here, "versions", 1, 3, NULL);
  g_autofree char *one = publish_well (first);
  g_autofree char *again = publish_well (first);
  g_autoptr (WbDepotJob) seen = look ("versions");
  g_autoptr (DepotDraft) second = depot_fixture_draft (here, "versions", 2, 4, seen);
  g_autofree char *two = publish_well (second);
  g_autoptr (WbDepotJob) job = look ("versions");
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autofree char *folder = depot_fixture_folder ();
  g_autoptr (GHashTable) files = NULL;
  g_autoptr (GError) error = NULL;
  const WbVersion *head;
  guint counts[4] = { 0 };

  g_assert_cmpstr (one, ==, again);
  g_assert_cmpuint (job->versions->len, ==, 2);
  g_assert_cmpuint (job->heads->len, ==, 1);
  head = g_ptr_array_index (job->heads, 0);
  g_assert_cmpstr (head->sha256, ==, two);
  g_assert_true (wb_depot_fetch (depot, head, folder, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  files = depot_fixture_files (folder);
  g_assert_cmpuint (g_hash_table_size (files), ==, 5);
  g_assert_true (wb_depot_verify (depot, head, count_states, counts, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (counts[WB_DEPOT_SAME], ==, 5);
  depot_fixture_remove (folder);
}

/* A file cut off here goes on where it ended. */
static void
test_resumed (void)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (here, "resumed", 3, 1, NULL);
  g_autofree char *sha256 = publish_well (draft);
  g_autoptr (WbDepotJob) job = look ("resumed");
  const WbVersion *head = g_ptr_array_index (job->heads, 0);
  const WbVersionFile *file = g_ptr_array_index (head->files, 0);
  const WbDepotItem *item = g_ptr_array_index (draft->draft.items, 0);
  g_autoptr (WbRemote) remote = open_remote ();
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autofree char *folder = depot_fixture_folder ();
  g_autofree char *part = g_strconcat (file->sha256, ".part", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GHashTable) files = NULL;

  g_assert_cmpint (file->size, >, 100);
  g_assert_true (g_file_get_contents (item->file, &text, NULL, NULL));
  depot_fixture_write (folder, part, text, (gssize) file->size / 2);
  g_assert_true (wb_depot_fetch (depot, head, folder, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  files = depot_fixture_files (folder);
  g_assert_cmpstr (g_hash_table_lookup (files, file->sha256), ==, file->sha256);
  depot_fixture_remove (folder);
}

static gpointer
publish_in_thread (gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *sha256 = publish (data, &error);

  if (error != NULL && !g_error_matches (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CHANGED))
    g_error ("%s", error->message);
  /* Who was told that somebody else published is known by a sign in front. */
  if (error == NULL || sha256 == NULL)
    return g_steal_pointer (&sha256);
  return g_strconcat ("!", sha256, NULL);
}

/* Both start from the same heads at once. What stands, stands whole; if both do, somebody was told,
 * and one version of both heads makes one head again. */
static void
test_race (void)
{
  for (guint round = 0; round < 3; round++)
    {
      g_autoptr (WbDepotJob) before = look ("race");
      g_autoptr (DepotDraft) mine = depot_fixture_draft (here, "race", 10 + 3 * round, 1, before);
      g_autoptr (DepotDraft) theirs = depot_fixture_draft (here, "race", 11 + 3 * round, 1, before);
      GThread *thread = g_thread_new ("rival", publish_in_thread, theirs);
      g_autofree char *one = publish_in_thread (mine);
      g_autofree char *other = g_thread_join (thread);
      g_autoptr (WbDepotJob) after = look ("race");
      guint n_standing = (one != NULL) + (other != NULL);

      g_assert_cmpuint (n_standing, >=, 1);
      g_assert_cmpuint (after->heads->len, ==, n_standing);
      g_assert_cmpuint (after->versions->len, ==, before->versions->len + n_standing);
      g_test_message ("%u stand", n_standing);
      if (n_standing == 2)
        {
          g_autoptr (DepotDraft) merged = depot_fixture_draft (here, "race", 12 + 3 * round, 1,
                                                               after);
          g_autofree char *sha256 = publish_well (merged);
          g_autoptr (WbDepotJob) healed = look ("race");

          g_assert_true (one[0] == '!' || other[0] == '!');
          g_assert_cmpuint (healed->heads->len, ==, 1);
        }
    }
}

static void
test_list (void)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (here, "listed", 4, 1, NULL);
  g_autofree char *sha256 = publish_well (draft);
  g_autofree char *cache = g_build_filename (here, "cache", NULL);

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (WbRemote) remote = open_remote ();
      g_autoptr (WbDepot) depot = wb_depot_new (remote, cache, DEPOT_SERVER);
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) jobs = wb_depot_list (depot, NULL, &error);
      gboolean found = FALSE;

      g_assert_no_error (error);
      for (guint k = 0; k < jobs->len; k++)
        {
          const WbDepotJob *job = g_ptr_array_index (jobs, k);

          g_assert_no_error (job->error);
          if (strcmp (job->job, "listed") != 0)
            continue;
          found = TRUE;
          g_assert_cmpuint (job->heads->len, ==, 1);
          g_assert_cmpstr (((WbVersion *) g_ptr_array_index (job->heads, 0))->sha256, ==, sha256);
        }
      g_assert_true (found);
    }
}

int
main (int    argc,
      char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  if (argc != 2)
    return 2;
  g_setenv ("WB_SERVER_KIND", argv[1], TRUE);
  here = depot_fixture_folder ();
  g_test_add_func ("/depot/server/versions", test_versions);
  g_test_add_func ("/depot/server/resumed", test_resumed);
  g_test_add_func ("/depot/server/race", test_race);
  g_test_add_func ("/depot/server/list", test_list);
  status = g_test_run ();
  depot_fixture_remove (here);
  g_free (here);
  return status;
}
