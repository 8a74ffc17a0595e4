/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A deed that a person waits for: a dialog says how far it is and can stop it, once it takes longer
 * than a moment. The deed itself is office's, in a worker thread. */
#pragma once

#include <gtk/gtk.h>

#include "office/wb-progress.h"

G_BEGIN_DECLS

/** WbPassage: one deed on its way. It ends early when its window does. */
typedef struct _WbPassage WbPassage;

/** @heading: of the dialog. Returns: (transfer full) */
WbPassage    *wb_passage_new             (GtkWindow   *window,
                                          const char  *heading) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none): to be given to the deed. */
WbProgress   *wb_passage_get_progress    (WbPassage   *self);
/** Returns: (transfer none): to be given to the deed. */
GCancellable *wb_passage_get_cancellable (WbPassage   *self);
/** Returns: (transfer none): where it was started. */
GtkWindow    *wb_passage_get_window      (WbPassage   *self);
/** Returns: whether the window is still there, so that what came of the deed can be shown. */
gboolean      wb_passage_has_window      (WbPassage   *self);

/** Takes the dialog away: the deed is done, or another one goes on under the same heading. */
void          wb_passage_end             (WbPassage   *self);
void          wb_passage_free            (WbPassage   *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbPassage, wb_passage_free)

G_END_DECLS
