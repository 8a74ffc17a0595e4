/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the counts and marks of the trail say about a claim line: missing at which handover, noted
 * before or first noted where. What the papers and dates say is in wb-proposal-papers.c. */
#include "config.h"

#include "core/wb-proposal-private.h"

#include <string.h>

static const WbPass *
get_pass (const WbCase *self,
          guint         handover)
{
  return wb_trail_pass (self->trail, handover, (guint) self->index);
}

static const WbHandover *
get_handover (const WbCase *self,
              guint         handover)
{
  return wb_job_nth (self->job, WB_KIND_HANDOVER, handover);
}

/* --- counts ----------------------------------------------------------------------------------- */

/* The same for a shortage and for damage: whether the one who gave the goods signed. */
static void
note_unsigned_giver (WbCase *self,
                     guint   handover)
{
  const WbHandover *record = get_handover (self, handover);

  if (record->from_signed == NULL)
    wb_case_note_record (self, WB_PROOF_GIVER_UNSIGNED, record)->handover = record->record.id;
}

static void
note_short (WbCase *self,
            guint   handover)
{
  const WbPass *pass = get_pass (self, handover);
  WbProof *proof = wb_case_note_record (self, WB_PROOF_SHORT, pass->finding);

  proof->handover = get_handover (self, handover)->record.id;
  note_unsigned_giver (self, handover);
}

/* A loose piece that was seen after a count found it short, or was counted in at the end. What a
 * carton holds is not seen when the carton is counted. */
static void
look_for_sightings (WbCase *self)
{
  const WbHandover *delivery = wb_case_delivery (self);

  for (guint i = 0; i < wb_trail_n_handovers (self->trail); i++)
    {
      const WbHandover *handover = get_handover (self, i);
      const WbPass *pass = get_pass (self, i);
      WbProof *proof = NULL;

      if (pass->reappeared)
        proof = wb_case_note_record (self, WB_PROOF_SEEN_AGAIN, handover);
      else if (handover == delivery
               && (pass->state == WB_PASS_COUNTED || pass->state == WB_PASS_OVER))
        proof = wb_case_note_record (self, WB_PROOF_COUNTED_IN, handover);
      if (proof != NULL)
        proof->handover = handover->record.id;
    }
}

static gboolean
has_digit (const char *text)
{
  return text != NULL && strcspn (text, "0123456789") < strlen (text);
}

/* "Table legs", and nobody wrote how many. */
static gboolean
is_plural_without_count (const WbCase *self)
{
  const char *listed = self->piece->contents != NULL ? self->piece->contents
                                                     : self->piece->description;

  return listed != NULL && g_str_has_suffix (listed, "s") && !g_str_has_suffix (listed, "ss")
         && !has_digit (listed) && self->piece->quantity == WB_INTEGER_UNSET
         && wb_words_are_related (self->line->item, listed);
}

void
wb_case_look_at_loss (WbCase *self)
{
  WbWhereabouts where;

  if (self->piece == NULL
      || (self->line->loss != WB_LOSS_MISSING && self->line->loss != WB_LOSS_NONE))
    return;

  where = wb_trail_whereabouts (self->trail, (guint) self->index);
  if (where.stand == WB_STAND_MISSING)
    {
      note_short (self, (guint) where.short_at);
      return;
    }
  if (self->line->loss != WB_LOSS_MISSING)
    return;

  if (!wb_case_is_contents (self))
    look_for_sightings (self);
  if (is_plural_without_count (self))
    wb_case_note_record (self, WB_PROOF_NO_COUNT, self->piece);
}

/* --- marks ------------------------------------------------------------------------------------ */

/* How marks that are claimed stand to marks that were noted. */
typedef struct
{
  WbMarks same;      /* the same kind at a place of both */
  WbMarks perhaps;   /* the same kind, and one of the two names no place */
  gboolean all;      /* every place of every mark claimed is in @same */
} Overlap;

static void
overlap_clear (Overlap *self)
{
  wb_marks_clear (&self->same);
  wb_marks_clear (&self->perhaps);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Overlap, overlap_clear)

static void
add_mark (WbMarks *marks,
          WbMark   mark)
{
  WbMarks one = { &mark, 1 };

  wb_marks_add (marks, &one);
}

static gboolean
has_place (const WbMark *mark,
           guint8        place)
{
  return memchr (mark->places, place, mark->n_places) != NULL;
}

static gboolean
compare_mark (Overlap       *self,
              const WbMark  *claimed,
              const WbMarks *noted)
{
  WbMark same = { .condition = claimed->condition };
  gboolean perhaps = FALSE;

  for (gsize i = 0; i < noted->n_marks; i++)
    {
      const WbMark *mark = &noted->marks[i];

      if (mark->condition != claimed->condition)
        continue;
      if (mark->n_places == 0 || claimed->n_places == 0)
        perhaps = TRUE;
      for (guint j = 0; j < claimed->n_places; j++)
        if (has_place (mark, claimed->places[j]) && !has_place (&same, claimed->places[j]))
          same.places[same.n_places++] = claimed->places[j];
    }

  if (same.n_places > 0)
    add_mark (&self->same, same);
  else if (perhaps)
    add_mark (&self->perhaps, *claimed);
  return same.n_places > 0 && same.n_places == claimed->n_places;
}

static Overlap
compare (const WbMarks *claimed,
         const WbMarks *noted)
{
  Overlap out = { .all = TRUE };

  for (gsize i = 0; i < claimed->n_marks; i++)
    out.all = compare_mark (&out, &claimed->marks[i], noted) && out.all;
  return out;
}

static void
look_at_origin_marks (WbCase *self)
{
  g_auto (WbMarks) noted = wb_marks_from_text (self->piece->marks);
  g_auto (Overlap) overlap = compare (&self->claimed, &noted);
  WbProofRule rule = WB_PROOF_ORIGIN_OTHER;
  const WbMarks *shown = &noted;

  if (wb_marks_is_empty (&noted))
    return;

  /* What is written on a carton is about the carton. */
  if (!wb_case_is_contents (self) && !wb_marks_is_empty (&self->claimed))
    {
      if (!wb_marks_is_empty (&overlap.same))
        {
          rule = overlap.all ? WB_PROOF_ORIGIN_ALL : WB_PROOF_ORIGIN_PART;
          shown = &overlap.same;
        }
      else if (!wb_marks_is_empty (&overlap.perhaps))
        {
          rule = WB_PROOF_ORIGIN_DOUBT;
          shown = &overlap.perhaps;
        }
    }
  wb_case_note_record (self, rule, self->piece)->marks = wb_marks_to_text (shown);
}

/* The marks of @fresh that may be what is claimed. */
static WbMarks
find_claimed (const WbMarks *fresh,
              const WbMarks *claimed)
{
  g_auto (Overlap) overlap = compare (fresh, claimed);
  WbMarks out = { NULL, 0 };

  wb_marks_add (&out, &overlap.same);
  wb_marks_add (&out, &overlap.perhaps);
  return out;
}

static void
look_at_new_marks (WbCase *self,
                   guint   handover)
{
  const WbPass *pass = get_pass (self, handover);
  g_auto (WbMarks) fresh = wb_marks_from_text (pass->new_marks);
  g_auto (WbMarks) wanted = find_claimed (&fresh, &self->claimed);
  gboolean any = wb_case_is_contents (self) || wb_marks_is_empty (&self->claimed);
  gboolean same = !any && !wb_marks_is_empty (&wanted);
  WbProof *proof;

  if (wb_marks_is_empty (&fresh))
    return;

  proof = wb_case_note_record (self,
                               same ? WB_PROOF_NEW_SAME
                                    : any ? WB_PROOF_NEW_ANY : WB_PROOF_NEW_OTHER,
                               pass->finding);
  proof->handover = get_handover (self, handover)->record.id;
  proof->marks = wb_marks_to_text (same ? &wanted : &fresh);
  note_unsigned_giver (self, handover);
}

/* --- pins on photos --------------------------------------------------------------------------- */

static gboolean
is_before (const WbPhoto *photo)
{
  return photo->moment == WB_MOMENT_PACKING || photo->moment == WB_MOMENT_ORIGIN;
}

static gboolean
is_after (const WbPhoto *photo)
{
  return photo->moment == WB_MOMENT_DELIVERY || photo->moment == WB_MOMENT_CLAIM;
}

static const WbPhoto *
find_photo_of_pin (const WbCase *self,
                   const WbPin  *pin)
{
  const WbPhoto *photo = wb_job_find (self->job, WB_KIND_PHOTO, pin->photo);
  const char *piece = pin->piece != NULL || photo == NULL ? pin->piece : photo->piece;

  return g_strcmp0 (piece, self->piece->record.id) == 0 ? photo : NULL;
}

static void
read_claimed (WbCase *self)
{
  wb_claimed_marks_read (&self->claimed, self->line->item);
  wb_claimed_marks_read (&self->claimed, self->line->notes);
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PIN); i++)
    {
      const WbPin *pin = wb_job_nth (self->job, WB_KIND_PIN, i);
      const WbPhoto *photo = find_photo_of_pin (self, pin);
      g_auto (WbMarks) marks = wb_marks_from_text (pin->marks);

      if (photo != NULL && is_after (photo))
        wb_marks_add (&self->claimed, &marks);
    }
}

static void
look_at_origin_pins (WbCase *self)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PIN); i++)
    {
      const WbPin *pin = wb_job_nth (self->job, WB_KIND_PIN, i);
      const WbPhoto *photo = find_photo_of_pin (self, pin);
      g_auto (WbMarks) marks = wb_marks_from_text (pin->marks);
      g_auto (Overlap) overlap = compare (&self->claimed, &marks);

      if (photo != NULL && is_before (photo) && !wb_marks_is_empty (&overlap.same))
        {
          WbProof *proof = wb_case_note_record (self, WB_PROOF_ORIGIN_PHOTO, pin);

          proof->marks = wb_marks_to_text (&overlap.same);
          /* A part of what is claimed decides no more on a photo than on paper. */
          if (!overlap.all)
            proof->strength = wb_proof_strength (WB_PROOF_ORIGIN_PART) - 1;
        }
    }
}

void
wb_case_look_at_marks (WbCase *self)
{
  /* A thing that is missing bears no marks, but a carton that it came out of may. */
  if (self->piece == NULL
      || (self->line->loss == WB_LOSS_MISSING && !wb_case_is_contents (self)))
    return;

  if (self->line->loss != WB_LOSS_MISSING)
    {
      read_claimed (self);
      look_at_origin_marks (self);
      look_at_origin_pins (self);
    }
  for (guint i = 0; i < wb_trail_n_handovers (self->trail); i++)
    look_at_new_marks (self, i);
}
