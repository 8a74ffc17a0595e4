/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder as a remote whose calls fail when they are told to, for tests of what lies above it. */
#pragma once

#include "share/wb-remote.h"

G_BEGIN_DECLS

/**
 * FaultKind:
 * @FAULT_BEFORE: nothing was done
 * @FAULT_AFTER: it was done, and the answer was lost
 * @FAULT_HALF: half of a file was sent or fetched; what was put is under way only
 * @FAULT_TORN: half of a file was put in its place, by a server that does not keep its word
 */
typedef enum
{
  FAULT_BEFORE,
  FAULT_AFTER,
  FAULT_HALF,
  FAULT_TORN,
} FaultKind;

#define N_FAULT_KINDS 4

/**
 * FaultPlan:
 * @at: the call that fails, from 1; 0 for none
 * @dead: whether no call after it works, as when the program was killed
 * @before_put: (nullable): called before a file is put
 * @lost_puts: whether the answer to each file that is put is lost, and the library below asks once
 *   more by itself: then it is there already
 * @n_calls: calls so far
 * @n_puts: files that were put
 * @n_gets: files read so far
 * @n_bytes: bytes of files read so far
 */
typedef struct
{
  guint     at;
  FaultKind kind;
  gboolean  dead;
  void    (*before_put) (const char *path,
                         gpointer    data);
  gpointer  data;
  gboolean  lost_puts;
  guint     n_calls;
  guint     n_lists;
  guint     n_gets;
  guint     n_puts;
  gint64    n_bytes;
} FaultPlan;

/** Returns: (transfer full): the folder as a remote that works. */
WbRemote *faulty_remote_open_folder (const char *folder) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): the folder as a remote that goes by @plan, which has to outlive it.
 * One at a time. */
WbRemote *faulty_remote_open        (const char *folder,
                                     FaultPlan  *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
