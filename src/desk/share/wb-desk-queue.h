/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one queue of an office that all its windows share. It goes with the office. */
#pragma once

#include "office/wb-queue.h"

G_BEGIN_DECLS

/** Returns: (transfer none): the queue of @office; made when it is first asked for, and not started. */
WbQueue *wb_desk_queue_get         (WbOffice *office);
/** Starts the queue of @office a moment from now, once the window is there; again is no harm. */
void     wb_desk_queue_start_later (WbOffice *office);
/** Starts it at once: somebody wants something of it. */
void     wb_desk_queue_start       (WbOffice *office);
/** Stops it, before @office is closed. */
void     wb_desk_queue_stop        (WbOffice *office);

G_END_DECLS
