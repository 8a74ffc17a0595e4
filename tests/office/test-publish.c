/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job between two offices, by way of a folder that both have as their server. */
#include "config.h"

#include "office/wb-office-private.h"
#include "office/wb-papers.h"
#include "office/wb-publish.h"
#include "share-fixture.h"
#include "share/wb-share.h"

#include <glib/gstdio.h>
#include <string.h>

static WbJob *
change (WbOffice   *office,
        WbJob      *job,
        const char *bill_number,
        const char *coordinator)
{
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (GError) error = NULL;
  WbJob *stored;

  if (bill_number != NULL)
    wb_set_text (&order->bill_number, bill_number);
  if (coordinator != NULL)
    wb_set_text (&order->coordinator, coordinator);
  changed = wb_job_with (job, order);
  stored = wb_office_save_job (office, job, changed, "changed", NULL, &error);
  g_assert_no_error (error);
  return stored;
}

static void
assert_state (ShareFixture   *self,
              gboolean        here,
              const char     *id,
              WbPublishState  expected)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPublishStatus) status =
    wb_office_publish_status (here ? self->here : self->there, here ? self->at_here : self->at_there,
                              NULL, id, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpint (status->state, ==, expected);
}

static void
publish (ShareFixture *self,
         gboolean      here,
         const char   *id,
         gint64        number)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPublishStatus) status =
    wb_office_publish (here ? self->here : self->there, here ? self->at_here : self->at_there, NULL,
                       id, NULL, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpint (status->state, ==, WB_PUBLISH_SAME);
  g_assert_cmpint (status->number, ==, number);
}

static WbJob *
fetch (ShareFixture *self,
       gboolean      here,
       const char   *id)
{
  g_autoptr (GError) error = NULL;
  WbJob *job = wb_office_fetch (here ? self->here : self->there,
                                here ? self->at_here : self->at_there, NULL, id,
                                WB_MERGE_UNDECIDED, NULL, NULL, &error);

  g_assert_no_error (error);
  return job;
}

static WbJob *
create (ShareFixture *self)
{
  g_autoptr (GError) error = NULL;
  WbJob *job = wb_office_create_job (self->here, "USD", NULL, &error);

  g_assert_no_error (error);
  return job;
}

/* Returns: (transfer full): a job as it is here, which the other office has changed and published. */
static WbJob *
create_changed_there (ShareFixture *self)
{
  g_autoptr (WbJob) job = create (self);
  g_autoptr (WbJob) theirs = NULL;
  g_autoptr (WbJob) changed = NULL;

  publish (self, TRUE, wb_job_get_id (job), 1);
  theirs = fetch (self, FALSE, wb_job_get_id (job));
  changed = change (self->there, theirs, "B-77", NULL);
  publish (self, FALSE, wb_job_get_id (job), 2);
  return g_steal_pointer (&job);
}

/* What is long, of several lines or not of this alphabet is cut for the list, and published all the
 * same. */
static void
test_long_texts (ShareFixture  *self,
                 gconstpointer  data)
{
  g_autoptr (WbJob) job = create (self);
  g_autoptr (WbParty) shipper = wb_record_new (WB_KIND_PARTY, "party");
  g_autoptr (GString) name = g_string_new ("x\ty\n");
  g_autoptr (WbJob) named = NULL;
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GError) error = NULL;
  const WbPublishedJob *listed;

  for (guint i = 0; i < 600; i++)
    g_string_append (name, "\u00e9");
  shipper->role = WB_ROLE_SHIPPER;
  wb_set_text (&shipper->name, name->str);
  named = wb_job_with (job, shipper);
  stored = wb_office_save_job (self->here, job, named, "changed", NULL, &error);
  g_assert_no_error (error);
  publish (self, TRUE, wb_job_get_id (job), 1);
  jobs = wb_office_list_published (self->here, self->at_here, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (jobs->len, ==, 1);
  listed = g_ptr_array_index (jobs, 0);
  g_assert_true (g_str_has_prefix (listed->shipper, "x y \u00e9"));
  g_assert_true (g_utf8_validate (listed->shipper, -1, NULL));
  g_assert_cmpuint (strlen (listed->shipper), >=, 900);
}

static void
test_there_and_back (ShareFixture  *self,
                     gconstpointer  data)
{
  g_autoptr (WbJob) job = create (self);
  const char *id = wb_job_get_id (job);
  g_autoptr (WbJob) theirs = NULL;
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) newer = NULL;
  g_autoptr (WbJob) again = NULL;
  g_autoptr (GPtrArray) history = NULL;
  g_autoptr (GError) error = NULL;

  assert_state (self, TRUE, id, WB_PUBLISH_NEVER);
  publish (self, TRUE, id, 1);
  /* The same once more is no new version. */
  publish (self, TRUE, id, 1);

  theirs = fetch (self, FALSE, id);
  g_assert_true (wb_job_equal (theirs, job));
  assert_state (self, FALSE, id, WB_PUBLISH_SAME);
  changed = change (self->there, theirs, "B-77", NULL);
  assert_state (self, FALSE, id, WB_PUBLISH_CHANGED_HERE);
  publish (self, FALSE, id, 2);

  assert_state (self, TRUE, id, WB_PUBLISH_CHANGED_THERE);
  newer = fetch (self, TRUE, id);
  g_assert_true (wb_job_equal (newer, changed));
  g_assert_cmpint (wb_job_get_revision (newer), ==, 2);
  again = fetch (self, TRUE, id);
  g_assert_cmpint (wb_job_get_revision (again), ==, 2);
  history = wb_office_list_history (self->here, id, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (g_str_has_prefix (((WbHistoryEntry *) history->pdata[0])->deed, "Fetched from Main"));
}

/* Each changed another field: both are in the job, on both sides. */
static void
test_both (ShareFixture  *self,
           gconstpointer  data)
{
  g_autoptr (WbJob) job = create_changed_there (self);
  const char *id = wb_job_get_id (job);
  g_autoptr (WbJob) changed_here = NULL;
  g_autoptr (WbJob) both = NULL;
  g_autoptr (WbJob) both_there = NULL;
  g_autoptr (WbPublishStatus) none = NULL;
  g_autoptr (GError) error = NULL;

  changed_here = change (self->here, job, NULL, "Imani Okonjo");
  assert_state (self, TRUE, id, WB_PUBLISH_CHANGED_BOTH);
  none = wb_office_publish (self->here, self->at_here, NULL, id, NULL, NULL, &error);
  g_assert_null (none);
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CHANGED);

  both = fetch (self, TRUE, id);
  g_assert_cmpstr (wb_job_order (both)->bill_number, ==, "B-77");
  g_assert_cmpstr (wb_job_order (both)->coordinator, ==, "Imani Okonjo");
  assert_state (self, TRUE, id, WB_PUBLISH_CHANGED_HERE);
  publish (self, TRUE, id, 3);
  both_there = fetch (self, FALSE, id);
  g_assert_true (wb_job_equal (both_there, both));
}

/* Both changed the same field: nothing happens by itself. */
static void
test_clash (ShareFixture  *self,
            gconstpointer  data)
{
  g_autoptr (WbJob) job = create_changed_there (self);
  const char *id = wb_job_get_id (job);
  g_autoptr (WbJob) changed_here = NULL;
  g_autoptr (WbJob) none = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (GError) error = NULL;

  changed_here = change (self->here, job, "B-78", NULL);
  none = wb_office_fetch (self->here, self->at_here, NULL, id, WB_MERGE_UNDECIDED, NULL, NULL,
                          &error);
  g_assert_null (none);
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CHANGED);
  loaded = wb_office_load_job (self->here, id, NULL, NULL);
  g_assert_cmpint (wb_job_get_revision (loaded), ==, 2);
  assert_state (self, TRUE, id, WB_PUBLISH_CHANGED_BOTH);

  g_clear_error (&error);
  g_clear_pointer (&loaded, wb_job_unref);
  loaded = wb_office_fetch (self->here, self->at_here, NULL, id, WB_MERGE_MINE, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (wb_job_order (loaded)->bill_number, ==, "B-78");
  publish (self, TRUE, id, 3);
}

static void
test_list (ShareFixture  *self,
           gconstpointer  data)
{
  g_autoptr (WbJob) job = create (self);
  const char *number = wb_job_order (job)->number;
  g_autoptr (GPtrArray) all = NULL;
  g_autoptr (GPtrArray) none = NULL;
  g_autoptr (GError) error = NULL;
  const WbPublishedJob *first;

  publish (self, TRUE, wb_job_get_id (job), 1);
  all = wb_office_list_published (self->there, self->at_there, NULL, number, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (all->len, ==, 1);
  first = g_ptr_array_index (all, 0);
  g_assert_cmpstr (first->id, ==, wb_job_get_id (job));
  g_assert_cmpstr (first->number, ==, number);
  g_assert_cmpstr (first->by, ==, g_get_user_name ());
  none = wb_office_list_published (self->there, self->at_there, NULL, "nowhere", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (none->len, ==, 0);
}

/* How many files there are below @folder. */
static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      n += g_file_test (path, G_FILE_TEST_IS_DIR) ? count_files (path) : 1;
    }
  return n;
}

/* The papers as PDF go with the job; one that is the same as before is not sent anew, and none
 * becomes a kept paper of whoever fetches the job. */
static void
test_papers (ShareFixture  *self,
             gconstpointer  data)
{
  g_autoptr (WbJob) job = create (self);
  const char *id = wb_job_get_id (job);
  g_autofree char *objects = g_build_filename (self->server_folder, "objects", NULL);
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) theirs = NULL;
  g_autoptr (GPtrArray) papers = NULL;
  g_autoptr (GError) error = NULL;

  publish (self, TRUE, id, 1);
  g_assert_cmpuint (count_files (objects), ==, 3);   /* the document, the order, the inventory */
  changed = change (self->here, job, NULL, "Noor");
  publish (self, TRUE, id, 2);
  g_assert_cmpuint (count_files (objects), ==, 5);

  theirs = fetch (self, FALSE, id);
  g_assert_true (wb_job_equal (theirs, changed));
  papers = wb_office_make_papers (self->there, theirs, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (papers->len, ==, 2);
  for (guint i = 0; i < papers->len; i++)
    {
      const WbPaperFile *file = g_ptr_array_index (papers, i);
      g_autofree char *hash = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, file->bytes);
      g_autofree char *group = g_strndup (hash, 2);
      g_autofree char *there = g_build_filename (objects, group, hash, NULL);
      g_autoptr (GBytes) kept = wb_book_read_document (wb_office_get_book (self->there), hash, NULL,
                                                       &error);

      g_assert_null (kept);
      g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
      g_clear_error (&error);
      g_assert_true (g_file_test (there, G_FILE_TEST_IS_REGULAR));
    }
}

/* Somebody writes into all files of the one job on the server. */
static void
damage (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        damage (path);
      else
        g_assert_true (g_file_set_contents (path, "{}", 2, NULL));
    }
}

static void
test_verify (ShareFixture  *self,
             gconstpointer  data)
{
  g_autoptr (WbJob) job = create (self);
  const char *id = wb_job_get_id (job);
  g_autofree char *objects = g_build_filename (self->server_folder, "objects", NULL);
  g_autoptr (GPtrArray) good = NULL;
  g_autoptr (GPtrArray) bad = NULL;
  g_autoptr (WbJob) none = NULL;
  g_autoptr (GError) error = NULL;
  guint n_files = 0;

  publish (self, TRUE, id, 1);
  good = wb_office_verify_published (self->there, self->at_there, NULL, id, &n_files, NULL, NULL,
                                     &error);
  g_assert_no_error (error);
  g_assert_cmpuint (good->len, ==, 0);
  g_assert_cmpuint (n_files, ==, 3);

  damage (objects);
  bad = wb_office_verify_published (self->there, self->at_there, NULL, id, &n_files, NULL, NULL,
                                    &error);
  g_assert_no_error (error);
  g_assert_cmpuint (bad->len, ==, 3);
  g_assert_true (g_str_has_prefix (g_ptr_array_index (bad, 0), "job.json"));
  g_assert_true (g_str_has_prefix (g_ptr_array_index (bad, 1), "papers/order.pdf"));
  none = wb_office_fetch (self->there, self->at_there, NULL, id, WB_MERGE_UNDECIDED, NULL, NULL,
                          &error);
  g_assert_null (none);
  g_assert_nonnull (error);
  g_assert_null (wb_office_load_job (self->there, id, NULL, NULL));
}

#define ADD(path, function) \
  g_test_add ("/office/publish/" path, ShareFixture, NULL, share_fixture_set_up, function, \
              share_fixture_tear_down)

int
main (int    argc,
      char **argv)
{
  share_fixture_init (&argc, &argv);
  ADD ("long-texts", test_long_texts);
  ADD ("there-and-back", test_there_and_back);
  ADD ("both", test_both);
  ADD ("clash", test_clash);
  ADD ("list", test_list);
  ADD ("papers", test_papers);
  ADD ("verify", test_verify);
  return g_test_run ();
}
