/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-storage-due.h"

#include <glib/gstdio.h>

static void
set_date (GDate      *date,
          const char *text)
{
  g_assert_true (wb_date_parse (text, date, NULL));
}

static void
add_job (WbOffice   *office,
         const char *number,
         WbStage     stage,
         const char *from,
         gint64      days)
{
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_job_unref);
  g_autoptr (WbJob) empty = wb_job_new (number, "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (empty));
  g_autoptr (GError) error = NULL;

  wb_set_text (&order->number, number);
  order->stage = stage;
  if (from != NULL)
    set_date (&order->storage_from, from);
  order->storage_days = days;
  g_ptr_array_add (jobs, wb_job_with (empty, order));
  g_assert_true (wb_office_add_jobs (office, jobs, "Test", NULL, &error));
}

static void
assert_due (WbOffice   *office,
            const char *today,
            const char *expected)
{
  GDate date;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) due = NULL;
  g_autoptr (GString) text = g_string_new (NULL);

  set_date (&date, today);
  due = wb_office_list_storage_due (office, &date, NULL, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < due->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " " : "",
                            ((const WbStorageDue *) g_ptr_array_index (due, i))->job_number);
  g_assert_cmpstr (text->str, ==, expected);
}

/* Only jobs under way, only when it is time, and the most pressing first. */
static void
test_due (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("wb-storage-XXXXXX", &error);
  g_autofree char *path = g_build_filename (folder, "office.wainbook", NULL);
  g_autoptr (WbOffice) office = wb_office_open (path, WB_BOOK_CREATE, NULL, &error);

  g_assert_no_error (error);
  add_job (office, "later", WB_STAGE_IN_STORAGE, "2026-03-10", 90);
  add_job (office, "sooner", WB_STAGE_ON_THE_ROAD, "2026-03-01", 90);
  add_job (office, "delivered", WB_STAGE_DELIVERED, "2026-03-01", 90);
  add_job (office, "unlimited", WB_STAGE_IN_STORAGE, "2026-03-01", WB_INTEGER_UNSET);
  add_job (office, "unstored", WB_STAGE_IN_STORAGE, NULL, 90);

  assert_due (office, "2026-05-01", "");
  assert_due (office, "2026-05-12", "sooner");
  assert_due (office, "2026-06-30", "sooner later");

  wb_office_close (office);
  g_remove (path);
  g_remove (folder);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/storage-due", test_due);
  return g_test_run ();
}
