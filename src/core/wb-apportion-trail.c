/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who could have done a loss, and who of them is presumed to: those who had the piece between the
 * last count before and the handover at which it was first noted. What each bears is not said
 * here. */
#include "config.h"

#include "core/wb-apportion-private.h"

/* Facts that say at which handover a loss was first noted, the surest first. */
static const WbProofRule noting[] = { WB_PROOF_SHORT, WB_PROOF_NEW_SAME, WB_PROOF_NEW_ANY,
                                      WB_PROOF_NEW_OTHER };

static gint
find_earliest (const WbSharing  *self,
               const WbProposal *proposal,
               WbProofRule       rule)
{
  gint earliest = -1;

  for (guint i = 0; i < proposal->proofs->len; i++)
    {
      const WbProof *proof = g_ptr_array_index (proposal->proofs, i);
      gint at = proof->rule == rule && proof->handover != NULL
                ? wb_job_index (self->job, WB_KIND_HANDOVER, proof->handover) : -1;

      if (at >= 0 && (earliest < 0 || at < earliest))
        earliest = at;
    }

  return earliest;
}

gint
wb_sharing_find_noted (const WbSharing   *self,
                       WbTerms           *terms,
                       const WbClaimLine *line)
{
  g_autoptr (WbProposal) proposal = wb_propose_along (terms, self->job, self->trail, line, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (noting); i++)
    {
      gint at = find_earliest (self, proposal, noting[i]);

      if (at >= 0)
        return at;
    }

  return -1;
}

/* Up to which stretch a loss that was noted nowhere can lie. */
static guint
find_last_stretch (const WbSharing *self)
{
  guint n = wb_trail_n_handovers (self->trail);

  for (guint i = n; i > 0; i--)
    {
      const WbHandover *handover = wb_job_nth (self->job, WB_KIND_HANDOVER, i - 1);

      if (handover->kind == WB_HANDOVER_DELIVERY)
        return i - 1;
    }

  return n;
}

/* The first stretch after the last handover before @end at which somebody saw the piece; the
 * inventory itself is the count of the pick-up. */
static guint
find_first_stretch (const WbSharing *self,
                    guint            piece,
                    guint            end)
{
  for (guint i = end; i > 0; i--)
    {
      const WbPass *pass;

      if (i - 1 == 0)
        break;
      pass = i - 1 < wb_trail_n_handovers (self->trail)
             ? wb_trail_pass (self->trail, i - 1, piece) : NULL;
      if (pass != NULL && (pass->state == WB_PASS_COUNTED || pass->state == WB_PASS_OVER))
        return i;
    }

  return MIN (1, end);
}

/* Marks who had the goods in a stretch. Returns: the last of them, or -1. */
static gint
mark_holders (WbSharing    *self,
              guint         stretch_index,
              WbLineShares *out)
{
  const WbStretch *stretch = wb_trail_stretch (self->trail, stretch_index);
  const char *names[] = { stretch->holder, stretch->giver };
  gint last = -1;

  for (gsize i = 0; wb_sharing_is_carriage (stretch) && i < G_N_ELEMENTS (names); i++)
    {
      gint handler = names[i] != NULL ? wb_sharing_add_holder (self, names[i]) : -1;

      if (handler >= 0)
        {
          out->could[handler] = TRUE;
          last = handler;
        }
    }

  return last;
}

guint
wb_sharing_count_could (const WbSharing    *self,
                        const WbLineShares *line)
{
  guint n = 0;

  for (guint i = 0; i < self->handlers->len; i++)
    n += line->could[i] ? 1 : 0;
  return n;
}

/* An exception taken against a warehouse that it did not sign is none: who took the goods from it
 * bears the loss. */
static gboolean
is_unsigned_exception (const WbHandover *handover)
{
  return handover->kind == WB_HANDOVER_OUT_OF_STORAGE && handover->from_signed == NULL;
}

gint
wb_sharing_find_bearer (WbSharing    *self,
                        gint          noted,
                        guint         piece,
                        WbLineShares *out)
{
  guint end = noted >= 0 ? (guint) noted : find_last_stretch (self);
  gint last = -1, after = -1;

  for (guint i = find_first_stretch (self, piece, end); i <= end; i++)
    {
      gint holder = mark_holders (self, i, out);

      last = holder >= 0 ? holder : last;
    }
  if (noted >= 0
      && is_unsigned_exception (wb_job_nth (self->job, WB_KIND_HANDOVER, (guint) noted)))
    after = mark_holders (self, end + 1, out);

  if (after >= 0)
    out->why = WB_SHARED_UNSIGNED;
  else if (last < 0)
    out->why = WB_SHARED_NO_HANDLER;
  else if (noted < 0)
    out->why = WB_SHARED_NOT_NOTED;
  else
    out->why = wb_sharing_count_could (self, out) > 1 ? WB_SHARED_UNCOUNTED : WB_SHARED_NOTED;
  return after >= 0 ? after : last >= 0 ? last : WB_CARRIER;
}
