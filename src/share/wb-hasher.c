/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A thread, and chunks that go to it full and come back empty. Their number is fixed, so that
 * memory does not grow with what is hashed. */
#include "config.h"

#include "share/wb-hasher.h"

#include "share/wb-sha256.h"

#include <string.h>

#define CHUNK (256 * 1024)
#define N_CHUNKS 8
/* Below this many bytes a thread costs more than it brings. */
#define THREAD_FROM (1024 * 1024)

typedef struct
{
  gsize  length;   /* 0: there is nothing more */
  guint8 bytes[CHUNK];
} Chunk;

struct _WbHasher
{
  WbSha256    *hash;       /* the thread's, until it was waited for */
  GThread     *thread;     /* (nullable) */
  GAsyncQueue *full;
  GAsyncQueue *empty;
  Chunk       *current;    /* (nullable): being filled */
};

/* Chunks that nobody uses: taking 2 MiB from the system for each file, and giving it back, takes
 * longer than hashing some. */
static GAsyncQueue *
spare_chunks (void)
{
  static gsize made = 0;

  if (g_once_init_enter (&made))
    g_once_init_leave (&made, (gsize) g_async_queue_new_full (g_free));
  return (GAsyncQueue *) made;
}

static Chunk *
new_chunk (void)
{
  Chunk *chunk = g_async_queue_try_pop (spare_chunks ());

  if (chunk == NULL)
    chunk = g_new (Chunk, 1);
  chunk->length = 0;
  return chunk;
}

static void
free_chunk (gpointer data)
{
  if (g_async_queue_length (spare_chunks ()) < N_CHUNKS)
    g_async_queue_push (spare_chunks (), data);
  else
    g_free (data);
}

static gpointer
hash_thread (gpointer data)
{
  WbHasher *self = data;
  Chunk *chunk;

  while ((chunk = g_async_queue_pop (self->full))->length > 0)
    {
      wb_sha256_update (self->hash, chunk->bytes, chunk->length);
      chunk->length = 0;
      g_async_queue_push (self->empty, chunk);
    }
  g_async_queue_push (self->empty, chunk);
  return NULL;
}

static void
start_thread (WbHasher *self)
{
  self->full = g_async_queue_new_full (free_chunk);
  self->empty = g_async_queue_new_full (free_chunk);
  for (guint i = 0; i < N_CHUNKS; i++)
    g_async_queue_push (self->empty, new_chunk ());
  self->thread = g_thread_new ("wb-hasher", hash_thread, self);
}

WbHasher *
wb_hasher_new (gint64 size)
{
  WbHasher *self = g_new0 (WbHasher, 1);

  self->hash = wb_sha256_new ();
  if (size >= THREAD_FROM)
    start_thread (self);
  return self;
}

static Chunk *
take_current (WbHasher *self)
{
  if (self->current == NULL)
    self->current = g_async_queue_pop (self->empty);
  return g_steal_pointer (&self->current);
}

/* Lets the thread come to its end. */
static void
end_thread (WbHasher *self)
{
  Chunk *chunk = take_current (self);

  if (chunk->length > 0)
    {
      g_async_queue_push (self->full, chunk);
      chunk = take_current (self);
    }
  g_async_queue_push (self->full, chunk);
  g_thread_join (g_steal_pointer (&self->thread));
}

void
wb_hasher_update (WbHasher     *self,
                  const guint8 *bytes,
                  gsize         length)
{
  if (self->thread == NULL)
    {
      wb_sha256_update (self->hash, bytes, length);
      return;
    }
  while (length > 0)
    {
      Chunk *chunk = take_current (self);
      gsize part = MIN (length, CHUNK - chunk->length);

      memcpy (chunk->bytes + chunk->length, bytes, part);
      chunk->length += part;
      bytes += part;
      length -= part;
      if (chunk->length == CHUNK)
        g_async_queue_push (self->full, chunk);
      else
        self->current = chunk;
    }
}

const char *
wb_hasher_finish (WbHasher *self)
{
  if (self->thread != NULL)
    end_thread (self);
  return wb_sha256_finish (self->hash);
}

void
wb_hasher_free (WbHasher *self)
{
  if (self->thread != NULL)
    end_thread (self);
  g_clear_pointer (&self->full, g_async_queue_unref);
  g_clear_pointer (&self->empty, g_async_queue_unref);
  g_clear_pointer (&self->current, free_chunk);
  wb_sha256_free (self->hash);
  g_free (self);
}
