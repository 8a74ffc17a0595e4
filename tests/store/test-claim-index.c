/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the book keeps of open claims: always what core says of the jobs as they are stored,
 * whatever was done to them, and also in a book that was brought up to date. */
#include "config.h"

#include "book-fixture.h"
#include "core/wb-clock-input.h"
#include "store/wb-book-private.h"

static void
append_row (const WbOpenClaim *claim,
            gpointer           data)
{
  g_autofree char *pickup = wb_date_to_text (&claim->pickup);

  g_string_append_printf (data, "%s %s %s %s %s %s %s %s %s: %s\n", claim->job_id,
                          claim->job_number, claim->shipper, claim->claim_id, claim->claim_number,
                          claim->terms, wb_enum_nick (&wb_move_types, (int) claim->move_type),
                          claim->region, pickup, claim->input);
}

static char *
scan (Fixture *self)
{
  GString *rows = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (wb_book_scan_open_claims (self->book, append_row, rows, NULL, &error));
  g_assert_no_error (error);
  return g_string_free (rows, FALSE);
}

static gint
compare_ids (gconstpointer a,
             gconstpointer b)
{
  const WbClaim *one = *(const WbClaim *const *) a;
  const WbClaim *other = *(const WbClaim *const *) b;

  return g_strcmp0 (one->record.id, other->record.id);
}

/* The rows as they have to be, by the jobs themselves in the order in which they were stored
 * first. */
static char *
expect (Fixture            *self,
        const char *const  *ids)
{
  GString *rows = g_string_new (NULL);
  g_autoptr (GPtrArray) list = wb_book_list_jobs (self->book, NULL, 0, NULL, NULL);

  for (guint i = 0; ids[i] != NULL; i++)
    {
      g_autoptr (WbJob) job = wb_book_load_job (self->book, ids[i], NULL, NULL);
      g_autoptr (GPtrArray) claims = g_ptr_array_new ();
      const char *shipper = NULL;

      if (job == NULL)
        continue;
      for (guint n = 0; n < list->len; n++)
        if (g_str_equal (((WbJobSummary *) g_ptr_array_index (list, n))->id, ids[i]))
          shipper = ((WbJobSummary *) g_ptr_array_index (list, n))->shipper;
      for (guint n = 0; n < wb_job_count (job, WB_KIND_CLAIM); n++)
        g_ptr_array_add (claims, (gpointer) wb_job_nth (job, WB_KIND_CLAIM, n));
      g_ptr_array_sort (claims, compare_ids);
      for (guint n = 0; n < claims->len; n++)
        {
          const WbClaim *claim = g_ptr_array_index (claims, n);
          const WbOrder *order = wb_job_order (job);
          g_auto (WbClockInput) input = { 0 };
          g_autofree char *text = NULL;
          WbOpenClaim row = { ids[i], order->number, shipper, claim->record.id, claim->number,
                              order->terms, order->move_type, order->region,
                              *wb_order_pickup_day (order), NULL };

          if (claim->status != WB_CLAIM_OPEN && claim->status != WB_CLAIM_OFFERED)
            continue;
          wb_clock_input_read (&input, job, claim);
          text = wb_clock_input_to_text (&input);
          row.input = text;
          append_row (&row, rows);
        }
    }
  return g_string_free (rows, FALSE);
}

static void
assert_right (Fixture            *self,
              const char *const  *ids,
              const char         *part)
{
  g_autofree char *rows = scan (self);
  g_autofree char *expected = expect (self, ids);

  g_assert_cmpstr (rows, ==, expected);
  g_assert_nonnull (strstr (rows, part));
}

static void
save_and_drop (Fixture *self,
               WbJob  **job,
               WbJob   *next)
{
  WbJob *stored = save (self->book, *job, next);

  wb_job_unref (*job);
  wb_job_unref (next);
  *job = stored;
}

static void
test_follows (Fixture       *self,
              gconstpointer  data)
{
  static const char *const ids[] = { "job-1", "job-2", NULL };
  g_autoptr (WbJob) first = make_job ("job-1", "J-1");
  g_autoptr (WbJob) second = make_job ("job-2", "J-2");
  WbJob *job = save (self->book, NULL, first);
  g_autoptr (WbJob) other = save (self->book, NULL, second);
  g_autoptr (GError) error = NULL;
  g_autofree char *rows = NULL;

  assert_right (self, ids, "job-2 ");
  save_and_drop (self, &job, with_record (job, WB_KIND_CLAIM, "claim-1", "received_on",
                                          "2026-03-01", "number", "C-9", NULL));
  assert_right (self, ids, " C-9 ");
  assert_right (self, ids, "received=2026-03-01");
  save_and_drop (self, &job, with_record (job, WB_KIND_STEP, "step-x", "claim", "claim-1", "kind",
                                          "offer", "on", "2026-04-01", NULL));
  assert_right (self, ids, "answered=2026-04-01");
  save_and_drop (self, &job, with_record (job, WB_KIND_ORDER, "order", "region", "TX", "terms",
                                          "us-texas", "picked_up_on", "2026-01-05", NULL));
  assert_right (self, ids, "us-texas");
  save_and_drop (self, &job, with_record (job, WB_KIND_CLAIM, "claim-2", "number", "C-10",
                                          "status", "offered", NULL));
  assert_right (self, ids, "claim-2 C-10");
  save_and_drop (self, &job, with_record (job, WB_KIND_CLAIM, "claim-1", "status", "settled",
                                          NULL));
  rows = scan (self);
  g_assert_null (strstr (rows, "claim-1 C-9"));
  assert_right (self, ids, "claim-2 C-10");
  fixture_reopen (self);
  assert_right (self, ids, "claim-2 C-10");
  g_assert_true (wb_book_remove_job (self->book, "job-1", wb_job_get_revision (job), NULL, &error));
  g_assert_no_error (error);
  assert_right (self, ids, "job-2 ");
  g_clear_pointer (&rows, g_free);
  rows = scan (self);
  g_assert_null (strstr (rows, "job-1"));
  wb_job_unref (job);
}

static void
unpack_released (Fixture *self,
                 guint    version)
{
  g_autofree char *name = g_strdup_printf ("book-%u.gz", version);
  g_autofree char *packed = g_test_build_filename (G_TEST_DIST, "store", "data", name, NULL);
  const char *const arguments[] = { "sh", "-c", "gzip -dc \"$1\" > \"$2\"", "sh", packed,
                                    self->path, NULL };
  g_autoptr (GError) error = NULL;
  int status;

  g_spawn_sync (NULL, (char **) arguments, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL,
                &status, &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
}

/* A released book that did not have the rows has them once it is brought up to date, and a job that
 * cannot be read neither stops that nor is passed over in silence. */
static void
test_upgrade (Fixture       *self,
              gconstpointer  data)
{
  static const char *const ids[] = { "full", "plain", "gone", "little", NULL };
  guint version = GPOINTER_TO_UINT (data);

  unpack_released (self, version);
  fixture_reopen (self);
  assert_right (self, ids, "C-2026-0001");
}

static void
test_damaged (Fixture       *self,
              gconstpointer  data)
{
  g_autofree char *rows = NULL;

  unpack_released (self, GPOINTER_TO_UINT (data));
  tamper (self->path, "UPDATE \"order\" SET estimated_weight = 'heavy' WHERE job_id = 'plain'");
  fixture_reopen (self);
  rows = scan (self);
  g_assert_nonnull (strstr (rows, "plain J-2026-0001"));
  g_assert_nonnull (strstr (rows, ": unreadable\n"));
  g_assert_nonnull (strstr (rows, "full "));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/store/claim-index/follows", Fixture, NULL, fixture_set_up, test_follows,
              fixture_tear_down);
  for (guint version = 1; version <= 3; version++)
    {
      g_autofree char *path = g_strdup_printf ("/store/claim-index/upgrade/%u", version);

      g_test_add (path, Fixture, GUINT_TO_POINTER (version), fixture_set_up_folder, test_upgrade,
                  fixture_tear_down);
    }
  g_test_add ("/store/claim-index/damaged/1", Fixture, GUINT_TO_POINTER (1), fixture_set_up_folder,
              test_damaged, fixture_tear_down);
  g_test_add ("/store/claim-index/damaged/2", Fixture, GUINT_TO_POINTER (2), fixture_set_up_folder,
              test_damaged, fixture_tear_down);
  return g_test_run ();
}
