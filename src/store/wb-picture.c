/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decoding through gdk-pixbuf, with the loader that the first bytes call for and no other: a file
 * cannot choose one by its name. JPEG is scaled down by its decoder, which is where the time
 * goes. */
#include "config.h"

#define G_LOG_DOMAIN "wb-store"

#include "store/wb-picture.h"

#include <string.h>

G_DEFINE_QUARK (wb-picture-error-quark, wb_picture_error)

/* --- formats ---------------------------------------------------------------------------------- */

static const struct
{
  WbPictureFormat  format;
  const char      *media_type;
} formats[] = {
  { WB_PICTURE_JPEG, "image/jpeg" },
  { WB_PICTURE_PNG,  "image/png" },
  { WB_PICTURE_TIFF, "image/tiff" },
  { WB_PICTURE_WEBP, "image/webp" },
  { WB_PICTURE_HEIC, "image/heic" },
};

/* ISO/IEC 14496-12: the brand of the file, behind "ftyp". */
static gboolean
is_heic (const guint8 *head)
{
  static const char *const brands[] = { "heic", "heix", "heim", "heis", "mif1", "msf1" };

  if (memcmp (head + 4, "ftyp", 4) != 0)
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (brands); i++)
    if (memcmp (head + 8, brands[i], 4) == 0)
      return TRUE;
  return FALSE;
}

WbPictureFormat
wb_picture_format (const guint8 *head,
                   gsize         length)
{
  if (length >= 3 && memcmp (head, "\xff\xd8\xff", 3) == 0)
    return WB_PICTURE_JPEG;
  if (length >= 8 && memcmp (head, "\x89PNG\r\n\x1a\n", 8) == 0)
    return WB_PICTURE_PNG;
  if (length >= 4 && (memcmp (head, "II*\0", 4) == 0 || memcmp (head, "MM\0*", 4) == 0))
    return WB_PICTURE_TIFF;
  if (length >= 12 && memcmp (head, "RIFF", 4) == 0 && memcmp (head + 8, "WEBP", 4) == 0)
    return WB_PICTURE_WEBP;
  if (length >= 12 && is_heic (head))
    return WB_PICTURE_HEIC;
  return WB_PICTURE_UNKNOWN;
}

const char *
wb_picture_media_type (WbPictureFormat format)
{
  for (gsize i = 0; i < G_N_ELEMENTS (formats); i++)
    if (formats[i].format == format)
      return formats[i].media_type;
  return NULL;
}

WbPictureFormat
wb_picture_from_media_type (const char *media_type)
{
  for (gsize i = 0; media_type != NULL && i < G_N_ELEMENTS (formats); i++)
    if (strcmp (formats[i].media_type, media_type) == 0)
      return formats[i].format;
  return WB_PICTURE_UNKNOWN;
}

/* Asked once: the list of loaders is read from disk. */
static guint
find_loaders (void)
{
  GSList *list = gdk_pixbuf_get_formats ();
  guint found = 0;

  for (GSList *at = list; at != NULL; at = at->next)
    {
      g_auto (GStrv) types = gdk_pixbuf_format_get_mime_types (at->data);

      for (guint i = 0; types[i] != NULL; i++)
        found |= 1u << wb_picture_from_media_type (types[i]);
    }
  g_slist_free (list);
  return found | 1u << WB_PICTURE_UNKNOWN;
}

gboolean
wb_picture_can_decode (WbPictureFormat format)
{
  static gsize loaders = 0;

  if (g_once_init_enter (&loaders))
    g_once_init_leave (&loaders, find_loaders ());
  return format != WB_PICTURE_UNKNOWN && (loaders & 1u << format) != 0;
}

/* --- is it whole? ----------------------------------------------------------------------------- */

/* The PNG loader is content with a file that stops anywhere, so the chunks are walked here: each is
 * a length, a name, its data and a checksum, and the last is IEND (ISO/IEC 15948, 5.3). */
typedef struct
{
  guint64  next;        /* where the next chunk starts */
  guint64  at;          /* bytes seen */
  guint8   head[8];     /* of the next chunk, as far as it was seen */
  gboolean ended;
} PngWalk;

static void
png_walk_feed (PngWalk      *walk,
               const guint8 *bytes,
               gsize         length)
{
  for (gsize i = 0; i < length && !walk->ended; )
    {
      guint64 at = walk->at + i;

      if (at < walk->next)
        {
          i += MIN (length - i, walk->next - at);
          continue;
        }
      walk->head[at - walk->next] = bytes[i++];
      if (at - walk->next == 7)
        {
          guint32 size;

          memcpy (&size, walk->head, 4);
          walk->ended = memcmp (walk->head + 4, "IEND", 4) == 0;
          walk->next += 12 + (guint64) GUINT32_FROM_BE (size);
        }
    }
  walk->at += length;
}

/* The JPEG loader fills up what is missing, so the marker of the end has to be found here: segments
 * are stepped over, and in a scan a marker is what is neither a stuffed byte nor a restart (ITU-T
 * T.81, B.1.1). */
typedef enum { JPEG_MARKER, JPEG_CODE, JPEG_HIGH, JPEG_LOW, JPEG_SEGMENT, JPEG_SCAN,
               JPEG_SCAN_CODE, JPEG_END } JpegPlace;

typedef struct
{
  JpegPlace place;
  guint8    code;
  guint     left;    /* bytes of the segment */
} JpegWalk;

static JpegPlace
place_after_code (JpegWalk *walk,
                  guint8    code)
{
  walk->code = code;
  if (code == 0xd9)
    return JPEG_END;
  if (code == 0xff)
    return JPEG_CODE;
  return code == 0x01 || (code >= 0xd0 && code <= 0xd8) ? JPEG_MARKER : JPEG_HIGH;
}

static JpegPlace
place_after (JpegWalk *walk,
             guint8    byte)
{
  switch (walk->place)
    {
    case JPEG_MARKER:
      return byte == 0xff ? JPEG_CODE : JPEG_MARKER;
    case JPEG_CODE:
      return place_after_code (walk, byte);
    case JPEG_HIGH:
      walk->left = (guint) byte << 8;
      return JPEG_LOW;
    case JPEG_LOW:
      walk->left |= byte;
      walk->left = MAX (walk->left, 2) - 2;
      return walk->left > 0 ? JPEG_SEGMENT : walk->code == 0xda ? JPEG_SCAN : JPEG_MARKER;
    case JPEG_SEGMENT:
      walk->left--;
      return walk->left > 0 ? JPEG_SEGMENT : walk->code == 0xda ? JPEG_SCAN : JPEG_MARKER;
    case JPEG_SCAN:
      return byte == 0xff ? JPEG_SCAN_CODE : JPEG_SCAN;
    case JPEG_SCAN_CODE:
      if (byte == 0xff)
        return JPEG_SCAN_CODE;
      return byte == 0 || (byte >= 0xd0 && byte <= 0xd7) ? JPEG_SCAN
                                                          : place_after_code (walk, byte);
    case JPEG_END:
      return JPEG_END;
    }
  g_assert_not_reached ();
}

static void
jpeg_walk_feed (JpegWalk     *walk,
                const guint8 *bytes,
                gsize         length)
{
  for (gsize i = 0; i < length && walk->place != JPEG_END; i++)
    {
      if (walk->place == JPEG_SCAN)
        {
          const guint8 *marker = memchr (bytes + i, 0xff, length - i);

          if (marker == NULL)
            return;
          i = (gsize) (marker - bytes);
        }
      else if (walk->place == JPEG_SEGMENT && walk->left > 1)
        {
          gsize step = MIN (walk->left - 1, length - i);

          walk->left -= (guint) step;
          i += step;
          if (i == length)
            return;
        }
      walk->place = place_after (walk, bytes[i]);
    }
}

/* --- the reader ------------------------------------------------------------------------------- */

struct _WbPictureReader
{
  GdkPixbufLoader *loader;     /* NULL after a failure */
  WbPictureFormat  format;
  int              max_side;
  int              width;
  int              height;
  gboolean         too_wide;
  PngWalk          png;
  JpegWalk         jpeg;
};

static gboolean
is_whole (WbPictureReader *self)
{
  if (self->format == WB_PICTURE_PNG)
    return self->png.ended && self->png.at >= self->png.next;
  if (self->format == WB_PICTURE_JPEG)
    return self->jpeg.place == JPEG_END;
  return TRUE;
}

static void
size_prepared_cb (GdkPixbufLoader *loader,
                  int              width,
                  int              height,
                  WbPictureReader *self)
{
  int longest = MAX (width, height);

  self->width = width;
  self->height = height;
  if ((gint64) width * height > WB_PICTURE_MAX_PIXELS)
    {
      /* A picture of no size is how a loader is told to stop. */
      self->too_wide = TRUE;
      gdk_pixbuf_loader_set_size (loader, 0, 0);
    }
  else if (self->max_side > 0 && longest > self->max_side)
    {
      gdk_pixbuf_loader_set_size (loader,
                                  MAX (1, (int) ((gint64) width * self->max_side / longest)),
                                  MAX (1, (int) ((gint64) height * self->max_side / longest)));
    }
}

WbPictureReader *
wb_picture_reader_new (WbPictureFormat format,
                       int             max_side)
{
  WbPictureReader *self;
  const char *media_type = wb_picture_media_type (format);

  g_return_val_if_fail (media_type != NULL, NULL);
  g_return_val_if_fail (max_side >= 0, NULL);

  self = g_new0 (WbPictureReader, 1);
  self->format = format;
  self->max_side = max_side;
  self->png.next = 8;
  self->loader = gdk_pixbuf_loader_new_with_mime_type (media_type, NULL);
  if (self->loader != NULL)
    g_signal_connect (self->loader, "size-prepared", G_CALLBACK (size_prepared_cb), self);
  return self;
}

static void
close_loader (WbPictureReader *self)
{
  if (self->loader == NULL)
    return;

  gdk_pixbuf_loader_close (self->loader, NULL);
  g_clear_object (&self->loader);
}

void
wb_picture_reader_free (WbPictureReader *self)
{
  close_loader (self);
  g_free (self);
}

static gboolean
fail (WbPictureReader *self,
      GError         **error)
{
  close_loader (self);
  if (self->too_wide)
    g_set_error (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_TOO_WIDE, "%d × %d pixels", self->width,
                 self->height);
  else
    g_set_error_literal (error, WB_PICTURE_ERROR, WB_PICTURE_ERROR_CUT_OFF,
                         "the picture is cut off or damaged");
  return FALSE;
}

gboolean
wb_picture_reader_feed (WbPictureReader *self,
                        const guint8    *bytes,
                        gsize            length,
                        GError         **error)
{
  if (self->loader == NULL)
    return fail (self, error);

  if (self->format == WB_PICTURE_PNG)
    png_walk_feed (&self->png, bytes, length);
  if (self->format == WB_PICTURE_JPEG)
    jpeg_walk_feed (&self->jpeg, bytes, length);
  return gdk_pixbuf_loader_write (self->loader, bytes, length, NULL) || fail (self, error);
}

/* libtiff mirrors what the orientation asks for itself but does not turn; the loader notes what is
 * left to be done. */
static GdkPixbuf *
make_upright (WbPictureReader *self,
              GdkPixbuf       *pixbuf,
              gint64           orientation)
{
  if (self->format == WB_PICTURE_TIFF)
    return gdk_pixbuf_apply_embedded_orientation (pixbuf);
  return wb_picture_upright (pixbuf, orientation);
}

GdkPixbuf *
wb_picture_reader_finish (WbPictureReader  *self,
                          gint64            orientation,
                          int              *width,
                          int              *height,
                          GError          **error)
{
  GdkPixbuf *pixbuf, *upright;
  gboolean closed;

  if (self->loader == NULL)
    {
      fail (self, error);
      return NULL;
    }

  closed = gdk_pixbuf_loader_close (self->loader, NULL);
  pixbuf = gdk_pixbuf_loader_get_pixbuf (self->loader);
  if (!closed || pixbuf == NULL || self->too_wide || !is_whole (self))
    {
      g_clear_object (&self->loader);
      fail (self, error);
      return NULL;
    }

  if (width != NULL)
    *width = self->width;
  if (height != NULL)
    *height = self->height;
  upright = make_upright (self, pixbuf, orientation);
  g_clear_object (&self->loader);
  return upright;
}

GdkPixbuf *
wb_picture_decode (GBytes  *bytes,
                   int      max_side,
                   gint64   orientation,
                   GError **error)
{
  g_autoptr (WbPictureReader) reader = NULL;
  gsize length;
  const guint8 *data = g_bytes_get_data (bytes, &length);
  WbPictureFormat format = wb_picture_format (data, length);

  if (!wb_picture_can_decode (format))
    {
      g_set_error_literal (error, WB_PICTURE_ERROR,
                           format == WB_PICTURE_UNKNOWN ? WB_PICTURE_ERROR_UNKNOWN
                                                        : WB_PICTURE_ERROR_NO_DECODER,
                           "there is no decoder for it");
      return NULL;
    }

  reader = wb_picture_reader_new (format, max_side);
  if (!wb_picture_reader_feed (reader, data, length, error))
    return NULL;
  return wb_picture_reader_finish (reader, orientation, NULL, NULL, error);
}

/* --- upright ---------------------------------------------------------------------------------- */

/* CIPA DC-008, tag 0x0112: first mirrored, then turned. */
static const struct
{
  gboolean           mirror;
  GdkPixbufRotation  turn;
} orientations[] = {
  [1] = { FALSE, GDK_PIXBUF_ROTATE_NONE },
  [2] = { TRUE,  GDK_PIXBUF_ROTATE_NONE },
  [3] = { FALSE, GDK_PIXBUF_ROTATE_UPSIDEDOWN },
  [4] = { TRUE,  GDK_PIXBUF_ROTATE_UPSIDEDOWN },
  [5] = { TRUE,  GDK_PIXBUF_ROTATE_COUNTERCLOCKWISE },
  [6] = { FALSE, GDK_PIXBUF_ROTATE_CLOCKWISE },
  [7] = { TRUE,  GDK_PIXBUF_ROTATE_CLOCKWISE },
  [8] = { FALSE, GDK_PIXBUF_ROTATE_COUNTERCLOCKWISE },
};

GdkPixbuf *
wb_picture_upright (GdkPixbuf *pixbuf,
                    gint64     orientation)
{
  g_autoptr (GdkPixbuf) mirrored = NULL;

  if (orientation < 2 || orientation > 8)
    return g_object_ref (pixbuf);

  mirrored = orientations[orientation].mirror ? gdk_pixbuf_flip (pixbuf, TRUE)
                                              : g_object_ref (pixbuf);
  if (mirrored == NULL || orientations[orientation].turn == GDK_PIXBUF_ROTATE_NONE)
    return g_steal_pointer (&mirrored);
  return gdk_pixbuf_rotate_simple (mirrored, orientations[orientation].turn);
}
