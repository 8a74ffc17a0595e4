/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strip of fields in which a clerk enters one inventory line after the other, and changes lines
 * that are there. Enter takes the line and goes on, Escape goes back; what was typed and cannot be
 * read stays where it is. */
#pragma once

#include <gtk/gtk.h>

#include "desk/inventory/wb-line.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signals:
 * "entered" (const char *id): a new line is in the job, and the strip shows the next;
 * "stored" (const char *id): a changed line is in the job; the listener says what comes next;
 * "step" (int step): the line above (-1) or below (1) is wanted for changing;
 * "leave": Escape, with nothing left to go back from;
 * "lost": the line under change was removed elsewhere; what was typed is now a new line. */
#define WB_TYPE_LINE_STRIP (wb_line_strip_get_type ())
G_DECLARE_FINAL_TYPE (WbLineStrip, wb_line_strip, WB, LINE_STRIP, GtkWidget)

/** @model: the job that gets the lines; once only. */
void        wb_line_strip_set_model   (WbLineStrip *self,
                                       WbJobModel  *model);

/** Returns: (transfer none) (nullable): id of the piece under change, %NULL while a new line is
 * entered. */
const char *wb_line_strip_get_changed (WbLineStrip *self);

/**
 * wb_line_strip_change:
 *
 * Puts a line that is there into the strip, to be changed. A line under change is stored first, a
 * new line begun is put aside and comes back afterwards. Returns: %FALSE when the line under change
 * cannot be stored: it stays, with what is wrong.
 */
gboolean    wb_line_strip_change      (WbLineStrip *self,
                                       const char  *id);

/** Ends changing, without storing; the new line that was put aside is there again. */
void        wb_line_strip_go_on       (WbLineStrip *self);

/** Starts a new line of @lot (nullable) with @tag. A line under change is stored first; nothing
 * happens when it cannot be. */
void        wb_line_strip_start       (WbLineStrip *self,
                                       const char  *lot,
                                       gint64       tag);

/** Moves the focus to a field; to the description of a new line, or the field that the focus was in
 * last. */
void        wb_line_strip_focus       (WbLineStrip *self);

/**
 * wb_line_strip_settle:
 *
 * Takes what is typed, when anything is, without going on to another line. Returns: (transfer full)
 * (nullable): id of the line in hand: that under change, or else the one just entered, or else the
 * last of the inventory; %NULL when there is none, or what is typed cannot be taken and says so.
 */
char       *wb_line_strip_settle      (WbLineStrip *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
