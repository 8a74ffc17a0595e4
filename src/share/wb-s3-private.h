/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the two files of the remote for object stores share. */
#pragma once

#include "share/wb-s3-answer.h"
#include "share/wb-s3-sign.h"

G_BEGIN_DECLS

/** WbS3: the remote. @unconditional: the store does not know If-None-Match, as it has said */
typedef struct
{
  WbRemote    remote;
  WbTransfer *transfer;
  char       *authority;      /* host and port as the Host header has them */
  gboolean    unconditional;
} WbS3;

/**
 * WbS3Ask:
 * @method: of HTTP
 * @key: (nullable): the file; %NULL for the bucket
 * @query: (array length=n_query): not encoded
 * @sha256: (nullable): of the body; %NULL without one
 * @type: (nullable): Content-Type
 * @header: (nullable): one header more, which is not signed
 * @request: (nullable): body, sink and progress of it
 */
typedef struct
{
  const char       *method;
  const char       *key;
  const WbS3Pair   *query;
  gsize             n_query;
  const char       *sha256;
  const char       *type;
  const char       *header;
  const WbRequest  *request;
} WbS3Ask;

/** Signs and sends one request. Returns: as wb_transfer_run(), with errors of wb_s3_fail(). */
gboolean wb_s3_run  (WbS3                  *self,
                     const WbS3Ask         *ask,
                     WbAnswer              *answer,
                     GCancellable          *cancellable,
                     GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** Looks for the file @path alone; a folder of that name is not looked for. */
gboolean wb_s3_head (WbS3                  *self,
                     const char            *path,
                     WbRemoteEntry         *entry,
                     GCancellable          *cancellable,
                     GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** As of wb_remote_put(). */
gboolean wb_s3_put  (WbRemote              *remote,
                     const char            *path,
                     const WbRemoteSource  *source,
                     WbRemoteProgressFunc   progress,
                     gpointer               progress_data,
                     GCancellable          *cancellable,
                     GError               **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
