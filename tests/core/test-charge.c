/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Charges made of what handlers bear: the goods go from a crew to a hauler and to the customer, and
 * each of the two bears a line. */
#include "config.h"

#include "core/wb-charge.h"
#include "core/wb-core.h"

#include "claim-fixture.h"

enum { CARRIER, CREW, HAULER };

static const char *const statements[] = { "none", "to the crew", "to the hauler", NULL };

static char *
make_id (void)
{
  static guint n = 0;

  return g_strdup_printf ("charge-%u", n++);
}

static void
add_handover (ClaimFixture   *fixture,
              const char     *id,
              WbHandoverKind  kind,
              const char     *from,
              const char     *to)
{
  WbHandover *handover = claim_add (fixture, WB_KIND_HANDOVER, id);

  handover->kind = kind;
  wb_set_text (&handover->from_holder, from);
  wb_set_text (&handover->to_holder, to);
}

static void
add_finding (ClaimFixture *fixture,
             const char   *piece,
             const char   *handover,
             WbFound       found)
{
  g_autofree char *id = g_strdup_printf ("%s-%s", piece, handover);
  WbFinding *finding = claim_add (fixture, WB_KIND_FINDING, id);

  wb_set_text (&finding->piece, piece);
  wb_set_text (&finding->handover, handover);
  finding->found = found;
}

/* Piece p, worth 100, is short at the hauler's; piece q, worth 40, at the customer's. */
static void
set_up (ClaimFixture  *fixture,
        gconstpointer  data)
{
  WbParty *carrier, *shipper;

  claim_set_up (fixture, data);
  carrier = claim_add (fixture, WB_KIND_PARTY, "carrier");
  carrier->role = WB_ROLE_CARRIER;
  wb_set_text (&carrier->company, "Granary Movers");
  shipper = claim_add (fixture, WB_KIND_PARTY, "shipper");
  shipper->role = WB_ROLE_SHIPPER;
  wb_set_text (&shipper->name, "Ida Brook");
  add_handover (fixture, "h1", WB_HANDOVER_PICKUP, "Ida Brook", "Crew of Hal Moss");
  add_handover (fixture, "h2", WB_HANDOVER_TRANSFER, "Crew of Hal Moss", "Ada Pike");
  add_handover (fixture, "h3", WB_HANDOVER_DELIVERY, "Ada Pike", "Ida Brook");
  claim_add_piece (fixture, "p", WB_FORM_LOOSE, 1000);
  claim_add_line (fixture, "p", WB_LOSS_MISSING, 100, 0);
  add_finding (fixture, "p", "h2", WB_FOUND_SHORT);
  claim_add_piece (fixture, "q", WB_FORM_LOOSE, 1000);
  claim_add_line (fixture, "q", WB_LOSS_MISSING, 40, 0);
  add_finding (fixture, "q", "h2", WB_FOUND_PRESENT);
  add_finding (fixture, "q", "h3", WB_FOUND_SHORT);
}

static WbApportionment *
apportion_job (ClaimFixture *fixture,
               WbJob        *job)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbReckoning) reckoning = wb_reckon (fixture->terms, job, "claim", &error);
  WbApportionment *out;

  g_assert_no_error (error);
  out = wb_apportion (reckoning, WB_APPORTION_LAST, &error);
  g_assert_no_error (error);
  return out;
}

static WbApportionment *
apportion (ClaimFixture *fixture)
{
  g_autoptr (WbJob) job = wb_job_with_many (fixture->empty, fixture->records);

  return apportion_job (fixture, job);
}

static GDate
day (GDateDay number)
{
  GDate out;

  g_date_clear (&out, 1);
  g_date_set_dmy (&out, number, G_DATE_MAY, 2024);
  return out;
}

/* The first charges, one a handler; then what came back is noted, and a line grows. */
static void
test_state (ClaimFixture  *fixture,
            gconstpointer  data)
{
  g_autoptr (WbApportionment) before = apportion (fixture);
  g_autoptr (WbApportionment) stated = NULL;
  g_autoptr (WbApportionment) later = NULL;
  g_autoptr (WbApportionment) restated = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbJob) paid = NULL;
  g_autoptr (WbJob) again = NULL;
  g_autoptr (WbHandlerCharge) charge = NULL;
  g_autoptr (WbClaimLine) line = NULL;
  g_autoptr (GError) error = NULL;
  const WbHandlerCharge *first;
  const GDate on = day (2), then = day (20);
  WbChargeSums sums;

  job = wb_charge_state (before, statements, &on, make_id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_CHARGE), ==, 2);
  first = wb_job_nth (job, WB_KIND_CHARGE, 0);
  g_assert_cmpstr (first->handler, ==, "Crew of Hal Moss");
  g_assert_cmpstr (first->statement, ==, "to the crew");
  g_assert_cmpint (first->amount.minor, ==, 10000);
  g_assert_cmpint (g_date_compare (&first->stated_on, &on), ==, 0);
  stated = apportion_job (fixture, job);
  g_assert_cmpint (stated->handlers[HAULER].uncharged, ==, 0);

  charge = wb_record_copy (first);
  charge->recovered = dollars (60);
  charge->recovered_on = then;
  wb_set_text (&charge->notes, "By cheque");
  line = wb_record_copy (wb_job_find (job, WB_KIND_CLAIM_LINE, "l1"));
  line->replacement = dollars (120);
  {
    g_autoptr (WbJob) noted = wb_job_with (job, charge);

    paid = wb_job_with (noted, line);
  }
  later = apportion_job (fixture, paid);
  g_assert_cmpint (later->handlers[CREW].uncharged, ==, 2000);
  g_assert_cmpint (later->handlers[CREW].open, ==, 4000);
  g_assert_true (wb_charge_add_up (later, &sums, &error));
  g_assert_cmpint (sums.charged, ==, 14000);
  g_assert_cmpint (sums.recovered, ==, 6000);
  g_assert_cmpint (sums.open, ==, 8000);
  g_assert_cmpint (sums.over, ==, 0);

  again = wb_charge_state (later, statements, &then, make_id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (again, WB_KIND_CHARGE), ==, 2);
  first = wb_job_find (again, WB_KIND_CHARGE, charge->record.id);
  g_assert_cmpint (first->amount.minor, ==, 12000);
  g_assert_cmpint (first->recovered.minor, ==, 6000);
  g_assert_cmpstr (first->notes, ==, "By cheque");
  g_assert_cmpint (g_date_compare (&first->stated_on, &then), ==, 0);
  restated = apportion_job (fixture, again);
  g_assert_cmpint (restated->handlers[CREW].uncharged, ==, 0);
}

static void
add_charge (ClaimFixture *fixture,
            const char   *id,
            gint64        amount,
            gint64        recovered,
            GDateDay      on,
            const char   *notes)
{
  WbHandlerCharge *charge = claim_add (fixture, WB_KIND_CHARGE, id);

  wb_set_text (&charge->claim, "claim");
  wb_set_text (&charge->handler, "ADA  PIKE");
  wb_set_text (&charge->notes, notes);
  charge->amount = dollars (amount);
  if (recovered > 0)
    {
      charge->recovered = dollars (recovered);
      charge->recovered_on = day (on);
    }
}

/* Several charges to one handler, as an import may bring them, become one. */
static void
test_gather (ClaimFixture  *fixture,
             gconstpointer  data)
{
  g_autoptr (WbApportionment) before = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GError) error = NULL;
  const WbHandlerCharge *charge;
  const GDate on = day (2), last = day (9);

  add_charge (fixture, "a", 5, 0, 0, "first");
  add_charge (fixture, "b", 6, 7, 9, NULL);
  add_charge (fixture, "c", 0, 8, 3, "third");
  before = apportion (fixture);
  job = wb_charge_state (before, statements, &on, make_id, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (wb_job_count (job, WB_KIND_CHARGE), ==, 2);
  charge = wb_job_find (job, WB_KIND_CHARGE, "a");
  g_assert_cmpint (charge->amount.minor, ==, 4000);
  g_assert_cmpint (charge->recovered.minor, ==, 1500);
  g_assert_cmpint (g_date_compare (&charge->recovered_on, &last), ==, 0);
  g_assert_cmpstr (charge->notes, ==, "first\nthird");
  g_assert_cmpstr (charge->handler, ==, "ADA  PIKE");
}

/* Who was charged and bears nothing any more gets a statement of nothing; what it paid is over. */
static void
test_nothing_left (ClaimFixture  *fixture,
                   gconstpointer  data)
{
  g_autoptr (WbApportionment) before = NULL;
  g_autoptr (WbApportionment) after = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GError) error = NULL;
  const GDate on = day (2);
  WbChargeSums sums;

  add_charge (fixture, "a", 40, 40, 1, NULL);
  ((WbClaimLine *) claim_find (fixture, WB_KIND_CLAIM_LINE))->ruling = WB_RULING_DENIED;
  for (guint i = 0; i < fixture->records->len; i++)
    {
      WbRecord *record = g_ptr_array_index (fixture->records, i);

      if (g_str_equal (record->id, "l2"))
        ((WbClaimLine *) record)->ruling = WB_RULING_DENIED;
    }
  before = apportion (fixture);
  g_assert_false (wb_charge_is_needed (before, CARRIER));
  g_assert_false (wb_charge_is_needed (before, CREW));
  g_assert_true (wb_charge_is_needed (before, HAULER));
  job = wb_charge_state (before, statements, &on, make_id, &error);
  g_assert_no_error (error);
  after = apportion_job (fixture, job);
  g_assert_cmpint (after->handlers[HAULER].charged, ==, 0);
  g_assert_true (wb_charge_add_up (after, &sums, &error));
  g_assert_cmpint (sums.over, ==, 4000);
  g_assert_cmpint (sums.open, ==, 0);
}

/* The carrier bears it all: there is nothing to state. */
static void
test_nothing (ClaimFixture  *fixture,
              gconstpointer  data)
{
  g_autoptr (WbApportionment) self = NULL;
  g_autoptr (GError) error = NULL;
  const GDate on = day (2);

  for (guint i = 0; i < fixture->records->len; i++)
    {
      WbRecord *record = g_ptr_array_index (fixture->records, i);

      if (g_str_equal (record->id, "l1") || g_str_equal (record->id, "l2"))
        wb_set_text (&((WbClaimLine *) record)->piece, NULL);
    }
  self = apportion (fixture);
  g_assert_cmpint (self->unassigned, ==, self->owed);
  g_assert_null (wb_charge_state (self, statements, &on, make_id, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

#define ADD(path, function) \
  g_test_add ("/core/charge/" path, ClaimFixture, NULL, set_up, function, claim_tear_down)
  ADD ("state", test_state);
  ADD ("gather", test_gather);
  ADD ("nothing-left", test_nothing_left);
  ADD ("nothing", test_nothing);

  return g_test_run ();
}
