/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The totals of one side. Shows what was reckoned and hides what this claim does not have. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-side-totals.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-figure-button.h"
#include "desk/claim/wb-reckoning-parts.h"

struct _WbSideTotals
{
  GtkWidget       parent_instance;

  GtkLabel       *title;
  GtkLabel       *incomplete;
  GtkGrid        *amounts;

  GtkWidget      *labels[WB_N_AMOUNTS];
  GtkWidget      *figures[WB_N_AMOUNTS];
};

G_DEFINE_FINAL_TYPE (WbSideTotals, wb_side_totals, GTK_TYPE_WIDGET)

/* From the loss to what is left to pay. */
static const WbAmount order[] = {
  WB_AMOUNT_LOSS,
  WB_AMOUNT_ALLOWED,
  WB_AMOUNT_LIMIT,
  WB_AMOUNT_EARLIER,
  WB_AMOUNT_LIMIT_LEFT,
  WB_AMOUNT_COVERED,
  WB_AMOUNT_DEDUCTIBLE,
  WB_AMOUNT_DEDUCTED,
  WB_AMOUNT_OWED,
  WB_AMOUNT_FREIGHT,
  WB_AMOUNT_PAID,
  WB_AMOUNT_BALANCE,
};

static gboolean
concerns (const WbSideReckoning *side,
          WbAmount               amount)
{
  switch (amount)
    {
    case WB_AMOUNT_LOSS:
    case WB_AMOUNT_ALLOWED:
    case WB_AMOUNT_OWED:
    case WB_AMOUNT_BALANCE:
      return TRUE;
    case WB_AMOUNT_LIMIT:
    case WB_AMOUNT_COVERED:
      return side->has_limit;
    case WB_AMOUNT_EARLIER:
    case WB_AMOUNT_LIMIT_LEFT:
      return side->has_limit && side->earlier > 0;
    case WB_AMOUNT_DEDUCTIBLE:
    case WB_AMOUNT_DEDUCTED:
      return side->deductible > 0 || side->deducted > 0;
    case WB_AMOUNT_FREIGHT:
      return side->freight_refund != 0;
    case WB_AMOUNT_PAID:
      return side->paid != 0;
    }

  g_assert_not_reached ();
}

static gboolean
is_outcome (WbAmount amount)
{
  return amount == WB_AMOUNT_OWED || amount == WB_AMOUNT_BALANCE;
}

static void
add_amount (WbSideTotals *self,
            WbAmount      amount,
            int           row)
{
  GtkWidget *label = gtk_label_new (wb_amount_label (amount));
  GtkWidget *figure = wb_figure_button_new ();

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, TRUE);
  if (is_outcome (amount))
    {
      gtk_widget_add_css_class (label, "heading");
      wb_figure_button_set_bold (WB_FIGURE_BUTTON (figure), TRUE);
    }
  gtk_grid_attach (self->amounts, label, 0, row, 1, 1);
  gtk_grid_attach (self->amounts, figure, 1, row, 1, 1);
  self->labels[amount] = label;
  self->figures[amount] = figure;
}

static void
wb_side_totals_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_SIDE_TOTALS);

  G_OBJECT_CLASS (wb_side_totals_parent_class)->dispose (object);
}

static void
wb_side_totals_class_init (WbSideTotalsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_side_totals_dispose;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-side-totals.ui");
  gtk_widget_class_bind_template_child (widget_class, WbSideTotals, title);
  gtk_widget_class_bind_template_child (widget_class, WbSideTotals, incomplete);
  gtk_widget_class_bind_template_child (widget_class, WbSideTotals, amounts);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
wb_side_totals_init (WbSideTotals *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));

  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    add_amount (self, order[i], (int) i);
}

void
wb_side_totals_show (WbSideTotals *self,
                     WbReckoning  *reckoning,
                     WbSide        side)
{
  WbReckoningParts parts;
  g_autofree char *title = NULL;

  g_return_if_fail (WB_IS_SIDE_TOTALS (self));

  gtk_widget_set_visible (GTK_WIDGET (self), reckoning != NULL);
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    {
      WbAmount amount = order[i];
      gboolean seen = reckoning != NULL && reckoning->side[side].offered
                      && concerns (&reckoning->side[side], amount);

      gtk_widget_set_visible (self->labels[amount], seen);
      gtk_widget_set_visible (self->figures[amount], seen);
      wb_figure_button_show (WB_FIGURE_BUTTON (self->figures[amount]), reckoning,
                             WB_REASON_WHOLE_CLAIM, side, amount);
    }
  if (reckoning == NULL)
    return;

  wb_reckoning_parts_read (&parts, reckoning, side);
  title = wb_reckoning_parts_title (&parts, side);
  gtk_label_set_label (self->title, title);
  gtk_widget_set_visible (GTK_WIDGET (self->incomplete), parts.offered && !parts.complete);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
}
