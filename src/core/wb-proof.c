/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The facts that evidence can hold, as one table: the verdict that each speaks for, how strongly,
 * and the source. Which of them a line has is found elsewhere (wb-proposal.c and the files that its
 * private header names). */
#include "config.h"

#include "core/wb-proposal-private.h"

#define N_(text) text

/* Sources more than one row names. "digest" is the yearly digest of the claims appeals board. */
#define CUSTODY "DOHA digests 2001, 2005, 2006: no exception sheet at a change of custody"
#define CARTON  "32 CFR 751.31(b) (2005 edition)"
#define DEFENCE "Common-law defences of a carrier; the carrier proves the cause and its own care"

typedef struct
{
  WbVerdict   verdict;
  guint       strength;
  WbChecked   checked;
  const char *citation;     /* NULL with WB_CHECKED_TERMS: the terms have it */
} ProofRow;

static const WbEnumValue rule_values[] = {
  { WB_PROOF_TOO_LATE, "too-late", N_("Claimed too late") },
  { WB_PROOF_LATE, "late", N_("Claimed late") },
  { WB_PROOF_LATE_NOTICE, "late-notice", N_("Reported late") },
  { WB_PROOF_NOT_LISTED, "not-listed", N_("Not on the inventory") },
  { WB_PROOF_LIKELY_CARTON, "likely-carton", N_("A carton lists things like it") },
  { WB_PROOF_SHORT, "short", N_("Missing at a count") },
  { WB_PROOF_SEEN_AGAIN, "seen-again", N_("Short once, seen again") },
  { WB_PROOF_COUNTED_IN, "counted-in", N_("Counted at delivery") },
  { WB_PROOF_ORIGIN_ALL, "origin-all", N_("Noted before the pick-up") },
  { WB_PROOF_ORIGIN_PART, "origin-part", N_("In part noted before") },
  { WB_PROOF_ORIGIN_DOUBT, "origin-doubt", N_("Perhaps noted before") },
  { WB_PROOF_ORIGIN_OTHER, "origin-other", N_("Other marks noted before") },
  { WB_PROOF_ORIGIN_PHOTO, "origin-photo", N_("On a photo from before") },
  { WB_PROOF_NEW_SAME, "new-same", N_("First noted at a handover") },
  { WB_PROOF_NEW_ANY, "new-any", N_("New damage noted at a handover") },
  { WB_PROOF_NEW_OTHER, "new-other", N_("Other new damage noted") },
  { WB_PROOF_GIVER_UNSIGNED, "giver-unsigned", N_("Exception not signed by the giver") },
  { WB_PROOF_OWNER_SOUND, "owner-sound", N_("Packed by the owner, carton sound") },
  { WB_PROOF_OWNER_HURT, "owner-hurt", N_("Packed by the owner, carton damaged") },
  { WB_PROOF_CARRIER_SOUND, "carrier-sound", N_("Packed by the carrier, carton sound") },
  { WB_PROOF_PACKER_UNKNOWN, "packer-unknown", N_("Packer not noted") },
  { WB_PROOF_RULE_UNMET, "rule-unmet", N_("A packing rule was not kept") },
  { WB_PROOF_RULES_MET, "rules-met", N_("Packing rules were kept") },
  { WB_PROOF_CONTENTS_RELATED, "contents-related", N_("Fits the contents listed") },
  { WB_PROOF_CONTENTS_UNRELATED, "contents-unrelated", N_("Does not fit the contents listed") },
  { WB_PROOF_CONTENTS_UNWRITTEN, "contents-unwritten", N_("Contents not listed") },
  { WB_PROOF_NO_COUNT, "no-count", N_("Listed without a number") },
  { WB_PROOF_INTERNAL, "internal", N_("Damage inside a working thing") },
  { WB_PROOF_MILDEW, "mildew", N_("Mildew") },
  { WB_PROOF_SIGNED_CLEAN, "signed-clean", N_("Signed for without exception") },
  { WB_PROOF_RECEIPT_UNSIGNED, "receipt-unsigned", N_("Delivery not signed for") },
  { WB_PROOF_NO_DELIVERY, "no-delivery", N_("No delivery noted") },
  { WB_PROOF_UNCOUNTED, "uncounted", N_("A handover without a count") },
  { WB_PROOF_ACT_OF_GOD, "act-of-god", N_("Act of God") },
  { WB_PROOF_PUBLIC_ENEMY, "public-enemy", N_("Public enemy") },
  { WB_PROOF_ACT_OF_SHIPPER, "act-of-shipper", N_("Act of the shipper") },
  { WB_PROOF_PUBLIC_AUTHORITY, "public-authority", N_("Act of public authority") },
  { WB_PROOF_INHERENT_VICE, "inherent-vice", N_("Nature of the goods") },
  { WB_PROOF_PHOTOS_BOTH, "photos-both", N_("Photos from before and after") },
  { WB_PROOF_PHOTOS_BEFORE, "photos-before", N_("Photos from before only") },
  { WB_PROOF_PHOTOS_AFTER, "photos-after", N_("Photos from after only") },
  { WB_PROOF_WEIGHT_THING, "weight-thing", N_("Weight of the thing itself") },
  { WB_PROOF_WEIGHT_PIECE, "weight-piece", N_("Weight of the piece") },
  { WB_PROOF_WEIGHT_VOLUME, "weight-volume", N_("Volume, and no weight") },
  { WB_PROOF_WEIGHT_NONE, "weight-none", N_("No weight") },
  { WB_PROOF_SET, "set", N_("One of a pair or set") },
  { WB_PROOF_PARTS, "parts", N_("Part of an article") },
  { WB_PROOF_VALUE_LISTED, "value-listed", N_("On the signed list of values") },
  { WB_PROOF_VALUE_UNLISTED, "value-unlisted", N_("Of extraordinary value, not listed") },
  { WB_PROOF_NOTHING, "nothing", N_("The papers do not say") },
};
const WbEnum wb_proof_rules = { "fact", rule_values, G_N_ELEMENTS (rule_values) };

static const WbEnumValue checked_values[] = {
  { WB_CHECKED_NONE, "none", N_("A plain statement of the records") },
  { WB_CHECKED_SEEN, "seen", N_("Read in the source") },
  { WB_CHECKED_TERMS, "terms", N_("Cited by the terms") },
  { WB_CHECKED_PRACTICE, "practice", N_("Common practice, no source") },
  { WB_CHECKED_MEMORY, "memory", N_("From memory, not looked up") },
};
const WbEnum wb_checked = { "check of a source", checked_values, G_N_ELEMENTS (checked_values) };

static const WbEnumValue bearings[] = {
  { WB_BEARING_DECIDES, "decides", N_("Decides") },
  { WB_BEARING_AGAINST, "against", N_("Speaks against it") },
  { WB_BEARING_SUPPORTS, "supports", N_("Supports it") },
  { WB_BEARING_INFORMS, "informs", N_("To be known") },
};
const WbEnum wb_bearings = { "bearing", bearings, G_N_ELEMENTS (bearings) };

/* The strengths put the facts in one order; only that order matters. A date or a missing entry of
 * the inventory goes before what was seen, a count before a mark, a mark that fits what is claimed
 * before one that may, and what was noted before what was not. */
static const ProofRow rows[] = {
  [WB_PROOF_TOO_LATE] = { WB_VERDICT_TOO_LATE, 100, WB_CHECKED_TERMS, NULL },
  [WB_PROOF_LATE] = { WB_VERDICT_NONE, 0, WB_CHECKED_TERMS, NULL },
  [WB_PROOF_LATE_NOTICE] = { WB_VERDICT_NONE, 0, WB_CHECKED_TERMS, NULL },
  [WB_PROOF_NOT_LISTED] = { WB_VERDICT_NOT_LISTED, 95, WB_CHECKED_SEEN,
    "49 CFR 375.503(a); DOHA digest 2001: what is not listed needs evidence from personal "
    "knowledge" },
  [WB_PROOF_LIKELY_CARTON] = { WB_VERDICT_UNDECIDED, 96, WB_CHECKED_SEEN,
    "DOHA 23 Dec 1997, 21 Sep 2000: reasonably related to the contents listed" },
  [WB_PROOF_SHORT] = { WB_VERDICT_MISSING_AT_COUNT, 90, WB_CHECKED_SEEN,
    "49 CFR 375.503(d); " CUSTODY },
  [WB_PROOF_SEEN_AGAIN] = { WB_VERDICT_SIGNED_CLEAN, 62, WB_CHECKED_NONE, NULL },
  [WB_PROOF_COUNTED_IN] = { WB_VERDICT_SIGNED_CLEAN, 64, WB_CHECKED_SEEN, "49 CFR 375.503(d)" },
  [WB_PROOF_ORIGIN_ALL] = { WB_VERDICT_ALREADY_THERE, 72, WB_CHECKED_SEEN,
    "GAO B-193182: no case where it remains in real doubt that damage is new" },
  [WB_PROOF_ORIGIN_PART] = { WB_VERDICT_ALREADY_THERE, 40, WB_CHECKED_SEEN,
    "DOHA 27 Nov 1996: old damage repaired along with it cuts nothing unless its own cost can "
    "be told" },
  [WB_PROOF_ORIGIN_DOUBT] = { WB_VERDICT_UNDECIDED, 53, WB_CHECKED_SEEN,
    "GAO B-193182: no case where it remains in real doubt that damage is new" },
  [WB_PROOF_ORIGIN_OTHER] = { WB_VERDICT_NONE, 0, WB_CHECKED_NONE, NULL },
  [WB_PROOF_ORIGIN_PHOTO] = { WB_VERDICT_ALREADY_THERE, 71, WB_CHECKED_PRACTICE, NULL },
  [WB_PROOF_NEW_SAME] = { WB_VERDICT_NEW, 80, WB_CHECKED_SEEN,
    "49 CFR 375.503(d); 49 USC 14706(a)(1)" },
  [WB_PROOF_NEW_ANY] = { WB_VERDICT_NEW, 60, WB_CHECKED_SEEN,
    "GAO B-244701 (1992): a claim is not confined to the damage that a notice describes" },
  [WB_PROOF_NEW_OTHER] = { WB_VERDICT_NEW, 35, WB_CHECKED_SEEN,
    "GAO B-244701 (1992): a claim is not confined to the damage that a notice describes" },
  [WB_PROOF_GIVER_UNSIGNED] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN,
    "32 CFR 751.31(a) (2005 edition): exceptions count when the warehouse signed them" },
  [WB_PROOF_OWNER_SOUND] = { WB_VERDICT_OWNER_PACKED, 70, WB_CHECKED_MEMORY,
    "Common law: act of the shipper. But see " CARTON ", which holds the carrier unless bad "
    "packing was the sole cause" },
  [WB_PROOF_OWNER_HURT] = { WB_VERDICT_NEW, 74, WB_CHECKED_SEEN,
    "GAO B-252430 (1993): bad packing must be the sole cause" },
  [WB_PROOF_CARRIER_SOUND] = { WB_VERDICT_NEW, 58, WB_CHECKED_SEEN,
    CARTON ": taken in good order; liable unless bad packing was the sole cause" },
  [WB_PROOF_PACKER_UNKNOWN] = { WB_VERDICT_UNDECIDED, 34, WB_CHECKED_SEEN, CARTON },
  [WB_PROOF_RULE_UNMET] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN,
    "GAO B-252430 (1993): bad packing must be the sole cause" },
  [WB_PROOF_RULES_MET] = { WB_VERDICT_NONE, 0, WB_CHECKED_NONE, NULL },
  [WB_PROOF_CONTENTS_RELATED] = { WB_VERDICT_NEW, 57, WB_CHECKED_SEEN,
    "DOHA 23 Dec 1997, 21 Sep 2000, digest 2001: reasonably related to the contents listed" },
  [WB_PROOF_CONTENTS_UNRELATED] = { WB_VERDICT_UNDECIDED, 59, WB_CHECKED_SEEN,
    "DOHA digest 2001: what is not listed needs evidence from personal knowledge" },
  [WB_PROOF_CONTENTS_UNWRITTEN] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN,
    "DOHA 23 Dec 1997: the carrier wrote the list" },
  [WB_PROOF_NO_COUNT] = { WB_VERDICT_NEW, 54, WB_CHECKED_SEEN,
    "DOHA digest 2001: “table legs” without a number covers those missing" },
  [WB_PROOF_INTERNAL] = { WB_VERDICT_NEW, 52, WB_CHECKED_SEEN,
    "DOHA digest 2006: liability is presumed when it fits rough handling" },
  [WB_PROOF_MILDEW] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN,
    "32 CFR 751.31(c) (2005 edition): to say that it came about in storage rebuts nothing" },
  [WB_PROOF_SIGNED_CLEAN] = { WB_VERDICT_SIGNED_CLEAN, 50, WB_CHECKED_SEEN,
    "49 CFR 375.503(d), 375.701: a receipt releases nobody from liability" },
  [WB_PROOF_RECEIPT_UNSIGNED] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN,
    "49 CFR 375.503(d), 375.701" },
  [WB_PROOF_NO_DELIVERY] = { WB_VERDICT_NONE, 0, WB_CHECKED_NONE, NULL },
  [WB_PROOF_UNCOUNTED] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN,
    CUSTODY ": the last handler is presumed liable" },
  [WB_PROOF_ACT_OF_GOD] = { WB_VERDICT_DEFENCE, 75, WB_CHECKED_MEMORY, DEFENCE },
  [WB_PROOF_PUBLIC_ENEMY] = { WB_VERDICT_DEFENCE, 75, WB_CHECKED_MEMORY, DEFENCE },
  [WB_PROOF_ACT_OF_SHIPPER] = { WB_VERDICT_DEFENCE, 75, WB_CHECKED_MEMORY, DEFENCE },
  [WB_PROOF_PUBLIC_AUTHORITY] = { WB_VERDICT_DEFENCE, 75, WB_CHECKED_MEMORY, DEFENCE },
  [WB_PROOF_INHERENT_VICE] = { WB_VERDICT_DEFENCE, 75, WB_CHECKED_MEMORY, DEFENCE },
  [WB_PROOF_PHOTOS_BOTH] = { WB_VERDICT_NONE, 0, WB_CHECKED_NONE, NULL },
  [WB_PROOF_PHOTOS_BEFORE] = { WB_VERDICT_NONE, 0, WB_CHECKED_NONE, NULL },
  [WB_PROOF_PHOTOS_AFTER] = { WB_VERDICT_NONE, 0, WB_CHECKED_NONE, NULL },
  [WB_PROOF_WEIGHT_THING] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN,
    "GAO B-159274 (1967): the weight of the part lost or damaged" },
  [WB_PROOF_WEIGHT_PIECE] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN,
    "GAO B-213836: the weight of the container may stand for its contents" },
  [WB_PROOF_WEIGHT_VOLUME] = { WB_VERDICT_NONE, 0, WB_CHECKED_NONE, NULL },
  [WB_PROOF_WEIGHT_NONE] = { WB_VERDICT_NONE, 0, WB_CHECKED_NONE, NULL },
  [WB_PROOF_SET] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN,
    "GAO B-266119 (1996): a matching set may have to be done as a whole" },
  [WB_PROOF_PARTS] = { WB_VERDICT_NONE, 0, WB_CHECKED_NONE, NULL },
  [WB_PROOF_VALUE_LISTED] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN, "49 CFR 375.203(c)" },
  [WB_PROOF_VALUE_UNLISTED] = { WB_VERDICT_NONE, 0, WB_CHECKED_SEEN, "49 CFR 375.203(b)" },
  [WB_PROOF_NOTHING] = { WB_VERDICT_UNDECIDED, 1, WB_CHECKED_NONE, NULL },
};
G_STATIC_ASSERT (G_N_ELEMENTS (rows) == WB_N_PROOF_RULES);

WbProof *
wb_proof_new (WbProofRule rule)
{
  WbProof *self = g_new0 (WbProof, 1);

  self->rule = rule;
  self->verdict = rows[rule].verdict;
  self->strength = rows[rule].strength;
  self->citation = rows[rule].citation;
  self->checked = rows[rule].checked;
  return self;
}

void
wb_proof_free (gpointer proof)
{
  WbProof *self = proof;

  g_free (self->marks);
  g_free (self);
}

guint
wb_proof_strength (WbProofRule rule)
{
  return rows[rule].strength;
}
