/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who bears a loss, case by case: the goods go from the crew to a hauler, into a warehouse, out of
 * it and to the customer. */
#include "config.h"

#include "core/wb-apportion.h"
#include "core/wb-core.h"

#include "claim-fixture.h"

enum { CARRIER, CREW, HAULER, WAREHOUSE, DRIVER, N_HANDLERS };

static const char *const names[] = { "Granary Movers", "Crew of Hal Moss", "Ada Pike",
                                     "Quarry Warehouse", "Driver Ben Low" };

static WbHandover *
add_handover (ClaimFixture   *fixture,
              guint           number,
              WbHandoverKind  kind,
              const char     *from,
              const char     *to)
{
  g_autofree char *id = g_strdup_printf ("h%u", number);
  WbHandover *handover = claim_add (fixture, WB_KIND_HANDOVER, id);

  handover->kind = kind;
  wb_set_text (&handover->from_holder, from);
  wb_set_text (&handover->to_holder, to);
  wb_set_text (&handover->from_signed, from);
  wb_set_text (&handover->to_signed, to);
  return handover;
}

static WbParty *
add_party (ClaimFixture *fixture,
           const char   *id,
           WbRole        role,
           const char   *company)
{
  WbParty *party = claim_add (fixture, WB_KIND_PARTY, id);

  party->role = role;
  wb_set_text (&party->company, company);
  return party;
}

/* h1 customer → crew, h2 crew → hauler, h3 hauler → warehouse, h4 warehouse → driver,
 * h5 driver → customer. */
static void
set_up (ClaimFixture  *fixture,
        gconstpointer  data)
{
  claim_set_up (fixture, data);
  add_party (fixture, "carrier", WB_ROLE_CARRIER, names[CARRIER]);
  add_party (fixture, "shipper", WB_ROLE_SHIPPER, "Ida Brook");
  add_party (fixture, "warehouse", WB_ROLE_WAREHOUSE, names[WAREHOUSE]);
  add_handover (fixture, 1, WB_HANDOVER_PICKUP, "Ida Brook", names[CREW]);
  add_handover (fixture, 2, WB_HANDOVER_TRANSFER, names[CREW], names[HAULER]);
  add_handover (fixture, 3, WB_HANDOVER_INTO_STORAGE, names[HAULER], names[WAREHOUSE]);
  add_handover (fixture, 4, WB_HANDOVER_OUT_OF_STORAGE, names[WAREHOUSE], names[DRIVER]);
  add_handover (fixture, 5, WB_HANDOVER_DELIVERY, names[DRIVER], "ida  brook");
}

static gpointer
find_record (ClaimFixture *fixture,
             const char   *id)
{
  for (guint i = 0; i < fixture->records->len; i++)
    {
      WbRecord *record = g_ptr_array_index (fixture->records, i);

      if (g_str_equal (record->id, id))
        return record;
    }
  g_assert_not_reached ();
}

static void
add_finding (ClaimFixture *fixture,
             const char   *piece,
             const char   *handover,
             WbFound       found,
             const char   *marks)
{
  g_autofree char *id = g_strdup_printf ("f-%s-%s", piece, handover);
  WbFinding *finding = claim_add (fixture, WB_KIND_FINDING, id);

  wb_set_text (&finding->piece, piece);
  wb_set_text (&finding->handover, handover);
  finding->found = found;
  wb_set_text (&finding->marks, marks);
}

/* A loose piece of 1,000 lb with a line that is owed @dollars_owed under full value. */
static WbClaimLine *
add_loss (ClaimFixture *fixture,
          const char   *piece,
          WbLoss        loss,
          gint64        dollars_owed)
{
  claim_add_piece (fixture, piece, WB_FORM_LOOSE, 1000);
  return claim_add_line (fixture, piece, loss, dollars_owed, 0);
}

static WbShare *
add_share (ClaimFixture *fixture,
           const char   *line,
           const char   *handler,
           gint64        percent)
{
  g_autofree char *id = g_strdup_printf ("s-%s-%u", line, fixture->records->len);
  WbShare *share = claim_add (fixture, WB_KIND_SHARE, id);

  wb_set_text (&share->claim_line, line);
  wb_set_text (&share->handler, handler);
  wb_set_text (&share->reason, "Agreed on the telephone");
  share->percent = percent;
  return share;
}

static WbApportionment *
apportion (ClaimFixture    *fixture,
           WbApportionRule  rule)
{
  g_autoptr (WbReckoning) reckoning = claim_reckon (fixture);
  g_autoptr (GError) error = NULL;
  WbApportionment *out = wb_apportion (reckoning, rule, &error);
  g_autofree char *text = NULL;

  g_assert_no_error (error);
  text = wb_apportionment_to_text (out);
  g_test_message ("%s", text);
  return out;
}

static gint64
part_of (const WbApportionment *self,
         guint                  line,
         const char            *name)
{
  for (guint i = 0; i < self->n_handlers; i++)
    if (wb_trail_same_holder (self->handlers[i].name, name))
      return self->lines[line].parts[i];
  return -1;
}

static const WbHandler *
handler_of (const WbApportionment *self,
            const char            *name)
{
  for (guint i = 0; i < self->n_handlers; i++)
    if (wb_trail_same_holder (self->handlers[i].name, name))
      return &self->handlers[i];
  g_assert_not_reached ();
}

static gboolean
could (const WbApportionment *self,
       guint                  line,
       const char            *name)
{
  return self->lines[line].could[handler_of (self, name) - self->handlers];
}

/* --- by rule ---------------------------------------------------------------------------------- */

/* Noted into storage and counted at the transfer before: the hauler alone. */
static void
test_noted (ClaimFixture  *fixture,
            gconstpointer  data)
{
  g_autoptr (WbApportionment) out = NULL;

  add_loss (fixture, "p", WB_LOSS_DAMAGED, 100);
  add_finding (fixture, "p", "h2", WB_FOUND_PRESENT, NULL);
  add_finding (fixture, "p", "h3", WB_FOUND_PRESENT, "BR 6");
  add_finding (fixture, "p", "h4", WB_FOUND_PRESENT, "BR 6");
  out = apportion (fixture, WB_APPORTION_LAST);
  g_assert_cmpint (out->owed, ==, 10000);
  g_assert_cmpint (part_of (out, 0, names[HAULER]), ==, 10000);
  g_assert_cmpint (out->lines[0].why, ==, WB_SHARED_NOTED);
  g_assert_cmpstr (out->lines[0].noted_at, ==, "h3");
}

/* Nobody counted at the transfer: the hauler is presumed, the crew could have done it too. */
static void
test_uncounted (ClaimFixture  *fixture,
                gconstpointer  data)
{
  g_autoptr (WbApportionment) last = NULL;
  g_autoptr (WbApportionment) equal = NULL;

  add_loss (fixture, "p", WB_LOSS_DAMAGED, 101);
  add_finding (fixture, "p", "h3", WB_FOUND_PRESENT, "BR 6");
  last = apportion (fixture, WB_APPORTION_LAST);
  g_assert_cmpint (last->lines[0].why, ==, WB_SHARED_UNCOUNTED);
  g_assert_cmpint (part_of (last, 0, names[HAULER]), ==, 10100);
  g_assert_true (could (last, 0, names[CREW]));
  g_assert_true (could (last, 0, names[HAULER]));
  g_assert_false (could (last, 0, names[WAREHOUSE]));

  equal = apportion (fixture, WB_APPORTION_EQUAL);
  g_assert_cmpint (part_of (equal, 0, names[CREW]), ==, 5050);
  g_assert_cmpint (part_of (equal, 0, names[HAULER]), ==, 5050);
}

/* Short at the warehouse's door, signed by the warehouse or not. */
static void
test_unsigned (ClaimFixture  *fixture,
               gconstpointer  data)
{
  g_autoptr (WbApportionment) with = NULL;
  g_autoptr (WbApportionment) without = NULL;

  add_loss (fixture, "p", WB_LOSS_MISSING, 100);
  add_finding (fixture, "p", "h3", WB_FOUND_PRESENT, NULL);
  add_finding (fixture, "p", "h4", WB_FOUND_SHORT, NULL);
  with = apportion (fixture, WB_APPORTION_LAST);
  g_assert_cmpint (with->lines[0].why, ==, WB_SHARED_NOTED);
  g_assert_cmpint (part_of (with, 0, names[WAREHOUSE]), ==, 10000);

  wb_set_text (&((WbHandover *) find_record (fixture, "h4"))->from_signed, NULL);
  without = apportion (fixture, WB_APPORTION_LAST);
  g_assert_cmpint (without->lines[0].why, ==, WB_SHARED_UNSIGNED);
  g_assert_cmpint (part_of (without, 0, names[DRIVER]), ==, 10000);
  g_assert_cmpint (part_of (without, 0, names[WAREHOUSE]), ==, 0);
}

/* Noted nowhere: the driver had it last. Not listed, or before anybody had it: the carrier. */
static void
test_others (ClaimFixture  *fixture,
             gconstpointer  data)
{
  g_autoptr (WbApportionment) out = NULL;

  add_loss (fixture, "p", WB_LOSS_DAMAGED, 100);
  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 50, 0)->weight = pounds (100);
  add_loss (fixture, "q", WB_LOSS_DAMAGED, 30);
  add_finding (fixture, "q", "h1", WB_FOUND_PRESENT, "BR 6");
  out = apportion (fixture, WB_APPORTION_LAST);
  g_assert_cmpint (out->lines[0].why, ==, WB_SHARED_NOT_NOTED);
  g_assert_cmpint (part_of (out, 0, names[DRIVER]), ==, 10000);
  g_assert_cmpint (out->lines[1].why, ==, WB_SHARED_NO_PIECE);
  g_assert_cmpint (part_of (out, 1, names[CARRIER]), ==, 5000);
  g_assert_cmpint (out->lines[2].why, ==, WB_SHARED_NO_HANDLER);
  g_assert_cmpint (part_of (out, 2, names[CARRIER]), ==, 3000);
  /* The customer is no handler, however the name is written. */
  g_assert_cmpuint (out->n_handlers, ==, N_HANDLERS);
  for (guint i = 0; i < N_HANDLERS; i++)
    g_assert_cmpstr (out->handlers[i].name, ==, names[i]);
}

/* A giver who is not the one that received the goods had them too, and had them last. */
static void
test_other_giver (ClaimFixture  *fixture,
                  gconstpointer  data)
{
  g_autoptr (WbApportionment) out = NULL;

  add_loss (fixture, "p", WB_LOSS_DAMAGED, 100);
  wb_set_text (&((WbHandover *) find_record (fixture, "h5"))->from_holder, "Second Driver");
  out = apportion (fixture, WB_APPORTION_LAST);
  g_assert_cmpint (part_of (out, 0, "Second Driver"), ==, 10000);
  g_assert_true (could (out, 0, names[DRIVER]));
}

/* The customer may have had the goods in between, and is no handler all the same. */
static void
test_customer_between (ClaimFixture  *fixture,
                       gconstpointer  data)
{
  g_autoptr (WbApportionment) out = NULL;

  add_loss (fixture, "p", WB_LOSS_DAMAGED, 100);
  wb_set_text (&((WbHandover *) find_record (fixture, "h2"))->to_holder, "Ida Brook");
  wb_set_text (&((WbHandover *) find_record (fixture, "h3"))->from_holder, "IDA BROOK");
  add_finding (fixture, "p", "h3", WB_FOUND_PRESENT, "BR 6");
  out = apportion (fixture, WB_APPORTION_LAST);
  g_assert_cmpint (part_of (out, 0, "Ida Brook"), ==, -1);
  g_assert_cmpint (part_of (out, 0, names[CREW]), ==, 10000);
}

/* --- limits, by hand, charges ----------------------------------------------------------------- */

/* A warehouse that bears no more than 50.00 of a claim: 33.33 and 16.67 of lines of 100 and 50. */
static void
test_limit (ClaimFixture  *fixture,
            gconstpointer  data)
{
  g_autoptr (WbApportionment) out = NULL;
  const WbHandler *warehouse;

  ((WbParty *) find_record (fixture, "warehouse"))->claim_limit = dollars (50);
  for (guint i = 0; i < 2; i++)
    {
      const char *piece = i == 0 ? "p" : "q";

      add_loss (fixture, piece, WB_LOSS_MISSING, i == 0 ? 100 : 50);
      add_finding (fixture, piece, "h3", WB_FOUND_PRESENT, NULL);
      add_finding (fixture, piece, "h4", WB_FOUND_SHORT, NULL);
    }
  out = apportion (fixture, WB_APPORTION_LAST);
  warehouse = handler_of (out, names[WAREHOUSE]);
  g_assert_cmpint (warehouse->wanted, ==, 15000);
  g_assert_cmpint (warehouse->borne, ==, 5000);
  g_assert_cmpint (warehouse->excess, ==, 10000);
  g_assert_cmpint (part_of (out, 0, names[WAREHOUSE]), ==, 3333);
  g_assert_cmpint (part_of (out, 1, names[WAREHOUSE]), ==, 1667);
  g_assert_cmpint (part_of (out, 0, names[CARRIER]), ==, 6667);
  g_assert_cmpint (part_of (out, 1, names[CARRIER]), ==, 3333);
  g_assert_cmpint (out->handlers[CARRIER].borne, ==, 10000);
}

/* Without a carrier among the parties the office itself stands first, without a name. */
static void
test_office (ClaimFixture  *fixture,
             gconstpointer  data)
{
  g_autoptr (WbApportionment) out = NULL;

  ((WbParty *) find_record (fixture, "carrier"))->role = WB_ROLE_CONTACT;
  claim_add_line (fixture, NULL, WB_LOSS_MISSING, 50, 0)->weight = pounds (100);
  out = apportion (fixture, WB_APPORTION_LAST);
  g_assert_null (out->handlers[CARRIER].name);
  g_assert_cmpint (out->handlers[CARRIER].borne, ==, 5000);
}

/* Thirds by hand of 100.00: 33.34, 33.33, 33.33. */
static void
test_by_hand (ClaimFixture  *fixture,
              gconstpointer  data)
{
  g_autoptr (WbApportionment) whole = NULL;
  g_autoptr (WbApportionment) less = NULL;
  WbShare *share;

  add_loss (fixture, "p", WB_LOSS_DAMAGED, 100);
  add_share (fixture, "l1", names[CREW], 3334);
  add_share (fixture, "l1", "ADA PIKE", 3333);
  share = add_share (fixture, "l1", "Rail line", 3333);
  whole = apportion (fixture, WB_APPORTION_LAST);
  g_assert_cmpint (whole->lines[0].why, ==, WB_SHARED_BY_HAND);
  g_assert_false (whole->lines[0].hand_fault);
  g_assert_cmpint (part_of (whole, 0, names[CREW]), ==, 3334);
  g_assert_cmpint (part_of (whole, 0, names[HAULER]), ==, 3333);
  g_assert_cmpint (part_of (whole, 0, "Rail line"), ==, 3333);

  /* 99.99 % is none: the line goes by rule, and says so. */
  share->percent = 3332;
  less = apportion (fixture, WB_APPORTION_LAST);
  g_assert_true (less->lines[0].hand_fault);
  g_assert_cmpint (less->lines[0].hand_total, ==, 9999);
  g_assert_cmpint (less->lines[0].why, ==, WB_SHARED_NOT_NOTED);
  g_assert_cmpint (part_of (less, 0, names[DRIVER]), ==, 10000);
}

static WbHandlerCharge *
add_charge (ClaimFixture *fixture,
            const char   *id,
            const char   *handler,
            gint64        amount,
            gint64        recovered)
{
  WbHandlerCharge *charge = claim_add (fixture, WB_KIND_CHARGE, id);

  wb_set_text (&charge->claim, "claim");
  wb_set_text (&charge->handler, handler);
  charge->amount = dollars (amount);
  charge->recovered = recovered > 0 ? dollars (recovered) : WB_MONEY_UNSET;
  return charge;
}

static void
test_charges (ClaimFixture  *fixture,
              gconstpointer  data)
{
  g_autoptr (WbApportionment) out = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbReckoning) reckoning = NULL;
  g_autoptr (GError) error = NULL;
  const WbHandler *driver;

  add_loss (fixture, "p", WB_LOSS_DAMAGED, 100);
  add_charge (fixture, "c1", names[DRIVER], 60, 25);
  add_charge (fixture, "c2", "driver ben low", 30, 0);
  add_charge (fixture, "c3", "Somebody else", 5, 5);
  out = apportion (fixture, WB_APPORTION_LAST);
  driver = handler_of (out, names[DRIVER]);
  g_assert_cmpint (driver->charged, ==, 9000);
  g_assert_cmpint (driver->recovered, ==, 2500);
  g_assert_cmpint (driver->open, ==, 6500);
  g_assert_cmpint (driver->uncharged, ==, 1000);
  g_assert_cmpint (handler_of (out, "Somebody else")->uncharged, ==, -500);
  g_assert_cmpint (handler_of (out, "Somebody else")->open, ==, 0);

  add_charge (fixture, "c4", names[DRIVER], 1, 0)->amount.minor = G_MAXINT64;
  job = wb_job_with_many (fixture->empty, fixture->records);
  reckoning = wb_reckon (fixture->terms, job, "claim", &error);
  g_assert_no_error (error);
  g_assert_null (wb_apportion (reckoning, WB_APPORTION_LAST, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_OVERFLOW);
}

/* The refund of freight is the carrier's own and is not shared out. */
static void
test_freight (ClaimFixture  *fixture,
              gconstpointer  data)
{
  g_autoptr (WbApportionment) out = NULL;

  ((WbOrder *) find_record (fixture, "order"))->freight_charge = dollars (500);
  add_loss (fixture, "p", WB_LOSS_MISSING, 100);
  add_finding (fixture, "p", "h5", WB_FOUND_SHORT, NULL);
  out = apportion (fixture, WB_APPORTION_LAST);
  /* 1,000 of 5,000 lb are lost. */
  g_assert_cmpint (out->freight_refund, ==, 10000);
  g_assert_cmpint (out->owed, ==, 10000);
  g_assert_cmpint (part_of (out, 0, names[DRIVER]), ==, 10000);
}

static void
test_tables (void)
{
  for (gsize i = 0; i < wb_shared_whys.n_values; i++)
    {
      WbChecked checked;
      const char *citation =
        wb_shared_citation ((WbSharedWhy) wb_shared_whys.values[i].value, &checked);

      g_assert_true (wb_enum_find_nick (&wb_shared_whys, wb_shared_whys.values[i].nick)
                     == &wb_shared_whys.values[i]);
      g_assert_true ((citation == NULL) == (checked == WB_CHECKED_NONE));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

#define ADD(path, function) \
  g_test_add ("/core/apportion/" path, ClaimFixture, NULL, set_up, function, claim_tear_down)
  ADD ("noted", test_noted);
  ADD ("uncounted", test_uncounted);
  ADD ("unsigned", test_unsigned);
  ADD ("others", test_others);
  ADD ("other-giver", test_other_giver);
  ADD ("customer-between", test_customer_between);
  ADD ("limit", test_limit);
  ADD ("office", test_office);
  ADD ("by-hand", test_by_hand);
  ADD ("charges", test_charges);
  ADD ("freight", test_freight);
  g_test_add_func ("/core/apportion/tables", test_tables);

  return g_test_run ();
}
