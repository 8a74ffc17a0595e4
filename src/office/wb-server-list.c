/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The servers of an office as a list for a window. It is read anew, off the main loop, whenever the
 * office says that they changed. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-server-settings.h"

#include "office/wb-share-private.h"
#include "office/wb-words.h"

/* --- an item ---------------------------------------------------------------------------------- */

struct _WbServerItem
{
  GObject   parent_instance;

  WbServer *server;
};

G_DEFINE_FINAL_TYPE (WbServerItem, wb_server_item, G_TYPE_OBJECT)

static void
wb_server_item_finalize (GObject *object)
{
  WbServerItem *self = WB_SERVER_ITEM (object);

  g_clear_pointer (&self->server, wb_server_free);

  G_OBJECT_CLASS (wb_server_item_parent_class)->finalize (object);
}

static void
wb_server_item_class_init (WbServerItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_server_item_finalize;
}

static void
wb_server_item_init (WbServerItem *self)
{
}

const WbServer *
wb_server_item_get_server (WbServerItem *self)
{
  g_return_val_if_fail (WB_IS_SERVER_ITEM (self), NULL);

  return self->server;
}

/* --- the list --------------------------------------------------------------------------------- */

struct _WbServerList
{
  GObject       parent_instance;

  WbOffice     *office;
  GPtrArray    *items;        /* WbServerItem */
  GCancellable *loading;      /* (nullable): of the reading under way */
  gboolean      loaded;
  char         *fault;
};

enum
{
  PROP_0,
  PROP_LOADED,
  PROP_FAULT,
  N_PROPERTIES
};

static GParamSpec *properties[N_PROPERTIES];

static GType
get_item_type (GListModel *model)
{
  return WB_TYPE_SERVER_ITEM;
}

static guint
get_n_items (GListModel *model)
{
  return WB_SERVER_LIST (model)->items->len;
}

static gpointer
get_item (GListModel *model,
          guint       position)
{
  WbServerList *self = WB_SERVER_LIST (model);

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

G_DEFINE_FINAL_TYPE_WITH_CODE (WbServerList, wb_server_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

/* Replaces what changed; the items that stay are the same objects. */
static void
take_servers (WbServerList *self,
              GPtrArray    *servers)
{
  guint same = 0;
  guint removed = self->items->len;
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < servers->len; i++)
    {
      const WbServer *server = g_ptr_array_index (servers, i);
      WbServerItem *old = i < self->items->len ? g_ptr_array_index (self->items, i) : NULL;
      WbServerItem *item;

      if (old != NULL && wb_server_equal (old->server, server))
        item = g_object_ref (old);
      else
        {
          item = g_object_new (WB_TYPE_SERVER_ITEM, NULL);
          item->server = wb_server_copy (server);
        }
      if (item == old && same == i)
        same++;
      g_ptr_array_add (items, item);
    }

  g_ptr_array_unref (self->items);
  self->items = g_ptr_array_ref (items);
  if (removed > same || items->len > same)
    g_list_model_items_changed (G_LIST_MODEL (self), same, removed - same, items->len - same);
}

static gpointer
run_list (WbOffice      *office,
          gpointer       request,
          GCancellable  *cancellable,
          GError       **error)
{
  return wb_office_list_servers (office, cancellable, error);
}

static void
listed_cb (GObject      *source,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (WbServerList) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) servers = wb_office_finish (WB_OFFICE (source), result, wb_server_list_new,
                                                    &error);

  /* A newer reading is under way, or nobody wants to know. */
  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  g_clear_object (&self->loading);
  g_clear_pointer (&self->fault, g_free);
  if (servers != NULL)
    take_servers (self, servers);
  else
    self->fault = wb_words_error (error);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_FAULT]);
  if (!self->loaded && servers != NULL)
    {
      self->loaded = TRUE;
      g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_LOADED]);
    }
}

static void
load (WbServerList *self)
{
  g_cancellable_cancel (self->loading);
  g_clear_object (&self->loading);
  self->loading = g_cancellable_new ();
  wb_share_run (self->office, run_list, NULL, NULL, (GDestroyNotify) g_ptr_array_unref,
                wb_server_list_new, self->loading, listed_cb, g_object_ref (self));
}

static void
wb_server_list_get_property (GObject    *object,
                             guint       id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  WbServerList *self = WB_SERVER_LIST (object);

  switch (id)
    {
    case PROP_LOADED:
      g_value_set_boolean (value, self->loaded);
      break;
    case PROP_FAULT:
      g_value_set_string (value, self->fault);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
wb_server_list_dispose (GObject *object)
{
  WbServerList *self = WB_SERVER_LIST (object);

  g_cancellable_cancel (self->loading);
  g_clear_object (&self->loading);
  g_clear_object (&self->office);

  G_OBJECT_CLASS (wb_server_list_parent_class)->dispose (object);
}

static void
wb_server_list_finalize (GObject *object)
{
  WbServerList *self = WB_SERVER_LIST (object);

  g_ptr_array_unref (self->items);
  g_free (self->fault);

  G_OBJECT_CLASS (wb_server_list_parent_class)->finalize (object);
}

static void
wb_server_list_class_init (WbServerListClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_server_list_get_property;
  object_class->dispose = wb_server_list_dispose;
  object_class->finalize = wb_server_list_finalize;
  properties[PROP_LOADED] =
    g_param_spec_boolean ("loaded", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_FAULT] =
    g_param_spec_string ("fault", NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
}

static void
wb_server_list_init (WbServerList *self)
{
  self->items = g_ptr_array_new_with_free_func (g_object_unref);
}

WbServerList *
wb_server_list_new (WbOffice *office)
{
  WbServerList *self;

  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);

  self = g_object_new (WB_TYPE_SERVER_LIST, NULL);
  self->office = g_object_ref (office);
  g_signal_connect_object (office, "servers-changed", G_CALLBACK (load), self, G_CONNECT_SWAPPED);
  load (self);
  return self;
}

gboolean
wb_server_list_get_loaded (WbServerList *self)
{
  g_return_val_if_fail (WB_IS_SERVER_LIST (self), FALSE);

  return self->loaded;
}

const char *
wb_server_list_get_fault (WbServerList *self)
{
  g_return_val_if_fail (WB_IS_SERVER_LIST (self), NULL);

  return self->fault;
}
