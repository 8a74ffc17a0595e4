/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is due on the open claims of a book: by when the office has to answer whom. */
#pragma once

#include "core/wb-clock.h"
#include "office/wb-office.h"

G_BEGIN_DECLS

/** How near a day is. */
typedef enum
{
  WB_DUE_OVERDUE,      /* the last day has gone by */
  WB_DUE_TODAY,
  WB_DUE_THIS_WEEK,    /* within seven days */
  WB_DUE_LATER,
  WB_DUE_UNKNOWN,      /* the clock cannot run: a date or the terms are missing */
} WbDueGroup;

extern const WbEnum wb_due_groups;

/**
 * WbDue:
 * @job_id: of the job
 * @job_number: what people call it
 * @claim_id: of the claim
 * @claim_number: of the claim
 * @shipper: (nullable): for whom
 * @group: how near @clock's last day is
 * @clock: the clock; its kind, the day it runs from and its last day. Only its state is of use
 *   when @fault is set
 * @citation: (nullable): where the limit is written
 * @fault: (nullable): why nothing can be said of this claim, as a sentence
 *
 * One thing that is due; belongs to its list.
 */
typedef struct
{
  const char *job_id;
  const char *job_number;
  const char *claim_id;
  const char *claim_number;
  const char *shipper;
  WbDueGroup  group;
  WbClock     clock;
  const char *citation;
  const char *fault;
} WbDue;

/** WbDueList: what is due, in order; does not change. */
typedef struct _WbDueList WbDueList;

WbDueList   *wb_due_list_ref       (WbDueList            *self) G_GNUC_WARN_UNUSED_RESULT;
void         wb_due_list_unref     (WbDueList            *self);
guint        wb_due_list_count     (const WbDueList      *self);
/** Returns: (transfer none): entry @index, which there is. */
const WbDue *wb_due_list_nth       (const WbDueList      *self,
                                    guint                 index);

/** Returns: how near a day is that is @days_left away; negative when it has gone by. */
WbDueGroup wb_due_group            (gint                 days_left);

/**
 * wb_office_list_due:
 * @today: the day to reckon from
 *
 * What the office has to do on every claim that is open or under offer: acknowledge, decide, report
 * why it has not. A claim of which nothing can be said, because its terms or its day of receipt are
 * missing, has one entry with @fault or a clock that has not started. What the claimant has to do is
 * left out. Blocks on the book.
 * Returns: (transfer full) (nullable): by last day, then as the book has them, older jobs first; those
 * that cannot run come last.
 */
WbDueList *wb_office_list_due        (WbOffice            *self,
                                      const GDate         *today,
                                      GCancellable        *cancellable,
                                      GError             **error) G_GNUC_WARN_UNUSED_RESULT;
/** As wb_office_list_due(), for today, in a worker thread. */
void       wb_office_list_due_async  (WbOffice            *self,
                                      GCancellable        *cancellable,
                                      GAsyncReadyCallback  callback,
                                      gpointer             data);
WbDueList *wb_office_list_due_finish (WbOffice            *self,
                                      GAsyncResult        *result,
                                      GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_due_calendar_write:
 * @due: what is due
 * @now: the moment of writing, which RFC 5545 asks for
 *
 * Returns: (transfer full): an iCalendar object (RFC 5545) with an event of a whole day for each
 * entry that has a last day, private, naming nobody, with an alarm on the morning before; an entry
 * keeps its UID as long as its claim and clock are the same.
 */
char      *wb_due_calendar_write     (const WbDueList     *due,
                                      GDateTime           *now) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbDueList, wb_due_list_unref)

G_END_DECLS
