/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads tags through gexiv2 and makes of them what a record takes. Tags are those of CIPA DC-008
 * (Exif 2.31 and later for offsets). */
#include "config.h"

#define G_LOG_DOMAIN "wb-store"

#include "store/wb-exif.h"

#include "core/wb-photo.h"

#include <gexiv2/gexiv2.h>
#include <string.h>

#define CAMERA_MAX 200

/* The parser of the library is not made for several threads; it reads only the head of a file. */
static GMutex mutex;

static gboolean
start_library (void)
{
  static gsize started = 0;

  if (g_once_init_enter (&started))
    {
      gboolean done = gexiv2_initialize ();

      /* It would warn about every odd tag of every camera. */
      gexiv2_log_set_level (GEXIV2_LOG_LEVEL_MUTE);
      g_once_init_leave (&started, done ? 1 : 2);
    }
  return started == 1;
}

/* Returns: (transfer full) (nullable): a text without the fillers that cameras put around it. */
static char *
read_text (GExiv2Metadata *metadata,
           const char     *tag)
{
  g_autofree char *raw = gexiv2_metadata_try_get_tag_string (metadata, tag, NULL);
  g_autofree char *text = raw != NULL ? g_utf8_make_valid (raw, -1) : NULL;

  if (text == NULL)
    return NULL;

  for (char *at = text; *at != '\0'; at++)
    if (g_ascii_iscntrl (*at))
      *at = ' ';
  g_strstrip (text);
  return *text != '\0' ? g_steal_pointer (&text) : NULL;
}

/* "2026:03:04 09:30:00" becomes ISO 8601. */
static char *
read_time (GExiv2Metadata *metadata)
{
  g_autofree char *text = read_text (metadata, "Exif.Photo.DateTimeOriginal");

  if (text == NULL || strlen (text) != 19 || text[4] != ':' || text[7] != ':' || text[10] != ' ')
    return NULL;

  text[4] = text[7] = '-';
  text[10] = 'T';
  return wb_photo_time_is_valid (text, FALSE) ? g_steal_pointer (&text) : NULL;
}

static char *
read_offset (GExiv2Metadata *metadata)
{
  g_autofree char *text = read_text (metadata, "Exif.Photo.OffsetTimeOriginal");

  return wb_photo_offset_is_valid (text) ? g_steal_pointer (&text) : NULL;
}

/* Most models begin with the name of their maker; it is not said twice. */
static char *
read_camera (GExiv2Metadata *metadata)
{
  g_autofree char *make = read_text (metadata, "Exif.Image.Make");
  g_autofree char *model = read_text (metadata, "Exif.Image.Model");
  g_autofree char *camera = NULL;

  if (make == NULL || model == NULL)
    camera = g_strdup (make != NULL ? make : model);
  else if (g_ascii_strncasecmp (make, model, strlen (make)) == 0)
    camera = g_strdup (model);
  else
    camera = g_strjoin (" ", make, model, NULL);

  if (camera != NULL && strlen (camera) > CAMERA_MAX)
    *g_utf8_find_prev_char (camera, camera + CAMERA_MAX) = '\0';
  return g_steal_pointer (&camera);
}

static gint64
read_orientation (GExiv2Metadata *metadata)
{
  g_autofree char *text = read_text (metadata, "Exif.Image.Orientation");

  return text != NULL && strlen (text) == 1 && *text >= '1' && *text <= '8' ? *text - '0'
                                                                            : WB_INTEGER_UNSET;
}

static gint64
or_unset (gint size)
{
  return size > 0 ? size : WB_INTEGER_UNSET;
}

void
wb_exif_read (const char *path,
              WbExif     *out)
{
  g_autoptr (GExiv2Metadata) metadata = NULL;
  g_autoptr (GMutexLocker) locker = g_mutex_locker_new (&mutex);

  memset (out, 0, sizeof *out);
  out->orientation = out->width = out->height = WB_INTEGER_UNSET;
  if (!start_library ())
    return;

  metadata = gexiv2_metadata_new ();
  if (!gexiv2_metadata_open_path (metadata, path, NULL))
    return;

  out->taken_at = read_time (metadata);
  out->taken_offset = out->taken_at != NULL ? read_offset (metadata) : NULL;
  out->camera = read_camera (metadata);
  out->orientation = read_orientation (metadata);
  out->width = or_unset (gexiv2_metadata_get_pixel_width (metadata));
  out->height = or_unset (gexiv2_metadata_get_pixel_height (metadata));
}

void
wb_exif_clear (WbExif *self)
{
  g_clear_pointer (&self->taken_at, g_free);
  g_clear_pointer (&self->taken_offset, g_free);
  g_clear_pointer (&self->camera, g_free);
}
