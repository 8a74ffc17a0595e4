/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Making a page of many rows in steps, so that no frame and no key has to wait for all of it. What
 * the parts of a page are and in which steps they come is theirs to say. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A part of a page that is empty at first. */
#define WB_TYPE_LATER (wb_later_get_type ())
G_DECLARE_INTERFACE (WbLater, wb_later, WB, LATER, GtkWidget)

struct _WbLaterInterface
{
  GTypeInterface parent_iface;

  /* Makes a little more. Returns: whether there is more to make. */
  gboolean (*make_more) (WbLater *self);
};

/**
 * wb_later_start:
 * @root: a page that was just made
 *
 * Makes the parts below @root while the main loop has nothing better to do, a few milliseconds at a
 * time, all columns alike from the top. A part is hidden until it has something in it. Ends when
 * @root is disposed of.
 */
void     wb_later_start   (GtkWidget *root);

/** Makes all that is not made yet now, for whoever looks for a widget of the page. */
void     wb_later_finish  (GtkWidget *root);

/** Returns: whether everything is made. */
gboolean wb_later_is_done (GtkWidget *root);

G_END_DECLS
