/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A disk that fails on demand, below every connection of this process: after so many deeds that
 * change something on it (writing, cutting short, bringing to rest, deleting) the next one
 * fails. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  FAILING_ONCE,     /* one deed fails, those after it work: a hiccup */
  FAILING_ON,       /* from one deed on all fail: the disk is gone */
  FAILING_FULL,     /* from one deed on nothing can be written: no room */
} FailingManner;

/** Puts the failing disk below SQLite. Until told otherwise it does not fail. */
void     failing_disk_install (void);
/** From now on the deed after @n_deeds more fails. */
void     failing_disk_fail    (FailingManner manner,
                               guint         n_deeds);
/** From now on files that are opened cannot be shared through memory, as on some network shares:
 * there is no log then. */
void     failing_disk_unshare (gboolean      unshared);
/** It fails no more. Returns: whether it did. */
gboolean failing_disk_mend    (void);

G_END_DECLS
