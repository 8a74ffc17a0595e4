/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-storage-watch.h"

#include "core/wb-calendar.h"
#include "core/wb-core.h"
#include "trail-fixture.h"

typedef struct
{
  const char     *from;
  const char     *to;
  gint64          days;
  const char     *notice_on;
  const char     *delivered_on;
  WbMoveType      move_type;
} Order;

static WbJob *
make_job (const Order *given)
{
  g_autoptr (WbJob) job = trail_job (1, 0);
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));

  if (given->from != NULL)
    set_date (&order->storage_from, given->from);
  if (given->to != NULL)
    set_date (&order->storage_to, given->to);
  if (given->days > 0)
    order->storage_days = given->days;
  if (given->notice_on != NULL)
    set_date (&order->storage_notice_on, given->notice_on);
  if (given->delivered_on != NULL)
    set_date (&order->delivered_on, given->delivered_on);
  order->move_type = given->move_type;
  return wb_job_with (job, order);
}

/* Dates by hand, from 49 CFR 375.609. */
static const struct
{
  const char      *name;
  Order            order;
  const char      *today;
  WbStorageState   state;
  WbStorageNotice  notice;
  const char      *last_day;
  const char      *notice_by;
  const char      *liable_until;
  const char      *claim_until;
  gint             days_left;
  gboolean         due;
} cases[] = {
  { "nothing", { 0 }, "2026-06-01", WB_STORAGE_NONE, WB_STORAGE_NOTICE_NONE, "", "", "", "", 0,
    FALSE },
  { "no-limit", { .from = "2026-05-01" }, "2026-06-01", WB_STORAGE_NO_LIMIT,
    WB_STORAGE_NOTICE_NONE, "", "", "", "", 0, FALSE },
  { "running", { .from = "2026-03-01", .days = 90 }, "2026-04-01", WB_STORAGE_RUNNING,
    WB_STORAGE_NOTICE_OPEN, "2026-05-30", "2026-05-20", "", "2027-02-28", 59, FALSE },
  { "notice-in-ten", { .from = "2026-03-01", .days = 90 }, "2026-05-10", WB_STORAGE_RUNNING,
    WB_STORAGE_NOTICE_OPEN, "2026-05-30", "2026-05-20", "", "2027-02-28", 20, TRUE },
  { "notice-in-eleven", { .from = "2026-03-01", .days = 90 }, "2026-05-09", WB_STORAGE_RUNNING,
    WB_STORAGE_NOTICE_OPEN, "2026-05-30", "2026-05-20", "", "2027-02-28", 21, FALSE },
  { "notice-overdue", { .from = "2026-03-01", .days = 90 }, "2026-05-21", WB_STORAGE_RUNNING,
    WB_STORAGE_NOTICE_OVERDUE, "2026-05-30", "2026-05-20", "", "2027-02-28", 9, TRUE },
  { "notice-given", { .from = "2026-03-01", .days = 90, .notice_on = "2026-05-20" }, "2026-05-19",
    WB_STORAGE_RUNNING, WB_STORAGE_NOTICE_GIVEN, "2026-05-30", "2026-05-20", "2026-05-30",
    "2027-02-28", 11, FALSE },
  { "notice-late", { .from = "2026-03-01", .days = 90, .notice_on = "2026-06-02" }, "2026-06-04",
    WB_STORAGE_PAST, WB_STORAGE_NOTICE_LATE, "2026-05-30", "2026-05-20", "2026-06-03",
    "2027-02-28", -5, TRUE },
  { "notice-late-before-end", { .from = "2026-03-01", .days = 90, .notice_on = "2026-05-22" },
    "2026-05-25", WB_STORAGE_RUNNING, WB_STORAGE_NOTICE_LATE, "2026-05-30", "2026-05-20",
    "2026-05-30", "2027-02-28", 5, TRUE },
  { "past", { .from = "2026-03-01", .days = 90 }, "2026-05-31", WB_STORAGE_PAST,
    WB_STORAGE_NOTICE_OVERDUE, "2026-05-30", "2026-05-20", "", "2027-02-28", -1, TRUE },
  { "short", { .from = "2026-03-01", .days = 9 }, "2026-03-02", WB_STORAGE_RUNNING,
    WB_STORAGE_NOTICE_OPEN, "2026-03-10", "2026-03-09", "", "2026-12-10", 8, TRUE },
  { "ten", { .from = "2026-03-01", .days = 10 }, "2026-03-01", WB_STORAGE_RUNNING,
    WB_STORAGE_NOTICE_OPEN, "2026-03-11", "2026-03-01", "", "2026-12-11", 10, TRUE },
  { "military", { .from = "2026-03-01", .move_type = WB_MOVE_MILITARY }, "2026-03-02",
    WB_STORAGE_RUNNING, WB_STORAGE_NOTICE_OPEN, "2026-05-30", "2026-05-20", "", "2027-02-28", 89,
    FALSE },
  { "agreed-day", { .from = "2026-03-01", .to = "2026-04-15" }, "2026-03-02", WB_STORAGE_RUNNING,
    WB_STORAGE_NOTICE_OPEN, "2026-04-15", "2026-04-05", "", "2027-01-15", 44, FALSE },
  { "delivered", { .from = "2026-03-01", .days = 30, .delivered_on = "2026-03-20" }, "2026-06-01",
    WB_STORAGE_OUT, WB_STORAGE_NOTICE_NONE, "2026-03-31", "", "", "", 0, FALSE },
};

static void
assert_date (const GDate *date,
             const char  *expected)
{
  g_autofree char *text = wb_date_to_text (date);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_case (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (WbJob) job = make_job (&cases[i].order);
  WbStorageWatch watch;
  GDate today;

  set_date (&today, cases[i].today);
  g_assert_true (wb_storage_watch (job, &today, &watch, NULL));
  g_assert_cmpint (watch.state, ==, cases[i].state);
  g_assert_cmpint (watch.notice, ==, cases[i].notice);
  assert_date (&watch.last_day, cases[i].last_day);
  assert_date (&watch.notice_by, cases[i].notice_by);
  assert_date (&watch.liable_until, cases[i].liable_until);
  assert_date (&watch.claim_until, cases[i].claim_until);
  g_assert_cmpint (watch.days_left, ==, cases[i].days_left);
  g_assert_cmpint (wb_storage_watch_is_due (&watch), ==, cases[i].due);
}

static void
test_by_handovers (void)
{
  g_autoptr (WbJob) job = trail_add_handover (trail_job (1, 0), "in", WB_HANDOVER_INTO_STORAGE,
                                              "2026-03-01", NULL, NULL);
  WbStorageWatch watch;
  GDate today;

  set_date (&today, "2026-04-01");
  g_assert_true (wb_storage_watch (job, &today, &watch, NULL));
  g_assert_cmpint (watch.state, ==, WB_STORAGE_NO_LIMIT);
  g_assert_cmpint (watch.days_stored, ==, 31);

  job = trail_add_handover (g_steal_pointer (&job), "out", WB_HANDOVER_OUT_OF_STORAGE, "2026-03-20",
                            NULL, NULL);
  g_assert_true (wb_storage_watch (job, &today, &watch, NULL));
  g_assert_cmpint (watch.state, ==, WB_STORAGE_OUT);
  g_assert_cmpint (watch.days_stored, ==, 19);
  assert_date (&watch.out_on, "2026-03-20");
}

static void
test_beyond_most (void)
{
  g_autoptr (WbJob) job = make_job (&(Order) { .from = "2026-03-01", .days = 181,
                                               .move_type = WB_MOVE_MILITARY });
  g_autoptr (WbJob) most = make_job (&(Order) { .from = "2026-03-01", .days = 180,
                                                .move_type = WB_MOVE_MILITARY });
  WbStorageWatch watch;
  GDate today;

  set_date (&today, "2026-03-01");
  g_assert_true (wb_storage_watch (job, &today, &watch, NULL));
  g_assert_true (watch.beyond_most);
  g_assert_true (wb_storage_watch (most, &today, &watch, NULL));
  g_assert_false (watch.beyond_most);
}

static void
test_off_the_calendar (void)
{
  g_autoptr (WbJob) job = make_job (&(Order) { .from = "9999-12-01", .days = 90 });
  g_autoptr (GError) error = NULL;
  WbStorageWatch watch;
  GDate today;

  set_date (&today, "9999-12-01");
  g_assert_false (wb_storage_watch (job, &today, &watch, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/core/storage-watch/", cases[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_case);
    }
  g_test_add_func ("/core/storage-watch/by-handovers", test_by_handovers);
  g_test_add_func ("/core/storage-watch/beyond-most", test_beyond_most);
  g_test_add_func ("/core/storage-watch/off-the-calendar", test_off_the_calendar);
  return g_test_run ();
}
