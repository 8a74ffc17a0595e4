/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The outcome under one side: words, the amount, and for a claim's line the steps to it. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-outcome.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-figure-button.h"

struct _WbOutcome
{
  GtkWidget  parent_instance;

  GtkWidget *words;
  GtkWidget *label;
  GtkWidget *steps;
  GtkWidget *figure;
};

G_DEFINE_FINAL_TYPE (WbOutcome, wb_outcome, GTK_TYPE_WIDGET)

static void
wb_outcome_dispose (GObject *object)
{
  WbOutcome *self = WB_OUTCOME (object);

  g_clear_pointer (&self->words, gtk_widget_unparent);
  g_clear_pointer (&self->figure, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_outcome_parent_class)->dispose (object);
}

static void
wb_outcome_class_init (WbOutcomeClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_outcome_dispose;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static GtkWidget *
add_label (WbOutcome *self)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_box_append (GTK_BOX (self->words), label);
  return label;
}

static void
wb_outcome_init (WbOutcome *self)
{
  self->words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_set_hexpand (self->words, TRUE);
  gtk_widget_set_valign (self->words, GTK_ALIGN_CENTER);
  gtk_widget_set_margin_top (self->words, 3);
  gtk_widget_set_margin_bottom (self->words, 3);
  gtk_widget_set_parent (self->words, GTK_WIDGET (self));
  self->label = add_label (self);
  self->steps = add_label (self);
  gtk_widget_add_css_class (self->steps, "caption");
  gtk_widget_add_css_class (self->steps, "dim-label");
  gtk_widget_add_css_class (self->steps, "numeric");

  self->figure = wb_figure_button_new ();
  gtk_widget_set_parent (self->figure, GTK_WIDGET (self));
}

static char *
describe (const WbReckoning *reckoning,
          int                line,
          WbSide             side)
{
  gboolean full = side == WB_SIDE_FULL;

  if (!reckoning->side[side].offered)
    /* Translators: a choice of liability that the terms do not have. */
    return g_strdup_printf (_("%s is not offered by these terms"), wb_side_label (side));

  if (line != WB_REASON_WHOLE_CLAIM)
    /* Translators: an amount follows each of these. */
    return g_strdup (full ? _("This line under full value protection")
                          : _("This line under released value"));
  if (reckoning->applies == side)
    return g_strdup (full ? _("Owed under full value protection")
                          : _("Owed under released value"));

  return g_strdup (full ? _("It would be under full value protection")
                        : _("It would be under released value"));
}

/* What led to what is owed on a line, in short. */
static char *
describe_steps (const WbReckoning *reckoning,
                int                line,
                WbSide             side)
{
  g_autofree char *loss = NULL;
  g_autofree char *allowed = NULL;
  g_autofree char *deducted = NULL;

  if (line == WB_REASON_WHOLE_CLAIM || !reckoning->side[side].offered)
    return NULL;

  loss = wb_amount_text (reckoning, line, side, WB_AMOUNT_LOSS);
  allowed = wb_amount_text (reckoning, line, side, WB_AMOUNT_ALLOWED);
  deducted = wb_amount_text (reckoning, line, side, WB_AMOUNT_DEDUCTED);
  /* Translators: sums of money. */
  return g_strdup_printf (_("Loss %s · Allowed %s · Deducted %s"), loss, allowed, deducted);
}

static void
show_words (GtkWidget  *label,
            const char *words)
{
  gtk_label_set_label (GTK_LABEL (label), words != NULL ? words : "");
  gtk_widget_set_visible (label, words != NULL);
}

void
wb_outcome_show (WbOutcome   *self,
                 WbReckoning *reckoning,
                 int          line,
                 WbSide       side)
{
  gboolean applies = reckoning != NULL && reckoning->applies == side;
  g_autofree char *words = reckoning != NULL ? describe (reckoning, line, side) : NULL;
  g_autofree char *steps = reckoning != NULL ? describe_steps (reckoning, line, side) : NULL;

  g_return_if_fail (WB_IS_OUTCOME (self));

  show_words (self->label, words);
  show_words (self->steps, steps);
  if (applies)
    gtk_widget_add_css_class (self->label, "heading");
  else
    gtk_widget_remove_css_class (self->label, "heading");

  wb_figure_button_set_bold (WB_FIGURE_BUTTON (self->figure), applies);
  gtk_widget_set_visible (self->figure, reckoning != NULL && reckoning->side[side].offered);
  wb_figure_button_show (WB_FIGURE_BUTTON (self->figure), reckoning, line, side, WB_AMOUNT_OWED);
}
