/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A place in a reckoning that a list can hold. */
#include "config.h"

#include "desk/claim/wb-reckoning-row.h"

struct _WbReckoningRow
{
  GObject      parent_instance;

  WbReckoning *reckoning;
  guint        line;
};

G_DEFINE_FINAL_TYPE (WbReckoningRow, wb_reckoning_row, G_TYPE_OBJECT)

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
wb_reckoning_row_finalize (GObject *object)
{
  wb_reckoning_unref (WB_RECKONING_ROW (object)->reckoning);

  G_OBJECT_CLASS (wb_reckoning_row_parent_class)->finalize (object);
}

static void
wb_reckoning_row_class_init (WbReckoningRowClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = wb_reckoning_row_finalize;

  signals[CHANGED] = g_signal_new ("changed", WB_TYPE_RECKONING_ROW, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
wb_reckoning_row_init (WbReckoningRow *self)
{
}

WbReckoningRow *
wb_reckoning_row_new (WbReckoning *reckoning,
                      guint        line)
{
  WbReckoningRow *self = g_object_new (WB_TYPE_RECKONING_ROW, NULL);

  self->reckoning = wb_reckoning_ref (reckoning);
  self->line = line;
  return self;
}

void
wb_reckoning_row_set_reckoning (WbReckoningRow *self,
                                WbReckoning    *reckoning)
{
  WbReckoning *before = self->reckoning;

  g_return_if_fail (self->line < reckoning->n_lines);

  self->reckoning = wb_reckoning_ref (reckoning);
  wb_reckoning_unref (before);
  g_signal_emit (self, signals[CHANGED], 0);
}

WbReckoning *
wb_reckoning_row_get_reckoning (WbReckoningRow *self)
{
  return self->reckoning;
}

guint
wb_reckoning_row_get_line (WbReckoningRow *self)
{
  return self->line;
}
