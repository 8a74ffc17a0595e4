/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the bundle share. */
#pragma once

#include "office/wb-bundle.h"
#include "share/wb-bag.h"
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

/* --- what a job consists of ------------------------------------------------------------------- */

/**
 * WbBundleItem: one file that belongs to a job
 * @path: as in a bundle
 * @bytes: (nullable): what is in it, or
 * @file: (nullable): where it is
 */
typedef struct
{
  char   *path;
  GBytes *bytes;
  char   *file;
  char   *sha256;
} WbBundleItem;

void       wb_bundle_item_free       (WbBundleItem     *self);

/**
 * wb_bundle_gather:
 * @n_papers: (out): kept papers among the items
 * @n_printed: (out): papers as PDF among the items
 * @n_lost_papers: (out): those that the job names and the book has not
 *
 * Returns: (transfer full) (element-type WbBundleItem) (nullable): the document of @job first, then its
 * papers and its photos; %NULL with %WB_SHARE_ERROR_SOURCE for a photo that is gone, or an error
 * of the book.
 */
GPtrArray *wb_bundle_gather          (WbOffice         *office,
                                      WbJob            *job,
                                      guint            *n_papers,
                                      guint            *n_printed,
                                      guint            *n_lost_papers,
                                      GCancellable     *cancellable,
                                      GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * WbBundleContents: what came with a job, found good
 * @files: (element-type WbBagFile): all of it
 * @document: the text of the job's document
 * @photos: (element-type utf8 WbBagFile): by hash
 * @papers: (element-type utf8 WbBagFile): by hash
 * @n_printed: papers as PDF, which are made from the job and go nowhere
 */
typedef struct
{
  GPtrArray  *files;
  WbJob      *job;
  char       *document;
  GHashTable *photos;
  GHashTable *papers;
  guint       n_printed;
  guint       n_lost_papers;
} WbBundleContents;

/** Judges @files, whose hashes are checked already: the job document, every photo and every paper, and
 * that there is nothing else. @self: empty before; to be cleared also after a failure. Errors as of
 * wb_bundle_check(). */
gboolean   wb_bundle_contents_judge  (WbBundleContents *self,
                                      GPtrArray        *files,
                                      GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void       wb_bundle_contents_clear  (WbBundleContents *self);

/** Puts the photos beside the book; without the job they are nobody's. */
gboolean   wb_bundle_contents_store_photos (const WbBundleContents *self,
                                      WbOffice         *office,
                                      WbProgress       *progress,
                                      GCancellable     *cancellable,
                                      GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (element-type GBytes) (nullable): the papers. */
GPtrArray *wb_bundle_contents_papers (const WbBundleContents *self,
                                      GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Whether the book has neither the job nor one of its numbers: %WB_STORE_ERROR_EXISTS or
 * _CONSTRAINT. */
gboolean   wb_bundle_check_is_new    (WbOffice         *office,
                                      WbJob            *job,
                                      GCancellable     *cancellable,
                                      GError          **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbBundleContents, wb_bundle_contents_clear)

/** Returns: how the name of a picture of @format ends, without the full stop. */
const char *wb_bundle_picture_ending (WbPictureFormat     format);

G_END_DECLS
