/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Collects the clocks of all open claims from what the book keeps for it, without loading a job.
 * How a clock runs stands in core; here they are only gathered, sorted and told how near they
 * are. */
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

/* Texts and entries lie together, so that a hundred thousand of them are few pieces of memory. */
struct _WbDueList
{
  gatomicrefcount  references;
  GStringChunk    *texts;
  GArray          *entries;    /* (element-type WbDue) */
  GArray          *order;      /* (element-type Place) */
};

/* An entry's place in the order: by day, then as the book has it. */
typedef struct
{
  guint32 day;
  guint32 entry;
} Place;

/* What is being gathered. */
typedef struct
{
  const WbTermsSet *terms;
  const GDate      *today;
  WbDueList        *list;
} Gathering;

static char *
keep (WbDueList  *list,
      const char *text)
{
  return text != NULL ? g_string_chunk_insert (list->texts, text) : NULL;
}

static WbDue
make_due (WbDueList         *list,
          const WbOpenClaim *claim)
{
  WbDue due = { .group = WB_DUE_UNKNOWN };

  due.job_id = keep (list, claim->job_id);
  due.job_number = keep (list, claim->job_number);
  due.claim_id = keep (list, claim->claim_id);
  due.claim_number = keep (list, claim->claim_number);
  due.shipper = keep (list, claim->shipper);
  return due;
}

/* @due: what all entries of the claim have */
static void
add_clock (WbDueList     *list,
           WbDue          due,
           const WbTerms *terms,
           const WbClock *clock)
{
  const char *citation = wb_terms_citation (terms, WB_SCOPE_GENERAL, clock->key);

  if (clock->state == WB_CLOCK_MET || clock->state == WB_CLOCK_MISSED)
    return;
  due.clock = *clock;
  due.citation = citation != NULL ? g_string_chunk_insert_const (list->texts, citation) : NULL;
  if (clock->state != WB_CLOCK_NOT_STARTED)
    due.group = wb_due_group (clock->days_left);
  g_array_append_val (list->entries, due);
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
  WbDue due = make_due (gathering->list, claim);

  if (clocks == NULL)
    {
      g_autofree char *fault = wb_words_error (error);

      due.fault = g_string_chunk_insert_const (gathering->list->texts, fault);
      g_array_append_val (gathering->list->entries, due);
    }
  for (guint i = 0; clocks != NULL && i < clocks->len; i++)
    add_clock (gathering->list, due, terms, &g_array_index (clocks, WbClock, i));
}

/* --- all of them ------------------------------------------------------------------------------ */

#define SIZE_OF_CHUNK 65536

static WbDueList *
list_new (void)
{
  WbDueList *self = g_new0 (WbDueList, 1);

  g_atomic_ref_count_init (&self->references);
  self->texts = g_string_chunk_new (SIZE_OF_CHUNK);
  self->entries = g_array_new (FALSE, FALSE, sizeof (WbDue));
  self->order = g_array_new (FALSE, FALSE, sizeof (Place));
  return self;
}

WbDueList *
wb_due_list_ref (WbDueList *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_due_list_unref (WbDueList *self)
{
  if (self == NULL || !g_atomic_ref_count_dec (&self->references))
    return;
  g_string_chunk_free (self->texts);
  g_array_unref (self->entries);
  g_array_unref (self->order);
  g_free (self);
}

guint
wb_due_list_count (const WbDueList *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->order->len;
}

const WbDue *
wb_due_list_nth (const WbDueList *self,
                 guint            index)
{
  g_return_val_if_fail (self != NULL && index < self->order->len, NULL);

  return &g_array_index (self->entries, WbDue, g_array_index (self->order, Place, index).entry);
}

static int
compare_places (gconstpointer a,
                gconstpointer b)
{
  const Place *one = a;
  const Place *other = b;

  if (one->day != other->day)
    return one->day < other->day ? -1 : 1;
  return one->entry < other->entry ? -1 : one->entry > other->entry;
}

static void
sort (WbDueList *self)
{
  g_array_set_size (self->order, self->entries->len);
  for (guint i = 0; i < self->entries->len; i++)
    {
      const WbDue *due = &g_array_index (self->entries, WbDue, i);
      Place *place = &g_array_index (self->order, Place, i);

      place->entry = i;
      place->day = due->group != WB_DUE_UNKNOWN ? g_date_get_julian (&due->clock.last_day)
                                                : G_MAXUINT32;
    }
  g_array_sort (self->order, compare_places);
}

WbDueList *
wb_office_list_due (WbOffice      *self,
                    const GDate   *today,
                    GCancellable  *cancellable,
                    GError       **error)
{
  g_autoptr (WbDueList) list = list_new ();
  Gathering gathering = { NULL, today, list };

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (wb_date_is_set (today), NULL);

  gathering.terms = wb_office_get_terms (self);
  if (!wb_book_scan_open_claims (wb_office_get_book (self), add_claim, &gathering, cancellable,
                                 error))
    return NULL;
  sort (list);
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
  deed->free_result = (GDestroyNotify) wb_due_list_unref;
  wb_office_start (self, deed, wb_office_list_due_async, cancellable, callback, data);
}

WbDueList *
wb_office_list_due_finish (WbOffice      *self,
                           GAsyncResult  *result,
                           GError       **error)
{
  return wb_office_finish (self, result, wb_office_list_due_async, error);
}
