/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every kind of remote has to do, as cases that the test of each kind runs against its own
 * server. */
#pragma once

#include "share/wb-remote.h"

G_BEGIN_DECLS

/** Returns: (transfer full): a remote whose folder is there and empty. Called once a case. */
typedef WbRemote *(*RemoteCasesOpen) (void);

/** Adds the cases below "/share/remote/@kind/". */
void       remote_cases_add       (const char       *kind,
                                   RemoteCasesOpen   open);

/** A source of @bytes with the hash of it. */
typedef struct
{
  WbRemoteSource  source;
  GBytes         *bytes;
  char           *sha256;
} RemoteText;

RemoteText *remote_text_new       (GBytes           *bytes);
void        remote_text_free      (RemoteText       *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RemoteText, remote_text_free)

/** Returns: (transfer full): @size bytes that differ from place to place. */
GBytes     *remote_random_bytes   (gsize             size);

/** Returns: (transfer full): an empty folder of this computer. */
char       *remote_make_folder    (void);

/** Puts @text at @path, which has to work. */
void        remote_put_text       (WbRemote         *remote,
                                   const char       *path,
                                   const char       *text);

/** Returns: (transfer full): what lies at @path from @offset on, which has to work. */
GBytes     *remote_get_bytes      (WbRemote         *remote,
                                   const char       *path,
                                   gint64            offset);

G_END_DECLS
