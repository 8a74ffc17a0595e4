/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences beside the fields where tags and marks are typed. Pure: from values to a text. */
#pragma once

#include "core/wb-count.h"
#include "core/wb-trail.h"

G_BEGIN_DECLS

/** Returns: (transfer full): what was counted: how many, which were not on the inventory, how many
 * had been counted before. */
char *wb_count_words_counted  (const WbCountEntry *entry,
                               gint64              n_again) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what Enter would count. */
char *wb_count_words_preview  (const WbCountEntry *entry,
                               gint64              n_again) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the piece meant and the marks in words, and which of them it had
 * before @handover or there already. @piece: place in the job's order. */
char *wb_count_words_marks    (const WbJob        *job,
                               const WbTrail      *trail,
                               guint               handover,
                               guint               piece,
                               const char         *marks) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what finishing does, to be confirmed. */
char *wb_count_words_finish   (const WbJob           *job,
                               const WbHandoverFacts *facts) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
