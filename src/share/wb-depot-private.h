/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the depot share among themselves. */
#pragma once

#include "share/wb-depot.h"

G_BEGIN_DECLS

/** What wainbook.json says. */
#define WB_DEPOT_MARKER  "wainbook.json"
#define WB_DEPOT_FORMAT  "wainbook-depot"
#define WB_DEPOT_VERSION 1
#define WB_DEPOT_MARK    "{\"format\":\"" WB_DEPOT_FORMAT "\",\"version\":1}\n"

/** WbDepotCache: versions seen earlier, as far as a list shows them, and what lay in which folder.
 * */
typedef struct _WbDepotCache WbDepotCache;

/**
 * WbDepot:
 * @marked: whether wainbook.json was found and is ours
 * @known: sha256 → WbVersion: whole versions that were read, with their files
 */
struct _WbDepot
{
  WbRemote     *remote;
  WbDepotCache *cache;
  gboolean      marked;
  GHashTable   *known;
};

/** Returns: (transfer full): a copy; without the files unless @with_files. */
WbVersion    *wb_depot_copy_version (const WbVersion  *version,
                                     gboolean          with_files) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "objects/ab/abcdef…" */
char         *wb_depot_object_path  (const char       *sha256) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: bytes of document and files together. */
gint64        wb_depot_total_size   (const WbVersion  *version);

/** Looks whether the server holds our files. @found: (out): %FALSE when there is no wainbook.json,
 * or only the beginning of one. */
gboolean      wb_depot_check_marker (WbDepot          *self,
                                     gboolean         *found,
                                     GCancellable     *cancellable,
                                     GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): a small file; %WB_SHARE_ERROR_LIMIT beyond @most bytes. */
GBytes       *wb_depot_read_small   (WbDepot          *self,
                                     const char       *path,
                                     gsize             most,
                                     GCancellable     *cancellable,
                                     GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/* --- sending ---------------------------------------------------------------------------------- */

/**
 * WbDepotSending:
 * @trusted: sha256 → WbVersionFile of a head: files that are there, not owned
 * @since: since when everything that the new version names is known to be there, in unix seconds
 * @look_first: whether to look for a file before it is put. Where one was there, the next one is,
 *   most often.
 * @progress: (nullable): is told bytes of all files together
 */
typedef struct
{
  WbDepot              *depot;
  GHashTable           *trusted;
  gint64                since;
  gboolean              look_first;
  WbRemoteProgressFunc  progress;
  gpointer              progress_data;
  gint64                done;
  gint64                total;
  GCancellable         *cancellable;
} WbDepotSending;

/** Takes the files of those heads of @job, which has to outlive it, that were seen whole. */
void          wb_depot_sending_trust (WbDepotSending       *self,
                                     const WbDepotJob      *job);

/** Sees to it that a file is on the server. */
gboolean      wb_depot_send         (WbDepotSending        *self,
                                     const WbRemoteSource  *source,
                                     GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** Removes what is not what its name says; that it is gone already is no error. */
gboolean      wb_depot_remove_damaged (WbDepot             *self,
                                     const char            *path,
                                     GCancellable          *cancellable,
                                     GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/* --- looking ---------------------------------------------------------------------------------- */

/** Returns: (transfer full): a job of which nothing is known. */
WbDepotJob   *wb_depot_job_new      (const char       *id) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_depot_heads(), without writing down what was seen. */
WbDepotJob   *wb_depot_look         (WbDepot          *self,
                                     const char       *id,
                                     GCancellable     *cancellable,
                                     GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Reads all versions in the folder of @job, if there is one, and finds its heads. */
gboolean      wb_depot_look_into    (WbDepot          *self,
                                     WbDepotJob       *job,
                                     GCancellable     *cancellable,
                                     GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Sorts the versions of @job, leaves out those that cannot be, and finds its heads. */
void          wb_depot_find_heads   (WbDepotJob       *job);

/* --- the cache -------------------------------------------------------------------------------- */

/** Returns: (transfer full): what the file at @path (nullable) remembers of the server that has the
 * id @server and is at @address; empty when it cannot be used. */
WbDepotCache    *wb_depot_cache_new    (const char       *path,
                                        const char       *server,
                                        const char       *address) G_GNUC_WARN_UNUSED_RESULT;
void             wb_depot_cache_free   (WbDepotCache     *self);

/** Returns: (transfer none) (nullable): the version as a list shows it. */
const WbVersion *wb_depot_cache_find   (WbDepotCache     *self,
                                        const char       *sha256);
/** Remembers a whole version. */
void             wb_depot_cache_add    (WbDepotCache     *self,
                                        const WbVersion  *version);

/** Forgets a version that is not on the server any more, or is no longer whole. */
void             wb_depot_cache_forget (WbDepotCache     *self,
                                        const char       *sha256);

/** Returns: (transfer none) (nullable): hashes of the whole versions in the folder of @job, which
 * was changed last at @changed; %NULL when it has to be looked into. */
const char *const *wb_depot_cache_folder (WbDepotCache   *self,
                                        const char       *job,
                                        gint64            changed);
/** Remembers what is in the folder of @job; all of it has to be whole and known. */
void             wb_depot_cache_set_folder (WbDepotCache *self,
                                        const WbDepotJob *job,
                                        gint64            changed);

/** Forgets all that is not in @jobs: (element-type WbDepotJob), which are all that there are. */
void             wb_depot_cache_keep   (WbDepotCache     *self,
                                        GPtrArray        *jobs);

/** Returns: since when it has been known, in unix seconds, that everything that a version names was
 * there; 0 when that is not known. */
gint64           wb_depot_cache_complete_since (WbDepotCache *self,
                                        const char       *sha256) G_GNUC_WARN_UNUSED_RESULT;
/** Remembers that everything that a version names was seen there at @at or later; with 0, that
 * something is missing or is not what it should be. */
void             wb_depot_cache_set_complete (WbDepotCache *self,
                                        const char       *sha256,
                                        gint64            at);

/** Writes the file, if there is one and there is something new. That it cannot be written is no
 * error: it only saves time. */
void             wb_depot_cache_save   (WbDepotCache     *self);

G_END_DECLS
