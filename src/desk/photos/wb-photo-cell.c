/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cell is used for many photos while the grid is scrolled, so it only sets texts, and asks for a
 * thumbnail that it gives up again when it goes on to another photo. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-cell.h"

#include "desk/photos/wb-photo-deeds.h"
#include "desk/widgets/wb-row-name.h"
#include "office/wb-photo-pictures.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#define PICTURE_WIDTH  168
#define PICTURE_HEIGHT 126

struct _WbPhotoCell
{
  GtkWidget      parent_instance;

  GtkPicture    *picture;
  GtkImage      *place_holder;
  GtkLabel      *title;
  GtkLabel      *piece;
  GtkLabel      *taken;
  GtkLabel      *imported;
  GtkWidget     *fault;

  WbJobModel    *model;
  WbPhotoShelf  *shelf;
  WbRecordItem  *item;
  GCancellable  *cancellable;
  gulong         item_handler;
  gulong         shelf_handler;
};

G_DEFINE_FINAL_TYPE (WbPhotoCell, wb_photo_cell, GTK_TYPE_WIDGET)

static const WbPhoto *
get_photo (WbPhotoCell *self)
{
  return self->item != NULL ? wb_record_item_get_record (self->item) : NULL;
}

/* --- texts ------------------------------------------------------------------------------------ */

static char *
piece_words (WbPhotoCell   *self,
             const WbPhoto *photo)
{
  WbJob *job = wb_job_model_get_job (self->model);
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, photo->piece);
  g_autofree char *tag = piece != NULL ? wb_words_tag (job, piece) : NULL;
  const char *moment = photo->moment != WB_MOMENT_NONE
                       ? wb_words_enum (&wb_moments, (int) photo->moment) : NULL;

  if (tag != NULL && moment != NULL)
    return g_strjoin (" · ", tag, moment, NULL);
  if (tag != NULL || moment != NULL)
    return g_strdup (tag != NULL ? tag : moment);
  return g_strdup (_("No piece yet"));
}

static void
show_fault (WbPhotoCell *self)
{
  const WbPhoto *photo = get_photo (self);
  const char *words = photo != NULL ? wb_photo_shelf_get_fault (self->shelf, photo) : NULL;

  gtk_widget_set_visible (self->fault, words != NULL);
  gtk_widget_set_tooltip_text (self->fault, words);
}

static void
show_texts (WbPhotoCell *self)
{
  const WbPhoto *photo = get_photo (self);
  g_autofree char *title = wb_photos_title (photo);
  g_autofree char *piece = piece_words (self, photo);
  g_autofree char *taken = wb_words_photo_taken_short (photo);
  g_autofree char *imported = wb_words_photo_imported (photo);
  /* Translators: when a picture was taken, by its camera. */
  g_autofree char *taken_words = g_strdup_printf (_("Taken: %s"), taken);
  /* Translators: when the office took a picture in. */
  g_autofree char *imported_words = g_strdup_printf (_("Taken in: %s"), imported);
  const char *fault = wb_photo_shelf_get_fault (self->shelf, photo);
  g_autofree char *name = g_strjoin (", ", title, piece, taken_words, fault, NULL);

  gtk_label_set_label (self->title, title);
  gtk_label_set_label (self->piece, piece);
  gtk_label_set_label (self->taken, taken_words);
  gtk_label_set_label (self->imported, imported_words);
  wb_row_name_set (GTK_WIDGET (self), name);
  show_fault (self);
}

/* --- the thumbnail ---------------------------------------------------------------------------- */

static void
show_texture (WbPhotoCell *self,
              GdkTexture  *texture)
{
  gtk_picture_set_paintable (self->picture, GDK_PAINTABLE (texture));
  gtk_widget_set_visible (GTK_WIDGET (self->place_holder), texture == NULL);
}

static void
loaded_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (WbPhotoCell) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture = wb_photo_shelf_load_finish (WB_PHOTO_SHELF (object), result,
                                                               &error);

  /* The cell may show another photo by now. */
  if (texture != NULL && g_task_get_cancellable (G_TASK (result)) == self->cancellable)
    show_texture (self, texture);
}

static void
stop_loading (WbPhotoCell *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

static void
load (WbPhotoCell *self)
{
  const WbPhoto *photo = get_photo (self);
  GdkTexture *texture = wb_photo_shelf_peek (self->shelf, photo);

  stop_loading (self);
  show_texture (self, texture);
  if (texture != NULL)
    return;

  self->cancellable = g_cancellable_new ();
  wb_photo_shelf_load_async (self->shelf, photo, self->cancellable, loaded_cb,
                             g_object_ref (self));
}

/* --- the item --------------------------------------------------------------------------------- */

static void
record_cb (WbPhotoCell *self)
{
  show_texts (self);
}

static void
shelf_cb (WbPhotoCell *self,
          const char  *hash)
{
  const WbPhoto *photo = get_photo (self);

  if (photo != NULL && g_strcmp0 (photo->hash, hash) == 0)
    show_texts (self);
}

void
wb_photo_cell_set_item (WbPhotoCell  *self,
                        WbRecordItem *item)
{
  g_return_if_fail (WB_IS_PHOTO_CELL (self));

  if (self->item != NULL)
    g_clear_signal_handler (&self->item_handler, self->item);
  g_set_object (&self->item, item);
  if (item == NULL)
    {
      stop_loading (self);
      show_texture (self, NULL);
      return;
    }

  self->item_handler = g_signal_connect_swapped (item, "notify::record", G_CALLBACK (record_cb),
                                                 self);
  show_texts (self);
  load (self);
}

/* --- making ----------------------------------------------------------------------------------- */

static void
wb_photo_cell_dispose (GObject *object)
{
  WbPhotoCell *self = WB_PHOTO_CELL (object);
  GtkWidget *child;

  stop_loading (self);
  if (self->item != NULL)
    g_clear_signal_handler (&self->item_handler, self->item);
  if (self->shelf != NULL)
    g_clear_signal_handler (&self->shelf_handler, self->shelf);
  g_clear_object (&self->item);
  g_clear_object (&self->shelf);
  g_clear_object (&self->model);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);

  G_OBJECT_CLASS (wb_photo_cell_parent_class)->dispose (object);
}

static void
wb_photo_cell_class_init (WbPhotoCellClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_photo_cell_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "photocell");
}

static GtkLabel *
add_label (WbPhotoCell *self,
           const char  *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), 18);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 18);
  gtk_widget_add_css_class (label, css_class);
  gtk_widget_set_parent (label, GTK_WIDGET (self));
  return GTK_LABEL (label);
}

static void
wb_photo_cell_init (WbPhotoCell *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));
  GtkWidget *overlay = gtk_overlay_new ();

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  self->picture = GTK_PICTURE (gtk_picture_new ());
  gtk_picture_set_can_shrink (self->picture, TRUE);
  gtk_widget_set_size_request (GTK_WIDGET (self->picture), PICTURE_WIDTH, PICTURE_HEIGHT);
  gtk_widget_set_halign (overlay, GTK_ALIGN_START);
  gtk_overlay_set_child (GTK_OVERLAY (overlay), GTK_WIDGET (self->picture));

  self->place_holder = GTK_IMAGE (gtk_image_new_from_icon_name ("image-x-generic-symbolic"));
  gtk_widget_add_css_class (GTK_WIDGET (self->place_holder), "dim-label");
  gtk_image_set_pixel_size (self->place_holder, 32);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), GTK_WIDGET (self->place_holder));

  self->fault = gtk_image_new_from_icon_name ("dialog-warning-symbolic");
  gtk_widget_add_css_class (self->fault, "wb-photo-fault");
  gtk_widget_set_halign (self->fault, GTK_ALIGN_END);
  gtk_widget_set_valign (self->fault, GTK_ALIGN_START);
  gtk_widget_set_visible (self->fault, FALSE);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), self->fault);
  gtk_widget_set_parent (overlay, GTK_WIDGET (self));

  self->piece = add_label (self, "heading");
  self->title = add_label (self, "wb-photo-title");
  self->taken = add_label (self, "caption");
  self->imported = add_label (self, "caption");
  gtk_widget_add_css_class (GTK_WIDGET (self->imported), "dim-label");
}

GtkWidget *
wb_photo_cell_new (WbJobModel   *model,
                   WbPhotoShelf *shelf)
{
  WbPhotoCell *self = g_object_new (WB_TYPE_PHOTO_CELL, NULL);

  self->model = g_object_ref (model);
  self->shelf = g_object_ref (shelf);
  self->shelf_handler = g_signal_connect_swapped (shelf, "changed", G_CALLBACK (shelf_cb), self);
  return GTK_WIDGET (self);
}
