/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bag as RFC 8493 has it, in a folder or in one archive (zip, tar or tar.gz): reading one that
 * came from anywhere, and writing one. What is in a bag has no meaning here. Everything blocks on
 * disk, and may be called from any thread. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * WbBagLimits: where reading stops
 * @max_files: files, and folders, each
 * @max_bytes: of all files together, unpacked
 * @max_file_bytes: of one file
 * @max_tag_bytes: of one tag file that is read
 * @max_ratio: how many times larger than the bytes of the archive that were read the files may
 *   become, beyond @ratio_slack
 * @ratio_slack: bytes
 */
typedef struct
{
  guint   max_files;
  gint64  max_bytes;
  gint64  max_file_bytes;
  gint64  max_tag_bytes;
  gint64  max_ratio;
  gint64  ratio_slack;
} WbBagLimits;

/** Limits that leave room for the largest job: 20,000 files, 8 GiB, 256 MiB a file. */
extern const WbBagLimits wb_bag_limits;

/** Tells how far a deed is, from the thread that does it: @done of @all, both in bytes. */
typedef void (*WbBagProgressFunc) (gint64    done,
                                   gint64    all,
                                   gpointer  data);

/**
 * WbBagFile: one file of a bag that was read
 * @path: its name in the bag, such as "data/job.json"
 * @copy: where its bytes are while the bag is open; a private copy, checked
 * @size: bytes
 * @sha256: lower-case hexadecimal digits
 */
typedef struct
{
  char    *path;
  char    *copy;
  gint64   size;
  char    *sha256;
} WbBagFile;

/** WbBag: a bag that was read and is valid. */
typedef struct _WbBag WbBag;

/**
 * wb_bag_read:
 * @path: a folder or an archive
 * @limits: (nullable): %NULL for wb_bag_limits
 * @scratch: a folder in which the private copy is made; made if need be
 * @progress: (nullable)
 *
 * Reads each byte of the source once, on its way into a private folder, and then checks that the
 * bag is complete and valid (RFC 8493, 3). An archive may hold the bag itself or one folder with
 * it. Nothing is fetched, and no name of the source is ever used as the name of a file.
 *
 * Returns: (transfer full) (nullable): the bag; or %NULL with the first fault as a %WB_SHARE_ERROR, a
 * %G_IO_ERROR of the disk, or %G_IO_ERROR_CANCELLED, and nothing is left in @scratch.
 */
WbBag           *wb_bag_read         (const char         *path,
                                      const WbBagLimits  *limits,
                                      const char         *scratch,
                                      WbBagProgressFunc   progress,
                                      gpointer            data,
                                      GCancellable       *cancellable,
                                      GError            **error) G_GNUC_WARN_UNUSED_RESULT;

/** Lets go of the bag and of its copies. */
void             wb_bag_free         (WbBag              *self);

/** Returns: (transfer none) (element-type WbBagFile): the files in data/, by name. */
GPtrArray       *wb_bag_get_payload  (const WbBag        *self);

/** Returns: (transfer none) (nullable): the file of that name, in data/ or not. */
const WbBagFile *wb_bag_find         (const WbBag        *self,
                                      const char         *path);

/** Returns: (transfer none) (nullable): the first value of @label in bag-info.txt. */
const char      *wb_bag_get_info     (const WbBag        *self,
                                      const char         *label);

/** WbBagItem: one file to be written into a bag. */
typedef struct _WbBagItem WbBagItem;

/** @path: in the bag, below "data/"; ASCII, since archives and locales agree on nothing else */
WbBagItem *wb_bag_item_new_bytes (const char  *path,
                                  GBytes      *bytes) G_GNUC_WARN_UNUSED_RESULT;

/** @file: where the bytes are; @sha256: what they have to be, lower case. They are read once, while
 * the bag is written. */
WbBagItem *wb_bag_item_new_file  (const char  *path,
                                  const char  *file,
                                  const char  *sha256) G_GNUC_WARN_UNUSED_RESULT;
void       wb_bag_item_free      (WbBagItem   *self);

/** Returns: bytes; of a file, known once wb_bag_write() was called. */
gint64     wb_bag_item_get_size  (const WbBagItem *self);

/**
 * wb_bag_write:
 * @target: a name that ends in ".zip", ".tar.gz" or ".tgz" makes that archive, any other a folder
 * @base: name of the folder inside of an archive; what is not a letter, digit, "-", "_" or "." in
 *   it becomes "-"
 * @items: (element-type WbBagItem)
 * @info: (array zero-terminated=1): labels and values of bag-info.txt in turn; Payload-Oxum is added
 * @replace: whether an archive of that name may be replaced; a folder never is
 * @progress: (nullable)
 *
 * Writes a bag of version 1.0 with SHA-256 manifests. The same input gives the same bytes of an
 * archive: files in the order of their names, times fixed, no owners. It is written under another
 * name beside @target, forced to the disk and put in place by one rename, so that there is a whole
 * bag or none.
 *
 * Returns: %TRUE; or %FALSE with %G_IO_ERROR_EXISTS when @target is there, %WB_SHARE_ERROR_SOURCE
 * when a file is not what its hash says, _NAME, _CLASH, _LIMIT or _NESTED for what wb_bag_read()
 * would not read back, another %G_IO_ERROR, or %G_IO_ERROR_CANCELLED.
 */
gboolean   wb_bag_write          (const char          *target,
                                  const char          *base,
                                  GPtrArray           *items,
                                  const char *const   *info,
                                  gboolean             replace,
                                  WbBagProgressFunc    progress,
                                  gpointer             data,
                                  GCancellable        *cancellable,
                                  GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: whether wb_bag_write() makes an archive of a target of that name. */
gboolean   wb_bag_name_is_archive (const char         *target);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbBag, wb_bag_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbBagItem, wb_bag_item_free)

G_END_DECLS
