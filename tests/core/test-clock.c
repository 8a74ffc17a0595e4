/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-clock.h"

#include "random-values.h"

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
    "status past 2024-08-28 -1\n" },
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
  if (!wb_date_parse (text, out, &error))
    g_error ("%s", error->message);
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

/* --- steps ------------------------------------------------------------------------------------ */

/* As TERMS, with inspection, mediation and arbitration. */
static WbTerms *
read_more_terms (void)
{
  g_autoptr (GString) text = g_string_new (TERMS);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) editions = NULL;

  g_string_replace (text, "suit-within",
                    "inspect-within = 30 days\ncollect-salvage-within = 30 days\n"
                    "transfer-after = 30 days\nfees-within = 120 days\n"
                    "bill-within = 15 days without weekends and holidays\n"
                    "contest-bill-within = 180 days\n"
                    "mediate-within = 30 days without sundays and holidays\n"
                    "mediate-until = 120 days\narbitrate-within = 60 days\nsuit-within", 1);
  editions = wb_terms_parse (text->str, text->len, "trial.terms", &error);
  g_assert_no_error (error);
  return wb_terms_ref (g_ptr_array_index (editions, 0));
}

/* One claim delivered on 2024-01-15 and received on 2024-03-01, with up to four steps. */
typedef struct
{
  const char *decided;
  const char *today;
  struct { WbStepKind kind; const char *on; } steps[4];
  WbClockKind kind;
  const char *expected;     /* NULL: there is no such clock */
} StepCase;

static const StepCase step_cases[] = {
  { NULL, "2024-03-10", { { WB_STEP_NOTICE, "2024-02-01" } }, WB_CLOCK_NOTICE,
    "notice met 2024-03-30" },
  { NULL, "2024-04-10", { { WB_STEP_ACKNOWLEDGED, "2024-03-31" } }, WB_CLOCK_ACKNOWLEDGE,
    "acknowledge met 2024-03-31" },
  { NULL, "2024-04-10",
    { { WB_STEP_ACKNOWLEDGED, "2024-04-05" }, { WB_STEP_ACKNOWLEDGED, "2024-04-01" } },
    WB_CLOCK_ACKNOWLEDGE, "acknowledge missed 2024-03-31" },
  { NULL, "2024-03-20", { { WB_STEP_OFFER, "2024-03-10" } }, WB_CLOCK_INSPECT,
    "inspect running 2024-03-31 11" },
  { NULL, "2024-03-20", { { WB_STEP_INSPECTION, "2024-03-18" } }, WB_CLOCK_INSPECT,
    "inspect met 2024-03-31" },
  /* The time to decide ends on 29 June, and reports are due on 28 August, 27 October and 26
   * December. A letter about 29 June is the report of that day, early or late. */
  { NULL, "2024-07-10", { { WB_STEP_STATUS, "2024-06-20" } }, WB_CLOCK_STATUS,
    "status running 2024-08-28 49" },
  { NULL, "2024-09-10", { { WB_STEP_STATUS, "2024-08-28" } }, WB_CLOCK_STATUS,
    "status running 2024-10-27 47" },
  { NULL, "2024-09-10", { { WB_STEP_STATUS, "2024-07-05" }, { WB_STEP_STATUS, "2024-07-01" } },
    WB_CLOCK_STATUS, "status past 2024-08-28 -13" },
  /* The next one is due 60 days after the day that was due, not after the letter. */
  { NULL, "2024-09-10", { { WB_STEP_STATUS, "2024-08-20" } }, WB_CLOCK_STATUS,
    "status running 2024-10-27 47" },
  { NULL, "2024-09-10", { { WB_STEP_STATUS, "2024-09-05" } }, WB_CLOCK_STATUS,
    "status running 2024-10-27 47" },
  /* Halfway counts as late for the day before; the day after that as early for the day to come. */
  { NULL, "2024-09-10", { { WB_STEP_STATUS, "2024-07-29" } }, WB_CLOCK_STATUS,
    "status past 2024-08-28 -13" },
  { NULL, "2024-09-10", { { WB_STEP_STATUS, "2024-07-30" } }, WB_CLOCK_STATUS,
    "status running 2024-10-27 47" },
  /* Late for two days at once, and no report of the day to come. */
  { NULL, "2024-12-10", { { WB_STEP_STATUS, "2024-12-01" } }, WB_CLOCK_STATUS,
    "status running 2024-12-26 16" },
  { NULL, "2024-12-10", { { WB_STEP_STATUS, "2024-12-20" }, { WB_STEP_STATUS, "2024-08-27" } },
    WB_CLOCK_STATUS, "status running 2024-12-26 16" },
  { NULL, "2024-12-27", { { WB_STEP_STATUS, "2024-12-26" } }, WB_CLOCK_STATUS,
    "status running 2025-02-24 59" },
  { "2024-07-01", "2024-09-10", { { WB_STEP_STATUS, "2024-07-05" } }, WB_CLOCK_STATUS, NULL },
  { NULL, "2024-06-29", { { WB_STEP_OTHER, NULL } }, WB_CLOCK_STATUS, NULL },
  /* An offer or a denial is the answer, though nobody noted the day of decision. */
  { NULL, "2024-07-10", { { WB_STEP_OFFER, "2024-06-29" } }, WB_CLOCK_DECIDE,
    "decide met 2024-06-29" },
  { NULL, "2024-07-10", { { WB_STEP_OFFER, "2024-06-30" } }, WB_CLOCK_DECIDE,
    "decide missed 2024-06-29" },
  { NULL, "2024-07-10", { { WB_STEP_DENIAL, "2024-06-01" } }, WB_CLOCK_DECIDE,
    "decide met 2024-06-29" },
  { NULL, "2024-07-10", { { WB_STEP_PARTIAL_DENIAL, "2024-06-01" } }, WB_CLOCK_DECIDE,
    "decide met 2024-06-29" },
  { "2024-06-20", "2024-07-10", { { WB_STEP_OFFER, "2024-07-01" } }, WB_CLOCK_DECIDE,
    "decide met 2024-06-29" },
  { NULL, "2024-07-10", { { WB_STEP_COUNTER_OFFER, "2024-06-01" } }, WB_CLOCK_DECIDE,
    "decide past 2024-06-29 -11" },
  { NULL, "2024-07-10", { { WB_STEP_OFFER, "2024-06-01" } }, WB_CLOCK_STATUS, NULL },
  { NULL, "2024-03-20", { { WB_STEP_DENIAL, "2024-03-19" } }, WB_CLOCK_ACKNOWLEDGE,
    "acknowledge met 2024-03-31" },
  /* Countered or reopened it waits again: reports run on, by the same days. */
  { NULL, "2024-06-10", { { WB_STEP_OFFER, "2024-05-01" }, { WB_STEP_COUNTER_OFFER, "2024-06-01" } },
    WB_CLOCK_STATUS, "status running 2024-06-29 19" },
  { NULL, "2024-06-10", { { WB_STEP_OFFER, "2024-05-01" }, { WB_STEP_COUNTER_OFFER, "2024-06-01" } },
    WB_CLOCK_DECIDE, "decide met 2024-06-29" },
  { NULL, "2024-06-10", { { WB_STEP_OFFER, "2024-05-01" }, { WB_STEP_COUNTER_OFFER, "2024-06-01" } },
    WB_CLOCK_ANSWER_AGAIN, "answer-again running 2024-09-29 111" },
  { NULL, "2024-06-10",
    { { WB_STEP_OFFER, "2024-05-01" }, { WB_STEP_COUNTER_OFFER, "2024-06-01" },
      { WB_STEP_OFFER, "2024-06-01" } }, WB_CLOCK_ANSWER_AGAIN, NULL },
  { NULL, "2024-06-10",
    { { WB_STEP_OFFER, "2024-05-01" }, { WB_STEP_OFFER, "2024-06-09" },
      { WB_STEP_COUNTER_OFFER, "2024-06-01" } }, WB_CLOCK_STATUS, NULL },
  { NULL, "2024-10-10", { { WB_STEP_DENIAL, "2024-05-01" }, { WB_STEP_REOPENED, "2024-09-15" } },
    WB_CLOCK_STATUS, "status running 2024-10-27 17" },
  { NULL, "2024-10-10",
    { { WB_STEP_DENIAL, "2024-05-01" }, { WB_STEP_REOPENED, "2024-09-15" },
      { WB_STEP_STATUS, "2024-08-28" }, { WB_STEP_STATUS, "2024-10-09" } },
    WB_CLOCK_STATUS, "status running 2024-12-26 77" },
  { NULL, "2024-10-10", { { WB_STEP_DENIAL, "2024-05-01" }, { WB_STEP_REOPENED, "2024-09-15" } },
    WB_CLOCK_DECIDE, "decide met 2024-06-29" },
  { NULL, "2024-10-10", { { WB_STEP_REOPENED, "2024-09-15" } }, WB_CLOCK_ANSWER_AGAIN, NULL },
  /* A denial starts the time to sue; an offer does not, and what came of it later neither. */
  { NULL, "2024-07-10", { { WB_STEP_OFFER, "2024-06-01" } }, WB_CLOCK_SUIT, NULL },
  { NULL, "2024-07-10", { { WB_STEP_OFFER, "2024-05-01" }, { WB_STEP_PARTIAL_DENIAL, "2024-06-01" } },
    WB_CLOCK_SUIT, "suit running 2026-06-01 691" },
  { "2024-05-01", "2024-07-10", { { WB_STEP_DENIAL, "2024-06-01" } }, WB_CLOCK_SUIT,
    "suit running 2026-06-01 691" },
  { NULL, "2024-07-10", { { WB_STEP_DENIAL, "2024-02-29" } }, WB_CLOCK_SUIT,
    "suit running 2026-02-28 598" },
  /* 30 days from 15 April without its five Sundays; the claim's own 120 days end on 29 June. */
  { "2024-04-15", "2024-04-20", { { WB_STEP_OTHER, NULL } }, WB_CLOCK_MEDIATE,
    "mediate running 2024-05-20 30" },
  { "2024-06-10", "2024-06-20", { { WB_STEP_OTHER, NULL } }, WB_CLOCK_MEDIATE,
    "mediate running 2024-06-29 9" },
  { NULL, "2024-06-20", { { WB_STEP_OTHER, NULL } }, WB_CLOCK_MEDIATE, NULL },
  /* From the last offer before it was asked for. */
  { NULL, "2024-05-20", { { WB_STEP_OFFER, "2024-03-20" }, { WB_STEP_OFFER, "2024-04-15" } },
    WB_CLOCK_MEDIATE, "mediate running 2024-05-20 0" },
  { NULL, "2024-05-20",
    { { WB_STEP_DENIAL, "2024-04-15" }, { WB_STEP_MEDIATION, "2024-05-20" },
      { WB_STEP_OFFER, "2024-05-21" } }, WB_CLOCK_MEDIATE, "mediate met 2024-05-20" },
  { NULL, "2024-05-30", { { WB_STEP_DENIAL, "2024-04-15" }, { WB_STEP_MEDIATION, "2024-05-21" } },
    WB_CLOCK_MEDIATE, "mediate missed 2024-05-20" },
  { NULL, "2024-03-20", { { WB_STEP_OTHER, NULL } }, WB_CLOCK_FEES, "fees met 2024-05-14" },
  /* Settled is what was released; a claim that was transferred is no longer in the way. */
  { NULL, "2024-03-20", { { WB_STEP_OFFER, "2024-03-10" } }, WB_CLOCK_TRANSFER,
    "transfer running 2024-03-31 11" },
  { NULL, "2024-04-20", { { WB_STEP_RELEASE, "2024-03-31" } }, WB_CLOCK_TRANSFER,
    "transfer met 2024-03-31" },
  { NULL, "2024-04-20", { { WB_STEP_TRANSFER, "2024-04-01" } }, WB_CLOCK_TRANSFER, NULL },
  { NULL, "2024-04-20", { { WB_STEP_OTHER, NULL } }, WB_CLOCK_SALVAGE, NULL },
  { NULL, "2024-07-20", { { WB_STEP_ARBITRATION, "2024-07-01" } }, WB_CLOCK_ARBITRATE,
    "arbitrate running 2024-08-30 41" },
  { NULL, "2024-08-20",
    { { WB_STEP_ARBITRATION, "2024-07-01" }, { WB_STEP_RELEASE, "2024-06-01" },
      { WB_STEP_CLOSED, "2024-08-15" } },
    WB_CLOCK_ARBITRATE, "arbitrate met 2024-08-30" },
  { NULL, "2024-08-20", { { WB_STEP_ARBITRATION, "2024-07-01" }, { WB_STEP_RELEASE, "2024-06-01" } },
    WB_CLOCK_ARBITRATE, "arbitrate running 2024-08-30 10" },
  { NULL, "2024-07-20", { { WB_STEP_SUIT, "2024-07-01" } }, WB_CLOCK_ARBITRATE, NULL },
};

static WbJob *
add_step (WbJob      *job,
          const char *id,
          WbStepKind  kind,
          const char *on)
{
  g_autoptr (WbClaimStep) step = wb_record_new (WB_KIND_STEP, id);

  step->kind = kind;
  wb_set_text (&step->claim, "c1");
  read_date (on, &step->on);
  return wb_job_with (job, step);
}

static void
test_step_case (gconstpointer data)
{
  const StepCase *trial = data;
  g_autoptr (WbTerms) terms = read_more_terms ();
  g_autoptr (WbJob) job = wb_job_new ("j1", "USD");
  g_autoptr (WbOrder) order = wb_record_copy (wb_job_order (job));
  g_autoptr (WbClaim) claim = wb_record_new (WB_KIND_CLAIM, "c1");
  g_autoptr (GArray) clocks = NULL;
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  const char *found = NULL;
  GDate today = { 0 };

  read_date ("2024-01-15", &order->delivered_on);
  read_date ("2024-03-01", &claim->received_on);
  read_date (trial->decided, &claim->decided_on);
  read_date (trial->today, &today);
  {
    WbJob *with = wb_job_with (job, order);

    wb_job_unref (job);
    job = with;
  }
  for (guint i = 0; i < G_N_ELEMENTS (trial->steps) && trial->steps[i].kind != 0; i++)
    {
      g_autofree char *id = g_strdup_printf ("s%u", i);
      WbJob *with = add_step (job, id, trial->steps[i].kind, trial->steps[i].on);

      wb_job_unref (job);
      job = with;
    }

  clocks = wb_claim_clocks (terms, job, claim, &today, NULL);
  text = clocks_to_text (clocks);
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      const char *nick = wb_enum_nick (&wb_clock_kinds, (int) trial->kind);

      if (g_str_has_prefix (lines[i], nick) && lines[i][strlen (nick)] == ' ')
        found = lines[i];
    }
  g_assert_cmpstr (found, ==, trial->expected);
}

/* Salvage waits until it is collected; the right to fees goes by the later of the two days. */
static void
test_salvage_and_fees (void)
{
  g_autoptr (WbTerms) terms = read_more_terms ();
  g_auto (WbClockInput) input = { 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) clocks = NULL;
  g_autofree char *text = NULL;
  GDate today = { 0 };

  read_date ("2024-04-10", &today);
  g_assert_true (wb_clock_input_parse (&input, "open salvage received=2024-03-01"
                                       " delivered=2023-11-01 promised=2023-11-02", &error));
  clocks = wb_clocks_reckon (terms, &input, WB_CLOCK_PARTY_ALL, &today, &error);
  g_assert_no_error (error);
  text = clocks_to_text (clocks);
  g_assert_nonnull (strstr (text, "salvage past 2024-03-31 -10\n"));
  g_assert_nonnull (strstr (text, "fees met 2024-03-01\n"));
}

/* Reports in months keep to the day of the month on which the time to decide ended. */
static void
test_reports_in_months (void)
{
  g_autoptr (WbTerms) terms = read_more_terms ();
  g_auto (WbClockInput) input = { 0 };
  g_autoptr (GArray) clocks = NULL;
  g_autofree char *text = NULL;
  GDate today = { 0 };

  terms->decide_within = (WbPeriod) { 3, WB_PERIOD_MONTHS };
  terms->status_every = (WbPeriod) { 1, WB_PERIOD_MONTHS };
  read_date ("2024-04-15", &today);
  /* Due on 29 February, 31 March and 30 April. */
  g_assert_true (wb_clock_input_parse (&input, "open received=2023-10-31 report=2024-02-28"
                                       " report=2024-03-31", NULL));
  clocks = wb_clocks_reckon (terms, &input, WB_CLOCK_PARTY_ALL, &today, NULL);
  text = clocks_to_text (clocks);
  g_assert_nonnull (strstr (text, "status running 2024-04-30 15\n"));
}

/* --- independence ----------------------------------------------------------------------------- */

#define ONLY(kind) (1u << WB_CLOCK_##kind)
#define FROM_RECEIPT (ONLY (NOTICE) | ONLY (CLAIM) | ONLY (LATE_CLAIM) | ONLY (ACKNOWLEDGE) \
                      | ONLY (DECIDE) | ONLY (STATUS) | ONLY (INSPECT) | ONLY (MEDIATE) \
                      | ONLY (FEES) | ONLY (SALVAGE) | ONLY (TRANSFER))

#define ANSWERS (ONLY (ACKNOWLEDGE) | ONLY (DECIDE) | ONLY (STATUS) | ONLY (ANSWER_AGAIN) \
                 | ONLY (MEDIATE))

/* What a date may move, and where it stands: in the order, in the claim, in a step of a kind, or
 * with no kind in a payment. */
typedef struct
{
  const char *name;
  gssize      in_order;
  gssize      in_claim;
  WbStepKind  step;
  guint       moves;
} Input;

#define ORDER(member, moves) \
  { #member, (gssize) G_STRUCT_OFFSET (WbOrder, member), -1, WB_STEP_NONE, moves }
#define CLAIM(member, moves) \
  { #member, -1, (gssize) G_STRUCT_OFFSET (WbClaim, member), WB_STEP_NONE, moves }
#define STEP(kind, moves) { #kind, -1, -1, WB_STEP_##kind, moves }

static const Input inputs[] = {
  ORDER (delivered_on, ONLY (NOTICE) | ONLY (CLAIM) | ONLY (LATE_CLAIM) | ONLY (FEES)
                       | ONLY (BILL)),
  ORDER (delivery_to, ONLY (NOTICE) | ONLY (CLAIM) | ONLY (LATE_CLAIM) | ONLY (FEES)),
  ORDER (picked_up_on, 0),
  ORDER (storage_to, 0),
  CLAIM (received_on, FROM_RECEIPT),
  CLAIM (acknowledged_on, ONLY (ACKNOWLEDGE)),
  CLAIM (decided_on, ANSWERS | ONLY (SUIT)),
  CLAIM (inspected_on, ONLY (INSPECT)),
  STEP (NOTICE, ONLY (NOTICE)),
  STEP (ACKNOWLEDGED, ONLY (ACKNOWLEDGE)),
  STEP (INSPECTION, ONLY (INSPECT)),
  STEP (STATUS, ONLY (STATUS)),
  STEP (ARBITRATION, ONLY (ARBITRATE)),
  STEP (RELEASE, ANSWERS | ONLY (ARBITRATE) | ONLY (TRANSFER)),
  STEP (CLOSED, ONLY (ARBITRATE)),
  STEP (OFFER, ANSWERS),
  STEP (PARTIAL_DENIAL, ANSWERS | ONLY (SUIT)),
  STEP (DENIAL, ANSWERS | ONLY (SUIT)),
  STEP (COUNTER_OFFER, ONLY (STATUS) | ONLY (ANSWER_AGAIN)),
  STEP (REOPENED, ONLY (STATUS) | ONLY (ANSWER_AGAIN)),
  STEP (MEDIATION, ONLY (MEDIATE)),
  STEP (TRANSFER, ONLY (TRANSFER)),
  STEP (REQUEST, 0),
  STEP (SUIT, 0),
  STEP (NONE, ANSWERS),
};

/* @tenths: how likely it is that the day is known */
static GDate
random_day (gint tenths)
{
  GDate day = { 0 };

  if (g_test_rand_int_range (0, 10) < tenths)
    {
      g_date_set_dmy (&day, 1, G_DATE_JANUARY, 2024);
      g_date_add_days (&day, (guint) g_test_rand_int_range (0, 400));
    }
  return day;
}

typedef struct
{
  GDate dates[G_N_ELEMENTS (inputs)];
  WbClaimStatus status;
} Dates;

/* The carrier may collect what is left. */
static WbClaimLine *
line_with_salvage (void)
{
  WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, "l1");

  wb_set_text (&line->claim, "c1");
  line->number = 1;
  line->loss = WB_LOSS_DESTROYED;
  line->ruling = WB_RULING_ALLOWED;
  line->salvage = wb_money (5000, "USD");
  return line;
}

static char *
clocks_of (WbTerms     *terms,
           const Dates *dates,
           const GDate *today,
           guint        kinds)
{
  g_autoptr (WbJob) empty = wb_job_new ("j1", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GArray) clocks = NULL;
  g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (WbClock));
  WbOrder *order = wb_record_copy (wb_job_order (empty));
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "c1");

  g_ptr_array_add (records, order);
  g_ptr_array_add (records, claim);
  claim->status = dates->status;
  g_ptr_array_add (records, line_with_salvage ());
  for (guint i = 0; i < G_N_ELEMENTS (inputs); i++)
    {
      g_autofree char *id = g_strdup_printf ("s%u", i);

      if (inputs[i].in_order >= 0)
        G_STRUCT_MEMBER (GDate, order, inputs[i].in_order) = dates->dates[i];
      else if (inputs[i].in_claim >= 0)
        G_STRUCT_MEMBER (GDate, claim, inputs[i].in_claim) = dates->dates[i];
      else if (inputs[i].step == WB_STEP_NONE)
        {
          WbPayment *payment = wb_record_new (WB_KIND_PAYMENT, id);

          payment->on = dates->dates[i];
          wb_set_text (&payment->claim, "c1");
          g_ptr_array_add (records, payment);
        }
      else
        {
          WbClaimStep *step = wb_record_new (WB_KIND_STEP, id);

          step->kind = inputs[i].step;
          step->on = dates->dates[i];
          wb_set_text (&step->claim, "c1");
          g_ptr_array_add (records, step);
        }
    }
  job = wb_job_with_many (empty, records);
  clocks = wb_claim_clocks (terms, job, claim, today, NULL);
  g_assert_nonnull (clocks);
  for (guint i = 0; i < clocks->len; i++)
    {
      const WbClock *clock = &g_array_index (clocks, WbClock, i);

      if ((kinds & (1u << clock->kind)) != 0)
        g_array_append_val (wanted, *clock);
    }
  return clocks_to_text (wanted);
}

/* How often a change of each date moved each clock. */
static guint n_moved[G_N_ELEMENTS (inputs)][WB_CLOCK_CONTEST_BILL + 1];

static void
count_moved (WbTerms     *terms,
             guint        at,
             const Dates *before,
             const Dates *after,
             const GDate *today)
{
  for (int kind = 0; kind <= WB_CLOCK_CONTEST_BILL; kind++)
    if ((inputs[at].moves & (1u << kind)) != 0)
      {
        g_autofree char *was = clocks_of (terms, before, today, 1u << kind);
        g_autofree char *is = clocks_of (terms, after, today, 1u << kind);

        n_moved[at][kind] += g_str_equal (was, is) ? 0 : 1;
      }
}

/* Whether a date was seen to move every clock that the table says it moves; otherwise the table
 * would excuse anything. */
static gboolean
moved_all (guint at)
{
  for (int kind = 0; kind <= WB_CLOCK_CONTEST_BILL; kind++)
    if ((inputs[at].moves & (1u << kind)) != 0 && n_moved[at][kind] == 0)
      return FALSE;
  return TRUE;
}

/* Changes one date among others. @tenths: how likely each of them is known; where much is known
 * already, one more day seldom changes anything. */
static void
try_date (WbTerms *terms,
          guint    at,
          gint     tenths)
{
  Dates dates = { .status = (WbClaimStatus) g_test_rand_int_range (0, 5) };
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  Dates changed;
  GDate today;

  for (guint i = 0; i < G_N_ELEMENTS (inputs); i++)
    dates.dates[i] = random_day (tenths);
  today = random_day (10);
  before = clocks_of (terms, &dates, &today, ~inputs[at].moves);
  changed = dates;
  changed.dates[at] = random_day (8);
  after = clocks_of (terms, &changed, &today, ~inputs[at].moves);
  if (!g_str_equal (before, after))
    g_test_message ("%s moved another clock", inputs[at].name);
  g_assert_cmpstr (before, ==, after);
  count_moved (terms, at, &dates, &changed, &today);
}

/* A clock never moves when a date changes that only another clock goes by. */
static void
test_independent (void)
{
  static const gint known[] = { 8, 3, 1 };
  g_autoptr (WbTerms) terms = read_more_terms ();

  random_begin ();
  for (guint at = 0; at < G_N_ELEMENTS (inputs); at++)
    {
      for (guint i = 0; i < 300 || (i < 30000 && !moved_all (at)); i++)
        try_date (terms, at, known[i % G_N_ELEMENTS (known)]);
      if (!moved_all (at))
        g_error ("%s did not move all that it is said to move", inputs[at].name);
    }
}

/* Nor does a period of the terms move any clock but its own and those that begin at its end. */
static void
test_periods (void)
{
  static const struct { gsize offset; guint moves; } periods[] = {
    { G_STRUCT_OFFSET (WbTerms, notice_within), ONLY (NOTICE) },
    { G_STRUCT_OFFSET (WbTerms, claim_within), ONLY (CLAIM) | ONLY (LATE_CLAIM) },
    { G_STRUCT_OFFSET (WbTerms, late_until), ONLY (LATE_CLAIM) },
    { G_STRUCT_OFFSET (WbTerms, acknowledge_within), ONLY (ACKNOWLEDGE) },
    { G_STRUCT_OFFSET (WbTerms, decide_within), ONLY (DECIDE) | ONLY (STATUS) | ONLY (ANSWER_AGAIN)
                                                | ONLY (MEDIATE) },
    { G_STRUCT_OFFSET (WbTerms, status_every), ONLY (STATUS) },
    { G_STRUCT_OFFSET (WbTerms, suit_within), ONLY (SUIT) },
    { G_STRUCT_OFFSET (WbTerms, inspect_within), ONLY (INSPECT) },
    { G_STRUCT_OFFSET (WbTerms, collect_salvage_within), ONLY (SALVAGE) },
    { G_STRUCT_OFFSET (WbTerms, transfer_after), ONLY (TRANSFER) },
    { G_STRUCT_OFFSET (WbTerms, fees_within), ONLY (FEES) },
    { G_STRUCT_OFFSET (WbTerms, bill_within), ONLY (BILL) },
    { G_STRUCT_OFFSET (WbTerms, contest_bill_within), ONLY (CONTEST_BILL) },
    { G_STRUCT_OFFSET (WbTerms, mediate_within), ONLY (MEDIATE) },
    { G_STRUCT_OFFSET (WbTerms, mediate_until), ONLY (MEDIATE) },
    { G_STRUCT_OFFSET (WbTerms, arbitrate_within), ONLY (ARBITRATE) },
  };

  random_begin ();
  for (guint i = 0; i < 1000; i++)
    {
      guint at = (guint) g_test_rand_int_range (0, G_N_ELEMENTS (periods));
      g_autoptr (WbTerms) terms = read_more_terms ();
      g_autofree char *before = NULL;
      g_autofree char *after = NULL;
      Dates dates = { .status = (WbClaimStatus) g_test_rand_int_range (0, 5) };
      GDate today = { 0 };

      for (guint j = 0; j < G_N_ELEMENTS (inputs); j++)
        dates.dates[j] = random_day (8);
      read_date ("2024-12-01", &today);
      before = clocks_of (terms, &dates, &today, ~periods[at].moves);
      G_STRUCT_MEMBER (WbPeriod, terms, periods[at].offset) =
        (WbPeriod) { g_test_rand_int_range (1, 400), WB_PERIOD_DAYS };
      after = clocks_of (terms, &dates, &today, ~periods[at].moves);
      g_assert_cmpstr (before, ==, after);
    }
}

/* 49 CFR 375.807, 49 USC 13710(a)(3): the bill within fifteen working days of actual delivery,
 * contested within 180 days of the first that was given. From Friday, 28 June 2024 the fifteenth
 * day passes over three weekends and the 4th of July. */
static void
test_freight_bill (void)
{
  static const struct { const char *delivered, *first, *second, *today, *expected; } trials[] = {
    { NULL, NULL, NULL, "2024-07-01", NULL },
    { "2024-06-28", NULL, NULL, "2024-07-20", "\nbill running 2024-07-22 2\n" },
    { "2024-06-28", NULL, NULL, "2024-07-23", "\nbill past 2024-07-22 -1\n" },
    { "2024-06-28", "2024-07-22", "2024-07-29", "2024-07-30",
      "\nbill met 2024-07-22\ncontest-bill running 2025-01-18 172\n" },
    { "2024-06-28", "2024-07-29", "2024-07-23", "2024-07-30",
      "\nbill missed 2024-07-22\ncontest-bill running 2025-01-19 173\n" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (trials); i++)
    {
      g_autoptr (WbTerms) terms = read_more_terms ();
      g_autoptr (WbJob) empty = wb_job_new ("j1", "USD");
      g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
      WbOrder *order = wb_record_copy (wb_job_order (empty));
      WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "c1");
      WbPaper *first = wb_record_new (WB_KIND_PAPER, "first");
      WbPaper *second = wb_record_new (WB_KIND_PAPER, "second");
      g_autoptr (WbJob) job = NULL;
      g_autoptr (GArray) clocks = NULL;
      g_autofree char *text = NULL;
      GDate today = { 0 };

      read_date (trials[i].today, &today);
      read_date (trials[i].delivered, &order->delivered_on);
      first->kind = second->kind = WB_PAPER_FREIGHT_BILL;
      read_date (trials[i].first, &first->given_on);
      read_date (trials[i].second, &second->given_on);
      g_ptr_array_add (records, order);
      g_ptr_array_add (records, claim);
      g_ptr_array_add (records, first);
      g_ptr_array_add (records, second);
      job = wb_job_with_many (empty, records);
      clocks = wb_claim_clocks (terms, job, claim, &today, NULL);
      text = clocks_to_text (clocks);
      if (trials[i].expected == NULL ? strstr (text, "bill") != NULL
                                     : !g_str_has_suffix (text, trials[i].expected))
        g_error ("trial %u: %s", i, text);
    }
}

/* The carrier's clocks alone are those of all that are the carrier's. */
static void
test_carrier (void)
{
  static const char line[] = "open salvage received=2024-03-01 answered=2024-04-01"
                             " taken-up=2024-04-02 denial=2024-04-01 delivered=2023-11-01"
                             " mediate-from=2024-04-01 arbitrated=2024-05-01";
  g_autoptr (WbTerms) terms = read_more_terms ();
  g_auto (WbClockInput) input = { 0 };
  g_autoptr (GArray) all = NULL;
  g_autoptr (GArray) carrier = NULL;
  g_autofree char *expected = NULL;
  g_autofree char *found = NULL;
  GDate today = { 0 };

  read_date ("2024-05-10", &today);
  g_assert_true (wb_clock_input_parse (&input, line, NULL));
  all = wb_clocks_reckon (terms, &input, WB_CLOCK_PARTY_ALL, &today, NULL);
  carrier = wb_clocks_reckon (terms, &input, WB_CLOCK_PARTY_CARRIER, &today, NULL);
  g_assert_cmpuint (carrier->len, ==, 7);
  for (guint i = all->len; i > 0; i--)
    if (!wb_clock_is_of_carrier (g_array_index (all, WbClock, i - 1).kind))
      g_array_remove_index (all, i - 1);
  expected = clocks_to_text (all);
  found = clocks_to_text (carrier);
  g_assert_cmpstr (found, ==, expected);
}

/* Every kind has a name of its own. */
static void
test_kinds (void)
{
  for (int kind = WB_CLOCK_NOTICE; kind <= WB_CLOCK_CONTEST_BILL; kind++)
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
  for (guint i = 0; i < G_N_ELEMENTS (step_cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/core/clock/step/%u", i);

      g_test_add_data_func (path, &step_cases[i], test_step_case);
    }
  g_test_add_func ("/core/clock/salvage-and-fees", test_salvage_and_fees);
  g_test_add_func ("/core/clock/reports-in-months", test_reports_in_months);
  g_test_add_func ("/core/clock/freight-bill", test_freight_bill);
  g_test_add_func ("/core/clock/carrier", test_carrier);
  g_test_add_func ("/core/clock/kinds", test_kinds);
  g_test_add_func ("/core/clock/independent", test_independent);
  g_test_add_func ("/core/clock/periods", test_periods);
  g_test_add_func ("/core/clock/delivery-day", test_delivery_day);

  return g_test_run ();
}
