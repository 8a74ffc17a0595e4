/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published jobs in a folder: what a publisher puts there, what a reader makes of it, two
 * publishers at once, and whatever else may lie there. Faults of the server are in
 * test-depot-faults.c. */
#include "config.h"

#include "depot-fixture.h"
#include "faulty-remote.h"

#include "share/wb-share.h"

#include <glib/gstdio.h>
#include <string.h>
#include <utime.h>

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

/* --- publishing ------------------------------------------------------------------------------- */

static const WbVersion *
only_head (const WbDepotJob *job)
{
  g_assert_cmpuint (job->heads->len, ==, 1);
  return g_ptr_array_index (job->heads, 0);
}

static void
count_progress (gint64   done,
                gint64   total,
                gpointer data)
{
  gint64 *last = data;

  g_assert_cmpint (done, >=, *last);
  g_assert_cmpint (done, <=, total);
  *last = done;
}

static void
test_publish (Case         *self,
              gconstpointer data)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 3, NULL);
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (WbDepotJob) before = depot_fixture_look (self->server, "job");
  g_autoptr (WbDepotJob) after = NULL;
  g_autoptr (GHashTable) files = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *sha256 = NULL;
  const WbVersion *head;
  gint64 last = 0;

  g_assert_cmpuint (before->heads->len, ==, 0);
  g_assert_true (wb_depot_publish (depot, &draft->draft, count_progress, &last, &sha256, NULL,
                                   &error));
  g_assert_no_error (error);

  after = depot_fixture_look (self->server, "job");
  head = only_head (after);
  g_assert_cmpstr (head->sha256, ==, sha256);
  g_assert_cmpint (head->number, ==, 1);
  g_assert_cmpstr (head->by, ==, "R. Clerk");
  g_assert_cmpstr (head->desk, ==, "front");
  g_assert_cmpstr (g_hash_table_lookup (head->summary, "customer"), ==, "A. Shipper");
  g_assert_cmpuint (head->files->len, ==, 3);
  depot_fixture_check (self->server, head);
  files = depot_fixture_files (self->server);
  g_assert_cmpuint (g_hash_table_size (files), ==, 1 + 1 + 1 + 3);
  g_assert_cmpint (last, >, 0);
}

/* A second version sends only what is new. */
static void
test_next (Case         *self,
           gconstpointer data)
{
  g_autoptr (DepotDraft) first = depot_fixture_draft (self->here, "job", 1, 4, NULL);
  g_autofree char *one = depot_fixture_publish (self->server, first);
  g_autoptr (WbDepotJob) seen = depot_fixture_look (self->server, "job");
  g_autoptr (DepotDraft) second = depot_fixture_draft (self->here, "job", 6, 5, seen);
  FaultPlan plan = { 0 };
  g_autoptr (WbRemote) remote = faulty_remote_open (self->server, &plan);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (WbDepotJob) after = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_depot_publish (depot, &second->draft, NULL, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (plan.n_puts, ==, 3);   /* document, the fifth photo, the version */
  after = depot_fixture_look (self->server, "job");
  g_assert_cmpint (only_head (after)->number, ==, 2);
  g_assert_cmpuint (after->versions->len, ==, 2);
  depot_fixture_check (self->server, g_ptr_array_index (after->versions, 1));
}

/* Given once more, a draft that stands is found. */
static void
test_again (Case         *self,
            gconstpointer data)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 2, NULL);
  g_autofree char *one = depot_fixture_publish (self->server, draft);
  g_autofree char *two = depot_fixture_publish (self->server, draft);
  g_autoptr (WbDepotJob) job = depot_fixture_look (self->server, "job");

  g_assert_cmpstr (one, ==, two);
  g_assert_cmpuint (job->versions->len, ==, 1);
}

static void
test_refused (Case         *self,
              gconstpointer data)
{
  static const char *const ids[] = { "..", ".", "", "a/b", "a b", "é" };
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 2, NULL);
  g_autoptr (GHashTable) files = NULL;
  g_autoptr (GError) error = NULL;
  WbDepotItem *item = g_ptr_array_index (draft->draft.items, 1);

  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      draft->draft.job = ids[i];
      g_assert_false (wb_depot_publish (depot, &draft->draft, NULL, NULL, NULL, NULL, &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NAME);
      g_clear_error (&error);
      g_assert_null (wb_depot_heads (depot, ids[i], NULL, &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NAME);
      g_clear_error (&error);
    }
  draft->draft.job = "job";
  g_free (item->name);
  item->name = g_strdup ("../photos/1.jpg");
  g_assert_false (wb_depot_publish (depot, &draft->draft, NULL, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NAME);
  g_clear_error (&error);
  g_free (item->name);
  item->name = g_strdup ("PHOTOS/0.jpg");
  g_assert_false (wb_depot_publish (depot, &draft->draft, NULL, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CLASH);
  files = depot_fixture_files (self->server);
  g_assert_cmpuint (g_hash_table_size (files), ==, 0);
}

/* A file that is another by now keeps the version from being published. */
static void
test_source (Case         *self,
             gconstpointer data)
{
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 2, NULL);
  const WbDepotItem *item = g_ptr_array_index (draft->draft.items, 1);
  g_autoptr (WbDepotJob) job = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *sha256 = NULL;

  g_assert_true (g_file_set_contents (item->file, "something else", -1, NULL));
  g_assert_false (wb_depot_publish (depot, &draft->draft, NULL, NULL, &sha256, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_SOURCE);
  g_assert_null (sha256);
  job = depot_fixture_look (self->server, "job");
  g_assert_cmpuint (job->versions->len, ==, 0);
}

static void
test_cancelled (Case         *self,
                gconstpointer data)
{
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 2, NULL);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_false (wb_depot_publish (depot, &draft->draft, NULL, NULL, NULL, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_clear_error (&error);
  g_assert_null (wb_depot_heads (depot, "job", cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_clear_error (&error);
  g_assert_null (wb_depot_list (depot, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

static void
cancel_soon (gint64   done,
             gint64   total,
             gpointer data)
{
  if (done > 0 && done < total)
    g_cancellable_cancel (data);
}

/* Stopped half way nothing of it stands; the same once more completes it. */
static void
test_stopped (Case         *self,
              gconstpointer data)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 3, 4, NULL);
  g_autofree char *folder = g_build_filename (self->here, "fetched", NULL);
  g_autofree char *sha256 = NULL;
  g_autoptr (WbDepotJob) job = NULL;

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
      g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
      g_autoptr (GCancellable) cancellable = g_cancellable_new ();
      g_autoptr (GError) error = NULL;

      if (i == 0)
        g_assert_false (wb_depot_publish (depot, &draft->draft, cancel_soon, cancellable, NULL,
                                          cancellable, &error));
      else
        g_assert_false (wb_depot_fetch (depot, g_ptr_array_index (job->heads, 0), folder,
                                        cancel_soon, cancellable, cancellable, &error));
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
      if (i == 1)
        break;
      job = depot_fixture_look (self->server, "job");
      g_assert_cmpuint (job->versions->len, ==, 0);
      sha256 = depot_fixture_publish (self->server, draft);
      g_clear_pointer (&job, wb_depot_job_free);
      job = depot_fixture_look (self->server, "job");
    }
  depot_fixture_check (self->server, only_head (job));
}

/* --- two publishers --------------------------------------------------------------------------- */

typedef struct
{
  const char       *server;
  const DepotDraft *draft;
  const char       *when;      /* the path begins with it */
  gboolean          done;
} Rival;

static void
publish_first (const char *path,
               gpointer    data)
{
  Rival *rival = data;

  if (rival->done || !g_str_has_prefix (path, rival->when))
    return;
  rival->done = TRUE;
  g_free (depot_fixture_publish (rival->server, rival->draft));
}

/* The rival publishes between the last look and the file of the version. */
static void
test_race (Case         *self,
           gconstpointer data)
{
  g_autoptr (DepotDraft) first = depot_fixture_draft (self->here, "job", 1, 2, NULL);
  g_autofree char *one = depot_fixture_publish (self->server, first);
  g_autoptr (WbDepotJob) seen = depot_fixture_look (self->server, "job");
  g_autoptr (DepotDraft) mine = depot_fixture_draft (self->here, "job", 2, 2, seen);
  g_autoptr (DepotDraft) theirs = depot_fixture_draft (self->here, "job", 3, 2, seen);
  Rival rival = { self->server, theirs, "jobs/", FALSE };
  FaultPlan plan = { .before_put = publish_first, .data = &rival };
  g_autoptr (WbRemote) remote = faulty_remote_open (self->server, &plan);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (WbDepotJob) both = NULL;
  g_autoptr (WbDepotJob) healed = NULL;
  g_autoptr (DepotDraft) merged = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *sha256 = NULL;
  g_autofree char *again = NULL;
  g_autofree char *merge = NULL;

  g_assert_false (wb_depot_publish (depot, &mine->draft, NULL, NULL, &sha256, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CHANGED);
  g_assert_nonnull (sha256);
  g_assert_true (rival.done);
  g_clear_error (&error);

  both = depot_fixture_look (self->server, "job");
  g_assert_cmpuint (both->heads->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    depot_fixture_check (self->server, g_ptr_array_index (both->heads, i));

  /* Told again, and nothing is put twice. */
  g_assert_false (wb_depot_publish (depot, &mine->draft, NULL, NULL, &again, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CHANGED);
  g_assert_cmpstr (again, ==, sha256);

  merged = depot_fixture_draft (self->here, "job", 4, 3, both);
  merge = depot_fixture_publish (self->server, merged);
  healed = depot_fixture_look (self->server, "job");
  g_assert_cmpstr (only_head (healed)->sha256, ==, merge);
  g_assert_cmpint (only_head (healed)->number, ==, 3);
  g_assert_cmpuint (healed->versions->len, ==, 4);
}

/* The rival publishes while the files are sent: nothing of mine stands. */
static void
test_overtaken (Case         *self,
                gconstpointer data)
{
  g_autoptr (DepotDraft) mine = depot_fixture_draft (self->here, "job", 2, 2, NULL);
  g_autoptr (DepotDraft) theirs = depot_fixture_draft (self->here, "job", 3, 2, NULL);
  Rival rival = { self->server, theirs, "objects/", FALSE };
  FaultPlan plan = { .before_put = publish_first, .data = &rival };
  g_autoptr (WbRemote) remote = faulty_remote_open (self->server, &plan);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (WbDepotJob) job = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *sha256 = NULL;

  g_assert_false (wb_depot_publish (depot, &mine->draft, NULL, NULL, &sha256, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CHANGED);
  g_assert_null (sha256);
  job = depot_fixture_look (self->server, "job");
  g_assert_cmpuint (job->versions->len, ==, 1);
}

/* --- fetching and verifying ------------------------------------------------------------------- */

static char *
object_of (const Case          *self,
           const WbVersionFile *file)
{
  return g_strdup_printf ("%s/objects/%.2s/%s", self->server, file->sha256, file->sha256);
}

static void
count_states (const WbVersionFile *file,
              WbDepotState         state,
              gpointer             data)
{
  guint *counts = data;

  counts[state]++;
}

static void
test_verify (Case         *self,
             gconstpointer data)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 5, NULL);
  g_autofree char *sha256 = depot_fixture_publish (self->server, draft);
  g_autoptr (WbDepotJob) job = depot_fixture_look (self->server, "job");
  const WbVersion *head = only_head (job);
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (GError) error = NULL;
  guint counts[4] = { 0 };

  g_assert_true (wb_depot_verify (depot, head, count_states, counts, NULL, NULL, NULL, &error));
  g_assert_cmpuint (counts[WB_DEPOT_SAME], ==, 6);

  for (guint i = 0; i < 4; i++)
    {
      const WbVersionFile *file = g_ptr_array_index (head->files, i);
      g_autofree char *path = object_of (self, file);
      g_autofree char *text = NULL;
      gsize length;

      g_assert_true (g_file_get_contents (path, &text, &length, NULL));
      if (i == 0)
        g_assert_cmpint (g_unlink (path), ==, 0);
      else
        {
          text[0] ^= 1;
          g_assert_true (g_file_set_contents (path, text, (gssize) length - (i == 1), NULL));
        }
    }
  memset (counts, 0, sizeof counts);
  g_assert_true (wb_depot_verify (depot, head, count_states, counts, NULL, NULL, NULL, &error));
  g_assert_cmpuint (counts[WB_DEPOT_MISSING], ==, 1);
  g_assert_cmpuint (counts[WB_DEPOT_SIZE], ==, 1);
  g_assert_cmpuint (counts[WB_DEPOT_ALTERED], ==, 2);
  g_assert_cmpuint (counts[WB_DEPOT_SAME], ==, 2);
}

/* Nothing that is not what it has to be ever lies under its hash. */
static void
test_fetch_altered (Case         *self,
                    gconstpointer data)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 2, NULL);
  g_autofree char *sha256 = depot_fixture_publish (self->server, draft);
  g_autoptr (WbDepotJob) job = depot_fixture_look (self->server, "job");
  const WbVersion *head = only_head (job);
  const WbVersionFile *file = g_ptr_array_index (head->files, 0);
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autofree char *path = object_of (self, file);
  g_autofree char *folder = g_build_filename (self->here, "fetched", NULL);
  g_autofree char *name = g_build_filename (folder, file->sha256, NULL);
  g_autofree char *good = NULL;
  g_autofree char *longer = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &good, &length, NULL));
  longer = g_strconcat (good, "!", NULL);
  g_assert_true (g_file_set_contents (path, longer, -1, NULL));
  g_assert_false (wb_depot_fetch (depot, head, folder, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_ALTERED);
  g_clear_error (&error);
  g_assert_false (g_file_test (name, G_FILE_TEST_EXISTS));

  g_assert_true (g_file_set_contents (path, good, (gssize) length - 1, NULL));
  g_assert_false (wb_depot_fetch (depot, head, folder, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_ALTERED);
  g_clear_error (&error);

  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_false (wb_depot_fetch (depot, head, folder, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_INCOMPLETE);
  g_clear_error (&error);
  g_assert_false (g_file_test (name, G_FILE_TEST_EXISTS));

  /* What lies here already is looked at as well. */
  g_assert_true (g_file_set_contents (name, "something else", -1, NULL));
  g_assert_true (g_file_set_contents (path, good, (gssize) length, NULL));
  g_assert_true (wb_depot_fetch (depot, head, folder, NULL, NULL, NULL, &error));
  g_assert_no_error (error);
  g_clear_pointer (&good, g_free);
  g_assert_true (g_file_get_contents (name, &good, NULL, NULL));
  g_assert_cmpstr (good, !=, "something else");
}

/* --- strangers -------------------------------------------------------------------------------- */

/* What does not say that it is ours is neither read nor written to. */
static void
test_marker (Case         *self,
             gconstpointer data)
{
  static const char *const marks[] = {
    "{\"format\":\"other\",\"version\":1}",
    "{\"format\":\"wainbook-depot\",\"version\":2}",
    "{\"format\":\"wainbook-depot\",\"version\":\"1\"}",
    "{\"format\":7,\"version\":1}",
    "[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]",
    "<html>Sign in</html>",
  };
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 1, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++)
    {
      g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
      g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
      g_autoptr (GHashTable) files = NULL;
      g_autoptr (GError) error = NULL;

      depot_fixture_write (self->server, "wainbook.json", marks[i], -1);
      g_assert_null (wb_depot_heads (depot, "job", NULL, &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_FORMAT);
      g_clear_error (&error);
      g_assert_null (wb_depot_list (depot, NULL, &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_FORMAT);
      g_clear_error (&error);
      g_assert_false (wb_depot_publish (depot, &draft->draft, NULL, NULL, NULL, NULL, &error));
      g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_FORMAT);
      files = depot_fixture_files (self->server);
      g_assert_cmpuint (g_hash_table_size (files), ==, 1);
    }
}

/* Puts a file with the right name for what is in it. */
static char *
plant (const Case *self,
       const char *job,
       gint64      number,
       const char *text)
{
  char *sha256 = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
  g_autofree char *name = wb_version_file_name (number, sha256);
  g_autofree char *path = g_strdup_printf ("jobs/%s/%s", job, name);

  depot_fixture_write (self->server, path, text, -1);
  return sha256;
}

#define ZEROS "0000000000000000000000000000000000000000000000000000000000000000"
#define VERSION(number, parents, document, files)                                                  \
  "{\"format\":\"wainbook-published-job\",\"version\":1,\"job\":\"job\",\"number\":" number        \
  ",\"at\":\"2026-03-05T08:00:00Z\",\"by\":\"M\",\"parents\":[" parents "],\"document\":" document \
  ",\"files\":[" files "],\"summary\":{}}"
#define DOCUMENT "{\"sha256\":\"" ZEROS "\",\"size\":0}"

static const char *const hostile[] = {
  "",
  "{}",
  "[]",
  "null",
  VERSION ("1", "", DOCUMENT, "{\"name\":\"../../passwd\",\"sha256\":\"" ZEROS "\",\"size\":1}"),
  VERSION ("1", "", DOCUMENT, "{\"name\":\"/etc/passwd\",\"sha256\":\"" ZEROS "\",\"size\":1}"),
  VERSION ("1", "", DOCUMENT, "{\"name\":\"a\",\"sha256\":\"../../x\",\"size\":1}"),
  VERSION ("1", "", DOCUMENT, "{\"name\":\"a\",\"sha256\":\"" ZEROS "\",\"size\":-1}"),
  VERSION ("1", "", DOCUMENT, "{\"name\":\"a\",\"sha256\":\"" ZEROS
                              "\",\"size\":999999999999999999}"),
  VERSION ("1", "", DOCUMENT, "{\"name\":\"a\",\"sha256\":\"" ZEROS
                              "\",\"size\":1},"
                              "{\"name\":\"A\",\"sha256\":\"" ZEROS "\",\"size\":1}"),
  VERSION ("1", "", DOCUMENT, "3"),
  VERSION ("1", "", "[]", ""),
  VERSION ("1", "", "{\"sha256\":1,\"size\":0}", ""),
  VERSION ("1", "", "{\"sha256\":\"" ZEROS "\",\"size\":\"0\"}", ""),
  VERSION ("1", "", "{\"sha256\":\"" ZEROS "\",\"size\":0,\"name\":\"x\"}", ""),
  VERSION ("1", "\"" ZEROS "\"", DOCUMENT, ""),
  VERSION ("2", "\"" ZEROS "\",\"" ZEROS "\"", DOCUMENT, ""),
  VERSION ("2", "\"x\"", DOCUMENT, ""),
  VERSION ("2", "[[[[]]]]", DOCUMENT, ""),
  VERSION ("2", "7", DOCUMENT, ""),
  VERSION ("0", "", DOCUMENT, ""),
  VERSION ("1000000", "", DOCUMENT, ""),
  VERSION ("1.5", "", DOCUMENT, ""),
  VERSION ("true", "", DOCUMENT, ""),
  VERSION ("1", "", DOCUMENT, "") "x",
  "{\"format\":\"wainbook-published-job\",\"version\":1,\"version\":1}",
  "{\"format\":\"wainbook-published-job\",\"version\":0}",
};

static void
test_hostile (Case         *self,
              gconstpointer data)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 1, NULL);
  g_autofree char *sha256 = depot_fixture_publish (self->server, draft);
  g_autoptr (WbDepotJob) job = NULL;
  g_autoptr (GHashTable) before = NULL, after = NULL;
  g_autoptr (DepotDraft) next = NULL;
  g_autofree char *another = NULL;
  g_autoptr (GString) deep = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (hostile); i++)
    g_free (plant (self, "job", i % 2 == 0 ? 1 : 2, hostile[i]));
  for (guint i = 0; i < 100000; i++)
    g_string_append_c (deep, '[');
  g_free (plant (self, "job", 1, deep->str));
  /* Names that are none of ours, and files that are folders, are no versions at all. */
  depot_fixture_write (self->server, "jobs/job/readme.txt", "x", -1);
  depot_fixture_write (self->server, "jobs/job/000001-" ZEROS ".json/x", "x", -1);

  before = depot_fixture_files (self->server);
  job = depot_fixture_look (self->server, "job");
  g_assert_cmpstr (only_head (job)->sha256, ==, sha256);
  g_assert_cmpuint (job->versions->len, ==, 1);
  g_assert_cmpuint (job->n_broken, ==, G_N_ELEMENTS (hostile) + 1);

  /* And nothing of it is in the way of the next. */
  next = depot_fixture_draft (self->here, "job", 2, 1, job);
  another = depot_fixture_publish (self->server, next);
  after = depot_fixture_files (self->server);
  g_assert_cmpuint (g_hash_table_size (after), >, g_hash_table_size (before));
}

/* A good file under a wrong name, of another job, or too large. */
static void
test_misplaced (Case         *self,
                gconstpointer data)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 1, NULL);
  g_autofree char *sha256 = depot_fixture_publish (self->server, draft);
  g_autofree char *name = wb_version_file_name (1, sha256);
  g_autofree char *path = g_strdup_printf ("%s/jobs/job/%s", self->server, name);
  g_autofree char *elsewhere = g_strdup_printf ("jobs/other/%s", name);
  g_autofree char *renumbered = g_strdup_printf ("jobs/job/000002-%s.json", sha256);
  g_autofree char *text = NULL;
  g_autofree char *large = g_malloc0 (WB_VERSION_MAX_BYTES + 1);
  g_autofree char *large_name = NULL;
  g_autoptr (WbDepotJob) job = NULL;
  g_autoptr (WbDepotJob) other = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  depot_fixture_write (self->server, elsewhere, text, (gssize) length);
  depot_fixture_write (self->server, renumbered, text, (gssize) length);
  depot_fixture_write (self->server, "jobs/job/000001-" ZEROS ".json", text, (gssize) length);
  memset (large, ' ', WB_VERSION_MAX_BYTES + 1);
  large_name = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *) large,
                                            WB_VERSION_MAX_BYTES + 1);
  {
    g_autofree char *large_path = g_strdup_printf ("jobs/job/000001-%s.json", large_name);

    depot_fixture_write (self->server, large_path, large, WB_VERSION_MAX_BYTES + 1);
  }
  job = depot_fixture_look (self->server, "job");
  other = depot_fixture_look (self->server, "other");
  g_assert_cmpuint (job->versions->len, ==, 1);
  g_assert_cmpuint (job->n_broken, ==, 3);
  g_assert_cmpuint (other->versions->len, ==, 0);
  g_assert_cmpuint (other->n_broken, ==, 1);
}

/* A hash cannot be chosen, so no version can be its own ancestor; but one may name a parent whose
 * number is not below its own. It takes nobody's place. */
static void
test_parents (Case         *self,
              gconstpointer data)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 0, NULL);
  g_autofree char *first = depot_fixture_publish (self->server, draft);
  g_autoptr (WbDepotJob) seen = depot_fixture_look (self->server, "job");
  g_autoptr (DepotDraft) second = depot_fixture_draft (self->here, "job", 2, 0, seen);
  g_autofree char *two = depot_fixture_publish (self->server, second);
  g_autofree char *text = g_strdup_printf (VERSION ("2", "\"%s\"", DOCUMENT, ""), two);
  g_autofree char *liar = plant (self, "job", 2, text);
  g_autofree char *orphan_text = g_strdup (VERSION ("5", "\"" ZEROS "\"", DOCUMENT, ""));
  g_autofree char *orphan = NULL;
  g_autoptr (WbDepotJob) job = depot_fixture_look (self->server, "job");
  g_autoptr (WbDepotJob) later = NULL;

  g_assert_cmpstr (only_head (job)->sha256, ==, two);
  g_assert_cmpuint (job->n_broken, ==, 1);

  /* Whose parents are not there is a head like any other. */
  orphan = plant (self, "job", 5, orphan_text);
  later = depot_fixture_look (self->server, "job");
  g_assert_cmpuint (later->heads->len, ==, 2);
}

static void
test_newer (Case         *self,
            gconstpointer data)
{
  g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, "job", 1, 0, NULL);
  g_autofree char *first = depot_fixture_publish (self->server, draft);
  g_autoptr (DepotDraft) fine = depot_fixture_draft (self->here, "other", 1, 0, NULL);
  g_autofree char *one = depot_fixture_publish (self->server, fine);
  g_autofree char *newer = plant (self, "job", 2,
                                  "{\"format\":\"wainbook-published-job\",\"version\":2}");
  g_autoptr (WbRemote) remote = faulty_remote_open_folder (self->server);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, NULL, DEPOT_SERVER);
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_null (wb_depot_heads (depot, "job", NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_FORMAT);
  g_clear_error (&error);
  g_assert_false (wb_depot_publish (depot, &draft->draft, NULL, NULL, NULL, NULL, &error));
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_FORMAT);
  g_clear_error (&error);

  jobs = wb_depot_list (depot, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (jobs->len, ==, 2);
  g_assert_error (((WbDepotJob *) g_ptr_array_index (jobs, 0))->error, WB_SHARE_ERROR,
                  WB_SHARE_ERROR_FORMAT);
  g_assert_cmpstr (only_head (g_ptr_array_index (jobs, 1))->sha256, ==, one);
}

/* --- the list and its cache ------------------------------------------------------------------- */

static void
age_folder (const Case *self,
            const char *job,
            guint       days)
{
  g_autofree char *folder = g_build_filename (self->server, "jobs", job, NULL);
  time_t then = (time_t) (g_get_real_time () / G_USEC_PER_SEC) - (time_t) days * 86400;
  struct utimbuf times = { then, then };

  g_assert_cmpint (utime (folder, &times), ==, 0);
}

/* Returns: (transfer full): all jobs with their heads as text. */
static char *
list_text (const Case *self,
           const char *cache,
           const char *server,
           FaultPlan  *plan)
{
  g_autoptr (WbRemote) remote = faulty_remote_open (self->server, plan);
  g_autoptr (WbDepot) depot = wb_depot_new (remote, cache, server);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = wb_depot_list (depot, NULL, &error);
  g_autoptr (GString) text = g_string_new (NULL);

  g_assert_no_error (error);
  for (guint i = 0; i < jobs->len; i++)
    {
      const WbDepotJob *job = g_ptr_array_index (jobs, i);

      g_assert_no_error (job->error);
      g_string_append_printf (text, "%s %u:", job->job, job->versions->len);
      for (guint k = 0; k < job->heads->len; k++)
        {
          const WbVersion *head = g_ptr_array_index (job->heads, k);

          g_string_append_printf (text, " %s %s %s %s", head->sha256, head->by, head->at,
                                  (char *) g_hash_table_lookup (head->summary, "customer"));
        }
      g_string_append_c (text, '\n');
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
publish_jobs (const Case *self,
              guint       n)
{
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("job-%u", i);

      for (guint k = 0; k < 2; k++)
        {
          g_autoptr (WbDepotJob) seen = depot_fixture_look (self->server, id);
          g_autoptr (DepotDraft) draft = depot_fixture_draft (self->here, id, 10 * i + k, 1, seen);

          g_free (depot_fixture_publish (self->server, draft));
        }
      age_folder (self, id, 2);
    }
}

static void
test_list (Case         *self,
           gconstpointer data)
{
  g_autofree char *cache = g_build_filename (self->here, "cache", NULL);
  FaultPlan without = { 0 }, first = { 0 }, second = { 0 }, third = { 0 }, other = { 0 };
  g_autofree char *plain = NULL, *cold = NULL, *warm = NULL, *changed = NULL, *foreign = NULL;
  g_autoptr (WbDepotJob) seen = NULL;
  g_autoptr (DepotDraft) draft = NULL;

  publish_jobs (self, 4);
  plain = list_text (self, NULL, DEPOT_SERVER, &without);
  cold = list_text (self, cache, DEPOT_SERVER, &first);
  g_assert_cmpstr (cold, ==, plain);
  g_assert_cmpuint (first.n_gets, ==, 1 + 8);
  warm = list_text (self, cache, DEPOT_SERVER, &second);
  g_assert_cmpstr (warm, ==, plain);
  g_assert_cmpuint (second.n_gets, ==, 1);
  g_assert_cmpuint (second.n_lists, ==, 1);

  /* A folder that has changed is looked into, and only what is new there is read. */
  seen = depot_fixture_look (self->server, "job-2");
  draft = depot_fixture_draft (self->here, "job-2", 99, 1, seen);
  g_free (depot_fixture_publish (self->server, draft));
  changed = list_text (self, cache, DEPOT_SERVER, &third);
  g_assert_cmpstr (changed, !=, plain);
  g_assert_cmpuint (third.n_lists, ==, 2);
  g_assert_cmpuint (third.n_gets, ==, 2);

  /* Of another server it is worth nothing. */
  foreign = list_text (self, cache, "1f0c8a52-6a0e-4d6f-9a35-0d8f6f0b7c12", &other);
  g_assert_cmpstr (foreign, ==, changed);
  g_assert_cmpuint (other.n_gets, ==, 1 + 9);
}

/* Within a day of a change there may have been another in the same second. */
static void
test_list_fresh (Case         *self,
                 gconstpointer data)
{
  g_autofree char *cache = g_build_filename (self->here, "cache", NULL);
  FaultPlan first = { 0 }, second = { 0 };
  g_autofree char *cold = NULL, *warm = NULL;

  publish_jobs (self, 2);
  age_folder (self, "job-1", 0);
  cold = list_text (self, cache, DEPOT_SERVER, &first);
  warm = list_text (self, cache, DEPOT_SERVER, &second);
  g_assert_cmpstr (cold, ==, warm);
  g_assert_cmpuint (second.n_lists, ==, 2);
  g_assert_cmpuint (second.n_gets, ==, 1);
}

static void
test_list_damaged (Case         *self,
                   gconstpointer data)
{
  g_autofree char *cache = g_build_filename (self->here, "cache", NULL);
  FaultPlan plan = { 0 };
  g_autofree char *plain = NULL, *cold = NULL, *good = NULL;
  gsize length;

  publish_jobs (self, 3);
  plain = list_text (self, NULL, DEPOT_SERVER, &plan);
  cold = list_text (self, cache, DEPOT_SERVER, &plan);
  g_assert_true (g_file_get_contents (cache, &good, &length, NULL));
  g_test_message ("random values: first number %d", g_test_rand_int ());
  for (guint i = 0; i < 100; i++)
    {
      g_autofree char *bad = g_memdup2 (good, length);
      g_autofree char *list = NULL;
      gsize end = length;
      FaultPlan counted = { 0 };

      if (i % 3 == 0)
        end = (gsize) g_test_rand_int_range (0, (gint32) length);
      else
        bad[g_test_rand_int_range (0, (gint32) length)] ^= (char) g_test_rand_int_range (1, 256);
      g_assert_true (g_file_set_contents (cache, bad, (gssize) end, NULL));
      list = list_text (self, cache, DEPOT_SERVER, &counted);
      g_assert_cmpstr (list, ==, plain);
      g_assert_cmpuint (counted.n_gets, ==, 1 + 6);
    }
}

/* A head that the cache knows and that is half of a file by now is no head. */
static void
test_broken_head (Case         *self,
                  gconstpointer data)
{
  g_autofree char *cache = g_build_filename (self->here, "cache", NULL);
  FaultPlan plan = { 0 };
  g_autofree char *list = NULL, *name = NULL, *path = NULL;
  g_autoptr (WbDepotJob) job = NULL;
  g_autoptr (WbDepotJob) seen = NULL;
  g_autoptr (WbRemote) remote = NULL;
  g_autoptr (WbDepot) depot = NULL;
  g_autoptr (GError) error = NULL;

  publish_jobs (self, 1);
  list = list_text (self, cache, DEPOT_SERVER, &plan);
  job = depot_fixture_look (self->server, "job-0");
  name = wb_version_file_name (2, only_head (job)->sha256);
  path = g_strdup_printf ("jobs/job-0/%s", name);
  depot_fixture_write (self->server, path, "{", 1);

  remote = faulty_remote_open_folder (self->server);
  depot = wb_depot_new (remote, cache, DEPOT_SERVER);
  seen = wb_depot_heads (depot, "job-0", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (only_head (seen)->number, ==, 1);
  g_assert_nonnull (only_head (seen)->files);
  g_assert_cmpuint (seen->n_broken, ==, 1);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(path, function) g_test_add ("/depot/" path, Case, NULL, setup, function, teardown)
  CASE ("publish/first", test_publish);
  CASE ("publish/next", test_next);
  CASE ("publish/again", test_again);
  CASE ("publish/refused", test_refused);
  CASE ("publish/source", test_source);
  CASE ("publish/cancelled", test_cancelled);
  CASE ("publish/stopped", test_stopped);
  CASE ("two/race", test_race);
  CASE ("two/overtaken", test_overtaken);
  CASE ("fetch/verify", test_verify);
  CASE ("fetch/altered", test_fetch_altered);
  CASE ("strangers/marker", test_marker);
  CASE ("strangers/hostile", test_hostile);
  CASE ("strangers/misplaced", test_misplaced);
  CASE ("strangers/parents", test_parents);
  CASE ("strangers/newer", test_newer);
  CASE ("list/cache", test_list);
  CASE ("list/fresh", test_list_fresh);
  CASE ("list/damaged", test_list_damaged);
  CASE ("list/broken-head", test_broken_head);
  return g_test_run ();
}
