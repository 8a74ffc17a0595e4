/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a long deed is, how fast it goes and how long it will take. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-progress.h"

#include <glib/gi18n.h>

/* The speed is that since the older of two moments, of which each is the younger one for so long:
 * it follows a network that changes, and does not jump with every packet. */
#define SPAN (3 * G_USEC_PER_SEC)

typedef struct
{
  gint64 time;
  gint64 done;
} Moment;

struct _WbProgress
{
  gatomicrefcount references;
  GMutex          mutex;
  const char     *words;
  guint           n_done;
  guint           n_all;
  gint64          done;
  gint64          all;
  Moment          older;
  Moment          younger;
};

WbProgress *
wb_progress_new (void)
{
  WbProgress *self = g_new0 (WbProgress, 1);

  g_atomic_ref_count_init (&self->references);
  g_mutex_init (&self->mutex);
  return self;
}

WbProgress *
wb_progress_ref (WbProgress *self)
{
  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_progress_unref (WbProgress *self)
{
  if (!g_atomic_ref_count_dec (&self->references))
    return;
  g_mutex_clear (&self->mutex);
  g_free (self);
}

static void
note_moment (WbProgress *self)
{
  gint64 now = g_get_monotonic_time ();

  if (now - self->younger.time < SPAN)
    return;
  self->older = self->younger;
  self->younger = (Moment) { now, self->done };
}

void
wb_progress_begin (WbProgress *self,
                   const char *words,
                   guint       n_all,
                   gint64      all)
{
  g_autoptr (GMutexLocker) locker = NULL;

  if (self == NULL)
    return;
  locker = g_mutex_locker_new (&self->mutex);
  self->words = words;
  self->n_done = 0;
  self->n_all = n_all;
  self->done = 0;
  self->all = all;
  self->older = self->younger = (Moment) { g_get_monotonic_time (), 0 };
}

void
wb_progress_set (gint64   done,
                 gint64   all,
                 gpointer data)
{
  WbProgress *self = data;
  g_autoptr (GMutexLocker) locker = NULL;

  if (self == NULL)
    return;
  locker = g_mutex_locker_new (&self->mutex);
  self->done = done;
  self->all = all;
  note_moment (self);
}

void
wb_progress_add (WbProgress *self,
                 guint       n_files,
                 gint64      bytes)
{
  g_autoptr (GMutexLocker) locker = NULL;

  if (self == NULL)
    return;
  locker = g_mutex_locker_new (&self->mutex);
  self->n_done += n_files;
  self->done += bytes;
  note_moment (self);
}

void
wb_progress_get (WbProgress      *self,
                 WbProgressState *state)
{
  g_autoptr (GMutexLocker) locker = g_mutex_locker_new (&self->mutex);
  gint64 milliseconds = (g_get_monotonic_time () - self->older.time) / 1000;
  gint64 done = self->done - self->older.done;

  *state = (WbProgressState) {
    .words = self->words != NULL ? _(self->words) : NULL,
    .n_done = self->n_done,
    .n_all = self->n_all,
    .done = self->done,
    .all = self->all,
    .seconds_left = -1,
  };
  if (milliseconds <= 0 || done <= 0 || done > G_MAXINT64 / 1000)
    return;
  state->speed = done * 1000 / milliseconds;
  if (state->speed > 0 && state->all > 0)
    state->seconds_left = MAX (0, state->all - state->done) / state->speed;
}
