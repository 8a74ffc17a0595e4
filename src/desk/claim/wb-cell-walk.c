/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Going through the cells of a table with the arrow keys, and past the table with Tab. Keeps for
 * each table only where the focus was when it left. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-cell-walk.h"

/* Where the focus left a table; of a table that it never left all is empty. */
typedef struct
{
  GtkWidget *row;      /* (weak) (nullable) */
  guint      index;    /* among the stops of the row */
} Place;

static void
free_place (gpointer data)
{
  Place *place = data;

  g_clear_weak_pointer (&place->row);
  g_free (place);
}

static Place *
get_place (GtkWidget *view)
{
  Place *place = g_object_get_data (G_OBJECT (view), "wb-cell-walk-place");

  if (place == NULL)
    {
      place = g_new0 (Place, 1);
      g_object_set_data_full (G_OBJECT (view), "wb-cell-walk-place", place, free_place);
    }
  return place;
}

/* --- rows and what takes the focus in them ---------------------------------------------------- */

/* Widgets below @root that take the focus and have none below them that does, in the order of the
 * rows. A popover is a place of its own. */
static void
collect_stops (GtkWidget *root,
               GPtrArray *stops)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      guint before = stops->len;

      if (GTK_IS_POPOVER (child) || !gtk_widget_get_mapped (child)
          || !gtk_widget_is_sensitive (child)
          || !gtk_widget_get_can_focus (child))
        continue;

      collect_stops (child, stops);
      if (stops->len == before && gtk_widget_get_focusable (child))
        g_ptr_array_add (stops, child);
    }
}

static gboolean
find_stop (GPtrArray *stops,
           GtkWidget *focus,
           guint     *index)
{
  for (guint i = 0; i < stops->len; i++)
    {
      GtkWidget *stop = g_ptr_array_index (stops, i);

      if (stop == focus || gtk_widget_is_ancestor (focus, stop))
        {
          *index = i;
          return TRUE;
        }
    }

  return FALSE;
}

/* The rows stand in the list that the column view has below its titles. */
static GtkWidget *
get_list (GtkWidget *view)
{
  return gtk_widget_get_last_child (view);
}

static GtkWidget *
find_row (GtkWidget *view,
          GtkWidget *widget)
{
  while (widget != NULL && gtk_widget_get_parent (widget) != get_list (view))
    widget = gtk_widget_get_parent (widget);
  return widget;
}

static gboolean
focus_stop (GtkWidget *row,
            guint      index)
{
  g_autoptr (GPtrArray) stops = g_ptr_array_new ();

  collect_stops (row, stops);
  return stops->len > 0
         && gtk_widget_grab_focus (g_ptr_array_index (stops, MIN (index, stops->len - 1)));
}

/* The focus, if it is in a cell and not in something that a cell has opened. */
static GtkWidget *
get_focus (GtkWidget *view)
{
  GtkRoot *root = gtk_widget_get_root (view);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  GtkWidget *popover;

  if (focus == NULL || !gtk_widget_is_ancestor (focus, view))
    return NULL;

  popover = gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER);
  return popover != NULL && gtk_widget_is_ancestor (popover, view) ? NULL : focus;
}

/* --- keys ------------------------------------------------------------------------------------- */

/* Whether there is text to go through in this direction. */
static gboolean
goes_on_in_text (GtkWidget *focus,
                 int        step)
{
  int length, position, start, end;

  if (!GTK_IS_EDITABLE (focus))
    return FALSE;

  length = (int) g_utf8_strlen (gtk_editable_get_text (GTK_EDITABLE (focus)), -1);
  if (gtk_editable_get_selection_bounds (GTK_EDITABLE (focus), &start, &end))
    return end - start < length;

  position = gtk_editable_get_position (GTK_EDITABLE (focus));
  return step < 0 ? position > 0 : position < length;
}

static gboolean
go_along (GtkWidget *view,
          GtkWidget *focus,
          int        step)
{
  g_autoptr (GPtrArray) stops = g_ptr_array_new ();
  guint index;

  collect_stops (get_list (view), stops);
  if (goes_on_in_text (focus, step) || !find_stop (stops, focus, &index))
    return FALSE;

  if (step < 0 ? index == 0 : index + 1 == stops->len)
    gtk_widget_error_bell (view);
  else
    gtk_widget_grab_focus (g_ptr_array_index (stops, (guint) ((int) index + step)));
  return TRUE;
}

static gboolean
go_across (GtkWidget *view,
           GtkWidget *focus,
           int        step)
{
  GtkWidget *row = find_row (view, focus);
  g_autoptr (GPtrArray) stops = g_ptr_array_new ();
  GtkWidget *next;
  guint index;

  if (row == NULL)
    return FALSE;

  collect_stops (row, stops);
  next = step < 0 ? gtk_widget_get_prev_sibling (row) : gtk_widget_get_next_sibling (row);
  if (!find_stop (stops, focus, &index))
    return FALSE;

  if (next == NULL || !focus_stop (next, index))
    gtk_widget_error_bell (view);
  return TRUE;
}

static gboolean
step_along (GtkWidget *view,
            int        step)
{
  GtkWidget *focus = get_focus (view);

  if (gtk_widget_get_direction (view) == GTK_TEXT_DIR_RTL)
    step = -step;
  return focus != NULL && go_along (view, focus, step);
}

static gboolean
step_across (GtkWidget *view,
             int        step)
{
  GtkWidget *focus = get_focus (view);

  return focus != NULL && go_across (view, focus, step);
}

static gboolean
key_pressed_cb (GtkWidget             *view,
                guint                  key,
                guint                  code,
                GdkModifierType        state,
                GtkEventControllerKey *controller)
{
  gboolean rows = g_object_get_data (G_OBJECT (controller), "rows") != NULL;

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) != 0)
    return FALSE;

  switch (key)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      return step_along (view, -1);
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      return step_along (view, 1);
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      return rows && step_across (view, -1);
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      return rows && step_across (view, 1);
    default:
      return FALSE;
    }
}

void
wb_cell_walk_add (GtkColumnView *view,
                  gboolean       rows)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_return_if_fail (GTK_IS_COLUMN_VIEW (view));

  g_object_set_data (G_OBJECT (keys), "rows", GINT_TO_POINTER (rows));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), view);
  gtk_widget_add_controller (GTK_WIDGET (view), keys);
}

/* --- into the table and out of it ------------------------------------------------------------- */

static void
remember (GtkWidget *view,
          GtkWidget *focus)
{
  Place *place = get_place (view);
  GtkWidget *row = find_row (view, focus);
  g_autoptr (GPtrArray) stops = g_ptr_array_new ();

  if (row == NULL)
    return;

  collect_stops (row, stops);
  g_set_weak_pointer (&place->row, row);
  if (!find_stop (stops, focus, &place->index))
    place->index = 0;
}

static GtkWidget *
find_selected_row (GtkWidget *view)
{
  GtkWidget *row = gtk_widget_get_first_child (get_list (view));

  while (row != NULL && (gtk_widget_get_state_flags (row) & GTK_STATE_FLAG_SELECTED) == 0)
    row = gtk_widget_get_next_sibling (row);
  return row;
}

static gboolean
come_in (GtkWidget *view)
{
  Place *place = get_place (view);
  GtkWidget *selected = find_selected_row (view);
  g_autoptr (GPtrArray) stops = g_ptr_array_new ();

  if (selected != NULL && focus_stop (selected, place->index))
    return TRUE;
  if (place->row != NULL && gtk_widget_get_mapped (place->row)
      && focus_stop (place->row, place->index))
    return TRUE;

  collect_stops (get_list (view), stops);
  return stops->len > 0 && gtk_widget_grab_focus (g_ptr_array_index (stops, 0));
}

gboolean
wb_cell_walk_focus (GtkWidget        *table,
                    GtkColumnView    *view,
                    GtkDirectionType  direction)
{
  GtkWidget *focus;

  g_return_val_if_fail (GTK_IS_WIDGET (table), FALSE);
  g_return_val_if_fail (GTK_IS_COLUMN_VIEW (view), FALSE);

  focus = gtk_root_get_focus (gtk_widget_get_root (table));
  if (focus == NULL || !gtk_widget_is_ancestor (focus, table))
    return come_in (GTK_WIDGET (view));
  if (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD)
    return TRUE;

  remember (GTK_WIDGET (view), focus);
  return FALSE;
}
