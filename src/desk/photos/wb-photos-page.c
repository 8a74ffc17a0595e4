/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The photos of the open job: a grid of all of them with what the selected ones show beside it,
 * one of them large with its pins, or two of one piece side by side. The page ties these
 * together; what a person does with the photos is in wb-photos-page-actions.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photos-page-private.h"

#include "desk/photos/wb-photo-cell.h"
#include "desk/photos/wb-photo-inputs.h"
#include "desk/widgets/wb-focus-within.h"
#include "desk/widgets/wb-gradual-list.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

enum
{
  PROP_0,
  PROP_MODEL,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (WbPhotosPage, wb_photos_page, GTK_TYPE_WIDGET)

WbJob *
wb_photos_page_get_job (WbPhotosPage *self)
{
  return wb_job_model_get_job (self->model);
}

static const WbPhoto *
nth_shown (WbPhotosPage *self,
           guint         i)
{
  g_autoptr (WbRecordItem) item = g_list_model_get_item (G_LIST_MODEL (self->shown), i);

  return item != NULL ? wb_record_item_get_record (item) : NULL;
}

/* Returns: (transfer full): ids of the selected photos */
GPtrArray *
wb_photos_page_get_selected (WbPhotosPage *self)
{
  GPtrArray *ids = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GtkBitset) selected =
    gtk_selection_model_get_selection (GTK_SELECTION_MODEL (self->selection));

  for (guint i = 0; i < gtk_bitset_get_size (selected); i++)
    {
      const WbPhoto *photo = nth_shown (self, gtk_bitset_get_nth (selected, i));

      if (photo != NULL)
        g_ptr_array_add (ids, g_strdup (photo->record.id));
    }
  return ids;
}

/* --- saying ----------------------------------------------------------------------------------- */

void
wb_photos_page_say (WbPhotosPage *self,
                    const char   *sentence)
{
  AdwToast *toast = adw_toast_new (sentence);

  adw_toast_set_timeout (toast, 8);
  /* Before what waits to be read: it answers a key that was just pressed. */
  adw_toast_set_priority (toast, ADW_TOAST_PRIORITY_HIGH);
  adw_toast_overlay_add_toast (self->toasts, toast);
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
show_faults (WbPhotosPage *self)
{
  guint n = wb_photo_shelf_count_faults (self->shelf, wb_photos_page_get_job (self));
  g_autofree char *words =
    g_strdup_printf (ngettext ("The file of %u photo needs attention; the sign at it says what is "
                               "wrong.",
                               "The files of %u photos need attention; the signs at them say what "
                               "is wrong.", n), n);

  gtk_label_set_label (self->faults, words);
  gtk_widget_set_visible (GTK_WIDGET (self->faults), n > 0);
}

static void
show_count (WbPhotosPage *self)
{
  guint n_all = wb_job_count (wb_photos_page_get_job (self), WB_KIND_PHOTO);
  guint n_shown = g_list_model_get_n_items (G_LIST_MODEL (self->shown));
  g_autofree char *words = NULL;

  if (wb_photo_filter_is_set (self->filter))
    /* Translators: photos that are shown, all photos. */
    words = g_strdup_printf (ngettext ("%u of %u photo", "%u of %u photos", n_all), n_shown, n_all);
  else
    words = g_strdup_printf (ngettext ("%u photo", "%u photos", n_all), n_all);
  gtk_label_set_label (self->count, words);
  gtk_widget_set_visible (self->side_scroller, n_all > 0);
  gtk_stack_set_visible_child_name (self->stack, n_all == 0 ? "empty" : n_shown == 0 ? "none"
                                                                                     : "photos");
}

static void
show_selected (WbPhotosPage *self)
{
  g_autoptr (GPtrArray) ids = wb_photos_page_get_selected (self);

  wb_photo_details_show (self->details, ids);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "photos.open", ids->len > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "photos.remove", ids->len > 0);
}

/* A photo may begin or cease to match by what was changed of it or of its pins. */
static void
job_cb (WbPhotosPage *self)
{
  const char *view = gtk_stack_get_visible_child_name (self->views);

  wb_photo_filter_update (self->filter);
  if (wb_photo_filter_is_set (self->filter))
    gtk_filter_changed (GTK_FILTER (self->custom_filter), GTK_FILTER_CHANGE_DIFFERENT);
  show_count (self);
  show_selected (self);
  show_faults (self);
  if (g_str_equal (view, "viewer"))
    {
      if (wb_job_find (wb_photos_page_get_job (self), WB_KIND_PHOTO,
                       wb_photo_viewer_get_photo (self->viewer)) != NULL)
        wb_photo_viewer_update (self->viewer);
      else
        gtk_widget_activate_action (GTK_WIDGET (self), "photos.back", NULL);
    }
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    wb_photo_shelf_check (self->shelf, wb_photos_page_get_job (self));
}

static void
filter_cb (WbPhotosPage *self)
{
  gtk_filter_changed (GTK_FILTER (self->custom_filter), GTK_FILTER_CHANGE_DIFFERENT);
  show_count (self);
}

static void
shelf_cb (WbPhotosPage *self)
{
  show_faults (self);
  show_selected (self);
}

static gboolean
matches (gpointer item,
         gpointer data)
{
  return wb_photo_filter_matches (WB_PHOTOS_PAGE (data)->filter, wb_record_item_get_record (item));
}

/* --- taking in -------------------------------------------------------------------------------- */

/* New photos are of what is shown: of the piece and the moment that are filtered for. */
void
wb_photos_page_take (GtkWidget  *widget,
                     GPtrArray  *sources,
                     const char *words)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (gtk_widget_get_ancestor (widget, WB_TYPE_PHOTOS_PAGE));

  if (sources == NULL)
    wb_photos_page_say (self, words);
  else
    wb_photo_intake_bar_take (self->intake, sources, wb_photo_filter_get_piece (self->filter),
                              wb_photo_filter_get_moment (self->filter));
}

/* --- views ------------------------------------------------------------------------------------ */

void
wb_photos_page_focus_grid (WbPhotosPage *self)
{
  const char *shown = gtk_stack_get_visible_child_name (self->stack);

  gtk_widget_grab_focus (g_str_equal (shown, "empty") ? self->first
                         : g_str_equal (shown, "none") ? self->again : GTK_WIDGET (self->grid));
}

guint
wb_photos_page_find_shown (WbPhotosPage *self,
                           const char   *id)
{
  wb_gradual_list_finish (self->in_grid);
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (self->shown)); i++)
    if (g_strcmp0 (nth_shown (self, i)->record.id, id) == 0)
      return i;
  return GTK_INVALID_LIST_POSITION;
}

void
wb_photos_page_open_photo (WbPhotosPage *self,
                           const char   *id)
{
  gtk_stack_set_visible_child_name (self->views, "viewer");
  wb_photo_viewer_show (self->viewer, id);
  gtk_widget_grab_focus (GTK_WIDGET (self->viewer));
}

static void
activate_cb (WbPhotosPage *self,
             guint         position)
{
  const WbPhoto *photo = nth_shown (self, position);

  if (photo != NULL)
    wb_photos_page_open_photo (self, photo->record.id);
}

/* Beyond the last photo there is nothing more. */
static void
step_cb (WbPhotosPage *self,
         int           step)
{
  guint i = wb_photos_page_find_shown (self, wb_photo_viewer_get_photo (self->viewer));
  const WbPhoto *next = i != GTK_INVALID_LIST_POSITION ? nth_shown (self, i + (guint) step) : NULL;

  if (next == NULL)
    {
      gtk_widget_error_bell (GTK_WIDGET (self));
      return;
    }
  gtk_selection_model_select_item (GTK_SELECTION_MODEL (self->selection), i + (guint) step, TRUE);
  wb_photo_viewer_show (self->viewer, next->record.id);
}

/* --- making ----------------------------------------------------------------------------------- */

static void
setup_cb (WbPhotosPage *self,
          GtkListItem  *item)
{
  gtk_list_item_set_child (item, wb_photo_cell_new (self->model, self->shelf));
}

static void
bind_cb (WbPhotosPage *self,
         GtkListItem  *item)
{
  wb_photo_cell_set_item (WB_PHOTO_CELL (gtk_list_item_get_child (item)),
                          gtk_list_item_get_item (item));
}

static void
unbind_cb (WbPhotosPage *self,
           GtkListItem  *item)
{
  wb_photo_cell_set_item (WB_PHOTO_CELL (gtk_list_item_get_child (item)), NULL);
}

static void
make_grid (WbPhotosPage *self)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  self->custom_filter = gtk_custom_filter_new (matches, self, NULL);
  self->shown =
    gtk_filter_list_model_new (g_object_ref (wb_job_model_get_records (self->model, WB_KIND_PHOTO)),
                               GTK_FILTER (g_object_ref (self->custom_filter)));
  self->in_grid = wb_gradual_list_new (G_LIST_MODEL (g_object_ref (self->shown)),
                                       GTK_WIDGET (self->grid));
  self->selection = gtk_multi_selection_new (G_LIST_MODEL (g_object_ref (self->in_grid)));
  g_signal_connect_object (factory, "setup", G_CALLBACK (setup_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (factory, "unbind", G_CALLBACK (unbind_cb), self, G_CONNECT_SWAPPED);
  gtk_grid_view_set_model (self->grid, GTK_SELECTION_MODEL (self->selection));
  gtk_grid_view_set_factory (self->grid, factory);
  g_signal_connect_object (self->selection, "selection-changed", G_CALLBACK (show_selected), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->shown, "items-changed", G_CALLBACK (show_count), self,
                           G_CONNECT_SWAPPED);
}

static void
set_model (WbPhotosPage *self,
           WbJobModel   *model)
{
  if (model == NULL)
    return;

  self->model = g_object_ref (model);
  self->shelf = wb_photo_shelf_new (wb_job_model_get_office (model));
  self->filter = WB_PHOTO_FILTER (wb_photo_filter_new (model));
  self->details = WB_PHOTO_DETAILS (wb_photo_details_new (model, self->shelf));
  self->intake = WB_PHOTO_INTAKE_BAR (wb_photo_intake_bar_new (model));
  self->viewer = WB_PHOTO_VIEWER (wb_photo_viewer_new (model, self->shelf));
  self->compare = WB_PHOTO_COMPARE (wb_photo_compare_new (model, self->shelf));

  gtk_widget_set_hexpand (GTK_WIDGET (self->filter), TRUE);
  gtk_box_prepend (self->bar, GTK_WIDGET (self->filter));
  adw_bin_set_child (self->side, GTK_WIDGET (self->details));
  gtk_box_append (self->foot, GTK_WIDGET (self->intake));
  gtk_stack_add_named (self->views, GTK_WIDGET (self->viewer), "viewer");
  gtk_stack_add_named (self->views, GTK_WIDGET (self->compare), "compare");
  make_grid (self);

  g_signal_connect_object (self->filter, "changed", G_CALLBACK (filter_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->viewer, "step", G_CALLBACK (step_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->shelf, "changed", G_CALLBACK (shelf_cb), self, G_CONNECT_SWAPPED);
  g_signal_group_set_target (self->model_signals, model);
  wb_photo_inputs_accept_drops (GTK_WIDGET (self->views), wb_photos_page_take);
  job_cb (self);
}

static void
wb_photos_page_map (GtkWidget *widget)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (widget);

  GTK_WIDGET_CLASS (wb_photos_page_parent_class)->map (widget);

  /* Each time the page is opened: files may vanish while it is not looked at. */
  wb_photo_shelf_forget (self->shelf);
  wb_photo_shelf_check (self->shelf, wb_photos_page_get_job (self));
}

static gboolean
wb_photos_page_grab_focus (GtkWidget *widget)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (widget);
  const char *view = gtk_stack_get_visible_child_name (self->views);

  if (g_str_equal (view, "viewer"))
    return gtk_widget_grab_focus (GTK_WIDGET (self->viewer));
  if (g_str_equal (view, "compare"))
    return gtk_widget_grab_focus (GTK_WIDGET (self->compare));
  wb_photos_page_focus_grid (self);
  return TRUE;
}

static void
wb_photos_page_get_property (GObject    *object,
                             guint       prop_id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  switch (prop_id)
    {
    case PROP_MODEL:
      g_value_set_object (value, WB_PHOTOS_PAGE (object)->model);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_photos_page_set_property (GObject      *object,
                             guint         prop_id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  switch (prop_id)
    {
    case PROP_MODEL:
      set_model (WB_PHOTOS_PAGE (object), g_value_get_object (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
wb_photos_page_dispose (GObject *object)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (object);
  GtkWidget *child;

  g_clear_object (&self->model_signals);
  if (self->shelf != NULL)
    wb_photo_shelf_close (self->shelf);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_PHOTOS_PAGE);
  g_clear_object (&self->selection);
  g_clear_object (&self->in_grid);
  g_clear_object (&self->shown);
  g_clear_object (&self->custom_filter);
  g_clear_object (&self->shelf);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_photos_page_parent_class)->dispose (object);
}

static void
wb_photos_page_class_init (WbPhotosPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_photos_page_get_property;
  object_class->set_property = wb_photos_page_set_property;
  object_class->dispose = wb_photos_page_dispose;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_photos_page_grab_focus;
  widget_class->map = wb_photos_page_map;

  properties[PROP_MODEL] =
    g_param_spec_object ("model", NULL, NULL, WB_TYPE_JOB_MODEL,
                         G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  wb_photos_page_install_actions (widget_class);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/photos/wb-photos-page.ui");
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, toasts);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, views);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, bar);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, count);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, faults);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, stack);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, first);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, again);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, grid);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, side_scroller);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, side);
  gtk_widget_class_bind_template_child (widget_class, WbPhotosPage, foot);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
}

static void
wb_photos_page_init (WbPhotosPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->model_signals = g_signal_group_new (WB_TYPE_JOB_MODEL);
  g_signal_group_connect_swapped (self->model_signals, "notify::job", G_CALLBACK (job_cb), self);
}

GtkWidget *
wb_photos_page_new (WbJobModel *model)
{
  return g_object_new (WB_TYPE_PHOTOS_PAGE, "model", model, NULL);
}

void
wb_photos_page_show_piece (WbPhotosPage *self,
                           const char   *piece)
{
  g_return_if_fail (WB_IS_PHOTOS_PAGE (self));

  if (!g_str_equal (gtk_stack_get_visible_child_name (self->views), "grid"))
    gtk_widget_activate_action (GTK_WIDGET (self), "photos.back", NULL);
  wb_photo_filter_clear (self->filter);
  wb_photo_filter_set_text (self->filter, piece != NULL ? piece : "");
}
