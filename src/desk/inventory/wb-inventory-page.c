/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inventory of the open job: the table of its lines above, the strip for entering and changing
 * them below, and between them what the lines come to. The page ties these together; finding a line
 * is in wb-inventory-page-seek.c, the deeds for many lines are in wb-inventory-page-actions.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-inventory-page-private.h"

#include "desk/inventory/wb-groups-overview.h"
#include "desk/inventory/wb-inventory-summary.h"
#include "desk/widgets/wb-fit-scroller.h"
#include "desk/widgets/wb-focus-within.h"
#include "desk/widgets/wb-menu-later.h"
#include "office/wb-words-trail.h"

#include <glib/gi18n.h>

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbInventoryPage, wb_inventory_page, GTK_TYPE_WIDGET)

WbJob *
wb_inventory_page_get_job (WbInventoryPage *self)
{
  return wb_job_model_get_job (self->model);
}

/* --- saying ----------------------------------------------------------------------------------- */

void
wb_inventory_page_say (WbInventoryPage *self,
                       const char      *sentence)
{
  AdwToast *toast = adw_toast_new (sentence);

  if (self->said != NULL)
    adw_toast_dismiss (self->said);
  g_set_weak_pointer (&self->said, toast);
  adw_toast_set_timeout (toast, 8);
  adw_toast_overlay_add_toast (self->toasts, toast);
}

void
wb_inventory_page_tell (WbInventoryPage *self,
                        const char      *sentence)
{
  if (!gtk_widget_activate_action (GTK_WIDGET (self), "job.tell", "s", sentence))
    wb_inventory_page_say (self, sentence);
}

/* --- showing ---------------------------------------------------------------------------------- */

/* A line each: the tags of the lots, then articles, sets and what is of high value. */
static char *
collect_warnings (WbInventoryPage *self)
{
  char *warnings[] = {
    wb_inventory_summary_tags (self->checked),
    wb_groups_overview_warn (self->checked),
    wb_high_value_overview_warn (self->model),
  };
  GString *all = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (warnings); i++)
    {
      if (warnings[i] != NULL)
        g_string_append_printf (all, "%s%s", all->len > 0 ? "\n" : "", warnings[i]);
      g_free (warnings[i]);
    }
  return g_string_free (all, FALSE);
}

static void
update_tags (WbInventoryPage *self)
{
  g_autofree char *markup = NULL;

  if (self->checked == wb_inventory_page_get_job (self))
    return;

  g_clear_pointer (&self->checked, wb_job_unref);
  self->checked = wb_job_ref (wb_inventory_page_get_job (self));
  markup = collect_warnings (self);
  gtk_label_set_markup (self->tags, markup);
  gtk_widget_set_visible (self->warning, *markup != '\0');
}

/* One line also answers where its piece is now. */
static char *
describe_selected (WbInventoryPage *self,
                   GPtrArray       *ids)
{
  WbJob *job = wb_job_model_get_job (self->model);
  g_autofree char *text = wb_inventory_summary_selected (job, ids);
  g_autoptr (WbTrail) trail = NULL;
  g_autofree char *where = NULL;
  gint piece = ids->len == 1 ? wb_job_index (job, WB_KIND_PIECE, g_ptr_array_index (ids, 0)) : -1;

  if (piece < 0 || wb_job_count (job, WB_KIND_HANDOVER) == 0)
    return g_steal_pointer (&text);

  trail = wb_trail_new (job);
  where = wb_words_whereabouts (trail, (guint) piece);
  return g_strdup_printf ("%s\n%s", text, where);
}

static void
update (WbInventoryPage *self)
{
  GListModel *shown = G_LIST_MODEL (wb_inventory_list_get_selection (self->list));
  guint n_all = wb_job_count (wb_inventory_page_get_job (self), WB_KIND_PIECE);
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (self->list);
  g_autofree char *count = wb_inventory_summary_count (shown, n_all);
  g_autofree char *selected = describe_selected (self, ids);

  if (g_list_model_get_n_items (shown) == 0 && n_all > 0
      && wb_inventory_list_is_filtered (self->list))
    gtk_stack_set_visible_child_name (self->stack, "none");
  else
    gtk_stack_set_visible_child_name (self->stack, n_all > 0 ? "lines" : "empty");
  gtk_label_set_text (self->count, count);
  gtk_label_set_text (self->selected, selected != NULL ? selected : "");
  wb_inventory_page_enable_actions (self, ids->len);
  update_tags (self);
}

static void
list_changed_cb (WbInventoryPage *self)
{
  update (self);
}

/* --- the strip and the list ------------------------------------------------------------------- */

void
wb_inventory_page_change_line (WbInventoryPage *self,
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
  wb_inventory_page_change_line (self, id);
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
      wb_inventory_page_change_line (self, next);
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

static const char *
last_line_id (WbInventoryPage *self)
{
  const WbJob *job = wb_inventory_page_get_job (self);
  const WbRecord *last = wb_job_nth (job, WB_KIND_PIECE, wb_job_count (job, WB_KIND_PIECE) - 1);

  return last->id;
}

/* From a new line, up is the line that was entered last. */
static void
strip_step_cb (WbInventoryPage *self,
               int              step)
{
  g_autofree char *id = g_strdup (wb_line_strip_get_changed (self->strip));
  guint n = wb_job_count (wb_inventory_page_get_job (self), WB_KIND_PIECE);

  if (id != NULL)
    step_from (self, id, step);
  else if (step < 0 && n > 0)
    wb_inventory_page_change_line (self, last_line_id (self));
  else
    gtk_widget_error_bell (GTK_WIDGET (self));
}

void
wb_inventory_page_leave_to_list (WbInventoryPage *self)
{
  g_autoptr (GPtrArray) ids = wb_inventory_list_get_selected (self->list);

  if (ids->len > 0)
    wb_inventory_list_reveal (self->list, g_ptr_array_index (ids, 0), TRUE);
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->list));
}

static void
strip_lost_cb (WbInventoryPage *self)
{
  wb_inventory_page_say (self, _("The line that you were changing was removed meanwhile. What you "
                                 "typed is kept as a new line."));
}

/* --- object ----------------------------------------------------------------------------------- */

static void
wb_inventory_page_constructed (GObject *object)
{
  WbInventoryPage *self = WB_INVENTORY_PAGE (object);
  guint n_all;

  G_OBJECT_CLASS (wb_inventory_page_parent_class)->constructed (object);

  if (self->model == NULL)
    return;

  n_all = wb_job_count (wb_inventory_page_get_job (self), WB_KIND_PIECE);
  wb_inventory_list_set_model (self->list, self->model);
  wb_line_strip_set_model (self->strip, self->model);
  gtk_stack_set_visible_child_name (self->stack, n_all > 0 ? "lines" : "empty");
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
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (self), WB_TYPE_INVENTORY_PAGE);
  g_clear_weak_pointer (&self->said);
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
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, menu_button);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, menu);
  gtk_widget_class_bind_template_child (widget_class, WbInventoryPage, sort_section);
  gtk_widget_class_bind_template_callback (widget_class, list_edit_cb);
  gtk_widget_class_bind_template_callback (widget_class, list_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, strip_entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, strip_stored_cb);
  gtk_widget_class_bind_template_callback (widget_class, strip_step_cb);
  gtk_widget_class_bind_template_callback (widget_class, strip_lost_cb);
  gtk_widget_class_bind_template_callback_full (widget_class, "strip_leave_cb",
                                                G_CALLBACK (wb_inventory_page_leave_to_list));
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
  wb_inventory_page_bind_seek (widget_class);
  wb_inventory_page_install_actions (widget_class);
}

static void
wb_inventory_page_init (WbInventoryPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  wb_inventory_page_fill_sort_menu (self);
  wb_menu_later (self->menu_button, G_MENU_MODEL (self->menu));
  wb_inventory_page_enable_actions (self, 0);
  wb_inventory_page_watch_scanner (self);
}

GtkWidget *
wb_inventory_page_new (WbJobModel *model)
{
  g_return_val_if_fail (WB_IS_JOB_MODEL (model), NULL);

  return g_object_new (WB_TYPE_INVENTORY_PAGE, "model", model, NULL);
}
