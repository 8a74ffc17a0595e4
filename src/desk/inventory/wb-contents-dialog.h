/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of what is inside one piece: things one after the other from the keyboard, what they
 * come to, and changing and removing those that are there. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Every thing entered, changed or removed is one change of the job, to be undone by itself. The
 * window closes when its piece is removed. */
#define WB_TYPE_CONTENTS_DIALOG (wb_contents_dialog_get_type ())
G_DECLARE_FINAL_TYPE (WbContentsDialog, wb_contents_dialog, WB, CONTENTS_DIALOG, AdwWindow)

/** @piece: id of a piece of the job */
WbContentsDialog *wb_contents_dialog_new (GtkWindow  *parent,
                                          WbJobModel *model,
                                          const char *piece);

G_END_DECLS
