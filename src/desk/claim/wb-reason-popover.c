/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answer to "why?": the reasons of one amount, from the step that gave it back to the first.
 * Only shows what the reckoning holds. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-reason-popover.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-reason-row.h"
#include "office/wb-words.h"

struct _WbReasonPopover
{
  GtkPopover   parent_instance;

  GtkLabel    *heading;
  GtkLabel    *sum;
  GtkListBox  *rows;
};

G_DEFINE_FINAL_TYPE (WbReasonPopover, wb_reason_popover, GTK_TYPE_POPOVER)

static void
copy_all_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *parameter)
{
  g_autofree char *text = wb_reason_popover_text (WB_REASON_POPOVER (widget));

  gdk_clipboard_set_text (gtk_widget_get_clipboard (widget), text);
}

static void
wb_reason_popover_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_REASON_POPOVER);

  G_OBJECT_CLASS (wb_reason_popover_parent_class)->dispose (object);
}

static void
wb_reason_popover_class_init (WbReasonPopoverClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_reason_popover_dispose;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-reason-popover.ui");
  gtk_widget_class_bind_template_child (widget_class, WbReasonPopover, heading);
  gtk_widget_class_bind_template_child (widget_class, WbReasonPopover, sum);
  gtk_widget_class_bind_template_child (widget_class, WbReasonPopover, rows);
  gtk_widget_class_install_action (widget_class, "reason.copy-all", NULL, copy_all_action);
}

static void
wb_reason_popover_init (WbReasonPopover *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* What a line is about is no longer to be seen where the table is scrolled along. */
static void
show_heading (WbReasonPopover   *self,
              const WbReckoning *reckoning,
              int                line,
              const char        *heading)
{
  const char *item = line != WB_REASON_WHOLE_CLAIM ? reckoning->lines[line].line->item : NULL;
  g_autofree char *text = item != NULL ? g_strdup_printf ("%s\n%s", item, heading) : NULL;

  gtk_label_set_label (self->heading, text != NULL ? text : heading);
}

GtkWidget *
wb_reason_popover_new (WbReckoning *reckoning,
                       int          line,
                       WbSide       side,
                       WbAmount     amount)
{
  WbReasonPopover *self = g_object_new (WB_TYPE_REASON_POPOVER, NULL);
  g_autofree char *heading = wb_amount_sentence (reckoning, line, side, amount);
  g_autoptr (GPtrArray) reasons = wb_amount_reasons (reckoning, line, side, amount);
  g_autofree char *sum = wb_amount_sum (reckoning, line, amount);

  show_heading (self, reckoning, line, heading);
  gtk_label_set_label (self->sum, sum != NULL ? sum : "");
  gtk_widget_set_visible (GTK_WIDGET (self->sum), sum != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, heading,
                                  -1);

  for (guint i = 0; i < reasons->len; i++)
    gtk_list_box_append (self->rows, wb_reason_row_new (reckoning, g_ptr_array_index (reasons, i)));

  return GTK_WIDGET (self);
}

char *
wb_reason_popover_text (WbReasonPopover *self)
{
  GString *text;
  GtkListBoxRow *row;

  g_return_val_if_fail (WB_IS_REASON_POPOVER (self), NULL);

  text = g_string_new (gtk_label_get_label (self->heading));
  if (gtk_widget_get_visible (GTK_WIDGET (self->sum)))
    g_string_append_printf (text, "\n%s", gtk_label_get_label (self->sum));
  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->rows, i)) != NULL; i++)
    g_string_append_printf (text, "\n%s", wb_reason_row_get_text (WB_REASON_ROW (row)));

  return g_string_free (text, FALSE);
}
