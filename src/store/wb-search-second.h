/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A second look through the book for a query by whose words nothing was found: what a caller reads
 * off a letter or a tag. Private to the store. */
#pragma once

#include "store/wb-sqlite.h"

G_BEGIN_DECLS

/** Words, and bytes in all, of a query that a second look takes; more is a text that was pasted. */
#define WB_SEARCH_SECOND_WORDS 8
#define WB_SEARCH_SECOND_BYTES 200

/**
 * wb_search_second_condition:
 * @n_words: 1 … %WB_SEARCH_SECOND_WORDS
 * @first: number of the first parameter that is free
 *
 * Returns: (transfer full): a condition on the table job, in SQL: each word is the beginning of one
 *   in the index, or in the street of a stop or a party, or of the colour or number of a lot, or it
 *   is a tag with the number of its lot before it ("3107-034").
 */
char *wb_search_second_condition (guint               n_words,
                                  guint               first) G_GNUC_WARN_UNUSED_RESULT;

/** Binds @words, a %NULL-terminated list, to the parameters of the condition from @first on, and to
 * each what the index is asked for it, from @expressions. */
void  wb_search_second_bind      (sqlite3_stmt       *statement,
                                  guint               first,
                                  const char *const  *words,
                                  const char *const  *expressions);

G_END_DECLS
