/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error domain of documents. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define WB_PAPER_ERROR (wb_paper_error_quark ())

/**
 * WbPaperError:
 * @WB_PAPER_ERROR_WRITE: whoever takes the bytes did not take them
 * @WB_PAPER_ERROR_DRAW: the drawing library failed; its own words are in the message
 * @WB_PAPER_ERROR_STOPPED: whoever watched wanted it to stop
 */
typedef enum
{
  WB_PAPER_ERROR_WRITE,
  WB_PAPER_ERROR_DRAW,
  WB_PAPER_ERROR_STOPPED,
} WbPaperError;

#define WB_PAPER_ERROR_LAST WB_PAPER_ERROR_STOPPED

GQuark wb_paper_error_quark (void);

G_END_DECLS
