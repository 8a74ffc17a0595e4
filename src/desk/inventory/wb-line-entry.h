/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of the strip: caption, entry, and beneath it what the text means, what is wrong with
 * it, or how it could go on. Shows what it is told; reading the text is the strip's. */
#pragma once

#include <gtk/gtk.h>

#include "desk/inventory/wb-line.h"

G_BEGIN_DECLS

#define WB_TYPE_LINE_ENTRY (wb_line_entry_get_type ())
G_DECLARE_FINAL_TYPE (WbLineEntry, wb_line_entry, WB, LINE_ENTRY, GtkWidget)

/* Signals: "changed" (the text is another, by typing or otherwise), "activate" (Enter), "left" (the
 * focus went elsewhere). */

GtkWidget  *wb_line_entry_new      (WbLinePart   part) G_GNUC_WARN_UNUSED_RESULT;

WbLinePart  wb_line_entry_get_part (WbLineEntry *self);
const char *wb_line_entry_get_text (WbLineEntry *self);
/** Puts @text there; "changed" is told when it differs. */
void        wb_line_entry_set_text (WbLineEntry *self,
                                    const char  *text);

/** @words: (nullable): shown beneath in place of a hint or error there was. */
void        wb_line_entry_set_hint (WbLineEntry *self,
                                    const char  *words);
/** @texts: (nullable) (transfer full): how the text could go on, the likeliest first. They are
 * shown beneath, and Down and Up put one after the other in place of the text; while they do so,
 * other suggestions are not taken. */
void        wb_line_entry_take_suggestions (WbLineEntry  *self,
                                            char        **texts);
/** Offers one text, which Down puts into the empty field; @words say so beneath. @text: (nullable):
 * offers nothing. */
void        wb_line_entry_offer    (WbLineEntry *self,
                                    const char  *text,
                                    const char  *words);
/** @sentence: (nullable): what is wrong; %NULL when nothing is. Marks the entry, also for a screen
 * reader. */
void        wb_line_entry_set_error (WbLineEntry *self,
                                     const char  *sentence);
gboolean    wb_line_entry_has_error (WbLineEntry *self);

/** Moves the focus there and selects the text. */
void        wb_line_entry_focus    (WbLineEntry *self);
/** Moves the focus there, behind the text, so that typing mends and does not replace. */
void        wb_line_entry_focus_end (WbLineEntry *self);
gboolean    wb_line_entry_is_focus (WbLineEntry *self);
/** Returns: (transfer none): the entry itself. */
GtkWidget  *wb_line_entry_get_entry (WbLineEntry *self);

G_END_DECLS
