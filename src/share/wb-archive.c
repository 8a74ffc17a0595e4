/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of libarchive's functions. They are called in wb-bag-archive.c and wb-bag-target.c. */
#include "config.h"

#include "share/wb-archive.h"

static const char *const names[] = { WB_ARCHIVE_FUNCTIONS (WB_LIBRARY_NAME) };

WbArchive wb_archive;

G_STATIC_ASSERT (sizeof (WbArchive) == G_N_ELEMENTS (names) * sizeof (gpointer));

gboolean
wb_archive_open (GError **error)
{
  static WbLibrary library = {
    WB_SONAME_ARCHIVE, "libarchive13", names, G_N_ELEMENTS (names), &wb_archive
  };

  return wb_library_open (&library, error);
}
