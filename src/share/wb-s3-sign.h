/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Signatures of requests to an S3-compatible store, version 4 (AWS General Reference, "Create a
 * signed AWS API request"; Amazon S3 API Reference, "Authenticating Requests"). Pure: text in, text
 * out; no clock, nothing is sent. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** SHA-256 of nothing, for requests without a body. */
#define WB_S3_EMPTY_SHA256 "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"

/** WbS3Pair: a parameter of the query, or a header. */
typedef struct
{
  const char *name;
  const char *value;
} WbS3Pair;

/**
 * WbS3Request:
 * @method: "GET", "PUT" …
 * @path: from the first "/", as it is sent: already encoded by wb_s3_encode()
 * @query: (array length=n_query): not encoded, in any order
 * @headers: (array length=n_headers): what is signed, "host" among it; names in any case and order
 * @payload_sha256: hash of the body in small hexadecimal digits
 */
typedef struct
{
  const char     *method;
  const char     *path;
  const WbS3Pair *query;
  gsize           n_query;
  const WbS3Pair *headers;
  gsize           n_headers;
  const char     *payload_sha256;
} WbS3Request;

/**
 * WbS3Signer:
 * @access_key: id of the access key
 * @secret: the secret access key
 * @service: "s3"
 * @stamp: of the request, "20130524T000000Z", as its x-amz-date says
 */
typedef struct
{
  const char *access_key;
  const char *secret;
  const char *region;
  const char *service;
  const char *stamp;
} WbS3Signer;

/** Returns: (transfer full): @at, seconds since 1970, as x-amz-date has it; %NULL outside of the
 * years 1 to 9999. */
char *wb_s3_stamp             (gint64              at) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @text with every byte but letters, digits, "-", ".", "_" and "~" as
 * %XX. @keep_slashes: for paths; "/" stays then */
char *wb_s3_encode            (const char         *text,
                               gboolean            keep_slashes) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the query as it is both sent and signed: encoded, sorted, each name
 * with a "="; "" without parameters. */
char *wb_s3_query             (const WbS3Pair     *query,
                               gsize               n_query) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the canonical request. */
char *wb_s3_canonical_request (const WbS3Request  *request) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the value of the Authorization header. What was made of the secret on
 * the way is wiped. */
char *wb_s3_authorization     (const WbS3Request  *request,
                               const WbS3Signer   *signer) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
