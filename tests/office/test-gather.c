/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-gather.h"

#include <glib/gstdio.h>

typedef struct
{
  char         *folder;
  char         *path;
  WbOffice     *office;
  GString      *seen;       /* what was wanted, taken and told, in order */
  GCancellable *cancel_at;  /* (nullable): cancelled when the first job is taken */
  gboolean      fail;
  gboolean      remove;     /* the first job that is taken removes the others */
} Fixture;

static void
add_job (WbOffice   *office,
         const char *number,
         WbStage     stage)
{
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_job_unref);
  g_autoptr (WbJob) empty = wb_job_new (number, "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (empty));
  g_autoptr (GError) error = NULL;

  wb_set_text (&order->number, number);
  order->stage = stage;
  g_ptr_array_add (jobs, wb_job_with (empty, order));
  g_assert_true (wb_office_add_jobs (office, jobs, "Test", NULL, &error));
  g_assert_no_error (error);
}

static void
set_up (Fixture       *fixture,
        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("wb-gather-XXXXXX", &error);
  fixture->path = g_build_filename (fixture->folder, "office.wainbook", NULL);
  fixture->office = wb_office_open (fixture->path, WB_BOOK_CREATE, NULL, &error);
  g_assert_no_error (error);
  fixture->seen = g_string_new (NULL);
  add_job (fixture->office, "a", WB_STAGE_BOOKED);
  add_job (fixture->office, "b", WB_STAGE_CANCELLED);
  add_job (fixture->office, "c", WB_STAGE_BOOKED);
}

static void
tear_down (Fixture       *fixture,
           gconstpointer  data)
{
  wb_office_close (fixture->office);
  g_clear_object (&fixture->office);
  g_remove (fixture->path);
  g_remove (fixture->folder);
  g_free (fixture->path);
  g_free (fixture->folder);
  g_string_free (fixture->seen, TRUE);
}

static gboolean
is_booked (const WbJobSummary *summary,
           gpointer            data)
{
  return summary->stage == WB_STAGE_BOOKED;
}

/* As another program would. */
static void
remove_others (const char *path,
               const char *id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbBook) book = wb_book_open (path, WB_BOOK_OPEN, NULL, &error);
  g_autoptr (GPtrArray) all = wb_book_list_jobs (book, NULL, 0, NULL, &error);

  for (guint i = 0; i < all->len; i++)
    {
      const WbJobSummary *summary = g_ptr_array_index (all, i);

      if (!g_str_equal (summary->id, id))
        g_assert_true (wb_book_remove_job (book, summary->id, summary->revision, NULL, &error));
    }
  g_assert_no_error (error);
  wb_book_close (book);
}

static gboolean
take (WbOffice            *office,
      const WbJobSummary  *summary,
      WbJob               *job,
      gpointer             data,
      GError             **error)
{
  Fixture *fixture = data;

  g_assert_cmpstr (wb_job_get_id (job), ==, summary->id);
  if (fixture->fail)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, "enough");
      return FALSE;
    }
  g_string_append (fixture->seen, wb_job_order (job)->number);
  if (fixture->cancel_at != NULL)
    g_cancellable_cancel (fixture->cancel_at);
  if (fixture->remove)
    remove_others (fixture->path, summary->id);
  return TRUE;
}

static void
tell (guint    n_done,
      guint    n_all,
      gpointer data)
{
  g_string_append_printf (((Fixture *) data)->seen, " %u/%u ", n_done, n_all);
}

/* Every job once, and only what is wanted counts. */
static void
test_wanted (Fixture       *fixture,
             gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_gather_jobs (fixture->office, is_booked, take, tell, fixture, NULL, &error));
  g_assert_no_error (error);
  g_assert_true (g_str_equal (fixture->seen->str, " 0/2 a 1/2 c 2/2 ") ||
                 g_str_equal (fixture->seen->str, " 0/2 c 1/2 a 2/2 "));

  g_string_truncate (fixture->seen, 0);
  g_assert_true (wb_gather_jobs (fixture->office, NULL, take, NULL, fixture, NULL, &error));
  g_assert_cmpuint (fixture->seen->len, ==, 3);
}

static void
test_cancelled (Fixture       *fixture,
                gconstpointer  data)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;

  fixture->cancel_at = cancellable;
  g_assert_false (wb_gather_jobs (fixture->office, NULL, take, NULL, fixture, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_assert_cmpuint (fixture->seen->len, ==, 1);
}

static void
test_failure_stops (Fixture       *fixture,
                    gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture->fail = TRUE;
  g_assert_false (wb_gather_jobs (fixture->office, NULL, take, NULL, fixture, NULL, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA);
}

/* What is gone meanwhile is passed over, and still counted as looked at. */
static void
test_removed_meanwhile (Fixture       *fixture,
                        gconstpointer  data)
{
  g_autoptr (GError) error = NULL;

  fixture->remove = TRUE;
  g_assert_true (wb_gather_jobs (fixture->office, NULL, take, tell, fixture, NULL, &error));
  g_assert_no_error (error);
  g_assert_true (g_str_has_suffix (fixture->seen->str, " 2/3  3/3 "));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add ("/gather/wanted", Fixture, NULL, set_up, test_wanted, tear_down);
  g_test_add ("/gather/cancelled", Fixture, NULL, set_up, test_cancelled, tear_down);
  g_test_add ("/gather/failure-stops", Fixture, NULL, set_up, test_failure_stops, tear_down);
  g_test_add ("/gather/removed-meanwhile", Fixture, NULL, set_up, test_removed_meanwhile,
              tear_down);

  return g_test_run ();
}
