/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line beneath a row. Plain functions around a label: the label is the whole state. */
#include "config.h"

#include "desk/widgets/wb-row-note.h"

static const char *
style_of (WbNoteKind kind)
{
  switch (kind)
    {
    case WB_NOTE_HINT:
      return "dim-label";
    case WB_NOTE_WARNING:
      return "warning";
    case WB_NOTE_ERROR:
      return "error";
    }

  g_assert_not_reached ();
}

GtkWidget *
wb_row_note_new (GtkListBoxRow *row)
{
  GtkWidget *note;

  g_return_val_if_fail (GTK_IS_LIST_BOX_ROW (row), NULL);

  note = g_object_new (GTK_TYPE_LABEL,
                       "visible", FALSE,
                       "wrap", TRUE,
                       "wrap-mode", PANGO_WRAP_WORD_CHAR,
                       "xalign", 0.0,
                       "margin-start", 12,
                       "margin-end", 12,
                       "margin-bottom", 9,
                       NULL);
  gtk_widget_add_css_class (note, "caption");

  /* The row's own child keeps its place, and what the style says about it. */
  gtk_widget_set_layout_manager (GTK_WIDGET (row), gtk_box_layout_new (GTK_ORIENTATION_VERTICAL));
  gtk_widget_insert_before (note, GTK_WIDGET (row), NULL);
  return note;
}

void
wb_row_note_set (GtkWidget  *note,
                 const char *text,
                 WbNoteKind  kind)
{
  g_return_if_fail (GTK_IS_LABEL (note));

  for (guint i = WB_NOTE_HINT; i <= WB_NOTE_ERROR; i++)
    gtk_widget_remove_css_class (note, style_of ((WbNoteKind) i));
  gtk_widget_add_css_class (note, style_of (kind));

  gtk_label_set_label (GTK_LABEL (note), text != NULL ? text : "");
  gtk_widget_set_visible (note, text != NULL);
}
