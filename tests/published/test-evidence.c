/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decisions and rules on who answers for what, each as a small shipment of one piece from a house
 * to a warehouse and on, and what the program proposes for it. Each row names its source; all were
 * read unless the row says otherwise. How the facts of a case stand to each other is tried in
 * tests/core. */
#include "config.h"

#include <string.h>

#include "core/wb-proposal.h"

#define TERMS \
  "regime = trial\ntitle = Trial\ncurrency = USD\n[edition]\nfrom = 2000-01-01\n" \
  "[claims]\nclaim-within = 9 months\nlate-claim = barred\n" \
  "[released]\narticle-rate = 0.60 per lb\n[full]\nshipment-minimum = 5000.00\n"

typedef struct
{
  const char   *title;
  const char   *source;
  WbForm        form;
  WbPackedBy    packed_by;
  const char   *description;
  const char   *contents;
  const char   *origin;      /* marks before the pick-up */
  const char   *warehouse;   /* noted into the warehouse: marks, "-" for short; NULL is in good order */
  const char   *delivery;    /* the same at delivery */
  const char   *item;
  WbLoss        loss;
  gboolean      unlisted;    /* the line is about no piece of the inventory */
  const char   *received;    /* NULL: in time */
  WbVerdict     verdict;
  const char   *since;       /* the loss came about after this handover; NULL is not known */
} Decision;

static const Decision decisions[] = {
  { "lost out of a carton that the carrier packed, related to the contents it listed",
    "DOHA 23 Dec 1997; 21 Sep 2000", WB_FORM_CARTON, WB_PACKED_BY_CARRIER, "Dish pack",
    "Plates, cups", .item = "Dinner plates, 4", .loss = WB_LOSS_MISSING,
    .verdict = WB_VERDICT_NEW, .since = "pickup" },
  { "not related to the contents listed: evidence from personal knowledge is needed",
    "DOHA digest 2001", WB_FORM_CARTON, WB_PACKED_BY_CARRIER, "Carton", "Books", .item = "Vase",
    .loss = WB_LOSS_MISSING, .verdict = WB_VERDICT_UNDECIDED },
  { "not on the inventory at all", "DOHA digest 2001; 49 CFR 375.503(a)", WB_FORM_LOOSE,
    WB_PACKED_UNKNOWN, "Table", .item = "Garden bench", .loss = WB_LOSS_MISSING, .unlisted = TRUE,
    .verdict = WB_VERDICT_NOT_LISTED },
  { "“table legs” without a number covers the one that is missing", "DOHA digest 2001",
    WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table legs", .item = "Table leg, 1",
    .loss = WB_LOSS_MISSING, .verdict = WB_VERDICT_NEW, .since = "pickup" },
  { "damage inside a sturdy electric thing, none outside", "DOHA digest 2006", WB_FORM_LOOSE,
    WB_PACKED_UNKNOWN, "Washer", .item = "Washer does not run", .loss = WB_LOSS_DAMAGED,
    .verdict = WB_VERDICT_NEW, .since = "pickup" },
  { "the inventory had the same damage", "GAO B-193182", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table",
    .origin = "SC 4", .item = "Table, scratched on the front", .loss = WB_LOSS_DAMAGED,
    .verdict = WB_VERDICT_ALREADY_THERE },
  { "real doubt whether the damage was there before", "GAO B-193182", WB_FORM_LOOSE,
    WB_PACKED_UNKNOWN, "Table", .origin = "SC", .item = "Table, scratched on the top",
    .loss = WB_LOSS_DAMAGED, .verdict = WB_VERDICT_UNDECIDED },
  { "old damage of one kind, new damage of another: the new one is owed", "DOHA 27 Nov 1996",
    WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Piano", .origin = "SC 4", .delivery = "Z 11",
    .item = "Piano: scratched front, veneer cracked", .loss = WB_LOSS_DAMAGED,
    .verdict = WB_VERDICT_NEW, .since = "storage" },
  { "broken in a sound carton that the carrier packed", "32 CFR 751.31(b) (2005)", WB_FORM_CARTON,
    WB_PACKED_BY_CARRIER, "Dish pack", "Plates, cups", .item = "Plate, broken",
    .loss = WB_LOSS_DESTROYED, .verdict = WB_VERDICT_NEW, .since = "pickup" },
  { "packed by the owner, but the carton was crushed on the way: packing is not the sole cause",
    "GAO B-252430 (1993)", WB_FORM_CARTON, WB_PACKED_BY_OWNER, "Carton", .delivery = "CR 3",
    .item = "Plates, broken", .loss = WB_LOSS_DESTROYED, .verdict = WB_VERDICT_NEW,
    .since = "storage" },
  { "packed by the owner and the carton sound", "Act of the shipper, common law, from memory",
    WB_FORM_CARTON, WB_PACKED_BY_OWNER, "Carton", .item = "Plates, broken",
    .loss = WB_LOSS_DESTROYED, .verdict = WB_VERDICT_OWNER_PACKED },
  { "a notice of other damage than is claimed is enough, and more may be claimed",
    "GAO B-244701 (1992); DOHA 1996, 1997", WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table",
    .delivery = "BR 6", .item = "Table", .loss = WB_LOSS_DAMAGED, .verdict = WB_VERDICT_NEW,
    .since = "storage" },
  { "counted short into the warehouse: lost since the pick-up", "DOHA digests 2001, 2005, 2006",
    WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Bicycle", .warehouse = "-", .item = "Bicycle",
    .loss = WB_LOSS_MISSING, .verdict = WB_VERDICT_MISSING_AT_COUNT, .since = "pickup" },
  { "counted short at delivery: lost since the warehouse took it in good order",
    "DOHA digests 2001, 2005, 2006; 49 CFR 375.503(d)", WB_FORM_LOOSE, WB_PACKED_UNKNOWN,
    "Bicycle", .delivery = "-", .item = "Bicycle", .loss = WB_LOSS_MISSING,
    .verdict = WB_VERDICT_MISSING_AT_COUNT, .since = "storage" },
  { "claimed after the time that the contract gives", "49 CFR 370.3(a); 49 USC 14706(e)",
    WB_FORM_LOOSE, WB_PACKED_UNKNOWN, "Table", .delivery = "BR 6", .item = "Table, leg broken",
    .loss = WB_LOSS_DAMAGED, .received = "2024-12-11", .verdict = WB_VERDICT_TOO_LATE },
};

static void
add (GPtrArray *records,
     gpointer   record)
{
  g_ptr_array_add (records, record);
}

static void
add_handover (GPtrArray      *records,
              const char     *id,
              WbHandoverKind  kind,
              const char     *from,
              const char     *to)
{
  WbHandover *handover = wb_record_new (WB_KIND_HANDOVER, id);

  handover->kind = kind;
  wb_set_text (&handover->from_holder, from);
  wb_set_text (&handover->to_holder, to);
  wb_set_text (&handover->from_signed, from);
  wb_set_text (&handover->to_signed, to);
  add (records, handover);
}

static void
add_finding (GPtrArray  *records,
             const char *handover,
             const char *noted)
{
  WbFinding *finding;

  if (noted == NULL)
    return;
  finding = wb_record_new (WB_KIND_FINDING, handover);
  wb_set_text (&finding->handover, handover);
  wb_set_text (&finding->piece, "piece");
  if (g_str_equal (noted, "-"))
    finding->found = WB_FOUND_SHORT;
  else
    wb_set_text (&finding->marks, noted);
  add (records, finding);
}

static GDate
date (const char *text)
{
  g_autoptr (GError) error = NULL;
  GDate out;

  if (!wb_date_parse (text, &out, &error))
    g_error ("%s", error->message);
  return out;
}

static void
add_piece_and_line (GPtrArray      *records,
                    const Decision *row)
{
  WbPiece *piece = wb_record_new (WB_KIND_PIECE, "piece");
  WbClaimLine *line = wb_record_new (WB_KIND_CLAIM_LINE, "line");

  piece->tag = 1;
  piece->form = row->form;
  piece->packed_by = row->packed_by;
  wb_set_text (&piece->description, row->description);
  wb_set_text (&piece->contents, row->contents);
  wb_set_text (&piece->marks, row->origin);
  add (records, piece);
  wb_set_text (&line->claim, "claim");
  line->number = 1;
  wb_set_text (&line->piece, row->unlisted ? NULL : "piece");
  wb_set_text (&line->item, row->item);
  line->loss = row->loss;
  add (records, line);
}

static WbJob *
build (const Decision *row)
{
  g_autoptr (WbJob) empty = wb_job_new ("job", "USD");
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (GError) error = NULL;
  WbOrder *order = wb_record_new (WB_KIND_ORDER, "order");
  WbClaim *claim = wb_record_new (WB_KIND_CLAIM, "claim");
  WbJob *job;

  wb_set_text (&order->number, "J-1");
  order->picked_up_on = date ("2024-03-01");
  order->delivered_on = date ("2024-03-10");
  add (records, order);
  add_handover (records, "pickup", WB_HANDOVER_PICKUP, "Ida Brook", "Crew of Hal Moss");
  add_handover (records, "storage", WB_HANDOVER_INTO_STORAGE, "Crew of Hal Moss",
                "Quarry Warehouse");
  add_handover (records, "delivery", WB_HANDOVER_DELIVERY, "Quarry Warehouse", "Ida Brook");
  wb_set_text (&claim->number, "C-1");
  claim->received_on = date (row->received != NULL ? row->received : "2024-04-01");
  add (records, claim);
  add_piece_and_line (records, row);
  add_finding (records, "storage", row->warehouse);
  add_finding (records, "delivery", row->delivery);
  job = wb_job_with_many (empty, records);
  wb_job_check (job, &error);
  g_assert_no_error (error);
  return job;
}

static void
test_decision (gconstpointer data)
{
  const Decision *row = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) editions = wb_terms_parse (TERMS, strlen (TERMS), "trial", &error);
  g_autoptr (WbJob) job = build (row);
  g_autoptr (WbProposal) proposal = NULL;
  g_autofree char *text = NULL;

  g_assert_no_error (error);
  proposal = wb_propose (g_ptr_array_index (editions, 0), job,
                         wb_job_nth (job, WB_KIND_CLAIM_LINE, 0), NULL);
  text = wb_proposal_to_text (proposal);
  g_test_message ("%s (%s)\n%s", row->title, row->source, text);
  g_assert_cmpstr (wb_enum_nick (&wb_verdicts, (int) proposal->verdict), ==,
                   wb_enum_nick (&wb_verdicts, (int) row->verdict));
  g_assert_cmpstr (proposal->since, ==, row->since);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (decisions); i++)
    {
      g_autofree char *path = g_strdup_printf ("/published/evidence/%" G_GSIZE_FORMAT, i + 1);

      g_test_add_data_func (path, &decisions[i], test_decision);
    }
  return g_test_run ();
}
