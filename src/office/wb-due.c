/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Collects the clocks of all open claims from what the book keeps for it, without loading a job. How
 * a clock runs stands in core; here they are only gathered, sorted and told how near they are. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-due.h"

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
  g_clear_pointer (&self->job_id, g_ref_string_release);
  g_clear_pointer (&self->job_number, g_ref_string_release);
  g_clear_pointer (&self->claim_id, g_ref_string_release);
  g_clear_pointer (&self->claim_number, g_ref_string_release);
  g_clear_pointer (&self->shipper, g_ref_string_release);
  g_clear_pointer (&self->citation, g_ref_string_release);
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

/* What is being gathered. */
typedef struct
{
  const WbTermsSet *terms;
  const GDate      *today;
  GPtrArray        *list;
} Gathering;

/* The texts of a claim, which its entries share. */
typedef struct
{
  char *job_id;
  char *job_number;
  char *claim_id;
  char *claim_number;
  char *shipper;
} Texts;

static char *
share (const char *text)
{
  return text != NULL ? g_ref_string_new (text) : NULL;
}

static char *
share_again (char *text)
{
  return text != NULL ? g_ref_string_acquire (text) : NULL;
}

static void
texts_clear (Texts *self)
{
  g_clear_pointer (&self->job_id, g_ref_string_release);
  g_clear_pointer (&self->job_number, g_ref_string_release);
  g_clear_pointer (&self->claim_id, g_ref_string_release);
  g_clear_pointer (&self->claim_number, g_ref_string_release);
  g_clear_pointer (&self->shipper, g_ref_string_release);
}

static WbDue *
add_due (Gathering *gathering,
         Texts     *texts)
{
  WbDue *due = g_new0 (WbDue, 1);

  due->job_id = share_again (texts->job_id);
  due->job_number = share_again (texts->job_number);
  due->claim_id = share_again (texts->claim_id);
  due->claim_number = share_again (texts->claim_number);
  due->shipper = share_again (texts->shipper);
  due->group = WB_DUE_UNKNOWN;
  g_ptr_array_add (gathering->list, due);
  return due;
}

static void
add_clock (Gathering     *gathering,
           Texts         *texts,
           const WbTerms *terms,
           const WbClock *clock)
{
  const char *citation = wb_terms_citation (terms, WB_SCOPE_GENERAL, clock->key);
  WbDue *due;

  if (clock->state == WB_CLOCK_MET || clock->state == WB_CLOCK_MISSED)
    return;
  due = add_due (gathering, texts);
  due->clock = *clock;
  due->citation = citation != NULL ? g_ref_string_new_intern (citation) : NULL;
  if (clock->state != WB_CLOCK_NOT_STARTED)
    due->group = wb_due_group (clock->days_left);
}

static GArray *
reckon_clocks (Gathering          *gathering,
               const WbOpenClaim  *claim,
               const WbTerms      *terms,
               GError            **error)
{
  g_auto (WbClockInput) input = { 0 };

  if (!wb_clock_input_parse (&input, claim->input, NULL))
    {
      g_set_error (error, WB_STORE_ERROR, WB_STORE_ERROR_CORRUPT,
                   "the book is damaged: the claims of job %s cannot be read", claim->job_id);
      return NULL;
    }
  return wb_clocks_reckon (terms, &input, WB_CLOCK_PARTY_CARRIER, gathering->today, error);
}

static void
add_claim (const WbOpenClaim *claim,
           gpointer           data)
{
  Gathering *gathering = data;
  g_autoptr (GError) error = NULL;
  const WbTerms *terms = wb_terms_set_find_for (gathering->terms, claim->terms, claim->move_type,
                                                claim->region, &claim->pickup, &error);
  g_autoptr (GArray) clocks = terms != NULL ? reckon_clocks (gathering, claim, terms, &error)
                                            : NULL;
  Texts texts = { share (claim->job_id), share (claim->job_number), share (claim->claim_id),
                  share (claim->claim_number), share (claim->shipper) };

  if (clocks == NULL)
    add_due (gathering, &texts)->fault = wb_words_error (error);
  for (guint i = 0; clocks != NULL && i < clocks->len; i++)
    add_clock (gathering, &texts, terms, &g_array_index (clocks, WbClock, i));
  texts_clear (&texts);
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

GPtrArray *
wb_office_list_due (WbOffice      *self,
                    const GDate   *today,
                    GCancellable  *cancellable,
                    GError       **error)
{
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_due_free);
  Gathering gathering = { NULL, today, list };

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (wb_date_is_set (today), NULL);

  gathering.terms = wb_office_get_terms (self);
  if (!wb_book_scan_open_claims (wb_office_get_book (self), add_claim, &gathering, cancellable,
                                 error))
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
