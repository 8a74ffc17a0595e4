/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the records of a job are called, wherever they are listed: as two short lines of a row, or in
 * one line with what kind of record it is. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/**
 * wb_words_record:
 * @job: which has @record
 *
 * Returns: (transfer full): the kind of any record and what it is called: "Piece blue 204-017,
 *   Dining table", "Claim line 3, Bookcase", "Stop: Dayton, OH"; the kind alone when nothing names
 *   it.
 */
char *wb_words_record          (const WbJob    *job,
                                gconstpointer   record) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what any record is called, without its kind; "" when nothing names it. */
char *wb_words_record_name     (const WbJob    *job,
                                gconstpointer   record) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): as wb_words_value(), with the record's name for a reference. @job: which
 * has @record. */
char *wb_words_value_in_job    (const WbJob    *job,
                                gconstpointer   record,
                                const WbField  *field) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what a party, stop, weighing, paper or conversation is called: a name, a
 * kind of stop, a weighing with its day. */
char *wb_words_record_title    (gconstpointer   record) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): of the same kinds the rest that one looks for, of a paper also until when
 * it is kept; "" when nothing is given. @job: which has @record. */
char *wb_words_record_subtitle (const WbJob    *job,
                                gconstpointer   record) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "Remove Ada Brook", for the history. */
char *wb_words_record_removal  (gconstpointer   record) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): one sentence on which weight governs the shipment and why. @per_cuft:
 * the terms' constructive weight. */
char *wb_words_shipment_weight (const WbJob    *job,
                                WbWeight        per_cuft) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
