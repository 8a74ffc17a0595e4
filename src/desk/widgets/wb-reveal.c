/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the row that shows a field by its properties "field" and "record-id". What has to be opened
 * first only the page knows. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/widgets/wb-reveal.h"

#include "desk/widgets/wb-scroll-to.h"

G_DEFINE_INTERFACE (WbRevealer, wb_revealer, GTK_TYPE_WIDGET)

static void
wb_revealer_default_init (WbRevealerInterface *iface)
{
}

static gboolean
has_text (GtkWidget  *widget,
          const char *property,
          const char *text)
{
  g_autofree char *value = NULL;

  if (g_object_class_find_property (G_OBJECT_GET_CLASS (widget), property) == NULL)
    return FALSE;

  g_object_get (widget, property, &value, NULL);
  return g_strcmp0 (value, text) == 0;
}

/* Returns: (nullable): the visible row below @root that shows field @name of the record @id. */
static GtkWidget *
find_row (GtkWidget  *root,
          const char *name,
          const char *id)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found;

      if (!gtk_widget_get_visible (child))
        continue;
      if (has_text (child, "field", name) && (id == NULL || has_text (child, "record-id", id)))
        return child;

      found = find_row (child, name, id);
      if (found != NULL)
        return found;
    }

  return NULL;
}

gboolean
wb_reveal_within (GtkWidget  *root,
                  WbKind      kind,
                  const char *id,
                  const char *field)
{
  const WbRecordType *type = wb_record_type (kind);
  g_autofree char *name = NULL;
  GtkWidget *row;

  g_return_val_if_fail (GTK_IS_WIDGET (root), FALSE);

  if (field == NULL)
    return FALSE;

  name = g_strconcat (type->name, ".", field, NULL);
  row = find_row (root, name, type->single ? NULL : id);
  if (row == NULL)
    return FALSE;

  gtk_widget_child_focus (row, GTK_DIR_TAB_FORWARD);
  wb_scroll_to (row);
  return TRUE;
}

gboolean
wb_reveal (GtkWidget  *page,
           WbKind      kind,
           const char *id,
           const char *field)
{
  g_return_val_if_fail (GTK_IS_WIDGET (page), FALSE);

  if (WB_IS_REVEALER (page)
      && WB_REVEALER_GET_IFACE (page)->reveal (WB_REVEALER (page), kind, id, field))
    return TRUE;

  return wb_reveal_within (page, kind, id, field);
}
