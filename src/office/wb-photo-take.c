/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Takes one picture in. Its bytes are read once: on the way to the disk they go through the hash
 * and the decoder, which says whether the picture is whole and gives the thumbnail. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-photo-private.h"

#include "store/wb-exif.h"
#include "store/wb-photo-store.h"

#define CHUNK (256 * 1024)

/* --- reading ---------------------------------------------------------------------------------- */

static gboolean
refuse (const char      *name,
        WbPictureError   code,
        const char      *what,
        GError         **error)
{
  g_set_error (error, WB_PICTURE_ERROR, (int) code, "“%s”: %s", name, what);
  return FALSE;
}

static GInputStream *
open_source (WbPhotoSource  *source,
             GCancellable   *cancellable,
             GError        **error)
{
  if (source->size > WB_PHOTO_MAX_BYTES)
    {
      refuse (source->name, WB_PICTURE_ERROR_TOO_LARGE, "the file is too large", error);
      return NULL;
    }
  if (source->bytes != NULL)
    return g_memory_input_stream_new_from_bytes (source->bytes);
  return G_INPUT_STREAM (g_file_read (source->file, cancellable, error));
}

/* @reader: (nullable): where there is no decoder */
static gboolean
pass_on (const guint8     *bytes,
         gsize             length,
         WbPhotoIntake    *intake,
         WbPictureReader  *reader,
         WbProgress       *progress,
         GError          **error)
{
  wb_progress_add (progress, 0, (gint64) length);
  return wb_photo_intake_write (intake, bytes, length, error) &&
         (reader == NULL || wb_picture_reader_feed (reader, bytes, length, error));
}

typedef struct
{
  WbPhotoIntake    *intake;
  WbPictureReader  *reader;
  WbPictureFormat   format;
} Passage;

static void
passage_clear (Passage *passage)
{
  g_clear_pointer (&passage->intake, wb_photo_intake_free);
  g_clear_pointer (&passage->reader, wb_picture_reader_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Passage, passage_clear)

/* The first bytes say what comes; only then is something made on the disk. */
static gboolean
start_passage (Passage       *passage,
               const char    *folder,
               const guint8  *head,
               gsize          length,
               GError       **error)
{
  passage->format = wb_picture_format (head, length);
  if (passage->format == WB_PICTURE_UNKNOWN)
    {
      g_set_error_literal (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_UNKNOWN, "not a picture");
      return FALSE;
    }

  passage->intake = wb_photo_intake_begin (folder, error);
  if (passage->intake == NULL)
    return FALSE;
  if (wb_picture_can_decode (passage->format))
    passage->reader = wb_picture_reader_new (passage->format, WB_THUMBNAIL_SIDE);
  return TRUE;
}

static gboolean
read_source (Passage          *passage,
             const char       *folder,
             GInputStream     *stream,
             WbProgress       *progress,
             GCancellable     *cancellable,
             GError          **error)
{
  g_autofree guint8 *chunk = g_malloc (CHUNK);
  gsize length;

  do
    {
      if (!g_input_stream_read_all (stream, chunk, CHUNK, &length, cancellable, error))
        return FALSE;
      if (passage->intake == NULL && !start_passage (passage, folder, chunk, length, error))
        return FALSE;
      if (length > 0 &&
          !pass_on (chunk, length, passage->intake, passage->reader, progress, error))
        return FALSE;
    }
  while (length == CHUNK);
  return TRUE;
}

/* --- the record ------------------------------------------------------------------------------- */

static char *
now_utc (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  return g_date_time_format (now, "%Y-%m-%dT%H:%M:%SZ");
}

static WbPhoto *
make_record (const char      *name,
             const char      *hash,
             WbPictureFormat  format,
             gint64           size,
             const WbExif    *exif,
             int              width,
             int              height)
{
  g_autofree char *id = wb_office_new_id ();
  g_autofree char *now = now_utc ();
  WbPhoto *photo = wb_record_new (WB_KIND_PHOTO, id);

  wb_set_text (&photo->hash, hash);
  wb_set_text (&photo->name, name);
  wb_set_text (&photo->media_type, wb_picture_media_type (format));
  wb_set_text (&photo->taken_at, exif->taken_at);
  wb_set_text (&photo->taken_offset, exif->taken_offset);
  wb_set_text (&photo->camera, exif->camera);
  wb_set_text (&photo->imported_at, now);
  photo->size = size;
  photo->width = width > 0 ? width : exif->width;
  photo->height = height > 0 ? height : exif->height;
  photo->orientation = exif->orientation;
  return photo;
}

/* Decodes the rest and keeps the file, in this order: half a picture is not kept. */
static WbPhoto *
keep (Passage     *passage,
      const char  *name,
      GError     **error)
{
  g_auto (WbExif) exif = { 0 };
  g_autoptr (GdkPixbuf) thumbnail = NULL;
  g_autofree char *hash = NULL;
  gint64 size = wb_photo_intake_get_size (passage->intake);
  int width = 0, height = 0;

  wb_exif_read (wb_photo_intake_get_path (passage->intake), &exif);
  if (passage->reader != NULL)
    {
      thumbnail = wb_picture_reader_finish (passage->reader, exif.orientation, &width, &height,
                                            error);
      if (thumbnail == NULL)
        return NULL;
    }

  hash = wb_photo_intake_keep (passage->intake, error);
  if (hash == NULL)
    return NULL;
  if (thumbnail != NULL)
    wb_thumbnail_keep (hash, thumbnail);
  return make_record (name, hash, passage->format, size, &exif, width, height);
}

static WbPhoto *
take (const char       *folder,
      WbPhotoSource    *source,
      WbProgress       *progress,
      GCancellable     *cancellable,
      gboolean         *shown,
      GError          **error)
{
  g_auto (Passage) passage = { 0 };
  g_autoptr (GInputStream) stream = open_source (source, cancellable, error);
  WbPhoto *photo;

  if (stream == NULL)
    return NULL;
  if (!read_source (&passage, folder, stream, progress, cancellable, error))
    return NULL;
  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return NULL;

  photo = keep (&passage, source->name, error);
  *shown = passage.reader != NULL;
  return photo;
}

WbPhotoResult *
wb_photo_take_one (const char       *folder,
                   WbPhotoSource    *source,
                   WbProgress       *progress,
                   GCancellable     *cancellable)
{
  WbPhotoResult *result = wb_photo_result_new (source->name, WB_PHOTO_TAKEN);
  gboolean shown = FALSE;

  result->photo = take (folder, source, progress, cancellable, &shown, &result->error);
  if (result->photo != NULL && !shown)
    {
      refuse (source->name, WB_PICTURE_ERROR_NO_DECODER, "cannot be shown here", &result->error);
    }
  else if (g_error_matches (result->error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      result->outcome = WB_PHOTO_NOT_REACHED;
      g_clear_error (&result->error);
    }
  else if (source->in_folder &&
           g_error_matches (result->error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_UNKNOWN))
    {
      result->outcome = WB_PHOTO_PASSED_OVER;
      g_clear_error (&result->error);
    }
  else if (result->error != NULL)
    {
      result->outcome = WB_PHOTO_REFUSED;
    }
  return result;
}
