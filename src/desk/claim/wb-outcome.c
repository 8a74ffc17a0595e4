/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outcome under one side in one line. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-outcome.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-figure-button.h"

struct _WbOutcome
{
  GtkWidget  parent_instance;

  GtkWidget *label;
  GtkWidget *figure;
};

G_DEFINE_FINAL_TYPE (WbOutcome, wb_outcome, GTK_TYPE_WIDGET)

static void
wb_outcome_dispose (GObject *object)
{
  WbOutcome *self = WB_OUTCOME (object);

  g_clear_pointer (&self->label, gtk_widget_unparent);
  g_clear_pointer (&self->figure, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_outcome_parent_class)->dispose (object);
}

static void
wb_outcome_class_init (WbOutcomeClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_outcome_dispose;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
wb_outcome_init (WbOutcome *self)
{
  self->label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->label), 0);
  gtk_label_set_wrap (GTK_LABEL (self->label), TRUE);
  gtk_widget_set_hexpand (self->label, TRUE);
  gtk_widget_set_parent (self->label, GTK_WIDGET (self));

  self->figure = wb_figure_button_new ();
  gtk_widget_set_parent (self->figure, GTK_WIDGET (self));
}

static char *
describe (const WbReckoning *reckoning,
          WbSide             side)
{
  const char *name = wb_side_label (side);

  if (!reckoning->side[side].offered)
    /* Translators: a choice of liability that the terms do not have. */
    return g_strdup_printf (_("%s is not offered by these terms"), name);
  if (reckoning->applies == side)
    /* Translators: the choice of liability that governs; an amount follows. */
    return g_strdup_printf (_("%s applies and owes"), name);

  /* Translators: the choice of liability that does not govern; an amount follows. */
  return g_strdup_printf (_("%s would owe"), name);
}

void
wb_outcome_show (WbOutcome   *self,
                 WbReckoning *reckoning,
                 WbSide       side)
{
  g_autofree char *words = reckoning != NULL ? describe (reckoning, side) : NULL;

  g_return_if_fail (WB_IS_OUTCOME (self));

  gtk_label_set_label (GTK_LABEL (self->label), words != NULL ? words : "");
  if (reckoning != NULL && reckoning->applies == side)
    gtk_widget_add_css_class (self->label, "heading");
  else
    gtk_widget_remove_css_class (self->label, "heading");

  wb_figure_button_set_bold (WB_FIGURE_BUTTON (self->figure),
                             reckoning != NULL && reckoning->applies == side);
  gtk_widget_set_visible (self->figure, reckoning != NULL && reckoning->side[side].offered);
  wb_figure_button_show (WB_FIGURE_BUTTON (self->figure), reckoning, WB_REASON_WHOLE_CLAIM, side,
                         WB_AMOUNT_OWED);
}
