/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A layout of equal columns that becomes one column when the text does not fit. The measure is the
 * width of letters, so that larger text makes fewer columns. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-columns.h"

struct _WbColumns
{
  GtkLayoutManager parent_instance;

  int              spacing;
  int              column_chars;
};

enum
{
  PROP_0,
  PROP_SPACING,
  PROP_COLUMN_CHARS,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbColumns, wb_columns, GTK_TYPE_LAYOUT_MANAGER)

static int
count_children (GtkWidget *widget)
{
  int count = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child))
      count++;

  return count;
}

static int
get_text_width (WbColumns *self,
                GtkWidget *widget)
{
  PangoFontMetrics *metrics = pango_context_get_metrics (gtk_widget_get_pango_context (widget),
                                                         NULL, NULL);
  int width = pango_font_metrics_get_approximate_char_width (metrics);

  pango_font_metrics_unref (metrics);
  return PANGO_PIXELS (width) * self->column_chars;
}

/* Width of each column when all children stand side by side in @width; 0 when they have no room. */
static int
get_column_width (WbColumns *self,
                  GtkWidget *widget,
                  int        width)
{
  int count = count_children (widget);
  int needed = get_text_width (self, widget);
  int column;

  if (count == 0)
    return 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int minimum = 0;

      if (gtk_widget_should_layout (child))
        gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, NULL, NULL, NULL);
      needed = MAX (needed, minimum);
    }

  column = (width - (count - 1) * self->spacing) / count;
  return column >= needed ? column : 0;
}

static GtkSizeRequestMode
wb_columns_get_request_mode (GtkLayoutManager *layout,
                             GtkWidget        *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
measure_width (WbColumns *self,
               GtkWidget *widget,
               int       *minimum,
               int       *natural)
{
  int count = count_children (widget);

  *minimum = *natural = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int child_minimum, child_natural;

      if (!gtk_widget_should_layout (child))
        continue;

      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1,
                          &child_minimum, &child_natural, NULL, NULL);
      *minimum = MAX (*minimum, child_minimum);
      *natural = MAX (*natural, child_natural);
    }

  *natural = MAX (*natural, get_text_width (self, widget)) * count +
             MAX (count - 1, 0) * self->spacing;
}

static void
measure_height (WbColumns *self,
                GtkWidget *widget,
                int        width,
                int       *minimum,
                int       *natural)
{
  int column = width < 0 ? 0 : get_column_width (self, widget, width);
  int n_seen = 0;

  *minimum = *natural = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int child_minimum, child_natural;

      if (!gtk_widget_should_layout (child))
        continue;

      gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, column > 0 ? column : width,
                          &child_minimum, &child_natural, NULL, NULL);
      if (column > 0)
        {
          *minimum = MAX (*minimum, child_minimum);
          *natural = MAX (*natural, child_natural);
        }
      else
        {
          *minimum += child_minimum + (n_seen > 0 ? self->spacing : 0);
          *natural += child_natural + (n_seen > 0 ? self->spacing : 0);
        }
      n_seen++;
    }
}

static void
wb_columns_measure (GtkLayoutManager *layout,
                    GtkWidget        *widget,
                    GtkOrientation    orientation,
                    int               for_size,
                    int              *minimum,
                    int              *natural,
                    int              *minimum_baseline,
                    int              *natural_baseline)
{
  WbColumns *self = WB_COLUMNS (layout);

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    measure_width (self, widget, minimum, natural);
  else
    measure_height (self, widget, for_size, minimum, natural);
}

static void
wb_columns_allocate (GtkLayoutManager *layout,
                     GtkWidget        *widget,
                     int               width,
                     int               height,
                     int               baseline)
{
  WbColumns *self = WB_COLUMNS (layout);
  int column = get_column_width (self, widget, width);
  gboolean right_to_left = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int x = right_to_left && column > 0 ? width - column : 0;
  int y = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkAllocation place = { x, y, column > 0 ? column : width, height };

      if (!gtk_widget_should_layout (child))
        continue;

      if (column == 0)
        gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, width, NULL, &place.height, NULL,
                            NULL);
      gtk_widget_size_allocate (child, &place, -1);

      if (column == 0)
        y += place.height + self->spacing;
      else if (right_to_left)
        x -= column + self->spacing;
      else
        x += column + self->spacing;
    }
}

static void
wb_columns_get_property (GObject    *object,
                         guint       prop_id,
                         GValue     *value,
                         GParamSpec *pspec)
{
  WbColumns *self = WB_COLUMNS (object);

  switch (prop_id)
    {
    case PROP_SPACING:
      g_value_set_int (value, self->spacing);
      break;
    case PROP_COLUMN_CHARS:
      g_value_set_int (value, self->column_chars);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_columns_set_property (GObject      *object,
                         guint         prop_id,
                         const GValue *value,
                         GParamSpec   *pspec)
{
  WbColumns *self = WB_COLUMNS (object);

  switch (prop_id)
    {
    case PROP_SPACING:
      self->spacing = g_value_get_int (value);
      break;
    case PROP_COLUMN_CHARS:
      self->column_chars = g_value_get_int (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }

  gtk_layout_manager_layout_changed (GTK_LAYOUT_MANAGER (self));
}

static void
wb_columns_class_init (WbColumnsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  object_class->get_property = wb_columns_get_property;
  object_class->set_property = wb_columns_set_property;

  layout_class->get_request_mode = wb_columns_get_request_mode;
  layout_class->measure = wb_columns_measure;
  layout_class->allocate = wb_columns_allocate;

  properties[PROP_SPACING] = g_param_spec_int ("spacing", NULL, NULL, 0, 1000, 24,
                                               G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_COLUMN_CHARS] = g_param_spec_int ("column-chars", NULL, NULL, 1, 1000, 40,
                                                    G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
wb_columns_init (WbColumns *self)
{
  self->spacing = 24;
  self->column_chars = 40;
}
