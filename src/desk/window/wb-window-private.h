/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-window.c and its parts, wb-window-*.c, only. */
#pragma once

#include "desk/window/wb-window.h"

#include "desk/window/wb-office-pane.h"

#include <adwaita.h>

G_BEGIN_DECLS

struct _WbWindow
{
  AdwApplicationWindow  parent_instance;

  GtkStack             *stack;
  GtkLabel             *opening;
  GMenu                *main_menu;
  GtkMenuButton        *first_menu_button;   /* while there is no book */
  WbOfficePane         *pane;          /* (nullable): made with the first book */

  WbOpenJobs           *open_jobs;
  GSettings            *settings;
  GCancellable         *cancellable;   /* of the job that is being loaded or made */
  char                 *wanted_page;   /* (nullable): which page it is to show */
  char                 *wanted_line;   /* (nullable): claim line that it is to go to */
  GtkWidget            *due;           /* (weak) (nullable): what is due */
  GtkWidget            *report;        /* (weak) (nullable): the report over claims */
};

/** Returns: (transfer none) (nullable): the office whose book is shown. */
WbOffice *wb_window_get_office      (WbWindow       *self);

/** Says something in a dialog over the window. */
void      wb_window_tell            (WbWindow       *self,
                                     const char     *heading,
                                     const char     *body);
/** As wb_window_tell(), what went wrong in words. */
void      wb_window_tell_error      (WbWindow       *self,
                                     const char     *heading,
                                     const GError   *error);

/** Shows the job of @model, at the page and the line that were wanted. */
void      wb_window_show_job        (WbWindow       *self,
                                     WbJobModel     *model);

/* wb-window-actions.c */
void      wb_window_install_actions (GtkWidgetClass *widget_class);
/** Enables what makes sense with the book and the job that are shown. */
void      wb_window_enable_actions  (WbWindow       *self);

/* wb-window-share.c */
void      wb_window_install_share_actions (GtkWidgetClass *widget_class);
void      wb_window_enable_share_actions  (WbWindow       *self);

G_END_DECLS
