/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the program finds the files it came with: terms and catalogues. It does not read them. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * wb_data_dir_build_path:
 * @first: first element below the data folder, e.g. "terms"
 * @...: further elements, ended by NULL
 *
 * The environment variable WAINBOOK_DATA_DIR names the data folder when it is set and not empty
 * (the program then runs from a source tree); otherwise it is the folder of the installation.
 * Nothing is looked up on disk.
 *
 * Returns: (transfer full): the path
 */
char *wb_data_dir_build_path (const char *first,
                              ...) G_GNUC_NULL_TERMINATED G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
