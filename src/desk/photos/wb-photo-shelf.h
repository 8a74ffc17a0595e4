/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the pages of one job know of the files of its photos: thumbnails, the last few hundred of
 * them, and which files are not as they were. Decoding and comparing run in threads of their
 * own. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-office.h"

G_BEGIN_DECLS

/* Signal "changed" (const char *hash): what is known of that file is new. */
#define WB_TYPE_PHOTO_SHELF (wb_photo_shelf_get_type ())
G_DECLARE_FINAL_TYPE (WbPhotoShelf, wb_photo_shelf, WB, PHOTO_SHELF, GObject)

WbPhotoShelf *wb_photo_shelf_new         (WbOffice            *office) G_GNUC_WARN_UNUSED_RESULT;
WbOffice     *wb_photo_shelf_get_office  (WbPhotoShelf        *self);

/** Gives up what is under way: nobody looks any more. */
void          wb_photo_shelf_close       (WbPhotoShelf        *self);

/** Returns: (transfer none) (nullable): the thumbnail, when it is at hand. */
GdkTexture   *wb_photo_shelf_peek        (WbPhotoShelf        *self,
                                          const WbPhoto       *photo);

/** Makes a thumbnail ready; of several that wait, the one asked for last comes first, because that
 * is what is on the screen. */
void          wb_photo_shelf_load_async  (WbPhotoShelf        *self,
                                          const WbPhoto       *photo,
                                          GCancellable        *cancellable,
                                          GAsyncReadyCallback  callback,
                                          gpointer             data);
/** Returns: (transfer full) (nullable): the thumbnail. */
GdkTexture   *wb_photo_shelf_load_finish (WbPhotoShelf        *self,
                                          GAsyncResult        *result,
                                          GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none) (nullable): what is wrong with the file, as a sentence. */
const char   *wb_photo_shelf_get_fault   (WbPhotoShelf        *self,
                                          const WbPhoto       *photo);
/** Returns: how many of the job's photos have a fault. */
guint         wb_photo_shelf_count_faults (WbPhotoShelf       *self,
                                           const WbJob        *job);
void          wb_photo_shelf_note_error  (WbPhotoShelf        *self,
                                          const WbPhoto       *photo,
                                          const GError        *error);

/** Compares, in the background, the files of @job that were not compared yet: first whether they
 * are there, then what is in them. */
void          wb_photo_shelf_check       (WbPhotoShelf        *self,
                                          WbJob               *job);
/** Whether comparing is still under way. */
gboolean      wb_photo_shelf_is_checking (WbPhotoShelf        *self);
/** Compares all of them once more the next time. */
void          wb_photo_shelf_forget      (WbPhotoShelf        *self);

G_END_DECLS
