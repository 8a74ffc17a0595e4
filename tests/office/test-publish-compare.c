/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What differs between a job here and on a server, and the job that somebody makes of both. */
#include "config.h"

#include "core/wb-core.h"
#include "office/wb-publish-compare.h"
#include "share-fixture.h"
#include "share/wb-share.h"

#include <glib/gstdio.h>
#include <string.h>

/* A job that both offices have, and both then changed. */
typedef struct
{
  ShareFixture  share;
  char         *id;
} Fixture;

static WbJob *
change (WbOffice   *office,
        const char *id,
        const char *bill_number,
        const char *coordinator)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_load_job (office, id, NULL, &error);
  g_autoptr (WbOrder) order = NULL;
  g_autoptr (WbJob) changed = NULL;
  WbJob *stored;

  g_assert_no_error (error);
  order = wb_record_copy (wb_job_order (job));
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
publish (WbOffice   *office,
         const char *server,
         const char *id,
         gint64      number)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPublishStatus) status = wb_office_publish (office, server, NULL, id, NULL, NULL,
                                                          &error);

  g_assert_no_error (error);
  g_assert_cmpint (status->state, ==, WB_PUBLISH_SAME);
  g_assert_cmpint (status->number, ==, number);
}

static WbPublishState
state_of (WbOffice   *office,
          const char *server,
          const char *id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPublishStatus) status = wb_office_publish_status (office, server, NULL, id, NULL,
                                                                 &error);

  g_assert_no_error (error);
  return status->state;
}

static void
set_up (Fixture       *self,
        gconstpointer  data)
{
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbJob) theirs = NULL;
  g_autoptr (WbJob) changed_there = NULL;
  g_autoptr (WbJob) changed_here = NULL;
  g_autoptr (GError) error = NULL;

  share_fixture_set_up (&self->share, data);
  job = wb_office_create_job (self->share.here, "USD", NULL, &error);
  g_assert_no_error (error);
  self->id = g_strdup (wb_job_get_id (job));
  publish (self->share.here, self->share.at_here, self->id, 1);
  theirs = wb_office_fetch (self->share.there, self->share.at_there, NULL, self->id,
                            WB_MERGE_UNDECIDED, NULL, NULL, &error);
  g_assert_no_error (error);
  changed_there = change (self->share.there, self->id, "B-77", "Ottilie Grau");
  publish (self->share.there, self->share.at_there, self->id, 2);
  changed_here = change (self->share.here, self->id, "B-78", NULL);
}

static void
tear_down (Fixture       *self,
           gconstpointer  data)
{
  g_free (self->id);
  share_fixture_tear_down (&self->share, data);
}

static WbComparison *
compare (Fixture *self)
{
  g_autoptr (GError) error = NULL;
  WbComparison *comparison = wb_office_compare_published (self->share.here, self->share.at_here,
                                                          NULL, self->id, NULL, NULL, &error);

  g_assert_no_error (error);
  return comparison;
}

static void
choose_theirs (WbMerge *merge)
{
  for (guint i = 0; i < wb_merge_count (merge); i++)
    if (wb_merge_nth (merge, i)->side == WB_MERGE_CONFLICT)
      wb_merge_choose (merge, i, WB_MERGE_THEIRS);
}

static WbJob *
load (Fixture *self)
{
  g_autoptr (GError) error = NULL;
  WbJob *job = wb_office_load_job (self->share.here, self->id, NULL, &error);

  g_assert_no_error (error);
  return job;
}

/* --- cases ------------------------------------------------------------------------------------ */

static void
test_differences (Fixture       *self,
                  gconstpointer  data)
{
  g_autoptr (WbComparison) comparison = compare (self);
  WbMerge *merge = wb_comparison_get_merge (comparison);
  g_autoptr (WbJob) here = load (self);
  g_autoptr (WbJob) none = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (wb_merge_count (merge), ==, 2);
  g_assert_cmpuint (wb_merge_n_undecided (merge), ==, 1);
  g_assert_cmpstr (wb_comparison_get_by (comparison), ==, g_get_user_name ());
  g_assert_nonnull (wb_comparison_get_at (comparison));
  g_assert_cmpuint (wb_comparison_get_n_others (comparison), ==, 0);
  g_assert_cmpstr (wb_job_order (wb_comparison_get_mine (comparison))->bill_number, ==, "B-78");
  g_assert_cmpstr (wb_job_order (wb_comparison_get_theirs (comparison))->bill_number, ==, "B-77");
  /* Looking stores nothing. */
  g_assert_cmpint (wb_job_get_revision (here), ==, 2);
  g_assert_cmpint (state_of (self->share.here, self->share.at_here, self->id), ==,
                   WB_PUBLISH_CHANGED_BOTH);

  none = wb_office_store_merged (self->share.here, comparison, WB_MERGE_UNDECIDED, NULL, NULL, NULL,
                                 &error);
  g_assert_null (none);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
}

/* What was decided is stored, is published as what follows both, and reaches the other office. */
static void
test_decided (Fixture       *self,
              gconstpointer  data)
{
  g_autoptr (WbComparison) comparison = compare (self);
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) there = NULL;
  g_autoptr (GPtrArray) history = NULL;
  g_autoptr (GError) error = NULL;

  choose_theirs (wb_comparison_get_merge (comparison));
  stored = wb_office_store_merged (self->share.here, comparison, WB_MERGE_UNDECIDED, NULL, NULL,
                                   NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (wb_job_order (stored)->bill_number, ==, "B-77");
  g_assert_cmpstr (wb_job_order (stored)->coordinator, ==, "Ottilie Grau");
  g_assert_cmpint (wb_job_get_revision (stored), ==, 3);
  history = wb_office_list_history (self->share.here, self->id, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (history->len, ==, 3);

  publish (self->share.here, self->share.at_here, self->id, 2);
  there = wb_office_fetch (self->share.there, self->share.at_there, NULL, self->id,
                           WB_MERGE_UNDECIDED, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (there, stored));
}

/* Mine where both changed the same: that is a new version, which follows theirs. */
static void
test_decided_mine (Fixture       *self,
                   gconstpointer  data)
{
  g_autoptr (WbComparison) comparison = compare (self);
  WbMerge *merge = wb_comparison_get_merge (comparison);
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) there = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < wb_merge_count (merge); i++)
    if (wb_merge_nth (merge, i)->side == WB_MERGE_CONFLICT)
      wb_merge_choose (merge, i, WB_MERGE_MINE);
  stored = wb_office_store_merged (self->share.here, comparison, WB_MERGE_UNDECIDED, NULL, NULL,
                                   NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (wb_job_order (stored)->bill_number, ==, "B-78");
  g_assert_cmpstr (wb_job_order (stored)->coordinator, ==, "Ottilie Grau");
  g_assert_cmpint (state_of (self->share.here, self->share.at_here, self->id), ==,
                   WB_PUBLISH_CHANGED_HERE);
  publish (self->share.here, self->share.at_here, self->id, 3);
  there = wb_office_fetch (self->share.there, self->share.at_there, NULL, self->id,
                           WB_MERGE_UNDECIDED, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (there, stored));
}

static void
test_whole_mine (Fixture       *self,
                 gconstpointer  data)
{
  g_autoptr (WbComparison) comparison = compare (self);
  g_autoptr (WbJob) stored = wb_office_store_merged (self->share.here, comparison, WB_MERGE_MINE,
                                                     NULL, NULL, NULL, NULL);

  g_assert_true (wb_job_equal (stored, wb_comparison_get_mine (comparison)));
  g_assert_cmpint (wb_job_get_revision (stored), ==, 2);
  g_assert_cmpint (state_of (self->share.here, self->share.at_here, self->id), ==,
                   WB_PUBLISH_CHANGED_HERE);
  publish (self->share.here, self->share.at_here, self->id, 3);
}

static void
test_whole_theirs (Fixture       *self,
                   gconstpointer  data)
{
  g_autoptr (WbComparison) comparison = compare (self);
  g_autoptr (WbJob) stored = wb_office_store_merged (self->share.here, comparison, WB_MERGE_THEIRS,
                                                     NULL, NULL, NULL, NULL);

  g_assert_true (wb_job_equal (stored, wb_comparison_get_theirs (comparison)));
  g_assert_cmpint (wb_job_get_revision (stored), ==, 3);
  g_assert_cmpint (state_of (self->share.here, self->share.at_here, self->id), ==,
                   WB_PUBLISH_SAME);
}

/* Somebody works on the job here while another decides. */
static void
test_changed_meanwhile (Fixture       *self,
                        gconstpointer  data)
{
  const WbMergeChoice wholes[] = { WB_MERGE_UNDECIDED, WB_MERGE_MINE, WB_MERGE_THEIRS };
  g_autoptr (WbComparison) comparison = compare (self);
  g_autoptr (WbJob) changed = change (self->share.here, self->id, "B-79", NULL);

  choose_theirs (wb_comparison_get_merge (comparison));
  for (gsize i = 0; i < G_N_ELEMENTS (wholes); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (WbJob) none = wb_office_store_merged (self->share.here, comparison, wholes[i],
                                                       NULL, NULL, NULL, &error);
      g_autoptr (WbJob) here = load (self);

      g_assert_null (none);
      g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT);
      g_assert_true (wb_job_equal (here, changed));
    }
  g_assert_cmpint (state_of (self->share.here, self->share.at_here, self->id), ==,
                   WB_PUBLISH_CHANGED_BOTH);
}

/* The server goes on meanwhile: what was compared is stored, and the rest is still to come. */
static void
test_published_meanwhile (Fixture       *self,
                          gconstpointer  data)
{
  g_autoptr (WbComparison) comparison = compare (self);
  g_autoptr (WbJob) changed = change (self->share.there, self->id, NULL, "Imani Okonjo");
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbPublishStatus) none = NULL;
  g_autoptr (GError) error = NULL;

  publish (self->share.there, self->share.at_there, self->id, 3);
  choose_theirs (wb_comparison_get_merge (comparison));
  stored = wb_office_store_merged (self->share.here, comparison, WB_MERGE_UNDECIDED, NULL, NULL,
                                   NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (wb_job_order (stored)->coordinator, ==, "Ottilie Grau");
  none = wb_office_publish (self->share.here, self->share.at_here, NULL, self->id, NULL, NULL,
                            &error);
  g_assert_null (none);
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CHANGED);
}

/* --- at once ---------------------------------------------------------------------------------- */

/* Moves the newest version of the job, as if it had come a moment later. */
static char *
hide_newest (Fixture *self)
{
  g_autofree char *folder = g_build_filename (self->share.server_folder, "jobs", self->id, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autofree char *newest = NULL;
  g_autofree char *path = NULL;
  g_autofree char *aside = NULL;
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (newest == NULL || strcmp (name, newest) > 0)
      {
        g_free (newest);
        newest = g_strdup (name);
      }
  path = g_build_filename (folder, newest, NULL);
  aside = g_build_filename (self->share.folder, newest, NULL);
  g_assert_cmpint (g_rename (path, aside), ==, 0);
  return g_steal_pointer (&newest);
}

static void
show (Fixture    *self,
      const char *name)
{
  g_autofree char *path = g_build_filename (self->share.server_folder, "jobs", self->id, name, NULL);
  g_autofree char *aside = g_build_filename (self->share.folder, name, NULL);

  g_assert_cmpint (g_rename (aside, path), ==, 0);
}

/* Both published in the same moment, and each saw only its own version: what was done here is not
 * taken back by what was done there. */
static void
test_at_once (Fixture       *self,
              gconstpointer  data)
{
  g_autofree char *theirs = hide_newest (self);
  g_autoptr (WbComparison) comparison = NULL;
  g_autoptr (WbJob) none = NULL;
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) there = NULL;
  g_autoptr (GError) error = NULL;

  publish (self->share.here, self->share.at_here, self->id, 2);
  show (self, theirs);
  g_assert_cmpint (state_of (self->share.here, self->share.at_here, self->id), ==,
                   WB_PUBLISH_CHANGED_THERE);
  none = wb_office_fetch (self->share.here, self->share.at_here, NULL, self->id,
                          WB_MERGE_UNDECIDED, NULL, NULL, &error);
  g_assert_null (none);
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_CHANGED);
  g_clear_error (&error);

  comparison = compare (self);
  g_assert_cmpuint (wb_merge_count (wb_comparison_get_merge (comparison)), ==, 2);
  g_assert_cmpuint (wb_merge_n_undecided (wb_comparison_get_merge (comparison)), ==, 1);
  choose_theirs (wb_comparison_get_merge (comparison));
  stored = wb_office_store_merged (self->share.here, comparison, WB_MERGE_UNDECIDED, NULL, NULL,
                                   NULL, &error);
  g_assert_no_error (error);
  publish (self->share.here, self->share.at_here, self->id, 3);
  there = wb_office_fetch (self->share.there, self->share.at_there, NULL, self->id,
                           WB_MERGE_UNDECIDED, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (there, stored));
}

/* The same where each changed something else: fetching keeps both, on both sides. */
static void
test_at_once_apart (Fixture       *self,
                    gconstpointer  data)
{
  WbOffice *here = self->share.here;
  g_autofree char *theirs = NULL;
  g_autoptr (WbJob) taken = wb_office_fetch (here, self->share.at_here, NULL, self->id,
                                             WB_MERGE_THEIRS, NULL, NULL, NULL);
  g_autoptr (WbJob) in_step = NULL;
  g_autoptr (WbJob) changed_there = NULL;
  g_autoptr (WbJob) changed_here = NULL;
  g_autoptr (WbJob) both = NULL;
  g_autoptr (WbJob) there = NULL;
  g_autoptr (GError) error = NULL;

  publish (here, self->share.at_here, self->id, 2);
  in_step = wb_office_fetch (self->share.there, self->share.at_there, NULL, self->id,
                             WB_MERGE_UNDECIDED, NULL, NULL, &error);
  g_assert_no_error (error);
  changed_there = change (self->share.there, self->id, NULL, "Imani Okonjo");
  publish (self->share.there, self->share.at_there, self->id, 3);
  theirs = hide_newest (self);
  changed_here = change (here, self->id, "B-99", NULL);
  publish (here, self->share.at_here, self->id, 3);
  show (self, theirs);

  both = wb_office_fetch (here, self->share.at_here, NULL, self->id, WB_MERGE_UNDECIDED, NULL,
                          NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (wb_job_order (both)->bill_number, ==, "B-99");
  g_assert_cmpstr (wb_job_order (both)->coordinator, ==, "Imani Okonjo");

  /* Whoever is on the other side comes to the same. */
  there = wb_office_fetch (self->share.there, self->share.at_there, NULL, self->id,
                           WB_MERGE_UNDECIDED, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (there, both));
  publish (here, self->share.at_here, self->id, 4);
  g_assert_cmpint (state_of (self->share.there, self->share.at_there, self->id), ==,
                   WB_PUBLISH_SAME);
}

/* --- only looking ----------------------------------------------------------------------------- */

static void
test_peek (Fixture       *self,
           gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_peek_published (self->share.here, self->share.at_here, NULL,
                                                    self->id, NULL, NULL, &error);
  g_autoptr (WbJob) here = load (self);
  g_autoptr (WbJob) none = NULL;

  g_assert_no_error (error);
  g_assert_cmpstr (wb_job_order (job)->bill_number, ==, "B-77");
  g_assert_cmpstr (wb_job_order (here)->bill_number, ==, "B-78");
  none = wb_office_peek_published (self->share.here, self->share.at_here, NULL, "nowhere", NULL,
                                   NULL, &error);
  g_assert_null (none);
  g_assert_error (error, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND);
}

/* --- from the main loop ----------------------------------------------------------------------- */

/* Every form for the window, one after the other. */
static void
test_async (Fixture       *self,
            gconstpointer  data)
{
  WbOffice *office = self->share.here;
  const char *server = self->share.at_here;
  g_autoptr (WbProgress) progress = wb_progress_new ();
  g_autoptr (WbPublishStatus) status = NULL;
  g_autoptr (WbPublishStatus) published = NULL;
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GPtrArray) faults = NULL;
  g_autoptr (WbComparison) comparison = NULL;
  g_autoptr (WbJob) peeked = NULL;
  g_autoptr (WbJob) stored = NULL;
  g_autoptr (WbJob) fetched = NULL;
  g_autoptr (GError) error = NULL;
  WbProgressState state;
  guint n_files = 0;

#define READY share_fixture_ready, &result
#define RUN(start, finish) \
  { \
    g_autoptr (GAsyncResult) result = NULL; \
    start; \
    share_fixture_wait (share_fixture_is_ready, &result); \
    finish; \
    g_assert_no_error (error); \
  }

  RUN (wb_office_publish_status_async (office, server, NULL, self->id, NULL, READY),
       status = wb_office_publish_status_finish (office, result, &error));
  g_assert_cmpint (status->state, ==, WB_PUBLISH_CHANGED_BOTH);
  RUN (wb_office_list_published_async (office, server, NULL, "B-77", NULL, READY),
       jobs = wb_office_list_published_finish (office, result, &error));
  RUN (wb_office_peek_published_async (office, server, NULL, self->id, progress, NULL, READY),
       peeked = wb_office_peek_published_finish (office, result, &error));
  g_assert_cmpstr (wb_job_order (peeked)->bill_number, ==, "B-77");
  RUN (wb_office_compare_published_async (office, server, NULL, self->id, progress, NULL, READY),
       comparison = wb_office_compare_published_finish (office, result, &error));
  choose_theirs (wb_comparison_get_merge (comparison));
  RUN (wb_office_store_merged_async (office, comparison, WB_MERGE_UNDECIDED, NULL, progress, NULL,
                                     READY),
       stored = wb_office_store_merged_finish (office, result, &error));
  RUN (wb_office_publish_async (office, server, NULL, self->id, progress, NULL, READY),
       published = wb_office_publish_finish (office, result, &error));
  g_assert_cmpint (published->state, ==, WB_PUBLISH_SAME);
  RUN (wb_office_fetch_async (office, server, NULL, self->id, WB_MERGE_UNDECIDED, progress, NULL,
                              READY),
       fetched = wb_office_fetch_finish (office, result, &error));
  g_assert_true (wb_job_equal (fetched, stored));
  RUN (wb_office_verify_published_async (office, server, NULL, self->id, progress, NULL, READY),
       faults = wb_office_verify_published_finish (office, result, &n_files, &error));
  g_assert_cmpuint (faults->len, ==, 0);
  g_assert_cmpuint (n_files, ==, 3);     /* the document, and its papers as PDF */
  wb_progress_get (progress, &state);
  g_assert_nonnull (state.words);
#undef RUN
#undef READY
}

#define ADD(path, function) \
  g_test_add ("/office/publish-compare/" path, Fixture, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  share_fixture_init (&argc, &argv);
  ADD ("differences", test_differences);
  ADD ("decided", test_decided);
  ADD ("decided-mine", test_decided_mine);
  ADD ("whole-mine", test_whole_mine);
  ADD ("whole-theirs", test_whole_theirs);
  ADD ("changed-meanwhile", test_changed_meanwhile);
  ADD ("published-meanwhile", test_published_meanwhile);
  ADD ("at-once", test_at_once);
  ADD ("at-once-apart", test_at_once_apart);
  ADD ("peek", test_peek);
  ADD ("async", test_async);
  return g_test_run ();
}
