/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Terms files on disk: those that came with the program and those of the office. */
#pragma once

#include "core/wb-terms.h"

G_BEGIN_DECLS

/** Largest terms file that is read, in bytes. */
#define WB_TERMS_FILE_MAX_BYTES (1024 * 1024)

/**
 * wb_terms_file_read:
 * @path: a file name
 *
 * Reads and checks one terms file; messages call it by its base name.
 * Returns: (transfer full) (element-type WbTerms) (nullable): as wb_terms_parse(), or %NULL with
 * its error or with
 * %WB_CORE_ERROR_TERMS when the file cannot be read.
 */
GPtrArray  *wb_terms_file_read       (const char  *path,
                                      GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_terms_folder_add:
 * @folder: a folder name; one that does not exist holds no terms
 * @replace: whether its regimes take the place of those of the same id
 * @faults: (element-type utf8): gets a message for each file left out
 *
 * Adds every file "*.terms" of @folder, by name, to @set; the blank form "blank.terms" is passed
 * over.
 */
void        wb_terms_folder_add      (WbTermsSet  *set,
                                      const char  *folder,
                                      gboolean     replace,
                                      GPtrArray   *faults);

/**
 * wb_terms_folder_load_all:
 * @faults: (out) (transfer full): messages of files left out, "FILE:LINE: …"
 *
 * The shipped terms, then those of the user's data folder (wainbook/terms), which take the place
 * of the former.
 */
WbTermsSet *wb_terms_folder_load_all (GStrv       *faults) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
