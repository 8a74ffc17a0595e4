/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two versions of one job beside each other: what differs, what has to be decided, and the job of
 * both. Nothing is stored or sent from here. */
#pragma once

#include <adwaita.h>

#include "office/wb-publish-compare.h"

G_BEGIN_DECLS

#define WB_TYPE_MERGE_WINDOW (wb_merge_window_get_type ())
G_DECLARE_FINAL_TYPE (WbMergeWindow, wb_merge_window, WB, MERGE_WINDOW, AdwWindow)

/**
 * wb_merge_window_new:
 * @base: (nullable): what both started from, as for wb_merge_new()
 * @mine: the job as it is here
 * @theirs: as it is there
 * @about: (nullable): a sentence on who has made what is there, and when
 *
 * Returns: (transfer none): the window, which compares in a thread of its own. It emits "merged" with
 *   the #WbJob of both, which has the revision of @mine, when that is asked for, and closes.
 */
GtkWidget *wb_merge_window_new (WbJob      *base,
                                WbJob      *mine,
                                WbJob      *theirs,
                                const char *about);

/**
 * wb_merge_window_new_published:
 * @published: what the window decides in
 *
 * Returns: (transfer none): the window as of wb_merge_window_new(), of what office has compared
 *   already.
 */
GtkWidget *wb_merge_window_new_published (WbComparison *published,
                                          const char   *about);

/** Returns: once "merged" was emitted: which side the job is as a whole, whatever was chosen one by one;
 * %WB_MERGE_UNDECIDED when it is a job of both. */
WbMergeChoice wb_merge_window_get_whole (WbMergeWindow *self);

G_END_DECLS
