/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What became of the files of an import that were not simply taken in. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-photo-import.h"

G_BEGIN_DECLS

/** Whether there is a file of which more is to be said than a count: one that was refused, or that
 * cannot be shown here. */
gboolean wb_photo_results_has_more (GPtrArray *results);

/** Lists these files, each with a sentence, in a window above @parent. */
void     wb_photo_results_show     (GtkWindow *parent,
                                    GPtrArray *results);

G_END_DECLS
