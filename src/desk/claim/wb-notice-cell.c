/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of a row's notice, with a sign before them when they warn. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-notice-cell.h"

struct _WbNoticeCell
{
  GtkWidget  parent_instance;

  gboolean   warns;
  GtkWidget *sign;
  GtkWidget *label;
};

G_DEFINE_FINAL_TYPE (WbNoticeCell, wb_notice_cell, GTK_TYPE_WIDGET)

/* The cell may be too narrow for its words. */
static gboolean
wb_notice_cell_query_tooltip (GtkWidget  *widget,
                              int         x,
                              int         y,
                              gboolean    keyboard,
                              GtkTooltip *tooltip)
{
  gtk_tooltip_set_text (tooltip, gtk_label_get_label (GTK_LABEL (WB_NOTICE_CELL (widget)->label)));
  return TRUE;
}

static void
wb_notice_cell_dispose (GObject *object)
{
  WbNoticeCell *self = WB_NOTICE_CELL (object);

  g_clear_pointer (&self->sign, gtk_widget_unparent);
  g_clear_pointer (&self->label, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_notice_cell_parent_class)->dispose (object);
}

static void
wb_notice_cell_class_init (WbNoticeCellClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_notice_cell_dispose;
  GTK_WIDGET_CLASS (klass)->query_tooltip = wb_notice_cell_query_tooltip;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
wb_notice_cell_init (WbNoticeCell *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);

  self->sign = gtk_image_new_from_icon_name ("dialog-warning-symbolic");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->sign), GTK_ACCESSIBLE_STATE_HIDDEN, TRUE, -1);
  gtk_widget_set_parent (self->sign, GTK_WIDGET (self));

  self->label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (self->label, TRUE);
  gtk_widget_set_parent (self->label, GTK_WIDGET (self));

  wb_notice_cell_show (self, NULL);
}

GtkWidget *
wb_notice_cell_new (guint    chars,
                    gboolean warns,
                    gboolean numeric)
{
  WbNoticeCell *self = g_object_new (WB_TYPE_NOTICE_CELL, NULL);

  self->warns = warns;

  gtk_label_set_width_chars (GTK_LABEL (self->label), (int) chars);
  if (numeric)
    {
      gtk_label_set_xalign (GTK_LABEL (self->label), 1);
      gtk_widget_add_css_class (self->label, "numeric");
    }

  return GTK_WIDGET (self);
}

void
wb_notice_cell_show (WbNoticeCell *self,
                     const char   *text)
{
  g_return_if_fail (WB_IS_NOTICE_CELL (self));

  gtk_label_set_label (GTK_LABEL (self->label), text != NULL ? text : "");
  gtk_widget_set_visible (self->sign, self->warns && text != NULL);
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), text != NULL);
}
