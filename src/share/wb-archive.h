/* SPDX-License-Identifier: GPL-3.0-or-later */
/* libarchive, opened with the first archive. Its functions are called by their own names; one that
 * has no line here does not link. */
#pragma once

#include "share/wb-library.h"

#include <archive.h>
#include <archive_entry.h>

G_BEGIN_DECLS

/* The functions that are used. */
#define WB_ARCHIVE_FUNCTIONS(EACH)                 \
  EACH (archive_entry_filetype)                    \
  EACH (archive_entry_free)                        \
  EACH (archive_entry_hardlink)                    \
  EACH (archive_entry_hardlink_w)                  \
  EACH (archive_entry_is_encrypted)                \
  EACH (archive_entry_new)                         \
  EACH (archive_entry_pathname)                    \
  EACH (archive_entry_pathname_utf8)               \
  EACH (archive_entry_set_filetype)                \
  EACH (archive_entry_set_pathname)                \
  EACH (archive_entry_set_perm)                    \
  EACH (archive_entry_set_size)                    \
  EACH (archive_entry_sparse_count)                \
  EACH (archive_entry_symlink)                     \
  EACH (archive_errno)                             \
  EACH (archive_error_string)                      \
  EACH (archive_filter_bytes)                      \
  EACH (archive_filter_code)                       \
  EACH (archive_filter_count)                      \
  EACH (archive_read_data_block)                   \
  EACH (archive_read_free)                         \
  EACH (archive_read_new)                          \
  EACH (archive_read_next_header)                  \
  EACH (archive_read_open_fd)                      \
  EACH (archive_read_support_filter_gzip)          \
  EACH (archive_read_support_format_tar)           \
  EACH (archive_read_support_format_zip)           \
  EACH (archive_write_add_filter_gzip)             \
  EACH (archive_write_close)                       \
  EACH (archive_write_data)                        \
  EACH (archive_write_finish_entry)                \
  EACH (archive_write_free)                        \
  EACH (archive_write_header)                      \
  EACH (archive_write_new)                         \
  EACH (archive_write_open_fd)                     \
  EACH (archive_write_set_format_gnutar)           \
  EACH (archive_write_set_format_zip)              \
  EACH (archive_write_set_options)                 \
  EACH (archive_write_zip_set_compression_deflate) \
  EACH (archive_write_zip_set_compression_store)

typedef struct
{
  WB_ARCHIVE_FUNCTIONS (WB_LIBRARY_POINTER)
} WbArchive;

extern WbArchive wb_archive;

/** Opens libarchive, once. Returns: whether its functions may be called; %FALSE with
 * %WB_SHARE_ERROR_LIBRARY */
gboolean wb_archive_open (GError **error) G_GNUC_WARN_UNUSED_RESULT;

#define archive_entry_filetype                    wb_archive.archive_entry_filetype
#define archive_entry_free                        wb_archive.archive_entry_free
#define archive_entry_hardlink                    wb_archive.archive_entry_hardlink
#define archive_entry_hardlink_w                  wb_archive.archive_entry_hardlink_w
#define archive_entry_is_encrypted                wb_archive.archive_entry_is_encrypted
#define archive_entry_new                         wb_archive.archive_entry_new
#define archive_entry_pathname                    wb_archive.archive_entry_pathname
#define archive_entry_pathname_utf8               wb_archive.archive_entry_pathname_utf8
#define archive_entry_set_filetype                wb_archive.archive_entry_set_filetype
#define archive_entry_set_pathname                wb_archive.archive_entry_set_pathname
#define archive_entry_set_perm                    wb_archive.archive_entry_set_perm
#define archive_entry_set_size                    wb_archive.archive_entry_set_size
#define archive_entry_sparse_count                wb_archive.archive_entry_sparse_count
#define archive_entry_symlink                     wb_archive.archive_entry_symlink
#define archive_errno                             wb_archive.archive_errno
#define archive_error_string                      wb_archive.archive_error_string
#define archive_filter_bytes                      wb_archive.archive_filter_bytes
#define archive_filter_code                       wb_archive.archive_filter_code
#define archive_filter_count                      wb_archive.archive_filter_count
#define archive_read_data_block                   wb_archive.archive_read_data_block
#define archive_read_free                         wb_archive.archive_read_free
#define archive_read_new                          wb_archive.archive_read_new
#define archive_read_next_header                  wb_archive.archive_read_next_header
#define archive_read_open_fd                      wb_archive.archive_read_open_fd
#define archive_read_support_filter_gzip          wb_archive.archive_read_support_filter_gzip
#define archive_read_support_format_tar           wb_archive.archive_read_support_format_tar
#define archive_read_support_format_zip           wb_archive.archive_read_support_format_zip
#define archive_write_add_filter_gzip             wb_archive.archive_write_add_filter_gzip
#define archive_write_close                       wb_archive.archive_write_close
#define archive_write_data                        wb_archive.archive_write_data
#define archive_write_finish_entry                wb_archive.archive_write_finish_entry
#define archive_write_free                        wb_archive.archive_write_free
#define archive_write_header                      wb_archive.archive_write_header
#define archive_write_new                         wb_archive.archive_write_new
#define archive_write_open_fd                     wb_archive.archive_write_open_fd
#define archive_write_set_format_gnutar           wb_archive.archive_write_set_format_gnutar
#define archive_write_set_format_zip              wb_archive.archive_write_set_format_zip
#define archive_write_set_options                 wb_archive.archive_write_set_options
#define archive_write_zip_set_compression_deflate wb_archive.archive_write_zip_set_compression_deflate
#define archive_write_zip_set_compression_store   wb_archive.archive_write_zip_set_compression_store

G_END_DECLS
