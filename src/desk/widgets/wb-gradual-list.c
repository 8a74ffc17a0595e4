/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A slice that begins at the first item and is a little larger than what there is. What is added
 * beyond its end has to wait until the slice has grown. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-gradual-list.h"

/* So many new items a frame, and so many at once. */
#define STEP 16

/* A grid of twelve columns, the most that one of ours has, keeps cells for no more items than
 * that. */
#define MOST_CELLS (12 * 30)

#define STATE_KEY "wb-gradual-list"

typedef struct
{
  GtkWidget *view;    /* (weak) (nullable) */
  guint      tick;    /* of @view, 0 when nothing waits */
} State;

static void
state_free (State *state)
{
  if (state->view != NULL && state->tick != 0)
    gtk_widget_remove_tick_callback (state->view, state->tick);
  g_clear_weak_pointer (&state->view);
  g_free (state);
}

/* The size of a slice that holds everything, with room for a few more. */
static guint
full_size (GtkSliceListModel *self)
{
  return g_list_model_get_n_items (gtk_slice_list_model_get_model (self)) + STEP;
}

static gboolean
tick_cb (GtkWidget     *view,
         GdkFrameClock *clock,
         gpointer       data)
{
  GtkSliceListModel *self = data;
  State *state = g_object_get_data (G_OBJECT (self), STATE_KEY);
  guint full = full_size (self);
  guint size = gtk_slice_list_model_get_size (self) + STEP;

  gtk_slice_list_model_set_size (self, size > MOST_CELLS ? full : MIN (size, full));
  if (gtk_slice_list_model_get_size (self) < full)
    return G_SOURCE_CONTINUE;

  state->tick = 0;
  return G_SOURCE_REMOVE;
}

static void
model_changed_cb (GtkSliceListModel *self)
{
  State *state = g_object_get_data (G_OBJECT (self), STATE_KEY);
  guint full = full_size (self);

  if (gtk_slice_list_model_get_size (self) > full)
    gtk_slice_list_model_set_size (self, full);
  else if (gtk_slice_list_model_get_size (self) < full && state->tick == 0 && state->view != NULL)
    state->tick = gtk_widget_add_tick_callback (state->view, tick_cb, self, NULL);
}

GtkSliceListModel *
wb_gradual_list_new (GListModel *model,
                     GtkWidget  *view)
{
  GtkSliceListModel *self;
  State *state;

  g_return_val_if_fail (G_IS_LIST_MODEL (model), NULL);
  g_return_val_if_fail (GTK_IS_WIDGET (view), NULL);

  self = gtk_slice_list_model_new (model, 0, STEP);
  state = g_new0 (State, 1);
  g_set_weak_pointer (&state->view, view);
  g_object_set_data_full (G_OBJECT (self), STATE_KEY, state, (GDestroyNotify) state_free);
  /* After the slice, which was there first, has told of the change. */
  g_signal_connect_object (model, "items-changed", G_CALLBACK (model_changed_cb), self,
                           G_CONNECT_SWAPPED);
  model_changed_cb (self);
  return self;
}

void
wb_gradual_list_finish (GtkSliceListModel *self)
{
  State *state;

  g_return_if_fail (GTK_IS_SLICE_LIST_MODEL (self));

  state = g_object_get_data (G_OBJECT (self), STATE_KEY);
  g_return_if_fail (state != NULL);

  if (state->view != NULL && state->tick != 0)
    gtk_widget_remove_tick_callback (state->view, state->tick);
  state->tick = 0;
  gtk_slice_list_model_set_size (self, full_size (self));
}
