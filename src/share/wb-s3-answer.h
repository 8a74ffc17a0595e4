/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an S3-compatible store answers (Amazon S3 API Reference: the XML of each action). It
 * comes from outside and nothing in it is believed: no entities, nothing fetched, no name that
 * a path could not have, no sentence of the server shown. Nothing is sent from here. */
#pragma once

#include "share/wb-transfer.h"

G_BEGIN_DECLS

/** Longest id of an upload, and longest tag of a part, that is taken. */
#define WB_S3_MAX_TOKEN 2048

/** Most parts that an upload has (Amazon S3 User Guide, "Amazon S3 multipart upload limits"). */
#define WB_S3_MAX_PARTS 10000

/** WbS3Part: a part of a file that the store has. */
typedef struct
{
  guint   number;      /* from 1 on */
  gint64  size;
  char   *tag;         /* its ETag, with the quotes around it */
} WbS3Part;

/** Returns: (transfer full): an array of WbS3Part that frees what is in them. */
GArray    *wb_s3_parts_new        (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_s3_fail:
 * @answer: to the request that failed
 * @what: the file or server that the message names
 * @reason: (transfer full): what wb_transfer_run() failed with
 *
 * Sets @error to what the store says went wrong, by the code in its answer, or to @reason if it has
 * none that is known. Returns: %FALSE
 */
gboolean   wb_s3_fail             (GError         **error,
                                   const WbAnswer  *answer,
                                   const char      *what,
                                   GError          *reason);

/** Returns: (transfer full): the code of a fault in @answer, such as "NoSuchBucket"; "" without. */
char      *wb_s3_fault            (const WbAnswer  *answer) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_s3_read_list:
 * @prefix: what was asked for: "" or a folder with "/" at its end
 * @entries: what lies in the folder is added here
 * @any: (out): whether there was anything at all; untouched if not
 * @next: (out) (transfer full): where the next page begins; %NULL after the last
 *
 * Reads one page of ListObjectsV2. Returns: %TRUE, or %FALSE with %WB_SHARE_ERROR_PROTOCOL, or
 * %WB_SHARE_ERROR_LIMIT for too many entries
 */
gboolean   wb_s3_read_list        (const WbAnswer  *answer,
                                   const char      *prefix,
                                   GPtrArray       *entries,
                                   gboolean        *any,
                                   char           **next,
                                   GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the id in the answer to CreateMultipartUpload; %NULL with
 * %WB_SHARE_ERROR_PROTOCOL. */
char      *wb_s3_read_upload      (const WbAnswer  *answer,
                                   const char      *what,
                                   GError         **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the ids of the uploads of exactly @key in the answer to
 * ListMultipartUploads, none if it is no such answer. */
GPtrArray *wb_s3_read_uploads     (const WbAnswer  *answer,
                                   const char      *key) G_GNUC_WARN_UNUSED_RESULT;

/** Adds the parts in the answer to ListParts. Returns: the number after which the next page begins;
 * 0 after the last. */
guint      wb_s3_read_parts       (const WbAnswer  *answer,
                                   GArray          *parts);

/** Whether the answer to CompleteMultipartUpload, which is 200 for a failure too, says that it is
 * done. %FALSE with an error as of wb_s3_fail(). */
gboolean   wb_s3_read_completed   (const WbAnswer  *answer,
                                   const char      *what,
                                   GError         **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
