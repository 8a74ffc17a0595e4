/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What makes a paper a claim: all combinations of what it says, and what its lines ask for. */
#include "config.h"

#include "core/wb-intake.h"

#include "claim-fixture.h"

static char *
list_gaps (GArray *gaps)
{
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < gaps->len; i++)
    {
      const WbIntakeGap *gap = &g_array_index (gaps, WbIntakeGap, i);

      g_assert_nonnull (gap->citation);
      g_string_append_printf (out, "%s%s%s", out->len > 0 ? " " : "",
                              wb_enum_nick (&wb_intake_gaps, (int) gap->kind),
                              gap->bars ? "!" : "");
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static void
check (ClaimFixture  *fixture,
       WbIntakeState  state,
       const char    *expected,
       const char    *cites)
{
  g_autoptr (WbJob) job = wb_job_with_many (fixture->empty, fixture->records);
  g_autoptr (GArray) gaps = NULL;
  g_autofree char *text = NULL;
  const char *citation;

  g_assert_cmpint (wb_intake_look (job, wb_job_find (job, WB_KIND_CLAIM, "claim"), &gaps,
                                   &citation), ==, state);
  g_assert_cmpint (wb_intake_look (job, wb_job_find (job, WB_KIND_CLAIM, "claim"), NULL, NULL), ==,
                   state);
  text = list_gaps (gaps);
  g_assert_cmpstr (text, ==, expected);
  g_assert_cmpstr (citation, ==, cites);
}

/* Three things make a claim: 49 CFR 370.3(b). */
static void
test_three_things (ClaimFixture  *fixture,
                   gconstpointer  data)
{
  WbClaim *claim = claim_find (fixture, WB_KIND_CLAIM);

  check (fixture, WB_INTAKE_NOTE, "shipment! liability! amount!", "49 CFR 370.3(c)");
  claim->states_amount = TRUE;
  check (fixture, WB_INTAKE_INCOMPLETE, "shipment! liability!", "49 CFR 370.3(b)");
  claim->asserts_liability = TRUE;
  check (fixture, WB_INTAKE_INCOMPLETE, "shipment!", "49 CFR 370.3(b)");
  claim->identifies_shipment = TRUE;
  check (fixture, WB_INTAKE_CLAIM, "", "49 CFR 370.3(b)");
  claim->states_amount = FALSE;
  check (fixture, WB_INTAKE_INDEFINITE, "amount!", "49 CFR 370.3(d)");
  claim->asserts_liability = FALSE;
  check (fixture, WB_INTAKE_INCOMPLETE, "liability! amount!", "49 CFR 370.3(b)");
}

/* A notice stays one, whatever else it says, until a person says otherwise. */
static void
test_notice (ClaimFixture  *fixture,
             gconstpointer  data)
{
  WbClaim *claim = claim_find (fixture, WB_KIND_CLAIM);

  claim->notice_only = claim->identifies_shipment = claim->asserts_liability = TRUE;
  g_date_clear (&claim->received_on, 1);
  check (fixture, WB_INTAKE_NOTICE, "amount! received", "49 CFR 370.3(c)");
  claim->states_amount = TRUE;
  check (fixture, WB_INTAKE_NOTICE, "received", "49 CFR 370.3(c)");
}

/* What lines may ask for bars nothing. */
static void
test_lines (ClaimFixture  *fixture,
            gconstpointer  data)
{
  WbClaim *claim = claim_find (fixture, WB_KIND_CLAIM);
  WbClaim *other = claim_add (fixture, WB_KIND_CLAIM, "other");
  WbClaimLine *line;

  claim->identifies_shipment = claim->asserts_liability = claim->states_amount = TRUE;
  wb_set_text (&claim->claimant, "Ida Brook");
  wb_set_text (&other->claimant, "Ida Brook");
  claim_add_piece (fixture, "p", WB_FORM_LOOSE, 10);
  claim_add_piece (fixture, "c", WB_FORM_CARTON, 10);
  claim_add_line (fixture, "p", WB_LOSS_MISSING, 10, 0);
  claim_add_line (fixture, "c", WB_LOSS_MISSING, 10, 0);
  claim_add_line (fixture, "p", WB_LOSS_DAMAGED, 10, 0);
  check (fixture, WB_INTAKE_CLAIM, "statement", "49 CFR 370.3(b)");

  line = claim_add_line (fixture, "c", WB_LOSS_DAMAGED, 10, 0);
  wb_set_text (&line->claim, "other");
  check (fixture, WB_INTAKE_CLAIM, "statement", "49 CFR 370.3(b)");
  wb_set_text (&other->claimant, "Her insurer");
  check (fixture, WB_INTAKE_CLAIM, "statement other-claim", "49 CFR 370.3(b)");

  /* What is on no inventory is the same when it is called the same. */
  line = claim_add_line (fixture, NULL, WB_LOSS_DAMAGED, 10, 0);
  wb_set_text (&line->item, "Garden Hose");
  line = claim_add_line (fixture, NULL, WB_LOSS_DAMAGED, 10, 0);
  wb_set_text (&line->claim, "other");
  wb_set_text (&line->item, "garden hose");
  check (fixture, WB_INTAKE_CLAIM, "statement other-claim other-claim", "49 CFR 370.3(b)");
  wb_set_text (&line->item, "rake");
  check (fixture, WB_INTAKE_CLAIM, "statement other-claim", "49 CFR 370.3(b)");
}

static void
test_tables (void)
{
  for (gsize i = 0; i < wb_intake_states.n_values; i++)
    {
      WbIntakeState state = (WbIntakeState) wb_intake_states.values[i].value;

      g_assert_true (wb_intake_may_pay (state) == (state == WB_INTAKE_CLAIM));
      g_assert_cmpstr (wb_intake_states.values[i].label, !=, "");
    }
  for (gsize i = 0; i < wb_intake_gaps.n_values; i++)
    g_assert_true (wb_enum_find_nick (&wb_intake_gaps, wb_intake_gaps.values[i].nick)
                   == &wb_intake_gaps.values[i]);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

#define ADD(path, function) \
  g_test_add ("/core/intake/" path, ClaimFixture, NULL, claim_set_up, function, claim_tear_down)
  ADD ("three-things", test_three_things);
  ADD ("notice", test_notice);
  ADD ("lines", test_lines);
  g_test_add_func ("/core/intake/tables", test_tables);

  return g_test_run ();
}
