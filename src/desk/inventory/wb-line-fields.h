/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All fields of a line as one widget: texts in, texts out, each with its advice beneath. What Enter
 * does with them is the strip's. */
#pragma once

#include <gtk/gtk.h>

#include "desk/inventory/wb-line-texts.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signals: "activate": Enter in a field; "lot-chosen": a person chose another lot. */
#define WB_TYPE_LINE_FIELDS (wb_line_fields_get_type ())
G_DECLARE_FINAL_TYPE (WbLineFields, wb_line_fields, WB, LINE_FIELDS, GtkWidget)

GtkWidget   *wb_line_fields_new         (void) G_GNUC_WARN_UNUSED_RESULT;
/** @model: for suggestions, lots and the currency; once only. */
void         wb_line_fields_set_model   (WbLineFields *self,
                                         WbJobModel   *model);

/** Returns: (transfer full): what stands in the fields. */
char       **wb_line_fields_get_texts   (WbLineFields    *self) G_GNUC_WARN_UNUSED_RESULT;
/** Fills all fields, without a "lot-chosen". */
void         wb_line_fields_set_texts   (WbLineFields  *self,
                                         char         **texts);
const char  *wb_line_fields_get_text    (WbLineFields *self,
                                         WbLinePart    part);
void         wb_line_fields_set_text    (WbLineFields *self,
                                         WbLinePart    part,
                                         const char   *text);
/** Chooses a lot as a person would. */
void         wb_line_fields_choose_lot  (WbLineFields *self,
                                         const char   *lot);
/** Unit of a bare weight; pounds at first. */
void         wb_line_fields_set_unit    (WbLineFields *self,
                                         WbWeightUnit  unit);

/** Shows what is wrong with a field and, when @focus, moves the focus there. */
void         wb_line_fields_show_error  (WbLineFields *self,
                                         WbLinePart    part,
                                         const char   *sentence,
                                         gboolean      focus);

/** Shows or hides the fields that few lines need. */
void         wb_line_fields_show_more   (WbLineFields *self,
                                         gboolean      more);

void         wb_line_fields_focus       (WbLineFields *self,
                                         WbLinePart    part);
/** As wb_line_fields_focus(), with the insertion point behind so many characters and nothing
 * selected. */
void         wb_line_fields_focus_at    (WbLineFields *self,
                                         WbLinePart    part,
                                         int           position);
/** Returns: the field with the focus, or the one that had it last; the description before any
 * had. */
WbLinePart   wb_line_fields_get_focused (WbLineFields    *self);

G_END_DECLS
