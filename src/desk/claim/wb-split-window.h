/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "core/wb-apportion.h"
#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Splits one line of a claim by hand: a percentage for each that had the goods, and for the other
 * parties that carry, and the reason. Says at once what each part comes to and what is wrong.
 * Enter goes on, Ctrl+Enter splits, Escape gives it up.
 * Actions: "split.set", "split.equal", "split.by-rule". */
#define WB_TYPE_SPLIT_WINDOW (wb_split_window_get_type ())
G_DECLARE_FINAL_TYPE (WbSplitWindow, wb_split_window, WB, SPLIT_WINDOW, AdwWindow)

/** @apportionment: is not kept; @line_id: one of its lines */
GtkWidget *wb_split_window_new (GtkWindow             *parent,
                                WbJobModel            *model,
                                const WbApportionment *apportionment,
                                const char            *line_id) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
