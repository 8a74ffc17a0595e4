/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cell that draws its text itself. A table keeps some two hundred rows of cells and fills them
 * anew while it scrolls: with no child, no layout and one height for all texts that stays cheap.
 * All cells are of one font, so that only the first of them has to measure it. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/inventory/wb-inventory-cell.h"

#include "desk/widgets/wb-row-name.h"

#include <glib/gi18n.h>

struct _WbInventoryCell
{
  GtkWidget                parent_instance;

  const WbInventoryColumn *column;
  WbJobModel              *model;
  WbRecordItem            *item;
  gulong                   follows;
  char                    *text;
  char                    *words;      /* (nullable) the same in full, for whoever hears it */
  PangoLayout             *layout;     /* made when first drawn */
  WbRecord                *lot;        /* (nullable) what the spot of colour was taken from */
  gboolean                 has_swatch;
  GdkRGBA                  swatch;
};

G_DEFINE_FINAL_TYPE (WbInventoryCell, wb_inventory_cell, GTK_TYPE_WIDGET)

#define SWATCH_GAP 6

/* Of the font of all cells, in units of Pango; forgotten when the font changes and when there is no
 * cell left that would hear of it. */
typedef struct
{
  gboolean known;
  int      char_width;
  int      line_height;
  int      ascent;
} FontSize;

static FontSize font_size;
static guint n_cells;

static const FontSize *
ensure_font_size (GtkWidget *widget)
{
  PangoFontMetrics *metrics;

  if (font_size.known)
    return &font_size;

  metrics = pango_context_get_metrics (gtk_widget_get_pango_context (widget), NULL, NULL);
  font_size.known = TRUE;
  font_size.char_width = MAX (pango_font_metrics_get_approximate_char_width (metrics),
                              pango_font_metrics_get_approximate_digit_width (metrics));
  font_size.line_height = pango_font_metrics_get_height (metrics);
  font_size.ascent = pango_font_metrics_get_ascent (metrics);
  pango_font_metrics_unref (metrics);
  return &font_size;
}

/* Side of the spot of colour; it grows with the text. */
static int
swatch_size (GtkWidget *widget)
{
  return PANGO_PIXELS (ensure_font_size (widget)->ascent) * 3 / 4;
}

/* Returns: (transfer none) (nullable). */
static gconstpointer
find_lot (WbInventoryCell *self)
{
  const WbPiece *piece = wb_record_item_get_record (self->item);

  return wb_job_find (wb_job_model_get_job (self->model), WB_KIND_LOT, piece->lot);
}

/* Colours of tags are words that a person chose; those that a computer knows too are shown. */
static void
take_colour (WbInventoryCell *self)
{
  const WbLot *lot = find_lot (self);
  g_autofree char *name = NULL;

  g_clear_pointer (&self->lot, wb_record_unref);
  self->has_swatch = FALSE;
  if (lot == NULL)
    return;

  self->lot = wb_record_ref ((gpointer) lot);
  if (lot->colour == NULL)
    return;

  name = g_ascii_strdown (lot->colour, -1);
  self->has_swatch = gdk_rgba_parse (&self->swatch, g_strstrip (name));
}

/* The tag and what the thing is. */
static void
name_row (WbInventoryCell *self,
          const WbPiece   *piece)
{
  const char *thing = piece->description != NULL ? piece->description : piece->contents;
  g_autofree char *name = thing != NULL
    ? g_strdup_printf ("%s, %s", self->text, thing) : g_strdup (self->text);

  wb_row_name_set (GTK_WIDGET (self), name);
}

/* Takes @text (transfer full) in place of what is held. Returns: whether it is another. */
static gboolean
replace_text (char **held,
              char  *text)
{
  g_autofree char *before = *held;

  *held = text;
  return g_strcmp0 (before, text) != 0;
}

/* Neighbours in a column often say the same; telling that costs more than comparing it. */
static void
update (WbInventoryCell *self)
{
  const WbPiece *piece = wb_record_item_get_record (self->item);
  const WbJob *job = wb_job_model_get_job (self->model);

  if (replace_text (&self->text, self->column->text (job, piece)))
    {
      if (self->layout != NULL)
        pango_layout_set_text (self->layout, self->text, -1);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self),
                                      GTK_ACCESSIBLE_PROPERTY_LABEL, self->text, -1);
      gtk_widget_queue_draw (GTK_WIDGET (self));
    }
  if (self->column->tooltip != NULL
      && replace_text (&self->words, self->column->tooltip (job, piece)))
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                    self->words != NULL ? self->words : "", -1);
  if (self->column->swatch)
    {
      take_colour (self);
      name_row (self, piece);
      gtk_widget_queue_draw (GTK_WIDGET (self));
    }
}

static PangoLayout *
ensure_layout (WbInventoryCell *self)
{
  PangoAttrList *attributes;

  if (self->layout != NULL)
    return self->layout;

  self->layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), self->text);
  attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (self->layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_ellipsize (self->layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_single_paragraph_mode (self->layout, TRUE);
  pango_layout_set_height (self->layout, -1);
  pango_layout_set_alignment (self->layout,
                              self->column->numeric ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
  return self->layout;
}

static void
wb_inventory_cell_measure (GtkWidget      *widget,
                           GtkOrientation  orientation,
                           int             for_size,
                           int            *minimum,
                           int            *natural,
                           int            *minimum_baseline,
                           int            *natural_baseline)
{
  WbInventoryCell *self = WB_INVENTORY_CELL (widget);
  const FontSize *size = ensure_font_size (widget);

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      int reserved = self->column->swatch ? swatch_size (widget) + SWATCH_GAP : 0;

      *minimum = PANGO_PIXELS_CEIL (self->column->least * size->char_width) + reserved;
      *natural = PANGO_PIXELS_CEIL (self->column->chars * size->char_width) + reserved;
    }
  else
    {
      *minimum = *natural = PANGO_PIXELS_CEIL (size->line_height);
    }
}

static void
draw_swatch (WbInventoryCell *self,
             GtkSnapshot     *snapshot,
             int              x,
             int              height,
             int              size,
             const GdkRGBA   *text_colour)
{
  GskRoundedRect rect;
  GdkRGBA edge = *text_colour;
  const float border[4] = { 1, 1, 1, 1 };

  edge.alpha *= 0.45f;
  gsk_rounded_rect_init_from_rect (&rect, &GRAPHENE_RECT_INIT (x, (height - size) / 2, size, size),
                                   (float) size / 4);
  gtk_snapshot_push_rounded_clip (snapshot, &rect);
  gtk_snapshot_append_color (snapshot, &self->swatch, &rect.bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_append_border (snapshot, &rect, border,
                              (const GdkRGBA[4]) { edge, edge, edge, edge });
}

static void
wb_inventory_cell_snapshot (GtkWidget   *widget,
                            GtkSnapshot *snapshot)
{
  WbInventoryCell *self = WB_INVENTORY_CELL (widget);
  GtkStyleContext *context = gtk_widget_get_style_context (widget);
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  int reserved = self->column->swatch ? swatch_size (widget) + SWATCH_GAP : 0;
  PangoLayout *layout = ensure_layout (self);
  int text_height;
  GdkRGBA colour;

  gtk_style_context_get_color (context, &colour);
  if (self->has_swatch)
    draw_swatch (self, snapshot, rtl ? width - reserved + SWATCH_GAP : 0, height,
                 reserved - SWATCH_GAP, &colour);
  if (self->text == NULL || *self->text == '\0')
    return;

  pango_layout_set_width (layout, MAX (0, width - reserved) * PANGO_SCALE);
  pango_layout_get_pixel_size (layout, NULL, &text_height);
  gtk_snapshot_render_layout (snapshot, context, rtl ? 0 : reserved, (height - text_height) / 2,
                              layout);
}

static gboolean
wb_inventory_cell_query_tooltip (GtkWidget  *widget,
                                 int         x,
                                 int         y,
                                 gboolean    keyboard,
                                 GtkTooltip *tooltip)
{
  WbInventoryCell *self = WB_INVENTORY_CELL (widget);
  g_autofree char *words = NULL;

  if (self->item == NULL)
    return FALSE;

  if (self->column->tooltip != NULL)
    words = self->column->tooltip (wb_job_model_get_job (self->model),
                                   wb_record_item_get_record (self->item));
  if (words == NULL && self->layout != NULL && pango_layout_is_ellipsized (self->layout))
    words = g_strdup (self->text);
  if (words == NULL)
    return FALSE;

  gtk_tooltip_set_text (tooltip, words);
  return TRUE;
}

/* Another font or another direction of writing. */
static void
forget_layout (WbInventoryCell *self)
{
  font_size.known = FALSE;
  g_clear_object (&self->layout);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
wb_inventory_cell_css_changed (GtkWidget         *widget,
                               GtkCssStyleChange *change)
{
  WbInventoryCell *self = WB_INVENTORY_CELL (widget);

  GTK_WIDGET_CLASS (wb_inventory_cell_parent_class)->css_changed (widget, change);
  if (self->layout != NULL)
    pango_layout_context_changed (self->layout);
}

static void
wb_inventory_cell_system_setting_changed (GtkWidget        *widget,
                                          GtkSystemSetting  setting)
{
  GTK_WIDGET_CLASS (wb_inventory_cell_parent_class)->system_setting_changed (widget, setting);
  forget_layout (WB_INVENTORY_CELL (widget));
}

static void
wb_inventory_cell_direction_changed (GtkWidget        *widget,
                                     GtkTextDirection  before)
{
  GTK_WIDGET_CLASS (wb_inventory_cell_parent_class)->direction_changed (widget, before);
  forget_layout (WB_INVENTORY_CELL (widget));
}

static void
wb_inventory_cell_dispose (GObject *object)
{
  WbInventoryCell *self = WB_INVENTORY_CELL (object);

  g_clear_signal_handler (&self->follows, self->item);
  g_clear_object (&self->item);
  g_clear_object (&self->layout);
  g_clear_object (&self->model);

  G_OBJECT_CLASS (wb_inventory_cell_parent_class)->dispose (object);
}

static void
wb_inventory_cell_finalize (GObject *object)
{
  WbInventoryCell *self = WB_INVENTORY_CELL (object);

  g_free (self->text);
  g_free (self->words);
  g_clear_pointer (&self->lot, wb_record_unref);
  n_cells--;
  if (n_cells == 0)
    font_size.known = FALSE;

  G_OBJECT_CLASS (wb_inventory_cell_parent_class)->finalize (object);
}

static void
wb_inventory_cell_class_init (WbInventoryCellClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = wb_inventory_cell_dispose;
  object_class->finalize = wb_inventory_cell_finalize;
  widget_class->measure = wb_inventory_cell_measure;
  widget_class->snapshot = wb_inventory_cell_snapshot;
  widget_class->query_tooltip = wb_inventory_cell_query_tooltip;
  widget_class->css_changed = wb_inventory_cell_css_changed;
  widget_class->system_setting_changed = wb_inventory_cell_system_setting_changed;
  widget_class->direction_changed = wb_inventory_cell_direction_changed;

  gtk_widget_class_set_css_name (widget_class, "label");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LABEL);
}

static void
wb_inventory_cell_init (WbInventoryCell *self)
{
  n_cells++;
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}

GtkWidget *
wb_inventory_cell_new (const WbInventoryColumn *column,
                       WbJobModel              *model)
{
  WbInventoryCell *self = g_object_new (WB_TYPE_INVENTORY_CELL, NULL);

  self->column = column;
  self->model = g_object_ref (model);
  return GTK_WIDGET (self);
}

void
wb_inventory_cell_set_item (WbInventoryCell *self,
                            WbRecordItem    *item)
{
  if (self->item == item)
    return;

  g_clear_signal_handler (&self->follows, self->item);
  g_set_object (&self->item, item);
  self->follows = g_signal_connect_swapped (item, "notify::record", G_CALLBACK (update), self);
  update (self);
}

void
wb_inventory_cell_refresh (WbInventoryCell *self)
{
  if (self->item == NULL)
    return;
  if (self->column->swatch ? self->lot != find_lot (self) : self->column->follows_job)
    update (self);
}

gboolean
wb_inventory_cell_shows (WbInventoryCell *self,
                         const char      *id)
{
  const WbRecord *record = self->item != NULL ? wb_record_item_get_record (self->item) : NULL;

  return record != NULL && g_str_equal (record->id, id);
}

const char *
wb_inventory_cell_get_text (WbInventoryCell *self)
{
  return self->text != NULL ? self->text : "";
}
