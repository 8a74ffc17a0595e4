/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bin with a focus function of its own, and nothing else. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-one-stop.h"

#include "desk/widgets/wb-focus-within.h"

struct _WbOneStop
{
  GtkWidget  parent_instance;

  GtkWidget *child;    /* (nullable) */
};

enum
{
  PROP_0,
  PROP_CHILD,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbOneStop, wb_one_stop, GTK_TYPE_WIDGET)

static GtkWidget *
find_list (GtkWidget *widget)
{
  GtkWidget *found = GTK_IS_LIST_VIEW (widget) || GTK_IS_LIST_BOX (widget) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_list (child);
  return found;
}

/* A GtkListView knows the row that had the focus; of a GtkListBox it is the selected one. */
static gboolean
focus_list (GtkWidget *list)
{
  GtkListBoxRow *row;

  if (!GTK_IS_LIST_BOX (list))
    return gtk_widget_grab_focus (list);

  row = gtk_list_box_get_selected_row (GTK_LIST_BOX (list));
  if (row == NULL)
    row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), 0);
  return row != NULL && gtk_widget_grab_focus (GTK_WIDGET (row));
}

static gboolean
wb_one_stop_focus (GtkWidget        *widget,
                   GtkDirectionType  direction)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));
  GtkWidget *list = find_list (widget);

  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return wb_focus_within (widget, direction);
  if (focus != NULL && gtk_widget_is_ancestor (focus, widget))
    return FALSE;
  return list != NULL && focus_list (list);
}

static void
wb_one_stop_get_property (GObject    *object,
                          guint       prop_id,
                          GValue     *value,
                          GParamSpec *pspec)
{
  switch (prop_id)
    {
    case PROP_CHILD:
      g_value_set_object (value, WB_ONE_STOP (object)->child);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_one_stop_set_property (GObject      *object,
                          guint         prop_id,
                          const GValue *value,
                          GParamSpec   *pspec)
{
  WbOneStop *self = WB_ONE_STOP (object);

  switch (prop_id)
    {
    case PROP_CHILD:
      g_clear_pointer (&self->child, gtk_widget_unparent);
      self->child = g_value_get_object (value);
      if (self->child != NULL)
        gtk_widget_set_parent (self->child, GTK_WIDGET (self));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_one_stop_dispose (GObject *object)
{
  g_clear_pointer (&WB_ONE_STOP (object)->child, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_one_stop_parent_class)->dispose (object);
}

static void
wb_one_stop_class_init (WbOneStopClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_one_stop_get_property;
  object_class->set_property = wb_one_stop_set_property;
  object_class->dispose = wb_one_stop_dispose;
  widget_class->focus = wb_one_stop_focus;

  properties[PROP_CHILD] =
    g_param_spec_object ("child", NULL, NULL, GTK_TYPE_WIDGET,
                         G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
wb_one_stop_init (WbOneStop *self)
{
}
