/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of publishing share: a server that is open, and how a job stands to it. */
#pragma once

#include "office/wb-bundle-private.h"
#include "office/wb-publish.h"
#include "office/wb-share-private.h"
#include "share/wb-depot.h"
#include "store/wb-publication-store.h"

G_BEGIN_DECLS

/**
 * WbShareLink: a server of the book, open, and one job of it
 * @there: (nullable): the job on the server
 * @seen: (nullable): what was noted when it was last in step
 * @mine: (nullable): the job in the book
 * @document: (nullable): its document
 * @hash: (nullable): SHA-256 of that
 */
typedef struct
{
  WbOffice      *office;
  WbServer      *server;
  WbRemote      *remote;
  WbDepot       *depot;
  WbDepotJob    *there;
  WbPublication *seen;
  WbJob         *mine;
  char          *document;
  char          *hash;
} WbShareLink;

WbShareLink     *wb_share_link_open   (WbOffice            *office,
                                       const char          *server_id,
                                       WbSecret            *secret,
                                       GCancellable        *cancellable,
                                       GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void             wb_share_link_close  (WbShareLink         *self);

/** Looks at one job in the book, again after something was stored. One that is not there is no
 * error. */
gboolean         wb_share_link_look_here (WbShareLink      *self,
                                       const char          *job_id,
                                       GCancellable        *cancellable,
                                       GError             **error) G_GNUC_WARN_UNUSED_RESULT;
/** Looks at one job, here and there. */
gboolean         wb_share_link_look   (WbShareLink         *self,
                                       const char          *job_id,
                                       GCancellable        *cancellable,
                                       GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable): the newest version there that this book has not seen and that is not the
 * same as the job here. @n_others: (out) (optional): how many more there are */
const WbVersion *wb_share_link_unseen (const WbShareLink   *self,
                                       guint               *n_others);

/** Returns: (nullable): the newest version there, seen or not. */
const WbVersion *wb_share_link_newest (const WbDepotJob    *there);

WbPublishState   wb_share_link_state  (const WbShareLink   *self);

/** Fails with what is said of a job that is not on the server. Returns: %FALSE */
gboolean         wb_share_link_refuse_absent (const WbShareLink *self,
                                       GError             **error);

/* --- bringing a version into the book --------------------------------------------------------- */

/**
 * WbShareTake: how a version becomes the job here
 * @merge: (nullable): where everything is decided; %NULL to merge with
 * @conflicts: whose value is taken where both sides changed the same; %WB_MERGE_UNDECIDED for
 *   nobody's
 * @whole: %WB_MERGE_THEIRS takes the version as it is
 */
typedef struct
{
  const WbMerge *merge;
  WbMergeChoice  conflicts;
  WbMergeChoice  whole;
} WbShareTake;

/** Returns: (transfer full) (nullable): the job that the one here and the version @theirs both
 * started from; %NULL with @error, or without when that is not known or there are several. Looks at
 * all of @there. */
WbJob           *wb_share_link_load_base (WbShareLink      *self,
                                       const WbVersion     *theirs,
                                       GCancellable        *cancellable,
                                       GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the versions that were seen before, those that are the same as the
 * job was here, and @version. */
GStrv            wb_share_link_seen_with (const WbShareLink *self,
                                       const WbVersion     *version) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): what both started from once @document, of a version there,
 * was brought in. */
GBytes          *wb_share_link_base_after (WbShareLink     *self,
                                       const char          *document,
                                       guint                n_others,
                                       GCancellable        *cancellable,
                                       GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Fetches the document of a version alone. @document: (out) (optional) (transfer full): its text.
 * Returns: (transfer full) (nullable): its job */
WbJob           *wb_share_link_fetch_document (WbShareLink *self,
                                       const WbVersion     *version,
                                       char               **document,
                                       WbProgress          *progress,
                                       GCancellable        *cancellable,
                                       GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Fetches a version whole, judges it and stores what @how makes of it. Returns: (transfer full)
 * (nullable): the job as stored; errors as of wb_office_fetch() */
WbJob           *wb_share_link_take   (WbShareLink         *self,
                                       const WbVersion     *version,
                                       guint                n_others,
                                       const WbShareTake   *how,
                                       WbProgress          *progress,
                                       GCancellable        *cancellable,
                                       GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the time now, as it is written on a server. */
char            *wb_share_link_now    (void) G_GNUC_WARN_UNUSED_RESULT;

/** Removes a private folder with the files in it. */
void             wb_share_remove_folder (const char        *folder);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbShareLink, wb_share_link_close)

G_END_DECLS
