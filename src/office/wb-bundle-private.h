/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the bundle share. */
#pragma once

#include "office/wb-bundle.h"
#include "store/wb-picture.h"

G_BEGIN_DECLS

#define WB_BUNDLE_JOB    "data/job.json"
#define WB_BUNDLE_PHOTOS "data/photos/"
#define WB_BUNDLE_PAPERS "data/papers/"

/** Adds to @hashes every word of 64 lower-case hexadecimal digits in @text, in their order: what
 * it may name by its SHA-256. @hashes: (element-type utf8); @seen: (element-type utf8): a set of
 * those that were added before */
void       wb_bundle_find_hashes     (const char       *text,
                                      gsize             length,
                                      GPtrArray        *hashes,
                                      GHashTable       *seen);

/** WbBundlePaperFunc: Returns: (transfer full) (nullable): the document of that hash; %NULL without
 * @error when there is none. */
typedef GBytes *(*WbBundlePaperFunc) (const char       *hash,
                                      gpointer          data,
                                      GError          **error);

/**
 * wb_bundle_find_papers:
 * @document: of a job
 * @job: the same
 * @get: finds one
 *
 * Finds the papers that belong to a job: those whose hashes it names, and those that these name.
 *
 * Returns: (transfer full) (element-type utf8 GBytes) (nullable): hash and document; %NULL with
 * the error of @get.
 */
GHashTable *wb_bundle_find_papers    (const char         *document,
                                      const WbJob        *job,
                                      WbBundlePaperFunc   get,
                                      gpointer            data,
                                      GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: how many frozen reckonings and letters @job names that @papers (from
 * wb_bundle_find_papers()) has not. */
guint      wb_bundle_count_lost      (const WbJob      *job,
                                      GHashTable       *papers);

/** Returns: how the name of a picture of @format ends, without the full stop. */
const char *wb_bundle_picture_ending (WbPictureFormat     format);

G_END_DECLS
