/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-contact.h"
#include "core/wb-core.h"
#include "job-fixture.h"

static void
test_time (void)
{
  static const char *const good[] = { "00:00", "14:05", "09:59", "23:59" };
  static const char *const bad[] = {
    "25:61", "24:00", "14:60", "9:05", "14.05", "14:5", "14:050", "1405", "ab:cd", "", "14:05 ",
    "-1:00",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    g_assert_true (wb_time_of_day_is_valid (good[i]));
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (wb_time_of_day_is_valid (bad[i]));
  g_assert_false (wb_time_of_day_is_valid (NULL));
}

/* A job with a time that is none is refused as a whole, and the message names the place. */
static void
test_job (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();
  g_autoptr (GError) error = NULL;

  job_fixture_put (&job, WB_KIND_CONTACT, "c1", "on", "2026-03-04", NULL);
  g_assert_true (wb_job_check (job, &error));
  g_assert_no_error (error);

  job_fixture_put (&job, WB_KIND_CONTACT, "c1", "at", "14:05", NULL);
  g_assert_true (wb_job_check (job, &error));
  g_assert_no_error (error);

  job_fixture_put (&job, WB_KIND_CONTACT, "c1", "at", "25:61", NULL);
  g_assert_false (wb_job_check (job, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
  g_assert_cmpstr (error->message, ==,
                   "contact c1, at: “25:61” is not a time of day such as “14:05”");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/contact/time", test_time);
  g_test_add_func ("/core/contact/job", test_job);
  return g_test_run ();
}
