/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words that a person reads, made from core values: the one place where nicks, amounts and reasons
 * become sentences. All go through gettext and the locale. The window, the command line and later
 * the papers say the same thing in the same words. */
#pragma once

#include "core/wb-job.h"
#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/** Returns: (transfer none): the label of a value of a closed list, translated. */
const char *wb_words_enum          (const WbEnum     *list,
                                    int               value);
/** Returns: (transfer none): a field's label, translated. */
const char *wb_words_field         (const WbField    *field);

/** Returns: (transfer full): "$1,234.56" for USD in any locale, else "1,234.56 EUR"; grouping by
 * locale; "–" when unset. */
char       *wb_words_money         (WbMoney           money) G_GNUC_WARN_UNUSED_RESULT;
char       *wb_words_minor         (gint64            minor,
                                    const char       *currency) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): "1,250 lb"; "–" when unset. */
char       *wb_words_weight        (WbWeight          weight) G_GNUC_WARN_UNUSED_RESULT;
char       *wb_words_volume        (WbVolume          volume) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): "7.5 %" for hundredths of a percent; "–" for %WB_INTEGER_UNSET. */
char       *wb_words_percent       (gint64            hundredths) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): "$0.60 per pound"; "–" when unset. */
char       *wb_words_rate          (WbRate            rate) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): "3 Mar 2026" by locale; "–" when unset. */
char       *wb_words_date          (const GDate      *date) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): any field's value as a person reads it. */
char       *wb_words_value         (gconstpointer     record,
                                    const WbField    *field) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): "scratched: front, rear; chipped: corner" for canonical or typed
 * marks; %NULL with @error. */
char       *wb_words_marks         (const char       *marks,
                                    GError          **error) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): "blue 204-017" style name of a piece's tag with its lot; "tag 17"
 * when it has no lot. */
char       *wb_words_tag           (const WbJob      *job,
                                    const WbPiece    *piece) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a short heading for a reason ("Limit of the article"). */
char       *wb_words_rule          (WbRule            rule) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): one full sentence that says what a step did with its figures. */
char       *wb_words_reason        (const WbReckoning *reckoning,
                                    const WbReason   *reason) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none) (nullable): what the terms cite for the step. */
const char *wb_words_reason_source (const WbReckoning *reckoning,
                                    const WbReason   *reason);
/** Returns: (transfer full): what a valid waiver lacks, as one sentence; %NULL when it lacks
 * nothing. */
char       *wb_words_waiver_gaps   (guint             gaps) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): the caution shown with every reckoning. */
char       *wb_words_caution       (void) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a message as a sentence: a capital in front, unless it starts with
 * the place that is meant, and a stop at the end. */
char       *wb_words_sentence      (const char       *message) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): what went wrong and what to do, for a person, from domain, code and
 * message. */
char       *wb_words_error         (const GError     *error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
