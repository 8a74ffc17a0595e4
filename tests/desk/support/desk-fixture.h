/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An office with a book of its own and one open job, for tests of pages. */
#pragma once

#include <gtk/gtk.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

typedef struct
{
  char       *folder;
  WbOffice   *office;
  WbJobModel *model;
  GtkWidget  *window;     /* (nullable): see desk_fixture_present() */
  gboolean    stored;     /* nothing is left to store: set while tearing down */
} DeskFixture;

/** Makes an office with shipped terms and an open job in US dollars. */
void       desk_fixture_set_up    (DeskFixture   *self,
                                   gconstpointer  data);
void       desk_fixture_tear_down (DeskFixture   *self,
                                   gconstpointer  data);

/** Adds or changes a record of the open job: names and texts of fields, then %NULL. @id of an order
 * or valuation is %NULL. */
void       desk_fixture_put       (DeskFixture   *self,
                                   WbKind         kind,
                                   const char    *id,
                                   ...) G_GNUC_NULL_TERMINATED;

/** Gives the job an interstate order, a weighing of 7,000 lb, a lot and five pieces with
 * handovers. */
void       desk_fixture_add_move  (DeskFixture   *self);
/** Gives the job a signed waiver of full value, as an office would note it. */
void       desk_fixture_waive     (DeskFixture   *self);
/** Adds claim "c1" with four lines: whole, repaired, incomplete, and not on the inventory. */
void       desk_fixture_add_claim (DeskFixture   *self);

/** Shows @page in a window of its own and waits until it is drawn. */
void       desk_fixture_present   (DeskFixture   *self,
                                   GtkWidget     *page,
                                   int            width,
                                   int            height);

/** Waits until the page has followed the last change of the job. */
void       desk_fixture_settle    (DeskFixture   *self);

/** Returns: (nullable) (transfer none): the first visible label below @root whose text is @text. */
GtkWidget *desk_find_label        (GtkWidget     *root,
                                   const char    *text);
/** Returns: (transfer full) (element-type GtkWidget): all visible widgets of @type below @root,
 * depth first. */
GPtrArray *desk_find_all          (GtkWidget     *root,
                                   GType          type);

G_END_DECLS
