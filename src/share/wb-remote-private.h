/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the kinds of remotes share: the table of functions that each fills in, and the reader of
 * what is sent. A kind begins its own struct with a WbRemote. */
#pragma once

#include "share/wb-remote.h"
#include "share/wb-secret.h"

G_BEGIN_DECLS

typedef struct _WbRemoteMethods WbRemoteMethods;

/**
 * WbRemote:
 * @server: as it was given
 * @held: (nullable): keeps @secret out of paging and dumps, and wipes it in the end
 * @secret: (nullable)
 * @known_hosts: (nullable)
 * @confirmed_key: (nullable)
 * @host: "" for a folder
 * @port: 0 for a folder
 * @base: path of the address, escaped as there, without "/" at its end; the folder itself for a
 *   folder
 *
 * What every kind has. wb-remote.c fills all of it in before it calls @open.
 */
struct _WbRemote
{
  const WbRemoteMethods *methods;
  WbServer              *server;
  WbSecret              *held;
  const char            *secret;
  char                  *known_hosts;
  char                  *confirmed_key;
  guint                  connect_seconds;
  guint                  stall_seconds;
  char                  *host;
  guint                  port;
  char                  *base;
};

/**
 * WbRemoteMethods:
 * @size: of the kind's struct, which begins with a WbRemote and is filled with zeros
 * @open: prepares what needs no network
 * @close: frees what the kind has beyond a WbRemote; also after a failed @open
 * @greet: asks the server for something that needs a log-in, whether there is a folder or not: no
 *   error but for what goes wrong up to and with the log-in. %NULL where there is nothing to log
 *   in to
 * @make_base: makes the folder of the address, if it is not there
 *
 * Paths are checked, and a cancellable that is cancelled already is dealt with, before any of these
 * is called. What each has to do stands at the function of its name in wb-remote.h.
 */
struct _WbRemoteMethods
{
  gsize        size;
  gboolean   (*open)      (WbRemote               *remote,
                           GError                **error);
  void       (*close)     (WbRemote               *remote);
  gboolean   (*greet)     (WbRemote               *remote,
                           GCancellable           *cancellable,
                           GError                **error);
  gboolean   (*make_base) (WbRemote               *remote,
                           GCancellable           *cancellable,
                           GError                **error);
  GPtrArray *(*list)      (WbRemote               *remote,
                           const char             *folder,
                           GCancellable           *cancellable,
                           GError                **error);
  gboolean   (*stat)      (WbRemote               *remote,
                           const char             *path,
                           WbRemoteEntry          *entry,
                           GCancellable           *cancellable,
                           GError                **error);
  gboolean   (*get)       (WbRemote               *remote,
                           const char             *path,
                           gint64                  offset,
                           WbRemoteSinkFunc        sink,
                           gpointer                sink_data,
                           WbRemoteProgressFunc    progress,
                           gpointer                progress_data,
                           GCancellable           *cancellable,
                           GError                **error);
  gboolean   (*put)       (WbRemote               *remote,
                           const char             *path,
                           const WbRemoteSource   *source,
                           WbRemoteProgressFunc    progress,
                           gpointer                progress_data,
                           GCancellable           *cancellable,
                           GError                **error);
  gboolean   (*remove)    (WbRemote               *remote,
                           const char             *path,
                           GCancellable           *cancellable,
                           GError                **error);
};

extern const WbRemoteMethods wb_remote_folder_methods;
extern const WbRemoteMethods wb_remote_webdav_methods;
extern const WbRemoteMethods wb_remote_sftp_methods;
extern const WbRemoteMethods wb_remote_s3_methods;

/** Returns: (transfer full): incoming/SHA256.part, where @source lies until it is whole. */
char          *wb_remote_part_path       (const WbRemoteSource  *source) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: whether @name is a name that a path may have. */
gboolean       wb_remote_name_is_plain   (const char            *name);

/** Returns: (transfer full): an array of WbRemoteEntry that frees them. */
GPtrArray     *wb_remote_entries_new     (void) G_GNUC_WARN_UNUSED_RESULT;

/** Adds an entry, unless no path could have its name; more than %WB_REMOTE_MAX_ENTRIES are
 * %WB_SHARE_ERROR_LIMIT. */
gboolean       wb_remote_entries_add     (GPtrArray             *self,
                                          const char            *name,
                                          gint64                 size,
                                          gint64                 changed,
                                          gboolean               is_folder,
                                          GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/* --- what is sent ----------------------------------------------------------------------------- */

/** WbRemoteReader: reads a source, and checks on the way that it is what it says it is. */
typedef struct _WbRemoteReader WbRemoteReader;

/** Returns: (transfer full): a reader at the start, or %NULL with %WB_SHARE_ERROR_SOURCE when there
 * is no such file, or of another size. @source has to outlive it. */
WbRemoteReader *wb_remote_reader_new     (const WbRemoteSource  *source,
                                          GError               **error) G_GNUC_WARN_UNUSED_RESULT;
void            wb_remote_reader_free    (WbRemoteReader        *self);

/** Goes to @offset. What was read up to there counts; the rest up to it is read now. Going back
 * starts anew. */
gboolean        wb_remote_reader_seek    (WbRemoteReader        *self,
                                          gint64                 offset,
                                          GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: number of bytes read, up to @length; 0 at the end; -1 with %WB_SHARE_ERROR_SOURCE. */
gssize          wb_remote_reader_read    (WbRemoteReader        *self,
                                          guint8                *buffer,
                                          gsize                  length,
                                          GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: where the next byte is read from. */
gint64          wb_remote_reader_tell    (const WbRemoteReader  *self);

/** Whether everything was read and has the hash of the source. Returns: %FALSE with
 * %WB_SHARE_ERROR_SOURCE if not. */
gboolean        wb_remote_reader_finish  (WbRemoteReader        *self,
                                          GError               **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbRemoteReader, wb_remote_reader_free)

/* --- the probe -------------------------------------------------------------------------------- */

/** Returns: the step at which a greeting that failed with @error was. */
WbProbeStep     wb_probe_step_of_error   (const GError          *error);

G_END_DECLS
