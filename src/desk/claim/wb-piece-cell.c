/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cell that refers to a piece: an entry with a list of what fits. Which pieces fit is said in
 * wb-piece-lookup.c. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-piece-cell.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-piece-lookup.h"
#include "office/wb-words.h"

#define MOST_OFFERED 8

struct _WbPieceCell
{
  WbCell      parent_instance;

  GtkWidget  *entry;
  GtkWidget  *popover;
  GtkWidget  *list;

  char       *shown;      /* the text that stands for the value; another is typed */
};

G_DEFINE_FINAL_TYPE (WbPieceCell, wb_piece_cell, WB_TYPE_CELL)

static WbJob *
get_job (WbPieceCell *self)
{
  g_autoptr (WbJobModel) model = NULL;

  g_object_get (self, "model", &model, NULL);
  return model != NULL ? wb_job_model_get_job (model) : NULL;
}

static gboolean
is_typed (WbPieceCell *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));

  return self->shown != NULL && g_strcmp0 (text, self->shown) != 0;
}

static char *
get_value_text (WbPieceCell *self)
{
  WbJob *job = get_job (self);
  g_autofree char *id = wb_field_tie_get_text (wb_cell_get_tie (WB_CELL (self)));
  const WbPiece *piece = job != NULL && *id != '\0' ? wb_job_find (job, WB_KIND_PIECE, id) : NULL;

  return piece != NULL ? wb_words_tag (job, piece) : g_strdup ("");
}

static void
show_value (WbPieceCell *self)
{
  g_free (self->shown);
  self->shown = get_value_text (self);
  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self->entry)), self->shown))
    gtk_editable_set_text (GTK_EDITABLE (self->entry), self->shown);
  gtk_popover_popdown (GTK_POPOVER (self->popover));
}

static gboolean
take_piece (WbPieceCell *self,
            const char  *id)
{
  if (!wb_cell_commit (WB_CELL (self), id))
    return FALSE;

  show_value (self);
  return TRUE;
}

/* Takes what is typed when it names one piece, or none when it is empty. */
static gboolean
set_value (WbPieceCell *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  const WbPiece *piece;
  g_autofree char *fault = NULL;

  if (!is_typed (self))
    return !wb_cell_has_fault (WB_CELL (self));
  if (*text == '\0')
    return take_piece (self, "");

  piece = wb_piece_lookup_exact (get_job (self), text);
  if (piece != NULL)
    return take_piece (self, piece->record.id);

  fault = g_strdup_printf (_("No single piece has the tag “%s”. Choose one from the list, or leave "
                             "the cell empty when it is not on the inventory."), text);
  gtk_popover_popdown (GTK_POPOVER (self->popover));
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
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  g_autoptr (GPtrArray) pieces = NULL;

  empty_list (self);
  if (job == NULL || *text == '\0' || !is_typed (self))
    {
      gtk_popover_popdown (GTK_POPOVER (self->popover));
      return;
    }

  pieces = wb_piece_lookup (job, text, MOST_OFFERED);
  for (guint i = 0; i < pieces->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (self->list), new_offer (job, g_ptr_array_index (pieces, i)));

  if (pieces->len == 0)
    {
      gtk_popover_popdown (GTK_POPOVER (self->popover));
      return;
    }

  gtk_list_box_select_row (GTK_LIST_BOX (self->list),
                           gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), 0));
  gtk_popover_popup (GTK_POPOVER (self->popover));
}

static gboolean
is_offering (WbPieceCell *self)
{
  return gtk_widget_get_visible (self->popover);
}

static void
choose_offer (WbPieceCell *self,
              int          step)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (self->list));
  int index = row != NULL ? gtk_list_box_row_get_index (row) + step : 0;
  GtkListBoxRow *next = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), index);

  if (next != NULL)
    gtk_list_box_select_row (GTK_LIST_BOX (self->list), next);
}

static gboolean
take_offer (WbPieceCell   *self,
            GtkListBoxRow *row)
{
  return row != NULL && take_piece (self, g_object_get_data (G_OBJECT (row), "piece"));
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
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (self->entry)));

  if (gtk_widget_has_focus (text))
    offer_pieces (self);
}

static void
set_and_move (WbPieceCell *self,
              int          rows)
{
  if (set_value (self))
    wb_cell_move (WB_CELL (self), rows);
  else
    gtk_widget_error_bell (GTK_WIDGET (self));
}

static void
activate_cb (WbPieceCell *self)
{
  if (is_offering (self))
    {
      if (take_offer (self, gtk_list_box_get_selected_row (GTK_LIST_BOX (self->list))))
        wb_cell_move (WB_CELL (self), 1);
      return;
    }

  set_and_move (self, 1);
}

static void
focus_leave_cb (WbPieceCell *self)
{
  set_value (self);
}

static void
go (WbPieceCell *self,
    int          step)
{
  if (is_offering (self))
    choose_offer (self, step);
  else
    set_and_move (self, step);
}

static gboolean
give_up (WbPieceCell *self)
{
  if (!is_typed (self) && !wb_cell_has_fault (WB_CELL (self)))
    return FALSE;

  show_value (self);
  wb_cell_set_fault (WB_CELL (self), NULL);
  wb_cell_focus (WB_CELL (self));
  return TRUE;
}

static gboolean
key_pressed_cb (WbPieceCell     *self,
                guint            key,
                guint            code,
                GdkModifierType  state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) != 0)
    return FALSE;

  switch (key)
    {
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      go (self, -1);
      return TRUE;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      go (self, 1);
      return TRUE;
    case GDK_KEY_Escape:
      return give_up (self);
    default:
      return FALSE;
    }
}

/* --- cell ------------------------------------------------------------------------------------- */

static void
wb_piece_cell_show (WbCell *cell)
{
  WbPieceCell *self = WB_PIECE_CELL (cell);
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (self->entry)));

  if (wb_cell_has_fault (cell) || (gtk_widget_has_focus (text) && is_typed (self)))
    return;

  show_value (self);
}

static void
wb_piece_cell_show_text (WbCell     *cell,
                         const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (WB_PIECE_CELL (cell)->entry), text);
}

static void
wb_piece_cell_revert (WbCell *cell)
{
  show_value (WB_PIECE_CELL (cell));
}

static GtkWidget *
wb_piece_cell_get_input (WbCell *cell)
{
  return WB_PIECE_CELL (cell)->entry;
}

static void
wb_piece_cell_measure (GtkWidget      *widget,
                       GtkOrientation  orientation,
                       int             for_size,
                       int            *minimum,
                       int            *natural,
                       int            *minimum_baseline,
                       int            *natural_baseline)
{
  gtk_widget_measure (WB_PIECE_CELL (widget)->entry, orientation, for_size,
                      minimum, natural, minimum_baseline, natural_baseline);
}

static void
wb_piece_cell_size_allocate (GtkWidget *widget,
                             int        width,
                             int        height,
                             int        baseline)
{
  WbPieceCell *self = WB_PIECE_CELL (widget);

  gtk_widget_size_allocate (self->entry, &(GtkAllocation) { 0, 0, width, height }, baseline);
  gtk_popover_present (GTK_POPOVER (self->popover));
}

static void
wb_piece_cell_dispose (GObject *object)
{
  WbPieceCell *self = WB_PIECE_CELL (object);

  g_clear_pointer (&self->popover, gtk_widget_unparent);
  g_clear_pointer (&self->entry, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_piece_cell_parent_class)->dispose (object);
}

static void
wb_piece_cell_finalize (GObject *object)
{
  g_free (WB_PIECE_CELL (object)->shown);

  G_OBJECT_CLASS (wb_piece_cell_parent_class)->finalize (object);
}

static void
wb_piece_cell_class_init (WbPieceCellClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  WbCellClass *cell_class = WB_CELL_CLASS (klass);

  object_class->dispose = wb_piece_cell_dispose;
  object_class->finalize = wb_piece_cell_finalize;
  widget_class->measure = wb_piece_cell_measure;
  widget_class->size_allocate = wb_piece_cell_size_allocate;
  cell_class->show = wb_piece_cell_show;
  cell_class->show_text = wb_piece_cell_show_text;
  cell_class->revert = wb_piece_cell_revert;
  cell_class->get_input = wb_piece_cell_get_input;
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
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->entry = gtk_entry_new ();
  gtk_entry_set_has_frame (GTK_ENTRY (self->entry), FALSE);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), _("tag or words"));
  gtk_editable_set_enable_undo (GTK_EDITABLE (self->entry), FALSE);
  gtk_widget_set_parent (self->entry, GTK_WIDGET (self));
  add_popover (self);

  g_signal_connect_swapped (self->entry, "activate", G_CALLBACK (activate_cb), self);
  g_signal_connect_swapped (self->entry, "changed", G_CALLBACK (changed_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (focus_leave_cb), self);
  gtk_widget_add_controller (self->entry, focus);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (self->entry, keys);
}

GtkWidget *
wb_piece_cell_new (guint chars)
{
  WbPieceCell *self = g_object_new (WB_TYPE_PIECE_CELL, NULL);

  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), (int) chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), (int) chars);

  return GTK_WIDGET (self);
}
