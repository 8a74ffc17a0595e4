/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list model over what the office listed. It does not change; a new list is another model. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/due/wb-due-model.h"

/* --- an entry --------------------------------------------------------------------------------- */

struct _WbDueItem
{
  GObject    parent_instance;

  WbDueList *due;
  guint      place;
};

G_DEFINE_FINAL_TYPE (WbDueItem, wb_due_item, G_TYPE_OBJECT)

static void
wb_due_item_finalize (GObject *object)
{
  wb_due_list_unref (WB_DUE_ITEM (object)->due);

  G_OBJECT_CLASS (wb_due_item_parent_class)->finalize (object);
}

static void
wb_due_item_class_init (WbDueItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_due_item_finalize;
}

static void
wb_due_item_init (WbDueItem *self)
{
}

const WbDue *
wb_due_item_get_due (WbDueItem *self)
{
  g_return_val_if_fail (WB_IS_DUE_ITEM (self), NULL);

  return wb_due_list_nth (self->due, self->place);
}

gboolean
wb_due_item_leads (WbDueItem *self)
{
  g_return_val_if_fail (WB_IS_DUE_ITEM (self), FALSE);

  return self->place == 0
         || wb_due_list_nth (self->due, self->place - 1)->group
            != wb_due_list_nth (self->due, self->place)->group;
}

/* --- the list --------------------------------------------------------------------------------- */

struct _WbDueModel
{
  GObject    parent_instance;

  WbDueList *due;
};

static GType
wb_due_model_get_item_type (GListModel *model)
{
  return WB_TYPE_DUE_ITEM;
}

static guint
wb_due_model_get_n_items (GListModel *model)
{
  return wb_due_list_count (WB_DUE_MODEL (model)->due);
}

static gpointer
wb_due_model_get_item (GListModel *model,
                      guint       position)
{
  WbDueModel *self = WB_DUE_MODEL (model);
  WbDueItem *item;

  if (position >= wb_due_list_count (self->due))
    return NULL;
  item = g_object_new (WB_TYPE_DUE_ITEM, NULL);
  item->due = wb_due_list_ref (self->due);
  item->place = position;
  return item;
}

static void
wb_due_model_model_init (GListModelInterface *interface)
{
  interface->get_item_type = wb_due_model_get_item_type;
  interface->get_n_items = wb_due_model_get_n_items;
  interface->get_item = wb_due_model_get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (WbDueModel, wb_due_model, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, wb_due_model_model_init))

static void
wb_due_model_finalize (GObject *object)
{
  wb_due_list_unref (WB_DUE_MODEL (object)->due);

  G_OBJECT_CLASS (wb_due_model_parent_class)->finalize (object);
}

static void
wb_due_model_class_init (WbDueModelClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_due_model_finalize;
}

static void
wb_due_model_init (WbDueModel *self)
{
}

WbDueModel *
wb_due_model_new (WbDueList *due)
{
  WbDueModel *self;

  g_return_val_if_fail (due != NULL, NULL);

  self = g_object_new (WB_TYPE_DUE_MODEL, NULL);
  self->due = wb_due_list_ref (due);
  return self;
}
