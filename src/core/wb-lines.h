/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of a data file (terms, catalogues) one after the other: headings, pairs of a key and a
 * value, and what is neither. Which of them belong in a file is not known here. */
#pragma once

#include <glib.h>

#include "core/wb-core.h"

G_BEGIN_DECLS

/** Largest data file that is read, in bytes. */
#define WB_LINES_MAX_BYTES (1024 * 1024)

typedef enum
{
  WB_LINES_END,       /* there is no further line */
  WB_LINES_HEADING,   /* "[name]" */
  WB_LINES_PAIR,      /* "name = value" */
} WbLinesKind;

/**
 * WbLines:
 * @file: what messages call the file; borrowed
 * @example: a heading of the format, for messages; borrowed
 * @code: the code of every error
 * @number: the line read last, from 1
 * @name: what stood between the brackets or before the equals sign; empty between brackets at
 *   worst, never before a sign
 * @value: what stood behind the equals sign, possibly empty; %NULL for a heading
 *
 * Members are the reader's to look at; @value is also its to cut.
 */
typedef struct
{
  const char  *file;
  const char  *example;
  WbCoreError  code;
  guint        number;
  char        *name;
  char        *value;

  char        *copy;
  char        *next;
} WbLines;

/**
 * wb_lines_open:
 * @self: (out caller-allocated): cleared by wb_lines_close() in any case
 * @text: (nullable): @length bytes of unknown origin; %NULL only when there are none
 *
 * Fails when the file is too large or no UTF-8.
 */
gboolean wb_lines_open  (WbLines      *self,
                         const char   *text,
                         gsize         length,
                         const char   *file,
                         const char   *example,
                         WbCoreError   code,
                         GError      **error) G_GNUC_WARN_UNUSED_RESULT;
void     wb_lines_close (WbLines      *self);

/** Goes on to the next line that says something. %FALSE when a line does not read. */
gboolean wb_lines_next  (WbLines      *self,
                         WbLinesKind  *kind,
                         GError      **error) G_GNUC_WARN_UNUSED_RESULT;

/** Cuts @value at its first semicolon. Returns: (nullable): what stands behind it, possibly empty;
 * %NULL when there is none. */
char    *wb_lines_split_source (char *value);

/** Sets @error to "FILE:LINE: …". Returns: %FALSE. */
gboolean wb_lines_fail  (GError      **error,
                         WbCoreError   code,
                         const char   *file,
                         guint         line,
                         const char   *format,
                         ...) G_GNUC_PRINTF (5, 6);
gboolean wb_lines_fail_v (GError     **error,
                          WbCoreError  code,
                          const char  *file,
                          guint        line,
                          const char  *format,
                          va_list      args) G_GNUC_PRINTF (5, 0);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbLines, wb_lines_close)

G_END_DECLS
