/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small pictures of one piece. They are made anew only when other photos are to be shown, so that
 * whoever is in one stays there while the claim is worked on. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-evidence-photos.h"

#include <glib/gi18n.h>

#include "core/wb-photo.h"
#include "desk/photos/wb-photo-deeds.h"
#include "desk/photos/wb-photo-shelf.h"
#include "desk/widgets/wb-flow-layout.h"
#include "desk/widgets/wb-row-name.h"
#include "office/wb-photo-pictures.h"
#include "office/wb-words.h"

/* Pixels: as wide and as high. */
#define PICTURE_SIZE 144

/* More are on the photos page. */
#define MOST_SHOWN 8

struct _WbEvidencePhotos
{
  GtkWidget     parent_instance;

  WbPhotoShelf *shelf;
  GCancellable *cancellable;
  GPtrArray    *shown;       /* WbPhoto, in the order of the move */
  char         *tag;         /* of the piece, as a person types it */
};

G_DEFINE_FINAL_TYPE (WbEvidencePhotos, wb_evidence_photos, GTK_TYPE_WIDGET)

/* --- which ------------------------------------------------------------------------------------ */

/* Returns: (transfer full) (element-type WbPhoto): by the moments at which they were taken. */
static GPtrArray *
list_photos (WbJob      *job,
             const char *piece)
{
  GPtrArray *photos = g_ptr_array_new_with_free_func (wb_record_unref);

  for (gsize m = 0; piece != NULL && m < wb_moments.n_values; m++)
    for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
      {
        const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);

        if ((int) photo->moment == wb_moments.values[m].value
            && wb_photo_shows_piece (job, photo, piece))
          g_ptr_array_add (photos, wb_record_ref ((gpointer) photo));
      }
  return photos;
}

static gboolean
is_shown (WbEvidencePhotos *self,
          GPtrArray        *photos)
{
  if (self->shown == NULL || self->shown->len != photos->len)
    return FALSE;
  for (guint i = 0; i < photos->len; i++)
    if (!wb_record_equal (g_ptr_array_index (self->shown, i), g_ptr_array_index (photos, i)))
      return FALSE;
  return TRUE;
}

/* --- one picture ------------------------------------------------------------------------------ */

static void
loaded_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (GtkImage) picture = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture = wb_photo_shelf_load_finish (WB_PHOTO_SHELF (object), result,
                                                               &error);

  if (texture != NULL)
    gtk_image_set_from_paintable (picture, GDK_PAINTABLE (texture));
  else if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    {
      g_autofree char *words = wb_words_error (error);

      gtk_widget_set_tooltip_text (GTK_WIDGET (picture), words);
    }
}

static GtkWidget *
new_picture (WbEvidencePhotos *self,
             const WbPhoto    *photo)
{
  GdkTexture *texture = wb_photo_shelf_peek (self->shelf, photo);
  GtkWidget *picture = texture != NULL
                       ? gtk_image_new_from_paintable (GDK_PAINTABLE (texture))
                       : gtk_image_new_from_icon_name ("image-x-generic-symbolic");

  gtk_image_set_pixel_size (GTK_IMAGE (picture), PICTURE_SIZE);
  gtk_accessible_update_state (GTK_ACCESSIBLE (picture), GTK_ACCESSIBLE_STATE_HIDDEN, TRUE, -1);
  if (texture == NULL)
    wb_photo_shelf_load_async (self->shelf, photo, self->cancellable, loaded_cb,
                               g_object_ref (picture));
  return picture;
}

static void
clicked_cb (WbEvidencePhotos *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "job.show-photos", "s", self->tag);
}

static GtkWidget *
new_button (WbEvidencePhotos *self,
            const WbPhoto    *photo)
{
  const char *moment = photo->moment != WB_MOMENT_NONE
                       ? wb_words_enum (&wb_moments, (int) photo->moment) : _("Moment not known");
  GtkWidget *button = gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *label = gtk_label_new (moment);
  g_autofree char *title = wb_photos_title (photo);
  g_autofree char *taken = wb_words_photo_taken (photo);
  /* Translators: a moment such as “At origin”, the caption of a photo, and when it was taken. */
  g_autofree char *name = g_strdup_printf (_("Photo, %s: %s, taken: %s"), moment, title, taken);

  gtk_widget_add_css_class (label, "caption");
  gtk_box_append (GTK_BOX (box), new_picture (self, photo));
  gtk_box_append (GTK_BOX (box), label);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, name);
  wb_row_name_set (button, name);
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
  return button;
}

/* --- all of them ------------------------------------------------------------------------------ */

static void
clear (WbEvidencePhotos *self)
{
  GtkWidget *child;

  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  g_clear_pointer (&self->shown, g_ptr_array_unref);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
}

static void
add_more (WbEvidencePhotos *self,
          guint             n)
{
  g_autofree char *words = g_strdup_printf (ngettext ("One _more…", "%u _more…", n), n);
  GtkWidget *button = gtk_button_new_with_mnemonic (words);

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_set_parent (button, GTK_WIDGET (self));
}

static void
wb_evidence_photos_dispose (GObject *object)
{
  WbEvidencePhotos *self = WB_EVIDENCE_PHOTOS (object);

  clear (self);
  if (self->shelf != NULL)
    wb_photo_shelf_close (self->shelf);
  g_clear_object (&self->shelf);
  g_clear_pointer (&self->tag, g_free);

  G_OBJECT_CLASS (wb_evidence_photos_parent_class)->dispose (object);
}

static void
wb_evidence_photos_class_init (WbEvidencePhotosClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = wb_evidence_photos_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), WB_TYPE_FLOW_LAYOUT);
}

static void
wb_evidence_photos_init (WbEvidencePhotos *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

void
wb_evidence_photos_show (WbEvidencePhotos *self,
                         WbOffice         *office,
                         WbJob            *job,
                         const char       *piece)
{
  g_autoptr (GPtrArray) photos = list_photos (job, piece);

  g_return_if_fail (WB_IS_EVIDENCE_PHOTOS (self));

  g_free (self->tag);
  self->tag = wb_photos_tag_text (job, piece);
  if (is_shown (self, photos))
    return;

  clear (self);
  if (self->shelf == NULL && photos->len > 0)
    self->shelf = wb_photo_shelf_new (office);
  self->cancellable = g_cancellable_new ();
  for (guint i = 0; i < photos->len && i < MOST_SHOWN; i++)
    gtk_widget_set_parent (new_button (self, g_ptr_array_index (photos, i)), GTK_WIDGET (self));
  if (photos->len > MOST_SHOWN)
    add_more (self, photos->len - MOST_SHOWN);
  gtk_widget_set_visible (GTK_WIDGET (self), photos->len > 0);
  self->shown = g_steal_pointer (&photos);
}
