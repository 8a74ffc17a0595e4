/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole photo, ready to be drawn: once at its own size for looking closely, once small enough
 * to be drawn smoothly as a whole. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

/** WbPhotoPicture: two textures of one upright picture; both have the same shape. */
typedef struct
{
  GdkTexture *whole;
  GdkTexture *small;
} WbPhotoPicture;

void            wb_photo_picture_free        (WbPhotoPicture      *self);

void            wb_photo_picture_load_async  (WbOffice            *office,
                                              const WbPhoto       *photo,
                                              GCancellable        *cancellable,
                                              GAsyncReadyCallback  callback,
                                              gpointer             data);
/** Returns: (transfer full) (nullable): errors as wb_office_load_picture(). */
WbPhotoPicture *wb_photo_picture_load_finish (GAsyncResult        *result,
                                              GError             **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPhotoPicture, wb_photo_picture_free)

G_END_DECLS
