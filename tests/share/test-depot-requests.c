/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How often a publisher asks the server, and in what it trusts without asking: a computer that has
 * seen everything that a version names does not look at it again, until it sees that something is
 * gone. */
#include "config.h"

#include "depot-fixture.h"
#include "faulty-remote.h"

#include "share/wb-share.h"

#include <glib/gstdio.h>

typedef struct
{
  char *server;
  char *here;
} Case;

static void
setup (Case         *self,
       gconstpointer data)
{
  self->server = depot_fixture_folder ();
  self->here = depot_fixture_folder ();
}

static void
teardown (Case         *self,
          gconstpointer data)
{
  depot_fixture_remove (self->server);
  depot_fixture_remove (self->here);
  g_free (self->server);
  g_free (self->here);
}

static const WbVersion *
only_head (const WbDepotJob *job)
{
  g_assert_cmpuint (job->heads->len, ==, 1);
  return g_ptr_array_index (job->heads, 0);
}

/* --- requests --------------------------------------------------------------------------------- */

/* Publishes by a computer whose cache is @cache. Returns: number of calls that it took. */
static guint
calls_of_next (const Case *self,
               const char *cache,
               guint       seed,
               guint       n_files,
               FaultPlan  *plan)
{
  g_autoptr (WbDepotJob) seen = depot_fixture_look (self->server, "job");
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", seed, n_files, seen);
  g_autoptr (WbRemote) remote = faulty_remote_open (self->server, plan);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, cache, DEPOT_SERVER);
  g_autoptr (GError) error = NULL;

  plan->n_calls = plan->n_puts = 0;
  g_assert_true (wb_depot_publish (depot, &draft->draft, NULL, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  return plan->n_calls;
}

/* How long a job's past is, and how many photos it has that are there, costs no request. */
static void
test_requests (Case         *self,
               gconstpointer data)
{
  g_autofree char *cache = g_build_filename (self->here, "cache", NULL);
  g_autofree char *other = g_build_filename (self->here, "other", NULL);
  g_autoptr (WbDepotJob) after = NULL;
  FaultPlan plan = { 0 };
  guint first = calls_of_next (self, cache, 0, 40, &plan);
  guint second = calls_of_next (self, cache, 5, 40, &plan);

  g_assert_cmpuint (first, >=, 40);
  /* Mark, three lists, two versions read, the document and the version put. */
  g_assert_cmpuint (second, <=, 8);
  g_assert_cmpuint (plan.n_puts, ==, 2);
  for (guint i = 2; i < 12; i++)
    g_assert_cmpuint (calls_of_next (self, cache, 5 * i, 40, &plan), ==, second);
  /* Two photos more, one call for each. */
  g_assert_cmpuint (calls_of_next (self, cache, 60, 42, &plan), ==, second + 2);
  g_assert_cmpuint (plan.n_puts, ==, 4);

  /* Another computer has seen nothing, and looks at everything once. */
  g_assert_cmpuint (calls_of_next (self, other, 65, 42, &plan), >=, second + 42);
  g_assert_cmpuint (plan.n_puts, ==, 2);
  g_assert_cmpuint (calls_of_next (self, other, 70, 42, &plan), ==, second);
  /* The first one has not seen what the other one has put. */
  g_assert_cmpuint (calls_of_next (self, cache, 75, 42, &plan), >=, second + 42);
  after = depot_fixture_look (self->server, "job");
  g_assert_cmpuint (after->versions->len, ==, 16);
  depot_fixture_check (self->server, g_ptr_array_index (after->heads, 0));
}

static void
take_away (const Case          *self,
           const WbVersionFile *file)
{
  g_autofree char *path = g_strdup_printf ("%s/objects/%.2s/%s", self->server, file->sha256,
                                           file->sha256);

  g_assert_cmpint (g_unlink (path), ==, 0);
}

static void
lengthen (const Case          *self,
          const WbVersionFile *file)
{
  g_autofree char *path = g_strdup_printf ("%s/objects/%.2s/%s", self->server, file->sha256,
                                           file->sha256);
  FILE *stream = g_fopen (path, "ab");

  g_assert_nonnull (stream);
  g_assert_cmpint (fputs ("more", stream), >=, 0);
  g_assert_cmpint (fclose (stream), ==, 0);
}

static void
ignore_state (const WbVersionFile *file,
              WbDepotState         state,
              gpointer             data)
{
}

/* Once a computer has seen that a file is not there any more, or not what it was, it trusts in nothing
 * and puts it anew; that the document alone could be read since says nothing of the others. */
static void
test_trust_ends (Case         *self,
                 gconstpointer data)
{
  for (guint way = 0; way < 4; way++)
    {
      g_autofree char *name = g_strdup_printf ("folder%u", way);
      g_autofree char *cache = g_build_filename (self->here, "cache", NULL);
      g_autofree char *folder = g_build_filename (self->here, name, NULL);
      g_autoptr (WbDepotJob) seen = NULL;
      g_autoptr (WbDepotJob) after = NULL;
      FaultPlan plan = { 0 };
      const WbVersion *head;

      (void) calls_of_next (self, cache, 10 * way, 5, &plan);
      seen = depot_fixture_look (self->server, "job");
      head = only_head (seen);
      if (way == 3)
        lengthen (self, g_ptr_array_index (head->files, 3));
      else
        take_away (self, g_ptr_array_index (head->files, 3));
      {
        g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
        g_autoptr (WbDepot) depot = wb_depot_new (remote, cache, DEPOT_SERVER);
        g_autoptr (GError) error = NULL;

        if (way == 0 || way == 3)
          g_assert_false (wb_depot_fetch (depot, head, folder, NULL, NULL, NULL, &error));
        else
          g_assert_true (wb_depot_verify (depot, head, ignore_state, NULL, NULL, NULL, NULL,
                                          &error));
        if (way == 2)
          g_assert_true (wb_depot_fetch_document (depot, head, folder, NULL, NULL, NULL, &error));
      }
      (void) calls_of_next (self, cache, 10 * way + 5, 5, &plan);
      after = depot_fixture_look (self->server, "job");
      depot_fixture_check (self->server, only_head (after));
    }
}

/* What was fetched whole, or read whole, was seen by this computer as well. */
static void
test_seen_by_reading (Case         *self,
                      gconstpointer data)
{
  g_autofree char *mine = g_build_filename (self->here, "mine", NULL);
  g_autofree char *cache = g_build_filename (self->here, "cache", NULL);
  g_autofree char *folder = g_build_filename (self->here, "folder", NULL);
  FaultPlan plan = { 0 };

  (void) calls_of_next (self, mine, 0, 10, &plan);
  for (guint way = 0; way < 2; way++)
    {
      g_autoptr (WbDepotJob) seen = depot_fixture_look (self->server, "job");
      g_autoptr (GError) error = NULL;

      {
        g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
        g_autoptr (WbDepot) depot = wb_depot_new (remote, cache, DEPOT_SERVER);
        g_autoptr (WbDepotJob) known = wb_depot_heads (depot, "job", NULL, &error);

        g_assert_no_error (error);
        g_assert_true (way == 0
                         ? wb_depot_fetch (depot, only_head (known), folder, NULL, NULL, NULL,
                                           &error)
                         : wb_depot_verify (depot, only_head (known), ignore_state, NULL, NULL,
                                            NULL, NULL, &error));
      }
      g_assert_cmpuint (calls_of_next (self, cache, 10 * way + 5, 10, &plan), <=, 8);
      (void) calls_of_next (self, mine, 10 * way + 10, 10, &plan);
    }
}

/* Each file is there already when it is put, for its own answer was lost. */
static void
test_lost_answers (Case         *self,
                   gconstpointer data)
{
  FaultPlan plan = { .lost_puts = TRUE };
  g_autoptr (WbDepotJob) after = NULL;

  (void) calls_of_next (self, NULL, 3, 4, &plan);
  g_assert_cmpuint (plan.n_puts, ==, 7);   /* mark, document, four photos, version */
  (void) calls_of_next (self, NULL, 4, 4, &plan);
  after = depot_fixture_look (self->server, "job");
  g_assert_cmpuint (after->versions->len, ==, 2);
  depot_fixture_check (self->server, only_head (after));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(path, function) g_test_add ("/depot/" path, Case, NULL, setup, function, teardown)
  CASE ("requests/second", test_requests);
  CASE ("requests/trust-ends", test_trust_ends);
  CASE ("requests/seen-by-reading", test_seen_by_reading);
  CASE ("requests/lost-answers", test_lost_answers);
  return g_test_run ();
}
