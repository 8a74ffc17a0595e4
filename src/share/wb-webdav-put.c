/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a file gets to a WebDAV server: into incoming/, and from there, once its size and hash are
 * right, to its name, which it takes from no other. A large file goes in pieces, so that one that
 * was cut off can be gone on with; but only to a server that was seen to put a piece where it
 * belongs, since some answer 201 and keep nothing but the piece. */
#include "config.h"

#include "share/wb-webdav-private.h"

#include "share/wb-sha256.h"
#include "share/wb-share.h"

#include <string.h>

/* Up to this many bytes a file is sent at once. */
#define SMALL (8 * 1024 * 1024)
/* Apache keeps what came of a piece that was cut off, unless that piece made the file: so the first
 * is short. Other servers may lose the piece. */
#define FIRST_PIECE (1024 * 1024)
#define PIECE (32 * 1024 * 1024)

typedef struct
{
  WbWebdav              *self;
  const char            *path;     /* where it is to be in the end */
  const WbRemoteSource  *source;
  WbRemoteReader        *reader;
  const char            *part;     /* where it lies until then */
  WbRemoteProgressFunc   progress;
  gpointer               progress_data;
  GCancellable          *cancellable;
} Upload;

/* --- bodies ----------------------------------------------------------------------------------- */

/* Sends @length bytes from @from on as @path; as a piece of the whole if @header is given. */
static gboolean
send_bytes (Upload      *upload,
            const char  *header,
            gint64       from,
            gint64       length,
            WbAnswer    *answer,
            GError     **error)
{
  g_autofree char *url = wb_webdav_url (upload->self, upload->part, FALSE);
  const char *headers[] = { "Content-Type: application/octet-stream", header, NULL };
  WbRequest request = {
    .method = "PUT", .url = url, .what = upload->path, .headers = headers,
    .reader = upload->reader, .from = from, .length = length, .total = upload->source->size,
    .progress = upload->progress, .progress_data = upload->progress_data,
  };

  return wb_transfer_run (upload->self->transfer, &request, answer, upload->cancellable, error);
}

static gboolean
send_whole (Upload  *upload,
            GError **error)
{
  g_auto (WbAnswer) answer = { 0 };

  return send_bytes (upload, NULL, 0, upload->source->size, &answer, error);
}

/* A piece that is not the first makes no new file; if it does, somebody took away what it should go
 * into. */
static gboolean
send_piece (Upload  *upload,
            gint64   from,
            gint64   length,
            GError **error)
{
  g_auto (WbAnswer) answer = { 0 };
  g_autofree char *header =
    g_strdup_printf ("Content-Range: bytes %" G_GINT64_FORMAT "-%" G_GINT64_FORMAT
                     "/%" G_GINT64_FORMAT, from, from + length - 1, upload->source->size);

  if (!send_bytes (upload, header, from, length, &answer, error))
    return FALSE;
  return from == 0 || answer.status != 201 ||
         wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, upload->path,
                          "what was sent before is gone");
}

static gboolean
send_pieces (Upload  *upload,
             gint64   from,
             GError **error)
{
  while (from < upload->source->size)
    {
      gint64 length = MIN (from == 0 ? FIRST_PIECE : PIECE, upload->source->size - from);

      if (!send_piece (upload, from, length, error))
        return FALSE;
      from += length;
    }
  return TRUE;
}

/* --- what the server can do ------------------------------------------------------------------- */

static gboolean
keep_text (const guint8  *bytes,
           gsize          length,
           gpointer       data,
           GError       **error)
{
  GString *text = data;

  if (text->len < 100)
    g_string_append_len (text, (const char *) bytes, (gssize) MIN (length, 100));
  return TRUE;
}

/* Puts two halves and looks what has become of them. */
static gboolean
try_pieces (Upload  *probe,
            gint64   half,
            GError **error)
{
  WbRemote *remote = &probe->self->parent;
  g_autoptr (GString) text = g_string_new (NULL);
  gconstpointer wanted = g_bytes_get_data (probe->source->bytes, NULL);

  return send_piece (probe, 0, half, error) &&
         send_piece (probe, half, probe->source->size - half, error) &&
         wb_remote_get (remote, probe->part, 0, keep_text, text, NULL, NULL, probe->cancellable,
                        error) &&
         (gint64) text->len == probe->source->size && memcmp (text->str, wanted, text->len) == 0;
}

/* Anything but the right outcome is a no; what is wrong with the server will be told by the sending
 * itself. */
static gboolean
find_out_whether_it_resumes (WbWebdav     *self,
                             GCancellable *cancellable)
{
  static const char letters[] = "abcdefghijklmnopqrstuvwxyz";
  g_autoptr (GBytes) bytes = g_bytes_new_static (letters, 26);
  g_autofree char *sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  g_autofree char *unique = g_uuid_string_random ();
  g_autofree char *path = g_strconcat (WB_REMOTE_INCOMING "/probe-", unique, NULL);
  WbRemoteSource source = { bytes, NULL, 26, sha256 };
  g_autoptr (WbRemoteReader) reader = wb_remote_reader_new (&source, NULL);
  g_autoptr (GError) reason = NULL;
  g_autoptr (GError) ignored = NULL;
  Upload probe = { self, path, &source, reader, path, NULL, NULL, cancellable };
  gboolean good = try_pieces (&probe, 11, &reason);

  (void) !wb_remote_remove (&self->parent, path, cancellable, &ignored);
  /* Not asked to its end: it is asked again another time. */
  if (reason != NULL && (reason->domain != WB_SHARE_ERROR ||
                         (wb_share_error_may_pass ((WbShareError) reason->code) &&
                          reason->code != WB_SHARE_ERROR_SERVER &&
                          reason->code != WB_SHARE_ERROR_PROTOCOL)))
    return FALSE;
  self->resumes = good ? WB_RESUMES_YES : WB_RESUMES_NO;
  return good;
}

static gboolean
resumes (WbWebdav     *self,
         GCancellable *cancellable)
{
  if (self->resumes == WB_RESUMES_UNKNOWN)
    return find_out_whether_it_resumes (self, cancellable);
  return self->resumes == WB_RESUMES_YES;
}

/* --- the part --------------------------------------------------------------------------------- */

static void
remove_part (Upload *upload)
{
  g_autoptr (GError) ignored = NULL;

  (void) !wb_remote_remove (&upload->self->parent, upload->part, upload->cancellable, &ignored);
}

/* Asks for a file the short way. Returns: whether the answer can be relied on; else the server has
 * to be asked what it knows of the file. @size: (out): its bytes; -1 when there is none */
static gboolean
ask_for_size (WbWebdav     *self,
              const char   *path,
              gint64       *size,
              GCancellable *cancellable)
{
  g_auto (WbAnswer) answer = { 0 };
  g_autoptr (GError) ignored = NULL;
  const char *encoding;

  (void) !wb_webdav_ask (self, "HEAD", path, FALSE, "Accept-Encoding: identity", &answer,
                         cancellable, &ignored);
  encoding = wb_answer_get_header (&answer, "content-encoding");
  *size = answer.status == 404 ? -1 : answer.size;
  return answer.status == 404 ||
         (answer.status == 200 && answer.size >= 0 &&
          (encoding == NULL || strcmp (encoding, "identity") == 0));
}

/* Returns: bytes of the part that lie there; 0 for none; -1 with an error. */
static gint64
look_at_part (Upload  *upload,
              GError **error)
{
  g_auto (WbRemoteEntry) entry = { NULL };
  g_autoptr (GError) reason = NULL;
  gint64 size;

  if (ask_for_size (upload->self, upload->part, &size, upload->cancellable))
    return MAX (size, 0);
  if (wb_remote_stat (&upload->self->parent, upload->part, &entry, upload->cancellable, &reason))
    return MAX (entry.size, 0);
  return wb_share_is_absent (g_steal_pointer (&reason), error) ? 0 : -1;
}

static gboolean
hash_bytes (const guint8  *bytes,
            gsize          length,
            gpointer       data,
            GError       **error)
{
  wb_sha256_update (data, bytes, length);
  return TRUE;
}

/* A part that was gone on with is read back: nobody saw its beginning arrive. */
static gboolean
check_part (Upload  *upload,
            GError **error)
{
  g_autoptr (WbSha256) hash = wb_sha256_new ();

  if (!wb_remote_get (&upload->self->parent, upload->part, 0, hash_bytes, hash, NULL, NULL,
                      upload->cancellable, error))
    return FALSE;
  if (strcmp (wb_sha256_finish (hash), upload->source->sha256) == 0)
    return TRUE;
  remove_part (upload);
  return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, upload->path,
                          "what the server kept is not what was sent");
}

static gboolean
send_large (Upload  *upload,
            GError **error)
{
  gint64 there = look_at_part (upload, error);

  if (there < 0)
    return FALSE;
  if (there > upload->source->size)
    {
      remove_part (upload);
      there = 0;
    }
  if (there == 0)
    return send_pieces (upload, 0, error);
  return wb_remote_reader_seek (upload->reader, there, error) &&
         send_pieces (upload, there, error) && check_part (upload, error);
}

/* The size is looked at before the file gets its name. */
static gboolean
check_size (Upload  *upload,
            GError **error)
{
  gint64 there = look_at_part (upload, error);

  if (there < 0)
    return FALSE;
  if (there == upload->source->size)
    return TRUE;
  remove_part (upload);
  return wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, upload->path,
                          "the server kept %" G_GINT64_FORMAT " of %" G_GINT64_FORMAT " bytes",
                          there, upload->source->size);
}

static gboolean
send_part (Upload  *upload,
           GError **error)
{
  g_autoptr (GError) reason = NULL;
  gboolean large = upload->source->size > SMALL && resumes (upload->self, upload->cancellable);

  /* The rest of the hash is reckoned while the server is asked. */
  if ((large ? send_large (upload, &reason) : send_whole (upload, &reason)) &&
      check_size (upload, &reason) && wb_remote_reader_finish (upload->reader, &reason))
    return TRUE;
  /* What an altered source left there is of no use to anybody. */
  if (g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_SOURCE))
    remove_part (upload);
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* The answer of a server that has moved the part may get lost on a connection that was kept;
 * libcurl then asks again on a new one, and now the part is not there. */
static gboolean
was_placed (Upload *upload)
{
  g_auto (WbRemoteEntry) entry = { NULL };
  g_autoptr (GError) ignored = NULL;

  return wb_remote_stat (&upload->self->parent, upload->path, &entry, upload->cancellable,
                         &ignored) &&
         entry.size == upload->source->size;
}

/* RFC 4918, 9.9.4: with Overwrite: F, something that is there already stays and the answer is 412.
 * */
static gboolean
place_part (Upload  *upload,
            GError **error)
{
  g_autofree char *url = wb_webdav_url (upload->self, upload->part, FALSE);
  g_autofree char *target = wb_webdav_url (upload->self, upload->path, FALSE);
  g_autofree char *destination = g_strconcat ("Destination: ", target, NULL);
  const char *headers[] = { destination, "Overwrite: F", NULL };
  g_auto (WbAnswer) answer = { 0 };
  WbRequest request = { .method = "MOVE", .url = url, .what = upload->path, .headers = headers };
  g_autoptr (GError) reason = NULL;

  if (wb_transfer_run (upload->self->transfer, &request, &answer, upload->cancellable, &reason))
    return TRUE;
  if (answer.status == 404 && was_placed (upload))
    return TRUE;
  if (answer.status == 412)
    remove_part (upload);
  /* Folders that were known to be there may be gone. */
  if (answer.status == 404 || answer.status == 409)
    g_hash_table_remove_all (upload->self->folders);
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* --- the whole -------------------------------------------------------------------------------- */

/* Looks first: nothing is sent for nothing, and some servers do not know Overwrite: F. In a folder
 * that was made just now there is nothing to be looked for. */
static gboolean
nothing_is_there (WbWebdav      *self,
                  const char    *path,
                  GCancellable  *cancellable,
                  GError       **error)
{
  g_autoptr (GError) reason = NULL;
  gboolean fresh;
  gint64 size;

  if (!wb_webdav_make_parents (self, path, &fresh, cancellable, error))
    return FALSE;
  if (fresh)
    return TRUE;
  if (ask_for_size (self, path, &size, cancellable))
    return size < 0 || wb_transfer_fail (error, 412, path);
  if (wb_remote_stat (&self->parent, path, NULL, cancellable, &reason))
    return wb_transfer_fail (error, 412, path);
  return wb_share_is_absent (g_steal_pointer (&reason), error);
}

gboolean
wb_webdav_put (WbRemote              *remote,
               const char            *path,
               const WbRemoteSource  *source,
               WbRemoteProgressFunc   progress,
               gpointer               progress_data,
               GCancellable          *cancellable,
               GError               **error)
{
  WbWebdav *self = (WbWebdav *) remote;
  g_autoptr (WbRemoteReader) reader = wb_remote_reader_new (source, error);
  g_autofree char *part = wb_remote_part_path (source);
  Upload upload = { self, path, source, reader, part, progress, progress_data, cancellable };

  return reader != NULL && nothing_is_there (self, path, cancellable, error) &&
         wb_webdav_make_parents (self, part, NULL, cancellable, error) &&
         send_part (&upload, error) && place_part (&upload, error);
}
