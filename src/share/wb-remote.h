/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files on a server, whatever its kind. Everything blocks until it is done, failed or cancelled, so
 * it is called from worker threads, and a remote by one thread at a time. What the files mean is
 * not known here; jobs are looked after by wb-depot.h. */
#pragma once

#include "core/wb-server.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/** Longest path on a server, in bytes. */
#define WB_REMOTE_MAX_PATH 500

/** Files of one folder that are listed. */
#define WB_REMOTE_MAX_ENTRIES 200000

/** Folder of the server in which files lie while they are on their way. */
#define WB_REMOTE_INCOMING "incoming"

/** WbRemote: a server that is, or will be, spoken to. */
typedef struct _WbRemote WbRemote;

/**
 * WbRemotePlace:
 * @known_hosts: (nullable): file in which confirmed host keys of SFTP are kept
 * @confirmed_key: (nullable): fingerprint "SHA256:…" of the host key that a person has confirmed
 *   just now; it is put into @known_hosts if the server has that key
 * @connect_seconds: how long to wait for a connection; 0 for 20 s
 * @stall_seconds: how long a server may stay silent; 0 for 60 s
 *
 * What this computer adds. The environment is never asked, for a proxy neither.
 */
typedef struct
{
  const char *known_hosts;
  const char *confirmed_key;
  guint       connect_seconds;
  guint       stall_seconds;
} WbRemotePlace;

/**
 * WbRemoteEntry:
 * @name: without the folder
 * @size: bytes; -1 if the server does not say, and for folders
 * @changed: seconds since 1970, UTC; 0 if the server does not say
 */
typedef struct
{
  char     *name;
  gint64    size;
  gint64    changed;
  gboolean  is_folder;
} WbRemoteEntry;

/** Frees what is in @self, which becomes empty. */
void wb_remote_entry_clear (WbRemoteEntry *self);
void wb_remote_entry_free  (WbRemoteEntry *self);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbRemoteEntry, wb_remote_entry_clear)

/**
 * WbRemoteSource:
 * @bytes: (nullable): what is to be sent, or
 * @file: (nullable): the path of a file of this computer
 * @size: its bytes
 * @sha256: hash of it, 64 small hexadecimal digits
 */
typedef struct
{
  GBytes     *bytes;
  const char *file;
  gint64      size;
  const char *sha256;
} WbRemoteSource;

/** Takes the next @length bytes. Returns: %FALSE with @error set to stop there. */
typedef gboolean (*WbRemoteSinkFunc)     (const guint8  *bytes,
                                          gsize          length,
                                          gpointer       data,
                                          GError       **error);

/** Tells how far a file is. @total: -1 while it is not known */
typedef void     (*WbRemoteProgressFunc) (gint64         done,
                                          gint64         total,
                                          gpointer       data);

/**
 * WbProbeStep:
 * @WB_PROBE_ADDRESS: the address is one, and its name is known
 * @WB_PROBE_CONNECT: something answers there
 * @WB_PROBE_TRUST: its certificate or host key is the right one
 * @WB_PROBE_LOGIN: it knows who logs in
 * @WB_PROBE_FOLDER: the folder is there, or could be made
 * @WB_PROBE_WRITE: a file can be put there
 * @WB_PROBE_READ_BACK: what is read back is what was put there
 * @WB_PROBE_NO_OVERWRITE: a second file of the same name does not take its place
 * @WB_PROBE_REMOVE: the file can be removed
 *
 * The steps of a test, in their order. Those that a folder of this computer does not need count as
 * done.
 */
typedef enum
{
  WB_PROBE_ADDRESS,
  WB_PROBE_CONNECT,
  WB_PROBE_TRUST,
  WB_PROBE_LOGIN,
  WB_PROBE_FOLDER,
  WB_PROBE_WRITE,
  WB_PROBE_READ_BACK,
  WB_PROBE_NO_OVERWRITE,
  WB_PROBE_REMOVE,
} WbProbeStep;

/** "address", "connect", "trust", "login", "folder", "write", "read-back", "no-overwrite",
 * "remove". */
extern const WbEnum wb_probe_steps;

/** Tells the outcome of @step. @error: (nullable): what failed; no step comes after it */
typedef void     (*WbProbeFunc)          (WbProbeStep    step,
                                          const GError  *error,
                                          gpointer       data);

/**
 * wb_remote_open:
 * @server: copied
 * @secret: (nullable): password, secret access key or passphrase of the key file; copied, and wiped
 *   by wb_remote_close()
 * @place: (nullable): copied
 *
 * Nothing is sent yet. Returns: (transfer full): a remote, or %NULL with an error of
 * wb_server_check() or %WB_SHARE_ERROR_CERTIFICATE (the authority's file cannot be read).
 */
WbRemote  *wb_remote_open       (const WbServer         *server,
                                 const char             *secret,
                                 const WbRemotePlace    *place,
                                 GError                **error) G_GNUC_WARN_UNUSED_RESULT;
void       wb_remote_close      (WbRemote               *self);

/** Returns: (transfer none): the address of its server. */
const char *wb_remote_get_address (const WbRemote       *self);

/**
 * wb_remote_path_check:
 *
 * Paths are relative to the server's address: names of ASCII letters, digits, ".", "_" and "-",
 * none of them "." or "..", joined by "/". A folder may be "", which is the address itself.
 *
 * Returns: %TRUE, or %FALSE with %WB_SHARE_ERROR_NAME
 */
gboolean   wb_remote_path_check (const char             *path,
                                 GError                **error) G_GNUC_WARN_UNUSED_RESULT;

/* What follows fails with %WB_SHARE_ERROR_UNREACHABLE to %WB_SHARE_ERROR_PROTOCOL as far as they
 * apply, with %WB_SHARE_ERROR_NAME for a path that is none, and with %G_IO_ERROR_CANCELLED. */

/**
 * wb_remote_list:
 *
 * Lists @folder. Names that no path could have are left out.
 *
 * Returns: (transfer full) (element-type WbRemoteEntry): in the order of their bytes, or %NULL with
 * an error: %WB_SHARE_ERROR_NOT_FOUND when there is no such folder
 */
GPtrArray *wb_remote_list       (WbRemote               *self,
                                 const char             *folder,
                                 GCancellable           *cancellable,
                                 GError                **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_remote_stat:
 * @entry: (out) (optional): untouched on failure; cleared by wb_remote_entry_clear()
 *
 * Returns: %TRUE, or %FALSE with %WB_SHARE_ERROR_NOT_FOUND or another error
 */
gboolean   wb_remote_stat       (WbRemote               *self,
                                 const char             *path,
                                 WbRemoteEntry          *entry,
                                 GCancellable           *cancellable,
                                 GError                **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_remote_get:
 * @offset: bytes that are there already; the sink gets what comes after them
 * @progress: (nullable): counts from the start of the file
 *
 * Reads a file. A server that cannot begin in the middle is read from the start, and @offset bytes
 * are passed over.
 *
 * Returns: %TRUE, or %FALSE with an error: %WB_SHARE_ERROR_PROTOCOL when less or more came than was
 * announced, or the file has less than @offset bytes; that of the sink as it is
 */
gboolean   wb_remote_get        (WbRemote               *self,
                                 const char             *path,
                                 gint64                  offset,
                                 WbRemoteSinkFunc        sink,
                                 gpointer                sink_data,
                                 WbRemoteProgressFunc    progress,
                                 gpointer                progress_data,
                                 GCancellable           *cancellable,
                                 GError                **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_remote_put:
 * @source: read once, and its size and hash checked on the way
 * @progress: (nullable)
 *
 * Puts a file at @path, whole or not at all, and makes the folders above it. What was sent of it
 * earlier is not sent again if the server is known to get that right.
 *
 * Returns: %TRUE, or %FALSE with an error: %WB_SHARE_ERROR_EXISTS when there is a file at @path,
 * which is left as it is; %WB_SHARE_ERROR_SOURCE when @source cannot be read or is not what it says
 */
gboolean   wb_remote_put        (WbRemote               *self,
                                 const char             *path,
                                 const WbRemoteSource   *source,
                                 WbRemoteProgressFunc    progress,
                                 gpointer                progress_data,
                                 GCancellable           *cancellable,
                                 GError                **error) G_GNUC_WARN_UNUSED_RESULT;

/** Removes a file, or an empty folder. %WB_SHARE_ERROR_NOT_FOUND when it is not there. */
gboolean   wb_remote_remove     (WbRemote               *self,
                                 const char             *path,
                                 GCancellable           *cancellable,
                                 GError                **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_remote_probe:
 * @step_done: (nullable): called for each step, in this thread
 *
 * Tries everything that publishing needs, with a small file that is removed at the end.
 *
 * Returns: %TRUE, or %FALSE with the error of the first step that failed
 */
gboolean   wb_remote_probe      (WbRemote               *self,
                                 WbProbeFunc             step_done,
                                 gpointer                data,
                                 GCancellable           *cancellable,
                                 GError                **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbRemote, wb_remote_close)

G_END_DECLS
