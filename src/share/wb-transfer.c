/* SPDX-License-Identifier: GPL-3.0-or-later */
/* libcurl, made to do one request at a time that can be cancelled at any moment: one easy handle in
 * one multi handle, which keeps the connections. */
#include "config.h"

#include "share/wb-transfer.h"

#include "share/wb-share.h"

#include <string.h>

#define USER_AGENT "Wainbook/" WB_VERSION
#define BUFFER_SIZE (256L * 1024)
#define UPLOAD_BUFFER_SIZE (512L * 1024)
#define MAX_HEADERS 100
/* Of a page that says what went wrong: how much of it is taken, and how much is kept. */
#define MAX_FAULT_BODY (1024 * 1024)
#define MAX_FAULT_KEPT (64 * 1024)
/* A body from this size on is sent only once the server has said that it wants it, or after a
 * second. */
#define EXPECT_FROM (1024 * 1024)
#define POLL_MILLISECONDS 1000

struct _WbTransfer
{
  const WbRemote   *remote;
  gboolean          with_login;
  CURL             *easy;
  CURLM            *multi;

  /* while a request runs */
  const WbRequest  *request;
  WbAnswer         *answer;
  gint64            fault_bytes;
  GError           *error;       /* (nullable): of a sink or reader */
};

/* --- what went wrong -------------------------------------------------------------------------- */

/* Codes of libcurl are below 100, those of HTTP are not. Without words, libcurl's own are taken. */
static const struct
{
  int           code;
  WbShareError  error;
  const char   *why;
} failures[] = {
  { CURLE_COULDNT_RESOLVE_HOST, WB_SHARE_ERROR_UNREACHABLE, "there is no computer of this name" },
  { CURLE_COULDNT_CONNECT, WB_SHARE_ERROR_UNREACHABLE, "nothing answers there" },
  { CURLE_SEND_ERROR, WB_SHARE_ERROR_UNREACHABLE, "the connection was cut" },
  { CURLE_RECV_ERROR, WB_SHARE_ERROR_UNREACHABLE, "the connection was cut" },
  { CURLE_GOT_NOTHING, WB_SHARE_ERROR_UNREACHABLE, "the connection was cut" },
  /* So libcurl calls a greeting of SSH that did not come to its end. */
  { CURLE_FAILED_INIT, WB_SHARE_ERROR_UNREACHABLE, "the connection was cut" },
  { CURLE_OPERATION_TIMEDOUT, WB_SHARE_ERROR_TIMEOUT, "the server did not answer in time" },
  { CURLE_PEER_FAILED_VERIFICATION, WB_SHARE_ERROR_CERTIFICATE, NULL },
  { CURLE_SSL_CACERT_BADFILE, WB_SHARE_ERROR_CERTIFICATE, NULL },
  { CURLE_SSL_CERTPROBLEM, WB_SHARE_ERROR_CERTIFICATE, NULL },
  { CURLE_SSL_ISSUER_ERROR, WB_SHARE_ERROR_CERTIFICATE, NULL },
  { CURLE_SSL_INVALIDCERTSTATUS, WB_SHARE_ERROR_CERTIFICATE, NULL },
  { CURLE_SSL_CONNECT_ERROR, WB_SHARE_ERROR_PROTOCOL, "no secure connection could be made" },
  { CURLE_LOGIN_DENIED, WB_SHARE_ERROR_LOGIN, "the log-in was refused" },
  { CURLE_REMOTE_ACCESS_DENIED, WB_SHARE_ERROR_FORBIDDEN, "the server does not allow it" },
  { CURLE_REMOTE_FILE_NOT_FOUND, WB_SHARE_ERROR_NOT_FOUND, "it is not there" },
  { CURLE_REMOTE_FILE_EXISTS, WB_SHARE_ERROR_EXISTS, "it is there already" },
  { CURLE_REMOTE_DISK_FULL, WB_SHARE_ERROR_FULL, "there is no room left" },
  { CURLE_UPLOAD_FAILED, WB_SHARE_ERROR_SERVER, NULL },
  { CURLE_SSH, WB_SHARE_ERROR_SERVER, NULL },
  { CURLE_PARTIAL_FILE, WB_SHARE_ERROR_PROTOCOL, "less came than was announced" },

  { 401, WB_SHARE_ERROR_LOGIN, "the log-in was refused" },
  { 403, WB_SHARE_ERROR_FORBIDDEN, "the server does not allow it" },
  { 404, WB_SHARE_ERROR_NOT_FOUND, "it is not there" },
  { 408, WB_SHARE_ERROR_TIMEOUT, "the server did not wait for it" },
  { 409, WB_SHARE_ERROR_NOT_FOUND, "its folder is not there" },   /* RFC 4918, 9.7.1, 9.9.4 */
  { 410, WB_SHARE_ERROR_NOT_FOUND, "it is there no more" },
  { 412, WB_SHARE_ERROR_EXISTS, "it is there already" },
  { 413, WB_SHARE_ERROR_FULL, "it is larger than the server takes" },
  { 423, WB_SHARE_ERROR_LOCKED, "somebody else holds it" },
  { 429, WB_SHARE_ERROR_SERVER, "the server has too much to do" },
  { 504, WB_SHARE_ERROR_TIMEOUT, "the server behind the server did not answer in time" },
  { 507, WB_SHARE_ERROR_FULL, "there is no room left" },
};

gboolean
wb_transfer_fail (GError     **error,
                  int          code,
                  const char  *what)
{
  for (gsize i = 0; i < G_N_ELEMENTS (failures); i++)
    if (failures[i].code == code)
      return wb_share_refuse (error, failures[i].error, what, "%s",
                              failures[i].why != NULL ? failures[i].why
                                                      : curl_easy_strerror ((CURLcode) code));
  if (code >= 500)
    return wb_share_refuse (error, WB_SHARE_ERROR_SERVER, what, "the server answers %d", code);
  if (code >= 100)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, what, "the server answers %d", code);
  return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, what, "%s",
                          curl_easy_strerror ((CURLcode) code));
}

/* --- answers ---------------------------------------------------------------------------------- */

void
wb_answer_clear (WbAnswer *self)
{
  g_clear_pointer (&self->headers, g_hash_table_unref);
  g_clear_pointer (&self->body, g_byte_array_unref);
  self->status = 0;
  self->code = CURLE_OK;
  self->size = 0;
  self->changed = 0;
}

const char *
wb_answer_get_header (const WbAnswer *self,
                      const char     *name)
{
  return self->headers != NULL ? g_hash_table_lookup (self->headers, name) : NULL;
}

/* A new answer begins, that of the request or one before it, such as 100. */
static void
begin_answer (WbAnswer *answer)
{
  wb_answer_clear (answer);
  answer->size = -1;
  answer->headers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  answer->body = g_byte_array_new ();
}

static gboolean
is_good (const WbAnswer *answer)
{
  return answer->status == 0 || (answer->status >= 200 && answer->status < 300);
}

gint64
wb_transfer_read_date (const char *date)
{
  time_t when = wb_curl_open (NULL) ? curl_getdate (date, NULL) : -1;

  return when > 0 ? when : 0;
}

/* --- called by libcurl ------------------------------------------------------------------------ */

static void
take_header (WbAnswer   *answer,
             const char *line,
             gsize       length)
{
  const char *colon = memchr (line, ':', length);
  g_autofree char *name = NULL;
  g_autofree char *value = NULL;

  if (colon == NULL || g_hash_table_size (answer->headers) >= MAX_HEADERS)
    return;
  name = g_ascii_strdown (line, colon - line);
  value = g_strstrip (g_strndup (colon + 1, length - (gsize) (colon - line) - 1));
  if (g_utf8_validate (value, -1, NULL))
    g_hash_table_replace (answer->headers, g_steal_pointer (&name), g_steal_pointer (&value));
}

static size_t
header_cb (char   *line,
           size_t  size,
           size_t  n,
           void   *data)
{
  WbTransfer *self = data;
  long status = 0;

  if (self->request->method == NULL)
    return size * n;
  if (size * n > 5 && memcmp (line, "HTTP/", 5) == 0)
    {
      begin_answer (self->answer);
      curl_easy_getinfo (self->easy, CURLINFO_RESPONSE_CODE, &status);
      self->answer->status = (int) status;
    }
  else
    take_header (self->answer, line, size * n);
  return size * n;
}

static gboolean
keep_body (WbTransfer   *self,
           const guint8 *bytes,
           gsize         length)
{
  if (self->answer->body->len + length > WB_ANSWER_MAX_BODY)
    return wb_share_refuse (&self->error, WB_SHARE_ERROR_PROTOCOL, self->request->what,
                            "the server answers at too great length");
  g_byte_array_append (self->answer->body, bytes, (guint) length);
  return TRUE;
}

static size_t
write_cb (char   *bytes,
          size_t  size,
          size_t  n,
          void   *data)
{
  WbTransfer *self = data;
  const WbRequest *request = self->request;
  gsize length = size * n;
  gboolean good;

  if (self->error != NULL)
    return 0;
  if (!is_good (self->answer))
    {
      if (self->answer->body->len + length <= MAX_FAULT_KEPT)
        g_byte_array_append (self->answer->body, (const guint8 *) bytes, (guint) length);
      return (self->fault_bytes += (gint64) length) <= MAX_FAULT_BODY ? length : 0;
    }
  good = request->sink != NULL
           ? request->sink ((const guint8 *) bytes, length, request->sink_data, &self->error)
           : keep_body (self, (const guint8 *) bytes, length);
  return good ? length : 0;
}

static size_t
read_cb (char   *buffer,
         size_t  size,
         size_t  n,
         void   *data)
{
  WbTransfer *self = data;
  const WbRequest *request = self->request;
  gint64 left = request->from + request->length - wb_remote_reader_tell (request->reader);
  gssize got;

  if (left <= 0)
    return 0;
  got = wb_remote_reader_read (request->reader, (guint8 *) buffer,
                               (gsize) MIN ((gint64) (size * n), left), &self->error);
  if (got < 0)
    return CURL_READFUNC_ABORT;
  if (request->progress != NULL)
    request->progress (wb_remote_reader_tell (request->reader), request->total,
                       request->progress_data);
  return (size_t) got;
}

/* Called when a connection that was kept turns out to be gone, and the body has to be sent again.
 * */
static int
seek_cb (void       *data,
         curl_off_t  offset,
         int         origin)
{
  WbTransfer *self = data;

  if (origin != SEEK_SET)
    return CURL_SEEKFUNC_CANTSEEK;
  return wb_remote_reader_seek (self->request->reader, self->request->from + offset, &self->error)
           ? CURL_SEEKFUNC_OK : CURL_SEEKFUNC_FAIL;
}

/* --- the handle ------------------------------------------------------------------------------- */

/* A file that is no certificate is better known before than as a failed connection. */
static gboolean
check_authority (const char  *file,
                 GError     **error)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) reason = NULL;

  if (file == NULL || *file == '\0')
    return TRUE;
  if (!g_file_get_contents (file, &text, NULL, &reason))
    return wb_share_refuse (error, WB_SHARE_ERROR_CERTIFICATE, file, "%s", reason->message);
  return strstr (text, "-----BEGIN CERTIFICATE-----") != NULL ||
         wb_share_refuse (error, WB_SHARE_ERROR_CERTIFICATE, file,
                          "there is no certificate of an authority in it");
}

WbTransfer *
wb_transfer_new (const WbRemote  *remote,
                 gboolean         with_login,
                 GError         **error)
{
  WbTransfer *self;

  if (!check_authority (remote->server->authority, error) || !wb_curl_open (error))
    return NULL;
  self = g_new0 (WbTransfer, 1);
  self->remote = remote;
  self->with_login = with_login;
  self->easy = curl_easy_init ();
  self->multi = curl_multi_init ();
  g_assert (self->easy != NULL && self->multi != NULL);
  return self;
}

void
wb_transfer_free (WbTransfer *self)
{
  curl_easy_cleanup (self->easy);
  curl_multi_cleanup (self->multi);
  g_free (self);
}

static void
set_times (WbTransfer *self)
{
  curl_easy_setopt (self->easy, CURLOPT_CONNECTTIMEOUT, (long) self->remote->connect_seconds);
  curl_easy_setopt (self->easy, CURLOPT_LOW_SPEED_LIMIT, 1L);
  curl_easy_setopt (self->easy, CURLOPT_LOW_SPEED_TIME, (long) self->remote->stall_seconds);
  curl_easy_setopt (self->easy, CURLOPT_TCP_KEEPALIVE, 1L);
  curl_easy_setopt (self->easy, CURLOPT_NOSIGNAL, 1L);
}

/* The office's own authority is added: those of the system are looked up in their folder besides.
 * */
static void
set_trust (WbTransfer *self)
{
  const WbServer *server = self->remote->server;

  curl_easy_setopt (self->easy, CURLOPT_PROTOCOLS_STR,
                    server->kind == WB_SERVER_SFTP ? "sftp" : "https");
  curl_easy_setopt (self->easy, CURLOPT_FOLLOWLOCATION, 0L);
  curl_easy_setopt (self->easy, CURLOPT_PROXY, "");
  curl_easy_setopt (self->easy, CURLOPT_NETRC, (long) CURL_NETRC_IGNORED);
  curl_easy_setopt (self->easy, CURLOPT_SSLVERSION, (long) CURL_SSLVERSION_TLSv1_2);
  curl_easy_setopt (self->easy, CURLOPT_SSL_VERIFYPEER, 1L);
  curl_easy_setopt (self->easy, CURLOPT_SSL_VERIFYHOST, 2L);
  if (server->authority != NULL && *server->authority != '\0')
    curl_easy_setopt (self->easy, CURLOPT_CAINFO, server->authority);
}

static void
set_login (WbTransfer *self)
{
  const WbServer *server = self->remote->server;

  if (!self->with_login || server->user == NULL || *server->user == '\0')
    return;
  curl_easy_setopt (self->easy, CURLOPT_HTTPAUTH, (long) CURLAUTH_BASIC);
  curl_easy_setopt (self->easy, CURLOPT_USERNAME, server->user);
  curl_easy_setopt (self->easy, CURLOPT_PASSWORD,
                    self->remote->secret != NULL ? self->remote->secret : "");
}

static void
set_body (WbTransfer *self)
{
  const WbRequest *request = self->request;

  if (request->text != NULL)
    {
      curl_easy_setopt (self->easy, CURLOPT_POSTFIELDSIZE_LARGE,
                        (curl_off_t) g_bytes_get_size (request->text));
      curl_easy_setopt (self->easy, CURLOPT_POSTFIELDS,
                        (const char *) g_bytes_get_data (request->text, NULL));
    }
  if (request->reader != NULL)
    {
      curl_easy_setopt (self->easy, CURLOPT_UPLOAD, 1L);
      curl_easy_setopt (self->easy, CURLOPT_INFILESIZE_LARGE, (curl_off_t) request->length);
      curl_easy_setopt (self->easy, CURLOPT_READFUNCTION, read_cb);
      curl_easy_setopt (self->easy, CURLOPT_READDATA, self);
      curl_easy_setopt (self->easy, CURLOPT_SEEKFUNCTION, seek_cb);
      curl_easy_setopt (self->easy, CURLOPT_SEEKDATA, self);
    }
}

static void
set_request (WbTransfer        *self,
             struct curl_slist *headers)
{
  const WbRequest *request = self->request;

  curl_easy_setopt (self->easy, CURLOPT_URL, request->url);
  curl_easy_setopt (self->easy, CURLOPT_PATH_AS_IS, 1L);
  curl_easy_setopt (self->easy, CURLOPT_USERAGENT, USER_AGENT);
  curl_easy_setopt (self->easy, CURLOPT_HTTP_VERSION, (long) CURL_HTTP_VERSION_1_1);
  curl_easy_setopt (self->easy, CURLOPT_BUFFERSIZE, BUFFER_SIZE);
  curl_easy_setopt (self->easy, CURLOPT_UPLOAD_BUFFERSIZE, UPLOAD_BUFFER_SIZE);
  curl_easy_setopt (self->easy, CURLOPT_HEADERFUNCTION, header_cb);
  curl_easy_setopt (self->easy, CURLOPT_HEADERDATA, self);
  curl_easy_setopt (self->easy, CURLOPT_WRITEFUNCTION, write_cb);
  curl_easy_setopt (self->easy, CURLOPT_WRITEDATA, self);
  set_body (self);
  if (request->method != NULL && strcmp (request->method, "HEAD") == 0)
    curl_easy_setopt (self->easy, CURLOPT_NOBODY, 1L);
  else if (request->method != NULL)
    curl_easy_setopt (self->easy, CURLOPT_CUSTOMREQUEST, request->method);
  curl_easy_setopt (self->easy, CURLOPT_HTTPHEADER, headers);
}

/* --- one request ------------------------------------------------------------------------------ */

static struct curl_slist *
list_headers (const WbRequest *request)
{
  struct curl_slist *list = NULL;

  for (gsize i = 0; request->headers != NULL && request->headers[i] != NULL; i++)
    list = curl_slist_append (list, request->headers[i]);
  if (request->reader != NULL && request->length < EXPECT_FROM)
    list = curl_slist_append (list, "Expect:");
  return list;
}

/* Returns: whether libcurl is done; what it says is in @code. */
static gboolean
is_done (WbTransfer *self,
         CURLcode   *code)
{
  CURLMsg *message;
  int left;

  while ((message = curl_multi_info_read (self->multi, &left)) != NULL)
    if (message->msg == CURLMSG_DONE)
      {
        *code = message->data.result;
        return TRUE;
      }
  return FALSE;
}

/* Lets libcurl work until it is done or somebody cancels, which is noticed at once. */
static gboolean
work (WbTransfer    *self,
      CURLcode      *code,
      GCancellable  *cancellable,
      GError       **error)
{
  GPollFD poll_fd;
  gboolean pollable = g_cancellable_make_pollfd (cancellable, &poll_fd);
  struct curl_waitfd wait_fd = { .fd = pollable ? poll_fd.fd : -1, .events = CURL_WAIT_POLLIN };
  gboolean done = FALSE, cancelled = FALSE;
  int running;

  while (!done && !cancelled)
    {
      curl_multi_perform (self->multi, &running);
      done = is_done (self, code);
      cancelled = g_cancellable_set_error_if_cancelled (cancellable, error);
      if (!done && !cancelled)
        curl_multi_poll (self->multi, &wait_fd, pollable ? 1 : 0, POLL_MILLISECONDS, NULL);
    }
  if (pollable)
    g_cancellable_release_fd (cancellable);
  return !cancelled;
}

static void
read_about (WbTransfer *self)
{
  curl_off_t size = -1, changed = -1;

  curl_easy_getinfo (self->easy, CURLINFO_CONTENT_LENGTH_DOWNLOAD_T, &size);
  curl_easy_getinfo (self->easy, CURLINFO_FILETIME_T, &changed);
  self->answer->size = size;
  self->answer->changed = MAX (changed, 0);
}

/* What the end of the request means. */
static gboolean
judge (WbTransfer  *self,
       CURLcode     code,
       GError     **error)
{
  const WbRequest *request = self->request;
  WbAnswer *answer = self->answer;

  answer->code = code;
  read_about (self);
  if (self->error != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&self->error));
      return FALSE;
    }
  /* A server that refuses may cut the connection before it has taken the body. */
  if (!is_good (answer) && answer->status >= 200)
    return wb_transfer_fail (error, answer->status, request->what);
  return code == CURLE_OK || wb_transfer_fail (error, (int) code, request->what);
}

static gboolean
prepare (WbTransfer         *self,
         struct curl_slist  *headers,
         GError            **error)
{
  const WbRequest *request = self->request;

  curl_easy_reset (self->easy);
  set_times (self);
  set_trust (self);
  set_login (self);
  set_request (self, headers);
  return (request->reader == NULL ||
          wb_remote_reader_seek (request->reader, request->from, error)) &&
         (request->prepare == NULL ||
          request->prepare (self->easy, request->prepare_data, error));
}

static gboolean
perform (WbTransfer    *self,
         GCancellable  *cancellable,
         GError       **error)
{
  CURLcode code = CURLE_OK;
  gboolean worked;

  curl_multi_add_handle (self->multi, self->easy);
  worked = work (self, &code, cancellable, error);
  curl_multi_remove_handle (self->multi, self->easy);
  return worked && judge (self, code, error);
}

gboolean
wb_transfer_run (WbTransfer       *self,
                 const WbRequest  *request,
                 WbAnswer         *answer,
                 GCancellable     *cancellable,
                 GError          **error)
{
  struct curl_slist *headers = list_headers (request);
  gboolean good;

  begin_answer (answer);
  self->request = request;
  self->answer = answer;
  self->fault_bytes = 0;
  good = prepare (self, headers, error) && perform (self, cancellable, error);
  /* Neither the pointers nor the password stay in the handle. */
  curl_easy_reset (self->easy);
  curl_slist_free_all (headers);
  g_clear_error (&self->error);
  self->request = NULL;
  self->answer = NULL;
  return good;
}
