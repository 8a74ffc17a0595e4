/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An entry of a list. Owns nothing of what it points to. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/report/wb-report-item.h"

struct _WbReportItem
{
  GObject            parent_instance;

  const WbLossGroup *group;
  const WbLossLine  *line;
  gint64             scale;
};

G_DEFINE_FINAL_TYPE (WbReportItem, wb_report_item, G_TYPE_OBJECT)

static void
wb_report_item_class_init (WbReportItemClass *klass)
{
}

static void
wb_report_item_init (WbReportItem *self)
{
}

WbReportItem *
wb_report_item_new (const WbLossGroup *group,
                    const WbLossLine  *line,
                    gint64             scale)
{
  WbReportItem *self = g_object_new (WB_TYPE_REPORT_ITEM, NULL);

  self->group = group;
  self->line = line;
  self->scale = scale;
  return self;
}

const WbLossGroup *
wb_report_item_get_group (WbReportItem *self)
{
  g_return_val_if_fail (WB_IS_REPORT_ITEM (self), NULL);

  return self->group;
}

const WbLossLine *
wb_report_item_get_line (WbReportItem *self)
{
  g_return_val_if_fail (WB_IS_REPORT_ITEM (self), NULL);

  return self->line;
}

gint64
wb_report_item_get_scale (WbReportItem *self)
{
  g_return_val_if_fail (WB_IS_REPORT_ITEM (self), 0);

  return self->scale;
}
