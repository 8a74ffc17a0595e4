/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A published job to be read: its order, people, stops and pieces in words. It is not in the book
 * afterwards, and nothing can be changed. */
#pragma once

#include <adwaita.h>

#include "desk/share/wb-published-item.h"

G_BEGIN_DECLS

#define WB_TYPE_PUBLISHED_LOOK (wb_published_look_get_type ())
G_DECLARE_FINAL_TYPE (WbPublishedLook, wb_published_look, WB, PUBLISHED_LOOK, AdwWindow)

/** Reads the document of a published job and shows it in a window over @over. */
void wb_published_look_open (GtkWindow       *over,
                             WbOffice        *office,
                             const char      *server_id,
                             WbPublishedItem *item);

G_END_DECLS
