/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-office.h"

#include "core/wb-core.h"
#include "random-job.h"
#include "store/wb-store.h"
#include "support/wb-test-folder.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char      *folder;
  char      *path;
  WbOffice  *office;
  GPtrArray *saved;   /* ids from "job-saved" */
} Fixture;

static void
saved_cb (WbOffice   *office,
          const char *job_id,
          gpointer    data)
{
  g_ptr_array_add (data, g_strdup (job_id));
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("wainbook-XXXXXX", &error);
  g_assert_no_error (error);
  fixture->path = g_build_filename (fixture->folder, "office.book", NULL);
  fixture->office = wb_office_open (fixture->path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  fixture->saved = g_ptr_array_new_with_free_func (g_free);
  g_signal_connect (fixture->office, "job-saved", G_CALLBACK (saved_cb), fixture->saved);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  gpointer watched = fixture->office;

  g_object_add_weak_pointer (G_OBJECT (fixture->office), &watched);
  g_object_unref (fixture->office);

  /* Messages on their way hold the office, and so does a worker thread until it has let go of its
     task. */
  for (guint i = 0; watched != NULL && i < 5000; i++)
    {
      while (g_main_context_iteration (NULL, FALSE))
        ;
      g_usleep (1000);
    }
  g_assert_null (watched);

  g_ptr_array_unref (fixture->saved);
  wb_test_remove_tree (fixture->folder);
  g_free (fixture->folder);
  g_free (fixture->path);
}

static void
keep_result_cb (GObject      *source,
                GAsyncResult *result,
                gpointer      data)
{
  GAsyncResult **kept = data;

  *kept = g_object_ref (result);
}

static GAsyncResult *
wait_for (GAsyncResult **result)
{
  while (*result == NULL)
    g_main_context_iteration (NULL, TRUE);

  return *result;
}

static void
test_open_again (Fixture       *fixture,
                 gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (WbOffice) again = NULL;
  g_autoptr (WbOffice) missing = NULL;

  g_assert_cmpstr (wb_office_get_path (fixture->office), ==, fixture->path);
  wb_office_open_async (fixture->path, WB_BOOK_OPEN, NULL, keep_result_cb, &result);
  again = wb_office_open_finish (wait_for (&result), &error);
  g_assert_no_error (error);
  g_assert_nonnull (again);

  g_clear_object (&result);
  wb_office_open_async ("/nowhere/office.book", WB_BOOK_OPEN, NULL, keep_result_cb, &result);
  missing = wb_office_open_finish (wait_for (&result), &error);
  g_assert_null (missing);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND);
}

static void
test_create (Fixture       *fixture,
             gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *prefix = NULL;
  GDate today;
  g_autoptr (WbJob) first = wb_office_create_job (fixture->office, "USD", NULL, &error);
  g_autoptr (WbJob) second = NULL;
  g_autoptr (WbJob) wrong = NULL;
  g_autoptr (WbJob) found = NULL;
  g_autoptr (GAsyncResult) result = NULL;

  g_assert_no_error (error);
  wb_office_today (&today);
  prefix = g_strdup_printf ("J-%04d-", g_date_get_year (&today));
  g_assert_true (g_str_has_prefix (wb_job_order (first)->number, prefix));
  g_assert_true (g_str_has_suffix (wb_job_order (first)->number, "-0001"));
  g_assert_cmpint (wb_job_get_revision (first), ==, 1);

  wb_office_create_job_async (fixture->office, "EUR", NULL, keep_result_cb, &result);
  second = wb_office_create_job_finish (fixture->office, wait_for (&result), &error);
  g_assert_no_error (error);
  g_assert_true (g_str_has_suffix (wb_job_order (second)->number, "-0002"));
  g_assert_cmpstr (wb_job_get_currency (second), ==, "EUR");
  g_assert_cmpstr (wb_job_get_id (second), !=, wb_job_get_id (first));

  found = wb_office_find_job (fixture->office, wb_job_order (second)->number, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (found, second));

  wrong = wb_office_create_job (fixture->office, "XQX", NULL, &error);
  g_assert_null (wrong);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY);
}

static WbJob *
with_note (WbJob      *job,
           const char *note)
{
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));

  wb_set_text (&order->notes, note);
  return wb_job_with (job, order);
}

static void
test_save (Fixture       *fixture,
           gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_create_job (fixture->office, "USD", NULL, &error);
  g_autoptr (WbJob) changed = with_note (job, "Piano on the second floor");
  g_autoptr (WbJob) other = with_note (job, "Something else");
  g_autoptr (WbJob) saved = NULL;
  g_autoptr (WbJob) refused = NULL;
  g_autoptr (WbJob) loaded = NULL;
  g_autoptr (GPtrArray) history = NULL;
  g_autoptr (GAsyncResult) result = NULL;

  wb_office_save_job_async (fixture->office, job, changed, "Change notes", NULL, keep_result_cb,
                            &result);
  saved = wb_office_save_job_finish (fixture->office, wait_for (&result), &error);
  g_assert_no_error (error);
  g_assert_cmpint (wb_job_get_revision (saved), ==, 2);

  g_clear_object (&result);
  wb_office_load_job_async (fixture->office, wb_job_get_id (job), NULL, keep_result_cb, &result);
  loaded = wb_office_load_job_finish (fixture->office, wait_for (&result), &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (loaded, changed));

  /* A change made from the old state is refused and changes nothing. */
  g_clear_object (&result);
  wb_office_save_job_async (fixture->office, job, other, "Change notes", NULL, keep_result_cb,
                            &result);
  refused = wb_office_save_job_finish (fixture->office, wait_for (&result), &error);
  g_assert_null (refused);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CONFLICT);
  g_clear_error (&error);

  g_clear_object (&result);
  wb_office_list_history_async (fixture->office, wb_job_get_id (job), NULL, keep_result_cb,
                                &result);
  history = wb_office_list_history_finish (fixture->office, wait_for (&result), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (history->len, ==, 2);
  g_assert_cmpstr (((WbHistoryEntry *) g_ptr_array_index (history, 0))->deed, ==, "Change notes");

  while (fixture->saved->len < 2)
    g_main_context_iteration (NULL, TRUE);
  g_assert_cmpuint (fixture->saved->len, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (fixture->saved, 0), ==, wb_job_get_id (job));
  g_assert_cmpstr (g_ptr_array_index (fixture->saved, 1), ==, wb_job_get_id (job));
}

/* A job that contradicts itself never reaches the book. */
static void
test_save_faulty (Fixture       *fixture,
                  gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_create_job (fixture->office, "USD", NULL, &error);
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p");
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) saved = NULL;
  g_autoptr (WbJob) loaded = NULL;

  wb_set_text (&piece->lot, "no-such-lot");
  changed = wb_job_with (job, piece);
  saved = wb_office_save_job (fixture->office, job, changed, "Add piece", NULL, &error);
  g_assert_null (saved);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_clear_error (&error);

  loaded = wb_office_load_job (fixture->office, wb_job_get_id (job), NULL, &error);
  g_assert_no_error (error);
  g_assert_true (wb_job_equal (loaded, job));
}

static void
test_add_jobs (Fixture       *fixture,
               gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_job_unref);
  g_autoptr (GPtrArray) listed = NULL;

  for (guint i = 0; i < 5; i++)
    {
      g_autofree char *id = g_strdup_printf ("job-%u", i);
      g_autoptr (WbJob) job = random_job ("USD", 4);
      g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));
      g_autoptr (WbJob) numbered = NULL;

      g_free (order->number);
      order->number = g_strdup_printf ("N-%u", i);
      numbered = wb_job_with (job, order);
      g_ptr_array_add (jobs, wb_job_with_id (numbered, id));
    }

  /* The same claim numbers in two jobs may be refused; numbers are made unique first. */
  for (guint i = 0; i < jobs->len; i++)
    {
      WbJob *job = g_ptr_array_index (jobs, i);

      for (guint j = 0; j < wb_job_count (job, WB_KIND_CLAIM); j++)
        {
          g_autoptr (WbClaim) claim = wb_record_copy (wb_job_nth (job, WB_KIND_CLAIM, j));

          g_free (claim->number);
          claim->number = g_strdup_printf ("C-%u-%u", i, j);
          g_ptr_array_index (jobs, i) = wb_job_with (job, claim);
          wb_job_unref (job);
          job = g_ptr_array_index (jobs, i);
        }
    }

  g_assert_true (wb_office_add_jobs (fixture->office, jobs, "Import", NULL, &error));
  g_assert_no_error (error);
  listed = wb_office_list_jobs (fixture->office, NULL, 0, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (listed->len, ==, 5);
  for (guint i = 0; i < jobs->len; i++)
    {
      WbJob *job = g_ptr_array_index (jobs, i);
      g_autoptr (WbJob) loaded = wb_office_load_job (fixture->office, wb_job_get_id (job), NULL,
                                                     &error);

      g_assert_no_error (error);
      g_assert_true (wb_job_equal (loaded, job));
    }

  /* Once more: they are there already, and the message says so. */
  g_assert_false (wb_office_add_jobs (fixture->office, jobs, "Import", NULL, &error));
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
}

static void
test_list (Fixture       *fixture,
           gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_office_create_job (fixture->office, "USD", NULL, &error);
  g_autoptr (WbParty) party = wb_record_new (WB_KIND_PARTY, "a");
  g_autoptr (WbJob) changed = NULL;
  g_autoptr (WbJob) saved = NULL;
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (GPtrArray) none = NULL;
  g_autoptr (GAsyncResult) result = NULL;

  party->role = WB_ROLE_SHIPPER;
  wb_set_text (&party->name, "Odile Brandt");
  changed = wb_job_with (job, party);
  saved = wb_office_save_job (fixture->office, job, changed, "Add shipper", NULL, &error);
  g_assert_no_error (error);

  wb_office_list_jobs_async (fixture->office, "brandt", 10, NULL, keep_result_cb, &result);
  found = wb_office_list_jobs_finish (fixture->office, wait_for (&result), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (found->len, ==, 1);
  g_assert_cmpstr (((WbJobSummary *) g_ptr_array_index (found, 0))->shipper, ==, "Odile Brandt");

  none = wb_office_list_jobs (fixture->office, "nobody", 10, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (none->len, ==, 0);
}

static void
test_claim_number (Fixture       *fixture,
                   gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *first = wb_office_next_claim_number (fixture->office, NULL, &error);
  g_autofree char *second = NULL;
  g_autoptr (GAsyncResult) result = NULL;

  g_assert_no_error (error);
  wb_office_next_claim_number_async (fixture->office, NULL, keep_result_cb, &result);
  second = wb_office_next_claim_number_finish (fixture->office, wait_for (&result), &error);
  g_assert_no_error (error);
  g_assert_true (g_str_has_prefix (first, "C-"));
  g_assert_cmpstr (first, !=, second);
}

static void
test_cancelled (Fixture       *fixture,
                gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GPtrArray) jobs = NULL;

  g_cancellable_cancel (cancellable);
  wb_office_list_jobs_async (fixture->office, NULL, 0, cancellable, keep_result_cb, &result);
  jobs = wb_office_list_jobs_finish (fixture->office, wait_for (&result), &error);
  g_assert_null (jobs);
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

static void
test_closed (Fixture       *fixture,
             gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (WbJob) job = NULL;

  wb_office_close (fixture->office);
  wb_office_close (fixture->office);
  wb_office_create_job_async (fixture->office, "USD", NULL, keep_result_cb, &result);
  job = wb_office_create_job_finish (fixture->office, wait_for (&result), &error);
  g_assert_null (job);
  g_assert_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CLOSED);
}

/* --- terms ------------------------------------------------------------------------------------ */

#define OWN_TERMS \
  "regime = us-interstate\ntitle = Our own\ncurrency = USD\nmove-type = interstate\n\n" \
  "[edition]\nfrom = 2000-01-01\n\n[full]\nshipment-minimum = 777.00\n"

static char *
own_terms_folder (void)
{
  return g_build_filename (g_get_user_data_dir (), "wainbook", "terms", NULL);
}

static void
write_own_terms (const char *name,
                 const char *text)
{
  g_autofree char *folder = own_terms_folder ();
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
}

static const WbTerms *
find_regime (WbOffice   *office,
             const char *regime)
{
  WbTermsSet *set = wb_office_get_terms (office);

  for (guint i = 0; i < wb_terms_set_count (set); i++)
    {
      if (g_str_equal (wb_terms_set_nth (set, i)->regime, regime))
        return wb_terms_set_nth (set, i);
    }

  return NULL;
}

static void
test_terms_shipped (Fixture       *fixture,
                    gconstpointer  data)
{
  g_assert_nonnull (wb_office_get_terms_faults (fixture->office));
  g_assert_null (wb_office_get_terms_faults (fixture->office)[0]);
  g_assert_nonnull (find_regime (fixture->office, "us-interstate"));
  g_assert_null (find_regime (fixture->office, "my-regime"));
}

static void
test_terms_own (Fixture       *fixture,
                gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbOffice) office = NULL;
  g_autofree char *folder = own_terms_folder ();

  write_own_terms ("ours.terms", OWN_TERMS);
  write_own_terms ("broken.terms", "regime = broken\nwhat is this\n");
  write_own_terms ("notes.txt", "not terms");
  write_own_terms ("blank.terms", "not read");
  office = wb_office_open (fixture->path, WB_BOOK_OPEN, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (find_regime (office, "us-interstate")->title, ==, "Our own");
  g_assert_nonnull (find_regime (office, "us-military"));

  g_assert_cmpuint (g_strv_length ((GStrv) wb_office_get_terms_faults (office)), ==, 1);
  g_assert_true (g_str_has_prefix (wb_office_get_terms_faults (office)[0], "broken.terms:2: "));
  wb_test_remove_tree (folder);
}

static void
test_reckon (Fixture       *fixture,
             gconstpointer  data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) empty = wb_office_create_job (fixture->office, "USD", NULL, &error);
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (empty));
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p");
  g_autoptr (WbClaim) claim = wb_record_new (WB_KIND_CLAIM, "c");
  g_autoptr (WbClaimLine) line = wb_record_new (WB_KIND_CLAIM_LINE, "l");
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (WbReckoning) missing = NULL;

  missing = wb_office_reckon (fixture->office, empty, "c", &error);
  g_assert_null (missing);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  g_clear_error (&error);

  order->move_type = WB_MOVE_INTERSTATE;
  g_assert_true (wb_date_parse ("2024-01-10", &order->picked_up_on, &error));
  piece->form = WB_FORM_LOOSE;
  piece->weight = wb_weight (1000, WB_WEIGHT_UNIT_LB);
  wb_set_text (&claim->number, "C-1");
  wb_set_text (&line->claim, "c");
  wb_set_text (&line->piece, "p");
  line->number = 1;
  line->loss = WB_LOSS_MISSING;
  line->replacement = wb_money (100000, "USD");
  g_ptr_array_add (records, order);
  g_ptr_array_add (records, piece);
  g_ptr_array_add (records, claim);
  g_ptr_array_add (records, line);
  job = wb_job_with_many (empty, records);

  /* An article of 10 lb worth $1,000, lost, is worth $6.00 at released value. */
  reckoning = wb_office_reckon (fixture->office, job, "c", &error);
  g_assert_no_error (error);
  g_assert_cmpint (reckoning->side[WB_SIDE_RELEASED].owed, ==, 600);
  g_assert_cmpstr (reckoning->terms->regime, ==, "us-interstate");
}

#define ADD(name, function) \
  g_test_add ("/office/office/" name, Fixture, NULL, set_up, function, tear_down)

int
main (int    argc,
      char **argv)
{
  g_autofree char *home = g_dir_make_tmp ("wainbook-XXXXXX", NULL);
  g_autofree char *below = g_build_filename (home, "wainbook", NULL);
  int failed;

  /* Whoever runs this may have terms of their own. */
  g_setenv ("XDG_DATA_HOME", home, TRUE);
  g_test_init (&argc, &argv, NULL);
  ADD ("open-again", test_open_again);
  ADD ("create", test_create);
  ADD ("save", test_save);
  ADD ("save-faulty", test_save_faulty);
  ADD ("add-jobs", test_add_jobs);
  ADD ("list", test_list);
  ADD ("claim-number", test_claim_number);
  ADD ("cancelled", test_cancelled);
  ADD ("closed", test_closed);
  ADD ("terms-shipped", test_terms_shipped);
  ADD ("terms-own", test_terms_own);
  ADD ("reckon", test_reckon);
  failed = g_test_run ();

  g_rmdir (below);
  g_rmdir (home);
  return failed;
}
