/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An inventory page in a window of its own, with a fresh book behind it, and the hands of a person:
 * keys that go through the X server to whatever has the focus. */
#pragma once

#include <adwaita.h>

#include "desk/inventory/wb-inventory-page.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

typedef struct
{
  char       *folder;
  WbOffice   *office;
  WbJobModel *model;
  GtkWidget  *window;
  GtkWidget  *page;
} InventoryDesk;

/** @size: "1180x760". Opens a page on a job with one lot, "blue 204" from 1 to 300, and @n_pieces
 * made-up pieces. */
void         inventory_desk_open      (InventoryDesk *self,
                                       guint          n_pieces,
                                       int            width,
                                       int            height);
void         inventory_desk_close     (InventoryDesk *self);

/**
 * inventory_desk_type:
 * @keys: text to type; "\n" is Enter, "\t" Tab, and a key by name stands in braces: "{Escape}",
 *   "{ctrl+d}", "{F2}"
 *
 * Presses the keys one after the other and waits until the window has dealt with them.
 */
void         inventory_desk_type      (InventoryDesk *self,
                                       const char    *keys);

/** Types @text as a person does: each key long after the one before, so that it is no scanner's.
 * "\n" is Enter. */
void         inventory_desk_type_slowly (InventoryDesk *self,
                                         const char    *text);

/** Returns: (transfer none): the job as it stands. */
const WbJob *inventory_desk_get_job   (InventoryDesk *self);
/** Returns: (transfer none): piece number @index in the order of entry. */
const WbPiece *inventory_desk_get_piece (InventoryDesk *self,
                                         guint          index);
/** Returns: (transfer full): ids of the pieces, made-up ones by "p0", joined by spaces in the order
 * shown. */
char        *inventory_desk_get_shown (InventoryDesk *self) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none): the entry of the strip called @label. */
GtkEditable *inventory_desk_get_field (InventoryDesk *self,
                                       const char    *label);
/** Returns: (transfer none): what stands beneath that entry. */
const char  *inventory_desk_get_beneath (InventoryDesk *self,
                                         const char    *label);
/** Returns: (transfer none) (nullable): accessible name of the strip's entry that has the focus. */
gboolean     inventory_desk_is_focus  (InventoryDesk *self,
                                       const char    *label);
/** Keeps a picture of the window as NAME.png. */
void         inventory_desk_picture   (InventoryDesk *self,
                                       const char    *name);
/** Waits until filter and sort have come to rest. */
void         inventory_desk_rest      (InventoryDesk *self);

G_END_DECLS
