/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ties the canvas to the list of pins: a place on the one makes a pin in the other. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-viewer.h"

#include "desk/photos/wb-photo-canvas.h"
#include "desk/photos/wb-photo-deeds.h"
#include "desk/photos/wb-pin-list.h"
#include "desk/widgets/wb-focus-within.h"
#include "office/wb-photo-pictures.h"
#include "office/wb-words.h"

#include <adwaita.h>
#include <glib/gi18n.h>

struct _WbPhotoViewer
{
  GtkWidget       parent_instance;

  GtkWidget      *box;
  GtkLabel       *title;
  GtkLabel       *facts;
  GtkLabel       *fault;
  GtkStack       *stack;
  WbPhotoCanvas  *canvas;
  GtkWidget      *side;       /* a bin for the list of pins */
  WbPinList      *pins;

  WbJobModel     *model;
  WbPhotoShelf   *shelf;
  char           *photo;
  GCancellable   *cancellable;
};

enum
{
  STEP,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbPhotoViewer, wb_photo_viewer, GTK_TYPE_WIDGET)

static const WbPhoto *
get_photo (WbPhotoViewer *self)
{
  return wb_job_find (wb_job_model_get_job (self->model), WB_KIND_PHOTO, self->photo);
}

/* --- showing ---------------------------------------------------------------------------------- */

static void
show_texts (WbPhotoViewer *self,
            const WbPhoto *photo)
{
  WbJob *job = wb_job_model_get_job (self->model);
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, photo->piece);
  g_autofree char *title = wb_photos_title (photo);
  g_autofree char *tag = piece != NULL ? wb_words_tag (job, piece) : NULL;
  g_autofree char *taken = wb_words_photo_taken (photo);
  /* Translators: the tag of a piece (or that there is none), a moment such as “At origin”, when the
   * picture was taken. */
  g_autofree char *facts = g_strdup_printf (_("%s · %s · taken: %s"),
                                            tag != NULL ? tag : _("No piece yet"),
                                            wb_words_enum (&wb_moments, (int) photo->moment),
                                            taken);
  const char *fault = wb_photo_shelf_get_fault (self->shelf, photo);

  gtk_label_set_label (self->title, title);
  gtk_label_set_label (self->facts, facts);
  gtk_label_set_label (self->fault, fault != NULL ? fault : "");
  gtk_widget_set_visible (GTK_WIDGET (self->fault), fault != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->canvas), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  title, -1);
}

void
wb_photo_viewer_update (WbPhotoViewer *self)
{
  const WbPhoto *photo = get_photo (self);

  if (photo == NULL)
    return;
  show_texts (self, photo);
  wb_photo_canvas_set_pins (self->canvas, wb_job_model_get_job (self->model), self->photo);
  wb_pin_list_show (self->pins, self->photo);
}

static void
loaded_cb (GObject      *object,
           GAsyncResult *result,
           gpointer      data)
{
  g_autoptr (WbPhotoViewer) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (WbPhotoPicture) picture = wb_photo_picture_load_finish (result, &error);

  if (self->cancellable == NULL ||
      g_task_get_cancellable (G_TASK (result)) != self->cancellable || get_photo (self) == NULL)
    return;

  g_clear_object (&self->cancellable);
  if (picture == NULL)
    {
      wb_photo_shelf_note_error (self->shelf, get_photo (self), error);
      gtk_stack_set_visible_child_name (self->stack, "none");
      show_texts (self, get_photo (self));
      return;
    }
  wb_photo_canvas_set_picture (self->canvas, picture);
  gtk_stack_set_visible_child_name (self->stack, "picture");
}

static void
stop_loading (WbPhotoViewer *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

void
wb_photo_viewer_show (WbPhotoViewer *self,
                      const char    *photo)
{
  g_autofree char *held = g_strdup (photo);

  g_return_if_fail (WB_IS_PHOTO_VIEWER (self));

  stop_loading (self);
  g_free (self->photo);
  self->photo = g_steal_pointer (&held);
  wb_photo_canvas_set_picture (self->canvas, NULL);
  wb_photo_canvas_choose_pin (self->canvas, NULL);
  if (photo == NULL || get_photo (self) == NULL)
    return;

  gtk_stack_set_visible_child_name (self->stack, "picture");
  wb_photo_viewer_update (self);
  self->cancellable = g_cancellable_new ();
  wb_photo_picture_load_async (wb_photo_shelf_get_office (self->shelf), get_photo (self),
                               self->cancellable, loaded_cb, g_object_ref (self));
}

const char *
wb_photo_viewer_get_photo (WbPhotoViewer *self)
{
  return self->photo;
}

/* --- pins ------------------------------------------------------------------------------------- */

static void
place_cb (WbPhotoViewer *self,
          int            x,
          int            y)
{
  g_autofree char *id = wb_office_new_id ();
  g_autoptr (WbJob) job = NULL;

  if (get_photo (self) == NULL)
    return;

  job = wb_photos_add_pin (wb_job_model_get_job (self->model), self->photo, id, x, y);
  wb_job_model_apply (self->model, job, _("Set pin"));
  wb_photo_viewer_update (self);
  wb_pin_list_focus (self->pins, id);
}

static void
chosen_cb (WbPhotoViewer *self,
           const char    *pin)
{
  wb_photo_canvas_choose_pin (self->canvas, pin);
}

static void
done_cb (WbPhotoViewer *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

/* --- keys and buttons ------------------------------------------------------------------------- */

static gboolean
step_key (GtkWidget *widget,
          GVariant  *args,
          gpointer   data)
{
  g_signal_emit (widget, signals[STEP], 0, g_variant_get_int32 (args));
  return TRUE;
}

static void
next_cb (WbPhotoViewer *self)
{
  g_signal_emit (self, signals[STEP], 0, 1);
}

static void
previous_cb (WbPhotoViewer *self)
{
  g_signal_emit (self, signals[STEP], 0, -1);
}

static void
zoom_in_cb (WbPhotoViewer *self)
{
  wb_photo_canvas_zoom (self->canvas, 1);
}

static void
zoom_out_cb (WbPhotoViewer *self)
{
  wb_photo_canvas_zoom (self->canvas, -1);
}

/* --- making ----------------------------------------------------------------------------------- */

static gboolean
wb_photo_viewer_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (WB_PHOTO_VIEWER (widget)->canvas));
}

static void
wb_photo_viewer_dispose (GObject *object)
{
  WbPhotoViewer *self = WB_PHOTO_VIEWER (object);

  stop_loading (self);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (object), WB_TYPE_PHOTO_VIEWER);
  g_clear_object (&self->shelf);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_photo_viewer_parent_class)->dispose (object);
}

static void
wb_photo_viewer_finalize (GObject *object)
{
  g_free (WB_PHOTO_VIEWER (object)->photo);

  G_OBJECT_CLASS (wb_photo_viewer_parent_class)->finalize (object);
}

static void
wb_photo_viewer_class_init (WbPhotoViewerClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = wb_photo_viewer_dispose;
  G_OBJECT_CLASS (klass)->finalize = wb_photo_viewer_finalize;
  widget_class->focus = wb_focus_within;
  widget_class->grab_focus = wb_photo_viewer_grab_focus;

  signals[STEP] = g_signal_new ("step", WB_TYPE_PHOTO_VIEWER, G_SIGNAL_RUN_LAST, 0,
                                NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);

  g_type_ensure (WB_TYPE_PHOTO_CANVAS);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Page_Down, 0, step_key, "i", 1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Page_Up, 0, step_key, "i", -1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "photos.back", NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/wainbook/Wainbook/photos/wb-photo-viewer.ui");
  gtk_widget_class_bind_template_child (widget_class, WbPhotoViewer, box);
  gtk_widget_class_bind_template_child (widget_class, WbPhotoViewer, title);
  gtk_widget_class_bind_template_child (widget_class, WbPhotoViewer, facts);
  gtk_widget_class_bind_template_child (widget_class, WbPhotoViewer, fault);
  gtk_widget_class_bind_template_child (widget_class, WbPhotoViewer, stack);
  gtk_widget_class_bind_template_child (widget_class, WbPhotoViewer, canvas);
  gtk_widget_class_bind_template_child (widget_class, WbPhotoViewer, side);
  gtk_widget_class_bind_template_callback (widget_class, place_cb);
  gtk_widget_class_bind_template_callback (widget_class, next_cb);
  gtk_widget_class_bind_template_callback (widget_class, previous_cb);
  gtk_widget_class_bind_template_callback (widget_class, zoom_in_cb);
  gtk_widget_class_bind_template_callback (widget_class, zoom_out_cb);
}

static void
wb_photo_viewer_init (WbPhotoViewer *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
wb_photo_viewer_new (WbJobModel   *model,
                     WbPhotoShelf *shelf)
{
  WbPhotoViewer *self = g_object_new (WB_TYPE_PHOTO_VIEWER, NULL);

  self->model = g_object_ref (model);
  self->shelf = g_object_ref (shelf);
  self->pins = WB_PIN_LIST (wb_pin_list_new (model));
  g_signal_connect_swapped (self->pins, "chosen", G_CALLBACK (chosen_cb), self);
  g_signal_connect_swapped (self->pins, "done", G_CALLBACK (done_cb), self);
  adw_bin_set_child (ADW_BIN (self->side), GTK_WIDGET (self->pins));
  return GTK_WIDGET (self);
}
