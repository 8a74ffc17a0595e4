/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What waits to be published or fetched. The queue lies in the book, so it outlives the program: an
 * entry is in it until it is done and cleared, or cancelled. A WbQueue works on it in threads of
 * its own, while the book is used; several of them on one book, in one program or in many, never
 * work on the same entry, and what a program that was killed had under way is taken over. */
#pragma once

#include "office/wb-office.h"
#include "office/wb-progress.h"
#include "share/wb-secret.h"
#include "store/wb-share-queue-store.h"

G_BEGIN_DECLS

/**
 * WbQueueFault: why an entry is not done, and so what can be done about it
 * @WB_QUEUE_FAULT_NONE: nothing went wrong
 * @WB_QUEUE_FAULT_PASSES: it is tried again by itself
 * @WB_QUEUE_FAULT_SECRET: the password is not known or not right; see wb_queue_set_secret()
 * @WB_QUEUE_FAULT_CERTIFICATE: the server's settings have to be looked at
 * @WB_QUEUE_FAULT_HOST_KEY: somebody has to confirm the server's key; wb_office_probe_server() with
 *   wb_queue_item_get_host_key() does that
 * @WB_QUEUE_FAULT_HOST_KEY_CHANGED: somebody has to find out why, and then to forget the old one
 * @WB_QUEUE_FAULT_CONFLICT: the job was changed there; wb_office_compare_published()
 * @WB_QUEUE_FAULT_OTHER: something that trying again does not mend
 */
typedef enum
{
  WB_QUEUE_FAULT_NONE,
  WB_QUEUE_FAULT_PASSES,
  WB_QUEUE_FAULT_SECRET,
  WB_QUEUE_FAULT_CERTIFICATE,
  WB_QUEUE_FAULT_HOST_KEY,
  WB_QUEUE_FAULT_HOST_KEY_CHANGED,
  WB_QUEUE_FAULT_CONFLICT,
  WB_QUEUE_FAULT_OTHER,
} WbQueueFault;

/** "none", "passes", "secret", "certificate", "host-key", "host-key-changed", "conflict", "other".
 * */
extern const WbEnum wb_queue_faults;

/* --- deeds, in their blocking form ------------------------------------------------------------ */

/** Puts a job into the queue; what is published is what the book holds when its turn comes. One
 * that waits there already waits anew instead. @title: what a person calls the job. Returns: the
 * entry's id, or 0 with @error set. */
gint64       wb_office_queue_add          (WbOffice            *self,
                                           WbShareDeed          deed,
                                           const char          *server_id,
                                           const char          *job_id,
                                           const char          *title,
                                           GCancellable        *cancellable,
                                           GError             **error);
/** Returns: (transfer full) (element-type WbShareEntry): in the order in which they were added;
 * their faults are for wb_queue_fault_of(). */
GPtrArray   *wb_office_queue_list         (WbOffice            *self,
                                           GCancellable        *cancellable,
                                           GError             **error) G_GNUC_WARN_UNUSED_RESULT;
/** Pauses an entry; whoever is at work on it stops, and what was sent stays sent.
 * %WB_STORE_ERROR_NOT_FOUND. */
gboolean     wb_office_queue_pause        (WbOffice            *self,
                                           gint64               id,
                                           GCancellable        *cancellable,
                                           GError             **error) G_GNUC_WARN_UNUSED_RESULT;
/** Lets a paused, failed or waiting entry be tried at once. %WB_STORE_ERROR_NOT_FOUND. */
gboolean     wb_office_queue_resume       (WbOffice            *self,
                                           gint64               id,
                                           GCancellable        *cancellable,
                                           GError             **error) G_GNUC_WARN_UNUSED_RESULT;
/** Takes an entry out; %WB_STORE_ERROR_NOT_FOUND. */
gboolean     wb_office_queue_cancel       (WbOffice            *self,
                                           gint64               id,
                                           GCancellable        *cancellable,
                                           GError             **error) G_GNUC_WARN_UNUSED_RESULT;
/** Takes all entries out that are done. */
gboolean     wb_office_queue_clear        (WbOffice            *self,
                                           GCancellable        *cancellable,
                                           GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: why @entry is not done. @sentence: (out) (optional) (nullable) (transfer none): the
 * same for a person, valid as long as @entry. */
WbQueueFault wb_queue_fault_of            (const WbShareEntry  *entry,
                                           const char         **sentence);

/** Returns: which fault @error, of whatever deed on a server, is. */
WbQueueFault wb_queue_fault_of_error      (const GError        *error);

/** Returns: seconds until an entry that has failed @tries times is tried again: 5, 15, 45 … up to
 * 30 minutes, less up to a fifth of that by @chance, so that the desks of an office do not all come
 * at once. 0: nothing less. */
gint64       wb_queue_pause_seconds       (guint                tries,
                                           guint32              chance);

/* --- one entry -------------------------------------------------------------------------------- */

/**
 * WbQueueItem: an entry as a window shows it. Properties, with notify on the main loop: "title",
 * "server" (its name), "deed" (WbShareDeed), "state" (WbShareState), "fault-kind" (WbQueueFault),
 * "fault" (sentence, or %NULL), "done" and "all" (bytes; all 0: not known), "speed" (bytes a
 * second; 0: not known), "seconds-left" (-1: not known), "next-try" (seconds since 1970; 0: at
 * once), "words" (what is being done, or %NULL).
 */
#define WB_TYPE_QUEUE_ITEM (wb_queue_item_get_type ())
G_DECLARE_FINAL_TYPE (WbQueueItem, wb_queue_item, WB, QUEUE_ITEM, GObject)

gint64       wb_queue_item_get_id         (WbQueueItem         *self);
/** Returns: (transfer none): job, server, deed, state, tries; valid until the next notify. */
const WbShareEntry *wb_queue_item_get_entry (WbQueueItem       *self);
/** Returns: (transfer none) */
const char  *wb_queue_item_get_server     (WbQueueItem         *self);
WbQueueFault wb_queue_item_get_fault_kind (WbQueueItem         *self);
/** Returns: (transfer none) (nullable) */
const char  *wb_queue_item_get_fault      (WbQueueItem         *self);
/** Returns: (transfer full) (nullable): the fingerprint that is to be confirmed. */
char        *wb_queue_item_get_host_key   (WbQueueItem         *self) G_GNUC_WARN_UNUSED_RESULT;
/** How far it is; "words" is %NULL unless this program is at work on it. */
void         wb_queue_item_get_progress   (WbQueueItem         *self,
                                           WbProgressState     *out);

/* --- the queue -------------------------------------------------------------------------------- */

/**
 * WbQueue: (GListModel of WbQueueItem): the queue of a book, in the order in which entries were
 * added; kept up to date also when another program changes it. Properties: "loaded" (gboolean:
 * whether it was read at least once), "fault" (sentence, or %NULL: why the queue itself could not
 * be read or changed the last time), "running" (WbQueueItem, or %NULL: what this program is at work
 * on), "n-open" (guint: waiting or under way, here or elsewhere), "n-failed" (guint).
 */
#define WB_TYPE_QUEUE (wb_queue_get_type ())
G_DECLARE_FINAL_TYPE (WbQueue, wb_queue, WB, QUEUE, GObject)

/**
 * WbQueueMeans: what a queue goes by; tests give their own
 * @now: (nullable): seconds since 1970
 * @chance: (nullable): any number
 * @work: (nullable): does one entry, in a thread of its own; %FALSE with its error
 * @data: for all of them
 * @patience: seconds after which another program that has not said that it is at work is believed
 *   gone; 0 for 60
 */
typedef struct
{
  gint64   (*now)    (gpointer             data);
  guint32  (*chance) (gpointer             data);
  gboolean (*work)   (WbOffice            *office,
                      const WbShareEntry  *entry,
                      WbSecret            *secret,
                      WbProgress          *progress,
                      gpointer             data,
                      GCancellable        *cancellable,
                      GError             **error);
  gpointer   data;
  guint      patience;
} WbQueueMeans;

/** Returns: (transfer full): the queue of @office's book, which does nothing until it is started.
 * @means: (nullable): %NULL for the clock, chance and servers that there are */
WbQueue     *wb_queue_new                 (WbOffice            *office,
                                           const WbQueueMeans  *means) G_GNUC_WARN_UNUSED_RESULT;
/** Reads the queue and works on it until stopped. */
void         wb_queue_start               (WbQueue             *self);
/** Stops: what is under way is cancelled and waits again, and is gone on with by whoever is next.
 * Returns when that is in the book, which takes about as long as storing something. Before an
 * office is closed. Letting go of the queue does the same without waiting. */
void         wb_queue_stop                (WbQueue             *self);

/** Adds an entry; see wb_office_queue_add(). It is in the book when the callback comes. */
void         wb_queue_add_async           (WbQueue             *self,
                                           WbShareDeed          deed,
                                           const char          *server_id,
                                           const char          *job_id,
                                           const char          *title,
                                           GCancellable        *cancellable,
                                           GAsyncReadyCallback  callback,
                                           gpointer             data);
gint64       wb_queue_add_finish          (WbQueue             *self,
                                           GAsyncResult        *result,
                                           GError             **error);

/* These come back at once and are done in the order in which they were asked for, while the queue
 * is started; what goes wrong with them is "fault". An entry that is gone is no fault. */
void         wb_queue_pause               (WbQueue             *self,
                                           gint64               id);
void         wb_queue_resume              (WbQueue             *self,
                                           gint64               id);
void         wb_queue_cancel              (WbQueue             *self,
                                           gint64               id);
/** Takes all entries out that are done. */
void         wb_queue_clear               (WbQueue             *self);
/** Lets all entries for a server be tried at once that failed for its password, certificate or
 * key. */
void         wb_queue_resume_server       (WbQueue             *self,
                                           const char          *server_id);
/** Gives the secret of a server that is not kept by the desktop, for as long as the queue is there;
 * %NULL takes it back. Entries that failed for want of it are tried at once. */
void         wb_queue_set_secret          (WbQueue             *self,
                                           const char          *server_id,
                                           WbSecret            *secret);
/** Looks at once whether there is something to do; otherwise that is seen within a second. */
void         wb_queue_wake                (WbQueue             *self);

gboolean     wb_queue_get_loaded          (WbQueue             *self);
/** Returns: (transfer none) (nullable) */
const char  *wb_queue_get_fault           (WbQueue             *self);
/** Returns: (transfer none) (nullable) */
WbQueueItem *wb_queue_get_running         (WbQueue             *self);
/** Returns: entries in that state. */
guint        wb_queue_count               (WbQueue             *self,
                                           WbShareState         state);

G_END_DECLS
