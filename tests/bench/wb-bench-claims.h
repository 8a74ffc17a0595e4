/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book of open claims for measurements. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define WB_BENCH_N_CLAIMS 50000

/** Makes a new office book at @path in which every job has one open claim of one line, received on
 * one of 200 days of 2026, and prints how long that took. */
void wb_bench_make_claims (const char *path);

G_END_DECLS
