/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts the handovers, findings and tallies of a job together, piece by piece and handover by
 * handover. Reads records only: what a shortage costs whom is the reckoning's. */
#include "config.h"

#include "core/wb-trail.h"

#include <string.h>

#include "core/wb-mark-compare.h"
#include "core/wb-tally.h"

#define N_(text) text

static const WbEnumValue pass_states[] = {
  { WB_PASS_AS_LISTED, "as-listed", N_("Taken as listed") },
  { WB_PASS_COUNTED, "counted", N_("Counted") },
  { WB_PASS_SHORT, "short", N_("Short") },
  { WB_PASS_OVER, "over", N_("Over") },
  { WB_PASS_NOT_COUNTED, "not-counted", N_("Not counted") },
};
const WbEnum wb_pass_states = { "state at a handover", pass_states, G_N_ELEMENTS (pass_states) };

static const WbEnumValue holds[] = {
  { WB_HOLD_UNKNOWN, "unknown", N_("Not known") },
  { WB_HOLD_ORIGIN, "origin", N_("At the old residence") },
  { WB_HOLD_VEHICLE, "vehicle", N_("On a vehicle") },
  { WB_HOLD_WAREHOUSE, "warehouse", N_("In a warehouse") },
  { WB_HOLD_DESTINATION, "destination", N_("At the new residence") },
};
const WbEnum wb_holds = { "way of holding", holds, G_N_ELEMENTS (holds) };

static const WbEnumValue stands[] = {
  { WB_STAND_NOT_PICKED_UP, "not-picked-up", N_("Not picked up") },
  { WB_STAND_HELD, "held", N_("Under way") },
  { WB_STAND_DELIVERED, "delivered", N_("Delivered") },
  { WB_STAND_MISSING, "missing", N_("Missing") },
};
const WbEnum wb_stands = { "whereabouts", stands, G_N_ELEMENTS (stands) };

struct _WbTrail
{
  WbJob      *job;
  guint       n_handovers;
  guint       n_pieces;
  WbPass     *passes;        /* handover after handover, in each the pieces in the job's order */
  GPtrArray  *handovers;     /* of WbHandoverFacts */
  GArray     *stretches;     /* of WbStretch */
};

static WbPass *
get_pass (const WbTrail *self,
          guint          handover,
          guint          piece)
{
  return &self->passes[(gsize) handover * self->n_pieces + piece];
}

/* --- what was noted --------------------------------------------------------------------------- */

static void
add_marks_to_text (char       **text,
                   const char  *more)
{
  g_auto (WbMarks) marks = wb_marks_from_text (*text);
  g_auto (WbMarks) added = wb_marks_from_text (more);

  wb_marks_add (&marks, &added);
  g_free (*text);
  *text = wb_marks_is_empty (&marks) ? NULL : wb_marks_to_text (&marks);
}

/* Hands each finding to the handover and piece that it is about. */
static void
take_findings (WbTrail *self)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_FINDING); i++)
    {
      const WbFinding *finding = wb_job_nth (self->job, WB_KIND_FINDING, i);
      gint handover = wb_job_index (self->job, WB_KIND_HANDOVER, finding->handover);
      gint piece = wb_job_index (self->job, WB_KIND_PIECE, finding->piece);
      WbPass *pass;

      if (handover < 0 || piece < 0)
        continue;
      pass = get_pass (self, (guint) handover, (guint) piece);
      pass->finding = finding;
      if (finding->marks != NULL)
        add_marks_to_text (&pass->noted_marks, finding->marks);
    }
}

/* What was known when the piece came to each handover, and what is new there. */
static void
compare_marks (WbTrail *self,
               guint    piece)
{
  const WbPiece *record = wb_job_nth (self->job, WB_KIND_PIECE, piece);
  g_autofree char *known = NULL;

  add_marks_to_text (&known, record->marks);
  for (guint i = 0; i < self->n_handovers; i++)
    {
      WbPass *pass = get_pass (self, i, piece);
      g_auto (WbMarks) before = wb_marks_from_text (known);
      g_auto (WbMarks) noted = wb_marks_from_text (pass->noted_marks);
      g_auto (WbMarks) fresh = { NULL, 0 };

      pass->known_marks = g_strdup (known);
      if (pass->noted_marks == NULL)
        continue;
      wb_marks_find_new (&noted, &before, &fresh);
      if (!wb_marks_is_empty (&fresh))
        pass->new_marks = wb_marks_to_text (&fresh);
      add_marks_to_text (&known, pass->noted_marks);
    }
}

/* --- where each piece was --------------------------------------------------------------------- */

static gboolean
is_seen (WbPassState state)
{
  return state == WB_PASS_COUNTED || state == WB_PASS_OVER;
}

/* A finding decides; then the tally; then whether anybody counted at all. */
static WbPassState
find_state (const WbPass       *pass,
            const WbHandover   *handover,
            const WbTallySheet *tally,
            const WbPiece      *piece)
{
  if (pass->finding != NULL && pass->finding->found == WB_FOUND_SHORT)
    return WB_PASS_SHORT;
  if (pass->finding != NULL && pass->finding->found == WB_FOUND_OVER)
    return WB_PASS_OVER;
  if (pass->finding != NULL || wb_tally_sheet_has (tally, piece->lot, piece->tag))
    return WB_PASS_COUNTED;

  return handover->count == WB_COUNT_AS_LISTED ? WB_PASS_AS_LISTED : WB_PASS_NOT_COUNTED;
}

static void
find_states (WbTrail *self,
             guint    handover)
{
  const WbHandover *record = wb_job_nth (self->job, WB_KIND_HANDOVER, handover);
  g_autoptr (WbTallySheet) tally = wb_tally_sheet_new (self->job, record->record.id);

  for (guint i = 0; i < self->n_pieces; i++)
    {
      WbPass *pass = get_pass (self, handover, i);
      const WbPass *before = handover > 0 ? get_pass (self, handover - 1, i) : NULL;
      gboolean lost_before = before != NULL
                             && (before->state == WB_PASS_SHORT || before->missing);

      pass->state = find_state (pass, record, tally, wb_job_nth (self->job, WB_KIND_PIECE, i));
      pass->reappeared = lost_before && is_seen (pass->state);
      pass->missing = lost_before && !is_seen (pass->state);
      /* Nobody counted it, so nobody took it as listed either. */
      if (pass->missing && pass->state == WB_PASS_AS_LISTED)
        pass->state = WB_PASS_NOT_COUNTED;
    }
}

/* --- each handover ---------------------------------------------------------------------------- */

gboolean
wb_trail_same_holder (const char *a,
                      const char *b)
{
  g_autofree char *x = NULL;
  g_autofree char *y = NULL;
  g_auto (GStrv) words_a = NULL;
  g_auto (GStrv) words_b = NULL;
  guint i = 0, j = 0;

  if (a == NULL || b == NULL)
    return FALSE;

  x = g_utf8_casefold (a, -1);
  y = g_utf8_casefold (b, -1);
  words_a = g_strsplit (x, " ", -1);
  words_b = g_strsplit (y, " ", -1);
  for (;;)
    {
      while (words_a[i] != NULL && *words_a[i] == '\0')
        i++;
      while (words_b[j] != NULL && *words_b[j] == '\0')
        j++;
      if (words_a[i] == NULL || words_b[j] == NULL)
        return words_a[i] == NULL && words_b[j] == NULL;
      if (!g_str_equal (words_a[i++], words_b[j++]))
        return FALSE;
    }
}

static void
stray_free (gpointer data)
{
  WbStray *stray = data;

  g_array_unref (stray->tags);
  g_free (stray);
}

static void
facts_free (gpointer data)
{
  WbHandoverFacts *facts = data;

  g_ptr_array_unref (facts->left);
  g_ptr_array_unref (facts->shortages);
  g_ptr_array_unref (facts->overages);
  g_ptr_array_unref (facts->reappeared);
  g_ptr_array_unref (facts->marked);
  g_ptr_array_unref (facts->strays);
  g_free (facts);
}

static void
find_strays (const WbJob        *job,
             const WbTallySheet *tally,
             const WbLot        *lot,
             WbHandoverFacts    *facts)
{
  const char *id = lot != NULL ? lot->record.id : NULL;
  g_autoptr (GArray) listed = wb_tally_listed_tags (job, id);
  g_autoptr (GArray) tags = wb_tag_ranges_subtract (wb_tally_sheet_tags (tally, id), listed);
  WbStray *stray;

  if (tags->len == 0)
    return;

  stray = g_new0 (WbStray, 1);
  stray->lot = lot;
  facts->n_strays += wb_tag_ranges_count (tags);
  stray->tags = g_steal_pointer (&tags);
  g_ptr_array_add (facts->strays, stray);
}

static void
sort_pieces (const WbTrail   *self,
             guint            handover,
             WbHandoverFacts *facts)
{
  for (guint i = 0; i < self->n_pieces; i++)
    {
      const WbPass *pass = get_pass (self, handover, i);
      gpointer piece = (gpointer) wb_job_nth (self->job, WB_KIND_PIECE, i);

      if (is_seen (pass->state))
        facts->n_counted++;
      if (pass->state == WB_PASS_SHORT)
        g_ptr_array_add (facts->shortages, piece);
      if (pass->state == WB_PASS_OVER)
        g_ptr_array_add (facts->overages, piece);
      if (pass->state == WB_PASS_NOT_COUNTED && facts->handover->count != WB_COUNT_AS_LISTED)
        g_ptr_array_add (facts->left, piece);
      if (pass->reappeared)
        g_ptr_array_add (facts->reappeared, piece);
      if (pass->new_marks != NULL)
        g_ptr_array_add (facts->marked, piece);
    }
}

/* A handover before it in the job's order that is dated later, or -1. */
static gint
find_later_date (const WbTrail *self,
                 guint          handover)
{
  const WbHandover *record = wb_job_nth (self->job, WB_KIND_HANDOVER, handover);

  for (guint i = handover; i > 0 && wb_date_is_set (&record->on); i--)
    {
      const WbHandover *before = wb_job_nth (self->job, WB_KIND_HANDOVER, i - 1);

      if (wb_date_is_set (&before->on) && wb_date_compare (&record->on, &before->on) < 0)
        return (gint) i - 1;
    }
  return -1;
}

static gboolean
giver_differs (const WbTrail *self,
               guint          handover)
{
  const WbHandover *record = wb_job_nth (self->job, WB_KIND_HANDOVER, handover);
  const WbHandover *before;

  if (handover == 0)
    return FALSE;

  before = wb_job_nth (self->job, WB_KIND_HANDOVER, handover - 1);
  return record->from_holder != NULL && before->to_holder != NULL
         && !wb_trail_same_holder (record->from_holder, before->to_holder);
}

static WbHandoverFacts *
make_facts (const WbTrail *self,
            guint          handover)
{
  const WbHandover *record = wb_job_nth (self->job, WB_KIND_HANDOVER, handover);
  g_autoptr (WbTallySheet) tally = wb_tally_sheet_new (self->job, record->record.id);
  WbHandoverFacts *facts = g_new0 (WbHandoverFacts, 1);

  facts->handover = record;
  facts->n_pieces = self->n_pieces;
  facts->left = g_ptr_array_new ();
  facts->shortages = g_ptr_array_new ();
  facts->overages = g_ptr_array_new ();
  facts->reappeared = g_ptr_array_new ();
  facts->marked = g_ptr_array_new ();
  facts->strays = g_ptr_array_new_with_free_func (stray_free);
  facts->unreadable = wb_tally_sheet_unreadable (tally);
  facts->from_unsigned = record->from_signed == NULL;
  facts->to_unsigned = record->to_signed == NULL;
  facts->undated = !wb_date_is_set (&record->on);
  facts->earlier_than = find_later_date (self, handover);
  facts->giver_differs = giver_differs (self, handover);

  sort_pieces (self, handover, facts);
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_LOT); i++)
    find_strays (self->job, tally, wb_job_nth (self->job, WB_KIND_LOT, i), facts);
  find_strays (self->job, tally, NULL, facts);

  return facts;
}

/* --- between the handovers -------------------------------------------------------------------- */

static const char *
find_shipper (const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PARTY); i++)
    {
      const WbParty *party = wb_job_nth (job, WB_KIND_PARTY, i);

      if (party->role == WB_ROLE_SHIPPER)
        return party->name != NULL ? party->name : party->company;
    }
  return NULL;
}

static const char *
find_origin (const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_STOP); i++)
    {
      const WbStop *stop = wb_job_nth (job, WB_KIND_STOP, i);

      if (stop->kind == WB_STOP_PICKUP)
        return stop->city != NULL ? stop->city : stop->name;
    }
  return NULL;
}

static WbHold
hold_after (WbHandoverKind kind)
{
  switch (kind)
    {
    case WB_HANDOVER_PICKUP:
    case WB_HANDOVER_OUT_OF_STORAGE:
    case WB_HANDOVER_TRANSFER:
      return WB_HOLD_VEHICLE;
    case WB_HANDOVER_INTO_STORAGE:
      return WB_HOLD_WAREHOUSE;
    case WB_HANDOVER_DELIVERY:
      return WB_HOLD_DESTINATION;
    case WB_HANDOVER_NONE:
      return WB_HOLD_UNKNOWN;
    }
  return WB_HOLD_UNKNOWN;
}

static WbStretch
make_stretch (const WbTrail    *self,
              const WbHandover *before,
              const WbHandover *after)
{
  WbStretch stretch = { .hold = WB_HOLD_ORIGIN };
  const char *giver = after != NULL ? after->from_holder : NULL;

  if (before != NULL)
    {
      stretch.hold = hold_after (before->kind);
      stretch.holder = before->to_holder;
      stretch.place = before->place;
      stretch.vehicle = before->vehicle;
      stretch.from = before->on;
    }
  else
    {
      stretch.holder = giver == NULL ? find_shipper (self->job) : NULL;
      stretch.place = after != NULL && after->place != NULL ? after->place
                                                            : find_origin (self->job);
    }

  if (after != NULL)
    stretch.to = after->on;
  if (stretch.holder == NULL)
    stretch.holder = giver;
  else if (giver != NULL && !wb_trail_same_holder (giver, stretch.holder))
    stretch.giver = giver;

  return stretch;
}

WbWhereabouts
wb_trail_whereabouts (const WbTrail *self,
                      guint          piece)
{
  WbWhereabouts out = { .stand = WB_STAND_NOT_PICKED_UP, .seen_at = -1, .short_at = -1,
                        .pending = -1 };

  g_return_val_if_fail (piece < self->n_pieces, out);

  for (guint i = 0; i < self->n_handovers; i++)
    {
      const WbPass *pass = get_pass (self, i, piece);

      if (pass->state == WB_PASS_SHORT && out.short_at < 0)
        out.short_at = (gint) i;
      else if (pass->state == WB_PASS_NOT_COUNTED && out.short_at < 0 && out.pending < 0)
        out.pending = (gint) i;
      else if (pass->state == WB_PASS_AS_LISTED || is_seen (pass->state))
        {
          out.seen_at = (gint) i;
          out.short_at = -1;
          out.pending = -1;
        }
    }

  out.stretch = (guint) (out.seen_at + 1);
  if (out.short_at >= 0)
    out.stand = WB_STAND_MISSING;
  else if (out.seen_at >= 0)
    out.stand = wb_trail_stretch (self, out.stretch)->hold == WB_HOLD_DESTINATION
                ? WB_STAND_DELIVERED : WB_STAND_HELD;
  return out;
}

/* --- making one ------------------------------------------------------------------------------- */

WbTrail *
wb_trail_new (WbJob *job)
{
  WbTrail *self = g_new0 (WbTrail, 1);

  self->job = wb_job_ref (job);
  self->n_handovers = wb_job_count (job, WB_KIND_HANDOVER);
  self->n_pieces = wb_job_count (job, WB_KIND_PIECE);
  self->passes = g_new0 (WbPass, (gsize) self->n_handovers * self->n_pieces);
  self->handovers = g_ptr_array_new_with_free_func (facts_free);
  self->stretches = g_array_new (FALSE, FALSE, sizeof (WbStretch));

  take_findings (self);
  for (guint i = 0; i < self->n_pieces; i++)
    compare_marks (self, i);
  for (guint i = 0; i < self->n_handovers; i++)
    find_states (self, i);
  for (guint i = 0; i < self->n_handovers; i++)
    g_ptr_array_add (self->handovers, make_facts (self, i));
  for (guint i = 0; i <= self->n_handovers; i++)
    {
      const WbHandover *before = i > 0 ? wb_job_nth (job, WB_KIND_HANDOVER, i - 1) : NULL;
      const WbHandover *after = i < self->n_handovers ? wb_job_nth (job, WB_KIND_HANDOVER, i)
                                                      : NULL;
      WbStretch stretch = make_stretch (self, before, after);

      g_array_append_val (self->stretches, stretch);
    }
  return self;
}

void
wb_trail_free (WbTrail *self)
{
  for (gsize i = 0; i < (gsize) self->n_handovers * self->n_pieces; i++)
    {
      g_free (self->passes[i].known_marks);
      g_free (self->passes[i].noted_marks);
      g_free (self->passes[i].new_marks);
    }
  g_free (self->passes);
  g_ptr_array_unref (self->handovers);
  g_array_unref (self->stretches);
  wb_job_unref (self->job);
  g_free (self);
}

guint
wb_trail_n_handovers (const WbTrail *self)
{
  return self->n_handovers;
}

const WbHandoverFacts *
wb_trail_handover (const WbTrail *self,
                   guint          handover)
{
  g_return_val_if_fail (handover < self->n_handovers, NULL);

  return g_ptr_array_index (self->handovers, handover);
}

const WbPass *
wb_trail_pass (const WbTrail *self,
               guint          handover,
               guint          piece)
{
  g_return_val_if_fail (handover < self->n_handovers, NULL);
  g_return_val_if_fail (piece < self->n_pieces, NULL);

  return get_pass (self, handover, piece);
}

guint
wb_trail_n_stretches (const WbTrail *self)
{
  return self->stretches->len;
}

const WbStretch *
wb_trail_stretch (const WbTrail *self,
                  guint          stretch)
{
  g_return_val_if_fail (stretch < self->stretches->len, NULL);

  return &g_array_index (self->stretches, WbStretch, stretch);
}
