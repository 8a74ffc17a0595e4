/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scrolled window whose natural height is measured here. It does the scrolling, this only the
 * measuring. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-fit-scroller.h"

#include "desk/widgets/wb-focus-within.h"

struct _WbFitScroller
{
  GtkWidget          parent_instance;

  GtkScrolledWindow *scrolled;
};

enum
{
  PROP_0,
  PROP_CHILD,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbFitScroller, wb_fit_scroller, GTK_TYPE_WIDGET)

/* The content itself, without the viewport that the scrolled window puts around it. */
static GtkWidget *
get_content (WbFitScroller *self)
{
  GtkWidget *child = gtk_scrolled_window_get_child (self->scrolled);

  return GTK_IS_VIEWPORT (child) ? gtk_viewport_get_child (GTK_VIEWPORT (child)) : child;
}

static GtkSizeRequestMode
wb_fit_scroller_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
wb_fit_scroller_measure (GtkWidget      *widget,
                         GtkOrientation  orientation,
                         int             for_size,
                         int            *minimum,
                         int            *natural,
                         int            *minimum_baseline,
                         int            *natural_baseline)
{
  WbFitScroller *self = WB_FIT_SCROLLER (widget);
  GtkWidget *content = get_content (self);
  int needed;

  gtk_widget_measure (GTK_WIDGET (self->scrolled), orientation, for_size, minimum, natural, NULL,
                      NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL || content == NULL)
    return;

  gtk_widget_measure (content, orientation, for_size, &needed, NULL, NULL, NULL);
  *natural = MAX (*minimum, needed);
}

static void
wb_fit_scroller_size_allocate (GtkWidget *widget,
                               int        width,
                               int        height,
                               int        baseline)
{
  WbFitScroller *self = WB_FIT_SCROLLER (widget);

  gtk_widget_size_allocate (GTK_WIDGET (self->scrolled),
                            &(GtkAllocation) { 0, 0, width, height }, -1);
}

static void
wb_fit_scroller_get_property (GObject    *object,
                              guint       prop_id,
                              GValue     *value,
                              GParamSpec *pspec)
{
  WbFitScroller *self = WB_FIT_SCROLLER (object);

  switch (prop_id)
    {
    case PROP_CHILD:
      g_value_set_object (value, get_content (self));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_fit_scroller_set_property (GObject      *object,
                              guint         prop_id,
                              const GValue *value,
                              GParamSpec   *pspec)
{
  WbFitScroller *self = WB_FIT_SCROLLER (object);

  switch (prop_id)
    {
    case PROP_CHILD:
      gtk_scrolled_window_set_child (self->scrolled, g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_fit_scroller_dispose (GObject *object)
{
  WbFitScroller *self = WB_FIT_SCROLLER (object);

  if (self->scrolled != NULL)
    gtk_widget_unparent (GTK_WIDGET (g_steal_pointer (&self->scrolled)));

  G_OBJECT_CLASS (wb_fit_scroller_parent_class)->dispose (object);
}

static void
wb_fit_scroller_class_init (WbFitScrollerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_fit_scroller_get_property;
  object_class->set_property = wb_fit_scroller_set_property;
  object_class->dispose = wb_fit_scroller_dispose;
  widget_class->get_request_mode = wb_fit_scroller_get_request_mode;
  widget_class->measure = wb_fit_scroller_measure;
  widget_class->size_allocate = wb_fit_scroller_size_allocate;
  widget_class->focus = wb_focus_within;

  properties[PROP_CHILD] =
    g_param_spec_object ("child", NULL, NULL, GTK_TYPE_WIDGET,
                         G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
wb_fit_scroller_init (WbFitScroller *self)
{
  self->scrolled = GTK_SCROLLED_WINDOW (gtk_scrolled_window_new ());
  gtk_scrolled_window_set_policy (self->scrolled, GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_parent (GTK_WIDGET (self->scrolled), GTK_WIDGET (self));
}

GtkWidget *
wb_fit_scroller_new (void)
{
  return g_object_new (WB_TYPE_FIT_SCROLLER, NULL);
}
