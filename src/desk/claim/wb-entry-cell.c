/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The typed cell of a record table. What is good text is for core to say, through the model. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-entry-cell.h"

struct _WbEntryCell
{
  WbCell     parent_instance;

  GtkWidget *entry;
  char      *shown;      /* the text that stands for the value; another is typed */
};

G_DEFINE_FINAL_TYPE (WbEntryCell, wb_entry_cell, WB_TYPE_CELL)

/* Amounts without their currency, which is the job's and stands above the table. */
static char *
get_value_text (WbEntryCell *self)
{
  WbFieldTie *tie = wb_cell_get_tie (WB_CELL (self));
  const WbField *field = wb_field_tie_get_field (tie);
  gconstpointer record = wb_field_tie_get_record (tie);

  if (record != NULL && field->type == WB_FIELD_MONEY && wb_record_field_is_set (field, record))
    {
      const WbMoney *money = G_STRUCT_MEMBER_P (record, field->offset);

      return wb_minor_to_text (money->minor, money->currency);
    }

  return wb_field_tie_get_text (tie);
}

static gboolean
is_typed (WbEntryCell *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));

  return self->shown != NULL && g_strcmp0 (text, self->shown) != 0;
}

static void
show_value (WbEntryCell *self)
{
  g_free (self->shown);
  self->shown = get_value_text (self);
  if (!g_str_equal (gtk_editable_get_text (GTK_EDITABLE (self->entry)), self->shown))
    gtk_editable_set_text (GTK_EDITABLE (self->entry), self->shown);
}

static gboolean
set_value (WbEntryCell *self)
{
  g_autofree char *text = NULL;

  if (!is_typed (self))
    return !wb_cell_has_fault (WB_CELL (self));

  text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry)));
  if (!wb_cell_commit (WB_CELL (self), text))
    return FALSE;

  show_value (self);
  return TRUE;
}

static void
set_and_move (WbEntryCell *self,
              int          rows)
{
  if (set_value (self))
    wb_cell_move (WB_CELL (self), rows);
  else
    gtk_widget_error_bell (GTK_WIDGET (self));
}

static void
activate_cb (WbEntryCell *self)
{
  set_and_move (self, 1);
}

static void
focus_leave_cb (WbEntryCell *self)
{
  set_value (self);
}

static gboolean
key_pressed_cb (WbEntryCell     *self,
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
      set_and_move (self, -1);
      return TRUE;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      set_and_move (self, 1);
      return TRUE;
    case GDK_KEY_Escape:
      if (!is_typed (self) && !wb_cell_has_fault (WB_CELL (self)))
        return FALSE;
      show_value (self);
      wb_cell_set_fault (WB_CELL (self), NULL);
      wb_cell_focus (WB_CELL (self));
      return TRUE;
    default:
      return FALSE;
    }
}

/* --- cell ------------------------------------------------------------------------------------- */

static void
wb_entry_cell_show (WbCell *cell)
{
  WbEntryCell *self = WB_ENTRY_CELL (cell);
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (self->entry)));

  if (wb_cell_has_fault (cell) || (gtk_widget_has_focus (text) && is_typed (self)))
    return;

  show_value (self);
}

static void
wb_entry_cell_show_text (WbCell     *cell,
                         const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (WB_ENTRY_CELL (cell)->entry), text);
}

static void
wb_entry_cell_revert (WbCell *cell)
{
  show_value (WB_ENTRY_CELL (cell));
}

static GtkWidget *
wb_entry_cell_get_input (WbCell *cell)
{
  return WB_ENTRY_CELL (cell)->entry;
}

static void
wb_entry_cell_dispose (GObject *object)
{
  g_clear_pointer (&WB_ENTRY_CELL (object)->entry, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_entry_cell_parent_class)->dispose (object);
}

static void
wb_entry_cell_finalize (GObject *object)
{
  g_free (WB_ENTRY_CELL (object)->shown);

  G_OBJECT_CLASS (wb_entry_cell_parent_class)->finalize (object);
}

static void
wb_entry_cell_class_init (WbEntryCellClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  WbCellClass *cell_class = WB_CELL_CLASS (klass);

  object_class->dispose = wb_entry_cell_dispose;
  object_class->finalize = wb_entry_cell_finalize;
  cell_class->show = wb_entry_cell_show;
  cell_class->show_text = wb_entry_cell_show_text;
  cell_class->revert = wb_entry_cell_revert;
  cell_class->get_input = wb_entry_cell_get_input;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
wb_entry_cell_init (WbEntryCell *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->entry = gtk_entry_new ();
  gtk_entry_set_has_frame (GTK_ENTRY (self->entry), FALSE);
  gtk_widget_set_parent (self->entry, GTK_WIDGET (self));
  /* Undo is the job's: what is set goes back by the window's own keys. */
  gtk_editable_set_enable_undo (GTK_EDITABLE (self->entry), FALSE);

  g_signal_connect_swapped (self->entry, "activate", G_CALLBACK (activate_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (focus_leave_cb), self);
  gtk_widget_add_controller (self->entry, focus);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (self->entry, keys);
}

GtkWidget *
wb_entry_cell_new (guint    chars,
                   gboolean numeric)
{
  WbEntryCell *self = g_object_new (WB_TYPE_ENTRY_CELL, NULL);

  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), (int) chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), (int) chars);
  if (numeric)
    {
      gtk_entry_set_alignment (GTK_ENTRY (self->entry), 1);
      gtk_widget_add_css_class (self->entry, "numeric");
    }

  return GTK_WIDGET (self);
}
