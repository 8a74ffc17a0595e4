/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line of text beneath the content of a list row: what is wrong with its value, or a hint. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  WB_NOTE_HINT,
  WB_NOTE_WARNING,
  WB_NOTE_ERROR,
} WbNoteKind;

/** Gives @row a hidden note beneath its child. @row's dispose unparents it. Returns: (transfer
 * none). */
GtkWidget *wb_row_note_new (GtkListBoxRow *row);

/** Shows @text, or hides the note when it is %NULL. */
void       wb_row_note_set (GtkWidget     *note,
                            const char    *text,
                            WbNoteKind     kind);

G_END_DECLS
