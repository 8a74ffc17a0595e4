/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One reason as a row of the popover that answers "why?". Copies itself on Ctrl+C; knows nothing of
 * its neighbours. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-reason-row.h"

#include <glib/gi18n.h>

#include "office/wb-words.h"

struct _WbReasonRow
{
  GtkListBoxRow  parent_instance;

  GtkLabel      *rule;
  GtkLabel      *sentence;
  GtkLabel      *source;
  GtkWidget     *copy;

  char          *text;
};

G_DEFINE_FINAL_TYPE (WbReasonRow, wb_reason_row, GTK_TYPE_LIST_BOX_ROW)

static void
copy_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  WbReasonRow *self = WB_REASON_ROW (widget);

  gdk_clipboard_set_text (gtk_widget_get_clipboard (widget), self->text);
}

static void
wb_reason_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_REASON_ROW);

  G_OBJECT_CLASS (wb_reason_row_parent_class)->dispose (object);
}

static void
wb_reason_row_finalize (GObject *object)
{
  g_free (WB_REASON_ROW (object)->text);

  G_OBJECT_CLASS (wb_reason_row_parent_class)->finalize (object);
}

static void
wb_reason_row_class_init (WbReasonRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_reason_row_dispose;
  object_class->finalize = wb_reason_row_finalize;

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/claim/wb-reason-row.ui");
  gtk_widget_class_bind_template_child (widget_class, WbReasonRow, rule);
  gtk_widget_class_bind_template_child (widget_class, WbReasonRow, sentence);
  gtk_widget_class_bind_template_child (widget_class, WbReasonRow, source);
  gtk_widget_class_bind_template_child (widget_class, WbReasonRow, copy);

  gtk_widget_class_install_action (widget_class, "reason.copy", NULL, copy_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_c, GDK_CONTROL_MASK, "reason.copy",
                                       NULL);
}

static void
wb_reason_row_init (WbReasonRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_reason_row_new (const WbReckoning *reckoning,
                   const WbReason    *reason)
{
  WbReasonRow *self = g_object_new (WB_TYPE_REASON_ROW, NULL);
  g_autofree char *rule = wb_words_rule (reason->rule);
  g_autofree char *sentence = wb_words_reason (reckoning, reason);
  const char *source = wb_words_reason_source (reckoning, reason);

  gtk_label_set_label (self->rule, rule);
  gtk_label_set_label (self->sentence, sentence);
  gtk_label_set_label (self->source, source != NULL ? source : "");
  gtk_widget_set_visible (GTK_WIDGET (self->source), source != NULL);

  if (source != NULL)
    /* Translators: a rule's name, what it did, and where it is written. */
    self->text = g_strdup_printf (_("%s: %s (%s)"), rule, sentence, source);
  else
    /* Translators: a rule's name and what it did. */
    self->text = g_strdup_printf (_("%s: %s"), rule, sentence);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, self->text,
                                  -1);

  return GTK_WIDGET (self);
}

const char *
wb_reason_row_get_text (WbReasonRow *self)
{
  g_return_val_if_fail (WB_IS_REASON_ROW (self), NULL);

  return self->text;
}
