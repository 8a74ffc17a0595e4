/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person does on the page of photos, by button or key. All of it changes the job through the
 * page's model. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photos-page-private.h"

#include "desk/photos/wb-photo-inputs.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static void
say_action (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  wb_photos_page_say (WB_PHOTOS_PAGE (widget), g_variant_get_string (parameter, NULL));
}

static void
add_action (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  wb_photo_inputs_ask (widget, FALSE, wb_photos_page_take);
}

static void
add_folder_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  wb_photo_inputs_ask (widget, TRUE, wb_photos_page_take);
}

static void
paste_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  wb_photo_inputs_paste (widget, wb_photos_page_take);
}

static void
stop_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  wb_photo_intake_bar_stop (WB_PHOTOS_PAGE (widget)->intake);
}

static void
open_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (widget);
  g_autoptr (GPtrArray) ids = wb_photos_page_get_selected (self);

  if (ids->len > 0)
    wb_photos_page_open_photo (self, g_ptr_array_index (ids, 0));
}

static void
back_action (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (widget);
  guint i = wb_photos_page_find_shown (self, wb_photo_viewer_get_photo (self->viewer));

  if (g_str_equal (gtk_stack_get_visible_child_name (self->views), "grid"))
    {
      if (wb_photo_filter_is_set (self->filter))
        wb_photo_filter_clear (self->filter);
      wb_photos_page_focus_grid (self);
      return;
    }

  gtk_stack_set_visible_child_name (self->views, "grid");
  wb_photo_viewer_show (self->viewer, NULL);
  wb_photo_compare_show (self->compare, NULL, NULL);
  if (i != GTK_INVALID_LIST_POSITION)
    gtk_widget_activate_action (GTK_WIDGET (self->grid), "list.scroll-to-item", "u", i);
  wb_photos_page_focus_grid (self);
}

static const char *
find_piece (WbPhotosPage *self,
            const char   *photo)
{
  const WbPhoto *record = wb_job_find (wb_photos_page_get_job (self), WB_KIND_PHOTO, photo);

  return record != NULL && record->piece != NULL ? record->piece
                                                 : wb_photo_filter_get_piece (self->filter);
}

static void
compare_action (GtkWidget  *widget,
                const char *name,
                GVariant   *parameter)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (widget);
  g_autoptr (GPtrArray) ids = wb_photos_page_get_selected (self);
  gboolean viewing = g_str_equal (gtk_stack_get_visible_child_name (self->views), "viewer");
  const char *photo = viewing ? wb_photo_viewer_get_photo (self->viewer)
                      : ids->len > 0 ? g_ptr_array_index (ids, 0) : NULL;
  const char *piece = find_piece (self, photo);

  if (piece == NULL)
    {
      wb_photos_page_say (self, _("Select a photo of a piece first; a photo without a piece has "
                                  "nothing to be compared with."));
      return;
    }
  gtk_stack_set_visible_child_name (self->views, "compare");
  wb_photo_compare_show (self->compare, piece, photo);
  gtk_widget_grab_focus (GTK_WIDGET (self->compare));
}

static void
remove_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (widget);
  g_autoptr (GPtrArray) ids = wb_photos_page_get_selected (self);
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autofree char *words = NULL;

  if (ids->len == 0 || !g_str_equal (gtk_stack_get_visible_child_name (self->views), "grid"))
    return;

  job = wb_job_without_many (wb_photos_page_get_job (self), WB_KIND_PHOTO, ids, &error);
  if (job == NULL)
    {
      words = wb_words_error (error);
      wb_photos_page_say (self, words);
      return;
    }
  wb_job_model_apply (self->model, job, _("Remove photos"));
  words = g_strdup_printf (ngettext ("%u photo removed; its file stays in the office",
                                     "%u photos removed; their files stay in the office", ids->len),
                           ids->len);
  if (!gtk_widget_activate_action (widget, "job.tell", "s", words))
    wb_photos_page_say (self, words);
}

static void
assign_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (widget);
  g_autoptr (GPtrArray) ids = wb_photos_page_get_selected (self);

  if (!g_str_equal (gtk_stack_get_visible_child_name (self->views), "grid"))
    return;
  if (ids->len > 0)
    wb_photo_details_focus (self->details);
  else
    wb_photos_page_say (self, _("Select the photos that are to have a piece, then press F2."));
}

static void
filter_action (GtkWidget  *widget,
               const char *name,
               GVariant   *parameter)
{
  gtk_widget_grab_focus (GTK_WIDGET (WB_PHOTOS_PAGE (widget)->filter));
}

static void
check_action (GtkWidget  *widget,
              const char *name,
              GVariant   *parameter)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (widget);

  wb_photo_shelf_forget (self->shelf);
  wb_photo_shelf_check (self->shelf, wb_photos_page_get_job (self));
  wb_photos_page_say (self,
                      _("The files of all photos are being compared with what was taken in."));
}

static void
show_piece_action (GtkWidget  *widget,
                   const char *name,
                   GVariant   *parameter)
{
  WbPhotosPage *self = WB_PHOTOS_PAGE (widget);

  wb_photos_page_show_piece (self, g_variant_get_string (parameter, NULL));
  wb_photos_page_focus_grid (self);
}

void
wb_photos_page_install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "photos.add", NULL, add_action);
  gtk_widget_class_install_action (widget_class, "photos.add-folder", NULL, add_folder_action);
  gtk_widget_class_install_action (widget_class, "photos.paste", NULL, paste_action);
  gtk_widget_class_install_action (widget_class, "photos.stop", NULL, stop_action);
  gtk_widget_class_install_action (widget_class, "photos.open", NULL, open_action);
  gtk_widget_class_install_action (widget_class, "photos.back", NULL, back_action);
  gtk_widget_class_install_action (widget_class, "photos.compare", NULL, compare_action);
  gtk_widget_class_install_action (widget_class, "photos.remove", NULL, remove_action);
  gtk_widget_class_install_action (widget_class, "photos.assign", NULL, assign_action);
  gtk_widget_class_install_action (widget_class, "photos.filter", NULL, filter_action);
  gtk_widget_class_install_action (widget_class, "photos.check", NULL, check_action);
  gtk_widget_class_install_action (widget_class, "photos.say", "s", say_action);
  gtk_widget_class_install_action (widget_class, "photos.show-piece", "s", show_piece_action);

  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_v, GDK_CONTROL_MASK, "photos.paste",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "photos.back", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_c, 0, "photos.compare", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F2, 0, "photos.assign", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_slash, 0, "photos.filter", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Delete, 0, "photos.remove", NULL);
}
