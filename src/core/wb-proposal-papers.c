/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What dates, cartons, receipts, notes, photos and figures say about a claim line. Counts and marks
 * are in wb-proposal-marks.c. */
#include "config.h"

#include "core/wb-clock.h"
#include "core/wb-proposal-private.h"

#include <string.h>

/* --- dates ------------------------------------------------------------------------------------ */

static gboolean
is_past (const GDate *from,
         WbPeriod     period,
         const GDate *day,
         GDate       *last_day)
{
  return wb_date_is_set (from) && wb_date_is_set (day) && wb_period_is_set (period)
         && wb_date_add_period (from, period, last_day, NULL)
         && wb_date_compare (day, last_day) > 0;
}

static void
note_date (WbCase      *self,
           WbProofRule  rule,
           WbTermsKey   key,
           const GDate *last_day)
{
  WbProof *proof = wb_case_note_record (self, rule, self->claim);

  proof->date = *last_day;
  proof->citation = wb_terms_citation (self->terms, WB_SCOPE_GENERAL, key);
}

static void
look_at_lateness (WbCase      *self,
                  const GDate *delivered,
                  const GDate *filed)
{
  GDate last_day, later;

  if (!is_past (delivered, self->terms->claim_within, filed, &last_day))
    return;

  switch (self->terms->late_claim)
    {
    case WB_LATE_BARRED:
      note_date (self, WB_PROOF_TOO_LATE, WB_KEY_LATE_CLAIM, &last_day);
      return;
    case WB_LATE_ACTUAL_VALUE:
      if (is_past (delivered, self->terms->late_until, filed, &later))
        {
          note_date (self, WB_PROOF_TOO_LATE, WB_KEY_LATE_UNTIL, &later);
          return;
        }
      break;
    case WB_LATE_FLAGGED:
      break;
    }
  note_date (self, WB_PROOF_LATE, WB_KEY_CLAIM_WITHIN, &last_day);
}

/* The day of the first notice: a step says so, or the claim itself is one. */
static GDate
find_notice (const WbCase *self,
             const GDate  *filed)
{
  GDate first = *filed;

  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_STEP); i++)
    {
      const WbClaimStep *step = wb_job_nth (self->job, WB_KIND_STEP, i);

      if (step->kind == WB_STEP_NOTICE && wb_date_is_set (&step->on)
          && g_strcmp0 (step->claim, self->line->claim) == 0
          && (!wb_date_is_set (&first) || wb_date_compare (&step->on, &first) < 0))
        first = step->on;
    }

  return first;
}

void
wb_case_look_at_dates (WbCase *self)
{
  const GDate *delivered = wb_order_delivery_day (wb_job_order (self->job));
  GDate filed = { 0 };
  GDate notice, last_day;

  if (self->claim != NULL && wb_date_is_set (&self->claim->received_on))
    filed = self->claim->received_on;
  else if (self->today != NULL)
    filed = *self->today;

  look_at_lateness (self, delivered, &filed);
  notice = find_notice (self, &filed);
  if (is_past (delivered, self->terms->notice_within, &notice, &last_day))
    note_date (self, WB_PROOF_LATE_NOTICE, WB_KEY_NOTICE_WITHIN, &last_day);
}

/* --- cartons ---------------------------------------------------------------------------------- */

static gboolean
is_thing_related (const WbCase  *self,
                  const WbPiece *piece)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_THING); i++)
    {
      const WbThing *thing = wb_job_nth (self->job, WB_KIND_THING, i);

      if (g_strcmp0 (thing->piece, piece->record.id) == 0
          && wb_words_are_related (self->line->item, thing->description))
        return TRUE;
    }

  return FALSE;
}

static gboolean
has_list (const WbCase *self)
{
  if (self->piece->contents != NULL)
    return TRUE;

  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_THING); i++)
    {
      const WbThing *thing = wb_job_nth (self->job, WB_KIND_THING, i);

      if (g_strcmp0 (thing->piece, self->piece->record.id) == 0)
        return TRUE;
    }

  return FALSE;
}

static gboolean
is_related (const WbCase  *self,
            const WbPiece *piece)
{
  return wb_words_are_related (self->line->item, piece->contents)
         || wb_words_are_related (self->line->item, piece->description)
         || is_thing_related (self, piece);
}

/* The thing is on no line of the inventory; but a carton that the carrier packed may hold it. */
static void
look_for_carton (WbCase *self)
{
  wb_case_note (self, WB_PROOF_NOT_LISTED);
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (self->job, WB_KIND_PIECE, i);

      if (piece->form != WB_FORM_LOOSE && piece->packed_by == WB_PACKED_BY_CARRIER
          && (wb_words_are_related (self->line->item, piece->contents)
              || is_thing_related (self, piece)))
        wb_case_note_record (self, WB_PROOF_LIKELY_CARTON, piece);
    }
}

/* Returns: the first handover with new damage outside, or -1. */
static gint
find_hurt (const WbCase *self)
{
  for (guint i = 0; i < wb_trail_n_handovers (self->trail); i++)
    if (wb_trail_pass (self->trail, i, (guint) self->index)->new_marks != NULL)
      return (gint) i;

  return -1;
}

static void
look_at_packer (WbCase *self)
{
  gint hurt = find_hurt (self);
  const WbHandover *handover =
    hurt >= 0 ? wb_job_nth (self->job, WB_KIND_HANDOVER, (guint) hurt) : NULL;

  switch (self->piece->packed_by)
    {
    case WB_PACKED_BY_OWNER:
      if (handover == NULL)
        wb_case_note_record (self, WB_PROOF_OWNER_SOUND, self->piece);
      else
        wb_case_note_record (self, WB_PROOF_OWNER_HURT, self->piece)->handover =
          handover->record.id;
      break;
    case WB_PACKED_BY_CARRIER:
      if (handover == NULL)
        wb_case_note_record (self, WB_PROOF_CARRIER_SOUND, self->piece);
      break;
    case WB_PACKED_UNKNOWN:
      wb_case_note_record (self, WB_PROOF_PACKER_UNKNOWN, self->piece);
      break;
    }
}

static void
look_at_packing_checks (WbCase *self)
{
  const WbPackingCheck *met = NULL;
  gboolean unmet = FALSE;

  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PACKING_CHECK); i++)
    {
      const WbPackingCheck *check = wb_job_nth (self->job, WB_KIND_PACKING_CHECK, i);

      if (g_strcmp0 (check->piece, self->piece->record.id) != 0)
        continue;
      if (check->state == WB_CHECK_UNMET)
        {
          wb_case_note_record (self, WB_PROOF_RULE_UNMET, check);
          unmet = TRUE;
        }
      else if (check->state == WB_CHECK_MET && met == NULL)
        {
          met = check;
        }
    }
  if (met != NULL && !unmet)
    wb_case_note_record (self, WB_PROOF_RULES_MET, met);
}

/* Of a carton that the owner packed the carrier wrote no list. */
static void
look_at_contents (WbCase *self)
{
  if (self->piece->packed_by == WB_PACKED_BY_OWNER || self->line->item == NULL)
    return;

  if (is_related (self, self->piece))
    wb_case_note_record (self, WB_PROOF_CONTENTS_RELATED, self->piece);
  else if (has_list (self))
    wb_case_note_record (self, WB_PROOF_CONTENTS_UNRELATED, self->piece);
  else
    wb_case_note_record (self, WB_PROOF_CONTENTS_UNWRITTEN, self->piece);
}

void
wb_case_look_at_carton (WbCase *self)
{
  if (self->piece == NULL)
    {
      look_for_carton (self);
      return;
    }
  if (!wb_case_is_contents (self)
      || wb_trail_whereabouts (self->trail, (guint) self->index).stand == WB_STAND_MISSING)
    return;

  look_at_packer (self);
  look_at_packing_checks (self);
  look_at_contents (self);
}

/* --- receipts --------------------------------------------------------------------------------- */

static void
look_at_changes_of_hands (WbCase *self)
{
  for (guint i = 0; i < wb_trail_n_handovers (self->trail); i++)
    {
      const WbHandover *handover = wb_job_nth (self->job, WB_KIND_HANDOVER, i);
      const WbPass *pass = wb_trail_pass (self->trail, i, (guint) self->index);

      if (handover->kind == WB_HANDOVER_PICKUP || handover->kind == WB_HANDOVER_DELIVERY)
        continue;
      if (pass->state == WB_PASS_AS_LISTED || pass->state == WB_PASS_NOT_COUNTED)
        wb_case_note_record (self, WB_PROOF_UNCOUNTED, handover)->handover = handover->record.id;
    }
}

static void
look_at_delivery (WbCase           *self,
                  const WbHandover *delivery)
{
  gint at = wb_job_index (self->job, WB_KIND_HANDOVER, delivery->record.id);
  const WbPass *pass = wb_trail_pass (self->trail, (guint) at, (guint) self->index);
  WbProof *proof;

  if (delivery->to_signed == NULL)
    {
      wb_case_note_record (self, WB_PROOF_RECEIPT_UNSIGNED, delivery)->handover =
        delivery->record.id;
      return;
    }
  if (pass->missing || pass->state == WB_PASS_SHORT || find_hurt (self) >= 0)
    return;

  proof = wb_case_note_record (self, WB_PROOF_SIGNED_CLEAN, delivery);
  proof->handover = delivery->record.id;
  /* Nobody looks into a carton at the door. */
  if (wb_case_is_contents (self))
    proof->strength = 30;
}

void
wb_case_look_at_receipt (WbCase *self)
{
  const WbHandover *delivery = wb_case_delivery (self);

  if (delivery == NULL)
    wb_case_note (self, WB_PROOF_NO_DELIVERY);
  if (self->piece == NULL)
    return;

  if (delivery != NULL)
    look_at_delivery (self, delivery);
  look_at_changes_of_hands (self);
}

/* --- defences --------------------------------------------------------------------------------- */

static const char *const god[] = { "avalanche", "blizzard", "cyclone", "earthquake", "flood",
                                   "flooded", "floods", "hurricane", "landslide", "lightning",
                                   "tornado", "typhoon", NULL };
static const char *const enemy[] = { "enemy", "invasion", "warfare", NULL };
static const char *const authority[] = { "confiscated", "impounded", "quarantine", "quarantined",
                                         "seized", NULL };
static const char *const vice[] = { "fermented", "perished", "rotted", "rotten", "spoiled",
                                    "wilted", NULL };

typedef struct
{
  WbProofRule        rule;
  const char *const *words;
} DefenceRow;

static const DefenceRow defences[] = {
  { WB_PROOF_ACT_OF_GOD, god },
  { WB_PROOF_PUBLIC_ENEMY, enemy },
  { WB_PROOF_PUBLIC_AUTHORITY, authority },
  { WB_PROOF_INHERENT_VICE, vice },
};

/* What was written about this piece when it happened counts; what was written of a whole load, or
 * into the claim afterwards, points to where to look. */
#define STRENGTH_OF_A_HINT 45

static void
look_for_words (WbCase        *self,
                const char    *text,
                gconstpointer  record,
                const char    *handover,
                gboolean       hint)
{
  for (gsize i = 0; i < G_N_ELEMENTS (defences); i++)
    {
      WbProof *proof;

      if (!wb_text_has_word (text, defences[i].words))
        continue;
      proof = wb_case_note_record (self, defences[i].rule, record);
      proof->handover = handover;
      if (hint)
        proof->strength = STRENGTH_OF_A_HINT;
    }
}

void
wb_case_look_at_defences (WbCase *self)
{
  if (self->piece != NULL && self->piece->disassembly == WB_DISASSEMBLY_BY_OWNER)
    wb_case_note_record (self, WB_PROOF_ACT_OF_SHIPPER, self->piece)->strength =
      STRENGTH_OF_A_HINT;
  if (self->piece != NULL)
    for (guint i = 0; i < wb_job_count (self->job, WB_KIND_FINDING); i++)
      {
        const WbFinding *finding = wb_job_nth (self->job, WB_KIND_FINDING, i);

        if (g_strcmp0 (finding->piece, self->piece->record.id) == 0)
          look_for_words (self, finding->notes, finding, finding->handover, FALSE);
      }
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_HANDOVER); i++)
    {
      const WbHandover *handover = wb_job_nth (self->job, WB_KIND_HANDOVER, i);

      look_for_words (self, handover->notes, handover, handover->record.id, TRUE);
    }
  look_for_words (self, self->line->notes, self->line, NULL, TRUE);
}

/* --- the rest --------------------------------------------------------------------------------- */

static const char *const working_things[] = {
  "amplifier", "cassette", "computer", "dishwasher", "dryer", "freezer", "fridge", "laptop",
  "microwave", "mixer", "monitor", "oven", "printer", "projector", "radio", "recorder",
  "refrigerator", "stereo", "stove", "television", "turntable", "tv", "washer", NULL
};

static gboolean
has_condition (const WbMarks *marks,
               const char    *code)
{
  gsize n;
  const WbMarkCode *codes = wb_mark_conditions (&n);

  for (gsize i = 0; i < marks->n_marks; i++)
    if (g_str_equal (codes[marks->marks[i].condition].code, code))
      return TRUE;

  return FALSE;
}

static void
look_at_nature (WbCase *self)
{
  gboolean works = wb_text_has_word (self->line->item, working_things)
                   || wb_text_has_word (self->piece->description, working_things);
  gboolean mildew = has_condition (&self->claimed, "MI");

  if (self->line->loss != WB_LOSS_MISSING && works && find_hurt (self) < 0
      && wb_marks_is_empty (&self->claimed))
    wb_case_note_record (self, WB_PROOF_INTERNAL, self->piece);

  for (guint i = 0; i < wb_trail_n_handovers (self->trail); i++)
    {
      g_auto (WbMarks) fresh =
        wb_marks_from_text (wb_trail_pass (self->trail, i, (guint) self->index)->new_marks);

      mildew = mildew || has_condition (&fresh, "MI");
    }
  if (mildew)
    wb_case_note_record (self, WB_PROOF_MILDEW, self->piece);
}

static void
look_at_photos (WbCase *self)
{
  const WbPhoto *before = NULL;
  const WbPhoto *after = NULL;

  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (self->job, WB_KIND_PHOTO, i);

      if (g_strcmp0 (photo->piece, self->piece->record.id) != 0)
        continue;
      if (photo->moment == WB_MOMENT_PACKING || photo->moment == WB_MOMENT_ORIGIN)
        before = photo;
      else if (photo->moment == WB_MOMENT_DELIVERY || photo->moment == WB_MOMENT_CLAIM)
        after = photo;
    }

  if (before != NULL && after != NULL)
    wb_case_note_record (self, WB_PROOF_PHOTOS_BOTH, after);
  else if (before != NULL)
    wb_case_note_record (self, WB_PROOF_PHOTOS_BEFORE, before);
  else if (after != NULL)
    wb_case_note_record (self, WB_PROOF_PHOTOS_AFTER, after);
}

static void
look_at_weight (WbCase *self)
{
  if (wb_weight_is_set (self->line->weight))
    wb_case_note_record (self, WB_PROOF_WEIGHT_THING, self->line);
  else if (self->piece != NULL && wb_weight_is_set (self->piece->weight))
    wb_case_note_record (self, WB_PROOF_WEIGHT_PIECE, self->piece);
  else if (self->piece != NULL && wb_volume_is_set (self->piece->volume))
    wb_case_note_record (self, WB_PROOF_WEIGHT_VOLUME, self->piece);
  else
    wb_case_note_record (self, WB_PROOF_WEIGHT_NONE, self->piece);
}

/* Whether another piece has the same text in the member at @offset. */
static gboolean
has_fellow (const WbCase *self,
            gsize         offset)
{
  const char *mine = G_STRUCT_MEMBER (const char *, self->piece, offset);

  for (guint i = 0; mine != NULL && i < wb_job_count (self->job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (self->job, WB_KIND_PIECE, i);

      if (piece != self->piece
          && g_strcmp0 (G_STRUCT_MEMBER (const char *, piece, offset), mine) == 0)
        return TRUE;
    }

  return FALSE;
}

static void
look_at_value (WbCase *self)
{
  WbRate rate = self->terms->side[WB_SIDE_FULL].extraordinary_rate;
  WbWeight weight = wb_weight_is_set (self->line->weight) ? self->line->weight
                                                          : self->piece->weight;
  WbMoney most;

  if (wb_money_is_set (self->piece->listed_value)
      && wb_job_valuation (self->job)->high_value_list)
    wb_case_note_record (self, WB_PROOF_VALUE_LISTED, self->piece);
  else if (wb_rate_is_set (rate) && wb_weight_is_set (weight)
           && wb_money_is_set (self->line->replacement)
           && wb_rate_apply (rate, weight, WB_VOLUME_UNSET, self->terms->rounding, &most, NULL)
           && g_str_equal (most.currency, self->line->replacement.currency)
           && self->line->replacement.minor > most.minor)
    wb_case_note_record (self, WB_PROOF_VALUE_UNLISTED, self->piece);
}

void
wb_case_look_at_rest (WbCase *self)
{
  look_at_weight (self);
  if (self->piece == NULL)
    return;

  look_at_nature (self);
  look_at_photos (self);
  if (has_fellow (self, G_STRUCT_OFFSET (WbPiece, set)))
    wb_case_note_record (self, WB_PROOF_SET, self->piece);
  if (has_fellow (self, G_STRUCT_OFFSET (WbPiece, article)))
    wb_case_note_record (self, WB_PROOF_PARTS, self->piece);
  look_at_value (self);
}
