/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One entry of the queue as an object with properties, for lists in a window. It only shows: what
 * is to become of an entry is told to the queue. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-queue-private.h"

#include "office/wb-share-private.h"

struct _WbQueueItem
{
  GObject          parent_instance;

  gint64           id;
  WbShareEntry    *entry;
  char            *server;
  gboolean         here;       /* this program is at work on it, and so: */
  WbProgressState  progress;
};

G_DEFINE_FINAL_TYPE (WbQueueItem, wb_queue_item, G_TYPE_OBJECT)

enum
{
  PROP_0,
  PROP_TITLE,
  PROP_SERVER,
  PROP_DEED,
  PROP_STATE,
  PROP_FAULT_KIND,
  PROP_FAULT,
  PROP_DONE,
  PROP_ALL,
  PROP_SPEED,
  PROP_SECONDS_LEFT,
  PROP_NEXT_TRY,
  PROP_WORDS,
  N_PROPERTIES
};

static GParamSpec *properties[N_PROPERTIES];

static void
wb_queue_item_get_property (GObject    *object,
                            guint       id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  WbQueueItem *self = WB_QUEUE_ITEM (object);
  WbProgressState progress;

  wb_queue_item_get_progress (self, &progress);
  switch (id)
    {
    case PROP_TITLE:
      g_value_set_string (value, self->entry->title);
      break;
    case PROP_SERVER:
      g_value_set_string (value, self->server);
      break;
    case PROP_DEED:
      g_value_set_int (value, (int) self->entry->deed);
      break;
    case PROP_STATE:
      g_value_set_int (value, (int) self->entry->state);
      break;
    case PROP_FAULT_KIND:
      g_value_set_int (value, (int) wb_queue_item_get_fault_kind (self));
      break;
    case PROP_FAULT:
      g_value_set_string (value, wb_queue_item_get_fault (self));
      break;
    case PROP_DONE:
      g_value_set_int64 (value, progress.done);
      break;
    case PROP_ALL:
      g_value_set_int64 (value, progress.all);
      break;
    case PROP_SPEED:
      g_value_set_int64 (value, progress.speed);
      break;
    case PROP_SECONDS_LEFT:
      g_value_set_int64 (value, progress.seconds_left);
      break;
    case PROP_NEXT_TRY:
      g_value_set_int64 (value, self->entry->next_try);
      break;
    case PROP_WORDS:
      g_value_set_string (value, progress.words);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
wb_queue_item_finalize (GObject *object)
{
  WbQueueItem *self = WB_QUEUE_ITEM (object);

  g_clear_pointer (&self->entry, wb_share_entry_free);
  g_free (self->server);

  G_OBJECT_CLASS (wb_queue_item_parent_class)->finalize (object);
}

static GParamSpec *
text_spec (const char *name)
{
  return g_param_spec_string (name, NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
}

static GParamSpec *
choice_spec (const char *name)
{
  return g_param_spec_int (name, NULL, NULL, 0, G_MAXINT, 0,
                           G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
}

static GParamSpec *
number_spec (const char *name)
{
  return g_param_spec_int64 (name, NULL, NULL, G_MININT64, G_MAXINT64, 0,
                             G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
}

static void
wb_queue_item_class_init (WbQueueItemClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_queue_item_get_property;
  object_class->finalize = wb_queue_item_finalize;

  properties[PROP_TITLE] = text_spec ("title");
  properties[PROP_SERVER] = text_spec ("server");
  properties[PROP_DEED] = choice_spec ("deed");
  properties[PROP_STATE] = choice_spec ("state");
  properties[PROP_FAULT_KIND] = choice_spec ("fault-kind");
  properties[PROP_FAULT] = text_spec ("fault");
  properties[PROP_DONE] = number_spec ("done");
  properties[PROP_ALL] = number_spec ("all");
  properties[PROP_SPEED] = number_spec ("speed");
  properties[PROP_SECONDS_LEFT] = number_spec ("seconds-left");
  properties[PROP_NEXT_TRY] = number_spec ("next-try");
  properties[PROP_WORDS] = text_spec ("words");
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
}

static void
wb_queue_item_init (WbQueueItem *self)
{
  self->progress.seconds_left = -1;
}

WbQueueItem *
wb_queue_item_new (gint64 id)
{
  WbQueueItem *self = g_object_new (WB_TYPE_QUEUE_ITEM, NULL);

  self->id = id;
  self->entry = g_new0 (WbShareEntry, 1);
  self->entry->id = id;
  return self;
}

/* --- changes ---------------------------------------------------------------------------------- */

static void
tell (WbQueueItem *self,
      guint        property,
      gboolean     changed)
{
  if (changed)
    g_object_notify_by_pspec (G_OBJECT (self), properties[property]);
}

/* Tells of what is another in the progress than @before. */
static void
tell_progress (WbQueueItem           *self,
               const WbProgressState *before)
{
  WbProgressState now;

  wb_queue_item_get_progress (self, &now);
  tell (self, PROP_DONE, now.done != before->done);
  tell (self, PROP_ALL, now.all != before->all);
  tell (self, PROP_SPEED, now.speed != before->speed);
  tell (self, PROP_SECONDS_LEFT, now.seconds_left != before->seconds_left);
  tell (self, PROP_WORDS, g_strcmp0 (now.words, before->words) != 0);
}

void
wb_queue_item_take_entry (WbQueueItem  *self,
                          WbShareEntry *entry,
                          const char   *server)
{
  g_autoptr (WbShareEntry) old = g_steal_pointer (&self->entry);
  WbProgressState before = self->progress;
  gboolean renamed = g_strcmp0 (self->server, server) != 0;

  if (!self->here)
    before = (WbProgressState) { .done = old->done, .all = old->all, .seconds_left = -1 };
  self->entry = entry;
  if (renamed)
    {
      g_free (self->server);
      self->server = g_strdup (server);
    }

  g_object_freeze_notify (G_OBJECT (self));
  tell (self, PROP_TITLE, g_strcmp0 (old->title, entry->title) != 0);
  tell (self, PROP_SERVER, renamed);
  tell (self, PROP_DEED, old->deed != entry->deed);
  tell (self, PROP_STATE, old->state != entry->state);
  tell (self, PROP_FAULT_KIND, wb_queue_fault_of (old, NULL) != wb_queue_fault_of (entry, NULL));
  tell (self, PROP_FAULT, g_strcmp0 (old->fault, entry->fault) != 0);
  tell (self, PROP_NEXT_TRY, old->next_try != entry->next_try);
  tell_progress (self, &before);
  g_object_thaw_notify (G_OBJECT (self));
}

void
wb_queue_item_set_progress (WbQueueItem           *self,
                            const WbProgressState *state)
{
  WbProgressState before;

  wb_queue_item_get_progress (self, &before);
  self->here = state != NULL;
  if (state != NULL)
    self->progress = *state;
  g_object_freeze_notify (G_OBJECT (self));
  tell_progress (self, &before);
  g_object_thaw_notify (G_OBJECT (self));
}

/* --- what it says ----------------------------------------------------------------------------- */

gint64
wb_queue_item_get_id (WbQueueItem *self)
{
  g_return_val_if_fail (WB_IS_QUEUE_ITEM (self), 0);

  return self->id;
}

const WbShareEntry *
wb_queue_item_get_entry (WbQueueItem *self)
{
  g_return_val_if_fail (WB_IS_QUEUE_ITEM (self), NULL);

  return self->entry;
}

const char *
wb_queue_item_get_server (WbQueueItem *self)
{
  g_return_val_if_fail (WB_IS_QUEUE_ITEM (self), NULL);

  return self->server;
}

WbQueueFault
wb_queue_item_get_fault_kind (WbQueueItem *self)
{
  g_return_val_if_fail (WB_IS_QUEUE_ITEM (self), WB_QUEUE_FAULT_NONE);

  return wb_queue_fault_of (self->entry, NULL);
}

const char *
wb_queue_item_get_fault (WbQueueItem *self)
{
  const char *sentence;

  g_return_val_if_fail (WB_IS_QUEUE_ITEM (self), NULL);

  (void) wb_queue_fault_of (self->entry, &sentence);
  return sentence;
}

char *
wb_queue_item_get_host_key (WbQueueItem *self)
{
  const char *sentence;

  g_return_val_if_fail (WB_IS_QUEUE_ITEM (self), NULL);

  return wb_queue_fault_of (self->entry, &sentence) == WB_QUEUE_FAULT_HOST_KEY
           ? wb_share_fingerprint_in (sentence) : NULL;
}

void
wb_queue_item_get_progress (WbQueueItem     *self,
                            WbProgressState *out)
{
  g_return_if_fail (WB_IS_QUEUE_ITEM (self));

  if (self->here)
    *out = self->progress;
  else
    *out = (WbProgressState) {
      .done = self->entry->done, .all = self->entry->all, .seconds_left = -1,
    };
}
