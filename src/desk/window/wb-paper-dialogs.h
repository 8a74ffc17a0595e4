/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving the papers of the open job as PDF files: the folder chooser, how far it is, and what came
 * of it. */
#pragma once

#include "desk/window/wb-window.h"

G_BEGIN_DECLS

/** Asks for a folder, and saves the papers of @job in a folder of their own in it. */
void wb_paper_dialogs_save    (WbWindow   *window,
                               WbJob      *job);

/** As if @folder had been chosen: what the chooser ends in. */
void wb_paper_dialogs_save_to (WbWindow   *window,
                               WbJob      *job,
                               const char *folder);

G_END_DECLS
