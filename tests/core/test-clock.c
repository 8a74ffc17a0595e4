/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-clock.h"

#define TERMS \
  "regime = trial\ntitle = Trial\ncurrency = USD\nmove-type = interstate\n" \
  "[edition]\nfrom = 2012-05-15\n" \
  "[shipment]\nrounding = half-up\nwithout-waiver = full\n" \
  "[claims]\nclaim-within = 9 months\nlate-claim = actual-value\nlate-until = 2 years\n" \
  "notice-within = 75 days\nacknowledge-within = 30 days\ndecide-within = 120 days\n" \
  "status-every = 60 days\nsuit-within = 2 years\n" \
  "[released]\noffered = yes\nmeasure = actual-value\narticle-rate = 0.60 per lb\n" \
  "[full]\noffered = yes\nmeasure = replacement\nshipment-minimum = 5000.00\n"

typedef struct
{
  const char *delivered;
  const char *received;
  const char *acknowledged;
  const char *decided;
  WbClaimStatus status;
  const char *today;
  const char *expected;
} ClockCase;

/* Published or worked from the rules: received 2024-03-01 is to be acknowledged by 2024-03-31 and
 * decided by 2024-06-29, with a status by 2024-08-28; delivered 2024-01-15 gives notice until
 * 2024-03-30, claim until 2024-10-15, and the last day of two years is 2026-01-15. */
static const ClockCase cases[] = {
  { "2024-01-15", "2024-03-01", NULL, NULL, WB_CLAIM_OPEN, "2024-03-11",
    "notice met 2024-03-30\n"
    "claim met 2024-10-15\n"
    "acknowledge running 2024-03-31 20\n"
    "decide running 2024-06-29 110\n" },
  { "2024-01-15", "2024-03-01", "2024-04-01", NULL, WB_CLAIM_OPEN, "2024-06-30",
    "notice met 2024-03-30\n"
    "claim met 2024-10-15\n"
    "acknowledge missed 2024-03-31\n"
    "decide past 2024-06-29 -1\n"
    "status running 2024-08-28 59\n" },
  { "2024-01-15", "2024-03-01", "2024-03-02", NULL, WB_CLAIM_OPEN, "2024-08-29",
    "notice met 2024-03-30\n"
    "claim met 2024-10-15\n"
    "acknowledge met 2024-03-31\n"
    "decide past 2024-06-29 -61\n"
    "status running 2024-10-27 59\n" },
  { "2024-01-15", "2024-10-16", NULL, "2024-10-20", WB_CLAIM_DECLINED, "2024-11-01",
    "notice missed 2024-03-30\n"
    "claim missed 2024-10-15\n"
    "late-claim met 2026-01-15\n"
    "acknowledge met 2024-11-15\n"
    "decide met 2025-02-13\n"
    "suit running 2026-10-20 718\n" },
  { NULL, NULL, NULL, NULL, WB_CLAIM_OPEN, "2024-11-01",
    "notice not-started\n"
    "claim not-started\n"
    "acknowledge not-started\n"
    "decide not-started\n" },
  { "2024-01-15", NULL, NULL, NULL, WB_CLAIM_OPEN, "2024-10-15",
    "notice past 2024-03-30 -199\n"
    "claim running 2024-10-15 0\n"
    "acknowledge not-started\n"
    "decide not-started\n" },
};

/* Goods that never came: the time to claim runs from the day by which they should have. */
static void
test_delivery_day (void)
{
  g_autoptr (WbJob) job = wb_job_new ("j1", "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));

  g_assert_false (wb_date_is_set (wb_order_delivery_day (order)));
  g_date_set_dmy (&order->delivery_from, 1, 3, 2026);
  g_assert_true (wb_order_delivery_day (order) == &order->delivery_from);
  g_date_set_dmy (&order->delivery_to, 5, 3, 2026);
  g_assert_true (wb_order_delivery_day (order) == &order->delivery_to);
  g_date_set_dmy (&order->delivered_on, 3, 3, 2026);
  g_assert_true (wb_order_delivery_day (order) == &order->delivered_on);
}

static void
read_date (const char *text,
           GDate      *out)
{
  g_autoptr (GError) error = NULL;

  if (text == NULL)
    return;
  wb_date_parse (text, out, &error);
  g_assert_no_error (error);
}

static const char *
state_name (WbClockState state)
{
  switch (state)
    {
    case WB_CLOCK_NOT_STARTED:
      return "not-started";
    case WB_CLOCK_RUNNING:
      return "running";
    case WB_CLOCK_PAST:
      return "past";
    case WB_CLOCK_MET:
      return "met";
    case WB_CLOCK_MISSED:
      return "missed";
    }

  g_assert_not_reached ();
}

static char *
clocks_to_text (GArray *clocks)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < clocks->len; i++)
    {
      const WbClock *clock = &g_array_index (clocks, WbClock, i);
      g_autofree char *last = wb_date_to_text (&clock->last_day);

      g_string_append_printf (text, "%s %s", wb_enum_nick (&wb_clock_kinds, (int) clock->kind),
                              state_name (clock->state));
      if (*last != '\0')
        g_string_append_printf (text, " %s", last);
      if (clock->state == WB_CLOCK_RUNNING || clock->state == WB_CLOCK_PAST)
        g_string_append_printf (text, " %d", clock->days_left);
      g_string_append_c (text, '\n');
    }

  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
test_case (gconstpointer data)
{
  const ClockCase *trial = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) editions = wb_terms_parse (TERMS, strlen (TERMS), "trial.terms", &error);
  g_autoptr (WbJob) empty = wb_job_new ("j1", "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (empty));
  g_autoptr (WbClaim) claim = wb_record_new (WB_KIND_CLAIM, "c1");
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GArray) clocks = NULL;
  g_autofree char *text = NULL;
  GDate today = { 0 };

  g_assert_no_error (error);
  read_date (trial->delivered, &order->delivered_on);
  read_date (trial->received, &claim->received_on);
  read_date (trial->acknowledged, &claim->acknowledged_on);
  read_date (trial->decided, &claim->decided_on);
  read_date (trial->today, &today);
  claim->status = trial->status;
  job = wb_job_with (empty, order);

  clocks = wb_claim_clocks (g_ptr_array_index (editions, 0), job, claim, &today, &error);
  g_assert_no_error (error);
  text = clocks_to_text (clocks);
  g_assert_cmpstr (text, ==, trial->expected);
}

/* Every kind has a name of its own. */
static void
test_kinds (void)
{
  for (int kind = WB_CLOCK_NOTICE; kind <= WB_CLOCK_SUIT; kind++)
    {
      const WbEnumValue *row = wb_enum_find (&wb_clock_kinds, kind);

      g_assert_nonnull (row);
      g_assert_true (wb_enum_find_nick (&wb_clock_kinds, row->nick) == row);
      g_assert_cmpstr (row->label, !=, "");
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/core/clock/claim/%u", i);

      g_test_add_data_func (path, &cases[i], test_case);
    }
  g_test_add_func ("/core/clock/kinds", test_kinds);
  g_test_add_func ("/core/clock/delivery-day", test_delivery_day);

  return g_test_run ();
}
