/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record as a list item: a stable object around an immutable value that changes. Does not know
 * the job that the record belongs to. */
#include "config.h"

#include "desk/model/wb-record-item-private.h"

struct _WbRecordItem
{
  GObject  parent_instance;

  gpointer record;
};

enum
{
  PROP_0,
  PROP_RECORD,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbRecordItem, wb_record_item, G_TYPE_OBJECT)

static void
wb_record_item_get_property (GObject    *object,
                             guint       prop_id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  WbRecordItem *self = WB_RECORD_ITEM (object);

  switch (prop_id)
    {
    case PROP_RECORD:
      g_value_set_pointer (value, self->record);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_record_item_finalize (GObject *object)
{
  WbRecordItem *self = WB_RECORD_ITEM (object);

  g_clear_pointer (&self->record, wb_record_unref);

  G_OBJECT_CLASS (wb_record_item_parent_class)->finalize (object);
}

static void
wb_record_item_class_init (WbRecordItemClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = wb_record_item_get_property;
  object_class->finalize = wb_record_item_finalize;

  properties[PROP_RECORD] = g_param_spec_pointer ("record", NULL, NULL,
                                                  G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
wb_record_item_init (WbRecordItem *self)
{
}

WbRecordItem *
wb_record_item_new (gconstpointer record)
{
  WbRecordItem *self;

  g_return_val_if_fail (record != NULL, NULL);

  self = g_object_new (WB_TYPE_RECORD_ITEM, NULL);
  self->record = wb_record_ref ((gpointer) record);
  return self;
}

gconstpointer
wb_record_item_get_record (WbRecordItem *self)
{
  g_return_val_if_fail (WB_IS_RECORD_ITEM (self), NULL);

  return self->record;
}

void
wb_record_item_set_record (WbRecordItem  *self,
                           gconstpointer  record)
{
  gpointer old;

  g_return_if_fail (WB_IS_RECORD_ITEM (self));
  g_return_if_fail (record != NULL);

  if (self->record == record)
    return;

  old = self->record;
  self->record = wb_record_ref ((gpointer) record);
  wb_record_unref (old);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_RECORD]);
}
