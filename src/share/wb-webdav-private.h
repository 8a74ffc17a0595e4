/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the two files of the WebDAV remote share. */
#pragma once

#include "share/wb-transfer.h"

G_BEGIN_DECLS

typedef enum
{
  WB_RESUMES_UNKNOWN,
  WB_RESUMES_NO,
  WB_RESUMES_YES,
} WbResumes;

/**
 * WbWebdav:
 * @url: of the folder, without "/" at its end
 * @folders: names of folders that are known to be there
 * @resumes: whether the server puts a piece into the middle of a file
 */
typedef struct
{
  WbRemote    parent;
  WbTransfer *transfer;
  char       *url;
  GHashTable *folders;
  WbResumes   resumes;
} WbWebdav;

/** Returns: (transfer full): the escaped URL of @path; a folder's ends in "/". */
char     *wb_webdav_url          (const WbWebdav        *self,
                                  const char            *path,
                                  gboolean               is_folder) G_GNUC_WARN_UNUSED_RESULT;

/** One request about @path without a body. @header: (nullable): `Name: value`; @answer: (nullable)
 * */
gboolean  wb_webdav_ask          (WbWebdav              *self,
                                  const char            *method,
                                  const char            *path,
                                  gboolean               is_folder,
                                  const char            *header,
                                  WbAnswer              *answer,
                                  GCancellable          *cancellable,
                                  GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** Makes the folders above @path, as far as they are not known to be there. @fresh: (out)
 * (optional): whether the one that @path is in was made just now, so that nothing is in it */
gboolean  wb_webdav_make_parents (WbWebdav              *self,
                                  const char            *path,
                                  gboolean              *fresh,
                                  GCancellable          *cancellable,
                                  GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_remote_put(). */
gboolean  wb_webdav_put          (WbRemote              *remote,
                                  const char            *path,
                                  const WbRemoteSource  *source,
                                  WbRemoteProgressFunc   progress,
                                  gpointer               progress_data,
                                  GCancellable          *cancellable,
                                  GError               **error);

G_END_DECLS
