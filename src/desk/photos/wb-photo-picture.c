/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decodes in a worker thread and hands over textures, which may cross threads. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-picture.h"

#include "office/wb-photo-pictures.h"

#define SMALL_SIDE 1400

void
wb_photo_picture_free (WbPhotoPicture *self)
{
  g_clear_object (&self->whole);
  g_clear_object (&self->small);
  g_free (self);
}

typedef struct
{
  WbOffice *office;
  WbPhoto  *photo;
} Request;

static void
request_free (gpointer data)
{
  Request *request = data;

  g_object_unref (request->office);
  wb_record_unref (request->photo);
  g_free (request);
}

static GdkTexture *
make_small (GdkPixbuf  *pixbuf,
            GdkTexture *whole)
{
  int width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);
  int longest = MAX (width, height);
  g_autoptr (GdkPixbuf) small = NULL;

  if (longest > SMALL_SIDE)
    small = gdk_pixbuf_scale_simple (pixbuf, MAX (1, width * SMALL_SIDE / longest),
                                     MAX (1, height * SMALL_SIDE / longest), GDK_INTERP_BILINEAR);
  return small != NULL ? gdk_texture_new_for_pixbuf (small) : g_object_ref (whole);
}

static void
load_in_thread (GTask        *task,
                gpointer      source,
                gpointer      data,
                GCancellable *cancellable)
{
  Request *request = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkPixbuf) pixbuf = wb_office_load_picture (request->office, request->photo,
                                                         cancellable, &error);
  WbPhotoPicture *picture;

  if (pixbuf == NULL)
    {
      g_task_return_error (task, g_steal_pointer (&error));
      return;
    }

  picture = g_new0 (WbPhotoPicture, 1);
  picture->whole = gdk_texture_new_for_pixbuf (pixbuf);
  picture->small = make_small (pixbuf, picture->whole);
  g_task_return_pointer (task, picture, (GDestroyNotify) wb_photo_picture_free);
}

void
wb_photo_picture_load_async (WbOffice            *office,
                             const WbPhoto       *photo,
                             GCancellable        *cancellable,
                             GAsyncReadyCallback  callback,
                             gpointer             data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, callback, data);
  Request *request = g_new0 (Request, 1);

  request->office = g_object_ref (office);
  request->photo = wb_record_ref ((gpointer) photo);
  g_task_set_source_tag (task, wb_photo_picture_load_async);
  g_task_set_task_data (task, request, request_free);
  g_task_run_in_thread (task, load_in_thread);
}

WbPhotoPicture *
wb_photo_picture_load_finish (GAsyncResult  *result,
                              GError       **error)
{
  g_return_val_if_fail (g_task_is_valid (result, NULL), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}
