/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book that is kept of every released version, and what has to be in it when a later program
 * opens it. */
#pragma once

#include "store/wb-book.h"

G_BEGIN_DECLS

/** Makes the book at @path: jobs with every field of every record, one that was changed, one that
 * was removed. */
void  released_book_make     (const char *path);

/** Returns: (transfer full): all that is in a book, as text: lists, records with the fields that
 * are given, history. */
char *released_book_describe (WbBook     *book) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
