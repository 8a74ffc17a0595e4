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

/** Looks at one job, here and there; again after something was stored. */
gboolean         wb_share_link_look   (WbShareLink         *self,
                                       const char          *job_id,
                                       GCancellable        *cancellable,
                                       GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable): the newest version there that this book has not seen and that is not the
 * same as the job here. @n_others: (out) (optional): how many more there are */
const WbVersion *wb_share_link_unseen (const WbShareLink   *self,
                                       guint               *n_others);

WbPublishState   wb_share_link_state  (const WbShareLink   *self);

/** Returns: (transfer full): the time now, as it is written on a server. */
char            *wb_share_link_now    (void) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbShareLink, wb_share_link_close)

G_END_DECLS
