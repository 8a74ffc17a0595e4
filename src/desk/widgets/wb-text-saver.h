/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving what a window shows as a file that a person chooses. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** Returns: (transfer full) (nullable): the text of @window to be saved; %NULL: there is none
 * now. */
typedef char *(*WbTextMake) (GtkWindow *window);

/** The text of @window is in @file, or @error (nullable) says why not. */
typedef void  (*WbTextSaved) (GtkWindow    *window,
                              GFile        *file,
                              const GError *error);

/**
 * wb_text_save:
 * @title: of the chooser
 * @name: proposed for the file
 * @make: asked once a file is chosen
 * @saved: told when it is written; off the main loop it is until then
 *
 * Asks for a file and writes it. Nothing happens when the person, or the window, goes away
 * meanwhile.
 */
void wb_text_save (GtkWindow   *window,
                   const char  *title,
                   const char  *name,
                   WbTextMake   make,
                   WbTextSaved  saved);

G_END_DECLS
