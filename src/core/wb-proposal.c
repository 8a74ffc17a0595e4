/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts a proposal for a claim line together: the case, the facts in the order of the rules, the one
 * that decides and how the others stand to it. The facts themselves are found in
 * wb-proposal-marks.c and wb-proposal-papers.c; no file of these changes a record. */
#include "config.h"

#include "core/wb-proposal-private.h"

#include "core/wb-core.h"
#include "core/wb-text.h"

/* --- the case --------------------------------------------------------------------------------- */

WbProof *
wb_case_note (WbCase      *self,
              WbProofRule  rule)
{
  WbProof *proof = wb_proof_new (rule);

  g_ptr_array_add (self->proofs, proof);
  return proof;
}

WbProof *
wb_case_note_record (WbCase        *self,
                     WbProofRule    rule,
                     gconstpointer  record)
{
  const WbRecord *it = record;
  WbProof *proof = wb_case_note (self, rule);

  if (it != NULL)
    {
      proof->has_record = TRUE;
      proof->kind = it->type->kind;
      proof->record = it->id;
    }
  return proof;
}

gboolean
wb_case_is_contents (const WbCase *self)
{
  if (self->piece == NULL)
    return FALSE;

  switch (self->piece->form)
    {
    case WB_FORM_CARTON:
    case WB_FORM_CRATE:
      return TRUE;
    case WB_FORM_LOOSE:
      break;
    }
  return FALSE;
}

const WbHandover *
wb_case_delivery (const WbCase *self)
{
  for (guint i = wb_job_count (self->job, WB_KIND_HANDOVER); i > 0; i--)
    {
      const WbHandover *handover = wb_job_nth (self->job, WB_KIND_HANDOVER, i - 1);

      if (handover->kind == WB_HANDOVER_DELIVERY)
        return handover;
    }

  return NULL;
}

/* --- the order of the facts ------------------------------------------------------------------- */

/* The fact that decides: the strongest; of equals the one whose rule stands first, then the one
 * that was found first. */
static WbProof *
find_deciding (GPtrArray *proofs)
{
  WbProof *best = NULL;

  for (guint i = 0; i < proofs->len; i++)
    {
      WbProof *proof = g_ptr_array_index (proofs, i);

      if (proof->verdict == WB_VERDICT_NONE)
        continue;
      if (best == NULL || proof->strength > best->strength
          || (proof->strength == best->strength && proof->rule < best->rule))
        best = proof;
    }

  return best;
}

static void
set_bearings (GPtrArray     *proofs,
              const WbProof *deciding)
{
  for (guint i = 0; i < proofs->len; i++)
    {
      WbProof *proof = g_ptr_array_index (proofs, i);

      if (proof == deciding)
        proof->bearing = WB_BEARING_DECIDES;
      else if (proof->verdict == WB_VERDICT_NONE)
        proof->bearing = WB_BEARING_INFORMS;
      else if (proof->verdict == deciding->verdict)
        proof->bearing = WB_BEARING_SUPPORTS;
      else
        proof->bearing = WB_BEARING_AGAINST;
    }
}

/* What is alike stays in the order in which it was found, which is that of the handovers. */
static void
sort_proofs (GPtrArray *proofs)
{
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();

  for (guint i = 0; i < proofs->len; i++)
    {
      WbProof *proof = g_ptr_array_index (proofs, i);
      guint at = sorted->len;

      for (; at > 0; at--)
        {
          const WbProof *before = g_ptr_array_index (sorted, at - 1);

          if (before->bearing < proof->bearing
              || (before->bearing == proof->bearing
                  && (before->strength > proof->strength
                      || (before->strength == proof->strength && before->rule <= proof->rule))))
            break;
        }
      g_ptr_array_insert (sorted, (gint) at, proof);
    }

  for (guint i = 0; i < sorted->len; i++)
    proofs->pdata[i] = sorted->pdata[i];
}

/* --- since when ------------------------------------------------------------------------------- */

static const char *
id_of_handover (const WbJob *job,
                gint         index)
{
  const WbHandover *handover;

  if (index < 0)
    return NULL;

  handover = wb_job_nth (job, WB_KIND_HANDOVER, (guint) index);
  return handover->record.id;
}

static const char *
find_pickup (const WbJob *job)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_HANDOVER); i++)
    {
      const WbHandover *handover = wb_job_nth (job, WB_KIND_HANDOVER, i);

      if (handover->kind == WB_HANDOVER_PICKUP)
        return handover->record.id;
    }

  return NULL;
}

/* A loss noted at a handover lies between the one before and it; one that was noted at none lies
 * behind the pick-up. */
static void
set_handovers (WbProposal    *self,
               const WbProof *deciding)
{
  if (self->verdict != WB_VERDICT_NEW && self->verdict != WB_VERDICT_MISSING_AT_COUNT)
    return;

  self->noted_at = deciding->handover;
  if (self->noted_at == NULL)
    self->since = find_pickup (self->job);
  else
    self->since = id_of_handover (self->job,
                                  wb_job_index (self->job, WB_KIND_HANDOVER, self->noted_at) - 1);
}

/* --- public ----------------------------------------------------------------------------------- */

WbProposal *
wb_propose (WbTerms           *terms,
            WbJob             *job,
            const WbClaimLine *line,
            const GDate       *today)
{
  g_autoptr (WbTrail) trail = NULL;

  g_return_val_if_fail (job != NULL, NULL);

  trail = wb_trail_new (job);
  return wb_propose_along (terms, job, trail, line, today);
}

WbProposal *
wb_propose_along (WbTerms           *terms,
                  WbJob             *job,
                  WbTrail           *trail,
                  const WbClaimLine *line,
                  const GDate       *today)
{
  WbProposal *self;
  const WbProof *deciding;
  WbCase one;

  g_return_val_if_fail (terms != NULL, NULL);
  g_return_val_if_fail (job != NULL, NULL);
  g_return_val_if_fail (trail != NULL, NULL);
  g_return_val_if_fail (line != NULL, NULL);

  self = g_new0 (WbProposal, 1);
  self->job = wb_job_ref (job);
  self->terms = wb_terms_ref (terms);
  self->proofs = g_ptr_array_new_with_free_func (wb_proof_free);
  one = (WbCase) { .terms = terms, .job = job, .trail = trail, .line = line,
                   .claim = wb_job_find (job, WB_KIND_CLAIM, line->claim),
                   .piece = wb_job_find (job, WB_KIND_PIECE, line->piece),
                   .index = line->piece != NULL ? wb_job_index (job, WB_KIND_PIECE, line->piece)
                                                : -1,
                   .today = today, .proofs = self->proofs };

  wb_case_look_at_dates (&one);
  wb_case_look_at_loss (&one);
  wb_case_look_at_marks (&one);
  wb_case_look_at_carton (&one);
  wb_case_look_at_receipt (&one);
  wb_case_look_at_defences (&one);
  wb_case_look_at_rest (&one);
  if (find_deciding (self->proofs) == NULL)
    wb_case_note (&one, WB_PROOF_NOTHING);

  deciding = find_deciding (self->proofs);
  self->verdict = deciding->verdict;
  set_bearings (self->proofs, deciding);
  sort_proofs (self->proofs);
  set_handovers (self, deciding);
  if (!wb_marks_is_empty (&one.claimed))
    self->claimed = wb_marks_to_text (&one.claimed);
  wb_marks_clear (&one.claimed);
  return self;
}

void
wb_proposal_free (WbProposal *self)
{
  g_ptr_array_unref (self->proofs);
  wb_job_unref (self->job);
  wb_terms_unref (self->terms);
  g_free (self->claimed);
  g_free (self);
}

WbClaimLine *
wb_proposal_judge (const WbProposal   *self,
                   const WbClaimLine  *line,
                   WbVerdict           verdict,
                   const char         *reason,
                   GError            **error)
{
  WbClaimLine *judged;

  g_return_val_if_fail (self != NULL, NULL);
  g_return_val_if_fail (line != NULL, NULL);

  if (reason != NULL && *wb_text_skip_space (reason) == '\0')
    reason = NULL;
  if (verdict != WB_VERDICT_NONE && verdict != self->verdict && reason == NULL)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "line %" G_GINT64_FORMAT " is judged otherwise than was proposed; write why",
                   line->number);
      return NULL;
    }

  judged = wb_record_copy (line);
  judged->proposed = verdict != WB_VERDICT_NONE ? self->verdict : WB_VERDICT_NONE;
  judged->verdict = verdict;
  wb_set_text (&judged->verdict_reason, verdict != WB_VERDICT_NONE ? reason : NULL);
  return judged;
}

char *
wb_proposal_to_text (const WbProposal *self)
{
  g_autoptr (GString) out = g_string_new (NULL);

  g_string_append_printf (out, "%s noted-at=%s since=%s claimed=%s\n",
                          wb_enum_nick (&wb_verdicts, (int) self->verdict),
                          self->noted_at != NULL ? self->noted_at : "-",
                          self->since != NULL ? self->since : "-",
                          self->claimed != NULL ? self->claimed : "-");
  for (guint i = 0; i < self->proofs->len; i++)
    {
      const WbProof *proof = g_ptr_array_index (self->proofs, i);
      g_autofree char *date = wb_date_to_text (&proof->date);

      g_string_append_printf (out, "%s %s", wb_enum_nick (&wb_bearings, (int) proof->bearing),
                              wb_enum_nick (&wb_proof_rules, (int) proof->rule));
      if (proof->verdict != WB_VERDICT_NONE)
        g_string_append_printf (out, " %s", wb_enum_nick (&wb_verdicts, (int) proof->verdict));
      if (proof->has_record)
        g_string_append_printf (out, " %s:%s", wb_record_type (proof->kind)->name, proof->record);
      if (proof->handover != NULL)
        g_string_append_printf (out, " at=%s", proof->handover);
      if (proof->marks != NULL)
        g_string_append_printf (out, " marks=%s", proof->marks);
      if (*date != '\0')
        g_string_append_printf (out, " last-day=%s", date);
      g_string_append_c (out, '\n');
    }

  return g_string_free (g_steal_pointer (&out), FALSE);
}
