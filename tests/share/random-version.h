/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Versions of a job made at random, from GLib's seeded source. */
#pragma once

#include "share/wb-depot-version.h"

G_BEGIN_DECLS

/** Returns: (transfer full): some hash. */
char      *random_hash    (void) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): a version that passes wb_version_check(). */
WbVersion *random_version (void) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
