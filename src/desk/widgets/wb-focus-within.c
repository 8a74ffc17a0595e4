/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moving the focus among children. One plain function; keeps no state. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-focus-within.h"

/* More than any page has: where no part can have the focus, the search ends. */
#define MAX_PARTS 64

static gboolean
is_backward (GtkDirectionType direction)
{
  return direction == GTK_DIR_TAB_BACKWARD || direction == GTK_DIR_UP || direction == GTK_DIR_LEFT;
}

/* The child that has the focus below it; what the toolkit remembers may be of an earlier time. */
static GtkWidget *
find_focused_child (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  while (focus != NULL && gtk_widget_get_parent (focus) != widget)
    focus = gtk_widget_get_parent (focus);
  return focus;
}

gboolean
wb_focus_within (GtkWidget        *widget,
                 GtkDirectionType  direction)
{
  gboolean backward = is_backward (direction);
  GtkWidget *child;

  g_return_val_if_fail (GTK_IS_WIDGET (widget), FALSE);

  child = find_focused_child (widget);
  if (child == NULL)
    child = backward ? gtk_widget_get_last_child (widget) : gtk_widget_get_first_child (widget);

  for (; child != NULL;
       child = backward ? gtk_widget_get_prev_sibling (child) : gtk_widget_get_next_sibling (child))
    {
      if (gtk_widget_get_mapped (child) && gtk_widget_child_focus (child, direction))
        return TRUE;
    }
  return FALSE;
}

static GtkWidget *
next_around (GtkWidget *box,
             GtkWidget *part,
             gboolean   backward)
{
  GtkWidget *next = NULL;

  if (part != NULL)
    next = backward ? gtk_widget_get_prev_sibling (part) : gtk_widget_get_next_sibling (part);
  if (next == NULL)
    next = backward ? gtk_widget_get_last_child (box) : gtk_widget_get_first_child (box);
  return next;
}

gboolean
wb_focus_next_part (GtkWidget *box,
                    gboolean   backward)
{
  GtkWidget *from;
  GtkWidget *part;

  g_return_val_if_fail (GTK_IS_WIDGET (box), FALSE);

  from = find_focused_child (box);
  part = next_around (box, from, backward);
  for (guint tries = 0; part != NULL && part != from && tries < MAX_PARTS; tries++)
    {
      if (gtk_widget_get_mapped (part) && gtk_widget_child_focus (part, GTK_DIR_TAB_FORWARD))
        return TRUE;
      part = next_around (box, part, backward);
    }
  return FALSE;
}
