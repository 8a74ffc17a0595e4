/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window that lists pieces in groups, each group with a heading and what is wrong with it. Enter
 * on a piece goes to its line. What groups there are, a function says that fills the window anew
 * whenever the job changes. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signal "chosen": the id of a piece. The window closes by itself. */
#define WB_TYPE_PIECE_OVERVIEW (wb_piece_overview_get_type ())
G_DECLARE_FINAL_TYPE (WbPieceOverview, wb_piece_overview, WB, PIECE_OVERVIEW, AdwWindow)

/** Calls wb_piece_overview_add_group() and wb_piece_overview_add_piece() for all there is. */
typedef void (*WbOverviewFunc) (WbPieceOverview *overview,
                                WbJobModel      *model);

/** @nothing: title of the page shown when there is no group; @hint: what to do then */
WbPieceOverview *wb_piece_overview_new       (GtkWindow       *parent,
                                              WbJobModel      *model,
                                              const char      *title,
                                              const char      *nothing,
                                              const char      *hint,
                                              WbOverviewFunc   fill);

/** Begins a group. @description (nullable): beneath the title; @warning: it says what is wrong. */
void             wb_piece_overview_add_group (WbPieceOverview *self,
                                              const char      *title,
                                              const char      *description,
                                              gboolean         warning);
/** Adds a row to the group begun last; @piece: what it goes to. */
void             wb_piece_overview_add_piece (WbPieceOverview *self,
                                              const char      *title,
                                              const char      *subtitle,
                                              const char      *end,
                                              const char      *piece);

G_END_DECLS
