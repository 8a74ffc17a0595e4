/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the legal dates of open claims go by, one row a claim, kept beside the jobs so that they can
 * be gone through without loading one. Private to the store. */
#pragma once

#include "store/wb-book.h"
#include "store/wb-sqlite.h"

G_BEGIN_DECLS

/** Brings the rows of the open claims of @job, which is stored already, up to date.
 * @base: what was stored before */
gboolean wb_claim_index_update (WbSqlite         *book,
                                const WbJob      *base,
                                const WbJob      *job,
                                GError          **error) G_GNUC_WARN_UNUSED_RESULT;
gboolean wb_claim_index_remove (WbSqlite         *book,
                                const char       *job_id,
                                GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Makes all rows anew from what is stored. A job that cannot be read has one row that says so. */
gboolean wb_claim_index_fill   (WbSqlite         *book,
                                GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** See wb_book_scan_open_claims(). */
gboolean wb_claim_index_scan   (WbSqlite         *book,
                                WbOpenClaimFunc   each,
                                gpointer          data,
                                GError          **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
