/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* Two people changed one job apart from each other: what each did since the version that both
 * started from, and one job of it all. Pure.
 *
 * It goes record by record and field by field over the field tables. What only one side did is
 * taken; where both did something that cannot stand together, somebody has to choose, and until
 * then there is no result. Nothing is dropped in silence: a value that a side gave is in the
 * result, or a choice put another in its place. */

/** Whose value. Of a whole record that one side removed, choosing that side removes it. */
typedef enum
{
  WB_MERGE_UNDECIDED,
  WB_MERGE_MINE,
  WB_MERGE_THEIRS,
} WbMergeChoice;

typedef enum
{
  WB_MERGE_ONLY_MINE,
  WB_MERGE_ONLY_THEIRS,
  WB_MERGE_BOTH_SAME,
  WB_MERGE_CONFLICT,
} WbMergeSide;

/**
 * WbMergeWhat:
 * @WB_MERGE_FIELD: one field of a record that both sides have
 * @WB_MERGE_RECORD: a whole record that was added or removed
 * @WB_MERGE_ORDER: the order of all records of a kind
 * @WB_MERGE_CLASH: two records, one of each side, that cannot both have what stands in the field:
 *   the same line of a claim, the same tag, the same finding twice. Always a conflict. Whoever is
 *   chosen keeps it; what becomes of the other is said by #WbMergeYield.
 */
typedef enum
{
  WB_MERGE_FIELD,
  WB_MERGE_RECORD,
  WB_MERGE_ORDER,
  WB_MERGE_CLASH,
} WbMergeWhat;

/**
 * WbMergeYield:
 * @WB_MERGE_YIELD_NUMBER: gets the next free number
 * @WB_MERGE_YIELD_TEXT: gets "-2", "-3" … after its text
 * @WB_MERGE_YIELD_EMPTY: the field becomes not given
 * @WB_MERGE_YIELD_GOES: is left out as a whole
 *
 * What happens to the record that does not keep what two cannot both have.
 */
typedef enum
{
  WB_MERGE_YIELD_NUMBER,
  WB_MERGE_YIELD_TEXT,
  WB_MERGE_YIELD_EMPTY,
  WB_MERGE_YIELD_GOES,
} WbMergeYield;

/**
 * WbMergeItem:
 * @id: (nullable): of the record; of a clash, of mine; %NULL for an order
 * @field: (nullable): of a field or a clash
 * @base: (nullable): the record as both had it; %NULL when it was not there, or not known
 * @mine: (nullable): as the one side has it; %NULL when it is not there
 * @theirs: (nullable): as the other has it; of a clash, the other record
 * @user: (nullable): for a record that one side removed: a record of the other side, added or
 *   changed there, that points to it
 * @yield: of a clash
 * @group: items of one group are chosen together, since they only have a meaning together: an
 *   amount and what was signed for it, all shares of one line, a claim and what belongs to it. 0
 *   for an item that stands alone.
 * @choice: of a conflict
 *
 * One difference. The records belong to the merged jobs.
 */
typedef struct
{
  WbMergeWhat     what;
  WbMergeSide     side;
  WbKind          kind;
  const char     *id;
  const WbField  *field;
  const WbRecord *base;
  const WbRecord *mine;
  const WbRecord *theirs;
  const WbRecord *user;
  WbMergeYield    yield;
  guint           group;
  WbMergeChoice   choice;
} WbMergeItem;

typedef struct _WbMerge WbMerge;

/**
 * wb_merge_new:
 * @base: (nullable): the version that both sides started from; %NULL when it is not known. Then
 *   whatever differs is a conflict, and what only one side has is kept.
 * @mine: a job that passes wb_job_check(), as the other two
 *
 * Returns: (transfer full) (nullable): what both did; %NULL with %WB_CORE_ERROR_RANGE when they are
 * not one job, or %WB_CORE_ERROR_CURRENCY when they are kept in different currencies.
 */
WbMerge           *wb_merge_new          (WbJob         *base,
                                          WbJob         *mine,
                                          WbJob         *theirs,
                                          GError       **error) G_GNUC_WARN_UNUSED_RESULT;
void               wb_merge_free         (WbMerge       *self);

/** Returns: how many differences there are; by kind, within a kind record by record, then order
 * and clashes. */
guint              wb_merge_count        (const WbMerge *self);
/** Returns: (transfer none): valid as long as @self; its choice changes with wb_merge_choose(). */
const WbMergeItem *wb_merge_nth          (const WbMerge *self,
                                          guint          index);

/** Returns: (transfer full): the canonical text of the item's field as @whose side has it; "" when
 * it is not given there. For base give %WB_MERGE_UNDECIDED. Only for a field or a clash. */
char              *wb_merge_item_text    (const WbMergeItem *item,
                                          WbMergeChoice  whose) G_GNUC_WARN_UNUSED_RESULT;

/** Decides conflict @index and all of its group; may be called again. %WB_MERGE_UNDECIDED takes a
 * choice back. */
void               wb_merge_choose       (WbMerge       *self,
                                          guint          index,
                                          WbMergeChoice  choice);

/** Returns: conflicts without a choice. */
guint              wb_merge_n_undecided  (const WbMerge *self);

/**
 * wb_merge_result:
 *
 * The job of both sides, with the revision of mine. Where a record that was chosen to go is still
 * named by one that stays, that field becomes not given; a record that cannot be without it goes
 * too. The same two jobs with the same choices give the same job, whoever merges.
 *
 * Returns: (transfer full) (nullable): a job that passes wb_job_check(); %NULL with
 * %WB_CORE_ERROR_MISSING while a conflict is undecided, or with what wb_job_check() says.
 */
WbJob             *wb_merge_result       (const WbMerge *self,
                                          GError       **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbMerge, wb_merge_free)

G_END_DECLS
