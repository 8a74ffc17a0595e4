/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "bench/wb-bench-relay.h"

#include <gio/gio.h>

#define CHUNK (64 * 1024)

struct _WbBenchRelay
{
  GSocketService *service;
  GMainContext   *context;
  GMainLoop      *loop;
  GThread        *thread;
  guint16         port;
  guint16         target;
  gint64          bytes;    /* guarded by @lock */
  GMutex          lock;
};

/* One direction of one connection. */
typedef struct
{
  WbBenchRelay      *relay;
  GSocketConnection *from;
  GSocketConnection *to;
} Passage;

static gpointer
pass_on (gpointer data)
{
  Passage *self = data;
  GInputStream *input = g_io_stream_get_input_stream (G_IO_STREAM (self->from));
  GOutputStream *output = g_io_stream_get_output_stream (G_IO_STREAM (self->to));
  g_autofree guint8 *chunk = g_malloc (CHUNK);
  gssize n;

  while ((n = g_input_stream_read (input, chunk, CHUNK, NULL, NULL)) > 0)
    {
      g_mutex_lock (&self->relay->lock);
      self->relay->bytes += n;
      g_mutex_unlock (&self->relay->lock);
      if (!g_output_stream_write_all (output, chunk, (gsize) n, NULL, NULL, NULL))
        break;
    }
  g_socket_shutdown (g_socket_connection_get_socket (self->to), FALSE, TRUE, NULL);
  return NULL;
}

/* In a thread of its own. */
static gboolean
run_cb (GThreadedSocketService *service,
        GSocketConnection      *client,
        GObject                *source,
        gpointer                data)
{
  WbBenchRelay *self = data;
  g_autoptr (GSocketClient) caller = g_socket_client_new ();
  g_autoptr (GSocketConnection) server = NULL;
  GThread *back;

  server = g_socket_client_connect_to_host (caller, "127.0.0.1", self->target, NULL, NULL);
  if (server != NULL)
    {
      Passage there = { self, client, server }, here = { self, server, client };

      back = g_thread_new ("relay", pass_on, &here);
      pass_on (&there);
      g_thread_join (back);
    }
  return TRUE;
}

static gpointer
listen_thread (gpointer data)
{
  WbBenchRelay *self = data;

  g_main_context_push_thread_default (self->context);
  self->service = g_threaded_socket_service_new (-1);
  self->port = g_socket_listener_add_any_inet_port (G_SOCKET_LISTENER (self->service), NULL, NULL);
  g_assert_cmpuint (self->port, !=, 0);
  g_signal_connect (self->service, "run", G_CALLBACK (run_cb), self);
  g_socket_service_start (self->service);
  g_main_loop_run (self->loop);
  g_socket_service_stop (self->service);
  g_socket_listener_close (G_SOCKET_LISTENER (self->service));
  g_clear_object (&self->service);
  g_main_context_pop_thread_default (self->context);
  return NULL;
}

static gboolean
tell_running (gpointer data)
{
  gint *running = data;

  g_atomic_int_set (running, 1);
  return G_SOURCE_REMOVE;
}

WbBenchRelay *
wb_bench_relay_new (guint16 port)
{
  WbBenchRelay *self = g_new0 (WbBenchRelay, 1);
  g_autoptr (GSource) begun = g_idle_source_new ();
  gint running = 0;

  g_mutex_init (&self->lock);
  self->target = port;
  self->context = g_main_context_new ();
  self->loop = g_main_loop_new (self->context, FALSE);
  g_source_set_callback (begun, tell_running, &running, NULL);
  g_source_attach (begun, self->context);
  self->thread = g_thread_new ("relay", listen_thread, self);
  while (!g_atomic_int_get (&running))
    g_usleep (1000);
  return self;
}

void
wb_bench_relay_free (WbBenchRelay *self)
{
  g_main_loop_quit (self->loop);
  g_thread_join (self->thread);
  g_main_loop_unref (self->loop);
  g_main_context_unref (self->context);
  g_mutex_clear (&self->lock);
  g_free (self);
}

guint16
wb_bench_relay_get_port (const WbBenchRelay *self)
{
  return self->port;
}

gint64
wb_bench_relay_get_bytes (WbBenchRelay *self)
{
  gint64 bytes;

  g_mutex_lock (&self->lock);
  bytes = self->bytes;
  g_mutex_unlock (&self->lock);
  return bytes;
}
