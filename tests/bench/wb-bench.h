/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the measurements share: a large job, medians, and how long a main loop was kept from its
 * work. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** A deed to be timed; called once a round. */
typedef void (*WbBenchDeed) (gpointer data);

/** Returns: the median time of @rounds calls, in microseconds, after one that is not counted. */
gint64  wb_bench_median       (guint        rounds,
                               WbBenchDeed  deed,
                               gpointer     data);

/**
 * wb_bench_make_job:
 * @n_pieces: how many pieces, every third with marks
 * @n_lines: how many lines the one claim "claim-1" has; each is about another piece
 *
 * Makes an interstate job that was picked up on 2 March 2026, with an order, parties, stops, a weighing,
 * a choice of full value and four handovers. The same arguments give the same job.
 *
 * Returns: (transfer full): the job, checked
 */
WbJob  *wb_bench_make_job     (guint        n_pieces,
                               guint        n_lines) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_bench_watch_stalls:
 *
 * From now on the default main context is watched: a stall is the time between its waking up and its
 * next looking for something to do, during which no key press and no frame is answered.
 */
void    wb_bench_watch_stalls (void);

/** Returns: the longest stall since the last call, in microseconds, and forgets it. */
gint64  wb_bench_take_stall   (void);

/** Prints a line "WHAT: A ms; peer, PEER: B ms; ratio C (aim: AIM)". Times in microseconds. */
void    wb_bench_report       (const char  *what,
                               gint64       own,
                               const char  *peer_name,
                               gint64       peer,
                               const char  *aim);

G_END_DECLS
