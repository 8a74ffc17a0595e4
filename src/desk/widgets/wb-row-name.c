/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Naming the row around a widget. One plain function; keeps no state. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-row-name.h"

void
wb_row_name_set (GtkWidget  *cell,
                 const char *name)
{
  g_return_if_fail (GTK_IS_WIDGET (cell));

  for (GtkWidget *row = gtk_widget_get_parent (cell); row != NULL;
       row = gtk_widget_get_parent (row))
    {
      GtkAccessibleRole role = gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (row));

      if (role == GTK_ACCESSIBLE_ROLE_ROW || role == GTK_ACCESSIBLE_ROLE_LIST_ITEM)
        {
          gtk_accessible_update_property (GTK_ACCESSIBLE (row),
                                          GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
          return;
        }
    }
}
