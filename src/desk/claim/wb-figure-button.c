/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An amount that answers "why?". Holds the reckoning that it shows a figure of. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-figure-button.h"

#include "desk/claim/wb-reason-popover.h"

struct _WbFigureButton
{
  WbAnswerButton parent_instance;

  WbReckoning   *reckoning;    /* (nullable) */
  int            line;
  WbSide         side;
  WbAmount       amount;
};

G_DEFINE_FINAL_TYPE (WbFigureButton, wb_figure_button, WB_TYPE_ANSWER_BUTTON)

static GtkWidget *
wb_figure_button_new_answer (WbAnswerButton *button)
{
  WbFigureButton *self = WB_FIGURE_BUTTON (button);

  return self->reckoning == NULL ? NULL
         : wb_reason_popover_new (self->reckoning, self->line, self->side, self->amount);
}

static void
wb_figure_button_dispose (GObject *object)
{
  g_clear_pointer (&WB_FIGURE_BUTTON (object)->reckoning, wb_reckoning_unref);

  G_OBJECT_CLASS (wb_figure_button_parent_class)->dispose (object);
}

static void
wb_figure_button_class_init (WbFigureButtonClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_figure_button_dispose;
  WB_ANSWER_BUTTON_CLASS (klass)->new_answer = wb_figure_button_new_answer;
}

static void
wb_figure_button_init (WbFigureButton *self)
{
  GtkLabel *label = wb_answer_button_get_label (WB_ANSWER_BUTTON (self));

  gtk_label_set_xalign (label, 1);
  gtk_widget_add_css_class (GTK_WIDGET (label), "numeric");
}

GtkWidget *
wb_figure_button_new (void)
{
  return g_object_new (WB_TYPE_FIGURE_BUTTON, NULL);
}

void
wb_figure_button_show (WbFigureButton *self,
                       WbReckoning    *reckoning,
                       int             line,
                       WbSide          side,
                       WbAmount        amount)
{
  WbAnswerButton *button;
  WbReckoning *before;
  g_autofree char *text = NULL;
  g_autofree char *sentence = NULL;

  g_return_if_fail (WB_IS_FIGURE_BUTTON (self));

  button = WB_ANSWER_BUTTON (self);
  if (reckoning != self->reckoning)
    wb_answer_button_take_back (button);

  before = self->reckoning;
  self->reckoning = reckoning != NULL ? wb_reckoning_ref (reckoning) : NULL;
  g_clear_pointer (&before, wb_reckoning_unref);
  self->line = line;
  self->side = side;
  self->amount = amount;

  if (reckoning == NULL)
    {
      wb_answer_button_show (button, "", NULL);
      return;
    }
  text = wb_amount_text (reckoning, line, side, amount);
  sentence = wb_amount_sentence (reckoning, line, side, amount);
  wb_answer_button_show (button, text, sentence);
}

void
wb_figure_button_set_bold (WbFigureButton *self,
                           gboolean        bold)
{
  g_autoptr (PangoAttrList) attributes = NULL;

  g_return_if_fail (WB_IS_FIGURE_BUTTON (self));

  attributes = pango_attr_list_from_string (bold ? "0 -1 weight bold" : "0 -1 weight normal");
  gtk_label_set_attributes (wb_answer_button_get_label (WB_ANSWER_BUTTON (self)), attributes);
}
