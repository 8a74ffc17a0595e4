/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Carries what office has read of a published job. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-published-item.h"

struct _WbPublishedItem
{
  GObject         parent_instance;

  WbPublishedJob *job;
};

G_DEFINE_FINAL_TYPE (WbPublishedItem, wb_published_item, G_TYPE_OBJECT)

static void
wb_published_item_finalize (GObject *object)
{
  wb_published_job_free (WB_PUBLISHED_ITEM (object)->job);

  G_OBJECT_CLASS (wb_published_item_parent_class)->finalize (object);
}

static void
wb_published_item_class_init (WbPublishedItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_published_item_finalize;
}

static void
wb_published_item_init (WbPublishedItem *self)
{
}

WbPublishedItem *
wb_published_item_new (WbPublishedJob *job)
{
  WbPublishedItem *self;

  g_return_val_if_fail (job != NULL, NULL);

  self = g_object_new (WB_TYPE_PUBLISHED_ITEM, NULL);
  self->job = job;
  return self;
}

const WbPublishedJob *
wb_published_item_get_job (WbPublishedItem *self)
{
  g_return_val_if_fail (WB_IS_PUBLISHED_ITEM (self), NULL);

  return self->job;
}

char *
wb_published_item_title (WbPublishedItem *self)
{
  const char *number, *shipper;

  g_return_val_if_fail (WB_IS_PUBLISHED_ITEM (self), NULL);

  number = self->job->number != NULL ? self->job->number : self->job->id;
  shipper = self->job->shipper;
  if (shipper == NULL || *shipper == '\0')
    return g_strdup (number);
  return g_strdup_printf ("%s · %s", number, shipper);
}
