/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Groups of pieces to look at and to go to. What belongs together is decided elsewhere. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-piece-overview.h"

struct _WbPieceOverview
{
  AdwWindow       parent_instance;

  WbJobModel     *model;
  WbOverviewFunc  fill;
  GtkStack       *stack;
  AdwStatusPage  *empty;
  GtkBox         *groups;
  GtkListBox     *rows;      /* (nullable) of the group begun last */
};

enum
{
  CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbPieceOverview, wb_piece_overview, ADW_TYPE_WINDOW)

/* The first piece there is: Enter and the arrows work at once. */
static void
focus_first (WbPieceOverview *self)
{
  for (GtkWidget *group = gtk_widget_get_first_child (GTK_WIDGET (self->groups)); group != NULL;
       group = gtk_widget_get_next_sibling (group))
    {
      GtkListBox *rows = GTK_LIST_BOX (gtk_widget_get_last_child (group));
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (rows, 0);

      if (row == NULL)
        continue;
      gtk_widget_grab_focus (GTK_WIDGET (row));
      return;
    }
}

static void
renew (WbPieceOverview *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->groups))) != NULL)
    gtk_box_remove (self->groups, child);
  self->rows = NULL;
  self->fill (self, self->model);
  gtk_stack_set_visible_child_name (self->stack,
                                    gtk_widget_get_first_child (GTK_WIDGET (self->groups)) != NULL
                                    ? "groups" : "empty");
  focus_first (self);
}

static void
row_activated_cb (WbPieceOverview *self,
                  GtkListBoxRow   *row)
{
  g_autofree char *id = g_strdup (g_object_get_data (G_OBJECT (row), "piece"));

  gtk_window_close (GTK_WINDOW (self));
  g_signal_emit (self, signals[CHOSEN], 0, id);
}

static void
wb_piece_overview_dispose (GObject *object)
{
  WbPieceOverview *self = WB_PIECE_OVERVIEW (object);

  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, renew, self);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_PIECE_OVERVIEW);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_piece_overview_parent_class)->dispose (object);
}

static void
wb_piece_overview_class_init (WbPieceOverviewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_piece_overview_dispose;

  signals[CHOSEN] = g_signal_new ("chosen", WB_TYPE_PIECE_OVERVIEW, G_SIGNAL_RUN_LAST,
                                  0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);

  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/inventory/wb-piece-overview.ui");
  gtk_widget_class_bind_template_child (widget_class, WbPieceOverview, stack);
  gtk_widget_class_bind_template_child (widget_class, WbPieceOverview, empty);
  gtk_widget_class_bind_template_child (widget_class, WbPieceOverview, groups);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
wb_piece_overview_init (WbPieceOverview *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

WbPieceOverview *
wb_piece_overview_new (GtkWindow      *parent,
                       WbJobModel     *model,
                       const char     *title,
                       const char     *nothing,
                       const char     *hint,
                       WbOverviewFunc  fill)
{
  WbPieceOverview *self;

  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);
  g_return_val_if_fail (fill != NULL, NULL);

  self = g_object_new (WB_TYPE_PIECE_OVERVIEW, "transient-for", parent, "title", title, NULL);
  self->model = g_object_ref (model);
  self->fill = fill;
  adw_status_page_set_title (self->empty, nothing);
  adw_status_page_set_description (self->empty, hint);
  g_signal_connect_object (model, "notify::job", G_CALLBACK (renew), self, G_CONNECT_SWAPPED);
  renew (self);
  return self;
}

static GtkWidget *
make_label (const char *text,
            const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, style);
  return label;
}

void
wb_piece_overview_add_group (WbPieceOverview *self,
                             const char      *title,
                             const char      *description,
                             gboolean         warning)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  g_return_if_fail (WB_IS_PIECE_OVERVIEW (self));

  gtk_box_append (GTK_BOX (box), make_label (title, "heading"));
  if (description != NULL)
    gtk_box_append (GTK_BOX (box), make_label (description, warning ? "warning" : "dim-label"));

  self->rows = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (self->rows, GTK_SELECTION_NONE);
  gtk_widget_add_css_class (GTK_WIDGET (self->rows), "boxed-list");
  gtk_widget_set_visible (GTK_WIDGET (self->rows), FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->rows), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                  -1);
  if (description != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (self->rows),
                                    GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description, -1);
  g_signal_connect_object (self->rows, "row-activated", G_CALLBACK (row_activated_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->rows));
  gtk_box_append (self->groups, box);
}

void
wb_piece_overview_add_piece (WbPieceOverview *self,
                             const char      *title,
                             const char      *subtitle,
                             const char      *end,
                             const char      *piece)
{
  GtkWidget *row = adw_action_row_new ();

  g_return_if_fail (WB_IS_PIECE_OVERVIEW (self));
  g_return_if_fail (self->rows != NULL);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), subtitle);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), TRUE);
  g_object_set_data_full (G_OBJECT (row), "piece", g_strdup (piece), g_free);
  if (end != NULL)
    {
      GtkWidget *label = gtk_label_new (end);

      gtk_widget_add_css_class (label, "numeric");
      adw_action_row_add_suffix (ADW_ACTION_ROW (row), label);
    }
  gtk_list_box_append (self->rows, row);
  gtk_widget_set_visible (GTK_WIDGET (self->rows), TRUE);
}
