/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Going through the cells of a table with Tab. Plain functions on a column view; keeps no state. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-tab-walk.h"

#include "desk/widgets/wb-focus-within.h"

/* Widgets below @root and before @end that take the focus and have none below them that does, in
 * the order of the rows. A popover is a place of its own. */
static void
collect_stops (GtkWidget *root,
               GtkWidget *end,
               GPtrArray *stops)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && child != end;
       child = gtk_widget_get_next_sibling (child))
    {
      guint before = stops->len;

      if (GTK_IS_POPOVER (child) || !gtk_widget_get_mapped (child)
          || !gtk_widget_is_sensitive (child)
          || !gtk_widget_get_can_focus (child))
        continue;

      collect_stops (child, end, stops);
      if (end != NULL && gtk_widget_is_ancestor (end, child))
        return;
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

/* The last widget before the table that takes the focus. */
static gboolean
leave_backward (GtkWidget *view)
{
  g_autoptr (GPtrArray) stops = g_ptr_array_new ();

  collect_stops (GTK_WIDGET (gtk_widget_get_root (view)), view, stops);
  return stops->len > 0 && gtk_widget_grab_focus (g_ptr_array_index (stops, stops->len - 1));
}

static gboolean
go (GtkWidget *view,
    int        step)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (view));
  g_autoptr (GPtrArray) stops = g_ptr_array_new ();
  guint index;

  collect_stops (view, NULL, stops);
  if (focus == NULL || !find_stop (stops, focus, &index))
    return FALSE;
  if (step < 0 && index == 0)
    return leave_backward (view);
  if (step > 0 && index + 1 == stops->len)
    return FALSE;

  return gtk_widget_grab_focus (g_ptr_array_index (stops, (guint) ((int) index + step)));
}

static gboolean
key_pressed_cb (GtkWidget       *view,
                guint            key,
                guint            code,
                GdkModifierType  state)
{
  gboolean shift = (state & GDK_SHIFT_MASK) != 0;

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  if (key == GDK_KEY_ISO_Left_Tab || ((key == GDK_KEY_Tab || key == GDK_KEY_KP_Tab) && shift))
    return go (view, -1);
  if (key == GDK_KEY_Tab || key == GDK_KEY_KP_Tab)
    return go (view, 1);

  return FALSE;
}

void
wb_tab_walk_add (GtkColumnView *view)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_return_if_fail (GTK_IS_COLUMN_VIEW (view));

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), view);
  gtk_widget_add_controller (GTK_WIDGET (view), keys);
}

gboolean
wb_tab_walk_focus (GtkWidget        *table,
                   GtkColumnView    *view,
                   GtkDirectionType  direction)
{
  GtkWidget *focus;
  g_autoptr (GPtrArray) stops = g_ptr_array_new ();

  g_return_val_if_fail (GTK_IS_WIDGET (table), FALSE);
  g_return_val_if_fail (GTK_IS_COLUMN_VIEW (view), FALSE);

  focus = gtk_root_get_focus (gtk_widget_get_root (table));
  if (direction != GTK_DIR_TAB_BACKWARD || (focus != NULL && gtk_widget_is_ancestor (focus, table)))
    return wb_focus_within (table, direction);

  collect_stops (GTK_WIDGET (view), NULL, stops);
  return stops->len > 0 && gtk_widget_grab_focus (g_ptr_array_index (stops, stops->len - 1));
}
