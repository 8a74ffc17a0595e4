/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-loss-line.h"

G_BEGIN_DECLS

/* The lines of finished claims grouped and added up, so that an office sees what breaks, where and
 * in whose hands. Pure: the order of the lines changes nothing, and the groups add up to the total to
 * the cent. */

/** Under so many pieces moved a rate misleads, and none is told. A choice of ours. */
#define WB_LOSS_FEWEST_FOR_RATE 20

/**
 * WbLossMoved: pieces that were moved, claimed or not
 * @delivered_on: when
 * @keys: as of #WbLossLine; those of cause, handler and category are %NULL
 *
 * Free with wb_loss_moved_free().
 */
typedef struct
{
  char    currency[4];
  GDate   delivered_on;
  char   *keys[WB_N_LOSS_BY];
  gint64  n;
} WbLossMoved;

void          wb_loss_moved_free (WbLossMoved   *self);

/**
 * WbLossGroup:
 * @key: (nullable): as of #WbLossLine; %NULL for what was not noted, and in a total
 * @lines: (element-type WbLossLine) (transfer none): those behind it, by claim; none for a group
 *   that moved without a loss
 * @n_claims: different claims among @lines
 * @n_pieces: different pieces of the inventory among @lines
 * @n_unreckoned: lines of which nobody can say what is owed
 * @moved: pieces moved; %WB_INTEGER_UNSET where there is no sense in counting them
 * @demanded: of @lines, or of their parts when grouped by who bears them
 * @owed: likewise
 * @paid: likewise
 */
typedef struct
{
  char      *key;
  char       currency[4];
  GPtrArray *lines;
  guint      n_claims;
  guint      n_pieces;
  guint      n_unreckoned;
  gint64     moved;
  gint64     demanded;
  gint64     owed;
  gint64     paid;
} WbLossGroup;

/**
 * WbLossReport:
 * @groups: (element-type WbLossGroup): by currency, most owed first, what was not noted last
 * @totals: (element-type WbLossGroup): one a currency, in the same order
 * @n_undated: claims left out because no date says when they were finished; only with a period
 */
typedef struct
{
  WbLossBy   by;
  GPtrArray *groups;
  GPtrArray *totals;
  guint      n_undated;
} WbLossReport;

/**
 * wb_loss_report:
 * @lines: (element-type WbLossLine): has to live as long as the report
 * @moved: (element-type WbLossMoved)
 * @from: (nullable): first day of the period, by the day on which claims were finished and pieces
 *   were delivered; %NULL or unset for no beginning
 * @to: (nullable): last day, likewise
 *
 * Keys that differ only in case, accents' spelling or punctuation are one group, called by the
 * spelling that sorts first.
 *
 * Returns: (transfer full) (nullable): the report, or %NULL with %WB_CORE_ERROR_OVERFLOW, or _RANGE
 *   for a line with a negative amount
 */
WbLossReport *wb_loss_report     (GPtrArray           *lines,
                                  GPtrArray           *moved,
                                  WbLossBy             by,
                                  const GDate         *from,
                                  const GDate         *to,
                                  GError             **error) G_GNUC_WARN_UNUSED_RESULT;
void          wb_loss_report_free (WbLossReport       *self);

/** Whether pieces moved can be counted by it. */
gboolean      wb_loss_by_has_moved (WbLossBy           by);

/** @hundredths: (out): pieces claimed of 100 moved, in hundredths, to the nearest. Returns: %FALSE
 * when fewer than %WB_LOSS_FEWEST_FOR_RATE were moved. */
gboolean      wb_loss_group_rate (const WbLossGroup   *self,
                                  gint64              *hundredths);
/** @minor: (out): owed a hundred pieces moved, to the nearest minor unit. Returns: as
 * wb_loss_group_rate(); also %FALSE when it cannot be counted. */
gboolean      wb_loss_group_cost (const WbLossGroup   *self,
                                  gint64              *minor);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbLossMoved, wb_loss_moved_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbLossReport, wb_loss_report_free)

G_END_DECLS
