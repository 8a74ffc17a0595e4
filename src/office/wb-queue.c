/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The queue of a book as a list for a window. It shows what the thread that minds the queue
 * reports, and hands on what a person orders; nothing here reads or writes the book. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-queue-private.h"

#include "office/wb-share-private.h"
#include "office/wb-words.h"

/* How often progress is shown, in milliseconds. */
#define GLANCE 250

struct _WbQueue
{
  GObject       parent_instance;

  WbOffice     *office;
  WbQueueMeans  means;
  GMainContext *context;
  GHashTable   *secrets;    /* server id → WbSecret; the work guards it while there is one */
  WbQueueWork  *work;       /* (nullable): while it is started */
  GPtrArray    *items;      /* WbQueueItem */
  WbQueueItem  *running;    /* (nullable) */
  WbProgress   *progress;   /* (nullable): of it */
  GSource      *glance;     /* (nullable): looks at it */
  gboolean      loaded;
  char         *fault;
};

enum
{
  PROP_0,
  PROP_LOADED,
  PROP_FAULT,
  PROP_RUNNING,
  PROP_N_OPEN,
  PROP_N_FAILED,
  N_PROPERTIES
};

static GParamSpec *properties[N_PROPERTIES];

static GType
get_item_type (GListModel *model)
{
  return WB_TYPE_QUEUE_ITEM;
}

static guint
get_n_items (GListModel *model)
{
  return WB_QUEUE (model)->items->len;
}

static gpointer
get_item (GListModel *model,
          guint       position)
{
  WbQueue *self = WB_QUEUE (model);

  return position < self->items->len ? g_object_ref (g_ptr_array_index (self->items, position))
                                     : NULL;
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (WbQueue, wb_queue, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

/* --- progress --------------------------------------------------------------------------------- */

static gboolean
glance_cb (gpointer data)
{
  WbQueue *self = data;
  WbProgressState state;

  wb_progress_get (self->progress, &state);
  wb_queue_item_set_progress (self->running, &state);
  return G_SOURCE_CONTINUE;
}

static void
stop_glancing (WbQueue *self)
{
  if (self->glance != NULL)
    g_source_destroy (self->glance);
  g_clear_pointer (&self->glance, g_source_unref);
  g_clear_pointer (&self->progress, wb_progress_unref);
  if (self->running != NULL)
    wb_queue_item_set_progress (self->running, NULL);
}

static void
set_running (WbQueue     *self,
             WbQueueItem *item,
             WbProgress  *progress)
{
  if (item == self->running && progress == self->progress)
    return;

  stop_glancing (self);
  g_set_object (&self->running, item);
  if (item != NULL)
    {
      self->progress = wb_progress_ref (progress);
      self->glance = g_timeout_source_new (GLANCE);
      g_source_set_callback (self->glance, glance_cb, self, NULL);
      g_source_set_static_name (self->glance, "wb-queue progress");
      g_source_attach (self->glance, self->context);
      (void) glance_cb (self);
    }
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_RUNNING]);
}

/* --- reports ---------------------------------------------------------------------------------- */

static WbQueueItem *
find_item (WbQueue *self,
           gint64   id)
{
  for (guint i = 0; i < self->items->len; i++)
    {
      WbQueueItem *item = g_ptr_array_index (self->items, i);

      if (wb_queue_item_get_id (item) == id)
        return item;
    }
  return NULL;
}

/* Entries keep their order and come in at the end, so what is gone goes one by one. */
static void
remove_gone (WbQueue   *self,
             GPtrArray *entries)
{
  guint at = 0;

  for (guint i = 0; i < self->items->len;)
    {
      gint64 id = wb_queue_item_get_id (g_ptr_array_index (self->items, i));

      while (at < entries->len && ((WbShareEntry *) g_ptr_array_index (entries, at))->id < id)
        at++;
      if (at < entries->len && ((WbShareEntry *) g_ptr_array_index (entries, at))->id == id)
        {
          i++;
          continue;
        }
      g_ptr_array_remove_index (self->items, i);
      g_list_model_items_changed (G_LIST_MODEL (self), i, 1, 0);
    }
}

static void
take_entries (WbQueue    *self,
              GPtrArray  *entries,
              GHashTable *names)
{
  guint before;

  remove_gone (self, entries);
  before = self->items->len;
  for (guint i = 0; i < entries->len; i++)
    {
      WbShareEntry *entry = g_ptr_array_index (entries, i);
      WbQueueItem *item = i < before ? g_ptr_array_index (self->items, i) : NULL;

      if (item == NULL)
        {
          item = wb_queue_item_new (entry->id);
          g_ptr_array_add (self->items, item);
        }
      wb_queue_item_take_entry (item, wb_share_entry_copy (entry),
                                g_hash_table_lookup (names, entry->server_id));
    }
  if (self->items->len > before)
    g_list_model_items_changed (G_LIST_MODEL (self), before, 0, self->items->len - before);
}

static void
set_fault (WbQueue      *self,
           const GError *fault)
{
  g_autofree char *words = fault != NULL ? wb_words_error (fault) : NULL;

  if (g_strcmp0 (words, self->fault) == 0)
    return;
  g_free (self->fault);
  self->fault = g_steal_pointer (&words);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_FAULT]);
}

static guint
count_open (WbQueue *self)
{
  return wb_queue_count (self, WB_SHARE_WAITING) + wb_queue_count (self, WB_SHARE_RUNNING);
}

static void
reported (WbQueueReport *report,
          gpointer       data)
{
  WbQueue *self = WB_QUEUE (data);
  guint n_open = count_open (self);
  guint n_failed = wb_queue_count (self, WB_SHARE_FAILED);
  WbQueueItem *running;

  if (report->entries != NULL)
    take_entries (self, report->entries, report->names);
  running = report->running != 0 ? find_item (self, report->running) : NULL;
  set_running (self, running, running != NULL ? report->progress : NULL);
  set_fault (self, report->fault);
  if (n_open != count_open (self))
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_N_OPEN]);
  if (n_failed != wb_queue_count (self, WB_SHARE_FAILED))
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_N_FAILED]);
  if (!self->loaded && report->entries != NULL)
    {
      self->loaded = TRUE;
      g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_LOADED]);
    }
}

/* --- overrides -------------------------------------------------------------------------------- */

static void
wb_queue_get_property (GObject    *object,
                       guint       id,
                       GValue     *value,
                       GParamSpec *pspec)
{
  WbQueue *self = WB_QUEUE (object);

  switch (id)
    {
    case PROP_LOADED:
      g_value_set_boolean (value, self->loaded);
      break;
    case PROP_FAULT:
      g_value_set_string (value, self->fault);
      break;
    case PROP_RUNNING:
      g_value_set_object (value, self->running);
      break;
    case PROP_N_OPEN:
      g_value_set_uint (value, count_open (self));
      break;
    case PROP_N_FAILED:
      g_value_set_uint (value, wb_queue_count (self, WB_SHARE_FAILED));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
wb_queue_dispose (GObject *object)
{
  WbQueue *self = WB_QUEUE (object);

  if (self->work != NULL)
    wb_queue_work_stop (g_steal_pointer (&self->work), FALSE);
  stop_glancing (self);
  g_clear_object (&self->running);
  g_clear_object (&self->office);

  G_OBJECT_CLASS (wb_queue_parent_class)->dispose (object);
}

static void
wb_queue_finalize (GObject *object)
{
  WbQueue *self = WB_QUEUE (object);

  g_ptr_array_unref (self->items);
  g_hash_table_unref (self->secrets);
  g_clear_pointer (&self->context, g_main_context_unref);
  g_free (self->fault);

  G_OBJECT_CLASS (wb_queue_parent_class)->finalize (object);
}

static void
wb_queue_class_init (WbQueueClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = wb_queue_get_property;
  object_class->dispose = wb_queue_dispose;
  object_class->finalize = wb_queue_finalize;

  properties[PROP_LOADED] = g_param_spec_boolean ("loaded", NULL, NULL, FALSE, flags);
  properties[PROP_FAULT] = g_param_spec_string ("fault", NULL, NULL, NULL, flags);
  properties[PROP_RUNNING] = g_param_spec_object ("running", NULL, NULL, WB_TYPE_QUEUE_ITEM, flags);
  properties[PROP_N_OPEN] = g_param_spec_uint ("n-open", NULL, NULL, 0, G_MAXUINT, 0, flags);
  properties[PROP_N_FAILED] = g_param_spec_uint ("n-failed", NULL, NULL, 0, G_MAXUINT, 0, flags);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
}

static void
wb_queue_init (WbQueue *self)
{
  self->items = g_ptr_array_new_with_free_func (g_object_unref);
  self->context = g_main_context_ref_thread_default ();
  self->secrets = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                         (GDestroyNotify) wb_secret_unref);
}

/* --- starting and stopping -------------------------------------------------------------------- */

WbQueue *
wb_queue_new (WbOffice           *office,
              const WbQueueMeans *means)
{
  WbQueue *self;

  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);

  self = g_object_new (WB_TYPE_QUEUE, NULL);
  self->office = g_object_ref (office);
  if (means != NULL)
    self->means = *means;
  return self;
}

void
wb_queue_start (WbQueue *self)
{
  g_return_if_fail (WB_IS_QUEUE (self));

  if (self->work == NULL)
    self->work = wb_queue_work_start (self->office, &self->means, self->secrets,
                                      wb_queue_listener_new (G_OBJECT (self), self->context,
                                                             reported));
}

void
wb_queue_stop (WbQueue *self)
{
  g_return_if_fail (WB_IS_QUEUE (self));

  if (self->work != NULL)
    wb_queue_work_stop (g_steal_pointer (&self->work), TRUE);
}

WbOffice *
wb_queue_get_office (WbQueue *self)
{
  return self->office;
}

/* --- orders ----------------------------------------------------------------------------------- */

static void
order (WbQueue      *self,
       WbQueueOrder  what,
       gint64        id,
       const char   *server_id)
{
  g_return_if_fail (WB_IS_QUEUE (self));
  g_return_if_fail (self->work != NULL);

  wb_queue_work_order (self->work, what, id, server_id);
}

void
wb_queue_pause (WbQueue *self,
                gint64   id)
{
  order (self, WB_QUEUE_ORDER_PAUSE, id, NULL);
}

void
wb_queue_resume (WbQueue *self,
                 gint64   id)
{
  order (self, WB_QUEUE_ORDER_RESUME, id, NULL);
}

void
wb_queue_cancel (WbQueue *self,
                 gint64   id)
{
  order (self, WB_QUEUE_ORDER_CANCEL, id, NULL);
}

void
wb_queue_clear (WbQueue *self)
{
  order (self, WB_QUEUE_ORDER_CLEAR, 0, NULL);
}

void
wb_queue_resume_server (WbQueue    *self,
                        const char *server_id)
{
  order (self, WB_QUEUE_ORDER_RESUME_SERVER, 0, server_id);
}

void
wb_queue_set_secret (WbQueue    *self,
                     const char *server_id,
                     WbSecret   *secret)
{
  g_return_if_fail (WB_IS_QUEUE (self));
  g_return_if_fail (server_id != NULL);

  if (self->work != NULL)
    {
      wb_queue_work_set_secret (self->work, server_id, secret);
      if (secret != NULL)
        wb_queue_resume_server (self, server_id);
    }
  else if (secret != NULL)
    g_hash_table_insert (self->secrets, g_strdup (server_id), wb_secret_ref (secret));
  else
    g_hash_table_remove (self->secrets, server_id);
}

void
wb_queue_wake (WbQueue *self)
{
  g_return_if_fail (WB_IS_QUEUE (self));

  if (self->work != NULL)
    wb_queue_work_wake (self->work);
}

/* --- what it says ----------------------------------------------------------------------------- */

gboolean
wb_queue_get_loaded (WbQueue *self)
{
  g_return_val_if_fail (WB_IS_QUEUE (self), FALSE);

  return self->loaded;
}

const char *
wb_queue_get_fault (WbQueue *self)
{
  g_return_val_if_fail (WB_IS_QUEUE (self), NULL);

  return self->fault;
}

WbQueueItem *
wb_queue_get_running (WbQueue *self)
{
  g_return_val_if_fail (WB_IS_QUEUE (self), NULL);

  return self->running;
}

guint
wb_queue_count (WbQueue      *self,
                WbShareState  state)
{
  guint n = 0;

  g_return_val_if_fail (WB_IS_QUEUE (self), 0);

  for (guint i = 0; i < self->items->len; i++)
    n += wb_queue_item_get_entry (g_ptr_array_index (self->items, i))->state == state ? 1 : 0;
  return n;
}
