/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published jobs in words: how one stands on a server, when it was published and by whom, how far
 * sending or fetching is. */
#pragma once

#include "office/wb-progress.h"
#include "office/wb-publish.h"

G_BEGIN_DECLS

/** Returns: (transfer full): "3 Mar 2026, 14:05" in the zone of this computer for a time as it stands on
 * a server, "2026-03-03T13:05:00Z"; what does not read as a time is given back as it is. */
char *wb_words_at              (const char            *at) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "Changed there: published by ann on 3 Mar 2026, 14:05", of a status that
 * was asked for; one sentence without a stop. */
char *wb_words_publish_status  (const WbPublishStatus *status) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "3 of 12 files, 1.2 MB of 8.4 MB, 300.0 kB a second, 24 seconds left", as
 * much of it as is known; "" for nothing. */
char *wb_words_progress        (const WbProgressState *state) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "24 seconds left", "3 minutes left", "2 hours left"; minutes and hours are
 * rounded up. */
char *wb_words_seconds_left    (gint64                 seconds) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what a line of published jobs says besides number and shipper: route,
 * stage, day of pick-up, and who published it when; of one that cannot be read why. */
char *wb_words_published_job   (const WbPublishedJob  *job) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what came of checking a published job, as one paragraph. @faults:
 * (element-type utf8): as of wb_office_verify_published() */
char *wb_words_verified        (GPtrArray             *faults,
                                guint                  n_files) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
