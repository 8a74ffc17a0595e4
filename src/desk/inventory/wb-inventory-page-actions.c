/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the inventory page does with many lines at once, and the windows that it opens for it. All
 * of it changes the job through the page's model. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-inventory-page-private.h"

#include "desk/inventory/wb-bulk-dialog.h"
#include "desk/inventory/wb-contents-dialog.h"
#include "desk/inventory/wb-groups-overview.h"
#include "desk/inventory/wb-import-dialog.h"
#include "desk/inventory/wb-inventory-column.h"
#include "desk/inventory/wb-inventory-deeds.h"
#include "desk/inventory/wb-inventory-files.h"
#include "desk/inventory/wb-inventory-removal.h"
#include "desk/inventory/wb-lot-editor.h"
#include "desk/photos/wb-photo-deeds.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static void
filter_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);

  gtk_widget_grab_focus (GTK_WIDGET (self->filter));
  gtk_editable_select_region (self->filter, 0, -1);
}

static void
go_to_tag_action (GtkWidget  *widget,
                  const char *name,
                  GVariant   *parameter)
{
  wb_inventory_page_ask_tag (WB_INVENTORY_PAGE (widget), NULL);
}

static void
enter_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);

  gtk_widget_grab_focus (GTK_WIDGET (self->strip));
}

static void
sort_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  wb_inventory_list_sort_by (WB_INVENTORY_PAGE (widget)->list,
                             g_variant_get_string (parameter, NULL));
}

GtkWindow *
wb_inventory_page_get_window (WbInventoryPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  return GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL;
}

/* Shows a window of the page; @done (nullable) is its signal with a sentence about what it did. */
static void
present_dialog (WbInventoryPage *self,
                GtkWindow       *dialog,
                const char      *done)
{
  if (done != NULL)
    g_signal_connect_object (dialog, done, G_CALLBACK (wb_inventory_page_tell), self,
                             G_CONNECT_SWAPPED);
  gtk_window_present (dialog);
}

/* One line goes into the strip, several into a window of their own. */
static void
change_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (self->list);

  if (ids->len == 1)
    wb_inventory_page_change_line (self, g_ptr_array_index (ids, 0));
  else if (ids->len > 1)
    present_dialog (self,
                    GTK_WINDOW (wb_bulk_dialog_new (wb_inventory_page_get_window (self),
                                                    self->model, ids)),
                    "changed");
}

/* The line to be on when the selected ones are gone: the one below them, or the one above. */
static const char *
find_survivor (WbInventoryPage *self,
               GPtrArray       *ids)
{
  const char *below = wb_inventory_list_neighbour (self->list,
                                                   g_ptr_array_index (ids, ids->len - 1), 1);

  return below != NULL
    ? below : wb_inventory_list_neighbour (self->list, g_ptr_array_index (ids, 0), -1);
}

static gboolean
has_focus_within (GtkWidget *widget)
{
  return (gtk_widget_get_state_flags (widget) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0;
}

static void
remove_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (self->list);
  gboolean in_list = has_focus_within (GTK_WIDGET (self->list));
  g_autofree char *refusal = NULL;
  g_autofree char *sentence = NULL;
  g_autofree char *survivor = NULL;
  g_autoptr (WbJob) job = NULL;

  if (ids->len == 0)
    return;

  job = wb_inventory_remove (wb_inventory_page_get_job (self), ids, &refusal);
  if (job == NULL)
    {
      wb_inventory_page_say (self, refusal);
      return;
    }

  survivor = g_strdup (find_survivor (self, ids));
  sentence = wb_inventory_describe_removal (wb_inventory_page_get_job (self), job);
  wb_job_model_apply (self->model, job, ngettext ("Remove a line", "Remove lines", ids->len));
  wb_inventory_page_tell (self, sentence);
  if (survivor == NULL)
    wb_line_strip_focus (self->strip);
  else
    wb_inventory_list_reveal (self->list, survivor, in_list);
}

/* From the list the contents of the selected line, from the strip those of the line in hand. */
static void
contents_action (GtkWidget  *widget,
                 const char *name,
                 GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (self->list);
  g_autofree char *id = NULL;

  if (!has_focus_within (GTK_WIDGET (self->list)))
    id = wb_line_strip_settle (self->strip);
  else if (ids->len == 1)
    id = g_strdup (g_ptr_array_index (ids, 0));

  if (id == NULL)
    gtk_widget_error_bell (widget);
  else
    present_dialog (self, GTK_WINDOW (wb_contents_dialog_new (wb_inventory_page_get_window (self),
                                                              self->model, id)), NULL);
}

/* The photos of the selected line, or of the line in hand, on their own page. */
static void
photos_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (self->list);
  const char *changed = wb_line_strip_get_changed (self->strip);
  const char *id = changed != NULL ? changed : ids->len == 1 ? g_ptr_array_index (ids, 0) : NULL;
  g_autofree char *tag = wb_photos_tag_text (wb_job_model_get_job (self->model), id);

  if (*tag == '\0')
    gtk_widget_error_bell (widget);
  else
    gtk_widget_activate_action (widget, "job.show-photos", "s", tag);
}

static void
present_overview (WbInventoryPage *self,
                  WbPieceOverview *overview)
{
  g_signal_connect_object (overview, "chosen", G_CALLBACK (wb_inventory_page_go_to), self,
                           G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (overview));
}

static void
show_groups_action (GtkWidget  *widget,
                    const char *name,
                    GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);

  present_overview (self, wb_groups_overview_new (wb_inventory_page_get_window (self),
                                                  self->model));
}

static void
show_high_value_action (GtkWidget  *widget,
                        const char *name,
                        GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);

  present_overview (self, wb_high_value_overview_new (wb_inventory_page_get_window (self),
                                                      self->model));
}

static void
lots_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);

  present_dialog (self, GTK_WINDOW (wb_lot_editor_new (wb_inventory_page_get_window (self),
                                                       self->model)), NULL);
}

static void
import_chosen_cb (GtkWidget *widget,
                  GFile     *file)
{
  wb_inventory_page_import (WB_INVENTORY_PAGE (widget), file);
}

static void
import_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  wb_inventory_ask_import (widget, import_chosen_cb);
}

static void
export_chosen_cb (GtkWidget *widget,
                  GFile     *file)
{
  wb_inventory_page_export (WB_INVENTORY_PAGE (widget), file);
}

static void
export_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  const WbOrder *order = wb_job_order (wb_inventory_page_get_job (WB_INVENTORY_PAGE (widget)));

  wb_inventory_ask_export (widget, order->number, export_chosen_cb);
}

static void
written_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      data)
{
  g_autoptr (WbInventoryPage) self = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *sentence = NULL;

  if (wb_inventory_write_finish (result, &error))
    sentence = g_strdup (_("The inventory was written."));
  else
    sentence = wb_words_error (error);
  if (self->model != NULL)
    wb_inventory_page_say (self, sentence);
}

/* --- for the page ---------------------------------------------------------------------------- */

void
wb_inventory_page_fill_sort_menu (WbInventoryPage *self)
{
  guint n_columns;
  const WbInventoryColumn *columns = wb_inventory_columns (&n_columns);

  for (guint i = 0; i < n_columns; i++)
    {
      g_autofree char *action = g_strdup_printf ("inventory.sort::%s", columns[i].id);

      g_menu_append (self->sort_section, _(columns[i].title), action);
    }
}

void
wb_inventory_page_enable_actions (WbInventoryPage *self,
                                  guint            n)
{
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "inventory.change", n > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "inventory.remove", n > 0);
}

void
wb_inventory_page_install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "inventory.filter", NULL, filter_action);
  gtk_widget_class_install_action (widget_class, "inventory.enter", NULL, enter_action);
  gtk_widget_class_install_action (widget_class, "inventory.go-to-tag", NULL, go_to_tag_action);
  gtk_widget_class_install_action (widget_class, "inventory.sort", "s", sort_action);
  gtk_widget_class_install_action (widget_class, "inventory.change", NULL, change_action);
  gtk_widget_class_install_action (widget_class, "inventory.remove", NULL, remove_action);
  gtk_widget_class_install_action (widget_class, "inventory.contents", NULL, contents_action);
  gtk_widget_class_install_action (widget_class, "inventory.photos", NULL, photos_action);
  gtk_widget_class_install_action (widget_class, "inventory.show-groups", NULL, show_groups_action);
  gtk_widget_class_install_action (widget_class, "inventory.show-high-value", NULL,
                                   show_high_value_action);
  gtk_widget_class_install_action (widget_class, "inventory.lots", NULL, lots_action);
  gtk_widget_class_install_action (widget_class, "inventory.import", NULL, import_action);
  gtk_widget_class_install_action (widget_class, "inventory.export", NULL, export_action);

  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                       "inventory.filter", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_A, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                       "inventory.show-groups", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_H, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                       "inventory.show-high-value", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_i, GDK_CONTROL_MASK,
                                       "inventory.contents", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_g, GDK_CONTROL_MASK,
                                       "inventory.go-to-tag", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_l, GDK_CONTROL_MASK, "inventory.enter",
                                       NULL);
}

void
wb_inventory_page_import (WbInventoryPage *self,
                          GFile           *file)
{
  g_return_if_fail (WB_IS_INVENTORY_PAGE (self));

  present_dialog (self,
                  GTK_WINDOW (wb_import_dialog_new (wb_inventory_page_get_window (self),
                                                    self->model, file)),
                  "taken");
}

void
wb_inventory_page_export (WbInventoryPage *self,
                          GFile           *file)
{
  g_return_if_fail (WB_IS_INVENTORY_PAGE (self));

  wb_inventory_write_async (wb_inventory_page_get_job (self), file, NULL, written_cb,
                            g_object_ref (self));
}
