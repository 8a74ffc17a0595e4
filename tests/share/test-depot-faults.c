/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Publishing and fetching by a server that fails at any call, before or after what was asked for
 * was done, or half way, once or for good. After each fault a reader sees the versions before or
 * the new one, whole; nothing that stood is lost or changed; and the same once more completes it.
 * */
#include "config.h"

#include "depot-fixture.h"
#include "faulty-remote.h"

#include "share/wb-share.h"

#include <glib/gstdio.h>
#include <string.h>

#define ROUNDS 300

static guint
any (guint limit)
{
  return (guint) g_test_rand_int_range (0, (gint32) limit);
}

static guint
rounds (void)
{
  return g_test_slow () ? 10 * ROUNDS : ROUNDS;
}

static FaultPlan
any_plan (guint most)
{
  FaultPlan plan = { 0 };

  plan.at = 1 + any (most);
  plan.kind = (FaultKind) any (N_FAULT_KINDS);
  plan.dead = any (2) == 0;
  return plan;
}

/* --- what has to hold ------------------------------------------------------------------------- */

static gboolean
is_one_of (const WbDepotJob *job,
           const char       *sha256)
{
  for (guint i = 0; i < job->heads->len; i++)
    if (strcmp (((WbVersion *) g_ptr_array_index (job->heads, i))->sha256, sha256) == 0)
      return TRUE;
  return FALSE;
}

/* Either the heads of before, or one new head; whole in any case. Returns: whether it is new. */
static gboolean
check_reader (const char       *server,
              const WbDepotJob *before)
{
  g_autoptr (WbDepotJob) now = depot_fixture_look (server, "job");
  gboolean old = now->heads->len == before->heads->len;

  for (guint i = 0; i < now->heads->len; i++)
    {
      const WbVersion *head = g_ptr_array_index (now->heads, i);

      depot_fixture_check (server, head);
      old = old && is_one_of (before, head->sha256);
    }
  if (old)
    return FALSE;
  g_assert_cmpuint (now->heads->len, ==, 1);
  g_assert_cmpuint (now->versions->len, ==, before->versions->len + 1);
  return TRUE;
}

static void
check_nothing_lost (const char *server,
                    GHashTable *before)
{
  g_autoptr (GHashTable) now = depot_fixture_files (server);
  GHashTableIter iter;
  gpointer path, sha256;

  g_hash_table_iter_init (&iter, before);
  while (g_hash_table_iter_next (&iter, &path, &sha256))
    g_assert_cmpstr (g_hash_table_lookup (now, path), ==, sha256);
}

/* Every object and version on the server is what its name says. */
static void
check_names (const char *server)
{
  g_autoptr (GHashTable) files = depot_fixture_files (server);
  GHashTableIter iter;
  gpointer path, sha256;

  g_hash_table_iter_init (&iter, files);
  while (g_hash_table_iter_next (&iter, &path, &sha256))
    g_assert_true (strcmp (path, "wainbook.json") == 0 || strstr (path, sha256) != NULL);
}

/* --- publishing ------------------------------------------------------------------------------- */

static gboolean
try_to_publish (const char       *server,
                const char       *cache,
                const DepotDraft *draft,
                FaultPlan        *plan)
{
  g_autoptr (WbRemote) remote = faulty_remote_open (server, plan);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, cache, DEPOT_SERVER);
  g_autoptr (GError) error = NULL;
  g_autofree char *sha256 = NULL;
  gboolean done = wb_depot_publish (depot, &draft->draft, NULL, NULL, &sha256, NULL, &error);

  g_assert_true (done ? error == NULL : error != NULL);
  g_assert_true (!done || sha256 != NULL);
  /* Nobody else publishes, so nobody is to be told of it. */
  g_assert_false (g_error_matches (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CHANGED));
  return done;
}

/* Returns: number of faults. */
static guint
publish_with_faults (const char *server,
                     const char *here,
                     guint       seed)
{
  g_autoptr (WbDepotJob) before = depot_fixture_look (server, "job");
  g_autoptr (DepotDraft) draft = depot_fixture_draft (here, "job", seed, any (4), before);
  g_autoptr (GHashTable) files = depot_fixture_files (server);
  g_autoptr (WbDepotJob) after = NULL;
  /* One that has seen what is there trusts in it. */
  g_autofree char *cache = g_build_filename (here, "cache", NULL);
  g_autofree char *sha256 = NULL;
  guint n_faults = 0;
  gboolean done = FALSE;

  /* A mark of which only half was written does not count as something that stood. */
  if (before->versions->len == 0)
    g_hash_table_remove_all (files);
  for (guint attempt = 0; !done && attempt < 3; attempt++)
    {
      FaultPlan plan = any_plan (25);

      done = try_to_publish (server, cache, draft, &plan);
      n_faults += plan.n_calls >= plan.at;
      if (done)
        break;
      check_nothing_lost (server, files);
      check_reader (server, before);
    }

  if (any (2) == 0)
    {
      FaultPlan none = { 0 };

      g_assert_true (try_to_publish (server, cache, draft, &none));
    }
  sha256 = depot_fixture_publish (server, draft);
  after = depot_fixture_look (server, "job");
  g_assert_cmpuint (after->heads->len, ==, 1);
  g_assert_true (is_one_of (after, sha256));
  g_assert_cmpuint (after->versions->len, ==, before->versions->len + 1);
  g_assert_cmpuint (after->n_broken, ==, 0);
  check_reader (server, before);
  check_nothing_lost (server, files);
  check_names (server);
  return n_faults;
}

static void
test_publish (void)
{
  guint n_faults = 0;

  g_test_message ("random values: first number %d", g_test_rand_int ());
  while (n_faults < rounds ())
    {
      g_autofree char *server = depot_fixture_folder ();
      g_autofree char *here = depot_fixture_folder ();

      for (guint i = 0; i < 4; i++)
        n_faults += publish_with_faults (server, here, any (3000));
      depot_fixture_remove (server);
      depot_fixture_remove (here);
    }
  g_test_message ("%u faults", n_faults);
}

/* Each call of one publishing in turn, with each kind of fault. */
static void
test_each_call (void)
{
  guint n_calls = 0;

  for (guint at = 1; at == 1 || at <= n_calls; at++)
    for (guint kind = 0; kind < 2 * N_FAULT_KINDS; kind++)
      {
        g_autofree char *server = depot_fixture_folder ();
        g_autofree char *here = depot_fixture_folder ();
        g_autoptr (WbDepotJob) before = depot_fixture_look (server, "job");
        g_autoptr (DepotDraft) draft = depot_fixture_draft (here, "job", 7, 2, NULL);
        g_autofree char *sha256 = NULL;
        FaultPlan plan = { .at = at, .kind = (FaultKind) (kind / 2), .dead = kind % 2 == 0 };

        g_assert_false (try_to_publish (server, NULL, draft, &plan) && plan.dead &&
                        plan.n_calls > at);
        check_reader (server, before);
        sha256 = depot_fixture_publish (server, draft);
        g_assert_true (check_reader (server, before));
        check_names (server);
        if (kind == 0)
          {
            FaultPlan none = { 0 };
            g_autofree char *other = depot_fixture_folder ();

            g_assert_true (try_to_publish (other, NULL, draft, &none));
            n_calls = none.n_calls;
            depot_fixture_remove (other);
          }
        depot_fixture_remove (server);
        depot_fixture_remove (here);
      }
  g_assert_cmpuint (n_calls, >, 8);
}

/* --- fetching --------------------------------------------------------------------------------- */

static gboolean
try_to_fetch (const char      *server,
              const WbVersion *version,
              const char      *folder,
              FaultPlan       *plan)
{
  g_autoptr (WbRemote) remote = faulty_remote_open (server, plan);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (GError) error = NULL;
  gboolean done = wb_depot_fetch (depot, version, folder, NULL, NULL, NULL, &error);

  g_assert_true (done ? error == NULL : error != NULL);
  return done;
}

/* Whatever lies in @folder under a hash is that. */
static void
check_fetched (const char *folder)
{
  g_autoptr (GHashTable) files = depot_fixture_files (folder);
  GHashTableIter iter;
  gpointer path, sha256;

  g_hash_table_iter_init (&iter, files);
  while (g_hash_table_iter_next (&iter, &path, &sha256))
    g_assert_true (g_str_has_suffix (path, ".part") || strcmp (path, sha256) == 0);
}

static void
test_fetch (void)
{
  g_autofree char *server = depot_fixture_folder ();
  g_autofree char *here = depot_fixture_folder ();
  g_autoptr (DepotDraft) draft = depot_fixture_draft (here, "job", 3, 5, NULL);
  g_autofree char *sha256 = depot_fixture_publish (server, draft);
  g_autoptr (WbDepotJob) job = depot_fixture_look (server, "job");
  const WbVersion *version = g_ptr_array_index (job->heads, 0);
  guint n_faults = 0;

  g_test_message ("random values: first number %d", g_test_rand_int ());
  while (n_faults < rounds ())
    {
      g_autofree char *folder = depot_fixture_folder ();
      g_autoptr (GHashTable) files = NULL;
      FaultPlan none = { 0 };
      gboolean done = FALSE;

      while (!done)
        {
          FaultPlan plan = any_plan (8);

          done = try_to_fetch (server, version, folder, &plan);
          n_faults += plan.n_calls >= plan.at;
          check_fetched (folder);
        }
      g_assert_true (try_to_fetch (server, version, folder, &none));
      g_assert_cmpuint (none.n_gets, ==, 0);
      files = depot_fixture_files (folder);
      g_assert_cmpuint (g_hash_table_size (files), ==, 6);
      depot_fixture_remove (folder);
    }
  depot_fixture_remove (server);
  depot_fixture_remove (here);
}

/* What came before a fault does not come again. */
static void
test_fetch_resumed (void)
{
  g_autofree char *server = depot_fixture_folder ();
  g_autofree char *here = depot_fixture_folder ();
  g_autofree char *folder = depot_fixture_folder ();
  g_autoptr (DepotDraft) draft = depot_fixture_draft (here, "job", 3, 1, NULL);
  g_autofree char *sha256 = depot_fixture_publish (server, draft);
  g_autoptr (WbDepotJob) job = depot_fixture_look (server, "job");
  const WbVersion *version = g_ptr_array_index (job->heads, 0);
  const WbVersionFile *file = g_ptr_array_index (version->files, 0);
  FaultPlan first = { .at = 2, .kind = FAULT_HALF }, second = { 0 };

  g_assert_cmpint (file->size, >, 100);
  g_assert_false (try_to_fetch (server, version, folder, &first));
  g_assert_true (try_to_fetch (server, version, folder, &second));
  g_assert_cmpint (first.n_bytes + second.n_bytes, ==, version->document.size + file->size);

  /* A part that is something else is given up for the right one. */
  {
    g_autofree char *name = g_strconcat (file->sha256, ".part", NULL);
    g_autofree char *place = g_build_filename (folder, file->sha256, NULL);
    FaultPlan third = { 0 };

    depot_fixture_write (folder, name, "something else", -1);
    g_assert_cmpint (g_unlink (place), ==, 0);
    g_assert_true (try_to_fetch (server, version, folder, &third));
    check_fetched (folder);
  }
  depot_fixture_remove (server);
  depot_fixture_remove (here);
  depot_fixture_remove (folder);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/depot/faults/publish", test_publish);
  g_test_add_func ("/depot/faults/each-call", test_each_call);
  g_test_add_func ("/depot/faults/fetch", test_fetch);
  g_test_add_func ("/depot/faults/fetch-resumed", test_fetch_resumed);
  return g_test_run ();
}
