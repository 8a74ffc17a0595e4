/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the clocks go by: what of a claim counts for it, and that it comes back from its line of
 * text as it was. What an answer is: 49 CFR 370.9(a) (seen, 2015). */
#include "config.h"

#include "core/wb-clock.h"
#include "core/wb-core.h"

#include "random-values.h"

#include <string.h>

typedef struct
{
  WbKind      kind;
  const char *field[8];      /* names and values in turn */
} Row;

static void
put (WbJob     **job,
     const Row  *row,
     guint       number)
{
  g_autofree char *id = g_strdup_printf ("r%u", number);
  gpointer record = row->kind == WB_KIND_ORDER ? wb_record_copy (wb_job_order (*job))
                                               : wb_record_new (row->kind, id);
  g_autoptr (GError) error = NULL;
  WbJob *with;

  for (guint i = 0; i + 1 < G_N_ELEMENTS (row->field) && row->field[i] != NULL; i += 2)
    {
      const WbField *field = wb_record_type_field (wb_record_type (row->kind), row->field[i]);

      g_assert_nonnull (field);
      wb_record_set_text (record, field, row->field[i + 1], "USD", &error);
      g_assert_no_error (error);
    }
  with = wb_job_with (*job, record);
  wb_record_unref (record);
  wb_job_unref (*job);
  *job = with;
}

/* The first row is the claim itself. */
static char *
text_of (const Row *rows,
         guint      n_rows)
{
  WbJob *job = wb_job_new ("j", "USD");
  g_auto (WbClockInput) input = { 0 };
  char *text;

  for (guint i = 0; i < n_rows && rows[i].field[0] != NULL; i++)
    put (&job, &rows[i], i);
  wb_clock_input_read (&input, job, wb_job_find (job, WB_KIND_CLAIM, "r0"));
  text = wb_clock_input_to_text (&input);
  wb_job_unref (job);
  return text;
}

#define STEP(kind, on) { WB_KIND_STEP, { "claim", "r0", "kind", kind, "on", on } }
#define CLAIM { WB_KIND_CLAIM, { "number", "C-1", "received_on", "2026-03-01" } }

static void
test_read (void)
{
  static const struct
  {
    Row         rows[6];
    const char *expected;
  } cases[] = {
    { { CLAIM }, "open received=2026-03-01" },
    { { { WB_KIND_CLAIM, { "number", "C-1", "status", "declined" } } }, "declined" },
    { { { WB_KIND_CLAIM, { "number", "C-1", "status", "settled" } } }, "" },
    /* Steps of another claim do not count. */
    { { CLAIM, { WB_KIND_CLAIM, { "number", "C-2" } },
        { WB_KIND_STEP, { "claim", "r1", "kind", "offer", "on", "2026-04-01" } } },
      "open received=2026-03-01" },
    { { CLAIM, STEP ("status", "2026-07-02"), STEP ("status", "2026-07-01"),
        STEP ("acknowledged", "2026-03-09"), STEP ("acknowledged", "2026-03-08") },
      "open received=2026-03-01 acknowledged=2026-03-08 report=2026-07-01 report=2026-07-02" },
    { { CLAIM, STEP ("denial", "2026-05-02"), STEP ("partial-denial", "2026-05-01"),
        STEP ("denial", "2026-05-01") },
      "open received=2026-03-01 answered=2026-05-01 denial=2026-05-01 denial=2026-05-02"
      " mediate-from=2026-05-02" },
    /* Of two steps of one day the later in the list came later. */
    { { CLAIM, STEP ("offer", "2026-05-02"), STEP ("counter-offer", "2026-05-02") },
      "open received=2026-03-01 answered=2026-05-02 taken-up=2026-05-02 mediate-from=2026-05-02" },
    { { CLAIM, STEP ("counter-offer", "2026-05-02"), STEP ("offer", "2026-05-02") },
      "open received=2026-03-01 answered=2026-05-02 mediate-from=2026-05-02" },
    /* A release ends what a counter-offer began. */
    { { CLAIM, STEP ("offer", "2026-05-02"), STEP ("counter-offer", "2026-05-03"),
        STEP ("release", "2026-05-09") },
      "open received=2026-03-01 answered=2026-05-02 settled=2026-05-09 mediate-from=2026-05-02" },
    /* Money for the claim answers it; for one line alone it does not. */
    { { CLAIM, { WB_KIND_PAYMENT, { "claim", "r0", "on", "2026-04-01", "amount", "10.00" } } },
      "open received=2026-03-01 answered=2026-04-01" },
    { { CLAIM, { WB_KIND_CLAIM_LINE, { "claim", "r0", "item", "Lamp" } },
        { WB_KIND_PAYMENT, { "claim", "r0", "claim_line", "r1", "on", "2026-04-01" } } },
      "open received=2026-03-01" },
    /* Something worth collecting, unless its line was denied or it was collected. */
    { { CLAIM, { WB_KIND_CLAIM_LINE, { "claim", "r0", "salvage", "25.00" } } },
      "open salvage received=2026-03-01" },
    { { CLAIM, { WB_KIND_CLAIM_LINE, { "claim", "r0", "salvage", "25.00", "ruling", "denied" } } },
      "open received=2026-03-01" },
    { { CLAIM, { WB_KIND_CLAIM_LINE, { "claim", "r0", "salvage", "25.00",
                                       "salvage_taken", "yes" } } },
      "open received=2026-03-01" },
    { { CLAIM, { WB_KIND_ORDER, { "delivery_from", "2026-02-01", "delivery_to", "2026-02-09" } } },
      "open received=2026-03-01 delivered=2026-02-09 promised=2026-02-09" },
    { { CLAIM, { WB_KIND_ORDER, { "delivery_from", "2026-02-01", "delivered_on", "2026-02-11" } } },
      "open received=2026-03-01 delivered=2026-02-11 promised=2026-02-01 handed-over=2026-02-11" },
    /* The first freight bill that was given; other papers are none. */
    { { CLAIM, { WB_KIND_PAPER, { "kind", "freight-bill", "given_on", "2026-02-20" } },
        { WB_KIND_PAPER, { "kind", "freight-bill", "given_on", "2026-02-18" } },
        { WB_KIND_PAPER, { "kind", "freight-bill", "made_on", "2026-02-16" } },
        { WB_KIND_PAPER, { "kind", "letter", "given_on", "2026-02-15" } } },
      "open received=2026-03-01 billed=2026-02-18" },
    { { CLAIM, STEP ("arbitration", "2026-06-01"), STEP ("release", "2026-05-01"),
        STEP ("closed", "2026-06-09"), STEP ("mediation", "2026-04-20"),
        STEP ("transfer", "2026-04-21") },
      "open received=2026-03-01 answered=2026-05-01 settled=2026-05-01 transferred=2026-04-21"
      " mediated=2026-04-20 arbitrated=2026-06-01 arbitration-over=2026-06-09" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = text_of (cases[i].rows, G_N_ELEMENTS (cases[i].rows));

      g_assert_cmpstr (text, ==, cases[i].expected);
    }
}

static void
test_refused (void)
{
  static const char *const lines[] = {
    "shut", "open=2026-03-01", "received", "received=", "received=2026-3-1", "received=2026-02-30",
    "received=2026-03-01x", "open  declined", " open", "=2026-03-01", "report=2026-03-01,2026-03-02",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_auto (WbClockInput) input = { 0 };
      g_autoptr (GError) error = NULL;

      g_assert_false (wb_clock_input_parse (&input, lines[i], &error));
      g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
      g_assert_false (input.open);
      g_assert_null (input.reports);
    }
}

static GDate
random_day (void)
{
  GDate day = { 0 };

  g_date_set_dmy (&day, 1, G_DATE_JANUARY, 2026);
  g_date_add_days (&day, (guint) g_test_rand_int_range (0, 700));
  return day;
}

/* A claim of random steps; clocks from its line of text are the clocks of the claim. */
static void
test_round_trip (void)
{
  random_begin ();
  for (guint i = 0; i < 500; i++)
    {
      g_auto (WbClockInput) input = { 0 };
      g_auto (WbClockInput) again = { 0 };
      WbJob *job = wb_job_new ("j", "USD");
      const Row claim = CLAIM;
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;
      g_autofree char *same = NULL;

      put (&job, &claim, 0);
      for (guint n = 1; n < 12; n++)
        {
          GDate on = random_day ();
          g_autofree char *day = wb_date_to_text (&on);
          guint kind = (guint) g_test_rand_int_range (1, (gint) wb_step_kinds.n_values);
          const Row step = STEP (wb_step_kinds.values[kind].nick, day);

          put (&job, &step, n);
        }
      wb_clock_input_read (&input, job, wb_job_find (job, WB_KIND_CLAIM, "r0"));
      text = wb_clock_input_to_text (&input);
      g_assert_true (wb_clock_input_parse (&again, text, &error));
      g_assert_no_error (error);
      same = wb_clock_input_to_text (&again);
      g_assert_cmpstr (text, ==, same);
      wb_job_unref (job);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/clock-input/read", test_read);
  g_test_add_func ("/core/clock-input/refused", test_refused);
  g_test_add_func ("/core/clock-input/round-trip", test_round_trip);
  return g_test_run ();
}
