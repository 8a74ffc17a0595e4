/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps the queue as data of the office. What it does is office's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-desk-queue.h"

#define KEY "wb-desk-queue"

/* The first frame, the list of jobs and the first key come before what waits to be sent. */
#define LATER_MS 1500

typedef struct
{
  WbQueue  *queue;
  guint     timer;    /* until it is started, or 0 */
  gboolean  started;
} Holder;

static void
holder_free (gpointer data)
{
  Holder *holder = data;

  g_clear_handle_id (&holder->timer, g_source_remove);
  g_object_unref (holder->queue);
  g_free (holder);
}

static Holder *
get_holder (WbOffice *office)
{
  Holder *holder = g_object_get_data (G_OBJECT (office), KEY);

  if (holder == NULL)
    {
      holder = g_new0 (Holder, 1);
      holder->queue = wb_queue_new (office, NULL);
      g_object_set_data_full (G_OBJECT (office), KEY, holder, holder_free);
    }
  return holder;
}

WbQueue *
wb_desk_queue_get (WbOffice *office)
{
  g_return_val_if_fail (WB_IS_OFFICE (office), NULL);

  return get_holder (office)->queue;
}

static gboolean
later_cb (gpointer data)
{
  Holder *holder = data;

  holder->timer = 0;
  holder->started = TRUE;
  wb_queue_start (holder->queue);
  /* What was done the last time nobody looks for. */
  wb_queue_clear (holder->queue);
  return G_SOURCE_REMOVE;
}

void
wb_desk_queue_start_later (WbOffice *office)
{
  Holder *holder;

  g_return_if_fail (WB_IS_OFFICE (office));

  holder = get_holder (office);
  if (!holder->started && holder->timer == 0)
    holder->timer = g_timeout_add_full (G_PRIORITY_LOW, LATER_MS, later_cb, holder, NULL);
}

void
wb_desk_queue_start (WbOffice *office)
{
  Holder *holder;

  g_return_if_fail (WB_IS_OFFICE (office));

  holder = get_holder (office);
  g_clear_handle_id (&holder->timer, g_source_remove);
  if (!holder->started)
    later_cb (holder);
}

void
wb_desk_queue_stop (WbOffice *office)
{
  Holder *holder;

  g_return_if_fail (WB_IS_OFFICE (office));

  holder = g_object_get_data (G_OBJECT (office), KEY);
  if (holder == NULL)
    return;
  if (holder->started)
    wb_queue_stop (holder->queue);
  g_object_set_data (G_OBJECT (office), KEY, NULL);
}
