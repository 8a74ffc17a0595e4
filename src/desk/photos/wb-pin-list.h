/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pins of one photo beside it: for each its marks, checked as in the inventory, and the
 * piece when it is another than the photo's. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signals: "chosen" (const char *pin, nullable): the focus went to a pin; "done": its marks were
 * set with Enter. */
#define WB_TYPE_PIN_LIST (wb_pin_list_get_type ())
G_DECLARE_FINAL_TYPE (WbPinList, wb_pin_list, WB, PIN_LIST, GtkWidget)

GtkWidget *wb_pin_list_new   (WbJobModel *model);
/** Shows the pins of @photo (nullable); keeps the rows of those that it shows already. */
void       wb_pin_list_show  (WbPinList  *self,
                              const char *photo);
/** Gives the focus to the marks of @pin. */
void       wb_pin_list_focus (WbPinList  *self,
                              const char *pin);

G_END_DECLS
