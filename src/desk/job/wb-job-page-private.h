/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-job-page.c and wb-job-page-actions.c only. */
#pragma once

#include "desk/job/wb-job-page.h"

#include "desk/job/wb-page-tabs.h"
#include "desk/share/wb-publish-strip.h"

#include <adwaita.h>

G_BEGIN_DECLS

struct _WbJobPage
{
  GtkWidget              parent_instance;

  GtkWidget             *box;
  GtkLabel              *title;
  GtkLabel              *details;
  GtkButton             *undo_button;
  GtkButton             *redo_button;
  GtkLabel              *saved;
  GtkInfoBar            *fault_bar;
  GtkLabel              *fault;
  GtkButton             *fault_button;
  AdwToastOverlay       *toasts;
  WbPageTabs            *tabs;
  WbPublishStrip        *publish;
  AdwViewStack          *stack;         /* a bin for each page, empty until its first visit */

  WbJobModel            *model;
  GSignalGroup          *model_signals;
  gboolean               show_back;
  GtkWidget             *conflict_dialog;   /* (weak) */
  AdwToast              *toast;         /* (weak) what was told last */
};

/* wb-job-page-actions.c */
/** All actions but "job.leave". */
void wb_job_page_install_actions (GtkWidgetClass *widget_class);

G_END_DECLS
