/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos for measurements: as large as a camera's, and each another file. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * wb_bench_make_photos:
 *
 * Writes @n JPEG files of 4,000 × 3,000 pixels into @folder, "0000.jpg" and so on, each with an
 * orientation, a date and bytes of its own. ImageMagick draws the first; the others differ from it
 * in a comment.
 */
void wb_bench_make_photos (const char *folder,
                           guint       n);

G_END_DECLS
