/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/wb-random-evidence.h"

static const char *const holders[] = { "Crew of Hal Moss", "crew of  hal moss", "Quarry Warehouse",
                                       "Long Haul of Ada Pike", "Harbor Agents" };
static const char *const marks[] = { "SC 4", "SC 4-8", "SC", "BR 6", "CR 3", "MI", "G 10, Z 11",
                                     "SC 9" };
static const char *const items[] = { "Table, scratched on the front", "Plates, broken", "Plates",
                                     "Washer does not run", "Leg broken", "Books, mildew",
                                     "SC 4, BR 6" };
static const char *const contents[] = { "Plates, cups", "Books", "Table legs" };
static const char *const notes[] = { "Flooded", "Rubbed against the load bar", "Seized" };

#define ONE_OF(rand, list) list[g_rand_int_range (rand, 0, G_N_ELEMENTS (list))]
#define PERHAPS(rand, list) (g_rand_boolean (rand) ? ONE_OF (rand, list) : NULL)

const char *
wb_random_marks (GRand *rand)
{
  return PERHAPS (rand, marks);
}

const char *
wb_random_holder (GRand *rand)
{
  return g_rand_int_range (rand, 0, 6) == 0 ? NULL : ONE_OF (rand, holders);
}

static void
add_handovers (GRand     *rand,
               GPtrArray *records,
               guint      n)
{
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("hand-%u", i);
      WbHandover *handover = wb_record_new (WB_KIND_HANDOVER, id);

      handover->kind = i == 0 ? WB_HANDOVER_PICKUP
                       : i + 1 == n && g_rand_int_range (rand, 0, 4) > 0
                         ? WB_HANDOVER_DELIVERY
                         : (WbHandoverKind) g_rand_int_range (rand, WB_HANDOVER_INTO_STORAGE,
                                                              WB_HANDOVER_DELIVERY);
      handover->count = (WbCount) g_rand_int_range (rand, 0, 3);
      wb_set_text (&handover->from_holder, wb_random_holder (rand));
      wb_set_text (&handover->to_holder, wb_random_holder (rand));
      wb_set_text (&handover->from_signed, PERHAPS (rand, holders));
      wb_set_text (&handover->to_signed, PERHAPS (rand, holders));
      g_ptr_array_add (records, handover);
    }
}

static void
add_findings (GRand       *rand,
              GPtrArray   *records,
              const WbJob *job,
              guint        n_handovers)
{
  guint n_pieces = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; n_pieces > 0 && n_handovers > 0 && i < n_pieces * 2; i++)
    {
      g_autofree char *id = g_strdup_printf ("found-%u", i);
      g_autofree char *handover =
        g_strdup_printf ("hand-%d", g_rand_int_range (rand, 0, (gint32) n_handovers));
      const WbPiece *piece =
        wb_job_nth (job, WB_KIND_PIECE, (guint) g_rand_int_range (rand, 0, (gint32) n_pieces));
      WbFinding *finding = wb_record_new (WB_KIND_FINDING, id);

      wb_set_text (&finding->handover, handover);
      wb_set_text (&finding->piece, piece->record.id);
      finding->found = (WbFound) g_rand_int_range (rand, 0, 3);
      wb_set_text (&finding->marks, wb_random_marks (rand));
      if (g_rand_int_range (rand, 0, 8) == 0)
        wb_set_text (&finding->notes, ONE_OF (rand, notes));
      g_ptr_array_add (records, finding);
    }
}

static void
describe_pieces (GRand       *rand,
                 GPtrArray   *records,
                 const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      WbPiece *piece = wb_record_copy (wb_job_nth (job, WB_KIND_PIECE, i));

      wb_set_text (&piece->marks, wb_random_marks (rand));
      wb_set_text (&piece->contents, PERHAPS (rand, contents));
      piece->packed_by = (WbPackedBy) g_rand_int_range (rand, 0, 3);
      g_ptr_array_add (records, piece);
    }
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      WbClaimLine *line = wb_record_copy (wb_job_nth (job, WB_KIND_CLAIM_LINE, i));

      wb_set_text (&line->item, PERHAPS (rand, items));
      g_ptr_array_add (records, line);
    }
}

/* The handovers and findings that the job may have already are left out. */
static WbJob *
without_trail (const WbJob *job)
{
  WbJob *bare = wb_job_new (wb_job_get_id (job), wb_job_get_currency (job));
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  WbJob *out;

  for (int kind = 0; kind < WB_N_KINDS; kind++)
    for (guint i = 0; i < wb_job_count (job, (WbKind) kind); i++)
      if (kind != WB_KIND_HANDOVER && kind != WB_KIND_FINDING && kind != WB_KIND_TALLY)
        g_ptr_array_add (records, (gpointer) wb_job_nth (job, (WbKind) kind, i));
  out = wb_job_with_many (bare, records);
  wb_job_unref (bare);
  return out;
}

WbJob *
wb_random_evidence (GRand       *rand,
                    const WbJob *job)
{
  g_autoptr (WbJob) bare = without_trail (job);
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  guint n_handovers = (guint) g_rand_int_range (rand, 0, 6);

  add_handovers (rand, records, n_handovers);
  add_findings (rand, records, bare, n_handovers);
  describe_pieces (rand, records, bare);
  return wb_job_with_many (bare, records);
}

WbJob *
wb_random_shuffle (GRand       *rand,
                   const WbJob *job,
                   WbKind       kind)
{
  g_autoptr (WbJob) bare = wb_job_new (wb_job_get_id (job), wb_job_get_currency (job));
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  g_autoptr (GPtrArray) mixed = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (job, kind); i++)
    g_ptr_array_insert (mixed, g_rand_int_range (rand, 0, (gint32) i + 1),
                        (gpointer) wb_job_nth (job, kind, i));
  for (int other = 0; other < WB_N_KINDS; other++)
    for (guint i = 0; i < wb_job_count (job, (WbKind) other); i++)
      g_ptr_array_add (records, other == (int) kind
                                ? g_ptr_array_index (mixed, i)
                                : (gpointer) wb_job_nth (job, (WbKind) other, i));
  return wb_job_with_many (bare, records);
}
