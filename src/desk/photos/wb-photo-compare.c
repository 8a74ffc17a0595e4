/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two sides that are alike: a heading, a list of the photos there are, and the chosen one.
 * Nothing is changed here. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-compare.h"

#include "desk/photos/wb-photo-canvas.h"
#include "desk/photos/wb-photo-deeds.h"
#include "desk/widgets/wb-focus-within.h"
#include "office/wb-photo-pictures.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/** One half of the page. */
typedef struct
{
  WbPhotoCompare *page;
  gboolean        delivery;
  GtkDropDown    *choice;
  GtkLabel       *words;
  WbPhotoCanvas  *canvas;
  GPtrArray      *photos;       /* ids */
  GCancellable   *cancellable;
} Side;

struct _WbPhotoCompare
{
  GtkWidget      parent_instance;

  GtkWidget     *box;
  GtkLabel      *title;
  GtkBox        *sides_box;
  Side           sides[2];

  WbJobModel    *model;
  WbPhotoShelf  *shelf;
};

G_DEFINE_FINAL_TYPE (WbPhotoCompare, wb_photo_compare, GTK_TYPE_WIDGET)

/* --- one side --------------------------------------------------------------------------------- */

static const WbPhoto *
chosen_photo (Side *side)
{
  guint i = gtk_drop_down_get_selected (side->choice);

  if (side->photos == NULL || i >= side->photos->len)
    return NULL;
  return wb_job_find (wb_job_model_get_job (side->page->model), WB_KIND_PHOTO,
                      g_ptr_array_index (side->photos, i));
}

static void
stop_loading (Side *side)
{
  g_cancellable_cancel (side->cancellable);
  g_clear_object (&side->cancellable);
}

static void
loaded (Side         *side,
        GAsyncResult *result)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPhotoPicture) picture = wb_photo_picture_load_finish (result, &error);
  const WbPhoto *photo = chosen_photo (side);

  if (side->cancellable == NULL ||
      g_task_get_cancellable (G_TASK (result)) != side->cancellable || photo == NULL)
    return;

  g_clear_object (&side->cancellable);
  wb_photo_canvas_set_picture (side->canvas, picture);
  if (picture == NULL)
    {
      g_autofree char *words = wb_words_error (error);

      wb_photo_shelf_note_error (side->page->shelf, photo, error);
      gtk_label_set_label (side->words, words);
    }
}

static void
origin_loaded_cb (GObject      *object,
                  GAsyncResult *result,
                  gpointer      data)
{
  g_autoptr (WbPhotoCompare) self = data;

  loaded (&self->sides[0], result);
}

static void
delivery_loaded_cb (GObject      *object,
                    GAsyncResult *result,
                    gpointer      data)
{
  g_autoptr (WbPhotoCompare) self = data;

  loaded (&self->sides[1], result);
}

static void
show_chosen (Side *side)
{
  const WbPhoto *photo = chosen_photo (side);
  g_autofree char *taken = NULL;
  g_autofree char *words = NULL;

  stop_loading (side);
  wb_photo_canvas_set_picture (side->canvas, NULL);
  if (photo == NULL)
    {
      wb_photo_canvas_set_pins (side->canvas, wb_job_model_get_job (side->page->model), NULL);
      gtk_label_set_label (side->words,
                           side->delivery ? _("No photo of this piece from delivery yet.")
                                          : _("No photo of this piece from origin yet."));
      return;
    }

  taken = wb_words_photo_taken (photo);
  words = g_strdup_printf (_("Taken: %s"), taken);
  gtk_label_set_label (side->words, words);
  wb_photo_canvas_set_pins (side->canvas, wb_job_model_get_job (side->page->model),
                            photo->record.id);
  side->cancellable = g_cancellable_new ();
  wb_photo_picture_load_async (wb_photo_shelf_get_office (side->page->shelf), photo,
                               side->cancellable,
                               side->delivery ? delivery_loaded_cb : origin_loaded_cb,
                               g_object_ref (side->page));
}

static void
choice_cb (GtkDropDown *choice,
           GParamSpec  *pspec,
           Side        *side)
{
  if (side->photos != NULL)
    show_chosen (side);
}

static void
fill_side (Side       *side,
           const char *piece,
           const char *first)
{
  WbJob *job = wb_job_model_get_job (side->page->model);
  g_autoptr (GPtrArray) photos = wb_photos_of (job, piece, side->delivery);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint chosen = 0;

  g_clear_pointer (&side->photos, g_ptr_array_unref);
  for (guint i = 0; i < photos->len; i++)
    {
      const WbPhoto *photo = g_ptr_array_index (photos, i);
      g_autofree char *title = wb_photos_title (photo);

      gtk_string_list_append (names, title);
      if (g_strcmp0 (photo->record.id, first) == 0)
        chosen = i;
    }
  gtk_drop_down_set_model (side->choice, G_LIST_MODEL (names));
  gtk_widget_set_visible (GTK_WIDGET (side->choice), photos->len > 0);
  if (photos->len > 0)
    gtk_drop_down_set_selected (side->choice, chosen);

  side->photos = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < photos->len; i++)
    g_ptr_array_add (side->photos,
                     g_strdup (((const WbRecord *) g_ptr_array_index (photos, i))->id));
  show_chosen (side);
}

static void
make_side (WbPhotoCompare *self,
           Side           *side,
           gboolean        delivery)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *button;
  GtkWidget *heading = gtk_label_new (delivery ? _("At delivery") : _("At origin"));

  side->page = self;
  side->delivery = delivery;
  side->choice = GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL));
  side->words = GTK_LABEL (gtk_label_new (NULL));
  side->canvas = WB_PHOTO_CANVAS (wb_photo_canvas_new ());
  wb_photo_canvas_set_takes_places (side->canvas, FALSE);

  gtk_widget_add_css_class (heading, "heading");
  gtk_label_set_xalign (GTK_LABEL (heading), 0);
  gtk_label_set_xalign (side->words, 0);
  gtk_label_set_wrap (side->words, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (side->words), "dim-label");
  gtk_accessible_update_property (GTK_ACCESSIBLE (side->choice), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  delivery ? _("Photo from delivery") : _("Photo from origin"), -1);
  /* It is the button within that has the focus. */
  button = gtk_widget_get_first_child (GTK_WIDGET (side->choice));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  delivery ? _("Photo from delivery") : _("Photo from origin"), -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (side->canvas), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  delivery ? _("At delivery") : _("At origin"), -1);
  gtk_box_append (GTK_BOX (box), heading);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (side->choice));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (side->words));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (side->canvas));
  g_signal_connect (side->choice, "notify::selected", G_CALLBACK (choice_cb), side);
  gtk_box_append (self->sides_box, box);
}

/* --- the page --------------------------------------------------------------------------------- */

void
wb_photo_compare_show (WbPhotoCompare *self,
                       const char     *piece,
                       const char     *photo)
{
  WbJob *job = wb_job_model_get_job (self->model);
  const WbPiece *record = piece != NULL ? wb_job_find (job, WB_KIND_PIECE, piece) : NULL;
  g_autofree char *tag = record != NULL ? wb_words_tag (job, record) : NULL;
  g_autofree char *title = NULL;

  g_return_if_fail (WB_IS_PHOTO_COMPARE (self));

  if (record == NULL)
    {
      for (int i = 0; i < 2; i++)
        {
          stop_loading (&self->sides[i]);
          wb_photo_canvas_set_picture (self->sides[i].canvas, NULL);
        }
      return;
    }

  title = g_strjoin (", ", tag, record->description != NULL ? record->description
                                                            : record->contents, NULL);
  gtk_label_set_label (self->title, title);
  for (int i = 0; i < 2; i++)
    fill_side (&self->sides[i], piece, photo);
}

static gboolean
wb_photo_compare_grab_focus (GtkWidget *widget)
{
  WbPhotoCompare *self = WB_PHOTO_COMPARE (widget);

  return gtk_widget_grab_focus (GTK_WIDGET (self->sides[0].canvas));
}

static void
wb_photo_compare_dispose (GObject *object)
{
  WbPhotoCompare *self = WB_PHOTO_COMPARE (object);

  for (int i = 0; i < 2; i++)
    {
      stop_loading (&self->sides[i]);
      g_clear_pointer (&self->sides[i].photos, g_ptr_array_unref);
    }
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_PHOTO_COMPARE);
  g_clear_object (&self->shelf);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_photo_compare_parent_class)->dispose (object);
}

static void
wb_photo_compare_class_init (WbPhotoCompareClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_photo_compare_dispose;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_photo_compare_grab_focus;

  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "photos.back", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/photos/wb-photo-compare.ui");
  gtk_widget_class_bind_template_child (widget_class, WbPhotoCompare, box);
  gtk_widget_class_bind_template_child (widget_class, WbPhotoCompare, title);
  gtk_widget_class_bind_template_child (widget_class, WbPhotoCompare, sides_box);
}

static void
wb_photo_compare_init (WbPhotoCompare *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  make_side (self, &self->sides[0], FALSE);
  make_side (self, &self->sides[1], TRUE);
}

GtkWidget *
wb_photo_compare_new (WbJobModel   *model,
                      WbPhotoShelf *shelf)
{
  WbPhotoCompare *self = g_object_new (WB_TYPE_PHOTO_COMPARE, NULL);

  self->model = g_object_ref (model);
  self->shelf = g_object_ref (shelf);
  return GTK_WIDGET (self);
}
