/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the queue share: the threads that work on it, and how they report. */
#pragma once

#include "office/wb-queue.h"

G_BEGIN_DECLS

/** Returns: (transfer full): @error as the book keeps it for wb_queue_fault_of(). */
char         *wb_queue_fault_pack      (const GError        *error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): whose book the queue is in. */
WbOffice     *wb_queue_get_office      (WbQueue             *self);

/* --- an entry --------------------------------------------------------------------------------- */

WbQueueItem  *wb_queue_item_new        (gint64               id) G_GNUC_WARN_UNUSED_RESULT;
/** Takes over what the book says. @entry: (transfer full) */
void          wb_queue_item_take_entry (WbQueueItem         *self,
                                        WbShareEntry        *entry,
                                        const char          *server);
/** @state: (nullable): how far this program is with it */
void          wb_queue_item_set_progress (WbQueueItem       *self,
                                        const WbProgressState *state);

/* --- one entry under way ---------------------------------------------------------------------- */

typedef struct _WbQueueRun WbQueueRun;

/**
 * WbQueueTransfer: an entry and the thread that does it
 * @entry: may be changed by whoever holds the transfer; its ids, title and deed may not
 */
typedef struct
{
  WbShareEntry *entry;
  WbProgress   *progress;
  GCancellable *cancellable;
  WbQueueRun   *run;
} WbQueueTransfer;

/** Starts. @entry: (transfer full); @done: called in the other thread when it has finished */
WbQueueTransfer *wb_queue_transfer_start (WbOffice         *office,
                                        const WbQueueMeans *means,
                                        WbShareEntry       *entry,
                                        WbSecret           *secret,
                                        void              (*done) (gpointer data),
                                        gpointer            data,
                                        GDestroyNotify      free_data) G_GNUC_WARN_UNUSED_RESULT;
gboolean      wb_queue_transfer_is_finished (WbQueueTransfer *self);
/** Waits for it. Returns: (transfer none) (nullable): what went wrong */
const GError *wb_queue_transfer_join   (WbQueueTransfer     *self);
/** Waits for it and lets go of it. */
void          wb_queue_transfer_free   (WbQueueTransfer     *self);

/** Does an entry with the servers that there are. */
gboolean      wb_queue_share           (WbOffice            *office,
                                        const WbShareEntry  *entry,
                                        WbSecret            *secret,
                                        WbProgress          *progress,
                                        gpointer             data,
                                        GCancellable        *cancellable,
                                        GError             **error);

/* --- reports ---------------------------------------------------------------------------------- */

/**
 * WbQueueReport: the queue as it is
 * @entries: (element-type WbShareEntry) (nullable): %NULL with @fault
 * @names: (element-type utf8 utf8): id and name of servers
 * @running: what this program is at work on; 0: nothing
 * @progress: (nullable): how far that is
 * @fault: (nullable): what could not be read or changed
 */
typedef struct
{
  GPtrArray  *entries;
  GHashTable *names;
  gint64      running;
  WbProgress *progress;
  GError     *fault;
} WbQueueReport;

void          wb_queue_report_free     (WbQueueReport       *self);

/** Takes a report, in the thread of the queue's maker. */
typedef void (*WbQueueReportFunc)      (WbQueueReport       *report,
                                        gpointer             data);

typedef struct _WbQueueListener WbQueueListener;

/** @each: called on @context with @queue as its data, for as long as there is one */
WbQueueListener *wb_queue_listener_new (GObject             *queue,
                                        GMainContext        *context,
                                        WbQueueReportFunc    each) G_GNUC_WARN_UNUSED_RESULT;
void          wb_queue_listener_unref  (WbQueueListener     *self);
/** Tells of the queue, from any thread. @entries: (nullable); @transfer: (nullable); @fault:
 * (transfer full) (nullable) */
void          wb_queue_listener_tell   (WbQueueListener     *self,
                                        WbOffice            *office,
                                        GPtrArray           *entries,
                                        const WbQueueTransfer *transfer,
                                        GError              *fault);

/* --- at work ---------------------------------------------------------------------------------- */

typedef enum
{
  WB_QUEUE_ORDER_PAUSE,
  WB_QUEUE_ORDER_RESUME,
  WB_QUEUE_ORDER_CANCEL,
  WB_QUEUE_ORDER_CLEAR,
  WB_QUEUE_ORDER_RESUME_SERVER,
} WbQueueOrder;

/** Does what a person ordered. @id: of an entry, for those that want one; @server_id: (nullable):
 * likewise */
gboolean      wb_queue_obey            (WbOffice            *office,
                                        WbQueueOrder         what,
                                        gint64               id,
                                        const char          *server_id,
                                        GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Sets state, fault, tries and next try of an entry that was under way. @error: (nullable): what
 * came of it; %NULL when it was done */
void          wb_queue_judge           (WbShareEntry        *entry,
                                        const GError        *error,
                                        gint64               now,
                                        guint32              chance);

/** WbQueueWork: the thread that minds the queue. */
typedef struct _WbQueueWork WbQueueWork;

/** Starts. @secrets: (element-type utf8 WbSecret): by server, its own from now on; @listener:
 * (transfer full) */
WbQueueWork  *wb_queue_work_start      (WbOffice            *office,
                                        const WbQueueMeans  *means,
                                        GHashTable          *secrets,
                                        WbQueueListener     *listener) G_GNUC_WARN_UNUSED_RESULT;
void          wb_queue_work_order      (WbQueueWork         *self,
                                        WbQueueOrder         what,
                                        gint64               id,
                                        const char          *server_id);
void          wb_queue_work_set_secret (WbQueueWork         *self,
                                        const char          *server_id,
                                        WbSecret            *secret);
void          wb_queue_work_wake       (WbQueueWork         *self);
/** Ends the work and lets go of it. @wait: until all is in the book */
void          wb_queue_work_stop       (WbQueueWork         *self,
                                        gboolean             wait);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbQueueReport, wb_queue_report_free)

G_END_DECLS
