/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathering what a report over claims is made of, in a worker thread, and its words. */
#include "config.h"

#include "core/wb-core.h"
#include "office/wb-claim-report.h"
#include "office/wb-job-document.h"

#include <glib/gstdio.h>

#include <string.h>

typedef struct
{
  char          *folder;
  char          *path;
  WbOffice      *office;
  WbClaimReport *report;
  GError        *error;
  gboolean       done;
} Fixture;

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("wb-report-XXXXXX", &error);
  fixture->path = g_build_filename (fixture->folder, "office.wainbook", NULL);
  fixture->office = wb_office_open (fixture->path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  wb_office_close (fixture->office);
  g_clear_object (&fixture->office);
  g_clear_pointer (&fixture->report, wb_claim_report_free);
  g_clear_error (&fixture->error);
  g_remove (fixture->path);
  g_remove (fixture->folder);
  g_free (fixture->path);
  g_free (fixture->folder);
}

/* A job with one claim of one line about a carton that Ida packed. @move_type: with a regime or
 * without one */
static void
add_job (Fixture    *fixture,
         const char *number,
         const char *move_type,
         const char *status)
{
  g_autofree char *text = g_strdup_printf (
    "{\"format\":\"wainbook-job\",\"version\":3,\"id\":\"%s\",\"currency\":\"USD\","
    "\"order\":{\"number\":\"%s\",\"move_type\":\"%s\",\"picked_up_on\":\"2026-03-02\","
    "\"delivered_on\":\"2026-03-09\"},\"valuation\":{},"
    "\"pieces\":[{\"id\":\"p1\",\"carton\":\"dish pack\",\"packed_by\":\"CP\",\"packer\":\"Ida\"}],"
    "\"claims\":[{\"id\":\"c1\",\"number\":\"C-%s\",\"status\":\"%s\","
    "\"received_on\":\"2026-04-01\",\"decided_on\":\"2026-05-01\",\"reserve\":\"50.00 USD\"}],"
    "\"claim_lines\":[{\"id\":\"l1\",\"claim\":\"c1\",\"number\":1,\"piece\":\"p1\","
    "\"item\":\"Plates\",\"loss\":\"damaged\",\"demanded\":\"90.00 USD\",\"repair\":\"40.00 USD\","
    "\"cause\":\"packing\"}]}", number, number, move_type, number, status);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = wb_job_document_read (text, -1, &error);
  g_autoptr (GPtrArray) jobs = g_ptr_array_new ();

  g_assert_no_error (error);
  g_ptr_array_add (jobs, job);
  g_assert_true (wb_office_add_jobs (fixture->office, jobs, "Test", NULL, &error));
  g_assert_no_error (error);
}

static void
reported_cb (GObject      *object,
             GAsyncResult *result,
             gpointer      data)
{
  Fixture *fixture = data;

  fixture->report = wb_office_claim_report_finish (WB_OFFICE (object), result, &fixture->error);
  fixture->done = TRUE;
}

static void
gather (Fixture          *fixture,
        WbReportProgress *progress,
        GCancellable     *cancellable)
{
  wb_office_claim_report_async (fixture->office, progress, cancellable, reported_cb, fixture);
  while (!fixture->done)
    g_main_context_iteration (NULL, TRUE);
}

/* Finished claims give lines, open ones totals, and what has no terms a sentence. */
static void
test_gathered (Fixture       *fixture,
               gconstpointer  data)
{
  g_autoptr (WbReportProgress) progress = wb_report_progress_new ();
  g_autofree char *words = NULL;
  const WbClaimTotals *totals;
  const WbLossLine *line;
  guint n_done, n_all;

  add_job (fixture, "J-1", "interstate", "settled");
  add_job (fixture, "J-2", "interstate", "open");
  add_job (fixture, "J-3", "none", "open");
  gather (fixture, progress, NULL);
  g_assert_no_error (fixture->error);
  wb_report_progress_get (progress, &n_done, &n_all);
  g_assert_cmpuint (n_done, ==, 3);
  g_assert_cmpuint (n_all, ==, 3);

  g_assert_cmpuint (fixture->report->lines->len, ==, 1);
  line = g_ptr_array_index (fixture->report->lines, 0);
  g_assert_cmpstr (line->claim_number, ==, "C-J-1");
  g_assert_cmpstr (line->keys[WB_LOSS_BY_CARTON], ==, "dish");
  g_assert_cmpint (line->owed, ==, 4000);
  g_assert_cmpuint (fixture->report->moved->len, ==, 3);

  g_assert_cmpuint (fixture->report->open->len, ==, 1);
  totals = &g_array_index (fixture->report->open, WbClaimTotals, 0);
  g_assert_cmpuint (totals->n_claims, ==, 2);
  g_assert_cmpuint (totals->n_unreckoned, ==, 1);
  g_assert_cmpint (totals->reserve, ==, 10000);
  g_assert_cmpint (totals->difference, ==, 1000);
  words = wb_claim_totals_words (totals);
  g_assert_nonnull (strstr (words, "$100.00 set aside: $10.00 more than is owed."));
  g_assert_nonnull (strstr (words, "1 could not be reckoned"));
  g_assert_cmpuint (fixture->report->faults->len, ==, 1);
  g_assert_nonnull (strstr (g_ptr_array_index (fixture->report->faults, 0), "C-J-3"));
}

static void
test_cancelled (Fixture       *fixture,
                gconstpointer  data)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();

  add_job (fixture, "J-1", "interstate", "settled");
  g_cancellable_cancel (cancellable);
  gather (fixture, NULL, cancellable);
  g_assert_error (fixture->error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_assert_null (fixture->report);
}

static void
test_nothing (Fixture       *fixture,
              gconstpointer  data)
{
  gather (fixture, NULL, NULL);
  g_assert_no_error (fixture->error);
  g_assert_cmpuint (fixture->report->lines->len, ==, 0);
  g_assert_cmpuint (fixture->report->open->len, ==, 0);
}

/* --- words ------------------------------------------------------------------------------------ */

static void
test_period (void)
{
  GDate from, to;
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_loss_period_parse ("", NULL, &from, &to, &error));
  g_assert_false (g_date_valid (&from) || g_date_valid (&to));
  g_assert_true (wb_loss_period_parse ("2026-03-01", "2026-03-01", &from, &to, &error));
  g_assert_true (g_date_valid (&from) && g_date_valid (&to));
  g_assert_false (wb_loss_period_parse ("2026-03-02", "2026-03-01", &from, &to, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
  g_clear_error (&error);
  g_assert_false (wb_loss_period_parse ("March", NULL, &from, &to, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
}

static void
assert_rate (guint       n_pieces,
             gint64      moved,
             const char *expected)
{
  WbLossGroup group = { .n_pieces = n_pieces, .moved = moved, .owed = 1000, .currency = "USD" };
  g_autofree char *words = wb_loss_rate_words (&group);

  g_assert_cmpstr (words, ==, expected);
}

static void
test_rates (void)
{
  assert_rate (2, WB_INTEGER_UNSET, "");
  assert_rate (2, 0, "None delivered in this time");
  assert_rate (2, 19, "2 claimed, 19 moved: too few for a rate");
  assert_rate (2, 40, "2 claimed, 40 moved: 5.00 of 100, $25.00 owed for 100");
}

static void
assert_words (WbLossBy    by,
              const char *key,
              const char *expected)
{
  g_autofree char *words = wb_loss_key_words (by, key, NULL);

  g_assert_cmpstr (words, ==, expected);
}

static void
test_names (void)
{
  assert_words (WB_LOSS_BY_LANE, "OH>TX", "OH → TX");
  assert_words (WB_LOSS_BY_LANE, NULL, "A region is missing");
  assert_words (WB_LOSS_BY_PACKER, NULL, "Not noted");
  assert_words (WB_LOSS_BY_PACKER, WB_LOSS_KEY_OWNER, "The owner");
  assert_words (WB_LOSS_BY_CARTON, WB_LOSS_KEY_LOOSE, "Loose piece");
  assert_words (WB_LOSS_BY_CARTON, "tea chest", "tea chest");
  assert_words (WB_LOSS_BY_HANDLER, WB_LOSS_KEY_CARRIER, "The carrier");
  assert_words (WB_LOSS_BY_CAUSE, "astray", "Gone astray");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add ("/claim-report/gathered", Fixture, NULL, set_up, test_gathered, tear_down);
  g_test_add ("/claim-report/cancelled", Fixture, NULL, set_up, test_cancelled, tear_down);
  g_test_add ("/claim-report/nothing", Fixture, NULL, set_up, test_nothing, tear_down);
  g_test_add_func ("/claim-report/period", test_period);
  g_test_add_func ("/claim-report/rates", test_rates);
  g_test_add_func ("/claim-report/names", test_names);

  return g_test_run ();
}
