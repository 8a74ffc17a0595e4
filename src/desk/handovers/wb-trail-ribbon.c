/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays the parts of the ribbon out and names them. What they say comes from the trail; colours come
 * from the style sheet, and nothing is said by colour alone. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/handovers/wb-trail-ribbon.h"

#include <glib/gi18n.h>

#include "desk/handovers/wb-ribbon-scale.h"
#include "office/wb-words-trail.h"

#define GAP 3

/* One part, and the label below the handover that ends it. */
typedef struct
{
  GtkWidget *button;
  GtkLabel  *holder;
  GtkLabel  *details;
  GtkLabel  *mark;      /* (nullable): the last part has none */
  gint       days;
} Part;

struct _WbTrailRibbon
{
  GtkWidget  parent_instance;

  GArray    *parts;     /* of Part */
};

enum
{
  HANDOVER_CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (WbTrailRibbon, wb_trail_ribbon, GTK_TYPE_WIDGET)

/* --- parts ------------------------------------------------------------------------------------ */

static void
clicked_cb (WbTrailRibbon *self,
            GtkWidget     *button)
{
  for (guint i = 1; i < self->parts->len; i++)
    if (g_array_index (self->parts, Part, i).button == button)
      g_signal_emit (self, signals[HANDOVER_CHOSEN], 0, i - 1);
}

static GtkLabel *
make_label (const char *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, css_class);
  return GTK_LABEL (label);
}

static void
add_part (WbTrailRibbon *self,
          gboolean       last)
{
  Part part = { .button = gtk_button_new () };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  part.holder = make_label ("heading");
  part.details = make_label ("caption");
  gtk_label_set_width_chars (part.holder, 15);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (part.holder));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (part.details));
  gtk_button_set_child (GTK_BUTTON (part.button), box);
  gtk_widget_add_css_class (part.button, "wb-stretch");
  g_signal_connect_object (part.button, "clicked", G_CALLBACK (clicked_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_widget_set_parent (part.button, GTK_WIDGET (self));

  if (!last)
    {
      part.mark = make_label ("caption");
      gtk_label_set_xalign (part.mark, 0.5);
      gtk_label_set_justify (part.mark, GTK_JUSTIFY_CENTER);
      gtk_widget_set_parent (GTK_WIDGET (part.mark), GTK_WIDGET (self));
    }
  g_array_append_val (self->parts, part);
}

static void
remove_parts (WbTrailRibbon *self)
{
  for (guint i = 0; i < self->parts->len; i++)
    {
      const Part *part = &g_array_index (self->parts, Part, i);

      gtk_widget_unparent (part->button);
      if (part->mark != NULL)
        gtk_widget_unparent (GTK_WIDGET (part->mark));
    }
  g_array_set_size (self->parts, 0);
}

/* The widgets stay as long as their number does, and with them the focus. */
static void
make_parts (WbTrailRibbon *self,
            guint          n)
{
  if (self->parts->len == n)
    return;

  remove_parts (self);
  for (guint i = 0; i < n; i++)
    add_part (self, i + 1 == n);
}

/* --- words ------------------------------------------------------------------------------------ */

/* A stretch that goods under way are in has lasted until today; one at a residence goes on. */
static gint
count_days (const WbStretch *stretch,
            const GDate     *today)
{
  const GDate *end = &stretch->to;

  if (!wb_date_is_set (end)
      && (stretch->hold == WB_HOLD_VEHICLE || stretch->hold == WB_HOLD_WAREHOUSE))
    end = today;

  return wb_date_is_set (&stretch->from) && wb_date_is_set (end)
         ? wb_date_days_between (&stretch->from, end) : -1;
}

static char *
describe_details (const WbStretch *stretch,
                  gint             days)
{
  const char *hold = wb_words_enum (&wb_holds, (int) stretch->hold);
  g_autofree char *length = wb_words_stretch_length (stretch);
  g_autofree char *since = NULL;

  if (length == NULL && days >= 0 && !wb_date_is_set (&stretch->to))
    length = g_strdup_printf (ngettext ("%d day so far", "%d days so far", (gulong) days), days);
  if (length == NULL && wb_date_is_set (&stretch->from) && !wb_date_is_set (&stretch->to))
    {
      since = wb_words_date (&stretch->from);
      /* Translators: a date. */
      length = g_strdup_printf (_("since %s"), since);
    }
  if (length == NULL)
    return g_strdup (hold);

  /* Translators: where goods are held, such as "In a warehouse", and for how long. */
  return g_strdup_printf (_("%s · %s"), hold, length);
}

/* A sign before the words, so that the eye finds it. */
static const char *
sign_of (const WbPass *pass)
{
  switch (pass->state)
    {
    case WB_PASS_AS_LISTED:
      return "○";
    case WB_PASS_COUNTED:
      return "✓";
    case WB_PASS_SHORT:
      return "✗";
    case WB_PASS_OVER:
      return "+";
    case WB_PASS_NOT_COUNTED:
      return "?";
    }

  g_assert_not_reached ();
}

static void
show_mark (const Part    *part,
           const WbTrail *trail,
           guint          handover,
           gboolean       selected,
           gint           piece)
{
  const WbHandover *record = wb_trail_handover (trail, handover)->handover;
  g_autofree char *on = wb_date_is_set (&record->on) ? wb_words_date (&record->on)
                                                     : g_strdup (_("no date"));
  g_autofree char *tip = wb_words_handover (record);
  g_autofree char *text = NULL;
  const WbPass *pass;

  if (piece >= 0)
    {
      pass = wb_trail_pass (trail, handover, (guint) piece);
      /* Translators: a date; a sign and a word such as "Short". */
      text = g_strdup_printf (_("%s\n%s %s"), on, sign_of (pass),
                              /* Translators: a missing piece that came to light again. */
                              pass->reappeared ? _("Back")
                                               : wb_words_enum (&wb_pass_states,
                                                                (int) pass->state));
    }

  gtk_label_set_label (part->mark, text != NULL ? text : on);
  gtk_widget_set_tooltip_text (GTK_WIDGET (part->mark), tip);
  if (selected)
    gtk_widget_add_css_class (GTK_WIDGET (part->mark), "wb-looked-at");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (part->mark), "wb-looked-at");
}

/* Whether @piece was seen in the stretch: at the handover that began it, or before any. */
static gboolean
was_there (const WbTrail *trail,
           guint          stretch,
           guint          piece)
{
  const WbPass *pass;

  if (stretch == 0)
    return TRUE;

  pass = wb_trail_pass (trail, stretch - 1, piece);
  return pass->state != WB_PASS_SHORT && pass->state != WB_PASS_NOT_COUNTED;
}

static void
name_part (const Part      *part,
           const WbStretch *stretch,
           const char      *path)
{
  g_autofree char *words = wb_words_stretch (stretch);
  g_autofree char *name = path != NULL ? g_strdup_printf ("%s. %s", words, path)
                                       : g_strdup (words);

  gtk_widget_set_tooltip_text (part->button, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (part->button),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
set_classes (const Part *part,
             WbHold      hold,
             const char *path_class)
{
  const char *classes[] = { "wb-stretch", wb_enum_nick (&wb_holds, (int) hold), path_class, NULL };

  gtk_widget_set_css_classes (part->button, classes);
}

static void
show_part (Part          *part,
           const WbTrail *trail,
           guint          place,
           gint           piece,
           const GDate   *today)
{
  const WbStretch *stretch = wb_trail_stretch (trail, place);
  gint days = count_days (stretch, today);
  g_autofree char *details = describe_details (stretch, days);
  gboolean there = piece >= 0 && was_there (trail, place, (guint) piece);

  part->days = days;
  gtk_label_set_label (part->holder, stretch->holder != NULL ? stretch->holder
                                                             : _("Nobody named"));
  gtk_label_set_label (part->details, details);
  set_classes (part, stretch->hold, piece < 0 ? NULL : there ? "with-piece" : "without-piece");
  name_part (part, stretch, piece < 0 ? NULL : there ? _("The piece was here")
                                                     : _("The piece was not seen here"));
}

/* --- layout ----------------------------------------------------------------------------------- */

static gint
least_width (const Part *part)
{
  gint minimum;

  gtk_widget_measure (part->button, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, NULL, NULL, NULL);
  return minimum + GAP;
}

static gint
sum_of_widths (WbTrailRibbon *self)
{
  gint sum = 0;

  for (guint i = 0; i < self->parts->len; i++)
    sum += least_width (&g_array_index (self->parts, Part, i));
  return sum;
}

/* Where the words have no room beside each other, the parts stand one below the other. */
static gboolean
is_stacked (WbTrailRibbon *self,
            gint           width)
{
  return width >= 0 && width < sum_of_widths (self);
}

static void
measure_heights (WbTrailRibbon *self,
                 gint          *parts,
                 gint          *marks)
{
  *parts = 0;
  *marks = 0;
  for (guint i = 0; i < self->parts->len; i++)
    {
      const Part *part = &g_array_index (self->parts, Part, i);
      gint natural;

      gtk_widget_measure (part->button, GTK_ORIENTATION_VERTICAL, -1, NULL, &natural, NULL, NULL);
      *parts = MAX (*parts, natural);
      if (part->mark == NULL)
        continue;
      gtk_widget_measure (GTK_WIDGET (part->mark), GTK_ORIENTATION_VERTICAL, -1, NULL, &natural,
                          NULL, NULL);
      *marks = MAX (*marks, natural);
    }
}

static void
wb_trail_ribbon_measure (GtkWidget      *widget,
                         GtkOrientation  orientation,
                         int             for_size,
                         int            *minimum,
                         int            *natural,
                         int            *minimum_baseline,
                         int            *natural_baseline)
{
  WbTrailRibbon *self = WB_TRAIL_RIBBON (widget);

  *minimum = *natural = 0;
  *minimum_baseline = *natural_baseline = -1;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      for (guint i = 0; i < self->parts->len; i++)
        *minimum = MAX (*minimum, least_width (&g_array_index (self->parts, Part, i)));
      *natural = sum_of_widths (self);
    }
  else
    {
      gint rows = is_stacked (self, for_size) ? (gint) self->parts->len : 1;
      gint parts, marks;

      measure_heights (self, &parts, &marks);
      *minimum = *natural = rows * (parts + GAP + marks);
    }
}

static GtkSizeRequestMode
wb_trail_ribbon_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
place_child (GtkWidget *child,
             gint       x,
             gint       y,
             gint       width,
             gint       height)
{
  gtk_widget_size_allocate (child, &(GtkAllocation) { x, y, MAX (width, 1), height }, -1);
}

static void
place_stacked (WbTrailRibbon *self,
               gint           width)
{
  gint parts, marks;

  measure_heights (self, &parts, &marks);
  for (guint i = 0; i < self->parts->len; i++)
    {
      const Part *part = &g_array_index (self->parts, Part, i);
      gint y = (gint) i * (parts + GAP + marks);

      place_child (part->button, 0, y, width, parts);
      if (part->mark != NULL)
        place_child (GTK_WIDGET (part->mark), 0, y + parts + GAP, width, marks);
    }
}

static void
place_in_row (WbTrailRibbon *self,
              gint           width)
{
  GtkWidget *widget = GTK_WIDGET (self);
  guint n = self->parts->len;
  g_autofree gint *days = g_new0 (gint, n);
  g_autofree gint *least = g_new0 (gint, n);
  g_autofree gint *widths = g_new0 (gint, n + 1);
  gboolean mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  gint parts, marks;
  gint x = 0;

  for (guint i = 0; i < n; i++)
    {
      const Part *part = &g_array_index (self->parts, Part, i);

      days[i] = part->days;
      least[i] = least_width (part);
    }
  wb_ribbon_scale (days, least, n, width, widths);
  measure_heights (self, &parts, &marks);

  for (guint i = 0; i < n; i++)
    {
      const Part *part = &g_array_index (self->parts, Part, i);
      gint room = MIN (widths[i], widths[i + 1]);
      gint end = x + widths[i];

      place_child (part->button, mirrored ? width - end : x, 0, widths[i] - GAP, parts);
      if (part->mark != NULL)
        place_child (GTK_WIDGET (part->mark), (mirrored ? width - end : end) - room / 2,
                     parts + GAP, room - GAP, marks);
      x = end;
    }
}

static void
wb_trail_ribbon_size_allocate (GtkWidget *widget,
                               int        width,
                               int        height,
                               int        baseline)
{
  WbTrailRibbon *self = WB_TRAIL_RIBBON (widget);

  if (is_stacked (self, width))
    place_stacked (self, width);
  else
    place_in_row (self, width);
}

/* --- widget ----------------------------------------------------------------------------------- */

static void
wb_trail_ribbon_dispose (GObject *object)
{
  remove_parts (WB_TRAIL_RIBBON (object));

  G_OBJECT_CLASS (wb_trail_ribbon_parent_class)->dispose (object);
}

static void
wb_trail_ribbon_finalize (GObject *object)
{
  g_array_unref (WB_TRAIL_RIBBON (object)->parts);

  G_OBJECT_CLASS (wb_trail_ribbon_parent_class)->finalize (object);
}

static void
wb_trail_ribbon_class_init (WbTrailRibbonClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_trail_ribbon_dispose;
  object_class->finalize = wb_trail_ribbon_finalize;
  widget_class->get_request_mode = wb_trail_ribbon_get_request_mode;
  widget_class->measure = wb_trail_ribbon_measure;
  widget_class->size_allocate = wb_trail_ribbon_size_allocate;

  signals[HANDOVER_CHOSEN] =
    g_signal_new ("handover-chosen", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                  NULL, G_TYPE_NONE, 1, G_TYPE_UINT);

  gtk_widget_class_set_css_name (widget_class, "wb-ribbon");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
wb_trail_ribbon_init (WbTrailRibbon *self)
{
  self->parts = g_array_new (FALSE, FALSE, sizeof (Part));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Who held the goods when"), -1);
}

void
wb_trail_ribbon_show (WbTrailRibbon *self,
                      const WbTrail *trail,
                      gint           handover,
                      gint           piece,
                      const GDate   *today)
{
  g_return_if_fail (WB_IS_TRAIL_RIBBON (self));

  make_parts (self, wb_trail_n_stretches (trail));
  for (guint i = 0; i < self->parts->len; i++)
    {
      Part *part = &g_array_index (self->parts, Part, i);

      show_part (part, trail, i, piece, today);
      if (part->mark != NULL)
        show_mark (part, trail, i, (gint) i == handover, piece);
    }
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
