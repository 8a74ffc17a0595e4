/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ways in which pictures come to the page: file choosers, the clipboard, and what is
 * dropped. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** @sources: (transfer full) (element-type WbPhotoSource) (nullable): %NULL when there is
 * nothing to take, with @words why */
typedef void (*WbPhotoInputFunc)   (GtkWidget        *widget,
                                    GPtrArray        *sources,
                                    const char       *words);

/** Asks for files, or with @folder for a folder, above the window of @widget. */
void         wb_photo_inputs_ask   (GtkWidget        *widget,
                                    gboolean          folder,
                                    WbPhotoInputFunc  take);
/** Takes files or a picture from the clipboard. */
void         wb_photo_inputs_paste (GtkWidget        *widget,
                                    WbPhotoInputFunc  take);
/** Lets files, folders and pictures be dropped on @widget. */
void         wb_photo_inputs_accept_drops (GtkWidget        *widget,
                                           WbPhotoInputFunc  take);

G_END_DECLS
