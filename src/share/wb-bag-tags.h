/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The text of tag files (RFC 8493, 2.1 to 2.3): what is in them, and whether it is written as it
 * has to be. Nothing is held against files here. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** WbBagAlgorithm: a kind of checksum; @strong: nobody can make a file for a given sum. */
typedef struct
{
  const char    *name;     /* as in the name of a manifest */
  GChecksumType  type;
  gboolean       strong;
} WbBagAlgorithm;

/** Returns: (transfer none) (nullable): the algorithm of that name; %NULL for one not known. */
const WbBagAlgorithm *wb_bag_algorithm   (const char  *name);

/** Checks bagit.txt. %FALSE with %WB_SHARE_ERROR_TAG_FILE, _VERSION or _ENCODING. */
gboolean   wb_bag_declaration_check      (const char  *text,
                                          gsize        length,
                                          GError     **error);

/** WbBagLine: one line of a manifest. */
typedef struct
{
  char *path;      /* decoded; has passed wb_bag_name_check() */
  char *digest;    /* lower-case hexadecimal digits */
} WbBagLine;

/**
 * wb_bag_manifest_parse:
 * @file: its name, for messages
 * @algorithm: (nullable): %NULL when it is not known; then digests may have any length
 * @of_tags: a tag manifest, which lists tag files only; else payload files only
 *
 * Returns: (transfer full) (element-type WbBagLine) (nullable): the lines in their order; %NULL with
 * %WB_SHARE_ERROR_TAG_FILE, or _NAME for a name that is not safe.
 */
GPtrArray *wb_bag_manifest_parse         (const char            *file,
                                          const char            *text,
                                          gsize                  length,
                                          const WbBagAlgorithm  *algorithm,
                                          gboolean               of_tags,
                                          GError               **error) G_GNUC_WARN_UNUSED_RESULT;

/** WbBagElement: one entry of bag-info.txt. */
typedef struct
{
  char *label;
  char *value;     /* continued lines joined by a blank */
} WbBagElement;

/** Returns: (transfer full) (element-type WbBagElement) (nullable): the entries in their order;
 * %NULL with %WB_SHARE_ERROR_TAG_FILE. */
GPtrArray *wb_bag_info_parse             (const char  *text,
                                          gsize        length,
                                          GError     **error) G_GNUC_WARN_UNUSED_RESULT;

/** Reads "OCTETS.STREAMS". Returns: whether @value is that. */
gboolean   wb_bag_oxum_parse             (const char  *value,
                                          guint64     *octets,
                                          guint64     *streams);

/** Returns: whether fetch.txt asks for anything. Any text that is not blank does. */
gboolean   wb_bag_fetch_is_empty         (const char  *text,
                                          gsize        length);

G_END_DECLS
