/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The typed cell of a record table. What is good text is for core to say, through the model. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-entry-cell.h"

struct _WbEntryCell
{
  WbTextCell parent_instance;
};

G_DEFINE_FINAL_TYPE (WbEntryCell, wb_entry_cell, WB_TYPE_TEXT_CELL)

/* Amounts without their currency, which is the job's and stands above the table. */
static char *
wb_entry_cell_get_value_text (WbTextCell *self)
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
wb_entry_cell_take (WbTextCell *self,
                    const char *text)
{
  return wb_cell_commit (WB_CELL (self), text);
}

static void
wb_entry_cell_class_init (WbEntryCellClass *klass)
{
  WbTextCellClass *text_class = WB_TEXT_CELL_CLASS (klass);

  text_class->get_value_text = wb_entry_cell_get_value_text;
  text_class->take = wb_entry_cell_take;

  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
wb_entry_cell_init (WbEntryCell *self)
{
}

GtkWidget *
wb_entry_cell_new (guint    chars,
                   gboolean numeric)
{
  WbTextCell *self = g_object_new (WB_TYPE_ENTRY_CELL, NULL);
  GtkWidget *entry = wb_text_cell_get_entry (self);

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), (int) chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), (int) chars);
  if (numeric)
    {
      gtk_entry_set_alignment (GTK_ENTRY (entry), 1);
      gtk_widget_add_css_class (entry, "numeric");
    }

  return GTK_WIDGET (self);
}
