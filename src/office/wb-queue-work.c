/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Works on the queue of a book. One thread minds the queue: it does what a person ordered, claims
 * the next entry, says that it is still at work on it, and lays it down; another, which lives as
 * long as an entry takes, speaks with the server and holds nothing of the book meanwhile. What a
 * window shows of it is made in wb-queue.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-queue-private.h"

#include "office/wb-office-private.h"

/* How often the queue is looked at; a look at a book that nobody changed costs next to nothing. */
#define LOOK     G_USEC_PER_SEC
#define PATIENCE 60

typedef struct
{
  WbQueueOrder  what;
  gint64        id;
  char         *server_id;
} Order;

struct _WbQueueWork
{
  gatomicrefcount    references;
  WbOffice          *office;
  WbQueueMeans       means;
  char              *holder;
  WbQueueListener   *listener;
  GThread           *thread;

  GMutex             mutex;    /* of what follows */
  GCond              cond;
  gboolean           stopping;
  gboolean           woken;
  GQueue             orders;
  GHashTable        *secrets;  /* server id → WbSecret */

  /* Of the thread that minds the queue. */
  WbQueueTransfer   *transfer; /* (nullable): what is under way, and of it: */
  gint64             beat;     /* when it was last said that somebody is at work on it */
  gboolean           listed;   /* the queue was read since it began */
  gboolean           lost;     /* it is ours no more */
  GPtrArray         *entries;  /* (nullable): the queue as last read */
  gint64             version;  /* of the book, when they were */
  guint              n_looks;
  GError            *fault;    /* not yet reported */
};

static void
order_free (gpointer data)
{
  Order *order = data;

  g_free (order->server_id);
  g_free (order);
}

static WbQueueWork *
work_ref (WbQueueWork *self)
{
  g_atomic_ref_count_inc (&self->references);
  return self;
}

static void
work_unref (WbQueueWork *self)
{
  if (!g_atomic_ref_count_dec (&self->references))
    return;

  g_queue_clear_full (&self->orders, order_free);
  g_clear_pointer (&self->secrets, g_hash_table_unref);
  g_clear_pointer (&self->entries, g_ptr_array_unref);
  g_clear_pointer (&self->listener, wb_queue_listener_unref);
  g_clear_error (&self->fault);
  g_clear_object (&self->office);
  g_mutex_clear (&self->mutex);
  g_cond_clear (&self->cond);
  g_free (self->holder);
  g_free (self);
}

static gint64
now_of (WbQueueWork *self)
{
  return self->means.now != NULL ? self->means.now (self->means.data)
                                 : g_get_real_time () / G_USEC_PER_SEC;
}

static guint32
chance_of (WbQueueWork *self)
{
  return self->means.chance != NULL ? self->means.chance (self->means.data) : g_random_int ();
}

static gint64
patience_of (WbQueueWork *self)
{
  return self->means.patience > 0 ? self->means.patience : PATIENCE;
}

static WbBook *
book_of (WbQueueWork *self)
{
  return wb_office_get_book (self->office);
}

/* Keeps a fault of the queue itself for the next report. */
static void
note_fault (WbQueueWork *self,
            GError      *fault)
{
  g_clear_error (&self->fault);
  self->fault = fault;
}

/* --- speaking with a server ------------------------------------------------------------------- */

static void
wake (gpointer data)
{
  wb_queue_work_wake (data);
}

static void
let_go (gpointer data)
{
  work_unref (data);
}

static void
start_transfer (WbQueueWork  *self,
                WbShareEntry *entry)
{
  g_autoptr (WbSecret) secret = NULL;

  g_mutex_lock (&self->mutex);
  secret = g_hash_table_lookup (self->secrets, entry->server_id);
  if (secret != NULL)
    wb_secret_ref (secret);
  g_mutex_unlock (&self->mutex);

  self->transfer = wb_queue_transfer_start (self->office, &self->means, entry, secret, wake,
                                            work_ref (self), let_go);
  self->beat = now_of (self);
  self->listed = FALSE;
  self->lost = FALSE;
}

/* --- laying an entry down --------------------------------------------------------------------- */

static void
read_progress (WbQueueTransfer *transfer)
{
  WbProgressState state;

  wb_progress_get (transfer->progress, &state);
  if (state.all > 0)
    {
      transfer->entry->done = state.done;
      transfer->entry->all = state.all;
    }
}

/* The server has answered for good: says so in the book. When the book does not take it, it is told
 * again at the next look. */
static void
lay_down (WbQueueWork *self)
{
  const GError *error = wb_queue_transfer_join (self->transfer);
  g_autoptr (WbShareEntry) laid = NULL;
  GError *fault = NULL;

  read_progress (self->transfer);
  laid = wb_share_entry_copy (self->transfer->entry);
  wb_queue_judge (laid, error, now_of (self), chance_of (self));
  if (!self->lost && !wb_book_lay_share_entry (book_of (self), laid, self->holder, &fault))
    {
      note_fault (self, fault);
      return;
    }
  g_clear_pointer (&self->transfer, wb_queue_transfer_free);
}

static void
lose (WbQueueWork *self)
{
  self->lost = TRUE;
  g_cancellable_cancel (self->transfer->cancellable);
}

/* Says that somebody is at work on the entry, unless that was said just now. */
static void
beat (WbQueueWork *self)
{
  const WbShareEntry *entry = self->transfer->entry;
  gint64 now = now_of (self);
  gboolean still;
  GError *fault = NULL;

  if (ABS (now - self->beat) < MAX (1, patience_of (self) / 6))
    return;
  read_progress (self->transfer);
  if (!wb_book_beat_share_entry (book_of (self), entry->id, self->holder, now, entry->done,
                                 entry->all, &still, &fault))
    note_fault (self, fault);
  else if (!still)
    lose (self);
  else
    self->beat = now;
}

/* Whether the entry under way is still to be done, by what was last read. */
static gboolean
is_wanted (WbQueueWork *self)
{
  if (!self->listed)
    return TRUE;
  for (guint i = 0; i < self->entries->len; i++)
    {
      const WbShareEntry *entry = g_ptr_array_index (self->entries, i);

      if (entry->id == self->transfer->entry->id)
        return entry->state == WB_SHARE_RUNNING;
    }
  return FALSE;
}

static void
tend (WbQueueWork *self)
{
  if (self->transfer == NULL)
    return;
  if (wb_queue_transfer_is_finished (self->transfer))
    lay_down (self);
  else if (!is_wanted (self))
    lose (self);
  else
    beat (self);
}

/* --- orders ----------------------------------------------------------------------------------- */

static void
do_orders (WbQueueWork *self)
{
  for (;;)
    {
      Order *order;
      GError *fault = NULL;

      g_mutex_lock (&self->mutex);
      order = g_queue_pop_head (&self->orders);
      g_mutex_unlock (&self->mutex);
      if (order == NULL)
        return;
      if (!wb_queue_obey (self->office, order->what, order->id, order->server_id, &fault))
        {
          if (g_error_matches (fault, WB_STORE_ERROR, WB_STORE_ERROR_NOT_FOUND))
            g_error_free (fault);
          else
            note_fault (self, fault);
        }
      order_free (order);
    }
}

/* --- reports ---------------------------------------------------------------------------------- */

static void
report (WbQueueWork *self)
{
  wb_queue_listener_tell (self->listener, self->office, self->entries, self->transfer,
                          g_steal_pointer (&self->fault));
}

/* Reads the queue anew when the book was changed, by whomever. Returns: whether it was reported. */
static gboolean
look (WbQueueWork *self)
{
  GError *fault = NULL;
  gint64 version = wb_book_get_data_version (book_of (self), &fault);
  g_autoptr (GPtrArray) entries = NULL;

  if (fault == NULL && self->entries != NULL && version == self->version && self->fault == NULL)
    return FALSE;
  if (fault == NULL)
    entries = wb_office_queue_list (self->office, NULL, &fault);
  if (entries != NULL)
    {
      g_clear_pointer (&self->entries, g_ptr_array_unref);
      self->entries = g_steal_pointer (&entries);
      self->version = version;
      self->listed = TRUE;
    }
  if (fault != NULL)
    note_fault (self, fault);
  report (self);
  return TRUE;
}

/* --- claiming --------------------------------------------------------------------------------- */

/* Whether an entry may be there for the taking. One that somebody else has under way is asked for
 * now and then only. */
static gboolean
may_claim (WbQueueWork *self)
{
  gint64 now = now_of (self);

  for (guint i = 0; self->entries != NULL && i < self->entries->len; i++)
    {
      const WbShareEntry *entry = g_ptr_array_index (self->entries, i);

      if ((entry->state == WB_SHARE_WAITING &&
           (entry->next_try <= now || entry->next_try > now + WB_SHARE_LONGEST_WAIT)) ||
          (entry->state == WB_SHARE_RUNNING && self->n_looks % 4 == 0))
        return TRUE;
    }
  return FALSE;
}

static void
claim (WbQueueWork *self)
{
  WbShareEntry *entry = NULL;
  GError *fault = NULL;

  if (self->transfer != NULL || !may_claim (self))
    return;
  if (!wb_book_claim_share_entry (book_of (self), self->holder, now_of (self), patience_of (self),
                                  &entry, NULL, &fault))
    note_fault (self, fault);
  else if (entry != NULL)
    start_transfer (self, entry);
}

/* --- the thread ------------------------------------------------------------------------------- */

/* Returns: %FALSE when the work is to end. */
static gboolean
rest (WbQueueWork *self)
{
  gint64 until = g_get_monotonic_time () + LOOK;
  gboolean stopping;

  g_mutex_lock (&self->mutex);
  while (!self->stopping && !self->woken && g_cond_wait_until (&self->cond, &self->mutex, until))
    ;
  self->n_looks = self->woken ? 0 : self->n_looks + 1;
  self->woken = FALSE;
  stopping = self->stopping;
  g_mutex_unlock (&self->mutex);
  return !stopping;
}

/* What is under way waits again, for whoever comes next. */
static void
end_transfer (WbQueueWork *self)
{
  if (self->transfer == NULL)
    return;

  g_cancellable_cancel (self->transfer->cancellable);
  lay_down (self);
  if (self->transfer != NULL)
    lay_down (self);
  if (self->transfer != NULL)
    {
      g_warning ("the queue could not be told that its work ends: %s", self->fault->message);
      g_clear_pointer (&self->transfer, wb_queue_transfer_free);
    }
}

static gpointer
mind (gpointer data)
{
  WbQueueWork *self = data;

  do
    {
      gint64 before = self->transfer != NULL ? self->transfer->entry->id : 0;

      do_orders (self);
      (void) look (self);
      tend (self);
      claim (self);
      /* What was begun or ended just now is shown, also when the book had nothing to do with it. */
      if (before != (self->transfer != NULL ? self->transfer->entry->id : 0) && !look (self))
        report (self);
    }
  while (rest (self));

  do_orders (self);
  end_transfer (self);
  if (!look (self))
    report (self);
  work_unref (self);
  return NULL;
}

/* --- from outside ----------------------------------------------------------------------------- */

WbQueueWork *
wb_queue_work_start (WbOffice           *office,
                     const WbQueueMeans *means,
                     GHashTable         *secrets,
                     WbQueueListener    *listener)
{
  WbQueueWork *self = g_new0 (WbQueueWork, 1);

  g_atomic_ref_count_init (&self->references);
  g_mutex_init (&self->mutex);
  g_cond_init (&self->cond);
  g_queue_init (&self->orders);
  self->office = g_object_ref (office);
  self->means = *means;
  self->holder = g_uuid_string_random ();
  self->secrets = g_hash_table_ref (secrets);
  self->listener = listener;
  self->thread = g_thread_new ("wainbook-queue", mind, work_ref (self));
  return self;
}

void
wb_queue_work_order (WbQueueWork  *self,
                     WbQueueOrder  what,
                     gint64        id,
                     const char   *server_id)
{
  Order *order = g_new0 (Order, 1);

  order->what = what;
  order->id = id;
  order->server_id = g_strdup (server_id);
  g_mutex_lock (&self->mutex);
  g_queue_push_tail (&self->orders, order);
  self->woken = TRUE;
  g_cond_broadcast (&self->cond);
  g_mutex_unlock (&self->mutex);
}

void
wb_queue_work_set_secret (WbQueueWork *self,
                          const char  *server_id,
                          WbSecret    *secret)
{
  g_mutex_lock (&self->mutex);
  if (secret != NULL)
    g_hash_table_insert (self->secrets, g_strdup (server_id), wb_secret_ref (secret));
  else
    g_hash_table_remove (self->secrets, server_id);
  g_mutex_unlock (&self->mutex);
}

void
wb_queue_work_wake (WbQueueWork *self)
{
  g_mutex_lock (&self->mutex);
  self->woken = TRUE;
  g_cond_broadcast (&self->cond);
  g_mutex_unlock (&self->mutex);
}

void
wb_queue_work_stop (WbQueueWork *self,
                    gboolean     wait)
{
  GThread *thread = g_steal_pointer (&self->thread);

  g_mutex_lock (&self->mutex);
  self->stopping = TRUE;
  g_cond_broadcast (&self->cond);
  g_mutex_unlock (&self->mutex);

  if (wait)
    g_thread_join (thread);
  else
    g_thread_unref (thread);
  work_unref (self);
}
