/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was done to a job, when and by whom. Private to the store. */
#pragma once

#include "core/wb-job.h"
#include "store/wb-sqlite.h"

G_BEGIN_DECLS

/** Returns: (transfer full): the changes that make @to of @from, as JSON: an array of {kind, id,
 * field, old, new}. A record that is new or gone has one entry more, for the field "id". Values are
 * canonical text, or null when not given. */
char      *wb_history_describe (const WbJob   *from,
                                const WbJob   *to) G_GNUC_WARN_UNUSED_RESULT;

/** Enters the deed that made @to, at its new revision, of @from. */
gboolean   wb_history_enter    (WbSqlite      *book,
                                const WbJob   *from,
                                const WbJob   *to,
                                const char    *deed,
                                GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type WbHistoryEntry): newest first. */
GPtrArray *wb_history_list     (WbSqlite      *book,
                                const char    *job_id,
                                GError       **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
