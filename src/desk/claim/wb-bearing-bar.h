/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** What a part of a handler's bar stands for. */
typedef enum
{
  WB_BEARS_BY_RULE,
  WB_BEARS_BY_HAND,
  WB_BEARS_FOR_OTHERS,   /* the carrier: what limits of others left to it */
  WB_BEARS_CUT,          /* not borne: above its limit */
} WbBears;

#define WB_N_BEARS 4

/* What a handler bears as a bar on a scale that all handlers share. Each part has its own filling;
 * a line across marks a limit. The amounts stand beside it, so a screen reader passes it over. */
#define WB_TYPE_BEARING_BAR (wb_bearing_bar_get_type ())
G_DECLARE_FINAL_TYPE (WbBearingBar, wb_bearing_bar, WB, BEARING_BAR, GtkWidget)

GtkWidget  *wb_bearing_bar_new   (void) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: what a filling means, for a key. */
const char *wb_bears_words       (WbBears        part);

/**
 * wb_bearing_bar_show:
 * @parts: (array fixed-size=4): amounts by #WbBears, none negative
 * @limit: the limit, or -1 for none
 * @scale: amount that the whole width stands for
 */
void        wb_bearing_bar_show  (WbBearingBar  *self,
                                  const gint64  *parts,
                                  gint64         limit,
                                  gint64         scale);

G_END_DECLS
