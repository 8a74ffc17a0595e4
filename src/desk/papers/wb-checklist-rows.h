/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The checklist of a job as rows of lists. */
#pragma once

#include <adwaita.h>

#include "core/wb-checklist.h"

G_BEGIN_DECLS

/**
 * wb_checklist_row_new:
 * @entry: an entry of @job
 *
 * A row that says what @entry is, how it stands and on which rule it rests. Activated, it goes to
 * the field, by "job.reveal" (sss), or adds the paper that is missing, by "papers.add-kind" (s).
 * Returns: (transfer floating).
 */
GtkWidget *wb_checklist_row_new  (const WbJob            *job,
                                  const WbChecklistEntry *entry) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): what wb_checklist_row_new() would show and do, as one text; two
 * entries with the same text have the same row. */
char      *wb_checklist_row_text (const WbJob            *job,
                                  const WbChecklistEntry *entry) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
