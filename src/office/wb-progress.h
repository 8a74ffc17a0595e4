/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a long deed is. The threads that do it tell, and another one asks, as often as it likes. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/** WbProgress: how far one deed is. */
typedef struct _WbProgress WbProgress;

/**
 * WbProgressState: what there is to show
 * @words: (nullable): what is being done, for a person, in static storage; %NULL before it began
 * @n_done: files that are done
 * @n_all: files that there are, 0 while that is not known or nothing is counted
 * @done: bytes
 * @all: bytes that there are, 0 while that is not known
 * @speed: bytes a second over the last few seconds, 0 while there is nothing to go by
 * @seconds_left: -1 while that cannot be told
 */
typedef struct
{
  const char *words;
  guint       n_done;
  guint       n_all;
  gint64      done;
  gint64      all;
  gint64      speed;
  gint64      seconds_left;
} WbProgressState;

WbProgress *wb_progress_new   (void) G_GNUC_WARN_UNUSED_RESULT;
WbProgress *wb_progress_ref   (WbProgress      *self);
void        wb_progress_unref (WbProgress      *self);

/** Begins a part of the deed, from nothing done. @self: (nullable): nobody wants to know; @words:
 * (nullable): in static storage, marked for translation with N_() */
void        wb_progress_begin (WbProgress      *self,
                               const char      *words,
                               guint            n_all,
                               gint64           all);

/** Tells that @done of @all bytes are done; fits a WbBagProgressFunc, with a progress as its data.
 * @self: (nullable) */
void        wb_progress_set   (gint64           done,
                               gint64           all,
                               gpointer         self);

/** Tells that @n_files and @bytes more are done. @self: (nullable) */
void        wb_progress_add   (WbProgress      *self,
                               guint            n_files,
                               gint64           bytes);

void        wb_progress_get   (WbProgress      *self,
                               WbProgressState *state);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbProgress, wb_progress_unref)

G_END_DECLS
