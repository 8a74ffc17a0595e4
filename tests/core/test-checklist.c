/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "core/wb-checklist.h"
#include "job-fixture.h"

#include <string.h>

/* The first entry of @item; the list is freed, the entry is good as long as @job. */
static WbChecklistEntry
look (const WbJob *job,
      WbItem       item)
{
  g_autoptr (GArray) list = wb_checklist (job, NULL);

  for (guint i = 0; i < list->len; i++)
    if (g_array_index (list, WbChecklistEntry, i).item == item)
      return g_array_index (list, WbChecklistEntry, i);

  g_error ("item %s is not listed", wb_enum_nick (&wb_items, item));
}

static void
assert_item (const WbJob  *job,
             WbItem        item,
             WbItemState   state,
             WbKind        kind,
             const char   *id,
             const char   *field)
{
  WbChecklistEntry entry = look (job, item);

  g_test_message ("%s", wb_enum_nick (&wb_items, item));
  g_assert_cmpstr (wb_enum_nick (&wb_item_states, entry.state), ==,
                   wb_enum_nick (&wb_item_states, state));
  g_assert_cmpint (entry.kind, ==, kind);
  g_assert_cmpstr (entry.id, ==, id);
  g_assert_cmpstr (entry.field, ==, field);
}

#define THERE   WB_ITEM_STATE_THERE
#define MISSING WB_ITEM_STATE_MISSING

static void
assert_not_needed (const WbJob  *job,
                   WbItem        item,
                   WbItemReason  reason)
{
  WbChecklistEntry entry = look (job, item);

  g_test_message ("%s", wb_enum_nick (&wb_items, item));
  g_assert_cmpint (entry.state, ==, WB_ITEM_STATE_NOT_NEEDED);
  g_assert_cmpint (entry.reason, ==, reason);
}

static WbJob *
new_interstate (void)
{
  WbJob *job = job_fixture_new ();

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "interstate", NULL);
  return job;
}

/* Every item once, in order, each with a citation or owned up as practice, and a jump that is a
 * field of its kind. */
static void
test_whole (void)
{
  g_autoptr (WbJob) job = new_interstate ();
  g_autoptr (GArray) list = wb_checklist (job, NULL);

  g_assert_cmpuint (list->len, ==, WB_N_ITEMS);
  for (guint i = 0; i < list->len; i++)
    {
      const WbChecklistEntry *entry = &g_array_index (list, WbChecklistEntry, i);

      g_test_message ("%s", wb_enum_nick (&wb_items, entry->item));
      g_assert_cmpint (entry->item, ==, (int) i);
      g_assert_true ((entry->citation == NULL) == (entry->source == WB_SOURCE_PRACTICE));
      if (entry->field != NULL)
        g_assert_nonnull (wb_record_type_field (wb_record_type (entry->kind), entry->field));
      if (entry->state != WB_ITEM_STATE_MISSING)
        continue;
      g_assert_true (entry->kind == WB_KIND_ORDER || entry->kind == WB_KIND_VALUATION
                     || entry->id == NULL);
      g_assert_true ((entry->kind == WB_KIND_PAPER) == (entry->paper != WB_PAPER_NONE));
    }
}

/* Each of the 17 items of 49 CFR 375.505(b) is among the citations. */
static void
test_bill_of_lading (void)
{
  g_autoptr (WbJob) job = new_interstate ();
  g_autoptr (GArray) list = wb_checklist (job, NULL);

  for (guint number = 1; number <= 17; number++)
    {
      g_autofree char *mark = g_strdup_printf ("(%u)", number);
      gboolean found = FALSE;

      for (guint i = 0; i < list->len && !found; i++)
        {
          const char *citation = g_array_index (list, WbChecklistEntry, i).citation;

          found = citation != NULL && strstr (citation, "375.505(b)") != NULL
                  && strstr (citation, mark) != NULL;
        }
      g_test_message ("item %u", number);
      g_assert_true (found);
    }
}

/* From missing to there, with the way to the very field that is lacking. */
static void
test_parties (void)
{
  g_autoptr (WbJob) job = new_interstate ();

  assert_item (job, WB_ITEM_SHIPPER, MISSING, WB_KIND_PARTY, NULL, "name");
  job_fixture_put (&job, WB_KIND_PARTY, "s", "role", "shipper", NULL);
  assert_item (job, WB_ITEM_SHIPPER, MISSING, WB_KIND_PARTY, "s", "name");
  job_fixture_put (&job, WB_KIND_PARTY, "s", "name", "Wanda Quist", NULL);
  assert_item (job, WB_ITEM_SHIPPER, THERE, WB_KIND_PARTY, "s", "name");
  assert_item (job, WB_ITEM_SHIPPER_PHONE, MISSING, WB_KIND_PARTY, "s", "phone");

  assert_not_needed (job, WB_ITEM_OTHER_CARRIERS, WB_ITEM_REASON_NO_OTHER);
  job_fixture_put (&job, WB_KIND_PARTY, "h1", "role", "hauler", "company", "Redpoll Lines", "phone",
                   "555-0100", "street", "1 Yard", "dot_number", "0000001", NULL);
  assert_item (job, WB_ITEM_OTHER_CARRIERS, THERE, WB_KIND_PARTY, "h1", "company");
  job_fixture_put (&job, WB_KIND_PARTY, "h2", "role", "hauler", "company", "Siskin Freight",
                   "phone", "555-0101", "street", "2 Yard", NULL);
  assert_item (job, WB_ITEM_OTHER_CARRIERS, MISSING, WB_KIND_PARTY, "h2", "dot_number");

  /* Who is told of the charges: nobody asked; the shipper asked; somebody else is named. */
  assert_not_needed (job, WB_ITEM_NOTIFY, WB_ITEM_REASON_NOT_ASKED);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "notify_charges", "yes", NULL);
  assert_item (job, WB_ITEM_NOTIFY, MISSING, WB_KIND_PARTY, "s", "phone");
  job_fixture_put (&job, WB_KIND_PARTY, "n", "role", "notify", "email", "n@post.example", NULL);
  assert_item (job, WB_ITEM_NOTIFY, THERE, WB_KIND_PARTY, "n", "phone");
}

static void
test_dates (void)
{
  g_autoptr (WbJob) job = new_interstate ();

  assert_item (job, WB_ITEM_SERVICE_DATES, MISSING, WB_KIND_ORDER, NULL, "pickup_from");
  assert_not_needed (job, WB_ITEM_GUARANTEED_DATES, WB_ITEM_REASON_NOT_GUARANTEED);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "pickup_from", "2026-03-02", NULL);
  assert_item (job, WB_ITEM_SERVICE_DATES, MISSING, WB_KIND_ORDER, NULL, "delivery_from");
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "delivery_from", "2026-03-09", NULL);
  assert_item (job, WB_ITEM_SERVICE_DATES, THERE, WB_KIND_ORDER, NULL, "pickup_from");

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "guaranteed", "yes", "pickup_to", "2026-03-03",
                   "delivery_to", "2026-03-12", NULL);
  assert_not_needed (job, WB_ITEM_SERVICE_DATES, WB_ITEM_REASON_GUARANTEED);
  assert_item (job, WB_ITEM_GUARANTEED_DATES, MISSING, WB_KIND_ORDER, NULL, "per_diem");
}

static void
test_liability (void)
{
  g_autoptr (WbJob) job = new_interstate ();

  assert_item (job, WB_ITEM_CHOICE, MISSING, WB_KIND_VALUATION, NULL, "choice");
  assert_not_needed (job, WB_ITEM_CHOICE_SIGNATURE, WB_ITEM_REASON_NO_CHOICE);

  job_fixture_put (&job, WB_KIND_VALUATION, NULL, "choice", "full", "signed_by", "Wanda Quist",
                   NULL);
  assert_item (job, WB_ITEM_CHOICE_SIGNATURE, MISSING, WB_KIND_VALUATION, NULL, "signed_on");
  assert_item (job, WB_ITEM_VALUATION_CHARGE, MISSING, WB_KIND_VALUATION, NULL, "charge");
  assert_not_needed (job, WB_ITEM_HIGH_VALUE_LIST, WB_ITEM_REASON_NOT_LISTED);

  /* A listed piece asks for the list. */
  job_fixture_put (&job, WB_KIND_PIECE, "p", "tag", "1", "listed_value", "9000", NULL);
  assert_item (job, WB_ITEM_HIGH_VALUE_LIST, MISSING, WB_KIND_VALUATION, NULL, "high_value_list");
  job_fixture_put (&job, WB_KIND_VALUATION, NULL, "high_value_list", "yes", NULL);
  assert_item (job, WB_ITEM_HIGH_VALUE_LIST, MISSING, WB_KIND_VALUATION, NULL,
               "high_value_signed_by");

  /* 375.203(b) does not reach released value. */
  job_fixture_put (&job, WB_KIND_VALUATION, NULL, "choice", "released", NULL);
  assert_not_needed (job, WB_ITEM_HIGH_VALUE_LIST, WB_ITEM_REASON_RELEASED);
  assert_not_needed (job, WB_ITEM_VALUATION_CHARGE, WB_ITEM_REASON_RELEASED);
  assert_item (job, WB_ITEM_DISCLOSURE, MISSING, WB_KIND_VALUATION, NULL, "disclosure");
}

static void
test_papers (void)
{
  g_autoptr (WbJob) job = new_interstate ();

  assert_item (job, WB_ITEM_BILL_SIGNED, MISSING, WB_KIND_PAPER, NULL, NULL);
  g_assert_cmpint (look (job, WB_ITEM_BILL_SIGNED).paper, ==, WB_PAPER_BILL_OF_LADING);
  job_fixture_put (&job, WB_KIND_PAPER, "b", "kind", "bill-of-lading", "given_on", "2026-03-02",
                   "signed_by", "Wanda Quist", "signed_on", "2026-03-02", NULL);
  assert_item (job, WB_ITEM_BILL_SIGNED, MISSING, WB_KIND_PAPER, "b", "carrier_signed_by");
  g_assert_cmpint (look (job, WB_ITEM_BILL_SIGNED).paper, ==, WB_PAPER_NONE);
  job_fixture_put (&job, WB_KIND_PAPER, "b", "carrier_signed_by", "R. Amundsen", NULL);
  assert_item (job, WB_ITEM_BILL_SIGNED, THERE, WB_KIND_PAPER, "b", NULL);

  /* The last of a kind counts. */
  job_fixture_put (&job, WB_KIND_PAPER, "b2", "kind", "bill-of-lading", NULL);
  assert_item (job, WB_ITEM_BILL_SIGNED, MISSING, WB_KIND_PAPER, "b2", "given_on");

  /* Attachments: first the estimate, then the inventory. */
  g_assert_cmpint (look (job, WB_ITEM_ATTACHMENTS).paper, ==, WB_PAPER_ESTIMATE);
  job_fixture_put (&job, WB_KIND_PAPER, "e", "kind", "estimate", NULL);
  g_assert_cmpint (look (job, WB_ITEM_ATTACHMENTS).paper, ==, WB_PAPER_INVENTORY);
  job_fixture_put (&job, WB_KIND_PAPER, "i", "kind", "inventory", NULL);
  g_assert_cmpint (look (job, WB_ITEM_ATTACHMENTS).state, ==, THERE);

  assert_not_needed (job, WB_ITEM_SURVEY_WAIVER, WB_ITEM_REASON_NOT_WAIVED);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "survey", "waived", NULL);
  g_assert_cmpint (look (job, WB_ITEM_SURVEY_WAIVER).paper, ==, WB_PAPER_SURVEY_WAIVER);

  assert_not_needed (job, WB_ITEM_INSURANCE_PAPER, WB_ITEM_REASON_NOT_SOLD);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "insurance", "Kestrel Mutual 77", NULL);
  assert_item (job, WB_ITEM_INSURANCE, MISSING, WB_KIND_ORDER, NULL, "insurance_premium");
  g_assert_cmpint (look (job, WB_ITEM_INSURANCE_PAPER).paper, ==, WB_PAPER_INSURANCE);
}

/* 49 CFR 375.519: six items and a signature, for each ticket. */
static void
test_tickets (void)
{
  g_autoptr (WbJob) job = new_interstate ();
  g_autoptr (GArray) list = NULL;
  guint n = 0;

  assert_item (job, WB_ITEM_WEIGHING, MISSING, WB_KIND_WEIGHING, NULL, NULL);
  assert_not_needed (job, WB_ITEM_TICKET_SCALE, WB_ITEM_REASON_NO_TICKET);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "estimate_kind", "binding", NULL);
  assert_not_needed (job, WB_ITEM_WEIGHING, WB_ITEM_REASON_BINDING);

  job_fixture_put (&job, WB_KIND_WEIGHING, "w1", "kind", "weighing", "gross", "9000 lb", "scale",
                   "Hill Scale", "on", "2026-03-02", "vehicle", "12", "shipper_name", "Quist",
                   "bill_number", "OB-1", "weighed_by", "R. A.", NULL);
  assert_item (job, WB_ITEM_TICKET_SCALE, THERE, WB_KIND_WEIGHING, "w1", "scale");
  assert_item (job, WB_ITEM_TICKET_WEIGHTS, MISSING, WB_KIND_WEIGHING, "w1", "tare");
  job_fixture_put (&job, WB_KIND_WEIGHING, "w1", "tare", "4000 lb", NULL);
  assert_item (job, WB_ITEM_TICKET_WEIGHTS, THERE, WB_KIND_WEIGHING, "w1", "net");

  /* A second ticket, and a constructive weight, which has none. */
  job_fixture_put (&job, WB_KIND_WEIGHING, "w2", "kind", "reweigh", NULL);
  job_fixture_put (&job, WB_KIND_WEIGHING, "w3", "kind", "constructive", NULL);
  list = wb_checklist (job, NULL);
  for (guint i = 0; i < list->len; i++)
    {
      const WbChecklistEntry *entry = &g_array_index (list, WbChecklistEntry, i);

      g_assert_cmpstr (entry->id, !=, "w3");
      if (g_strcmp0 (entry->id, "w2") == 0 && entry->state == MISSING)
        n++;
    }
  g_assert_cmpuint (n, ==, 7);
  g_assert_cmpuint (list->len, ==, WB_N_ITEMS + 7);
}

static WbChecklistEntry
look_on (const WbJob *job,
         WbItem       item,
         const char  *day)
{
  g_autoptr (GArray) list = NULL;
  GDate today;

  g_assert_true (wb_date_parse (day, &today, NULL));
  list = wb_checklist (job, &today);
  for (guint i = 0; i < list->len; i++)
    if (g_array_index (list, WbChecklistEntry, i).item == item)
      return g_array_index (list, WbChecklistEntry, i);

  g_error ("item %s is not listed", wb_enum_nick (&wb_items, item));
}

/* 49 CFR 375.605: late by what was done, and by the day. */
static void
test_delay (void)
{
  g_autoptr (WbJob) job = new_interstate ();
  const WbItem item = WB_ITEM_DELAY_NOTICE;

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "stage", "on-the-road", "pickup_from", "2026-03-02",
                   "pickup_to", "2026-03-03", "delivery_from", "2026-03-09", "delivery_to",
                   "2026-03-12", "picked_up_on", "2026-03-03", NULL);
  assert_not_needed (job, item, WB_ITEM_REASON_IN_TIME);
  g_assert_cmpint (look_on (job, item, "2026-03-12").state, ==, WB_ITEM_STATE_NOT_NEEDED);
  g_assert_cmpint (look_on (job, item, "2026-03-13").state, ==, MISSING);
  g_assert_cmpint (look_on (job, item, "2026-03-13").due, ==, WB_DUE_DELIVERY);
  g_assert_cmpint (look_on (job, item, "2026-03-13").paper, ==, WB_PAPER_DELAY_NOTICE);

  job_fixture_put (&job, WB_KIND_PAPER, "d", "kind", "delay-notice", "given_on", "2026-03-11",
                   NULL);
  g_assert_cmpint (look_on (job, item, "2026-03-13").state, ==, THERE);

  /* Picked up a day late: due before loading. */
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "picked_up_on", "2026-03-04", NULL);
  g_assert_cmpint (look (job, item).state, ==, THERE);
  g_assert_cmpint (look (job, item).due, ==, WB_DUE_LOADING);

  /* From storage goods are delivered when they are asked for. */
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "picked_up_on", "2026-03-03", "delivered_on",
                   "2026-05-01", "storage_from", "2026-03-09", NULL);
  assert_not_needed (job, item, WB_ITEM_REASON_IN_TIME);
}

/* 49 CFR 375.609: ten days' notice, one day when storage lasts less than ten days. */
static void
test_storage (void)
{
  g_autoptr (WbJob) job = new_interstate ();
  const WbItem item = WB_ITEM_STORAGE_NOTICE;

  assert_not_needed (job, item, WB_ITEM_REASON_NOT_STORED);
  assert_not_needed (job, WB_ITEM_STORAGE_LIMIT, WB_ITEM_REASON_NOT_STORED);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "storage_from", "2026-03-01", NULL);
  assert_item (job, WB_ITEM_STORAGE_LIMIT, MISSING, WB_KIND_ORDER, NULL, "storage_days");
  assert_item (job, item, MISSING, WB_KIND_ORDER, NULL, "storage_notice_on");

  /* Ninety days end on 30 May. */
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "storage_days", "90", NULL);
  assert_item (job, WB_ITEM_STORAGE_LIMIT, THERE, WB_KIND_ORDER, NULL, "storage_days");
  assert_item (job, item, MISSING, WB_KIND_ORDER, NULL, "storage_notice_on");

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "storage_notice_on", "2026-05-20", NULL);
  g_assert_cmpint (look (job, item).reason, ==, WB_ITEM_REASON_NONE);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "storage_notice_on", "2026-05-21", NULL);
  g_assert_cmpint (look (job, item).reason, ==, WB_ITEM_REASON_LATE_NOTICE);
  g_assert_cmpint (look (job, item).state, ==, THERE);

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "storage_days", "9", "storage_notice_on",
                   "2026-03-09", NULL);
  g_assert_cmpint (look (job, item).reason, ==, WB_ITEM_REASON_NONE);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "storage_notice_on", "2026-03-10", NULL);
  g_assert_cmpint (look (job, item).reason, ==, WB_ITEM_REASON_LATE_NOTICE);

  /* Out in time, and a day too late. */
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "storage_notice_on", "", "delivered_on",
                   "2026-03-10", NULL);
  assert_not_needed (job, item, WB_ITEM_REASON_LEFT_STORAGE);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "delivered_on", "2026-03-11", NULL);
  g_assert_cmpint (look (job, item).state, ==, MISSING);
}

static void
test_delivery (void)
{
  g_autoptr (WbJob) job = new_interstate ();

  assert_item (job, WB_ITEM_DELIVERY_CHECK, MISSING, WB_KIND_HANDOVER, NULL, NULL);
  job_fixture_put (&job, WB_KIND_HANDOVER, "h", "kind", "delivery", NULL);
  assert_item (job, WB_ITEM_DELIVERY_CHECK, MISSING, WB_KIND_HANDOVER, "h", "to_signed");
  job_fixture_put (&job, WB_KIND_HANDOVER, "h", "to_signed", "Wanda Quist", NULL);
  assert_item (job, WB_ITEM_DELIVERY_CHECK, THERE, WB_KIND_HANDOVER, "h", "to_signed");

  assert_not_needed (job, WB_ITEM_DELIVERED_WEIGHT, WB_ITEM_REASON_NOT_SHORT);
  job_fixture_put (&job, WB_KIND_PIECE, "p", "tag", "1", NULL);
  job_fixture_put (&job, WB_KIND_FINDING, "f", "handover", "h", "piece", "p", "found", "short",
                   NULL);
  assert_item (job, WB_ITEM_DELIVERED_WEIGHT, MISSING, WB_KIND_ORDER, NULL, "delivered_weight");

  assert_not_needed (job, WB_ITEM_CLOSED, WB_ITEM_REASON_NOT_CLOSED);
  job_fixture_put (&job, WB_KIND_ORDER, NULL, "stage", "closed", NULL);
  assert_item (job, WB_ITEM_CLOSED, MISSING, WB_KIND_ORDER, NULL, "closed_on");
}

/* Other rules decide within a state and for the department; what every office needs stays. */
static void
test_authority (void)
{
  g_autoptr (WbJob) job = job_fixture_new ();

  g_assert_cmpint (wb_order_authority (wb_job_order (job)), ==, WB_AUTHORITY_UNKNOWN);
  assert_item (job, WB_ITEM_MOVE_TYPE, MISSING, WB_KIND_ORDER, NULL, "move_type");
  g_assert_cmpint (look (job, WB_ITEM_BOOKLETS).state, ==, MISSING);

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "intrastate", NULL);
  g_assert_cmpint (wb_order_authority (wb_job_order (job)), ==, WB_AUTHORITY_STATE);
  assert_item (job, WB_ITEM_REGION, MISSING, WB_KIND_ORDER, NULL, "region");
  assert_not_needed (job, WB_ITEM_BOOKLETS, WB_ITEM_REASON_NOT_FEDERAL);
  g_assert_cmpint (look (job, WB_ITEM_CHOICE).state, ==, MISSING);
  g_assert_cmpint (look (job, WB_ITEM_INVENTORY).state, ==, MISSING);

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "military", NULL);
  g_assert_cmpint (wb_order_authority (wb_job_order (job)), ==, WB_AUTHORITY_MILITARY);
  assert_not_needed (job, WB_ITEM_CHOICE, WB_ITEM_REASON_NOT_FEDERAL);
  assert_not_needed (job, WB_ITEM_PAYMENT_FORM, WB_ITEM_REASON_NOT_FEDERAL);
  g_assert_cmpint (look (job, WB_ITEM_INVENTORY).state, ==, MISSING);

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "move_type", "other", NULL);
  assert_not_needed (job, WB_ITEM_BOOKLETS, WB_ITEM_REASON_NOT_FEDERAL);
}

static guint
count_urgent (const WbJob *job)
{
  g_autoptr (GArray) list = wb_checklist (job, NULL);
  guint n = 0;

  for (guint i = 0; i < list->len; i++)
    n += wb_checklist_is_urgent (job, &g_array_index (list, WbChecklistEntry, i));
  return n;
}

/* The further a job is, the more is due; of one that was called off, nothing. */
static void
test_stages (void)
{
  static const struct { const char *stage; WbDue due; } stages[] = {
    { "inquiry", WB_DUE_ESTIMATE }, { "booked", WB_DUE_LOADING }, { "packed", WB_DUE_LOADING },
    { "on-the-road", WB_DUE_DELIVERY }, { "in-storage", WB_DUE_DELIVERY },
    { "delivered", WB_DUE_CLOSING }, { "closed", WB_DUE_CLOSING },
  };
  g_autoptr (WbJob) job = new_interstate ();
  guint before = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (stages); i++)
    {
      guint now;

      job_fixture_put (&job, WB_KIND_ORDER, NULL, "stage", stages[i].stage, NULL);
      g_assert_cmpint (wb_checklist_due (wb_job_order (job)->stage), ==, stages[i].due);
      now = count_urgent (job);
      g_assert_cmpuint (now, >=, before);
      if (i == 0)
        /* Shipper, survey, booklets, tariff, arbitration, complaints. */
        g_assert_cmpuint (now, ==, 6);
      before = now;
    }

  job_fixture_put (&job, WB_KIND_ORDER, NULL, "stage", "cancelled", NULL);
  g_assert_cmpuint (count_urgent (job), ==, 0);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/checklist/whole", test_whole);
  g_test_add_func ("/core/checklist/bill-of-lading", test_bill_of_lading);
  g_test_add_func ("/core/checklist/parties", test_parties);
  g_test_add_func ("/core/checklist/dates", test_dates);
  g_test_add_func ("/core/checklist/liability", test_liability);
  g_test_add_func ("/core/checklist/papers", test_papers);
  g_test_add_func ("/core/checklist/tickets", test_tickets);
  g_test_add_func ("/core/checklist/delay", test_delay);
  g_test_add_func ("/core/checklist/storage", test_storage);
  g_test_add_func ("/core/checklist/delivery", test_delivery);
  g_test_add_func ("/core/checklist/authority", test_authority);
  g_test_add_func ("/core/checklist/stages", test_stages);
  return g_test_run ();
}
