/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the measurements share: a large job, medians, and how long a main loop was kept from its
 * work. Every time is taken twice, by the clock and by what the processor worked meanwhile: where
 * the two differ, something was waited for, a disk or another program that had the processor. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/** A deed to be timed; called once a round. */
typedef void (*WbBenchDeed) (gpointer data);

/** A time in microseconds. */
typedef struct
{
  gint64 clock;     /* as a person waits for it */
  gint64 work;      /* of processor time */
} WbBenchTime;

/** Returns: the medians of the times of @rounds calls, after one that is not counted. The work is
 * that of all threads. */
WbBenchTime  wb_bench_median       (guint         rounds,
                                    WbBenchDeed   deed,
                                    gpointer      data);

/**
 * wb_bench_make_folder:
 *
 * Makes a folder for the files of a measurement. It goes when the program has ended, however that
 * comes about.
 *
 * Returns: (transfer full): its path
 */
char        *wb_bench_make_folder  (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_bench_make_job:
 * @n_pieces: how many pieces, every third with marks
 * @n_lines: how many lines the one claim "claim-1" has; each is about another piece
 *
 * Makes an interstate job that was picked up on 2 March 2026, with an order, parties, stops, a
 * weighing, a choice of full value and four handovers. The same arguments give the same job.
 *
 * Returns: (transfer full): the job, checked
 */
WbJob       *wb_bench_make_job     (guint         n_pieces,
                                    guint         n_lines) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_bench_watch_stalls:
 *
 * From now on the default main context is watched: a stall is the time between its waking up and
 * its next looking for something to do, during which no key press and no frame is answered.
 */
void         wb_bench_watch_stalls (void);

/** Returns: the longest stall since the last call, and forgets it. What the caller does before the
 * loop turns counts as one. The longest by the clock need not be the one with the most work; the
 * work is that of the thread of the main loop. */
WbBenchTime  wb_bench_take_stall   (void);

/** Prints a line "WHAT: longest stall A ms, at work B ms", and the aim, under 16 ms, if missed.
 * With WB_BENCH_WHEN in the environment, lines before it say when there was work of 5 ms and more,
 * by the monotonic clock, so that a profile can be looked at for that time alone. */
void         wb_bench_report_stall (const char   *what,
                                    WbBenchTime   stall);

/** Prints a line "WHAT: A ms, at work B ms; peer, PEER: C ms, at work D ms; ratio E (aim: AIM)". */
void         wb_bench_report       (const char   *what,
                                    WbBenchTime   own,
                                    const char   *peer_name,
                                    WbBenchTime   peer,
                                    const char   *aim);

G_END_DECLS
