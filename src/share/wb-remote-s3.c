/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files in a bucket of an S3-compatible store, addressed as https://host/bucket/key. Such a store
 * has no folders: there is one as long as a key begins with it. Putting is in wb-s3-put.c. */
#include "config.h"

#include "share/wb-s3-private.h"

#include "share/wb-share.h"
#include "share/wb-xml.h"

#include <string.h>

/* Most keys that a store lists at once. */
#define PAGE "1000"
/* Pages of one folder. A store may well put less on a page than it is asked for. */
#define MAX_PAGES 10000

/* --- one request ------------------------------------------------------------------------------ */

static char *
path_of (const WbS3 *self,
         const char *key)
{
  g_autofree char *bucket = wb_s3_encode (self->remote.server->bucket, FALSE);
  g_autofree char *encoded = key != NULL ? wb_s3_encode (key, TRUE) : NULL;

  return g_strconcat (self->remote.base, "/", bucket, encoded != NULL ? "/" : NULL, encoded, NULL);
}

static char *
header_line (const WbS3Pair *pair)
{
  return g_strdup_printf ("%s: %s", pair->name, pair->value);
}

/* Returns: (transfer full): the headers of @ask, signed now. */
static char **
sign (const WbS3    *self,
      const WbS3Ask *ask,
      const char    *path)
{
  const WbServer *server = self->remote.server;
  g_autofree char *stamp = wb_s3_stamp (g_get_real_time () / G_USEC_PER_SEC);
  const char *sha256 = ask->sha256 != NULL ? ask->sha256 : WB_S3_EMPTY_SHA256;
  const char *secret = self->remote.secret != NULL ? self->remote.secret : "";
  WbS3Pair headers[] = {
    { "host", self->authority },
    { "x-amz-content-sha256", sha256 },
    { "x-amz-date", stamp },
    { "content-type", ask->type },
  };
  gsize count = ask->type != NULL ? G_N_ELEMENTS (headers) : G_N_ELEMENTS (headers) - 1;
  WbS3Request request = { ask->method, path, ask->query, ask->n_query, headers, count, sha256 };
  WbS3Signer signer = { server->user, secret, wb_server_get_region (server), "s3", stamp };
  g_autofree char *authorization = wb_s3_authorization (&request, &signer);
  GPtrArray *lines = g_ptr_array_new ();

  for (gsize i = 1; i < count; i++)
    g_ptr_array_add (lines, header_line (&headers[i]));
  g_ptr_array_add (lines, g_strconcat ("authorization: ", authorization, NULL));
  if (ask->header != NULL)
    g_ptr_array_add (lines, g_strdup (ask->header));
  g_ptr_array_add (lines, NULL);
  return (char **) g_ptr_array_free (lines, FALSE);
}

/* A body of no bytes is a body too, for stores that insist on its length. */
static gboolean
send_nothing (CURL      *easy,
              gpointer   data,
              GError   **error)
{
  curl_easy_setopt (easy, CURLOPT_POSTFIELDSIZE_LARGE, (curl_off_t) 0);
  curl_easy_setopt (easy, CURLOPT_COPYPOSTFIELDS, "");
  return TRUE;
}

gboolean
wb_s3_run (WbS3           *self,
           const WbS3Ask  *ask,
           WbAnswer       *answer,
           GCancellable   *cancellable,
           GError        **error)
{
  g_autofree char *path = path_of (self, ask->key);
  g_autofree char *query = wb_s3_query (ask->query, ask->n_query);
  g_autofree char *url = g_strdup_printf ("https://%s%s%s%s", self->authority, path,
                                          *query != '\0' ? "?" : "", query);
  g_auto (GStrv) headers = sign (self, ask, path);
  WbRequest request = { 0 };
  GError *reason = NULL;

  if (ask->request != NULL)
    request = *ask->request;
  request.method = ask->method;
  request.url = url;
  request.what = ask->key != NULL ? ask->key : self->remote.server->bucket;
  request.headers = (const char *const *) headers;
  if (strcmp (ask->method, "POST") == 0 && request.text == NULL)
    request.prepare = send_nothing;
  return wb_transfer_run (self->transfer, &request, answer, cancellable, &reason) ||
         wb_s3_fail (error, answer, request.what, reason);
}

/* --- looking ---------------------------------------------------------------------------------- */

/* One page. */
static gboolean
list_page (WbS3          *self,
           const char    *prefix,
           const char    *from,
           const char    *most,
           GPtrArray     *entries,
           gboolean      *any,
           char         **next,
           GCancellable  *cancellable,
           GError       **error)
{
  WbS3Pair query[] = {
    { "list-type", "2" }, { "prefix", prefix }, { "delimiter", "/" }, { "max-keys", most },
    { "continuation-token", from },
  };
  WbS3Ask ask = { .method = "GET", .query = query,
                  .n_query = from != NULL ? G_N_ELEMENTS (query) : G_N_ELEMENTS (query) - 1 };
  g_auto (WbAnswer) answer = { 0 };

  return wb_s3_run (self, &ask, &answer, cancellable, error) &&
         wb_s3_read_list (&answer, prefix, entries, any, next, error);
}

static GPtrArray *
s3_list (WbRemote      *remote,
         const char    *folder,
         GCancellable  *cancellable,
         GError       **error)
{
  WbS3 *self = (WbS3 *) remote;
  g_autofree char *prefix = *folder != '\0' ? g_strconcat (folder, "/", NULL) : g_strdup ("");
  g_autoptr (GPtrArray) entries = wb_remote_entries_new ();
  g_autofree char *from = NULL;
  gboolean any = FALSE;
  guint pages = 0;

  do
    {
      g_autofree char *next = NULL;

      if (!list_page (self, prefix, from, PAGE, entries, &any, &next, cancellable, error))
        return NULL;
      if (next != NULL && (++pages > MAX_PAGES || g_strcmp0 (next, from) == 0))
        {
          wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, folder, "the list has no end");
          return NULL;
        }
      g_free (from);
      from = g_steal_pointer (&next);
    }
  while (from != NULL);
  if (any || *folder == '\0')
    return g_steal_pointer (&entries);
  wb_transfer_fail (error, 404, folder);
  return NULL;
}

gboolean
wb_s3_head (WbS3           *self,
            const char     *path,
            WbRemoteEntry  *entry,
            GCancellable   *cancellable,
            GError        **error)
{
  WbS3Ask ask = { .method = "HEAD", .key = path };
  g_auto (WbAnswer) answer = { 0 };
  const char *slash = strrchr (path, '/');
  const char *length, *changed;
  guint64 size;

  if (!wb_s3_run (self, &ask, &answer, cancellable, error))
    return FALSE;
  length = wb_answer_get_header (&answer, "content-length");
  changed = wb_answer_get_header (&answer, "last-modified");
  entry->name = g_strdup (slash != NULL ? slash + 1 : path);
  entry->is_folder = FALSE;
  entry->changed = changed != NULL ? wb_transfer_read_date (changed) : 0;
  entry->size = -1;
  if (length != NULL && g_ascii_string_to_unsigned (length, 10, 0, G_MAXINT64, &size, NULL))
    entry->size = (gint64) size;
  return TRUE;
}

/* What is no file may be a folder. */
static gboolean
s3_stat (WbRemote       *remote,
         const char     *path,
         WbRemoteEntry  *entry,
         GCancellable   *cancellable,
         GError        **error)
{
  WbS3 *self = (WbS3 *) remote;
  g_autofree char *prefix = g_strconcat (path, "/", NULL);
  g_autoptr (GPtrArray) entries = wb_remote_entries_new ();
  g_autoptr (GError) reason = NULL;
  g_autofree char *next = NULL;
  const char *slash = strrchr (path, '/');
  gboolean any = FALSE;

  if (wb_s3_head (self, path, entry, cancellable, &reason))
    return TRUE;
  if (!wb_share_is_absent (g_steal_pointer (&reason), error))
    return FALSE;
  if (!list_page (self, prefix, NULL, "1", entries, &any, &next, cancellable, error))
    return FALSE;
  if (!any)
    return wb_transfer_fail (error, 404, path);
  entry->name = g_strdup (slash != NULL ? slash + 1 : path);
  entry->is_folder = TRUE;
  entry->size = -1;
  entry->changed = 0;
  return TRUE;
}

/* Asks for the bucket. What it says of the bucket itself is not a matter of the log-in. */
static gboolean
s3_greet (WbRemote      *remote,
          GCancellable  *cancellable,
          GError       **error)
{
  g_autoptr (GPtrArray) entries = wb_remote_entries_new ();
  g_autoptr (GError) reason = NULL;
  g_autofree char *next = NULL;
  gboolean any;

  if (list_page ((WbS3 *) remote, "", NULL, "1", entries, &any, &next, cancellable, &reason) ||
      g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_NOT_FOUND) ||
      g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_FORBIDDEN))
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* A bucket is not made from here: it may cost money, and its name is somebody's. */
static gboolean
s3_make_base (WbRemote      *remote,
              GCancellable  *cancellable,
              GError       **error)
{
  g_autoptr (GPtrArray) entries = wb_remote_entries_new ();
  g_autofree char *next = NULL;
  gboolean any;

  return list_page ((WbS3 *) remote, "", NULL, "1", entries, &any, &next, cancellable, error);
}

/* --- reading ---------------------------------------------------------------------------------- */

/* What a file passes through on its way to the caller's sink. */
typedef struct
{
  const WbAnswer       *answer;
  const char           *path;
  gint64                offset;
  WbRemoteSinkFunc      sink;
  gpointer              sink_data;
  WbRemoteProgressFunc  progress;
  gpointer              progress_data;
  gboolean              begun;
  gint64                skip;          /* bytes that are still to be passed over */
  gint64                done;
  gint64                total;         /* -1 while it is not known */
} Passage;

/* Reads "bytes FROM-TO/SIZE". */
static gboolean
read_range (const char *text,
            gint64     *from,
            gint64     *size)
{
  const char *slash = strrchr (text, '/');
  char *end;

  if (!g_str_has_prefix (text, "bytes ") || slash == NULL || !g_ascii_isdigit (text[6]))
    return FALSE;
  *from = g_ascii_strtoll (text + 6, &end, 10);
  *size = g_ascii_isdigit (slash[1]) ? g_ascii_strtoll (slash + 1, NULL, 10) : -1;
  return *end == '-';
}

/* Where the body begins is known with its first bytes: a store may send the whole file. */
static gboolean
begin (Passage  *passage,
       GError  **error)
{
  const char *range = wb_answer_get_header (passage->answer, "content-range");
  const char *length = wb_answer_get_header (passage->answer, "content-length");
  gint64 from = 0;

  passage->begun = TRUE;
  if (passage->answer->status == 206)
    {
      if (range == NULL || !read_range (range, &from, &passage->total) || from > passage->offset)
        return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, passage->path,
                                "the server sends another part than was asked for");
    }
  else if (length != NULL && g_ascii_isdigit (*length))
    passage->total = g_ascii_strtoll (length, NULL, 10);
  passage->skip = passage->offset - from;
  passage->done = from;
  return TRUE;
}

static gboolean
pass_bytes (const guint8  *bytes,
            gsize          length,
            gpointer       data,
            GError       **error)
{
  Passage *passage = data;
  gsize skipped;

  if (!passage->begun && !begin (passage, error))
    return FALSE;
  skipped = (gsize) MIN (passage->skip, (gint64) length);
  passage->skip -= (gint64) skipped;
  if (length > skipped &&
      !passage->sink (bytes + skipped, length - skipped, passage->sink_data, error))
    return FALSE;
  passage->done += (gint64) length;
  if (passage->progress != NULL)
    passage->progress (passage->done, passage->total, passage->progress_data);
  return TRUE;
}

/* A range that begins at the end of the file cannot be answered, and has nothing in it. */
static gboolean
is_at_end (const WbAnswer *answer,
           gint64          offset)
{
  const char *range = wb_answer_get_header (answer, "content-range");
  g_autofree char *expected = g_strdup_printf ("bytes */%" G_GINT64_FORMAT, offset);

  return answer->status == 416 && range != NULL && strcmp (range, expected) == 0;
}

static gboolean
s3_get (WbRemote              *remote,
        const char            *path,
        gint64                 offset,
        WbRemoteSinkFunc       sink,
        gpointer               sink_data,
        WbRemoteProgressFunc   progress,
        gpointer               progress_data,
        GCancellable          *cancellable,
        GError               **error)
{
  g_autofree char *range = g_strdup_printf ("range: bytes=%" G_GINT64_FORMAT "-", offset);
  g_auto (WbAnswer) answer = { 0 };
  Passage passage = { &answer, path, offset, sink, sink_data, progress, progress_data,
                      .total = -1 };
  WbRequest request = { .sink = pass_bytes, .sink_data = &passage };
  WbS3Ask ask = { .method = "GET", .key = path, .header = offset > 0 ? range : NULL,
                  .request = &request };
  g_auto (WbRemoteEntry) found = { NULL };
  g_autoptr (GError) reason = NULL;

  if (wb_s3_run ((WbS3 *) remote, &ask, &answer, cancellable, &reason))
    {
      if (!passage.begun && !begin (&passage, error))
        return FALSE;
      return (passage.skip == 0 && (passage.total < 0 || passage.done == passage.total)) ||
             wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, path,
                              "it has another size than was announced");
    }
  if (is_at_end (&answer, offset))
    return TRUE;
  /* Not every store says how long the file is. */
  if (answer.status == 416 && wb_s3_head ((WbS3 *) remote, path, &found, cancellable, NULL) &&
      found.size == offset)
    return TRUE;
  if (answer.status == 416)
    return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, path, "it is shorter than it was");
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* Removing what is not there is no fault for a store. */
static gboolean
s3_remove (WbRemote      *remote,
           const char    *path,
           GCancellable  *cancellable,
           GError       **error)
{
  WbS3 *self = (WbS3 *) remote;
  WbS3Ask ask = { .method = "DELETE", .key = path };
  g_auto (WbRemoteEntry) found = { NULL };
  g_auto (WbAnswer) answer = { 0 };

  return wb_s3_head (self, path, &found, cancellable, error) &&
         wb_s3_run (self, &ask, &answer, cancellable, error);
}

/* --- the kind --------------------------------------------------------------------------------- */

static gboolean
s3_open (WbRemote  *remote,
         GError   **error)
{
  WbS3 *self = (WbS3 *) remote;
  gboolean v6 = strchr (remote->host, ':') != NULL;
  g_autofree char *host = g_strdup_printf (v6 ? "[%s]" : "%s", remote->host);

  self->authority = remote->port == 443 ? g_steal_pointer (&host)
                                        : g_strdup_printf ("%s:%u", host, remote->port);
  if (!wb_xml_open (error))
    return FALSE;
  self->transfer = wb_transfer_new (remote, FALSE, error);
  return self->transfer != NULL;
}

static void
s3_close (WbRemote *remote)
{
  WbS3 *self = (WbS3 *) remote;

  g_clear_pointer (&self->transfer, wb_transfer_free);
  g_free (self->authority);
}

const WbRemoteMethods wb_remote_s3_methods = {
  .size = sizeof (WbS3),
  .open = s3_open,
  .close = s3_close,
  .greet = s3_greet,
  .make_base = s3_make_base,
  .list = s3_list,
  .stat = s3_stat,
  .get = s3_get,
  .put = wb_s3_put,
  .remove = s3_remove,
};
