/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A document as a PDF file: with its title and author, its headings as an outline, and tagged for
 * whoever has it read out. The same document gives the same bytes on one computer; another may have
 * other fonts. */
#pragma once

#include "paper/wb-layout.h"

G_BEGIN_DECLS

/** WbPdfSink: takes the next @length bytes. Returns: whether it could. */
typedef gboolean (*WbPdfSink) (const guint8     *bytes,
                               gsize             length,
                               gpointer          data);

/**
 * wb_pdf_write:
 * @watch: (nullable)
 *
 * Returns: %FALSE with a %WB_PAPER_ERROR; what @sink took by then is no file.
 */
gboolean wb_pdf_write         (const WbDocument *document,
                               WbPageSize        size,
                               WbPdfSink         sink,
                               gpointer          sink_data,
                               WbPageWatch       watch,
                               gpointer          watch_data,
                               GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_pdf_write(). Returns: (transfer full) (nullable): the file. */
GBytes  *wb_pdf_to_bytes      (const WbDocument *document,
                               WbPageSize        size,
                               WbPageWatch       watch,
                               gpointer          watch_data,
                               GError          **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
