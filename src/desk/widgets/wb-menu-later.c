/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The menu's model waits with the button until the button asks for something to pop up. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-menu-later.h"

static void
create_cb (GtkMenuButton *button,
           gpointer       model)
{
  if (gtk_menu_button_get_menu_model (button) == NULL)
    gtk_menu_button_set_menu_model (button, model);
}

void
wb_menu_later (GtkMenuButton *button,
               GMenuModel    *model)
{
  g_return_if_fail (GTK_IS_MENU_BUTTON (button));
  g_return_if_fail (G_IS_MENU_MODEL (model));

  gtk_menu_button_set_create_popup_func (button, create_cb, g_object_ref (model), g_object_unref);
}
