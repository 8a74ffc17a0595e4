/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws and points. What a pin means and what is stored of it is the viewer's. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/photos/wb-photo-canvas.h"

#include <glib/gi18n.h>
#include <math.h>

#define ZOOM_STEP 1.5
#define MAX_ZOOM  16.0

typedef struct
{
  char *id;
  int   x;
  int   y;
} Pin;

struct _WbPhotoCanvas
{
  GtkWidget   parent_instance;

  GdkTexture *whole;
  GdkTexture *small;
  GArray     *pins;
  char       *chosen;
  gboolean    takes_places;

  double      zoom;        /* 1 is the whole picture */
  double      centre_x;    /* of what is seen, as a part of the picture */
  double      centre_y;
  int         cross_x;     /* hundredths of a percent */
  int         cross_y;
  double      drag_x;
  double      drag_y;
};

enum
{
  PLACE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbPhotoCanvas, wb_photo_canvas, GTK_TYPE_WIDGET)

/* --- where things are ------------------------------------------------------------------------- */

/* Where the picture lies in the widget. */
static graphene_rect_t
get_area (WbPhotoCanvas *self)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self));
  double height = gtk_widget_get_height (GTK_WIDGET (self));
  double own_width = gdk_texture_get_width (self->small);
  double own_height = gdk_texture_get_height (self->small);
  double scale = MIN (width / own_width, height / own_height) * self->zoom;
  double shown_width = own_width * scale, shown_height = own_height * scale;
  double x = shown_width <= width ? (width - shown_width) / 2
             : CLAMP (width / 2 - self->centre_x * shown_width, width - shown_width, 0);
  double y = shown_height <= height ? (height - shown_height) / 2
             : CLAMP (height / 2 - self->centre_y * shown_height, height - shown_height, 0);
  graphene_rect_t area;

  graphene_rect_init (&area, (float) x, (float) y, (float) shown_width, (float) shown_height);
  return area;
}

static graphene_point_t
get_point (const graphene_rect_t *area,
           int                    x,
           int                    y)
{
  return GRAPHENE_POINT_INIT (area->origin.x + area->size.width * (float) x / 10000,
                              area->origin.y + area->size.height * (float) y / 10000);
}

/* What is seen stays within the picture, so that a later zoom starts from there. */
static void
look_at (WbPhotoCanvas *self,
         double         x,
         double         y)
{
  self->centre_x = CLAMP (x, 0, 1);
  self->centre_y = CLAMP (y, 0, 1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
describe (WbPhotoCanvas *self)
{
  g_autofree char *words = NULL;

  /* Translators: where the cross on a photo is. */
  words = g_strdup_printf (_("Cross at %d %% from the left, %d %% from the top"),
                           self->cross_x / 100, self->cross_y / 100);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words,
                                  -1);
}

/* --- drawing ---------------------------------------------------------------------------------- */

static void
draw_cross (WbPhotoCanvas         *self,
            GtkSnapshot           *snapshot,
            const graphene_rect_t *area)
{
  graphene_point_t at = get_point (area, self->cross_x, self->cross_y);
  const GdkRGBA dark = { 0, 0, 0, 0.8f }, light = { 1, 1, 1, 1 };

  for (int i = 0; i < 2; i++)
    {
      float thick = i == 0 ? 5 : 1.5f, length = 16;

      gtk_snapshot_append_color (snapshot, i == 0 ? &dark : &light,
                                 &GRAPHENE_RECT_INIT (at.x - length, at.y - thick / 2, 2 * length,
                                                      thick));
      gtk_snapshot_append_color (snapshot, i == 0 ? &dark : &light,
                                 &GRAPHENE_RECT_INIT (at.x - thick / 2, at.y - length, thick,
                                                      2 * length));
    }
}

/* A disc whose edge is at the place would hide it; so the number stands above a stalk. */
static void
draw_pin (WbPhotoCanvas         *self,
          GtkSnapshot           *snapshot,
          const graphene_rect_t *area,
          const Pin             *pin,
          guint                  number)
{
  graphene_point_t at = get_point (area, pin->x, pin->y);
  g_autofree char *text = g_strdup_printf ("%u", number);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  gboolean chosen = g_strcmp0 (self->chosen, pin->id) == 0;
  const GdkRGBA white = { 1, 1, 1, 1 }, plain = { 0.1f, 0.1f, 0.1f, 0.9f },
                strong = { 0.75f, 0.1f, 0.1f, 1 };
  int width, height;
  float radius, top;
  GskRoundedRect disc;

  pango_layout_get_pixel_size (layout, &width, &height);
  radius = (float) MAX (width, height) / 2 + 3;
  top = at.y - 10 - 2 * radius;
  gtk_snapshot_append_color (snapshot, &white,
                             &GRAPHENE_RECT_INIT (at.x - 1.5f, at.y - 11, 3, 11));
  gsk_rounded_rect_init_from_rect (&disc, &GRAPHENE_RECT_INIT (at.x - radius, top, 2 * radius,
                                                               2 * radius), radius);
  gtk_snapshot_push_rounded_clip (snapshot, &disc);
  gtk_snapshot_append_color (snapshot, chosen ? &strong : &plain, &disc.bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_append_border (snapshot, &disc, (float[4]) { 2, 2, 2, 2 },
                              (GdkRGBA[4]) { white, white, white, white });
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (at.x - (float) width / 2,
                                                          top + radius - (float) height / 2));
  gtk_snapshot_append_layout (snapshot, layout, &white);
  gtk_snapshot_restore (snapshot);
}

static void
wb_photo_canvas_snapshot (GtkWidget   *widget,
                          GtkSnapshot *snapshot)
{
  WbPhotoCanvas *self = WB_PHOTO_CANVAS (widget);
  graphene_rect_t area;

  if (self->small == NULL)
    return;

  area = get_area (self);
  gtk_snapshot_push_clip (snapshot,
                          &GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                               (float) gtk_widget_get_height (widget)));
  gtk_snapshot_append_texture (snapshot,
                               area.size.width > (float) gdk_texture_get_width (self->small)
                               ? self->whole : self->small,
                               &area);
  for (guint i = 0; i < self->pins->len; i++)
    draw_pin (self, snapshot, &area, &g_array_index (self->pins, Pin, i), i + 1);
  if (self->takes_places && gtk_widget_has_focus (widget))
    draw_cross (self, snapshot, &area);
  gtk_snapshot_pop (snapshot);
}

static void
wb_photo_canvas_measure (GtkWidget      *widget,
                         GtkOrientation  orientation,
                         int             for_size,
                         int            *minimum,
                         int            *natural,
                         int            *minimum_baseline,
                         int            *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 200 : 150;
  *natural = *minimum * 3;
}

/* --- zooming and moving ----------------------------------------------------------------------- */

void
wb_photo_canvas_zoom (WbPhotoCanvas *self,
                      int            step)
{
  self->zoom = step == 0 ? 1 : CLAMP (self->zoom * (step > 0 ? ZOOM_STEP : 1 / ZOOM_STEP), 1,
                                      MAX_ZOOM);
  look_at (self, self->cross_x / 10000.0, self->cross_y / 10000.0);
}

static gboolean
zoom_key (GtkWidget *widget,
          GVariant  *args,
          gpointer   data)
{
  wb_photo_canvas_zoom (WB_PHOTO_CANVAS (widget), g_variant_get_int32 (args));
  return TRUE;
}

static gboolean
move_key (GtkWidget *widget,
          GVariant  *args,
          gpointer   data)
{
  WbPhotoCanvas *self = WB_PHOTO_CANVAS (widget);
  int x, y;

  g_variant_get (args, "(ii)", &x, &y);
  self->cross_x = CLAMP (self->cross_x + x, 0, 10000);
  self->cross_y = CLAMP (self->cross_y + y, 0, 10000);
  look_at (self, self->cross_x / 10000.0, self->cross_y / 10000.0);
  describe (self);
  return TRUE;
}

static gboolean
place_key (GtkWidget *widget,
           GVariant  *args,
           gpointer   data)
{
  WbPhotoCanvas *self = WB_PHOTO_CANVAS (widget);

  if (!self->takes_places || self->small == NULL)
    return FALSE;
  g_signal_emit (self, signals[PLACE], 0, self->cross_x, self->cross_y);
  return TRUE;
}

static void
released_cb (GtkGestureClick *gesture,
             int              n_press,
             double           x,
             double           y,
             WbPhotoCanvas   *self)
{
  graphene_rect_t area;
  int across, down;

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (self->small == NULL || !self->takes_places)
    return;

  area = get_area (self);
  across = (int) floor ((x - area.origin.x) / area.size.width * 10000);
  down = (int) floor ((y - area.origin.y) / area.size.height * 10000);
  if (across < 0 || across > 10000 || down < 0 || down > 10000)
    return;

  self->cross_x = across;
  self->cross_y = down;
  describe (self);
  g_signal_emit (self, signals[PLACE], 0, across, down);
}

static void
drag_begin_cb (WbPhotoCanvas *self)
{
  self->drag_x = self->centre_x;
  self->drag_y = self->centre_y;
}

/* A picture that is moved is not clicked at. */
static void
drag_update_cb (GtkGestureDrag *gesture,
                double          x,
                double          y,
                WbPhotoCanvas  *self)
{
  graphene_rect_t area;

  if (self->small == NULL || self->zoom <= 1 || fabs (x) + fabs (y) < 8)
    return;

  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  area = get_area (self);
  look_at (self, self->drag_x - x / area.size.width, self->drag_y - y / area.size.height);
}

static gboolean
scroll_cb (WbPhotoCanvas *self,
           double         x,
           double         y)
{
  if (y == 0)
    return FALSE;
  wb_photo_canvas_zoom (self, y < 0 ? 1 : -1);
  return TRUE;
}

/* --- making ----------------------------------------------------------------------------------- */

static void
pin_clear (gpointer data)
{
  g_free (((Pin *) data)->id);
}

static void
wb_photo_canvas_finalize (GObject *object)
{
  WbPhotoCanvas *self = WB_PHOTO_CANVAS (object);

  g_clear_object (&self->whole);
  g_clear_object (&self->small);
  g_array_unref (self->pins);
  g_free (self->chosen);

  G_OBJECT_CLASS (wb_photo_canvas_parent_class)->finalize (object);
}

static void
add_moves (GtkWidgetClass *widget_class)
{
  static const struct
  {
    guint key;
    guint pad;
    int   x;
    int   y;
  } moves[] = {
    { GDK_KEY_Left, GDK_KEY_KP_Left, -1, 0 }, { GDK_KEY_Right, GDK_KEY_KP_Right, 1, 0 },
    { GDK_KEY_Up, GDK_KEY_KP_Up, 0, -1 }, { GDK_KEY_Down, GDK_KEY_KP_Down, 0, 1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (moves); i++)
    for (int fine = 0; fine < 2; fine++)
      {
        GdkModifierType modifier = fine ? GDK_SHIFT_MASK : 0;
        int step = fine ? 25 : 250;

        gtk_widget_class_add_binding (widget_class, moves[i].key, modifier, move_key, "(ii)",
                                      moves[i].x * step, moves[i].y * step);
        gtk_widget_class_add_binding (widget_class, moves[i].pad, modifier, move_key, "(ii)",
                                      moves[i].x * step, moves[i].y * step);
      }
}

static void
wb_photo_canvas_class_init (WbPhotoCanvasClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = wb_photo_canvas_finalize;
  widget_class->snapshot = wb_photo_canvas_snapshot;
  widget_class->measure = wb_photo_canvas_measure;

  signals[PLACE] = g_signal_new ("place", WB_TYPE_PHOTO_CANVAS, G_SIGNAL_RUN_LAST, 0,
                                 NULL, NULL, NULL, G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_INT);

  add_moves (widget_class);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Return, 0, place_key, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_KP_Enter, 0, place_key, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_plus, 0, zoom_key, "i", 1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_plus, GDK_SHIFT_MASK, zoom_key, "i", 1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_equal, 0, zoom_key, "i", 1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_KP_Add, 0, zoom_key, "i", 1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_minus, 0, zoom_key, "i", -1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_KP_Subtract, 0, zoom_key, "i", -1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_0, 0, zoom_key, "i", 0);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_KP_0, 0, zoom_key, "i", 0);
  gtk_widget_class_set_css_name (widget_class, "photocanvas");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
wb_photo_canvas_init (WbPhotoCanvas *self)
{
  GtkGesture *click = gtk_gesture_click_new ();
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *scroll =
    gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL |
                                     GTK_EVENT_CONTROLLER_SCROLL_DISCRETE);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->pins = g_array_new (FALSE, FALSE, sizeof (Pin));
  g_array_set_clear_func (self->pins, pin_clear);
  self->takes_places = TRUE;
  self->zoom = 1;
  self->centre_x = self->centre_y = 0.5;
  self->cross_x = self->cross_y = 5000;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Photo"),
                                  -1);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  g_signal_connect (click, "released", G_CALLBACK (released_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  g_signal_connect_swapped (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  g_signal_connect_swapped (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);
  g_signal_connect_swapped (focus, "notify::contains-focus", G_CALLBACK (gtk_widget_queue_draw),
                            self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}

GtkWidget *
wb_photo_canvas_new (void)
{
  return g_object_new (WB_TYPE_PHOTO_CANVAS, NULL);
}

void
wb_photo_canvas_set_picture (WbPhotoCanvas        *self,
                             const WbPhotoPicture *picture)
{
  g_clear_object (&self->whole);
  g_clear_object (&self->small);
  if (picture != NULL)
    {
      self->whole = g_object_ref (picture->whole);
      self->small = g_object_ref (picture->small);
    }
  self->zoom = 1;
  self->cross_x = self->cross_y = 5000;
  look_at (self, 0.5, 0.5);
  describe (self);
}

void
wb_photo_canvas_set_pins (WbPhotoCanvas *self,
                          const WbJob   *job,
                          const char    *photo)
{
  g_array_set_size (self->pins, 0);
  for (guint i = 0; photo != NULL && i < wb_job_count (job, WB_KIND_PIN); i++)
    {
      const WbPin *pin = wb_job_nth (job, WB_KIND_PIN, i);
      Pin shown = { NULL, (int) CLAMP (pin->x, 0, 10000), (int) CLAMP (pin->y, 0, 10000) };

      if (g_strcmp0 (pin->photo, photo) != 0)
        continue;
      shown.id = g_strdup (pin->record.id);
      g_array_append_val (self->pins, shown);
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
wb_photo_canvas_choose_pin (WbPhotoCanvas *self,
                            const char    *id)
{
  g_autofree char *held = g_strdup (id);

  g_free (self->chosen);
  self->chosen = g_steal_pointer (&held);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
wb_photo_canvas_set_takes_places (WbPhotoCanvas *self,
                                  gboolean       takes_places)
{
  self->takes_places = takes_places;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
