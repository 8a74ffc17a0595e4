/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cell that refers to a piece: an entry with a list of what fits. Which pieces fit is said in
 * wb-piece-lookup.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-piece-cell.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-piece-lookup.h"
#include "desk/widgets/wb-popup.h"
#include "office/wb-words.h"

#define MOST_OFFERED 8

struct _WbPieceCell
{
  WbTextCell  parent_instance;

  GtkWidget  *popover;
  GtkWidget  *list;
};

G_DEFINE_FINAL_TYPE (WbPieceCell, wb_piece_cell, WB_TYPE_TEXT_CELL)

static WbJob *
get_job (WbPieceCell *self)
{
  g_autoptr (WbJobModel) model = NULL;

  g_object_get (self, "model", &model, NULL);
  return model != NULL ? wb_job_model_get_job (model) : NULL;
}

static char *
wb_piece_cell_get_value_text (WbTextCell *cell)
{
  WbJob *job = get_job (WB_PIECE_CELL (cell));
  g_autofree char *id = wb_field_tie_get_text (wb_cell_get_tie (WB_CELL (cell)));
  const WbPiece *piece = job != NULL && *id != '\0' ? wb_job_find (job, WB_KIND_PIECE, id) : NULL;

  return piece != NULL ? wb_words_tag (job, piece) : g_strdup ("");
}

/* The list is gone before the entry when the cell itself goes. */
static void
close_list (WbPieceCell *self)
{
  if (self->popover != NULL)
    gtk_popover_popdown (GTK_POPOVER (self->popover));
}

static void
wb_piece_cell_shown (WbTextCell *cell)
{
  close_list (WB_PIECE_CELL (cell));
}

/* Takes what is typed when it names one piece, or none when it is empty. */
static gboolean
wb_piece_cell_take (WbTextCell *cell,
                    const char *text)
{
  WbPieceCell *self = WB_PIECE_CELL (cell);
  const WbPiece *piece;
  g_autofree char *fault = NULL;

  if (*text == '\0')
    return wb_cell_commit (WB_CELL (self), "");

  piece = wb_piece_lookup_exact (get_job (self), text);
  if (piece != NULL)
    return wb_cell_commit (WB_CELL (self), piece->record.id);

  fault = g_strdup_printf (_("No single piece has the tag “%s”. Choose one from the list, or leave "
                             "the cell empty when it is not on the inventory."), text);
  close_list (self);
  wb_cell_set_fault (WB_CELL (self), fault);
  return FALSE;
}

/* --- what fits -------------------------------------------------------------------------------- */

static GtkWidget *
new_offer (const WbJob   *job,
           const WbPiece *piece)
{
  g_autofree char *tag = wb_words_tag (job, piece);
  g_autofree char *summary = wb_piece_summary (piece);
  /* Translators: a tag, and what the piece is. */
  g_autofree char *name = g_strdup_printf (_("%s: %s"), tag, summary);
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *left = gtk_label_new (tag);
  GtkWidget *right = gtk_label_new (summary);

  gtk_widget_add_css_class (left, "heading");
  gtk_label_set_ellipsize (GTK_LABEL (right), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (right), 40);
  gtk_widget_set_margin_start (box, 6);
  gtk_widget_set_margin_end (box, 6);
  gtk_box_append (GTK_BOX (box), left);
  gtk_box_append (GTK_BOX (box), right);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_widget_set_focusable (row, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (row), "piece", g_strdup (piece->record.id), g_free);

  return row;
}

static void
empty_list (WbPieceCell *self)
{
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (self->list)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (self->list), row);
}

static void
offer_pieces (WbPieceCell *self)
{
  WbJob *job = get_job (self);
  const char *text = wb_text_cell_get_text (WB_TEXT_CELL (self));
  g_autoptr (GPtrArray) pieces = NULL;

  empty_list (self);
  if (job == NULL || *text == '\0' || !wb_text_cell_is_typed (WB_TEXT_CELL (self)))
    {
      close_list (self);
      return;
    }

  pieces = wb_piece_lookup (job, text, MOST_OFFERED);
  for (guint i = 0; i < pieces->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (self->list), new_offer (job, g_ptr_array_index (pieces, i)));

  if (pieces->len == 0)
    {
      close_list (self);
      return;
    }

  gtk_list_box_select_row (GTK_LIST_BOX (self->list),
                           gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), 0));
  wb_popup (GTK_POPOVER (self->popover));
}

static gboolean
is_offering (WbPieceCell *self)
{
  return gtk_widget_get_visible (self->popover);
}

static gboolean
wb_piece_cell_go (WbTextCell *cell,
                  int         step)
{
  WbPieceCell *self = WB_PIECE_CELL (cell);
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (self->list));
  int index = row != NULL ? gtk_list_box_row_get_index (row) + step : 0;
  GtkListBoxRow *next = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), index);

  if (!is_offering (self))
    return FALSE;

  if (next != NULL)
    gtk_list_box_select_row (GTK_LIST_BOX (self->list), next);
  return TRUE;
}

static gboolean
take_offer (WbPieceCell   *self,
            GtkListBoxRow *row)
{
  if (row == NULL
      || !wb_cell_commit (WB_CELL (self), g_object_get_data (G_OBJECT (row), "piece")))
    return FALSE;

  wb_text_cell_show_value (WB_TEXT_CELL (self));
  return TRUE;
}

static gboolean
wb_piece_cell_choose (WbTextCell *cell)
{
  WbPieceCell *self = WB_PIECE_CELL (cell);

  if (!is_offering (self))
    return FALSE;

  if (take_offer (self, gtk_list_box_get_selected_row (GTK_LIST_BOX (self->list))))
    wb_cell_finish (WB_CELL (self));
  return TRUE;
}

/* --- callbacks -------------------------------------------------------------------------------- */

static void
row_activated_cb (WbPieceCell   *self,
                  GtkListBoxRow *row)
{
  take_offer (self, row);
}

static void
changed_cb (WbPieceCell *self)
{
  if (wb_text_cell_has_focus (WB_TEXT_CELL (self)))
    offer_pieces (self);
}

/* --- cell ------------------------------------------------------------------------------------- */

static void
wb_piece_cell_measure (GtkWidget      *widget,
                       GtkOrientation  orientation,
                       int             for_size,
                       int            *minimum,
                       int            *natural,
                       int            *minimum_baseline,
                       int            *natural_baseline)
{
  gtk_widget_measure (wb_text_cell_get_entry (WB_TEXT_CELL (widget)), orientation, for_size,
                      minimum, natural, minimum_baseline, natural_baseline);
}

static void
wb_piece_cell_size_allocate (GtkWidget *widget,
                             int        width,
                             int        height,
                             int        baseline)
{
  WbPieceCell *self = WB_PIECE_CELL (widget);

  gtk_widget_size_allocate (wb_text_cell_get_entry (WB_TEXT_CELL (self)),
                            &(GtkAllocation) { 0, 0, width, height }, baseline);
  gtk_popover_present (GTK_POPOVER (self->popover));
}

static void
wb_piece_cell_dispose (GObject *object)
{
  g_clear_pointer (&WB_PIECE_CELL (object)->popover, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_piece_cell_parent_class)->dispose (object);
}

static void
wb_piece_cell_class_init (WbPieceCellClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  WbTextCellClass *text_class = WB_TEXT_CELL_CLASS (klass);

  object_class->dispose = wb_piece_cell_dispose;
  widget_class->measure = wb_piece_cell_measure;
  widget_class->size_allocate = wb_piece_cell_size_allocate;
  text_class->get_value_text = wb_piece_cell_get_value_text;
  text_class->take = wb_piece_cell_take;
  text_class->go = wb_piece_cell_go;
  text_class->choose = wb_piece_cell_choose;
  text_class->shown = wb_piece_cell_shown;
}

static void
add_popover (WbPieceCell *self)
{
  self->list = gtk_list_box_new ();
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->list), GTK_SELECTION_BROWSE);
  gtk_list_box_set_activate_on_single_click (GTK_LIST_BOX (self->list), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, _("Pieces that fit"), -1);
  g_signal_connect_swapped (self->list, "row-activated", G_CALLBACK (row_activated_cb), self);

  self->popover = gtk_popover_new ();
  gtk_popover_set_child (GTK_POPOVER (self->popover), self->list);
  /* The focus stays in the entry, where one goes on typing. */
  gtk_popover_set_autohide (GTK_POPOVER (self->popover), FALSE);
  gtk_popover_set_has_arrow (GTK_POPOVER (self->popover), FALSE);
  gtk_popover_set_position (GTK_POPOVER (self->popover), GTK_POS_BOTTOM);
  gtk_widget_set_halign (self->popover, GTK_ALIGN_START);
  gtk_widget_set_can_focus (self->popover, FALSE);
  gtk_widget_set_parent (self->popover, GTK_WIDGET (self));
}

static void
wb_piece_cell_init (WbPieceCell *self)
{
  GtkWidget *entry = wb_text_cell_get_entry (WB_TEXT_CELL (self));

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), _("tag or words"));
  g_signal_connect_swapped (entry, "changed", G_CALLBACK (changed_cb), self);
  add_popover (self);
}

GtkWidget *
wb_piece_cell_new (guint chars)
{
  WbTextCell *self = g_object_new (WB_TYPE_PIECE_CELL, NULL);
  GtkWidget *entry = wb_text_cell_get_entry (self);

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), (int) chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), (int) chars);

  return GTK_WIDGET (self);
}
