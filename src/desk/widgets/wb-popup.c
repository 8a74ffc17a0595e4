/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Waits a few frames for the parent to come into view, and no longer: then the toolkit does what it
 * can. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-popup.h"

/* A scrolled window needs one frame to follow the focus, and another to lay out. */
#define MOST_FRAMES 30

/* Returns: whether some of @widget lies within its window. */
static gboolean
is_in_sight (GtkWidget *widget)
{
  GtkWidget *root = GTK_WIDGET (gtk_widget_get_root (widget));
  graphene_rect_t bounds, whole;

  if (root == NULL || !gtk_widget_compute_bounds (widget, root, &bounds))
    return FALSE;
  graphene_rect_init (&whole, 0, 0, gtk_widget_get_width (root), gtk_widget_get_height (root));
  return graphene_rect_contains_point (&whole,
                                       &GRAPHENE_POINT_INIT (bounds.origin.x +
                                                             bounds.size.width / 2,
                                                             bounds.origin.y +
                                                             bounds.size.height / 2));
}

typedef struct
{
  GtkPopover *popover;   /* (weak) */
  guint       n_frames;
} Wait;

static void
wait_free (gpointer data)
{
  Wait *wait = data;

  g_clear_weak_pointer (&wait->popover);
  g_free (wait);
}

static gboolean
tick_cb (GtkWidget     *parent,
         GdkFrameClock *clock,
         gpointer       data)
{
  Wait *wait = data;

  if (wait->popover == NULL)
    return G_SOURCE_REMOVE;
  if (!is_in_sight (parent) && ++wait->n_frames < MOST_FRAMES)
    return G_SOURCE_CONTINUE;
  gtk_popover_popup (wait->popover);
  return G_SOURCE_REMOVE;
}

void
wb_popup (GtkPopover *popover)
{
  GtkWidget *parent;
  Wait *wait;

  g_return_if_fail (GTK_IS_POPOVER (popover));

  parent = gtk_widget_get_parent (GTK_WIDGET (popover));
  g_return_if_fail (parent != NULL);

  if (is_in_sight (parent))
    {
      gtk_popover_popup (popover);
      return;
    }
  wait = g_new0 (Wait, 1);
  g_set_weak_pointer (&wait->popover, popover);
  gtk_widget_add_tick_callback (parent, tick_cb, wait, wait_free);
}
