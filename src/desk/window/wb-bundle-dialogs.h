/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving the open job as a bundle and opening one: the file choosers, how far it is, and what came
 * of it. */
#pragma once

#include "desk/window/wb-window.h"

G_BEGIN_DECLS

/** Asks where to, and packs @job. */
void wb_bundle_dialogs_save (WbWindow *window,
                             WbJob    *job);

/** Asks which bundle, puts its job into the book of @window and shows it there. */
void wb_bundle_dialogs_open (WbWindow *window);

/** As if @path had been chosen: what the choosers end in. */
void wb_bundle_dialogs_save_to   (WbWindow   *window,
                                  WbJob      *job,
                                  const char *path);
void wb_bundle_dialogs_open_from (WbWindow   *window,
                                  const char *path);

G_END_DECLS
