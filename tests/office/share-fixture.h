/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two offices with a book each and one folder as their server, for tests of what is shared. */
#pragma once

#include "office/wb-office.h"

G_BEGIN_DECLS

typedef struct
{
  char     *folder;
  char     *server_folder;   /* made by the first who writes there */
  WbOffice *here;
  WbOffice *there;
  char     *at_here;         /* id of the server in the book here, and there */
  char     *at_there;
} ShareFixture;

/** Without the servers. */
void      share_fixture_set_up_books (ShareFixture  *self,
                                      gconstpointer  data);
void      share_fixture_set_up       (ShareFixture  *self,
                                      gconstpointer  data);
void      share_fixture_tear_down    (ShareFixture  *self,
                                      gconstpointer  data);

/** Runs the main loop until @done, which fails after some seconds. */
void      share_fixture_wait         (gboolean     (*done) (gpointer data),
                                      gpointer       data);
/** A #GAsyncReadyCallback that keeps the result: @data is a (GAsyncResult **), to be waited for
 * with the other. */
void      share_fixture_ready        (GObject       *source,
                                      GAsyncResult  *result,
                                      gpointer       data);
gboolean  share_fixture_is_ready     (gpointer       data);
/** Removes a folder with all that is in it. */
void      share_fixture_remove       (const char    *path);

/** Call first in main(): there is no secret service then. */
void      share_fixture_init         (int           *argc,
                                      char        ***argv);

G_END_DECLS
