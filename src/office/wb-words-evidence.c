/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentences of intake and proposals: a table with one for each fact, and what is filled in.
 * Nothing is worked out here. */
#include "config.h"

#include "office/wb-words-evidence.h"

#include "office/wb-words-trail.h"

#include <glib/gi18n.h>
#include <inttypes.h>
#include <string.h>

/* --- intake ----------------------------------------------------------------------------------- */

static const char *const intake_sentences[] = {
  [WB_INTAKE_NOTE] = N_("This is a note of damage and no claim: nothing is paid on it, and the "
                        "time to claim goes on."),
  [WB_INTAKE_NOTICE] = N_("This is a notice. Nothing is paid on it; the claim is still to come in "
                          "time."),
  [WB_INTAKE_INCOMPLETE] = N_("This is not a claim yet; nothing is paid before it is one."),
  [WB_INTAKE_INDEFINITE] = N_("The loss is looked into, but nothing is paid until a definite "
                              "amount is asked for."),
  [WB_INTAKE_CLAIM] = N_("This is a claim: it identifies the shipment, holds the carrier liable "
                         "and asks for a definite amount."),
};

static const char *const gap_sentences[] = {
  /* Translators: {line} is the number of a claim line. */
  [WB_INTAKE_GAP_SHIPMENT] = N_("It does not identify the shipment; ask for the bill of lading or "
                                "its number."),
  [WB_INTAKE_GAP_LIABILITY] = N_("It does not hold the carrier liable; ask whether that is meant."),
  [WB_INTAKE_GAP_AMOUNT] = N_("It asks for no definite amount; ask how much is claimed."),
  [WB_INTAKE_GAP_RECEIVED] = N_("The day on which it was received is not noted; all dates run from "
                                "it."),
  [WB_INTAKE_GAP_OTHER_CLAIM] = N_("Somebody else claims for the piece of line {line}; tell all "
                                   "who claim, and ask for proof of title."),
  [WB_INTAKE_GAP_STATEMENT] = N_("The whole piece of line {line} is missing; a certified statement "
                                 "that it was not received from anywhere else may be asked for."),
};

char *
wb_words_intake (WbIntakeState state)
{
  return g_strdup (_(intake_sentences[state]));
}

char *
wb_words_intake_gap (const WbJob       *job,
                     const WbIntakeGap *gap)
{
  const WbClaimLine *line = gap->kind_of_record == WB_KIND_CLAIM_LINE
                            ? wb_job_find (job, WB_KIND_CLAIM_LINE, gap->record) : NULL;
  g_autofree char *number =
    g_strdup_printf ("%" G_GINT64_FORMAT, line != NULL ? line->number : G_GINT64_CONSTANT (0));
  g_autoptr (GString) out = g_string_new (_(gap_sentences[gap->kind]));

  g_string_replace (out, "{line}", number, 0);
  return g_string_free (g_steal_pointer (&out), FALSE);
}

char *
wb_words_conflict (const WbJob   *job,
                   const WbClaim *claim)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);
      const WbClaim *other = g_strcmp0 (line->claim, claim->record.id) == 0
                             ? wb_intake_find_conflict (job, claim, line) : NULL;

      if (other != NULL)
        /* Translators: a claim number, the claimant, and the number of a line. */
        return g_strdup_printf (_("Claim %s of %s asks for what line %" PRId64 " asks for. "
                                  "Before anything is agreed tell all who claim, and ask each of "
                                  "them for proof of title (49 CFR 370.3(e))."),
                                other->number, other->claimant, line->number);
    }
  return NULL;
}

char *
wb_words_intake_lack (const WbJob   *job,
                      const WbClaim *claim)
{
  g_autoptr (GArray) gaps = NULL;
  WbIntakeState state = wb_intake_look (job, claim, &gaps, NULL);
  g_autoptr (GString) out = NULL;

  if (state == WB_INTAKE_CLAIM)
    return NULL;

  out = g_string_new (_(intake_sentences[state]));
  for (guint i = 0; i < gaps->len; i++)
    {
      const WbIntakeGap *gap = &g_array_index (gaps, WbIntakeGap, i);
      g_autofree char *sentence = gap->bars ? wb_words_intake_gap (job, gap) : NULL;

      if (sentence != NULL)
        g_string_append_printf (out, " %s", sentence);
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/* --- sentences of facts ----------------------------------------------------------------------- */

static const char *const proof_sentences[] = {
  /* Translators: words in braces are filled in; keep them as they are and put them wherever the
   * sentence needs them. {handover} is such as "Residence to vehicle, 1 Mar 2026", {piece} names a
   * tag, {marks} is such as "scratched: front". */
  [WB_PROOF_TOO_LATE] = N_("The claim came after {date}, the last day on which it is paid."),
  [WB_PROOF_LATE] = N_("The claim came after {date}, the last day to claim; the terms look at it "
                       "all the same."),
  [WB_PROOF_LATE_NOTICE] = N_("The loss was reported after {date}, the last day for a notice."),
  [WB_PROOF_NOT_LISTED] = N_("The line names no piece of the inventory. Ask for what shows that it "
                             "was handed over."),
  [WB_PROOF_LIKELY_CARTON] = N_("{piece}, packed by the carrier, lists things like what is "
                                "claimed. If it was in there, put that piece into the line."),
  [WB_PROOF_SHORT] = N_("Found short at this handover and not seen since: {handover}."),
  [WB_PROOF_SEEN_AGAIN] = N_("Short before, and seen again at this handover: {handover}."),
  [WB_PROOF_COUNTED_IN] = N_("Counted at delivery: {handover}."),
  [WB_PROOF_ORIGIN_ALL] = N_("All the damage claimed was noted before the move: {marks}."),
  [WB_PROOF_ORIGIN_PART] = N_("A part of the damage claimed was noted before the move: {marks}."),
  [WB_PROOF_ORIGIN_DOUBT] = N_("Damage of this kind was noted before the move, but not at the same "
                               "place for certain: {marks}."),
  [WB_PROOF_ORIGIN_OTHER] = N_("Noted before the move, and not shown to be what is claimed: "
                               "{marks}."),
  [WB_PROOF_ORIGIN_PHOTO] = N_("A photo from before the move shows it by its pins: {marks}."),
  [WB_PROOF_NEW_SAME] = N_("What is claimed was first noted at {handover}: {marks}."),
  [WB_PROOF_NEW_ANY] = N_("New damage was noted at {handover}: {marks}."),
  [WB_PROOF_NEW_OTHER] = N_("Other new damage than is claimed was noted at {handover}: {marks}."),
  [WB_PROOF_GIVER_UNSIGNED] = N_("Nobody signed for the one who gave the goods, so the exception "
                                 "may not count against that one: {handover}."),
  [WB_PROOF_OWNER_SOUND] = N_("The owner packed it, and no damage to the carton is noted."),
  [WB_PROOF_OWNER_HURT] = N_("The owner packed it, but the carton was damaged on the way: "
                             "{handover}. Bad packing was not the only cause."),
  [WB_PROOF_CARRIER_SOUND] = N_("The carrier packed it, and no damage to the carton is noted: what "
                                "broke inside broke in the carrier’s hands or by its packing."),
  [WB_PROOF_PACKER_UNKNOWN] = N_("Who packed it is not noted. Ask the packer’s list or the crew."),
  [WB_PROOF_RULE_UNMET] = N_("A packing rule was found not to be kept: {rule}."),
  [WB_PROOF_RULES_MET] = N_("The packing rules that were looked at were kept."),
  [WB_PROOF_CONTENTS_RELATED] = N_("The thing claimed fits what the carton lists."),
  [WB_PROOF_CONTENTS_UNRELATED] = N_("The thing claimed does not fit what the carton lists. Ask "
                                     "for what shows that it was in there."),
  [WB_PROOF_CONTENTS_UNWRITTEN] = N_("Nobody wrote what the carton holds."),
  [WB_PROOF_NO_COUNT] = N_("The inventory lists it in the plural without a number, so it covers "
                           "those that are missing."),
  [WB_PROOF_INTERNAL] = N_("It is a thing that has to work, with no damage outside; damage inside "
                           "may come from the way."),
  [WB_PROOF_MILDEW] = N_("Mildew: where it came from has to be shown, not said."),
  [WB_PROOF_SIGNED_CLEAN] = N_("Signed for at delivery with nothing noted about it: {handover}. "
                               "That releases nobody, but it is evidence."),
  [WB_PROOF_RECEIPT_UNSIGNED] = N_("Nobody signed for it at delivery: {handover}."),
  [WB_PROOF_NO_DELIVERY] = N_("No delivery is noted."),
  [WB_PROOF_UNCOUNTED] = N_("Nobody counted it at this handover: {handover}."),
  [WB_PROOF_ACT_OF_GOD] = N_("The notes speak of an act of God; the carrier has to prove it, and "
                             "that it took care."),
  [WB_PROOF_PUBLIC_ENEMY] = N_("The notes speak of a public enemy; the carrier has to prove it, "
                               "and that it took care."),
  [WB_PROOF_ACT_OF_SHIPPER] = N_("The owner had a hand in it, for it was the owner who took it "
                                 "apart; the carrier has to prove that the loss came from that."),
  [WB_PROOF_PUBLIC_AUTHORITY] = N_("The notes speak of an act of public authority; the carrier has "
                                   "to prove it, and that it took care."),
  [WB_PROOF_INHERENT_VICE] = N_("The notes speak of the nature of the goods; the carrier has to "
                                "prove it, and that it took care."),
  [WB_PROOF_PHOTOS_BOTH] = N_("There are photos from before the move and from after it: compare "
                              "them."),
  [WB_PROOF_PHOTOS_BEFORE] = N_("There is a photo from before the move, and none from after it."),
  [WB_PROOF_PHOTOS_AFTER] = N_("There is a photo from after the move, and none from before it."),
  [WB_PROOF_WEIGHT_THING] = N_("The weight is that of the thing itself: {weight}."),
  [WB_PROOF_WEIGHT_PIECE] = N_("The weight is that of the piece: {weight}."),
  [WB_PROOF_WEIGHT_VOLUME] = N_("No weight is noted, but a volume: {volume}."),
  [WB_PROOF_WEIGHT_NONE] = N_("No weight is noted."),
  [WB_PROOF_SET] = N_("It is one of a pair or set: {set}. See whether the others are owed too."),
  [WB_PROOF_PARTS] = N_("It is a part of one article: {article}."),
  [WB_PROOF_VALUE_LISTED] = N_("It is on the signed list of valuable articles, at {listed}."),
  [WB_PROOF_VALUE_UNLISTED] = N_("It is worth more than the rate for extraordinary value, and on "
                                 "no signed list."),
  [WB_PROOF_NOTHING] = N_("The papers do not say what happened to it."),
};
G_STATIC_ASSERT (G_N_ELEMENTS (proof_sentences) == WB_N_PROOF_RULES);

/* --- filling in ------------------------------------------------------------------------------- */

static char *
words_of_marks (const char *marks)
{
  char *words = marks != NULL ? wb_words_marks (marks, NULL) : NULL;

  return words != NULL ? words : g_strdup (marks != NULL ? marks : "–");
}

static char *
words_of_handover (const WbJob *job,
                   const char  *id)
{
  const WbHandover *handover = wb_job_find (job, WB_KIND_HANDOVER, id);

  return handover != NULL ? wb_words_handover (handover) : g_strdup ("–");
}

/* Returns: (transfer full) (nullable): the value of a field of the record that a fact rests on. */
static char *
words_of_field (const WbProposal *proposal,
                const WbProof    *proof,
                WbKind            kind,
                const char       *name)
{
  gconstpointer record = proof->has_record && proof->kind == kind
                         ? wb_job_find (proposal->job, kind, proof->record) : NULL;

  if (record == NULL)
    return NULL;
  return wb_words_value (record, wb_record_type_field (wb_record_type (kind), name));
}

static char *
words_of_weight (const WbProposal *proposal,
                 const WbProof    *proof)
{
  char *words = words_of_field (proposal, proof, WB_KIND_CLAIM_LINE, "weight");

  return words != NULL ? words : words_of_field (proposal, proof, WB_KIND_PIECE, "weight");
}

static char *
words_of_piece (const WbProposal *proposal,
                const WbProof    *proof)
{
  const WbPiece *piece = proof->has_record && proof->kind == WB_KIND_PIECE
                         ? wb_job_find (proposal->job, WB_KIND_PIECE, proof->record) : NULL;

  return piece != NULL ? wb_words_tag (proposal->job, piece) : NULL;
}

static char *
words_of_name (const WbProposal *proposal,
               const WbProof    *proof,
               const char       *name)
{
  if (g_str_equal (name, "date"))
    return wb_words_date (&proof->date);
  if (g_str_equal (name, "marks"))
    return words_of_marks (proof->marks);
  if (g_str_equal (name, "handover"))
    return words_of_handover (proposal->job, proof->handover);
  if (g_str_equal (name, "piece"))
    return words_of_piece (proposal, proof);
  if (g_str_equal (name, "weight"))
    return words_of_weight (proposal, proof);
  if (g_str_equal (name, "rule"))
    return words_of_field (proposal, proof, WB_KIND_PACKING_CHECK, "rule");
  if (g_str_equal (name, "listed"))
    return words_of_field (proposal, proof, WB_KIND_PIECE, "listed_value");
  return words_of_field (proposal, proof, WB_KIND_PIECE, name);
}

char *
wb_words_proof (const WbProposal *proposal,
                const WbProof    *proof)
{
  const char *sentence;
  GString *out;

  g_return_val_if_fail (proposal != NULL, NULL);
  g_return_val_if_fail (proof != NULL, NULL);

  sentence = _(proof_sentences[proof->rule]);
  out = g_string_new (NULL);
  while (*sentence != '\0')
    {
      gsize plain = strcspn (sentence, "{");
      const char *close = strchr (sentence + plain, '}');

      g_string_append_len (out, sentence, (gssize) plain);
      sentence += plain;
      if (*sentence == '{' && close != NULL)
        {
          g_autofree char *name = g_strndup (sentence + 1, (gsize) (close - sentence) - 1);
          g_autofree char *words = words_of_name (proposal, proof, name);

          g_string_append (out, words != NULL ? words : "–");
          sentence = close + 1;
        }
      else if (*sentence == '{')
        {
          g_string_append_c (out, *sentence++);
        }
    }
  return g_string_free (out, FALSE);
}

char *
wb_words_proof_source (const WbProof *proof)
{
  switch (proof->checked)
    {
    case WB_CHECKED_NONE:
      return NULL;

    case WB_CHECKED_SEEN:
    case WB_CHECKED_TERMS:
      return g_strdup (proof->citation);

    case WB_CHECKED_PRACTICE:
    case WB_CHECKED_MEMORY:
      if (proof->citation == NULL)
        return g_strdup (wb_words_enum (&wb_checked, (int) proof->checked));
      /* Translators: what a fact rests on in law, and how far that was looked up. */
      return g_strdup_printf (_("%s (%s)"), proof->citation,
                              wb_words_enum (&wb_checked, (int) proof->checked));
    }

  g_assert_not_reached ();
}

char *
wb_words_proposal (const WbProposal *proposal)
{
  const char *verdict = wb_words_enum (&wb_verdicts, (int) proposal->verdict);
  g_autofree char *noted = NULL;
  g_autofree char *since = NULL;

  if (proposal->noted_at != NULL)
    noted = words_of_handover (proposal->job, proposal->noted_at);
  if (proposal->since != NULL)
    since = words_of_handover (proposal->job, proposal->since);

  if (noted != NULL && since != NULL)
    /* Translators: a verdict, the handover at which a loss was first noted, and the one before. */
    return g_strdup_printf (_("Proposed: %s. First noted at %s; the handover before was %s."),
                            verdict, noted, since);
  if (noted != NULL)
    /* Translators: a verdict, and the handover at which the damage was first noted. */
    return g_strdup_printf (_("Proposed: %s. First noted at %s."), verdict, noted);
  if (since != NULL)
    /* Translators: a verdict, and the handover by which the goods were taken over. */
    return g_strdup_printf (_("Proposed: %s. Noted at no handover since %s."), verdict, since);
  return g_strdup_printf (_("Proposed: %s."), verdict);
}
