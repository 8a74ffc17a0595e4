/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What all cells of a record table have in common: the tie to a field, the place in the table, the
 * mark of a fault. How a value is shown and typed is each kind's own. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-cell.h"

#include <glib/gi18n.h>

#include "office/wb-words.h"

typedef struct
{
  WbFieldTie  *tie;
  GtkListItem *item;      /* (nullable): not owned, it owns the cell */
  guint        column;
  char        *fault;     /* (nullable) */
} WbCellPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (WbCell, wb_cell, GTK_TYPE_WIDGET)

enum
{
  MOVED,
  DONE,
  FAULT,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static WbCellPrivate *
get_private (WbCell *self)
{
  return wb_cell_get_instance_private (self);
}

/* "Replacement cost, line 3": what a screen reader says. */
static void
name_input (WbCell *self)
{
  WbCellPrivate *priv = get_private (self);
  const WbField *field = wb_field_tie_get_field (priv->tie);
  GtkWidget *input = WB_CELL_GET_CLASS (self)->get_input (self);
  g_autofree char *name = NULL;

  if (field == NULL || input == NULL || priv->item == NULL)
    return;

  /* Translators: the name of a table's cell: the field and the number of the row. */
  name = g_strdup_printf (_("%s, row %u"), wb_words_field (field), wb_cell_get_position (self) + 1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (input), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  /* In a drop-down the button inside has the focus. */
  if (GTK_IS_DROP_DOWN (input))
    gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_first_child (input)),
                                    GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
mark (WbCell     *self,
      const char *fault)
{
  WbCellPrivate *priv = get_private (self);
  GtkWidget *input = WB_CELL_GET_CLASS (self)->get_input (self);

  if (g_strcmp0 (priv->fault, fault) == 0)
    return;

  g_free (priv->fault);
  priv->fault = g_strdup (fault);

  if (fault != NULL)
    gtk_widget_add_css_class (input, "error");
  else
    gtk_widget_remove_css_class (input, "error");
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), fault != NULL);
  gtk_accessible_update_state (GTK_ACCESSIBLE (input), GTK_ACCESSIBLE_STATE_INVALID,
                               fault != NULL ? GTK_ACCESSIBLE_INVALID_TRUE
                                             : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

static void
value_changed_cb (WbCell *self)
{
  if (wb_field_tie_get_record (get_private (self)->tie) != NULL)
    WB_CELL_GET_CLASS (self)->show (self);
}

static void
wb_cell_get_property (GObject    *object,
                      guint       prop_id,
                      GValue     *value,
                      GParamSpec *pspec)
{
  wb_field_tie_get_row_property (get_private (WB_CELL (object))->tie, object, prop_id, value,
                                 pspec);
}

static void
wb_cell_set_property (GObject      *object,
                      guint         prop_id,
                      const GValue *value,
                      GParamSpec   *pspec)
{
  wb_field_tie_set_row_property (get_private (WB_CELL (object))->tie, object, prop_id, value,
                                 pspec);
}

static void
wb_cell_finalize (GObject *object)
{
  WbCellPrivate *priv = get_private (WB_CELL (object));

  g_clear_object (&priv->tie);
  g_free (priv->fault);

  G_OBJECT_CLASS (wb_cell_parent_class)->finalize (object);
}

static gboolean
wb_cell_query_tooltip (GtkWidget  *widget,
                       int         x,
                       int         y,
                       gboolean    keyboard,
                       GtkTooltip *tooltip)
{
  WbCellPrivate *priv = get_private (WB_CELL (widget));

  gtk_tooltip_set_text (tooltip, priv->fault);
  return priv->fault != NULL;
}

static gboolean
wb_cell_grab_focus (GtkWidget *widget)
{
  GtkWidget *input = WB_CELL_GET_CLASS (WB_CELL (widget))->get_input (WB_CELL (widget));

  return gtk_widget_grab_focus (input);
}

static void
wb_cell_class_init (WbCellClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = wb_cell_get_property;
  object_class->set_property = wb_cell_set_property;
  object_class->finalize = wb_cell_finalize;
  widget_class->grab_focus = wb_cell_grab_focus;
  widget_class->query_tooltip = wb_cell_query_tooltip;

  wb_field_tie_install_properties (object_class);
  gtk_widget_class_set_css_name (widget_class, "wb-cell");

  signals[MOVED] = g_signal_new ("moved", WB_TYPE_CELL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 1, G_TYPE_INT);
  signals[DONE] = g_signal_new ("done", WB_TYPE_CELL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
  signals[FAULT] = g_signal_new ("fault", WB_TYPE_CELL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
wb_cell_init (WbCell *self)
{
  WbCellPrivate *priv = get_private (self);

  priv->tie = wb_field_tie_new ();
  g_signal_connect_object (priv->tie, "changed", G_CALLBACK (value_changed_cb), self,
                           G_CONNECT_SWAPPED);
}

void
wb_cell_bind (WbCell      *self,
              GtkListItem *item,
              guint        column,
              const char  *id)
{
  WbCellPrivate *priv = get_private (self);
  g_autofree char *before = NULL;

  g_return_if_fail (WB_IS_CELL (self));

  priv->item = item;
  priv->column = column;
  g_object_get (self, "record-id", &before, NULL);
  if (g_strcmp0 (before, id) != 0)
    {
      mark (self, NULL);
      g_object_set (self, "record-id", id, NULL);
      WB_CELL_GET_CLASS (self)->revert (self);
    }
  name_input (self);
}

void
wb_cell_unbind (WbCell *self)
{
  g_return_if_fail (WB_IS_CELL (self));

  get_private (self)->item = NULL;
}

guint
wb_cell_get_position (WbCell *self)
{
  WbCellPrivate *priv = get_private (self);

  g_return_val_if_fail (WB_IS_CELL (self), GTK_INVALID_LIST_POSITION);

  return priv->item != NULL ? gtk_list_item_get_position (priv->item) : GTK_INVALID_LIST_POSITION;
}

guint
wb_cell_get_column (WbCell *self)
{
  g_return_val_if_fail (WB_IS_CELL (self), 0);

  return get_private (self)->column;
}

const char *
wb_cell_get_id (WbCell *self)
{
  const WbRecord *record;

  g_return_val_if_fail (WB_IS_CELL (self), NULL);

  record = wb_field_tie_get_record (get_private (self)->tie);
  return record != NULL ? record->id : NULL;
}

void
wb_cell_focus (WbCell *self)
{
  GtkWidget *input;

  g_return_if_fail (WB_IS_CELL (self));

  input = WB_CELL_GET_CLASS (self)->get_input (self);
  gtk_widget_grab_focus (input);
  if (GTK_IS_EDITABLE (input))
    gtk_editable_select_region (GTK_EDITABLE (input), 0, -1);
}

void
wb_cell_show_fault (WbCell     *self,
                    const char *text,
                    const char *fault)
{
  g_return_if_fail (WB_IS_CELL (self));

  WB_CELL_GET_CLASS (self)->show_text (self, text);
  mark (self, fault);
}

WbFieldTie *
wb_cell_get_tie (WbCell *self)
{
  g_return_val_if_fail (WB_IS_CELL (self), NULL);

  return get_private (self)->tie;
}

gboolean
wb_cell_has_fault (WbCell *self)
{
  g_return_val_if_fail (WB_IS_CELL (self), FALSE);

  return get_private (self)->fault != NULL;
}

gboolean
wb_cell_commit (WbCell     *self,
                const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *fault = NULL;

  g_return_val_if_fail (WB_IS_CELL (self), FALSE);

  if (wb_field_tie_set_text (get_private (self)->tie, text, &error))
    {
      wb_cell_set_fault (self, NULL);
      return TRUE;
    }

  fault = wb_field_tie_describe (get_private (self)->tie, error);
  wb_cell_set_fault (self, fault);
  return FALSE;
}

void
wb_cell_set_fault (WbCell     *self,
                   const char *fault)
{
  WbCellPrivate *priv = get_private (self);

  g_return_if_fail (WB_IS_CELL (self));

  if (g_strcmp0 (priv->fault, fault) == 0)
    return;

  mark (self, fault);
  g_signal_emit (self, signals[FAULT], 0, fault);
}

void
wb_cell_move (WbCell *self,
              int     rows)
{
  g_return_if_fail (WB_IS_CELL (self));

  g_signal_emit (self, signals[MOVED], 0, rows);
}

void
wb_cell_finish (WbCell *self)
{
  g_return_if_fail (WB_IS_CELL (self));

  g_signal_emit (self, signals[DONE], 0);
}
