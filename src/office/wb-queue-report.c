/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Carries the queue as it is from the thread that minds it to the one that shows it. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-queue-private.h"

#include "office/wb-office-private.h"
#include "store/wb-server-store.h"

void
wb_queue_report_free (WbQueueReport *self)
{
  if (self == NULL)
    return;

  g_clear_pointer (&self->entries, g_ptr_array_unref);
  g_clear_pointer (&self->names, g_hash_table_unref);
  g_clear_pointer (&self->progress, wb_progress_unref);
  g_clear_error (&self->fault);
  g_free (self);
}

/* --- who is told ------------------------------------------------------------------------------ */

/* Held by the work and by whatever is on its way: only the thread that shows the queue ever makes a
 * strong reference of it, and so lets go of the last. */
struct _WbQueueListener
{
  GWeakRef           queue;
  GMainContext      *context;
  WbQueueReportFunc  each;
};

WbQueueListener *
wb_queue_listener_new (GObject           *queue,
                       GMainContext      *context,
                       WbQueueReportFunc  each)
{
  WbQueueListener *self = g_atomic_rc_box_new0 (WbQueueListener);

  g_weak_ref_init (&self->queue, queue);
  self->context = g_main_context_ref (context);
  self->each = each;
  return self;
}

static void
listener_clear (gpointer data)
{
  WbQueueListener *self = data;

  g_weak_ref_clear (&self->queue);
  g_main_context_unref (self->context);
}

void
wb_queue_listener_unref (WbQueueListener *self)
{
  g_atomic_rc_box_release_full (self, listener_clear);
}

/* --- what is told ----------------------------------------------------------------------------- */

typedef struct
{
  WbQueueListener *listener;
  WbQueueReport   *report;
} Delivery;

static void
delivery_free (gpointer data)
{
  Delivery *delivery = data;

  wb_queue_report_free (delivery->report);
  wb_queue_listener_unref (delivery->listener);
  g_free (delivery);
}

static gboolean
deliver_cb (gpointer data)
{
  Delivery *delivery = data;
  g_autoptr (GObject) queue = g_weak_ref_get (&delivery->listener->queue);

  if (queue != NULL)
    delivery->listener->each (delivery->report, queue);
  return G_SOURCE_REMOVE;
}

static GHashTable *
names_of_servers (WbOffice  *office,
                  GError   **error)
{
  g_autoptr (GPtrArray) servers = wb_book_list_servers (wb_office_get_book (office), NULL, error);
  GHashTable *names;

  if (servers == NULL)
    return NULL;
  names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  for (guint i = 0; i < servers->len; i++)
    {
      const WbServer *server = g_ptr_array_index (servers, i);

      g_hash_table_insert (names, g_strdup (server->id), g_strdup (server->name));
    }
  return names;
}

static GPtrArray *
copy_entries (GPtrArray *entries)
{
  GPtrArray *copy = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_share_entry_free);

  for (guint i = 0; i < entries->len; i++)
    g_ptr_array_add (copy, wb_share_entry_copy (g_ptr_array_index (entries, i)));
  return copy;
}

void
wb_queue_listener_tell (WbQueueListener       *self,
                        WbOffice              *office,
                        GPtrArray             *entries,
                        const WbQueueTransfer *transfer,
                        GError                *fault)
{
  g_autoptr (GSource) source = g_idle_source_new ();
  WbQueueReport *report = g_new0 (WbQueueReport, 1);
  Delivery *delivery = g_new0 (Delivery, 1);

  report->fault = fault;
  if (entries != NULL)
    report->names = names_of_servers (office, fault == NULL ? &report->fault : NULL);
  if (report->names != NULL)
    report->entries = copy_entries (entries);
  if (transfer != NULL)
    {
      report->running = transfer->entry->id;
      report->progress = wb_progress_ref (transfer->progress);
    }

  delivery->listener = g_atomic_rc_box_acquire (self);
  delivery->report = report;
  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, deliver_cb, delivery, delivery_free);
  g_source_set_static_name (source, "wb-queue report");
  g_source_attach (source, self->context);
}
