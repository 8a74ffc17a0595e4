/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A record of a list in two short lines. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** Returns: (transfer full): what it is called: a name, a kind of stop, a weighing with its day. */
char *wb_record_words_title    (gconstpointer record) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): the rest that one looks for, of a paper also until when it is kept; ""
 * when nothing is given. @job: which has @record. */
char *wb_record_words_subtitle (const WbJob  *job,
                                gconstpointer record) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "Remove Ada Brook", for the history. */
char *wb_record_words_removal  (gconstpointer record) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): one sentence on which weight governs the shipment and why. @per_cuft:
 * the terms' constructive weight. */
char *wb_record_words_weight   (const WbJob  *job,
                                WbWeight      per_cuft) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
