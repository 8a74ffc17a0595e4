/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Goes over all jobs of a book, one after another, for lists that tell of many jobs. */
#pragma once

#include "office/wb-office.h"

G_BEGIN_DECLS

/** Returns: whether a job has to be loaded, by what the list of jobs says of it. */
typedef gboolean (*WbGatherWanted)   (const WbJobSummary  *summary,
                                      gpointer             data);

/** Looks at one job; it is let go afterwards. Returns: %FALSE with @error set, to stop. */
typedef gboolean (*WbGatherTake)     (WbOffice            *self,
                                      const WbJobSummary  *summary,
                                      WbJob               *job,
                                      gpointer             data,
                                      GError             **error);

/**
 * WbGatherProgress:
 * @n_done: jobs looked at
 * @n_all: jobs to look at
 *
 * Called in the thread that gathers, before the first job and after each.
 */
typedef void     (*WbGatherProgress) (guint                n_done,
                                      guint                n_all,
                                      gpointer             data);

/**
 * wb_gather_jobs:
 * @wanted: (nullable): which jobs are loaded; %NULL for all
 * @take: what is done with each
 * @progress: (nullable): told how far it is
 * @data: for @wanted, @take and @progress
 *
 * Holds one job at a time in memory. A job that another program removed meanwhile is passed over.
 * Blocks on the book. Returns: %TRUE, or %FALSE with an error of the book, of @take, or
 * %G_IO_ERROR_CANCELLED.
 */
gboolean wb_gather_jobs              (WbOffice            *self,
                                      WbGatherWanted       wanted,
                                      WbGatherTake         take,
                                      WbGatherProgress     progress,
                                      gpointer             data,
                                      GCancellable        *cancellable,
                                      GError             **error);

G_END_DECLS
