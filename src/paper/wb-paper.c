/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error domain of documents; what can go wrong is in its header. */
#include "config.h"

#include "paper/wb-paper.h"

G_DEFINE_QUARK (wb-paper-error-quark, wb_paper_error)
