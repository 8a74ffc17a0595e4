/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new record of a list as it is most likely meant. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/**
 * wb_record_draft_add:
 * @kind: a party, a stop, a weighing, a paper or a contact
 * @id: of the new record
 * @today: the day
 * @at: the time of day, "14:05"
 *
 * Adds a record with the likeliest role or kind: the shipper first and then the carrier; pick-up,
 * delivery, and then stops on the way, put before the delivery; the first weighing and then a
 * reweigh. A contact is dated, with the shipper, for the office by the coordinator; a paper is left
 * open.
 * Returns: (transfer full): the job with it.
 */
WbJob *wb_record_draft_add (const WbJob *job,
                            WbKind       kind,
                            const char  *id,
                            const GDate *today,
                            const char  *at) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the job with a paper of @paper at the end. */
WbJob *wb_record_draft_add_paper (const WbJob *job,
                                  WbPaperKind  paper,
                                  const char  *id) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_record_draft_move:
 * @by: −1 toward the front, 1 toward the end
 *
 * Returns: (transfer full) (nullable): the job with the record moved by one place, %NULL when there
 * is no such place. Only for kinds that no record refers to.
 */
WbJob *wb_record_draft_move (const WbJob *job,
                             WbKind       kind,
                             const char  *id,
                             gint         by) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
