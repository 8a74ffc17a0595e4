/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads archives, from their first byte to their last: zip and tar, the latter plain or compressed
 * by gzip once. An archive is data of a stranger: whatever in it is not a plain file or a folder
 * ends the reading. */
#include "config.h"

#include "share/wb-bag-private.h"

#include "share/wb-archive.h"
#include "share/wb-share.h"

#include <errno.h>
#include <string.h>

#define BLOCK (64 * 1024)

typedef struct
{
  struct archive    *archive;
  const char        *name;        /* of the archive, for messages */
  gint64             size;
  WbBagIntake       *intake;
  const WbBagLimits *limits;
  WbBagProgressFunc  progress;
  gpointer           data;
  GCancellable      *cancellable;
} Reading;

/* What libarchive says may quote any bytes of the archive. */
static gboolean
refuse_damage (Reading     *reading,
               const char  *path,
               GError     **error)
{
  const char *what = archive_error_string (reading->archive);
  g_autofree char *said = g_utf8_make_valid (what != NULL ? what : "it ends too early", -1);

  return wb_share_refuse (error, WB_SHARE_ERROR_DAMAGED, path, "%s", said);
}

/* --- one entry -------------------------------------------------------------------------------- */

/* Without "./" in front and "/" behind, which some programs write. Returns: (transfer full). */
static char *
name_of (struct archive_entry *entry)
{
  const char *raw = archive_entry_pathname_utf8 (entry);
  char *name;
  gsize length;

  if (raw == NULL)
    raw = archive_entry_pathname (entry);
  if (raw == NULL)
    raw = "";
  while (g_str_has_prefix (raw, "./"))
    raw += 2;
  name = g_strdup (raw);
  length = strlen (name);
  if (archive_entry_filetype (entry) == AE_IFDIR && length > 1 && name[length - 1] == '/')
    name[length - 1] = '\0';
  return name;
}

static gboolean
check_kind (struct archive_entry  *entry,
            const char            *path,
            GError               **error)
{
  if (archive_entry_hardlink (entry) != NULL || archive_entry_hardlink_w (entry) != NULL ||
      archive_entry_symlink (entry) != NULL || archive_entry_filetype (entry) == AE_IFLNK)
    return wb_share_refuse (error, WB_SHARE_ERROR_KIND, path, "this is a link");
  if (archive_entry_filetype (entry) != AE_IFREG && archive_entry_filetype (entry) != AE_IFDIR)
    return wb_share_refuse (error, WB_SHARE_ERROR_KIND, path,
                            "this is neither a file nor a folder");
  if (archive_entry_sparse_count (entry) > 0)
    return wb_share_refuse (error, WB_SHARE_ERROR_KIND, path, "the file has holes");
  if (archive_entry_is_encrypted (entry))
    return wb_share_refuse (error, WB_SHARE_ERROR_DAMAGED, path, "it is encrypted");
  return TRUE;
}

static gboolean
check_ratio (Reading     *reading,
             const char  *path,
             GError     **error)
{
  gint64 packed = MIN (archive_filter_bytes (reading->archive, -1), reading->size);
  gint64 unpacked = wb_bag_intake_total (reading->intake) - reading->limits->ratio_slack;

  if (reading->progress != NULL)
    reading->progress (packed, reading->size, reading->data);
  if (unpacked > 0 && unpacked / reading->limits->max_ratio > packed)
    return wb_share_refuse (error, WB_SHARE_ERROR_RATIO, path,
                            "it grew to more than %" G_GINT64_FORMAT " times its size",
                            reading->limits->max_ratio);
  return TRUE;
}

static gboolean
pass_bytes (Reading     *reading,
            const char  *path,
            GError     **error)
{
  gint64 expected = 0;

  for (;;)
    {
      const void *bytes;
      gsize length;
      la_int64_t offset;
      int status = archive_read_data_block (reading->archive, &bytes, &length, &offset);

      if (g_cancellable_set_error_if_cancelled (reading->cancellable, error))
        return FALSE;
      if (status == ARCHIVE_EOF)
        return TRUE;
      if (status != ARCHIVE_OK)
        return refuse_damage (reading, path, error);
      if (offset != expected)
        return wb_share_refuse (error, WB_SHARE_ERROR_KIND, path, "the file has holes");
      expected += (gint64) length;
      if (!wb_bag_intake_write (reading->intake, bytes, length, error) ||
          !check_ratio (reading, path, error))
        return FALSE;
    }
}

/* The folder of the archive itself, "." or "./", is no news. */
static gboolean
pass_entry (Reading               *reading,
            struct archive_entry  *entry,
            GError               **error)
{
  g_autofree char *path = name_of (entry);

  if (!check_kind (entry, path, error))
    return FALSE;
  if (archive_entry_filetype (entry) == AE_IFDIR)
    return *path == '\0' || strcmp (path, ".") == 0 ||
           wb_bag_intake_folder (reading->intake, path, error);
  return wb_bag_intake_begin (reading->intake, path, error) &&
         pass_bytes (reading, path, error) &&
         wb_bag_intake_end (reading->intake, error);
}

/* --- the archive ------------------------------------------------------------------------------ */

/* Gzip in gzip has no use but to hide how much is in it. */
static gboolean
check_filters (Reading  *reading,
               GError  **error)
{
  int n = 0;

  for (int i = 0; i < archive_filter_count (reading->archive); i++)
    if (archive_filter_code (reading->archive, i) != ARCHIVE_FILTER_NONE)
      n++;
  return n <= 1 || wb_share_refuse (error, WB_SHARE_ERROR_NESTED, reading->name,
                                    "it is compressed more than once");
}

/* A warning about a header is about a name that is not UTF-8, which the name itself will tell, or
 * about what is not used here. */
static gboolean
pass_all (Reading  *reading,
          GError  **error)
{
  struct archive_entry *entry;
  gboolean first = TRUE;
  int status;

  while ((status = archive_read_next_header (reading->archive, &entry)) != ARCHIVE_EOF)
    {
      if (g_cancellable_set_error_if_cancelled (reading->cancellable, error))
        return FALSE;
      if (status != ARCHIVE_OK && status != ARCHIVE_WARN && first)
        return wb_share_refuse (error, WB_SHARE_ERROR_NOT_A_BUNDLE, reading->name,
                                "this is neither a zip nor a tar archive that can be read");
      if (status != ARCHIVE_OK && status != ARCHIVE_WARN)
        return refuse_damage (reading, reading->name, error);
      if (first && !check_filters (reading, error))
        return FALSE;
      if (!pass_entry (reading, entry, error))
        return FALSE;
      first = FALSE;
    }
  if (first)
    return wb_share_refuse (error, WB_SHARE_ERROR_NOT_A_BUNDLE, reading->name,
                            "there is nothing in it");
  return TRUE;
}

gboolean
wb_bag_archive_read (int                 fd,
                     gint64              size,
                     const char         *name,
                     WbBagIntake        *intake,
                     const WbBagLimits  *limits,
                     WbBagProgressFunc   progress,
                     gpointer            data,
                     GCancellable       *cancellable,
                     GError            **error)
{
  struct archive *archive;
  Reading reading = { NULL, name, size, intake, limits, progress, data, cancellable };
  gboolean good;

  if (!wb_archive_open (error))
    return FALSE;
  reading.archive = archive = archive_read_new ();
  archive_read_support_filter_gzip (archive);
  archive_read_support_format_tar (archive);
  archive_read_support_format_zip (archive);
  if (archive_read_open_fd (archive, fd, BLOCK) != ARCHIVE_OK)
    good = wb_share_refuse (error, WB_SHARE_ERROR_NOT_A_BUNDLE, name,
                            "this is neither a zip nor a tar archive that can be read");
  else
    good = pass_all (&reading, error);
  archive_read_free (archive);
  return good;
}
