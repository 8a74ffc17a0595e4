/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A layout manager in two passes over the visible children: cut them into rows by width, then place
 * the rows. Knows nothing of what the children are. */
#include "config.h"

#include "desk/widgets/wb-flow-layout.h"

#define DEFAULT_SPACING 6

struct _WbFlowLayout
{
  GtkLayoutManager parent_instance;

  int              column_spacing;
  int              row_spacing;
};

G_DEFINE_FINAL_TYPE (WbFlowLayout, wb_flow_layout, GTK_TYPE_LAYOUT_MANAGER)

enum
{
  PROP_0,
  PROP_COLUMN_SPACING,
  PROP_ROW_SPACING,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

/* Children @first … before @end stand in one row. */
typedef struct
{
  GtkWidget *first;
  GtkWidget *end;
  guint      n;
} Row;

static GtkWidget *
skip_hidden (GtkWidget *child)
{
  while (child != NULL && !gtk_widget_should_layout (child))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

static GtkWidget *
next_child (GtkWidget *child)
{
  return skip_hidden (gtk_widget_get_next_sibling (child));
}

/* The row that starts with @first; a row has at least one child, however narrow the width. */
static Row
cut_row (WbFlowLayout *self,
         GtkWidget    *first,
         int           width)
{
  Row row = { .first = first };
  int used = 0;

  for (GtkWidget *child = first; child != NULL; child = next_child (child))
    {
      int minimum;

      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, NULL, NULL, NULL);
      used += minimum + (child != first ? self->column_spacing : 0);
      if (child != first && used > width)
        {
          row.end = child;
          break;
        }
      row.n++;
    }
  return row;
}

/* What child number @index of the @n expanding ones gets of @spare. */
static int
share_of (int spare,
          int index,
          int n)
{
  return spare * (index + 1) / n - spare * index / n;
}

/* The widths of a row's children: natural as far as there is room, the rest to those that
 * expand. */
static void
share_width (WbFlowLayout     *self,
             const Row        *row,
             int               width,
             GtkRequestedSize *sizes)
{
  int spare = width - self->column_spacing * (int) (row->n - 1);
  int n_expanding = 0;
  int n_seen = 0;
  guint i = 0;

  for (GtkWidget *child = row->first; child != row->end; child = next_child (child), i++)
    {
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &sizes[i].minimum_size,
                          &sizes[i].natural_size, NULL, NULL);
      sizes[i].data = child;
      spare -= sizes[i].minimum_size;
      n_expanding += gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL);
    }

  spare = gtk_distribute_natural_allocation (MAX (0, spare), row->n, sizes);
  for (i = 0; i < row->n && n_expanding > 0; i++)
    if (gtk_widget_compute_expand (sizes[i].data, GTK_ORIENTATION_HORIZONTAL))
      sizes[i].minimum_size += share_of (spare, n_seen++, n_expanding);
}

/* Gives each child of the row its place at @y, or only measures when @height is negative. Returns
 * the row's height. */
static int
walk_row (WbFlowLayout *self,
          GtkWidget    *widget,
          const Row    *row,
          int           width,
          int           y,
          int           height)
{
  g_autofree GtkRequestedSize *sizes = g_new (GtkRequestedSize, row->n);
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int tallest = 0;
  int x = 0;

  share_width (self, row, width, sizes);
  for (guint i = 0; i < row->n; i++)
    {
      int child_width = sizes[i].minimum_size;
      int child_height;

      gtk_widget_measure (sizes[i].data, GTK_ORIENTATION_VERTICAL, child_width, &child_height, NULL,
                          NULL, NULL);
      tallest = MAX (tallest, child_height);
      if (height >= 0)
        {
          GtkAllocation place = { rtl ? width - x - child_width : x, y, child_width, height };

          gtk_widget_size_allocate (sizes[i].data, &place, -1);
        }
      x += child_width + self->column_spacing;
    }
  return tallest;
}

static int
walk_rows (WbFlowLayout *self,
           GtkWidget    *widget,
           int           width,
           gboolean      place)
{
  GtkWidget *child = skip_hidden (gtk_widget_get_first_child (widget));
  int y = 0;

  while (child != NULL)
    {
      Row row = cut_row (self, child, width);
      int height = walk_row (self, widget, &row, width, y, -1);

      if (place)
        walk_row (self, widget, &row, width, y, height);
      y += height;
      child = row.end;
      if (child != NULL)
        y += self->row_spacing;
    }
  return y;
}

static GtkSizeRequestMode
wb_flow_layout_get_request_mode (GtkLayoutManager *manager,
                                 GtkWidget        *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
measure_width (WbFlowLayout *self,
               GtkWidget    *widget,
               int          *minimum,
               int          *natural)
{
  GtkWidget *child = skip_hidden (gtk_widget_get_first_child (widget));

  for (; child != NULL; child = next_child (child))
    {
      int child_minimum, child_natural;

      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &child_minimum, &child_natural,
                          NULL, NULL);
      *minimum = MAX (*minimum, child_minimum);
      *natural += child_natural + (*natural > 0 ? self->column_spacing : 0);
    }
}

static void
wb_flow_layout_measure (GtkLayoutManager *manager,
                        GtkWidget        *widget,
                        GtkOrientation    orientation,
                        int               for_size,
                        int              *minimum,
                        int              *natural,
                        int              *minimum_baseline,
                        int              *natural_baseline)
{
  WbFlowLayout *self = WB_FLOW_LAYOUT (manager);
  int narrowest = 0;
  int widest = 0;

  measure_width (self, widget, &narrowest, &widest);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = narrowest;
      *natural = widest;
      return;
    }

  *minimum = walk_rows (self, widget, for_size < 0 ? widest : MAX (for_size, narrowest), FALSE);
  *natural = *minimum;
}

static void
wb_flow_layout_allocate (GtkLayoutManager *manager,
                         GtkWidget        *widget,
                         int               width,
                         int               height,
                         int               baseline)
{
  walk_rows (WB_FLOW_LAYOUT (manager), widget, width, TRUE);
}

static void
wb_flow_layout_get_property (GObject    *object,
                             guint       prop_id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  WbFlowLayout *self = WB_FLOW_LAYOUT (object);

  switch (prop_id)
    {
    case PROP_COLUMN_SPACING:
      g_value_set_int (value, self->column_spacing);
      break;
    case PROP_ROW_SPACING:
      g_value_set_int (value, self->row_spacing);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_flow_layout_set_property (GObject      *object,
                             guint         prop_id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  WbFlowLayout *self = WB_FLOW_LAYOUT (object);

  switch (prop_id)
    {
    case PROP_COLUMN_SPACING:
      self->column_spacing = g_value_get_int (value);
      break;
    case PROP_ROW_SPACING:
      self->row_spacing = g_value_get_int (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }

  gtk_layout_manager_layout_changed (GTK_LAYOUT_MANAGER (self));
}

static void
wb_flow_layout_class_init (WbFlowLayoutClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  object_class->get_property = wb_flow_layout_get_property;
  object_class->set_property = wb_flow_layout_set_property;

  layout_class->get_request_mode = wb_flow_layout_get_request_mode;
  layout_class->measure = wb_flow_layout_measure;
  layout_class->allocate = wb_flow_layout_allocate;

  properties[PROP_COLUMN_SPACING] =
    g_param_spec_int ("column-spacing", NULL, NULL, 0, 1000, DEFAULT_SPACING,
                      G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_ROW_SPACING] =
    g_param_spec_int ("row-spacing", NULL, NULL, 0, 1000, DEFAULT_SPACING,
                      G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
wb_flow_layout_init (WbFlowLayout *self)
{
  self->column_spacing = DEFAULT_SPACING;
  self->row_spacing = DEFAULT_SPACING;
}

GtkLayoutManager *
wb_flow_layout_new (int column_spacing,
                    int row_spacing)
{
  return g_object_new (WB_TYPE_FLOW_LAYOUT,
                       "column-spacing", column_spacing,
                       "row-spacing", row_spacing,
                       NULL);
}
