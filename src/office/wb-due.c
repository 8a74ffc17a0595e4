/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Collects the clocks of all open claims. How a clock runs stands in core; here they are only
 * gathered, sorted and told how near they are. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-due.h"

#include "office/wb-gather.h"
#include "office/wb-office-private.h"
#include "office/wb-words.h"

#include <string.h>

#define N_(text) text

#define DAYS_OF_A_WEEK 7

static const WbEnumValue due_groups[] = {
  { WB_DUE_OVERDUE,   "overdue",   N_ ("Overdue") },
  { WB_DUE_TODAY,     "today",     N_ ("Due today") },
  { WB_DUE_THIS_WEEK, "this-week", N_ ("Due within a week") },
  { WB_DUE_LATER,     "later",     N_ ("Later") },
  { WB_DUE_UNKNOWN,   "unknown",   N_ ("Cannot be said") },
};

const WbEnum wb_due_groups = { "due", due_groups, G_N_ELEMENTS (due_groups) };

void
wb_due_free (WbDue *self)
{
  if (self == NULL)
    return;
  g_free (self->job_id);
  g_free (self->job_number);
  g_free (self->claim_id);
  g_free (self->claim_number);
  g_free (self->shipper);
  g_free (self->citation);
  g_free (self->fault);
  g_free (self);
}

WbDueGroup
wb_due_group (gint days_left)
{
  if (days_left < 0)
    return WB_DUE_OVERDUE;
  if (days_left == 0)
    return WB_DUE_TODAY;
  return days_left <= DAYS_OF_A_WEEK ? WB_DUE_THIS_WEEK : WB_DUE_LATER;
}

/* --- one claim -------------------------------------------------------------------------------- */

/* Whether it is for the office to do something by then. */
static gboolean
is_of_the_office (WbClockKind kind)
{
  switch (kind)
    {
    case WB_CLOCK_ACKNOWLEDGE:
    case WB_CLOCK_DECIDE:
    case WB_CLOCK_STATUS:
    case WB_CLOCK_ANSWER_AGAIN:
    case WB_CLOCK_INSPECT:
    case WB_CLOCK_SALVAGE:
    case WB_CLOCK_TRANSFER:
      return TRUE;
    case WB_CLOCK_NOTICE:
    case WB_CLOCK_CLAIM:
    case WB_CLOCK_LATE_CLAIM:
    case WB_CLOCK_FEES:
    case WB_CLOCK_SUIT:
    case WB_CLOCK_MEDIATE:
    case WB_CLOCK_ARBITRATE:
      return FALSE;
    }
  g_return_val_if_reached (FALSE);
}

static gboolean
claim_is_open (const WbClaim *claim)
{
  return claim->status == WB_CLAIM_OPEN || claim->status == WB_CLAIM_OFFERED;
}

static WbDue *
due_new (const WbJobSummary *summary,
         const WbClaim      *claim)
{
  WbDue *due = g_new0 (WbDue, 1);

  due->job_id = g_strdup (summary->id);
  due->job_number = g_strdup (summary->number);
  due->claim_id = g_strdup (claim->record.id);
  due->claim_number = g_strdup (claim->number);
  due->shipper = g_strdup (summary->shipper);
  due->group = WB_DUE_UNKNOWN;
  return due;
}

static void
add_clock (GPtrArray          *list,
           const WbJobSummary *summary,
           const WbClaim      *claim,
           const WbTerms      *terms,
           const WbClock      *clock)
{
  WbDue *due;

  if (!is_of_the_office (clock->kind) ||
      clock->state == WB_CLOCK_MET || clock->state == WB_CLOCK_MISSED)
    return;
  due = due_new (summary, claim);
  due->clock = *clock;
  due->citation = g_strdup (wb_terms_citation (terms, WB_SCOPE_GENERAL, clock->key));
  if (clock->state != WB_CLOCK_NOT_STARTED)
    due->group = wb_due_group (clock->days_left);
  g_ptr_array_add (list, due);
}

static void
add_fault (GPtrArray          *list,
           const WbJobSummary *summary,
           const WbClaim      *claim,
           const GError       *error)
{
  WbDue *due = due_new (summary, claim);

  due->fault = wb_words_error (error);
  g_ptr_array_add (list, due);
}

static void
add_claim (WbOffice           *self,
           GPtrArray          *list,
           const WbJobSummary *summary,
           const WbJob        *job,
           const WbClaim      *claim,
           const GDate        *today)
{
  g_autoptr (GError) error = NULL;
  const WbTerms *terms = wb_terms_set_find (wb_office_get_terms (self), wb_job_order (job), &error);
  g_autoptr (GArray) clocks = terms != NULL ? wb_claim_clocks (terms, job, claim, today, &error)
                                            : NULL;

  if (clocks == NULL)
    {
      add_fault (list, summary, claim, error);
      return;
    }
  for (guint i = 0; i < clocks->len; i++)
    add_clock (list, summary, claim, terms, &g_array_index (clocks, WbClock, i));
}

/* --- all of them ------------------------------------------------------------------------------ */

static int
compare_due (gconstpointer a,
             gconstpointer b)
{
  const WbDue *one = *(const WbDue *const *) a;
  const WbDue *other = *(const WbDue *const *) b;
  int order;

  if ((one->group == WB_DUE_UNKNOWN) != (other->group == WB_DUE_UNKNOWN))
    return one->group == WB_DUE_UNKNOWN ? 1 : -1;
  order = one->group != WB_DUE_UNKNOWN
          ? wb_date_compare (&one->clock.last_day, &other->clock.last_day) : 0;
  if (order == 0)
    order = g_strcmp0 (one->claim_number, other->claim_number);
  return order != 0 ? order : (int) one->clock.kind - (int) other->clock.kind;
}

/* What the gatherer hands on. */
typedef struct
{
  GPtrArray   *list;
  const GDate *today;
} Gathering;

static gboolean
has_open_claims (const WbJobSummary *summary,
                 gpointer            data)
{
  return summary->n_open_claims > 0;
}

static gboolean
take_job (WbOffice            *self,
          const WbJobSummary  *summary,
          WbJob               *job,
          gpointer             data,
          GError             **error)
{
  const Gathering *gathering = data;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM); i++)
    {
      const WbClaim *claim = wb_job_nth (job, WB_KIND_CLAIM, i);

      if (claim_is_open (claim))
        add_claim (self, gathering->list, summary, job, claim, gathering->today);
    }
  return TRUE;
}

GPtrArray *
wb_office_list_due (WbOffice      *self,
                    const GDate   *today,
                    GCancellable  *cancellable,
                    GError       **error)
{
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_due_free);
  Gathering gathering = { list, today };

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (wb_date_is_set (today), NULL);

  if (!wb_gather_jobs (self, has_open_claims, take_job, NULL, &gathering, cancellable, error))
    return NULL;
  g_ptr_array_sort (list, compare_due);
  return g_steal_pointer (&list);
}

static gpointer
run_list_due (WbOffice      *self,
              const WbDeed  *deed,
              GCancellable  *cancellable,
              GError       **error)
{
  GDate today;

  wb_office_today (&today);
  return wb_office_list_due (self, &today, cancellable, error);
}

void
wb_office_list_due_async (WbOffice            *self,
                          GCancellable        *cancellable,
                          GAsyncReadyCallback  callback,
                          gpointer             data)
{
  WbDeed *deed;

  g_return_if_fail (WB_IS_OFFICE (self));

  deed = g_new0 (WbDeed, 1);
  deed->run = run_list_due;
  deed->free_result = (GDestroyNotify) g_ptr_array_unref;
  wb_office_start (self, deed, wb_office_list_due_async, cancellable, callback, data);
}

GPtrArray *
wb_office_list_due_finish (WbOffice      *self,
                           GAsyncResult  *result,
                           GError       **error)
{
  return wb_office_finish (self, result, wb_office_list_due_async, error);
}
