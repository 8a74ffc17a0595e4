/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The entry of a cell and its keys. What text stands for a value, and what typed text means, is
 * each kind's own. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-text-cell.h"

typedef struct
{
  GtkWidget *entry;
  char      *shown;      /* the text that stands for the value; another is typed */
} WbTextCellPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (WbTextCell, wb_text_cell, WB_TYPE_CELL)

static WbTextCellPrivate *
get_private (WbTextCell *self)
{
  return wb_text_cell_get_instance_private (self);
}

static gboolean
set_value (WbTextCell *self)
{
  g_autofree char *text = NULL;

  if (!wb_text_cell_is_typed (self))
    return !wb_cell_has_fault (WB_CELL (self));

  text = g_strdup (wb_text_cell_get_text (self));
  if (!WB_TEXT_CELL_GET_CLASS (self)->take (self, text))
    return FALSE;

  wb_text_cell_show_value (self);
  return TRUE;
}

static void
set_and_move (WbTextCell *self,
              int         rows)
{
  if (set_value (self))
    wb_cell_move (WB_CELL (self), rows);
  else
    gtk_widget_error_bell (GTK_WIDGET (self));
}

static gboolean
give_up (WbTextCell *self)
{
  if (!wb_text_cell_is_typed (self) && !wb_cell_has_fault (WB_CELL (self)))
    return FALSE;

  wb_text_cell_show_value (self);
  wb_cell_set_fault (WB_CELL (self), NULL);
  wb_cell_focus (WB_CELL (self));
  return TRUE;
}

/* --- callbacks -------------------------------------------------------------------------------- */

static void
activate_cb (WbTextCell *self)
{
  WbTextCellClass *klass = WB_TEXT_CELL_GET_CLASS (self);

  if (klass->choose != NULL && klass->choose (self))
    return;
  if (set_value (self))
    wb_cell_finish (WB_CELL (self));
  else
    gtk_widget_error_bell (GTK_WIDGET (self));
}

static void
focus_leave_cb (WbTextCell *self)
{
  set_value (self);
  /* A long text is read from its beginning. */
  gtk_editable_set_position (GTK_EDITABLE (wb_text_cell_get_entry (self)), 0);
}

static void
go (WbTextCell *self,
    int         step)
{
  WbTextCellClass *klass = WB_TEXT_CELL_GET_CLASS (self);

  if (klass->go == NULL || !klass->go (self, step))
    set_and_move (self, step);
}

static gboolean
key_pressed_cb (WbTextCell      *self,
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
wb_text_cell_show (WbCell *cell)
{
  WbTextCell *self = WB_TEXT_CELL (cell);

  if (wb_cell_has_fault (cell)
      || (wb_text_cell_has_focus (self) && wb_text_cell_is_typed (self)))
    return;

  wb_text_cell_show_value (self);
}

static void
wb_text_cell_show_text (WbCell     *cell,
                        const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (wb_text_cell_get_entry (WB_TEXT_CELL (cell))), text);
}

static void
wb_text_cell_revert (WbCell *cell)
{
  wb_text_cell_show_value (WB_TEXT_CELL (cell));
}

static GtkWidget *
wb_text_cell_get_input (WbCell *cell)
{
  return wb_text_cell_get_entry (WB_TEXT_CELL (cell));
}

static void
wb_text_cell_dispose (GObject *object)
{
  g_clear_pointer (&get_private (WB_TEXT_CELL (object))->entry, gtk_widget_unparent);

  G_OBJECT_CLASS (wb_text_cell_parent_class)->dispose (object);
}

static void
wb_text_cell_finalize (GObject *object)
{
  g_free (get_private (WB_TEXT_CELL (object))->shown);

  G_OBJECT_CLASS (wb_text_cell_parent_class)->finalize (object);
}

static void
wb_text_cell_class_init (WbTextCellClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  WbCellClass *cell_class = WB_CELL_CLASS (klass);

  object_class->dispose = wb_text_cell_dispose;
  object_class->finalize = wb_text_cell_finalize;
  cell_class->show = wb_text_cell_show;
  cell_class->show_text = wb_text_cell_show_text;
  cell_class->revert = wb_text_cell_revert;
  cell_class->get_input = wb_text_cell_get_input;
}

static void
wb_text_cell_init (WbTextCell *self)
{
  WbTextCellPrivate *priv = get_private (self);
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  priv->entry = gtk_entry_new ();
  gtk_entry_set_has_frame (GTK_ENTRY (priv->entry), FALSE);
  gtk_widget_set_parent (priv->entry, GTK_WIDGET (self));
  /* Undo is the job's: what is set goes back by the window's own keys. */
  gtk_editable_set_enable_undo (GTK_EDITABLE (priv->entry), FALSE);

  g_signal_connect_swapped (priv->entry, "activate", G_CALLBACK (activate_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (focus_leave_cb), self);
  gtk_widget_add_controller (priv->entry, focus);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (priv->entry, keys);
}

/* --- for the kinds of cells ------------------------------------------------------------------- */

GtkWidget *
wb_text_cell_get_entry (WbTextCell *self)
{
  return get_private (self)->entry;
}

const char *
wb_text_cell_get_text (WbTextCell *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (get_private (self)->entry));
}

gboolean
wb_text_cell_is_typed (WbTextCell *self)
{
  const char *shown = get_private (self)->shown;

  return shown != NULL && g_strcmp0 (wb_text_cell_get_text (self), shown) != 0;
}

gboolean
wb_text_cell_has_focus (WbTextCell *self)
{
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (get_private (self)->entry));

  return gtk_widget_has_focus (GTK_WIDGET (text));
}

void
wb_text_cell_show_value (WbTextCell *self)
{
  WbTextCellPrivate *priv = get_private (self);
  WbTextCellClass *klass = WB_TEXT_CELL_GET_CLASS (self);

  g_free (priv->shown);
  priv->shown = klass->get_value_text (self);
  if (!g_str_equal (wb_text_cell_get_text (self), priv->shown))
    gtk_editable_set_text (GTK_EDITABLE (priv->entry), priv->shown);
  if (klass->shown != NULL)
    klass->shown (self);
}
