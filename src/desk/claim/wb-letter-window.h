/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The letters of one claim: written from the job, read, copied, saved, marked as sent; and those
 * that were sent, as they were. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Actions: "letter.send", "letter.copy", "letter.save". */
#define WB_TYPE_LETTER_WINDOW (wb_letter_window_get_type ())
G_DECLARE_FINAL_TYPE (WbLetterWindow, wb_letter_window, WB, LETTER_WINDOW, AdwWindow)

/** Returns: (transfer floating): a modal window over @parent, for a claim of the open job. */
GtkWidget *wb_letter_window_new (GtkWindow  *parent,
                                 WbJobModel *model,
                                 const char *claim_id);

G_END_DECLS
