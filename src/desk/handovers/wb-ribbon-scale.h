/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* How wide the parts of a ribbon are. */

/**
 * wb_ribbon_scale:
 * @days: (array length=n): days that each part stands for; negative when not known
 * @least: (array length=n): pixels that each needs for its words
 * @width: pixels there are, at least the sum of @least
 * @out: (array length=n) (out caller-allocates): pixels of each; their sum is @width
 *
 * Widths as nearly to scale as the words allow: a part that its share would make too narrow gets
 * what it needs, and the others share the rest by their days. Parts whose days are not known get
 * what they need, unless none is known: then all share alike.
 */
void wb_ribbon_scale (const gint *days,
                      const gint *least,
                      guint       n,
                      gint        width,
                      gint       *out);

G_END_DECLS
