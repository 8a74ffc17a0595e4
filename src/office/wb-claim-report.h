/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a report over the claims of a book is made of: the lines of finished claims, the pieces that
 * were moved, and what the open claims come to. Grouping is in core; sentences are here. */
#pragma once

#include "core/wb-claim-totals.h"
#include "core/wb-loss-report.h"
#include "office/wb-office.h"

G_BEGIN_DECLS

/** WbReportProgress: how far gathering is. One thread asks while another goes on. */
typedef struct _WbReportProgress WbReportProgress;

WbReportProgress *wb_report_progress_new   (void) G_GNUC_WARN_UNUSED_RESULT;
WbReportProgress *wb_report_progress_ref   (WbReportProgress *self);
void              wb_report_progress_unref (WbReportProgress *self);
/** @n_done: (out): jobs looked at; @n_all: (out): jobs with claims, 0 while they are still being
 * looked for */
void              wb_report_progress_get   (WbReportProgress *self,
                                            guint            *n_done,
                                            guint            *n_all);

/**
 * WbClaimReport:
 * @lines: (element-type WbLossLine): of all finished claims, whenever that was
 * @moved: (element-type WbLossMoved): of all delivered jobs
 * @open: (element-type WbClaimTotals): the open claims, by currency
 * @faults: (element-type utf8): a sentence for each claim that could not be reckoned
 *
 * Gathered once; wb_loss_report() then groups @lines without looking at the book again. Free with
 * wb_claim_report_free().
 */
typedef struct
{
  GPtrArray *lines;
  GPtrArray *moved;
  GArray    *open;
  GPtrArray *faults;
} WbClaimReport;

void           wb_claim_report_free (WbClaimReport *self);

/**
 * wb_office_claim_report:
 * @progress: (nullable)
 *
 * Goes over all jobs with claims. Who bears a line is what wb_apportion() says, by shares set by
 * hand, else by the last handler without an exception. Blocks on the book.
 * Returns: (transfer full) (nullable)
 */
WbClaimReport *wb_office_claim_report        (WbOffice            *self,
                                              WbReportProgress    *progress,
                                              GCancellable        *cancellable,
                                              GError             **error) G_GNUC_WARN_UNUSED_RESULT;
/** As wb_office_claim_report(), in a worker thread. */
void           wb_office_claim_report_async  (WbOffice            *self,
                                              WbReportProgress    *progress,
                                              GCancellable        *cancellable,
                                              GAsyncReadyCallback  callback,
                                              gpointer             data);
WbClaimReport *wb_office_claim_report_finish (WbOffice            *self,
                                              GAsyncResult        *result,
                                              GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/* --- words and files -------------------------------------------------------------------------- */

/** Returns: (transfer full): what a group is called: "Dish pack", "OH → TX", "Not noted". */
char   *wb_loss_key_words   (WbLossBy             by,
                             const char          *key,
                             const WbCatalog     *catalog) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): pieces claimed of those that moved, as a sentence; never a rate for
 * fewer than %WB_LOSS_FEWEST_FOR_RATE. "" where pieces moved are not counted. */
char   *wb_loss_rate_words  (const WbLossGroup   *group) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): the sentence on claims that a period leaves out for want of a date; ""
 * for none. */
char   *wb_loss_undated_words (const WbLossReport *report) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what the open claims in one currency come to, in sentences. */
char   *wb_claim_totals_words (const WbClaimTotals *totals) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_loss_report_to_csv:
 *
 * Returns: (transfer full): the groups as RFC 4180 has it, with a row of headings and, for each
 * currency, a row "total"; amounts as plain decimals, the same in every locale. A text that a
 * spreadsheet would take for a formula has an apostrophe before it.
 */
char   *wb_loss_report_to_csv (const WbLossReport *report,
                             const WbCatalog     *catalog) G_GNUC_WARN_UNUSED_RESULT;

/** @from, @to: (nullable) (out): the days of "2026-03-01" or of nothing. Returns: %FALSE with a
 * %WB_CORE_ERROR for text that is no date, or a period that ends before it begins. */
gboolean wb_loss_period_parse (const char        *from_text,
                             const char          *to_text,
                             GDate               *from,
                             GDate               *to,
                             GError             **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbReportProgress, wb_report_progress_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbClaimReport, wb_claim_report_free)

G_END_DECLS
