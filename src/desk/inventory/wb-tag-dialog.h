/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small window in which a tag is typed or scanned. Enter goes to its line; when several lines
 * have the tag, they stand there to choose from. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signal "chosen": the id of a piece. The window closes by itself. */
#define WB_TYPE_TAG_DIALOG (wb_tag_dialog_get_type ())
G_DECLARE_FINAL_TYPE (WbTagDialog, wb_tag_dialog, WB, TAG_DIALOG, AdwWindow)

WbTagDialog *wb_tag_dialog_new     (GtkWindow   *parent,
                                    WbJobModel  *model);

/** Puts @text into the field, and the focus on the first of the lines that have the tag. */
void         wb_tag_dialog_look_up (WbTagDialog *self,
                                    const char  *text);

G_END_DECLS
