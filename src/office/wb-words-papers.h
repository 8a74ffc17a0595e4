/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words about the job file as a whole: what it has to hold, and how long its papers are kept. */
#pragma once

#include "core/wb-checklist.h"
#include "core/wb-retention.h"

G_BEGIN_DECLS

/** Returns: (transfer full): what @entry is about; an item of a weight ticket names the ticket when
 * the job has several. */
char       *wb_words_item           (const WbJob            *job,
                                     const WbChecklistEntry *entry) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): why @entry is not needed, or what is odd about it, and its source. */
char       *wb_words_item_note      (const WbJob            *job,
                                     const WbChecklistEntry *entry) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @citation (nullable) and how far it was checked: "49 CFR 375.213, read
 * as of 2015". */
char       *wb_words_source         (const char             *citation,
                                     WbSource                source) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): one sentence on whose rules the checklist goes by. */
const char *wb_words_authority      (WbAuthority             authority);

/** Returns: (transfer none): "3 things are missing for this stage" before the count is put in: a
 * format with one %u. */
const char *wb_words_missing_format (guint                   n);

/** Returns: (transfer full): "Kept until 4 Mar 2027" or why no day is known, without a source. */
char       *wb_words_keep           (const WbKeep           *keep) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the period, what it runs from, and the source, as one sentence. */
char       *wb_words_keep_note      (const WbKeep           *keep) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): the nick of a source for files: "seen", "seen-2015", "seen-copy",
 * "memory", "practice". */
const char *wb_source_nick          (WbSource                source);

G_END_DECLS
