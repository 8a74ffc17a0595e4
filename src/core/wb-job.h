/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-entities.h"

G_BEGIN_DECLS

/* A job file as one immutable value: its order and valuation and, for every other kind, the ordered
 * records. An edit gives a new job that shares everything it did not change, so that undo is a list
 * of jobs and a save is a difference between two. */

typedef struct _WbJob WbJob;

#define WB_TYPE_JOB (wb_job_get_type ())
GType       wb_job_get_type      (void);

/** Returns: (transfer full): an empty job. @id as a record's id; @currency a known ISO 4217
 * code. */
WbJob      *wb_job_new           (const char   *id,
                                  const char   *currency) G_GNUC_WARN_UNUSED_RESULT;
WbJob      *wb_job_ref           (WbJob        *self);
void        wb_job_unref         (WbJob        *self);

const char *wb_job_get_id        (const WbJob  *self);
const char *wb_job_get_currency  (const WbJob  *self);

/** Returns: how often the book has stored this job; 0 when never. */
gint64      wb_job_get_revision  (const WbJob  *self);
/** Returns: (transfer full): the same job with another revision. */
WbJob      *wb_job_with_revision (const WbJob  *self,
                                  gint64        revision) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): the same job under another id, never stored. */
WbJob      *wb_job_with_id       (const WbJob  *self,
                                  const char   *id) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): the one order or valuation, never %NULL. */
const WbOrder     *wb_job_order     (const WbJob *self);
const WbValuation *wb_job_valuation (const WbJob *self);

guint         wb_job_count       (const WbJob  *self,
                                  WbKind        kind);
/** Returns: (transfer none): record @index of @kind in the job's order; the struct of that kind. */
gconstpointer wb_job_nth         (const WbJob  *self,
                                  WbKind        kind,
                                  guint         index);
/** Returns: (transfer none) (nullable): by id (%NULL gives %NULL); constant time. */
gconstpointer wb_job_find        (const WbJob  *self,
                                  WbKind        kind,
                                  const char   *id);
/** Returns: place of the record with @id in the job's order, or -1; constant time. */
gint          wb_job_index       (const WbJob  *self,
                                  WbKind        kind,
                                  const char   *id);

/**
 * wb_job_with:
 * @record: (transfer none): replaces the record of its kind and id, or goes to the end
 *
 * Returns: (transfer full): the changed job.
 */
WbJob      *wb_job_with          (const WbJob  *self,
                                  gpointer      record) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_job_with(), for an array of records of any kinds, in one step. */
WbJob      *wb_job_with_many     (const WbJob  *self,
                                  GPtrArray    *records) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_job_with() for a record whose id is new, put before place @index (clamped to the end). */
WbJob      *wb_job_insert        (const WbJob  *self,
                                  gpointer      record,
                                  guint         index) G_GNUC_WARN_UNUSED_RESULT;

/** Puts the record with @id at place @index (clamped to the end). Returns: (transfer full): the
 * job in the new order; the same job when there is no such record or it stands there already. */
WbJob      *wb_job_move          (WbJob        *self,
                                  WbKind        kind,
                                  const char   *id,
                                  guint         index) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_job_without:
 *
 * Removes a record and all that belong to it (the findings of a handover, the lines of a claim).
 * Returns: (transfer full) (nullable): the job without it, or %NULL with %WB_CORE_ERROR_RANGE when
 * another record still needs it (a piece under a claim line, a lot with pieces) or it is the order
 * or valuation; the message names both.
 */
WbJob      *wb_job_without       (const WbJob  *self,
                                  WbKind        kind,
                                  const char   *id,
                                  GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_job_without(), for records of one kind in one step: all go, or none. @ids: (element-type
 * utf8): without repeats. */
WbJob      *wb_job_without_many  (const WbJob  *self,
                                  WbKind        kind,
                                  GPtrArray    *ids,
                                  GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Checks every record and every reference. %FALSE with a %WB_CORE_ERROR that names kind, id and
 * field. */
gboolean    wb_job_check         (const WbJob  *self,
                                  GError      **error);

/** Whether both hold the same records in the same order (revision not looked at). */
gboolean    wb_job_equal         (const WbJob  *a,
                                  const WbJob  *b);

/**
 * WbJobChange:
 * @before: (nullable): %NULL for an added record
 * @after: (nullable): %NULL for a removed one
 */
typedef struct
{
  WbKind          kind;
  const WbRecord *before;
  const WbRecord *after;
} WbJobChange;

/** Returns: (transfer full) (element-type WbJobChange): what turns @from into @to, removals first,
 * by kind; the records belong to the two jobs. A mere change of order is not listed. Records shared
 * by both cost one comparison. */
GArray     *wb_job_diff          (const WbJob  *from,
                                  const WbJob  *to) G_GNUC_WARN_UNUSED_RESULT;

/* --- what the records say together ------------------------------------------------------------ */

typedef enum
{
  WB_WEIGHT_SOURCE_NONE,          /* nothing known */
  WB_WEIGHT_SOURCE_REWEIGH,       /* governs when there is one: 49 CFR 375.517 */
  WB_WEIGHT_SOURCE_WEIGHING,
  WB_WEIGHT_SOURCE_CONSTRUCTIVE,  /* a constructive weighing noted in the job */
  WB_WEIGHT_SOURCE_VOLUME,        /* the order's volume × constructive weight per cubic foot */
  WB_WEIGHT_SOURCE_ESTIMATE,
} WbWeightSource;

/**
 * wb_job_shipment_weight:
 * @gross: the gross weight of a weighing instead of its net; a constructive weight, one made from a
 *   volume and an estimate are what they are
 * @per_cuft: constructive weight per cubic foot, or unset
 * @out: (out): the governing weight; unset when none is known
 *
 * Returns: where it comes from. Weighings without a usable figure, or with one of 0, are passed
 *   over; of several of a kind the last in the job's order counts.
 */
WbWeightSource wb_job_shipment_weight (const WbJob *self,
                                       gboolean     gross,
                                       WbWeight     per_cuft,
                                       WbWeight    *out);

typedef enum
{
  WB_WAIVER_COMPLETE       = 0,
  WB_WAIVER_NOT_CHOSEN     = 1 << 0,  /* released value was not chosen */
  WB_WAIVER_NO_SIGNER      = 1 << 1,
  WB_WAIVER_NO_DATE        = 1 << 2,
  WB_WAIVER_NO_MANNER      = 1 << 3,  /* how it was signed */
  WB_WAIVER_NO_DISCLOSURE  = 1 << 4,
  WB_WAIVER_AFTER_PICKUP   = 1 << 5,  /* signed later than the day of pick-up */
} WbWaiverGap;

/** Returns: what a valid written waiver of full value lacks (flags of #WbWaiverGap); 49 USC
 * 14706(f), 49 CFR 375.201(c). */
guint          wb_job_waiver_gaps     (const WbJob *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbJob, wb_job_unref)

G_END_DECLS
