/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of the open job that shows what the file still lacks, its papers and its contact log. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Property: "model" (WbJobModel), for construction only.
 * Actions: "papers.add-paper", "papers.add-contact"; "papers.add-kind" (s): adds a paper of that
 * kind. */
#define WB_TYPE_PAPERS_PAGE (wb_papers_page_get_type ())
G_DECLARE_FINAL_TYPE (WbPapersPage, wb_papers_page, WB, PAPERS_PAGE, GtkWidget)

GtkWidget *wb_papers_page_new (WbJobModel *model) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
