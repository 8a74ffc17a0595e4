/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-tag-ranges.h"

G_BEGIN_DECLS

/* The trail of a job: who held the goods when, and what each handover says about each piece. Made
 * from the records as they stand, judges nothing and changes nothing; counting itself is in
 * wb-count.h. */

/** What one handover says about one piece. */
typedef enum
{
  WB_PASS_AS_LISTED,    /* nobody counted: taken as handed over in good order */
  WB_PASS_COUNTED,      /* counted off, or found present */
  WB_PASS_SHORT,
  WB_PASS_OVER,
  WB_PASS_NOT_COUNTED,  /* the count has not come to it, or passed over it */
} WbPassState;

extern const WbEnum wb_pass_states;

/**
 * WbPass:
 * @missing: short at an earlier handover and not seen since; a handover that nobody counted does
 *   not bring a piece back
 * @reappeared: short before, and seen here
 * @finding: (nullable): the last one that this handover has for the piece
 * @known_marks: (nullable): canonical text of what was noted before this handover
 * @noted_marks: (nullable): of what was noted at it
 * @new_marks: (nullable): of what is new in that: see wb_marks_find_new()
 */
typedef struct
{
  WbPassState      state;
  gboolean         missing;
  gboolean         reappeared;
  const WbFinding *finding;
  char            *known_marks;
  char            *noted_marks;
  char            *new_marks;
} WbPass;

/** WbStray: tags of @lot (nullable: of none) that were counted though no piece has them. */
typedef struct
{
  const WbLot *lot;
  GArray      *tags;        /* of WbTagRange */
} WbStray;

/**
 * WbHandoverFacts:
 * @n_pieces: pieces on the inventory
 * @n_counted: of them, those found here: counted, present or over
 * @left: (element-type WbPiece): not counted yet; empty when nobody counts
 * @shortages: (element-type WbPiece): with a finding that says so
 * @overages: (element-type WbPiece): pieces found over
 * @reappeared: (element-type WbPiece): short before and seen here
 * @marked: (element-type WbPiece): with marks that are new here
 * @strays: (element-type WbStray): counted tags that no piece has
 * @n_strays: how many tags those are
 * @unreadable: (nullable): the first tally of it whose tags do not read
 * @from_unsigned: nobody signed for the giver; @to_unsigned for the receiver
 * @undated: it has no date
 * @earlier_than: a handover before it in the job that is dated later; or -1
 * @giver_differs: the giver is not who received the goods at the handover before
 */
typedef struct
{
  const WbHandover *handover;
  guint             n_pieces;
  guint             n_counted;
  GPtrArray        *left;
  GPtrArray        *shortages;
  GPtrArray        *overages;
  GPtrArray        *reappeared;
  GPtrArray        *marked;
  GPtrArray        *strays;
  gint64            n_strays;
  const WbTally    *unreadable;
  gboolean          from_unsigned;
  gboolean          to_unsigned;
  gboolean          undated;
  gint              earlier_than;
  gboolean          giver_differs;
} WbHandoverFacts;

/** Where goods are between two handovers. */
typedef enum
{
  WB_HOLD_UNKNOWN,
  WB_HOLD_ORIGIN,       /* at the residence, before the first handover */
  WB_HOLD_VEHICLE,
  WB_HOLD_WAREHOUSE,
  WB_HOLD_DESTINATION,  /* at the residence, delivered */
} WbHold;

extern const WbEnum wb_holds;

/**
 * WbStretch:
 * @holder: (nullable): who received the goods, or, when that was not noted, who gave them on
 * @place: (nullable): where they came to be held
 * @vehicle: (nullable)
 * @from: date of the handover that began it; unset for the first and when that has none
 * @to: date of the handover that ended it; unset for the last
 * @giver: (nullable): who gave the goods on when that is somebody else than @holder
 *
 * What lies between two handovers: stretch 0 before the first, stretch i + 1 after handover i.
 */
typedef struct
{
  WbHold      hold;
  const char *holder;
  const char *place;
  const char *vehicle;
  GDate       from;
  GDate       to;
  const char *giver;
} WbStretch;

typedef enum
{
  WB_STAND_NOT_PICKED_UP,
  WB_STAND_HELD,
  WB_STAND_DELIVERED,
  WB_STAND_MISSING,
} WbStand;

extern const WbEnum wb_stands;

/**
 * WbWhereabouts:
 * @stretch: the stretch that it is in, or for a missing piece the last that it was seen in
 * @seen_at: the last handover that it passed; or -1
 * @short_at: when missing, the first handover since that found it short; else -1
 * @pending: a later handover whose count has not come to it; or -1
 */
typedef struct
{
  WbStand stand;
  guint   stretch;
  gint    seen_at;
  gint    short_at;
  gint    pending;
} WbWhereabouts;

typedef struct _WbTrail WbTrail;

/** Returns: (transfer full): the trail of @job, which it keeps. What its functions return belongs
 * to it or to the job. */
WbTrail               *wb_trail_new          (WbJob         *job) G_GNUC_WARN_UNUSED_RESULT;
void                   wb_trail_free         (WbTrail       *self);

guint                  wb_trail_n_handovers  (const WbTrail *self);
const WbHandoverFacts *wb_trail_handover     (const WbTrail *self,
                                              guint          handover);
/** @handover and @piece are places in the job's order. */
const WbPass          *wb_trail_pass         (const WbTrail *self,
                                              guint          handover,
                                              guint          piece);
/** One more than there are handovers. */
guint                  wb_trail_n_stretches  (const WbTrail *self);
const WbStretch       *wb_trail_stretch      (const WbTrail *self,
                                              guint          stretch);
WbWhereabouts          wb_trail_whereabouts  (const WbTrail *self,
                                              guint          piece);

/** Whether two names mean one holder: alike but for case and blanks. %NULL is nobody's name. */
gboolean               wb_trail_same_holder  (const char    *a,
                                              const char    *b);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTrail, wb_trail_free)

G_END_DECLS
