/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PDF files as other programs read them: poppler's and qpdf. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** Runs @program (a line of a shell, where %s is the file) on @pdf. A program that fails ends the
 * test. Returns: (transfer full): what it wrote. */
char  *pdf_read_with (GBytes     *pdf,
                      const char *program) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the text of @pdf as it stands on its pages, a form feed after each. */
char  *pdf_text      (GBytes     *pdf) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: how many pages poppler finds. */
guint  pdf_n_pages   (GBytes     *pdf);

/** Looks whether qpdf finds no fault, whether every font is in the file, and whether it is
 * tagged. */
void   pdf_check     (GBytes     *pdf);

/** Returns: how often @needle stands in @text. */
guint  pdf_count     (const char *text,
                      const char *needle);

/** Keeps pictures of @pdf's first @n pages among the artefacts, for a person to look at. */
void   pdf_show      (GBytes     *pdf,
                      const char *name,
                      guint       n);

G_END_DECLS
