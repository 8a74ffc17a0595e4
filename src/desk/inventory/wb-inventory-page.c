/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inventory of the open job: the table of its lines above, the strip for entering and changing
 * them below, and between them what the lines come to. The page ties these together and has the
 * deeds for many lines; it changes the job through its model only. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-inventory-page.h"

#include "desk/inventory/wb-bulk-dialog.h"
#include "desk/inventory/wb-import-dialog.h"
#include "desk/inventory/wb-inventory-column.h"
#include "desk/inventory/wb-inventory-deeds.h"
#include "desk/inventory/wb-inventory-files.h"
#include "desk/inventory/wb-inventory-find.h"
#include "desk/inventory/wb-inventory-list.h"
#include "desk/inventory/wb-inventory-summary.h"
#include "desk/inventory/wb-line-strip.h"
#include "desk/inventory/wb-lot-editor.h"
#include "desk/widgets/wb-fit-scroller.h"
#include "desk/widgets/wb-focus-within.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

struct _WbInventoryPage
{
  GtkWidget          parent_instance;

  WbJobModel        *model;
  WbJob             *checked;        /* the job whose tags the warning is about */

  AdwToastOverlay   *toasts;
  GtkEditable       *filter;
  GtkStack          *stack;
  WbInventoryList   *list;
  GtkLabel          *count;
  GtkLabel          *selected;
  GtkWidget         *warning;
  GtkLabel          *tags;
  WbLineStrip       *strip;
  GMenu             *sort_section;
};

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbInventoryPage, wb_inventory_page, GTK_TYPE_WIDGET)

static WbJob *
get_job (WbInventoryPage *self)
{
  return wb_job_model_get_job (self->model);
}

/* --- saying ----------------------------------------------------------------------------------- */

static void
say (WbInventoryPage *self,
     const char      *sentence)
{
  AdwToast *toast = adw_toast_new (sentence);

  adw_toast_set_timeout (toast, 8);
  adw_toast_overlay_add_toast (self->toasts, toast);
}

/* What was done, for the frame of the job to say with a button that undoes it. */
static void
tell (WbInventoryPage *self,
      const char      *sentence)
{
  if (!gtk_widget_activate_action (GTK_WIDGET (self), "job.tell", "s", sentence))
    say (self, sentence);
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
update_tags (WbInventoryPage *self)
{
  g_autofree char *markup = NULL;

  if (self->checked == get_job (self))
    return;

  g_clear_pointer (&self->checked, wb_job_unref);
  self->checked = wb_job_ref (get_job (self));
  markup = wb_inventory_summary_tags (self->checked);
  gtk_label_set_markup (self->tags, markup != NULL ? markup : "");
  gtk_widget_set_visible (self->warning, markup != NULL);
}

static void
update (WbInventoryPage *self)
{
  GListModel *shown = G_LIST_MODEL (wb_inventory_list_get_selection (self->list));
  guint n_all = wb_job_count (get_job (self), WB_KIND_PIECE);
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (self->list);
  g_autofree char *count = wb_inventory_summary_count (shown, n_all);
  g_autofree char *selected = wb_inventory_summary_selected (get_job (self), ids);
  const char *child = "lines";

  if (n_all == 0)
    child = "empty";
  else if (g_list_model_get_n_items (shown) == 0 && wb_inventory_list_is_filtered (self->list))
    child = "none";

  gtk_stack_set_visible_child_name (self->stack, child);
  gtk_label_set_text (self->count, count);
  gtk_label_set_text (self->selected, selected != NULL ? selected : "");
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "inventory.change", ids->len > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "inventory.remove", ids->len > 0);
  update_tags (self);
}

static void
list_changed_cb (WbInventoryPage *self)
{
  update (self);
}

/* --- the strip and the list ------------------------------------------------------------------- */

static void
change_line (WbInventoryPage *self,
             const char      *id)
{
  g_autofree char *held = g_strdup (id);

  if (!wb_line_strip_change (self->strip, held))
    return;
  wb_inventory_list_reveal (self->list, held, FALSE);
  wb_line_strip_focus (self->strip);
}

static void
list_edit_cb (WbInventoryPage *self,
              const char      *id)
{
  change_line (self, id);
}

static void
strip_entered_cb (WbInventoryPage *self,
                  const char      *id)
{
  gtk_stack_set_visible_child_name (self->stack, "lines");
  wb_inventory_list_reveal (self->list, id, FALSE);
}

/* Goes from one line to its neighbour; beyond the last line a new one goes on. */
static void
step_from (WbInventoryPage *self,
           const char      *id,
           int              step)
{
  const char *next = wb_inventory_list_neighbour (self->list, id, step);

  if (next != NULL)
    {
      change_line (self, next);
      return;
    }
  if (step < 0)
    {
      gtk_widget_error_bell (GTK_WIDGET (self));
      return;
    }
  wb_line_strip_go_on (self->strip);
  wb_line_strip_focus (self->strip);
}

static void
strip_stored_cb (WbInventoryPage *self,
                 const char      *id)
{
  step_from (self, id, 1);
}

/* From a new line, up is the line that was entered last. */
static void
strip_step_cb (WbInventoryPage *self,
               int              step)
{
  g_autofree char *id = g_strdup (wb_line_strip_get_changed (self->strip));
  guint n = wb_job_count (get_job (self), WB_KIND_PIECE);

  if (id != NULL)
    step_from (self, id, step);
  else if (step < 0 && n > 0)
    change_line (self, ((const WbRecord *) wb_job_nth (get_job (self), WB_KIND_PIECE, n - 1))->id);
  else
    gtk_widget_error_bell (GTK_WIDGET (self));
}

static void
strip_leave_cb (WbInventoryPage *self)
{
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (self->list);

  if (ids->len > 0)
    wb_inventory_list_reveal (self->list, g_ptr_array_index (ids, 0), TRUE);
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->list));
}

/* --- filtering and finding -------------------------------------------------------------------- */

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

static void
filter_changed_cb (WbInventoryPage *self)
{
  wb_inventory_list_set_words (self->list, gtk_editable_get_text (self->filter));
}

/* Enter on the number of a tag goes to that tag, on words to the lines that have them. */
static void
filter_activate_cb (WbInventoryPage *self)
{
  const char *text = gtk_editable_get_text (self->filter);
  g_autofree char *lot = NULL;
  g_autofree char *sentence = NULL;
  g_autoptr (GPtrArray) found = NULL;
  gint64 tag;

  if (!wb_inventory_parse_tag (text, &lot, &tag))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->list));
      return;
    }

  found = wb_inventory_find_tag (get_job (self), lot, tag);
  if (found->len > 0)
    {
      go_to_found (self, found, FALSE);
    }
  else
    {
      /* Translators: %s is what was typed or scanned. */
      sentence = g_strdup_printf (_("No line has the tag %s."), text);
      say (self, sentence);
    }
  gtk_editable_select_region (self->filter, 0, -1);
}

static void
filter_stop_cb (WbInventoryPage *self)
{
  gtk_editable_set_text (self->filter, "");
  strip_leave_cb (self);
}

/* A tag in the warning: a missing one is entered, any other is gone to. */
static gboolean
tag_link_cb (WbInventoryPage *self,
             const char      *uri)
{
  const char *colon = strchr (uri, ':');
  const char *slash = strrchr (uri, '/');
  g_autofree char *lot = NULL;
  g_autoptr (GPtrArray) found = NULL;
  gint64 tag;

  g_return_val_if_fail (colon != NULL && slash != NULL && slash > colon, TRUE);

  if (slash > colon + 1)
    lot = g_strndup (colon + 1, (gsize) (slash - colon - 1));
  tag = g_ascii_strtoll (slash + 1, NULL, 10);
  if (g_str_has_prefix (uri, "enter:"))
    {
      wb_line_strip_start (self->strip, lot, tag);
      return TRUE;
    }

  found = wb_inventory_find_in_lot (get_job (self), lot, tag);
  gtk_editable_set_text (self->filter, "");
  if (found->len > 0)
    go_to_found (self, found, TRUE);
  return TRUE;
}

/* --- actions ---------------------------------------------------------------------------------- */

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

static GtkWindow *
get_window (WbInventoryPage *self)
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
    g_signal_connect_object (dialog, done, G_CALLBACK (tell), self, G_CONNECT_SWAPPED);
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
    change_line (self, g_ptr_array_index (ids, 0));
  else if (ids->len > 1)
    present_dialog (self, GTK_WINDOW (wb_bulk_dialog_new (get_window (self), self->model, ids)),
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

  job = wb_inventory_remove (get_job (self), ids, &refusal);
  if (job == NULL)
    {
      say (self, refusal);
      return;
    }

  survivor = g_strdup (find_survivor (self, ids));
  wb_job_model_apply (self->model, job, ngettext ("Remove a line", "Remove lines", ids->len));
  sentence = g_strdup_printf (ngettext ("%u line removed", "%u lines removed", ids->len), ids->len);
  tell (self, sentence);
  if (survivor == NULL)
    wb_line_strip_focus (self->strip);
  else
    wb_inventory_list_reveal (self->list, survivor, in_list);
}

static void
lots_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (widget);

  present_dialog (self, GTK_WINDOW (wb_lot_editor_new (get_window (self), self->model)), NULL);
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
  const WbOrder *order = wb_job_order (get_job (WB_INVENTORY_PAGE (widget)));

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
    say (self, sentence);
}

/* --- object ----------------------------------------------------------------------------------- */

static void
fill_sort_menu (WbInventoryPage *self)
{
  guint n_columns;
  const WbInventoryColumn *columns = wb_inventory_columns (&n_columns);

  for (guint i = 0; i < n_columns; i++)
    {
      g_autofree char *action = g_strdup_printf ("inventory.sort::%s", columns[i].id);

      g_menu_append (self->sort_section, _(columns[i].title), action);
    }
}

static void
wb_inventory_page_constructed (GObject *object)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (object);

  G_OBJECT_CLASS (wb_inventory_page_parent_class)->constructed (object);

  if (self->model == NULL)
    return;

  wb_inventory_list_set_model (self->list, self->model);
  wb_line_strip_set_model (self->strip, self->model);
  update (self);
}

static void
wb_inventory_page_get_property (GObject    *object,
                                guint       prop_id,
                                GValue     *value,
                                GParamSpec *pspec)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, self->model);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_inventory_page_set_property (GObject      *object,
                                guint         prop_id,
                                const GValue *value,
                                GParamSpec   *pspec)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (object);

  switch (prop_id)
    {
    case PROP_MODEL:
      self->model = g_value_dup_object (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_inventory_page_dispose (GObject *object)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (object);

  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_INVENTORY_PAGE);
  g_clear_pointer (&self->checked, wb_job_unref);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_inventory_page_parent_class)->dispose (object);
}

static gboolean
wb_inventory_page_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (WB_INVENTORY_PAGE (widget)->strip));
}

static void
install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "inventory.filter", NULL, filter_action);
  gtk_widget_class_install_action (widget_class, "inventory.enter", NULL, enter_action);
  gtk_widget_class_install_action (widget_class, "inventory.sort", "s", sort_action);
  gtk_widget_class_install_action (widget_class, "inventory.change", NULL, change_action);
  gtk_widget_class_install_action (widget_class, "inventory.remove", NULL, remove_action);
  gtk_widget_class_install_action (widget_class, "inventory.lots", NULL, lots_action);
  gtk_widget_class_install_action (widget_class, "inventory.import", NULL, import_action);
  gtk_widget_class_install_action (widget_class, "inventory.export", NULL, export_action);

  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                       "inventory.filter", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_l, GDK_CONTROL_MASK, "inventory.enter",
                                       NULL);
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (
    widget_class, "/org/wainbook/Wainbook/inventory/wb-inventory-page.ui");
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, toasts);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, filter);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, stack);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, list);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, count);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, selected);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, warning);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, tags);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, strip);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, sort_section);
  gtk_widget_class_bind_template_callback (widget_class, filter_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, filter_activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, filter_stop_cb);
  gtk_widget_class_bind_template_callback (widget_class, list_edit_cb);
  gtk_widget_class_bind_template_callback (widget_class, list_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, tag_link_cb);
  gtk_widget_class_bind_template_callback (widget_class, strip_entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, strip_stored_cb);
  gtk_widget_class_bind_template_callback (widget_class, strip_step_cb);
  gtk_widget_class_bind_template_callback (widget_class, strip_leave_cb);
}

static void
wb_inventory_page_class_init (WbInventoryPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->constructed = wb_inventory_page_constructed;
  object_class->get_property = wb_inventory_page_get_property;
  object_class->set_property = wb_inventory_page_set_property;
  object_class->dispose = wb_inventory_page_dispose;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_inventory_page_grab_focus;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  g_type_ensure (WB_TYPE_FIT_SCROLLER);
  g_type_ensure (WB_TYPE_INVENTORY_LIST);
  g_type_ensure (WB_TYPE_LINE_STRIP);
  bind_template (widget_class);
  install_actions (widget_class);
}

static void
wb_inventory_page_init (WbInventoryPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  fill_sort_menu (self);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "inventory.change", FALSE);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "inventory.remove", FALSE);
}

GtkWidget *
wb_inventory_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_INVENTORY_PAGE, "model", model, NULL);
}

void
wb_inventory_page_import (WbInventoryPage *self,
                          GFile           *file)
{
  g_return_if_fail (WB_IS_INVENTORY_PAGE (self));

  present_dialog (self, GTK_WINDOW (wb_import_dialog_new (get_window (self), self->model, file)),
                  "taken");
}

void
wb_inventory_page_export (WbInventoryPage *self,
                          GFile           *file)
{
  g_return_if_fail (WB_IS_INVENTORY_PAGE (self));

  wb_inventory_write_async (get_job (self), file, NULL, written_cb, g_object_ref (self));
}
