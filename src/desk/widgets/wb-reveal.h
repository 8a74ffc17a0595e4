/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Going to one field of one record, wherever on a page it is shown. */
#pragma once

#include <gtk/gtk.h>

#include "core/wb-record.h"

G_BEGIN_DECLS

/* A page that has to open or choose something before a field is seen. */
#define WB_TYPE_REVEALER (wb_revealer_get_type ())
G_DECLARE_INTERFACE (WbRevealer, wb_revealer, WB, REVEALER, GtkWidget)

struct _WbRevealerInterface
{
  GTypeInterface parent_iface;

  gboolean (*reveal) (WbRevealer *self,
                      WbKind      kind,
                      const char *id,
                      const char *field);
};

/**
 * wb_reveal:
 * @page: a page in a window
 * @kind: a kind of record that @page shows
 * @id: (nullable): the record; %NULL for the one of its kind, or for where one is added
 * @field: (nullable): name of the field; %NULL for the record as such
 *
 * Puts the focus there and scrolls to it: through the page itself if it is a revealer, else to the
 * row with a "field" property that shows it. Returns: whether there was such a place.
 */
gboolean wb_reveal        (GtkWidget  *page,
                           WbKind      kind,
                           const char *id,
                           const char *field);

/** As wb_reveal(), among the rows below @root only. */
gboolean wb_reveal_within (GtkWidget  *root,
                           WbKind      kind,
                           const char *id,
                           const char *field);

G_END_DECLS
