/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules about the record of a photo. Orientation and the form of a camera's times follow the Exif
 * standard (CIPA DC-008, tags 0x0112, 0x9003 and 0x9011); the record keeps times in ISO 8601. */
#include "config.h"

#include "core/wb-photo.h"

#include "core/wb-core.h"

#include <string.h>

/* --- texts ------------------------------------------------------------------------------------ */

gboolean
wb_photo_hash_is_valid (const char *hash)
{
  if (hash == NULL || strlen (hash) != WB_PHOTO_HASH_LENGTH)
    return FALSE;

  for (const char *at = hash; *at != '\0'; at++)
    if (!g_ascii_isdigit (*at) && (*at < 'a' || *at > 'f'))
      return FALSE;
  return TRUE;
}

/* Whether @text has the shape of @form, in which 0 stands for a digit. */
static gboolean
has_form (const char *text,
          const char *form)
{
  if (text == NULL || strlen (text) != strlen (form))
    return FALSE;

  for (; *form != '\0'; form++, text++)
    if (*form == '0' ? !g_ascii_isdigit (*text) : *text != *form)
      return FALSE;
  return TRUE;
}

static gint
digits (const char *text,
        guint       n)
{
  gint value = 0;

  for (guint i = 0; i < n; i++)
    value = value * 10 + g_ascii_digit_value (text[i]);
  return value;
}

gboolean
wb_photo_time_is_valid (const char *text,
                        gboolean    utc)
{
  g_autofree char *day = NULL;
  GDate date;

  if (!has_form (text, utc ? "0000-00-00T00:00:00Z" : "0000-00-00T00:00:00"))
    return FALSE;

  day = g_strndup (text, 10);
  return wb_date_parse (day, &date, NULL) && g_date_get_year (&date) >= 1900 &&
         digits (text + 11, 2) < 24 && digits (text + 14, 2) < 60 && digits (text + 17, 2) < 60;
}

gboolean
wb_photo_offset_is_valid (const char *text)
{
  gint minutes;

  if (!has_form (text, "+00:00") && !has_form (text, "-00:00"))
    return FALSE;

  minutes = digits (text + 1, 2) * 60 + digits (text + 4, 2);
  return digits (text + 4, 2) < 60 && minutes <= 14 * 60;
}

/* --- the record ------------------------------------------------------------------------------- */

static gboolean
refuse (const WbPhoto *photo,
        const char    *field,
        const char    *what,
        GError       **error)
{
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, "photo %s, %s: %s", photo->record.id,
               field, what);
  return FALSE;
}

gboolean
wb_photo_check (const WbPhoto *photo,
                GError       **error)
{
  if (!wb_photo_hash_is_valid (photo->hash))
    return refuse (photo, "hash", "this is not 64 hexadecimal digits in lower case", error);

  if (photo->orientation != WB_INTEGER_UNSET &&
      (photo->orientation < 1 || photo->orientation > 8))
    return refuse (photo, "orientation", "this is not between 1 and 8", error);

  if (photo->taken_at != NULL && !wb_photo_time_is_valid (photo->taken_at, FALSE))
    return refuse (photo, "taken_at", "this is not a time such as 2026-03-04T09:30:00", error);

  if (photo->taken_offset != NULL && !wb_photo_offset_is_valid (photo->taken_offset))
    return refuse (photo, "taken_offset", "this is not an offset such as +02:00", error);

  if (photo->imported_at != NULL && !wb_photo_time_is_valid (photo->imported_at, TRUE))
    return refuse (photo, "imported_at", "this is not a time such as 2026-03-05T08:00:00Z", error);

  return TRUE;
}

gboolean
wb_photo_is_turned (gint64 orientation)
{
  return orientation >= 5 && orientation <= 8;
}

/* --- in the job ------------------------------------------------------------------------------- */

gboolean
wb_photo_shows_piece (const WbJob   *job,
                      const WbPhoto *photo,
                      const char    *piece)
{
  if (photo->piece != NULL && strcmp (photo->piece, piece) == 0)
    return TRUE;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIN); i++)
    {
      const WbPin *pin = wb_job_nth (job, WB_KIND_PIN, i);

      if (pin->piece != NULL && strcmp (pin->piece, piece) == 0 &&
          g_strcmp0 (pin->photo, photo->record.id) == 0)
        return TRUE;
    }
  return FALSE;
}

/* Looks at each pin once: a job may have thousands of both. */
guint
wb_photo_count_of_piece (const WbJob *job,
                         const char  *piece)
{
  g_autoptr (GHashTable) photos = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);

      if (photo->piece != NULL && strcmp (photo->piece, piece) == 0)
        g_hash_table_add (photos, photo->record.id);
    }
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIN); i++)
    {
      const WbPin *pin = wb_job_nth (job, WB_KIND_PIN, i);

      if (pin->piece != NULL && pin->photo != NULL && strcmp (pin->piece, piece) == 0)
        g_hash_table_add (photos, pin->photo);
    }
  return g_hash_table_size (photos);
}

const WbPhoto *
wb_photo_with_hash (const WbJob *job,
                    const char  *hash)
{
  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);

      if (photo->hash != NULL && strcmp (photo->hash, hash) == 0)
        return photo;
    }
  return NULL;
}
