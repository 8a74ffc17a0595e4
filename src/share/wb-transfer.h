/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One request after another to one server through libcurl, the same for all: certificates are
 * always checked, nothing is redirected, no proxy or environment is asked, everything can be
 * cancelled, and whatever goes wrong becomes an error of ours in one table. What is asked is not
 * known here. */
#pragma once

#include "share/wb-curl.h"
#include "share/wb-remote-private.h"

G_BEGIN_DECLS

/** WbTransfer: connections to one server that are used again. */
typedef struct _WbTransfer WbTransfer;

/**
 * WbRequest:
 * @method: (nullable): of HTTP; %NULL for SFTP
 * @url: escaped
 * @what: the file or server that messages name
 * @headers: (nullable) (array zero-terminated=1): `Name: value`
 * @text: (nullable): a short body, or
 * @reader: (nullable): what reads a long one, from @from on
 * @length: bytes of it that are sent
 * @total: bytes of the whole file, for the progress
 * @sink: (nullable): takes the body of a good answer; without it, it is kept in the answer
 * @progress: (nullable): told how far @reader is
 * @prepare: (nullable): called with the handle when everything else was set. It returns %FALSE with
 *   an error to stop
 */
typedef struct
{
  const char            *method;
  const char            *url;
  const char            *what;
  const char *const     *headers;
  GBytes                *text;
  WbRemoteReader        *reader;
  gint64                 from;
  gint64                 length;
  gint64                 total;
  WbRemoteSinkFunc       sink;
  gpointer               sink_data;
  WbRemoteProgressFunc   progress;
  gpointer               progress_data;
  gboolean             (*prepare) (CURL      *easy,
                                   gpointer   data,
                                   GError   **error);
  gpointer               prepare_data;
} WbRequest;

/**
 * WbAnswer:
 * @status: of HTTP; 0 if none came, and for SFTP
 * @code: what libcurl said
 * @headers: names in small letters → values
 * @body: what no sink took; of an answer that is not good, its first bytes
 * @size: bytes that the server announced; -1 if it did not
 * @changed: seconds since 1970 of the file, where it was asked for and is known; else 0
 *
 * It is filled as the answer comes, so a sink may look at status and headers. It begins as zeros.
 */
typedef struct
{
  int         status;
  CURLcode    code;
  GHashTable *headers;
  GByteArray *body;
  gint64      size;
  gint64      changed;
} WbAnswer;

/** Longest body that is kept in an answer. */
#define WB_ANSWER_MAX_BODY (32 * 1024 * 1024)

void         wb_answer_clear      (WbAnswer         *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbAnswer, wb_answer_clear)

/** Returns: (nullable): the header @name, which is in small letters. */
const char  *wb_answer_get_header (const WbAnswer   *self,
                                   const char       *name);

/**
 * wb_transfer_new:
 * @remote: whose authority and times count; has to outlive the transfer
 * @with_login: whether user name and secret are sent, by HTTP's Basic or to SSH
 *
 * Returns: (transfer full): a transfer, or %NULL with %WB_SHARE_ERROR_CERTIFICATE when the file of
 * the authority cannot be used, or %WB_SHARE_ERROR_LIBRARY when there is no libcurl
 */
WbTransfer  *wb_transfer_new      (const WbRemote   *remote,
                                   gboolean          with_login,
                                   GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void         wb_transfer_free     (WbTransfer       *self);

/**
 * wb_transfer_run:
 * @answer: also filled when it fails
 *
 * Returns: %TRUE for a status of 200 to 299, or where there is none, for a transfer that went to
 * its end; %FALSE with an error of wb_transfer_fail(), of the sink or the reader, or
 * %G_IO_ERROR_CANCELLED
 */
gboolean     wb_transfer_run      (WbTransfer       *self,
                                   const WbRequest  *request,
                                   WbAnswer         *answer,
                                   GCancellable     *cancellable,
                                   GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_transfer_fail:
 * @code: a CURLcode, or a status of HTTP, which is 100 or more
 * @what: the file or server that the message names
 *
 * Sets @error to what @code means. No word of the server is in it. Returns: %FALSE
 */
gboolean     wb_transfer_fail     (GError          **error,
                                   int               code,
                                   const char       *what);

/** Returns: the seconds since 1970 that a date of HTTP says; 0 if it is none, or before that. */
gint64       wb_transfer_read_date (const char      *date);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTransfer, wb_transfer_free)

G_END_DECLS
