/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file servers of the office: which there are, who signs in, and whether all that publishing
 * needs works there. Blocking forms are for the command line and for worker threads. */
#pragma once

#include "core/wb-server.h"
#include "office/wb-office.h"
#include "share/wb-remote.h"
#include "share/wb-secret.h"

G_BEGIN_DECLS

/* Signal of WbOffice: "servers-changed": this office added, changed or removed a server; on the
 * main loop of the office's maker. */

/** Returns: (transfer full) (element-type WbServer): in the order in which they were added. */
GPtrArray  *wb_office_list_servers         (WbOffice             *self,
                                            GCancellable         *cancellable,
                                            GError              **error)
                                            G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the server with that name or id, upper and lower case
 * alike; %WB_STORE_ERROR_NOT_FOUND. @name: (nullable): %NULL for the only one that there is */
WbServer   *wb_office_find_server          (WbOffice             *self,
                                            const char           *name,
                                            GCancellable         *cancellable,
                                            GError              **error)
                                            G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_put_server:
 * @server: checked here; without an id it is added under a new one, with one it takes the place of
 *   the server of that id
 * @secret: (nullable): %NULL leaves the one that is kept, "" forgets it
 * @place: (out) (optional): where @secret is kept; %WB_SECRET_SERVICE when there was none to keep
 *
 * Returns: (transfer full) (nullable): the server as stored; %NULL with an error of
 * wb_server_check(), %WB_STORE_ERROR_CONSTRAINT for a name that another has, or another of the
 * book.
 */
WbServer   *wb_office_put_server           (WbOffice             *self,
                                            const WbServer       *server,
                                            WbSecret             *secret,
                                            WbSecretPlace        *place,
                                            GCancellable         *cancellable,
                                            GError              **error)
                                            G_GNUC_WARN_UNUSED_RESULT;
void        wb_office_put_server_async     (WbOffice             *self,
                                            const WbServer       *server,
                                            WbSecret             *secret,
                                            GCancellable         *cancellable,
                                            GAsyncReadyCallback   callback,
                                            gpointer              data);
WbServer   *wb_office_put_server_finish    (WbOffice             *self,
                                            GAsyncResult         *result,
                                            WbSecretPlace        *place,
                                            GError              **error)
                                            G_GNUC_WARN_UNUSED_RESULT;

/** Removes a server with its secret, what was noted of jobs on it and what waits for it. What lies
 * on the server itself stays. */
gboolean    wb_office_remove_server        (WbOffice             *self,
                                            const char           *id,
                                            GCancellable         *cancellable,
                                            GError              **error)
                                            G_GNUC_WARN_UNUSED_RESULT;
void        wb_office_remove_server_async  (WbOffice             *self,
                                            const char           *id,
                                            GCancellable         *cancellable,
                                            GAsyncReadyCallback   callback,
                                            gpointer              data);
gboolean    wb_office_remove_server_finish (WbOffice             *self,
                                            GAsyncResult         *result,
                                            GError              **error)
                                            G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_office_probe_server:
 * @server: need not be in the book
 * @secret: (nullable): %NULL for the one that is kept
 * @confirmed_key: (nullable): fingerprint of the host key that a person has confirmed
 * @step_done: (nullable): told of each step, in this thread
 *
 * Tries all that publishing needs with a small file, which is gone afterwards.
 *
 * Returns: %TRUE, or %FALSE with what failed; %WB_SHARE_ERROR_HOST_KEY_UNKNOWN, whose message ends
 * in the fingerprint, asks for a confirmation.
 */
gboolean    wb_office_probe_server         (WbOffice             *self,
                                            const WbServer       *server,
                                            WbSecret             *secret,
                                            const char           *confirmed_key,
                                            WbProbeFunc           step_done,
                                            gpointer              data,
                                            GCancellable         *cancellable,
                                            GError              **error)
                                            G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the fingerprint "SHA256:…" in a
 * %WB_SHARE_ERROR_HOST_KEY_UNKNOWN, to be shown and, once confirmed, given to the next try. */
char       *wb_server_host_key_of          (const GError         *error) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: whether @error says that the host key is another than was confirmed. @error: (nullable) */
gboolean    wb_server_host_key_changed     (const GError         *error);

/** Forgets the host keys that were confirmed for @server, so that the next try asks for a confirmation
 * again. Only for a person who knows why the key is another one. */
gboolean    wb_office_forget_host_key      (WbOffice             *self,
                                            const WbServer       *server,
                                            GCancellable         *cancellable,
                                            GError              **error)
                                            G_GNUC_WARN_UNUSED_RESULT;
void        wb_office_forget_host_key_async  (WbOffice            *self,
                                              const WbServer      *server,
                                              GCancellable        *cancellable,
                                              GAsyncReadyCallback  callback,
                                              gpointer             data);
gboolean    wb_office_forget_host_key_finish (WbOffice            *self,
                                              GAsyncResult        *result,
                                              GError             **error)
                                              G_GNUC_WARN_UNUSED_RESULT;

/* --- for windows ------------------------------------------------------------------------------ */

/** WbServerItem: one server in a list; immutable. */
#define WB_TYPE_SERVER_ITEM (wb_server_item_get_type ())
G_DECLARE_FINAL_TYPE (WbServerItem, wb_server_item, WB, SERVER_ITEM, GObject)

/** Returns: (transfer none) */
const WbServer *wb_server_item_get_server  (WbServerItem         *self);

/** WbServerList: (GListModel of WbServerItem): the servers of an office, kept up to date. */
#define WB_TYPE_SERVER_LIST (wb_server_list_get_type ())
G_DECLARE_FINAL_TYPE (WbServerList, wb_server_list, WB, SERVER_LIST, GObject)

/** Returns: (transfer full): a list that fills itself from the main loop. */
WbServerList *wb_server_list_new           (WbOffice             *office)
                                            G_GNUC_WARN_UNUSED_RESULT;
/** Returns: whether it was filled at least once, so that an empty one has no servers. Notified as
 * "loaded". */
gboolean      wb_server_list_get_loaded    (WbServerList         *self);
/** Returns: (transfer none) (nullable): why it could not be read the last time. Notified as
 * "fault". */
const char   *wb_server_list_get_fault     (WbServerList         *self);

typedef enum
{
  WB_PROBE_WAITING,
  WB_PROBE_DONE,
  WB_PROBE_FAILED,
} WbProbeOutcome;

/**
 * WbServerProbe: one test of a server that a window watches. "step" (WbProbeStep as int,
 * WbProbeOutcome as int) comes for each step, and "finished" (gboolean whether all went well) once,
 * on the main loop of its maker.
 */
#define WB_TYPE_SERVER_PROBE (wb_server_probe_get_type ())
G_DECLARE_FINAL_TYPE (WbServerProbe, wb_server_probe, WB, SERVER_PROBE, GObject)

/** Starts a test; it ends early when the last reference goes or @cancellable is cancelled. */
WbServerProbe  *wb_server_probe_start      (WbOffice             *office,
                                            const WbServer       *server,
                                            WbSecret             *secret,
                                            const char           *confirmed_key,
                                            GCancellable         *cancellable)
                                            G_GNUC_WARN_UNUSED_RESULT;
WbProbeOutcome  wb_server_probe_get_step   (WbServerProbe        *self,
                                            WbProbeStep           step);
gboolean        wb_server_probe_is_finished (WbServerProbe       *self);
/** Returns: (transfer none) (nullable): what failed; wb_words_error() makes the sentence. */
const GError   *wb_server_probe_get_error  (WbServerProbe        *self);

G_END_DECLS
