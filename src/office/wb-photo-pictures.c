/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Thumbnails and their cache. The cache belongs to the user, not to the book: it may be thrown
 * away at any time, and what is in it is believed only if it could be the thumbnail that is
 * asked for. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-photo-pictures.h"

#include "core/wb-photo.h"
#include "office/wb-photo-private.h"
#include "office/wb-words.h"
#include "store/wb-photo-store.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* --- the cache -------------------------------------------------------------------------------- */

static char *
cache_path (const char *hash)
{
  const char drawer[] = { hash[0], hash[1], '\0' };
  g_autofree char *name = g_strconcat (hash, ".jpg", NULL);

  return g_build_filename (g_get_user_cache_dir (), "wainbook", "thumbnails", drawer, name, NULL);
}

/* JPEG has no transparency: what shows through is white. */
static GdkPixbuf *
on_white (GdkPixbuf *pixbuf)
{
  if (!gdk_pixbuf_get_has_alpha (pixbuf))
    return g_object_ref (pixbuf);
  return gdk_pixbuf_composite_color_simple (pixbuf, gdk_pixbuf_get_width (pixbuf),
                                            gdk_pixbuf_get_height (pixbuf), GDK_INTERP_NEAREST,
                                            255, 16, 0xffffff, 0xffffff);
}

static gboolean
write_whole (int           fd,
             const guint8 *bytes,
             gsize         length)
{
  while (length > 0)
    {
      gssize written = write (fd, bytes, length);

      if (written < 0 && errno != EINTR)
        return FALSE;
      if (written > 0)
        {
          bytes += written;
          length -= (gsize) written;
        }
    }
  return TRUE;
}

void
wb_thumbnail_keep (const char *hash,
                   GdkPixbuf  *pixbuf)
{
  g_autofree char *path = cache_path (hash);
  g_autofree char *drawer = g_path_get_dirname (path);
  g_autofree char *temporary = g_strconcat (path, ".XXXXXX", NULL);
  g_autofree char *buffer = NULL;
  g_autoptr (GdkPixbuf) opaque = on_white (pixbuf);
  gsize length;
  gboolean written;
  int fd;

  if (g_mkdir_with_parents (drawer, 0700) != 0 ||
      !gdk_pixbuf_save_to_buffer (opaque, &buffer, &length, "jpeg", NULL, "quality", "85", NULL))
    return;

  fd = g_mkstemp_full (temporary, O_WRONLY | O_CLOEXEC, 0600);
  if (fd < 0)
    return;
  written = write_whole (fd, (const guint8 *) buffer, length);
  if (close (fd) != 0 || !written || g_rename (temporary, path) != 0)
    g_unlink (temporary);
}

/* Whether the cached picture has the shape of the photo's. */
static gboolean
may_be_of (GdkPixbuf     *pixbuf,
           const WbPhoto *photo)
{
  int width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);
  gint64 own = wb_photo_is_turned (photo->orientation) ? photo->height : photo->width;
  gint64 other = wb_photo_is_turned (photo->orientation) ? photo->width : photo->height;

  if (MAX (width, height) > WB_THUMBNAIL_SIDE)
    return FALSE;
  if (own <= 0 || other <= 0)
    return TRUE;
  if (MAX (own, other) > WB_THUMBNAIL_SIDE && MAX (width, height) < WB_THUMBNAIL_SIDE)
    return FALSE;
  /* To a pixel of rounding. */
  return ABS (width * other - height * own) <= MAX (own, other);
}

static GdkPixbuf *
load_cached (const WbPhoto *photo)
{
  g_autofree char *path = cache_path (photo->hash);
  g_autofree char *contents = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GdkPixbuf) pixbuf = NULL;
  gsize length;

  if (!g_file_get_contents (path, &contents, &length, NULL))
    return NULL;

  bytes = g_bytes_new_take (g_steal_pointer (&contents), length);
  pixbuf = wb_picture_decode (bytes, 0, 1, NULL);
  return pixbuf != NULL && may_be_of (pixbuf, photo) ? g_steal_pointer (&pixbuf) : NULL;
}

/* --- pictures --------------------------------------------------------------------------------- */

static GdkPixbuf *
load (WbOffice       *self,
      const WbPhoto  *photo,
      int             side,
      GCancellable   *cancellable,
      GError        **error)
{
  g_autofree char *folder = wb_photo_store_folder (wb_office_get_path (self));
  g_autoptr (GBytes) bytes = wb_photo_store_read (folder, photo->hash, cancellable, error);

  if (bytes == NULL)
    return NULL;
  return wb_picture_decode (bytes, side, photo->orientation, error);
}

GdkPixbuf *
wb_office_load_thumbnail (WbOffice       *self,
                          const WbPhoto  *photo,
                          GCancellable   *cancellable,
                          GError        **error)
{
  GdkPixbuf *pixbuf;

  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (photo != NULL, NULL);

  pixbuf = wb_photo_hash_is_valid (photo->hash) ? load_cached (photo) : NULL;
  if (pixbuf != NULL)
    return pixbuf;

  pixbuf = load (self, photo, WB_THUMBNAIL_SIDE, cancellable, error);
  if (pixbuf != NULL)
    wb_thumbnail_keep (photo->hash, pixbuf);
  return pixbuf;
}

GdkPixbuf *
wb_office_load_picture (WbOffice       *self,
                        const WbPhoto  *photo,
                        GCancellable   *cancellable,
                        GError        **error)
{
  g_return_val_if_fail (WB_IS_OFFICE (self), NULL);
  g_return_val_if_fail (photo != NULL, NULL);

  return load (self, photo, WB_PICTURE_SHOWN_SIDE, cancellable, error);
}

/* --- the files -------------------------------------------------------------------------------- */

gboolean
wb_office_check_photo (WbOffice       *self,
                       const WbPhoto  *photo,
                       gboolean        whole,
                       GCancellable   *cancellable,
                       GError        **error)
{
  g_autofree char *folder = NULL;

  g_return_val_if_fail (WB_IS_OFFICE (self), FALSE);
  g_return_val_if_fail (photo != NULL, FALSE);

  folder = wb_photo_store_folder (wb_office_get_path (self));
  return wb_photo_store_check (folder, photo->hash,
                               photo->size != WB_INTEGER_UNSET ? photo->size : -1, whole,
                               cancellable, error);
}

char *
wb_office_photo_path (WbOffice      *self,
                      const WbPhoto *photo)
{
  g_autofree char *folder = wb_photo_store_folder (wb_office_get_path (self));

  return wb_photo_store_path (folder, photo->hash);
}

static gboolean
note_photos (WbOffice      *self,
             const char    *id,
             GHashTable    *used,
             GCancellable  *cancellable,
             GError       **error)
{
  g_autoptr (WbJob) job = wb_office_load_job (self, id, cancellable, error);

  if (job == NULL)
    return FALSE;
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);

      if (photo->hash != NULL)
        g_hash_table_add (used, g_strdup (photo->hash));
    }
  return TRUE;
}

GPtrArray *
wb_office_unused_photos (WbOffice      *self,
                         GCancellable  *cancellable,
                         GError       **error)
{
  g_autoptr (GHashTable) used = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) jobs = wb_office_list_jobs (self, NULL, 0, cancellable, error);
  g_autofree char *folder = wb_photo_store_folder (wb_office_get_path (self));

  if (jobs == NULL)
    return NULL;
  for (guint i = 0; i < jobs->len; i++)
    if (!note_photos (self, ((const WbJobSummary *) g_ptr_array_index (jobs, i))->id, used,
                      cancellable, error))
      return NULL;
  return wb_photo_store_unused (folder, used, error);
}

/* --- words ------------------------------------------------------------------------------------ */

static char *
words_of_time (GDateTime *time)
{
  g_autofree char *clock = g_date_time_format (time, "%H:%M");
  g_autofree char *day = NULL;
  GDate date;

  g_date_clear (&date, 1);
  g_date_set_dmy (&date, (GDateDay) g_date_time_get_day_of_month (time),
                  (GDateMonth) g_date_time_get_month (time),
                  (GDateYear) g_date_time_get_year (time));
  day = wb_words_date (&date);
  return g_strjoin (", ", day, clock, NULL);
}

char *
wb_words_photo_taken_short (const WbPhoto *photo)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_utc ();
  g_autoptr (GDateTime) time = NULL;

  if (photo->taken_at != NULL)
    time = g_date_time_new_from_iso8601 (photo->taken_at, zone);
  return time != NULL ? words_of_time (time) : g_strdup (_("not known"));
}

char *
wb_words_photo_taken (const WbPhoto *photo)
{
  g_autofree char *words = wb_words_photo_taken_short (photo);

  if (photo->taken_at == NULL || photo->taken_offset == NULL)
    return g_steal_pointer (&words);
  /* Translators: a day and a time, then how far the camera's clock was from UTC, such as +02:00. */
  return g_strdup_printf (_("%s (UTC%s)"), words, photo->taken_offset);
}

char *
wb_words_photo_imported (const WbPhoto *photo)
{
  g_autoptr (GDateTime) utc = NULL;
  g_autoptr (GDateTime) local = NULL;

  if (photo->imported_at != NULL)
    utc = g_date_time_new_from_iso8601 (photo->imported_at, NULL);
  local = utc != NULL ? g_date_time_to_local (utc) : NULL;
  return local != NULL ? words_of_time (local) : g_strdup (_("not known"));
}
