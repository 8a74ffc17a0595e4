/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A server for tests of the queue: it answers what the test says, when the test says so, and its
 * clock is the test's. */
#pragma once

#include "office/wb-queue.h"
#include "share/wb-share.h"

G_BEGIN_DECLS

/** The time at which such a server begins. */
#define QUEUE_START 1790000000

/** QueueServer: what a server does, as the test says; its members under its mutex */
typedef struct
{
  gint64      now;
  guint32     chance;
  guint       patience;     /* of queues; 60 */
  GMutex      mutex;
  GCond       cond;
  GQueue      faults;       /* codes of WbShareError, one a try, as pointers + 1 */
  gboolean    hold;         /* until cancelled or let go */
  guint       n_begun;
  guint       n_cancelled;
  char       *secret;       /* that came with the last try */
  GHashTable *counts;       /* job → how often it was done */
} QueueServer;

void         queue_server_init        (QueueServer  *self);
/** All faults have to have been met. */
void         queue_server_clear       (QueueServer  *self);
/** The next try fails so, or the one after those that do already. */
void         queue_server_fails       (QueueServer  *self,
                                       WbShareError  code);
/** Whether it lets wait. */
void         queue_server_hold        (QueueServer  *self,
                                       gboolean      hold);
void         queue_server_set_time    (QueueServer  *self,
                                       gint64        now);
/** Returns: how often something was begun. */
guint        queue_server_begun       (QueueServer  *self);
/** Waits until that is so often. */
void         queue_server_wait        (QueueServer  *self,
                                       guint         n);

/** Returns: (transfer full): a queue that has started. @server: (nullable): %NULL for real ones */
WbQueue     *queue_fixture_start      (WbOffice     *office,
                                       QueueServer  *server);
/** Stops it and lets go of it. */
void         queue_fixture_finish     (WbQueue      *queue);
/** Adds @job, to be published. Returns: the entry */
gint64       queue_fixture_add        (WbOffice     *office,
                                       const char   *server,
                                       const char   *job);
/** Waits until the queue shows @n entries in that state. */
void         queue_fixture_wait       (WbQueue      *queue,
                                       WbShareState  state,
                                       guint         n);
/** Waits until it shows that the first has failed so often. */
void         queue_fixture_wait_tries (WbQueue      *queue,
                                       guint         tries);
/** Returns: (transfer none) */
WbQueueItem *queue_fixture_first      (WbQueue      *queue);
/** Lets some looks at the queue pass. */
void         queue_fixture_pass       (void);

G_END_DECLS
