/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts a file into a bucket: a small one at once, a large one in parts, which the store keeps
 * until the file is whole. An upload that was cut is found again by asking the store, and a
 * part is not sent again when the store's tag of it is the MD5 of what would be sent. */
#include "config.h"

#include "share/wb-s3-private.h"

#include "share/wb-share.h"

#include <string.h>

#define MIB (1024 * 1024)
/* Larger files go in parts. */
#define MAX_AT_ONCE (16 * (gint64) MIB)
/* A part has at least 5 MiB, but for the last one (Amazon S3 User Guide, "multipart upload
 * limits"). It is held in memory. */
#define PART_SIZE (8 * (gint64) MIB)

typedef struct
{
  WbS3                  *s3;
  const char            *path;
  const WbRemoteSource  *source;
  WbRemoteProgressFunc   progress;
  gpointer               progress_data;
  GCancellable          *cancellable;

  /* in parts */
  gint64                 part_size;
  char                  *upload;     /* (nullable): its id */
  GArray                *there;      /* WbS3Part that the store has already */
  GArray                *sent;       /* WbS3Part that the file is made of */
} Putting;

/* --- what all have in common ------------------------------------------------------------------ */

/* There may be no file yet. */
static gboolean
check_free (const Putting  *putting,
            GError        **error)
{
  g_auto (WbRemoteEntry) found = { NULL };
  g_autoptr (GError) reason = NULL;

  if (wb_s3_head (putting->s3, putting->path, &found, putting->cancellable, &reason))
    return wb_transfer_fail (error, 412, putting->path);
  return wb_share_is_absent (g_steal_pointer (&reason), error);
}

static gboolean
check_size (const Putting  *putting,
            GError        **error)
{
  g_auto (WbRemoteEntry) found = { NULL };

  if (!wb_s3_head (putting->s3, putting->path, &found, putting->cancellable, error))
    return FALSE;
  return found.size == putting->source->size ||
         wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, putting->path,
                          "it has another size there than was sent");
}

/* Sends @ask on the condition that there is no file of its name. A store that does not know such a
 * condition says so, and is asked without it from then on: what check_free() has seen has to do. */
static gboolean
run_on_condition (const Putting  *putting,
                  WbS3Ask        *ask,
                  WbAnswer       *answer,
                  GError        **error)
{
  WbS3 *self = putting->s3;
  g_autoptr (GError) reason = NULL;
  g_autofree char *fault = NULL;

  ask->header = self->unconditional ? NULL : "if-none-match: *";
  if (wb_s3_run (self, ask, answer, putting->cancellable, &reason))
    return TRUE;
  fault = wb_s3_fault (answer);
  if (!self->unconditional &&
      (answer->status == 501 || strcmp (fault, "NotImplemented") == 0 ||
       strcmp (fault, "InvalidArgument") == 0))
    {
      self->unconditional = TRUE;
      ask->header = NULL;
      return wb_s3_run (self, ask, answer, putting->cancellable, error);
    }
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* --- at once ---------------------------------------------------------------------------------- */

/* The store holds what came against the hash, so that a file which was changed meanwhile is refused
 * there. */
static gboolean
put_at_once (const Putting  *putting,
             GError        **error)
{
  const WbRemoteSource *source = putting->source;
  g_autoptr (WbRemoteReader) reader = wb_remote_reader_new (source, error);
  WbRequest request = { .reader = reader, .length = source->size, .total = source->size,
                        .progress = putting->progress, .progress_data = putting->progress_data };
  WbS3Ask ask = { .method = "PUT", .key = putting->path, .sha256 = source->sha256,
                  .request = &request };
  g_auto (WbAnswer) answer = { 0 };
  g_autoptr (GError) reason = NULL;

  if (reader == NULL)
    return FALSE;
  if (!run_on_condition (putting, &ask, &answer, &reason))
    {
      /* What was read to its end and is not what it was is the reason for a refusal. */
      if (reason->domain == WB_SHARE_ERROR && reason->code == WB_SHARE_ERROR_PROTOCOL &&
          wb_remote_reader_tell (reader) == source->size &&
          !wb_remote_reader_finish (reader, error))
        return FALSE;
      g_propagate_error (error, g_steal_pointer (&reason));
      return FALSE;
    }
  return wb_remote_reader_finish (reader, error) && check_size (putting, error);
}

/* --- parts that are there --------------------------------------------------------------------- */

static const WbS3Part *
find_part (const GArray *parts,
           guint         number)
{
  for (guint i = 0; i < parts->len; i++)
    if (g_array_index (parts, WbS3Part, i).number == number)
      return &g_array_index (parts, WbS3Part, i);
  return NULL;
}

static gboolean
list_parts (Putting     *putting,
            const char  *upload,
            GArray      *parts,
            GError     **error)
{
  guint from = 0;

  do
    {
      g_autofree char *marker = g_strdup_printf ("%u", from);
      WbS3Pair query[] = { { "uploadId", upload }, { "part-number-marker", marker } };
      WbS3Ask ask = { .method = "GET", .key = putting->path, .query = query,
                      .n_query = from > 0 ? 2 : 1 };
      g_auto (WbAnswer) answer = { 0 };
      guint next;

      if (!wb_s3_run (putting->s3, &ask, &answer, putting->cancellable, error))
        return FALSE;
      next = wb_s3_read_parts (&answer, parts);
      from = next > from ? next : 0;
    }
  while (from > 0);
  return TRUE;
}

/* Looks for an upload of this file that was cut, the one with the most parts. A store that cannot
 * tell has none; only what would stop the rest too is an error. */
static gboolean
find_upload (Putting  *putting,
             GError  **error)
{
  WbS3Pair query[] = { { "uploads", "" }, { "prefix", putting->path } };
  WbS3Ask ask = { .method = "GET", .query = query, .n_query = G_N_ELEMENTS (query) };
  g_auto (WbAnswer) answer = { 0 };
  g_autoptr (GPtrArray) ids = NULL;
  g_autoptr (GError) reason = NULL;

  if (!wb_s3_run (putting->s3, &ask, &answer, putting->cancellable, &reason))
    {
      if (answer.status >= 400)
        return TRUE;
      g_propagate_error (error, g_steal_pointer (&reason));
      return FALSE;
    }
  ids = wb_s3_read_uploads (&answer, putting->path);
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (GArray) parts = wb_s3_parts_new ();

      if (!list_parts (putting, ids->pdata[i], parts, NULL) ||
          (putting->upload != NULL && parts->len <= putting->there->len))
        continue;
      g_free (putting->upload);
      putting->upload = g_strdup (ids->pdata[i]);
      g_clear_pointer (&putting->there, g_array_unref);
      putting->there = g_steal_pointer (&parts);
    }
  return !g_cancellable_set_error_if_cancelled (putting->cancellable, error);
}

static gboolean
begin_upload (Putting  *putting,
              GError  **error)
{
  static const WbS3Pair query[] = { { "uploads", "" } };
  WbS3Ask ask = { .method = "POST", .key = putting->path, .query = query, .n_query = 1,
                  .type = "application/octet-stream" };
  g_auto (WbAnswer) answer = { 0 };

  if (!wb_s3_run (putting->s3, &ask, &answer, putting->cancellable, error))
    return FALSE;
  putting->upload = wb_s3_read_upload (&answer, putting->path, error);
  return putting->upload != NULL;
}

/* Has the store throw away what was sent. Nothing that goes wrong here is told: it comes after
 * something that is. */
static void
give_up (const Putting *putting)
{
  WbS3Pair query[] = { { "uploadId", putting->upload } };
  WbS3Ask ask = { .method = "DELETE", .key = putting->path, .query = query, .n_query = 1 };
  g_auto (WbAnswer) answer = { 0 };

  (void) !wb_s3_run (putting->s3, &ask, &answer, NULL, NULL);
}

/* --- one part --------------------------------------------------------------------------------- */

static GBytes *
read_part (const Putting   *putting,
           WbRemoteReader  *reader,
           GError         **error)
{
  gint64 left = putting->source->size - wb_remote_reader_tell (reader);
  gsize length = (gsize) MIN (putting->part_size, left), done = 0;
  g_autofree guint8 *bytes = g_malloc (length);

  while (done < length)
    {
      gssize got = wb_remote_reader_read (reader, bytes + done, length - done, error);

      if (got < 0 || g_cancellable_set_error_if_cancelled (putting->cancellable, error))
        return NULL;
      g_assert (got > 0);
      done += (gsize) got;
    }
  return g_bytes_new_take (g_steal_pointer (&bytes), length);
}

/* Progress of one part, as that of the file. */
typedef struct
{
  const Putting *putting;
  gint64         before;
} PartProgress;

static void
tell_progress (gint64   done,
               gint64   total,
               gpointer data)
{
  const PartProgress *part = data;
  const Putting *putting = part->putting;

  if (putting->progress != NULL)
    putting->progress (part->before + done, putting->source->size, putting->progress_data);
}

/* Sends @bytes as part @number. Returns: (transfer full) (nullable): the store's tag of it */
static char *
send_part (const Putting  *putting,
           guint           number,
           GBytes         *bytes,
           GError        **error)
{
  g_autofree char *sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes);
  g_autofree char *digits = g_strdup_printf ("%u", number);
  gint64 length = (gint64) g_bytes_get_size (bytes);
  WbRemoteSource source = { bytes, NULL, length, sha256 };
  g_autoptr (WbRemoteReader) reader = wb_remote_reader_new (&source, error);
  PartProgress progress = { putting, (gint64) (number - 1) * putting->part_size };
  WbRequest request = { .reader = reader, .length = length, .total = length,
                        .progress = tell_progress, .progress_data = &progress };
  WbS3Pair query[] = { { "partNumber", digits }, { "uploadId", putting->upload } };
  WbS3Ask ask = { .method = "PUT", .key = putting->path, .query = query,
                  .n_query = G_N_ELEMENTS (query), .sha256 = sha256, .request = &request };
  g_auto (WbAnswer) answer = { 0 };
  const char *tag;

  if (reader == NULL || !wb_s3_run (putting->s3, &ask, &answer, putting->cancellable, error))
    return NULL;
  tag = wb_answer_get_header (&answer, "etag");
  if (tag != NULL && *tag != '\0' && strlen (tag) <= WB_S3_MAX_TOKEN)
    return g_strdup (tag);
  wb_share_refuse (error, WB_SHARE_ERROR_PROTOCOL, putting->path,
                   "this is no answer of an object store");
  return NULL;
}

/* Returns: whether the store has @bytes as part @number. A tag that is no MD5 never matches. */
static gboolean
has_part (const Putting *putting,
          guint          number,
          GBytes        *bytes)
{
  const WbS3Part *part = find_part (putting->there, number);
  g_autofree char *md5 = NULL;

  if (part == NULL || part->size != (gint64) g_bytes_get_size (bytes))
    return FALSE;
  md5 = g_compute_checksum_for_bytes (G_CHECKSUM_MD5, bytes);
  return strlen (part->tag) == strlen (md5) + 2 && memcmp (part->tag + 1, md5, strlen (md5)) == 0;
}

static gboolean
put_part (Putting         *putting,
          WbRemoteReader  *reader,
          guint            number,
          GError         **error)
{
  g_autoptr (GBytes) bytes = read_part (putting, reader, error);
  WbS3Part part = { number, 0, NULL };

  if (bytes == NULL)
    return FALSE;
  part.size = (gint64) g_bytes_get_size (bytes);
  if (has_part (putting, number, bytes))
    part.tag = g_strdup (find_part (putting->there, number)->tag);
  else
    part.tag = send_part (putting, number, bytes, error);
  if (part.tag == NULL)
    return FALSE;
  g_array_append_val (putting->sent, part);
  if (putting->progress != NULL)
    putting->progress (wb_remote_reader_tell (reader), putting->source->size,
                       putting->progress_data);
  return TRUE;
}

/* --- in parts --------------------------------------------------------------------------------- */

/* Returns: (transfer full): the list of parts, as CompleteMultipartUpload has it. */
static GBytes *
list_of_parts (const Putting *putting)
{
  GString *xml = g_string_new ("<CompleteMultipartUpload "
                               "xmlns=\"http://s3.amazonaws.com/doc/2006-03-01/\">");

  for (guint i = 0; i < putting->sent->len; i++)
    {
      const WbS3Part *part = &g_array_index (putting->sent, WbS3Part, i);
      g_autofree char *tag = g_markup_escape_text (part->tag, -1);

      g_string_append_printf (xml, "<Part><PartNumber>%u</PartNumber><ETag>%s</ETag></Part>",
                              part->number, tag);
    }
  g_string_append (xml, "</CompleteMultipartUpload>");
  return g_string_free_to_bytes (xml);
}

static gboolean
complete (const Putting  *putting,
          GError        **error)
{
  g_autoptr (GBytes) body = list_of_parts (putting);
  g_autofree char *sha256 = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, body);
  WbS3Pair query[] = { { "uploadId", putting->upload } };
  WbRequest request = { .text = body };
  WbS3Ask ask = { .method = "POST", .key = putting->path, .query = query, .n_query = 1,
                  .sha256 = sha256, .type = "application/xml", .request = &request };
  g_auto (WbAnswer) answer = { 0 };

  return run_on_condition (putting, &ask, &answer, error) &&
         wb_s3_read_completed (&answer, putting->path, error);
}

static gboolean
send_parts (Putting  *putting,
            GError  **error)
{
  g_autoptr (WbRemoteReader) reader = wb_remote_reader_new (putting->source, error);

  if (reader == NULL)
    return FALSE;
  for (guint number = 1; wb_remote_reader_tell (reader) < putting->source->size; number++)
    if (!put_part (putting, reader, number, error))
      return FALSE;
  return wb_remote_reader_finish (reader, error) && check_free (putting, error) &&
         complete (putting, error);
}

/* Parts of an upload that cannot become this file are not left there: they take room. */
static gboolean
is_lost (const GError *reason)
{
  return g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_SOURCE) ||
         g_error_matches (reason, WB_SHARE_ERROR, WB_SHARE_ERROR_EXISTS);
}

static gboolean
put_in_parts (Putting  *putting,
              GError  **error)
{
  g_autoptr (GError) reason = NULL;

  if (!find_upload (putting, error) || (putting->upload == NULL && !begin_upload (putting, error)))
    return FALSE;
  if (send_parts (putting, &reason))
    return check_size (putting, error);
  if (is_lost (reason))
    give_up (putting);
  g_propagate_error (error, g_steal_pointer (&reason));
  return FALSE;
}

/* Parts of whole MiB, few enough for the largest file. */
static gint64
part_size_for (gint64 size)
{
  gint64 least = size / WB_S3_MAX_PARTS + 1;

  return MAX (PART_SIZE, (least + MIB - 1) / MIB * MIB);
}

gboolean
wb_s3_put (WbRemote              *remote,
           const char            *path,
           const WbRemoteSource  *source,
           WbRemoteProgressFunc   progress,
           gpointer               progress_data,
           GCancellable          *cancellable,
           GError               **error)
{
  Putting putting = {
    (WbS3 *) remote, path, source, progress, progress_data, cancellable,
    part_size_for (source->size), NULL, wb_s3_parts_new (), wb_s3_parts_new (),
  };
  gboolean good = check_free (&putting, error) &&
                  (source->size <= MAX_AT_ONCE ? put_at_once (&putting, error)
                                               : put_in_parts (&putting, error));

  g_free (putting.upload);
  g_array_unref (putting.there);
  g_array_unref (putting.sent);
  return good;
}
