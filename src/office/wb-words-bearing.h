/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences on who bears what of a claim. The window, the command line and the charge statements
 * share them. */
#pragma once

#include "core/wb-apportion.h"
#include "core/wb-hand-split.h"
#include "office/wb-words.h"

G_BEGIN_DECLS

/** Returns: (transfer full): "3. Kitchen table, gouged top (teal 012)". */
char *wb_words_claim_line (const WbJob           *job,
                           const WbClaimLine     *line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the name of a handler; "the office" for a carrier that the job does
 * not name. */
char *wb_words_handler    (const WbHandler       *handler) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): why line @line is shared out as it is, and who could have done it. */
char *wb_words_shared     (const WbApportionment *apportionment,
                           guint                  line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): what is wrong with the shares set by hand, and what to do;
 * %NULL when nothing is. */
char *wb_words_hand_fault (const WbLineShares    *line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): that a handler bears no more than its limit, and who takes
 * the rest; %NULL when it is not reached. */
char *wb_words_over_limit (const WbApportionment *apportionment,
                           guint                  handler) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): what sharing a line so rests on in law, with how far it was
 * looked up when that was not in the source itself. */
char *wb_words_shared_source (WbSharedWhy         why) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): who bears a part of line @line, most first; with the parts when they
 * are several. */
char *wb_words_bearers    (const WbApportionment *apportionment,
                           guint                  line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): what limits cut off line @line, and where that went. */
char *wb_words_cut        (const WbApportionment *apportionment,
                           guint                  line) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): how much nobody is shown to have had; %NULL when
 * nothing. */
char *wb_words_unassigned (const WbApportionment *apportionment) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): what is wrong with a split by hand, and what to do; %NULL
 * when nothing is. @total: what the parts come to */
char *wb_words_hand_split (WbHandSplitFault       fault,
                           gint64                 total) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
