/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list of the parts of a page that are not whole yet, worked through in turns, one a frame, so
 * that no frame has to lay out and draw what many turns have made. Parts that stand in one parent
 * are made one after the other; of several parents, as the columns of a page are, the one where the
 * least was made goes first, since it ends the highest. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-later.h"

/* A turn begins no step after this time. */
#define TURN_USEC 4000

/* So long a turn waits for the frame after the one before, which a window that nobody sees may not
 * draw. */
#define WAIT_MSEC 100

#define WORK_KEY "wb-later-work"

typedef struct
{
  GtkWidget  *root;     /* borrowed: it owns this */
  GPtrArray  *parts;    /* WbLater, in the order of the page */
  GHashTable *made;     /* parent of parts → number of steps made there */
  guint       source;   /* of the next turn */
  guint       tick;     /* of the frame that it waits for */
} Work;

G_DEFINE_INTERFACE (WbLater, wb_later, GTK_TYPE_WIDGET)

static void
wb_later_default_init (WbLaterInterface *iface)
{
}

static void
forget_turn (Work *work)
{
  g_clear_handle_id (&work->source, g_source_remove);
  if (work->tick != 0)
    gtk_widget_remove_tick_callback (work->root, work->tick);
  work->tick = 0;
}

static void
work_free (gpointer data)
{
  Work *work = data;

  forget_turn (work);
  g_ptr_array_unref (work->parts);
  g_hash_table_unref (work->made);
  g_free (work);
}

static Work *
get_work (GtkWidget *root)
{
  return g_object_get_data (G_OBJECT (root), WORK_KEY);
}

static void
stop (GtkWidget *root)
{
  g_object_set_data (G_OBJECT (root), WORK_KEY, NULL);
}

static guint
count_made (Work      *work,
            GtkWidget *part)
{
  return GPOINTER_TO_UINT (g_hash_table_lookup (work->made, gtk_widget_get_parent (part)));
}

static guint
choose_part (Work *work)
{
  guint chosen = 0;

  for (guint i = 1; i < work->parts->len; i++)
    if (count_made (work, g_ptr_array_index (work->parts, i))
        < count_made (work, g_ptr_array_index (work->parts, chosen)))
      chosen = i;
  return chosen;
}

static void
make_step (Work *work)
{
  guint index = choose_part (work);
  GtkWidget *part = g_ptr_array_index (work->parts, index);
  guint n_made = count_made (work, part);

  g_hash_table_insert (work->made, gtk_widget_get_parent (part), GUINT_TO_POINTER (n_made + 1));
  if (!WB_LATER_GET_IFACE (part)->make_more (WB_LATER (part)))
    g_ptr_array_remove_index (work->parts, index);
  gtk_widget_set_visible (part, TRUE);
}

static void plan_turn (Work *work);

static gboolean
turn_cb (gpointer data)
{
  Work *work = data;
  gint64 end = g_get_monotonic_time () + TURN_USEC;

  work->source = 0;
  forget_turn (work);
  while (work->parts->len > 0 && g_get_monotonic_time () < end)
    make_step (work);

  if (work->parts->len > 0)
    plan_turn (work);
  else
    stop (work->root);
  return G_SOURCE_REMOVE;
}

/* The frame that lays out what was made begins; the next turn comes when it is drawn. */
static gboolean
tick_cb (GtkWidget     *root,
         GdkFrameClock *clock,
         gpointer       data)
{
  Work *work = data;

  work->tick = 0;
  g_clear_handle_id (&work->source, g_source_remove);
  work->source = g_idle_add (turn_cb, work);
  return G_SOURCE_REMOVE;
}

static void
plan_turn (Work *work)
{
  if (!gtk_widget_get_mapped (work->root))
    {
      work->source = g_idle_add (turn_cb, work);
      return;
    }
  work->tick = gtk_widget_add_tick_callback (work->root, tick_cb, work, NULL);
  work->source = g_timeout_add (WAIT_MSEC, turn_cb, work);
}

static void
collect (GtkWidget *widget,
         GPtrArray *parts)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (WB_IS_LATER (child))
      g_ptr_array_add (parts, g_object_ref (child));
    else
      collect (child, parts);
}

void
wb_later_start (GtkWidget *root)
{
  Work *work;

  g_return_if_fail (GTK_IS_WIDGET (root));
  g_return_if_fail (get_work (root) == NULL);

  work = g_new0 (Work, 1);
  work->parts = g_ptr_array_new_with_free_func (g_object_unref);
  work->made = g_hash_table_new (NULL, NULL);
  collect (root, work->parts);
  for (guint i = 0; i < work->parts->len; i++)
    gtk_widget_set_visible (g_ptr_array_index (work->parts, i), FALSE);
  work->root = root;
  work->source = g_idle_add (turn_cb, work);

  g_object_set_data_full (G_OBJECT (root), WORK_KEY, work, work_free);
  g_signal_connect (root, "destroy", G_CALLBACK (stop), NULL);
}

void
wb_later_finish (GtkWidget *root)
{
  Work *work;

  g_return_if_fail (GTK_IS_WIDGET (root));

  work = get_work (root);
  if (work == NULL)
    return;
  while (work->parts->len > 0)
    make_step (work);
  stop (root);
}

gboolean
wb_later_is_done (GtkWidget *root)
{
  g_return_val_if_fail (GTK_IS_WIDGET (root), TRUE);

  return get_work (root) == NULL;
}
