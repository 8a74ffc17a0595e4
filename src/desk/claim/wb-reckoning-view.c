/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hands one reckoning to the widgets that show its parts. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-reckoning-view.h"

#include "desk/claim/wb-line-notices.h"
#include "desk/claim/wb-reckoning-bar.h"
#include "desk/claim/wb-reckoning-table.h"
#include "desk/claim/wb-side-totals.h"
#include "desk/widgets/wb-columns.h"

struct _WbReckoningView
{
  GtkWidget         parent_instance;

  GtkLabel         *fault;
  GtkLabel         *notice;
  GtkWidget        *figures;
  WbReckoningBar   *bar;
  WbSideTotals     *released;
  WbSideTotals     *full;
  WbReckoningTable *table;
};

G_DEFINE_FINAL_TYPE (WbReckoningView, wb_reckoning_view, GTK_TYPE_WIDGET)

static void
wb_reckoning_view_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_RECKONING_VIEW);

  G_OBJECT_CLASS (wb_reckoning_view_parent_class)->dispose (object);
}

static void
wb_reckoning_view_class_init (WbReckoningViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_reckoning_view_dispose;

  g_type_ensure (WB_TYPE_COLUMNS);
  g_type_ensure (WB_TYPE_RECKONING_BAR);
  g_type_ensure (WB_TYPE_RECKONING_TABLE);
  g_type_ensure (WB_TYPE_SIDE_TOTALS);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-reckoning-view.ui");
  gtk_widget_class_bind_template_child (widget_class, WbReckoningView, fault);
  gtk_widget_class_bind_template_child (widget_class, WbReckoningView, notice);
  gtk_widget_class_bind_template_child (widget_class, WbReckoningView, figures);
  gtk_widget_class_bind_template_child (widget_class, WbReckoningView, bar);
  gtk_widget_class_bind_template_child (widget_class, WbReckoningView, released);
  gtk_widget_class_bind_template_child (widget_class, WbReckoningView, full);
  gtk_widget_class_bind_template_child (widget_class, WbReckoningView, table);
}

static void
wb_reckoning_view_init (WbReckoningView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
show_words (GtkLabel   *label,
            const char *words)
{
  gtk_label_set_label (label, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (label), words != NULL);
}

void
wb_reckoning_view_show (WbReckoningView *self,
                        WbReckoning     *reckoning,
                        const char      *fault)
{
  g_autofree char *notice = reckoning != NULL ? wb_claim_notice (reckoning) : NULL;

  g_return_if_fail (WB_IS_RECKONING_VIEW (self));

  show_words (self->fault, fault);
  show_words (self->notice, notice);
  gtk_widget_set_visible (self->figures, reckoning != NULL);
  wb_reckoning_bar_set_reckoning (self->bar, reckoning);
  wb_side_totals_show (self->released, reckoning, WB_SIDE_RELEASED);
  wb_side_totals_show (self->full, reckoning, WB_SIDE_FULL);
  wb_reckoning_table_show (self->table, reckoning);
}
