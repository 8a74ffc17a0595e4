/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A document laid into pages. Nothing is drawn until a page is asked for. For one thread. */
#pragma once

#include "paper/wb-document.h"
#include "paper/wb-paper.h"

#include <cairo.h>

G_BEGIN_DECLS

typedef enum
{
  WB_PAGE_LETTER,
  WB_PAGE_A4,
} WbPageSize;

/** WbPageWatch: told of each page that is laid out, @n_pages then being 0, and of each that is
 * drawn. Returns: whether to go on. */
typedef gboolean (*WbPageWatch) (guint    page,
                                 guint    n_pages,
                                 gpointer data);

/** Width and height of a page in points, as it is drawn. */
void      wb_page_size_get      (WbPageSize        size,
                                 double           *width,
                                 double           *height);

typedef struct _WbLayout WbLayout;

/**
 * wb_layout_new:
 * @document: has to outlive the layout
 * @watch: (nullable)
 *
 * Rows of a table and headings stay in one piece and with what belongs to them; what is higher than
 * a page is broken between lines. A table says its head on each page.
 *
 * Returns: (transfer full) (nullable): at least one page; %NULL with %WB_PAPER_ERROR_STOPPED.
 */
WbLayout *wb_layout_new         (const WbDocument *document,
                                 WbPageSize        size,
                                 WbPageWatch       watch,
                                 gpointer          data,
                                 GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void      wb_layout_free        (WbLayout         *self);

guint     wb_layout_get_n_pages (const WbLayout   *self);

/** Draws page @page, from 0. @tags: whether to mark headings, paragraphs and tables as what they
 * are, on a surface that keeps that */
void      wb_layout_draw_page   (WbLayout         *self,
                                 guint             page,
                                 gboolean          tags,
                                 cairo_t          *cr);

/** WbHeadingFunc: @level: 0 for the title; @y: from the top of the page, in points */
typedef void (*WbHeadingFunc)   (const char       *text,
                                 guint             level,
                                 guint             page,
                                 double            y,
                                 gpointer          data);

/** Calls @func for each heading, in their order. */
void      wb_layout_each_heading (const WbLayout  *self,
                                  WbHeadingFunc    func,
                                  gpointer         data);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbLayout, wb_layout_free)

G_END_DECLS
