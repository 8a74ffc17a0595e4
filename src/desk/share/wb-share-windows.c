/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keeps one window of each kind for a main window, as data of it. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/share/wb-share-windows.h"

#include "desk/share/wb-published-window.h"
#include "desk/share/wb-servers-window.h"
#include "desk/share/wb-transfers-window.h"

#define KEY "wb-share-windows"

/* Windows by the name of their type; the array holds no references, for each takes itself out. */
static void
window_gone_cb (gpointer  data,
                GObject  *gone)
{
  g_ptr_array_remove_fast (data, gone);
}

static void
windows_free (gpointer data)
{
  GPtrArray *windows = data;

  for (guint i = 0; i < windows->len; i++)
    g_object_weak_unref (g_ptr_array_index (windows, i), window_gone_cb, windows);
  g_ptr_array_unref (windows);
}

static GPtrArray *
get_windows (GtkWindow *window)
{
  GPtrArray *windows = g_object_get_data (G_OBJECT (window), KEY);

  if (windows == NULL)
    {
      windows = g_ptr_array_new ();
      g_object_set_data_full (G_OBJECT (window), KEY, windows, windows_free);
    }
  return windows;
}

/* Returns: (nullable): the one of @type that is open. One that was closed may be here still, held by
 * a deed that has not ended. */
static GtkWindow *
find (GtkWindow *window,
      GType      type)
{
  GPtrArray *windows = get_windows (window);

  for (guint i = 0; i < windows->len; i++)
    if (G_TYPE_CHECK_INSTANCE_TYPE (g_ptr_array_index (windows, i), type) &&
        gtk_widget_get_realized (g_ptr_array_index (windows, i)))
      return g_ptr_array_index (windows, i);
  return NULL;
}

static void
add (GtkWindow *window,
     GtkWidget *other)
{
  GPtrArray *windows = get_windows (window);

  g_ptr_array_add (windows, other);
  g_object_weak_ref (G_OBJECT (other), window_gone_cb, windows);
  gtk_window_present (GTK_WINDOW (other));
}

void
wb_share_windows_show_servers (GtkWindow *window,
                               WbOffice  *office)
{
  GtkWindow *servers;

  g_return_if_fail (GTK_IS_WINDOW (window) && WB_IS_OFFICE (office));

  servers = find (window, WB_TYPE_SERVERS_WINDOW);
  if (servers != NULL)
    gtk_window_present (servers);
  else
    add (window, wb_servers_window_new (office));
}

void
wb_share_windows_show_transfers (WbWindow *window)
{
  GtkWindow *transfers;

  g_return_if_fail (WB_IS_WINDOW (window));

  transfers = find (GTK_WINDOW (window), WB_TYPE_TRANSFERS_WINDOW);
  if (transfers != NULL)
    gtk_window_present (transfers);
  else
    add (GTK_WINDOW (window), wb_transfers_window_new (window));
}

void
wb_share_windows_show_published (WbWindow *window)
{
  GtkWindow *published;

  g_return_if_fail (WB_IS_WINDOW (window));

  published = find (GTK_WINDOW (window), WB_TYPE_PUBLISHED_WINDOW);
  if (published != NULL)
    gtk_window_present (published);
  else
    add (GTK_WINDOW (window), wb_published_window_new (window));
}

void
wb_share_windows_close (GtkWindow *window)
{
  GPtrArray *windows;

  g_return_if_fail (GTK_IS_WINDOW (window));

  windows = get_windows (window);
  while (windows->len > 0)
    {
      GtkWindow *last = g_ptr_array_index (windows, windows->len - 1);
      guint n = windows->len;

      gtk_window_destroy (last);
      if (windows->len == n)
        {
          g_object_weak_unref (G_OBJECT (last), window_gone_cb, windows);
          g_ptr_array_remove_index_fast (windows, n - 1);
        }
    }
}
