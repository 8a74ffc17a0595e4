/* SPDX-License-Identifier: GPL-3.0-or-later */
/* See the header. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-deeds.h"

#include "core/wb-count-entry.h"
#include "core/wb-photo.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <string.h>

/* @id: (out) (transfer full): of the piece, %NULL for empty text */
static gboolean
read_piece (WbJob       *job,
            const char  *text,
            char       **id,
            GError     **error)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  const WbPiece *piece;

  *id = NULL;
  if (*trimmed == '\0')
    return TRUE;

  piece = wb_count_find_piece (job, trimmed, error);
  if (piece == NULL)
    return FALSE;
  *id = g_strdup (piece->record.id);
  return TRUE;
}

WbJob *
wb_photos_set (WbJob       *job,
               GPtrArray   *ids,
               const char  *field,
               const char  *text,
               GError     **error)
{
  const WbField *described = wb_record_type_field (wb_record_type (WB_KIND_PHOTO), field);
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autofree char *piece = NULL;

  g_return_val_if_fail (described != NULL, NULL);

  if (strcmp (field, "piece") == 0)
    {
      if (!read_piece (job, text, &piece, error))
        return NULL;
      text = piece;
    }

  for (guint i = 0; i < ids->len; i++)
    {
      gconstpointer record = wb_job_find (job, WB_KIND_PHOTO, g_ptr_array_index (ids, i));
      gpointer copy;

      if (record == NULL)
        continue;
      copy = wb_record_copy (record);
      g_ptr_array_add (records, copy);
      if (!wb_record_set_text (copy, described, text, wb_job_get_currency (job), error))
        return NULL;
    }
  return wb_job_with_many (job, records);
}

/* Whether @text, typed, means @piece. */
static gboolean
means (const WbJob   *job,
       const char    *text,
       const WbPiece *piece)
{
  return wb_count_find_piece (job, text, NULL) == piece;
}

char *
wb_photos_tag_text (const WbJob *job,
                    const char  *piece)
{
  const WbPiece *record = piece != NULL ? wb_job_find (job, WB_KIND_PIECE, piece) : NULL;
  g_autofree char *whole = NULL, *number = NULL;

  if (record == NULL || record->tag == WB_INTEGER_UNSET)
    return g_strdup ("");

  whole = wb_words_tag (job, record);
  number = g_strdup_printf ("%" G_GINT64_FORMAT, record->tag);
  return means (job, whole, record) || !means (job, number, record) ? g_steal_pointer (&whole)
                                                                     : g_steal_pointer (&number);
}

char *
wb_photos_get (WbJob      *job,
               GPtrArray  *ids,
               const char *field,
               gboolean   *same)
{
  const WbField *described = wb_record_type_field (wb_record_type (WB_KIND_PHOTO), field);
  g_autofree char *common = NULL;

  *same = TRUE;
  for (guint i = 0; i < ids->len; i++)
    {
      const WbPhoto *photo = wb_job_find (job, WB_KIND_PHOTO, g_ptr_array_index (ids, i));
      g_autofree char *text = NULL;

      if (photo == NULL)
        continue;
      text = strcmp (field, "piece") == 0 ? wb_photos_tag_text (job, photo->piece)
                                          : wb_record_get_text (photo, described);
      if (common != NULL && strcmp (common, text) != 0)
        {
          *same = FALSE;
          return g_strdup ("");
        }
      if (common == NULL)
        common = g_steal_pointer (&text);
    }
  return common != NULL ? g_steal_pointer (&common) : g_strdup ("");
}

WbJob *
wb_photos_add_pin (WbJob      *job,
                   const char *photo,
                   const char *id,
                   gint64      x,
                   gint64      y)
{
  g_autoptr (WbPin) pin = wb_record_new (WB_KIND_PIN, id);

  wb_set_text (&pin->photo, photo);
  pin->x = CLAMP (x, 0, 10000);
  pin->y = CLAMP (y, 0, 10000);
  return wb_job_with (job, pin);
}

WbJob *
wb_photos_set_pin_piece (WbJob       *job,
                         const char  *pin,
                         const char  *text,
                         GError     **error)
{
  gconstpointer record = wb_job_find (job, WB_KIND_PIN, pin);
  g_autoptr (WbPin) copy = record != NULL ? wb_record_copy (record) : NULL;
  g_autofree char *piece = NULL;

  if (copy == NULL)
    return wb_job_ref (job);
  if (!read_piece (job, text, &piece, error))
    return NULL;
  wb_set_text (&copy->piece, piece);
  return wb_job_with (job, copy);
}

GPtrArray *
wb_photos_of (const WbJob *job,
              const char  *piece,
              gboolean     delivery)
{
  GPtrArray *photos = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);
      gboolean late = photo->moment == WB_MOMENT_DELIVERY || photo->moment == WB_MOMENT_CLAIM;
      gboolean early = photo->moment == WB_MOMENT_ORIGIN || photo->moment == WB_MOMENT_PACKING;

      if ((delivery ? late : early) && wb_photo_shows_piece (job, photo, piece))
        g_ptr_array_add (photos, (gpointer) photo);
    }
  return photos;
}

char *
wb_photos_title (const WbPhoto *photo)
{
  if (photo->caption != NULL)
    return g_strdup (photo->caption);
  return g_strdup (photo->name != NULL ? photo->name : _("Photo"));
}
