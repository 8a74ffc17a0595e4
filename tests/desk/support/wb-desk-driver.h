/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The real application in the test's own process: started, given a book, ended. */
#pragma once

#include "desk/support/wb-desk-book.h"
#include "desk/wb-application.h"

G_BEGIN_DECLS

/** Returns: (transfer full): a registered application without a window or a book opened before. */
WbApplication *wb_desk_driver_start        (void);

/** Opens the file of @book in a window and waits until its jobs are listed. */
WbWindow      *wb_desk_driver_open         (WbApplication *app,
                                            WbDeskBook    *book);

/** Opens a job and waits until it is shown. */
void           wb_desk_driver_open_job     (WbWindow      *window,
                                            const char    *id);
/** Waits until the job @id is shown, or any when it is %NULL. */
void           wb_desk_driver_wait_for_job (WbWindow      *window,
                                            const char    *id);

/** Returns: (transfer none): the job shown, as it stands. */
WbJob         *wb_desk_driver_get_job      (WbWindow      *window);

/** Returns: (transfer none): the row that shows @field ("order.vehicle"); it has to be there. */
GtkWidget     *wb_desk_driver_find_field   (GtkWidget     *root,
                                            const char    *field);

/** Closes all windows and waits until they are gone and their books closed. */
void           wb_desk_driver_quit         (WbApplication *app);

G_END_DECLS
