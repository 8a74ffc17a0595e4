/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A cell that says in words what a row lacks or what is unusual about it; empty when all is
 * well. */
#define WB_TYPE_NOTICE_CELL (wb_notice_cell_get_type ())
G_DECLARE_FINAL_TYPE (WbNoticeCell, wb_notice_cell, WB, NOTICE_CELL, GtkWidget)

/** @warns: a sign stands before the words; @numeric: they are an amount, and stand at the right. */
GtkWidget *wb_notice_cell_new  (guint         chars,
                                gboolean      warns,
                                gboolean      numeric) G_GNUC_WARN_UNUSED_RESULT;
void       wb_notice_cell_show (WbNoticeCell *self,
                                const char   *text);

G_END_DECLS
