/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The published jobs on a server. What a job is means nothing here: a version of one is a document,
 * some files and a summary.
 *
 *     wainbook.json                   says that the folder is ours
 *     objects/ab/SHA256               documents, photos and papers, named by what is in them
 *     jobs/JOB/NNNNNN-SHA256.json     one version each (wb-depot-version.h), named by its own bytes
 *     incoming/                       what is on its way
 *
 * Nothing in objects or jobs is ever changed, and a version is put there last, when all that it
 * names is there. So whoever reads at any moment sees the versions before or the new one, each
 * whole; a file that is not what its name says is no version. Versions name their parents. Those
 * that nobody names are heads: one head is the state of the job, two are two people who published
 * at once, until somebody publishes a version that has both as parents.
 *
 * Everything blocks, as wb-remote.h does, and may fail with any of its errors. Whatever comes from
 * a server is judged before it is believed. */
#pragma once

#include "share/wb-depot-version.h"
#include "share/wb-remote.h"

G_BEGIN_DECLS

/** Versions of one job, and jobs of one server, that are read. */
#define WB_DEPOT_MAX_VERSIONS 20000
#define WB_DEPOT_MAX_JOBS     100000

typedef struct _WbDepot WbDepot;

/**
 * WbDepotJob:
 * @job: its id
 * @versions: (element-type WbVersion): all that are whole, by number
 * @heads: (element-type WbVersion): those of @versions that no other names; empty when the job was
 *   never published
 * @n_broken: files in the job's folder that look like a version and are none: half written,
 *   altered, or with numbers that cannot be
 * @error: (nullable): in a list, why the job could not be read; %WB_SHARE_ERROR_FORMAT when
 *   a newer Wainbook published it
 */
typedef struct
{
  char      *job;
  GPtrArray *versions;
  GPtrArray *heads;
  guint      n_broken;
  GError    *error;
} WbDepotJob;

void        wb_depot_job_free (WbDepotJob           *self);

/**
 * wb_depot_new:
 * @remote: has to outlive the depot, and is used by it alone meanwhile
 * @cache: (nullable): path of a file of this computer that remembers what was seen: versions, and
 *   which of them had all their files; a file that is missing, damaged or of another server or
 *   address is passed over
 * @server: id of the server, which the cache is for
 */
WbDepot    *wb_depot_new      (WbRemote             *remote,
                               const char           *cache,
                               const char           *server) G_GNUC_WARN_UNUSED_RESULT;
void        wb_depot_free     (WbDepot              *self);

/**
 * wb_depot_heads:
 *
 * Returns: (transfer full): what is published of a job; nothing at all is no error. %NULL with
 * %WB_SHARE_ERROR_FORMAT when there is something else on the server than our files, or
 * a newer Wainbook wrote them. Heads have their files.
 */
WbDepotJob *wb_depot_heads    (WbDepot              *self,
                               const char           *job,
                               GCancellable         *cancellable,
                               GError              **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_depot_list:
 *
 * Lists all jobs, by id. Folders that have not changed for a day and are known from the cache are
 * not looked into. The versions listed may lack their files; wb_depot_heads() has them.
 *
 * Returns: (transfer full) (element-type WbDepotJob): one job that cannot be understood does not
 * keep the others back, and has an error of its own. %NULL with an error of wb_depot_heads().
 */
GPtrArray  *wb_depot_list     (WbDepot              *self,
                               GCancellable         *cancellable,
                               GError              **error) G_GNUC_WARN_UNUSED_RESULT;

/** WbDepotItem: a file of this computer that belongs to the version: @name in it, @file here */
typedef struct
{
  char   *name;
  char   *file;
  char   *sha256;
  gint64  size;
} WbDepotItem;

WbDepotItem *wb_depot_item_new  (const char         *name,
                                 const char         *file,
                                 const char         *sha256,
                                 gint64              size) G_GNUC_WARN_UNUSED_RESULT;
void         wb_depot_item_free (WbDepotItem        *self);

/**
 * WbDepotDraft:
 * @parents: (nullable): the heads that the publisher has seen; none for a job that was never
 *   published
 * @items: (nullable) (element-type WbDepotItem)
 * @summary: (nullable) (element-type utf8 utf8)
 *
 * What is to be published; the other members as in #WbVersion.
 */
typedef struct
{
  const char         *job;
  const char *const  *parents;
  const char         *at;
  const char         *by;
  const char         *desk;
  GBytes             *document;
  GPtrArray          *items;
  GHashTable         *summary;
} WbDepotDraft;

/**
 * wb_depot_publish:
 * @progress: (nullable): bytes of all files together; what is there already counts as done
 * @sha256: (out) (optional) (transfer full): the version, if it stands on the server now, which it
 *   may also with an error
 *
 * Publishes a version. The same draft may be given again after any failure: what was sent is not
 * sent again, and a version that stands already is found. Files of a head that this computer has
 * seen whole within the last weeks are not looked at; of the others, those that are there damaged
 * are put anew.
 *
 * Returns: %TRUE when the version is the one head; or %FALSE with an error: %WB_SHARE_ERROR_CHANGED
 * when the heads are not @parents. If that was so before the version was sent, nothing of it
 * stands; if somebody else published in the same moment, both stand as heads and @sha256 is set.
 */
gboolean    wb_depot_publish  (WbDepot              *self,
                               const WbDepotDraft   *draft,
                               WbRemoteProgressFunc  progress,
                               gpointer              progress_data,
                               char                **sha256,
                               GCancellable         *cancellable,
                               GError              **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_depot_fetch:
 * @version: with its files
 * @folder: private folder of this computer, made if it is not there
 * @progress: (nullable): bytes of all files together
 *
 * Brings document and files of a version into @folder, each under its hash and never under its
 * name. What is there already is not fetched again; a file that was cut off goes on where it ended.
 *
 * Returns: %TRUE, or %FALSE with an error: %WB_SHARE_ERROR_ALTERED when a file is not what the
 * version says, %WB_SHARE_ERROR_INCOMPLETE when it is not there
 */
gboolean    wb_depot_fetch    (WbDepot              *self,
                               const WbVersion      *version,
                               const char           *folder,
                               WbRemoteProgressFunc  progress,
                               gpointer              progress_data,
                               GCancellable         *cancellable,
                               GError              **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_depot_fetch(), but brings the document and no other file of the version. */
gboolean    wb_depot_fetch_document (WbDepot         *self,
                               const WbVersion      *version,
                               const char           *folder,
                               WbRemoteProgressFunc  progress,
                               gpointer              progress_data,
                               GCancellable         *cancellable,
                               GError              **error) G_GNUC_WARN_UNUSED_RESULT;

typedef enum
{
  WB_DEPOT_SAME,
  WB_DEPOT_MISSING,
  WB_DEPOT_ALTERED,
  WB_DEPOT_SIZE,      /* of another size */
} WbDepotState;

/** Tells how @file of a version is on the server; its name is %NULL for the document. */
typedef void (*WbDepotStateFunc) (const WbVersionFile *file,
                                  WbDepotState         state,
                                  gpointer             data);

/**
 * wb_depot_verify:
 *
 * Reads every file of a version back and compares it with its hash; nothing is kept.
 *
 * Returns: %TRUE when all were looked at, whatever was found; %FALSE with an error when the server
 * could not be asked
 */
gboolean    wb_depot_verify   (WbDepot              *self,
                               const WbVersion      *version,
                               WbDepotStateFunc      tell,
                               gpointer              data,
                               WbRemoteProgressFunc  progress,
                               gpointer              progress_data,
                               GCancellable         *cancellable,
                               GError              **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbDepot, wb_depot_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbDepotJob, wb_depot_job_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbDepotItem, wb_depot_item_free)

G_END_DECLS
