/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the inventory page finds lines: by words in its filter, by a tag typed or scanned, and from
 * the warning about tags. What a text means as a tag is core's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-inventory-page-private.h"

#include "desk/inventory/wb-inventory-find.h"
#include "desk/inventory/wb-tag-dialog.h"
#include "desk/widgets/wb-scanner.h"

#include <glib/gi18n.h>

void
wb_inventory_page_go_to (WbInventoryPage *self,
                         const char      *id)
{
  g_autofree char *held = g_strdup (id);

  if (!wb_inventory_list_lets_through (self->list, held))
    gtk_editable_set_text (self->filter, "");
  wb_inventory_list_reveal (self->list, held, TRUE);
}

/* Goes to the next of the pieces found after the selected one, so that Enter once more finds the
 * next. */
static void
go_to_found (WbInventoryPage *self,
             GPtrArray       *found,
             gboolean         focus)
{
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (self->list);
  const char *current = ids->len == 1 ? g_ptr_array_index (ids, 0) : NULL;

  wb_inventory_list_reveal (self->list, wb_inventory_find_next (found, current), focus);
}

/* --- the filter ------------------------------------------------------------------------------- */

static void
filter_changed_cb (WbInventoryPage *self)
{
  wb_inventory_list_set_words (self->list, gtk_editable_get_text (self->filter));
}

/* Enter on a tag goes to it, on words to the lines that have them. */
static void
filter_activate_cb (WbInventoryPage *self)
{
  WbJob *job = wb_inventory_page_get_job (self);
  g_autofree char *text = g_strdup (gtk_editable_get_text (self->filter));
  g_autoptr (WbTagScan) scan = wb_tag_scan_parse (text, NULL);
  g_autoptr (GPtrArray) found = scan != NULL ? wb_inventory_find_scan (job, scan) : NULL;

  if (scan == NULL || (found->len == 0 && scan->form == WB_TAG_SCAN_WORDS))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->list));
      return;
    }

  if (found->len > 0)
    {
      const char *first = g_ptr_array_index (found, 0);

      if (!wb_inventory_list_lets_through (self->list, first))
        gtk_editable_set_text (self->filter, "");
      go_to_found (self, found, FALSE);
    }
  else
    {
      g_autofree char *sentence = wb_inventory_describe_miss (job, scan);

      wb_inventory_page_say (self, sentence);
    }
  gtk_editable_select_region (self->filter, 0, -1);
}

static void
filter_stop_cb (WbInventoryPage *self)
{
  gtk_editable_set_text (self->filter, "");
  wb_inventory_page_leave_to_list (self);
}

/* --- the warning ------------------------------------------------------------------------------ */

/* A tag in the warning: a missing one is entered, any other is gone to, and so are lines without
 * one. What is no tag has a window of its own. */
static gboolean
tag_link_cb (WbInventoryPage *self,
             const char      *uri)
{
  const char *colon = strchr (uri, ':');
  const char *slash = strrchr (uri, '/');
  g_autofree char *lot = NULL;
  g_autoptr (GPtrArray) found = NULL;
  gint64 tag;

  if (g_str_has_prefix (uri, "show:"))
    {
      g_autofree char *action = g_strconcat ("inventory.show-", uri + strlen ("show:"), NULL);

      return gtk_widget_activate_action (GTK_WIDGET (self), action, NULL);
    }

  g_return_val_if_fail (colon != NULL && slash != NULL && slash > colon, TRUE);

  if (slash > colon + 1)
    lot = g_strndup (colon + 1, (gsize) (slash - colon - 1));
  tag = g_str_has_prefix (uri, "untagged:") ? WB_INTEGER_UNSET
                                            : g_ascii_strtoll (slash + 1, NULL, 10);
  if (g_str_has_prefix (uri, "enter:"))
    {
      wb_line_strip_start (self->strip, lot, tag);
      return TRUE;
    }

  found = wb_inventory_find_in_lot (wb_inventory_page_get_job (self), lot, tag);
  gtk_editable_set_text (self->filter, "");
  if (found->len > 0)
    go_to_found (self, found, TRUE);
  return TRUE;
}

/* --- tags typed and scanned ------------------------------------------------------------------- */

void
wb_inventory_page_ask_tag (WbInventoryPage *self,
                           const char      *text)
{
  WbTagDialog *dialog = wb_tag_dialog_new (wb_inventory_page_get_window (self), self->model);

  g_signal_connect_object (dialog, "chosen", G_CALLBACK (wb_inventory_page_go_to), self,
                           G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (dialog));
  if (text != NULL)
    wb_tag_dialog_look_up (dialog, text);
}

/* Keys came as fast as only a scanner sends them. A word of the household is not taken for a tag,
 * however fast it was typed. */
static gboolean
is_scan_cb (GtkWidget  *widget,
            const char *text)
{
  WbJob *job = wb_inventory_page_get_job (WB_INVENTORY_PAGE (widget));
  g_autoptr (WbTagScan) scan = wb_tag_scan_parse (text, NULL);

  return scan != NULL && wb_inventory_is_scan (job, scan, text);
}

static void
scanned_cb (GtkWidget  *widget,
            const char *text)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);
  WbJob *job = wb_inventory_page_get_job (self);
  g_autoptr (WbTagScan) scan = wb_tag_scan_parse (text, NULL);
  g_autoptr (GPtrArray) found = wb_inventory_find_scan (job, scan);
  g_autofree char *sentence = NULL;

  if (found->len == 1)
    {
      wb_inventory_page_go_to (self, g_ptr_array_index (found, 0));
    }
  else if (found->len > 1)
    {
      wb_inventory_page_ask_tag (self, text);
    }
  else
    {
      sentence = wb_inventory_describe_miss (job, scan);
      gtk_widget_error_bell (widget);
      wb_inventory_page_say (self, sentence);
    }
}

/* --- for the page ----------------------------------------------------------------------------- */

void
wb_inventory_page_watch_scanner (WbInventoryPage *self)
{
  wb_scanner_watch (GTK_WIDGET (self), is_scan_cb, scanned_cb);
}

void
wb_inventory_page_bind_seek (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_callback (widget_class, filter_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, filter_activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, filter_stop_cb);
  gtk_widget_class_bind_template_callback (widget_class, tag_link_cb);
}
