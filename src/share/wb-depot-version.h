/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One published version of a job, and the file that it is on a server:
 * data/schema/wainbook-published-job.schema.json describes it for other programs. Nothing is sent
 * or fetched here. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/** What such a file says it is. */
#define WB_VERSION_FORMAT  "wainbook-published-job"
#define WB_VERSION_VERSION 1

/** Largest file of a version, in bytes, and how much may stand in one. */
#define WB_VERSION_MAX_BYTES   (16 * 1024 * 1024)
#define WB_VERSION_MAX_NUMBER  999999
#define WB_VERSION_MAX_PARENTS 64
#define WB_VERSION_MAX_FILES   50000
#define WB_VERSION_MAX_SUMMARY 64
#define WB_VERSION_MAX_TEXT    1000
#define WB_VERSION_MAX_SIZE    (G_GINT64_CONSTANT (1) << 42)

/**
 * WbVersionFile:
 * @name: as wb_bag_name_check() lets pass; %NULL for the document
 * @sha256: of what is in it, 64 small hexadecimal digits
 * @size: bytes
 */
typedef struct
{
  char   *name;
  char   *sha256;
  gint64  size;
} WbVersionFile;

/**
 * WbVersion:
 * @sha256: of the version's own file
 * @job: id of the job
 * @number: 1 for a version without parents, else one more than the highest of its parents
 * @parents: sorted: the versions that the publisher had seen and that this one replaces
 * @at: UTC, "2026-03-05T08:00:00Z", by the publisher's clock
 * @by: who published it
 * @desk: (nullable): at which computer
 * @document: the job document
 * @files: (nullable) (element-type WbVersionFile): photos and papers, each name once; %NULL when
 *   only the rest is known (see wb_depot_list())
 * @summary: (element-type utf8 utf8): what a list of jobs shows; keys of small letters, digits and
 *   "_"; its meaning is not known here
 */
typedef struct
{
  char           *sha256;
  char           *job;
  gint64          number;
  GStrv           parents;
  char           *at;
  char           *by;
  char           *desk;
  WbVersionFile   document;
  GPtrArray      *files;
  GHashTable     *summary;
} WbVersion;

WbVersion *wb_version_new         (void) G_GNUC_WARN_UNUSED_RESULT;
void       wb_version_free        (WbVersion        *self);

/** Returns: (transfer full): a file of a version. */
WbVersionFile *wb_version_file_new (const char      *name,
                                    const char      *sha256,
                                    gint64           size) G_GNUC_WARN_UNUSED_RESULT;
void       wb_version_file_free   (WbVersionFile    *self);

/** Whether @text is a SHA-256 as it is written here. */
gboolean   wb_version_is_hash     (const char       *text);

/** Whether @id can name a job on a server: as a record's id, but not of dots alone. */
gboolean   wb_version_is_job      (const char       *id);

/** Judges what a publisher gives. %FALSE with %WB_SHARE_ERROR_NAME, %WB_SHARE_ERROR_CLASH,
 * %WB_SHARE_ERROR_LIMIT or, for anything else, %WB_SHARE_ERROR_STRANGER. @sha256 is not looked at.
 * */
gboolean   wb_version_check       (const WbVersion  *self,
                                   GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the bytes of the file of a version that passes wb_version_check() and
 * has
 * @files; the same for the same. Sets @sha256 to their hash. */
GBytes    *wb_version_write       (WbVersion        *self) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_version_read:
 * @name: of the file, for messages
 *
 * Reads a file, whatever is in it. That it is the file whose hash its name has is not judged here.
 *
 * Returns: (transfer full) (nullable): the version; or %NULL with an error of wb_version_check(). A
 * file of a newer version is %WB_SHARE_ERROR_FORMAT.
 */
WbVersion *wb_version_read        (const char       *name,
                                   GBytes           *bytes,
                                   GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "000012-SHA256.json" */
char      *wb_version_file_name   (gint64            number,
                                   const char       *sha256) G_GNUC_WARN_UNUSED_RESULT;

/** Reads such a name. @sha256: (out) (transfer full). Returns: %FALSE when it is none. */
gboolean   wb_version_file_name_read (const char    *name,
                                   gint64           *number,
                                   char            **sha256);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbVersion, wb_version_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbVersionFile, wb_version_file_free)

G_END_DECLS
