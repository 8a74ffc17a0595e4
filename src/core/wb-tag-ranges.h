/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Sets of tag numbers as people write them, "1-40, 42, 57". Knows numbers only: which of them stand
 * on an inventory is asked elsewhere (wb-count.h). Numbers are 1 to WB_TAG_MAX. */

#define WB_TAG_MAX             G_GINT64_CONSTANT (999999)

/** Longest text that is read as tag numbers, in bytes; what is longer is no list of tags. */
#define WB_TAG_TEXT_MAX_BYTES  10000

/** WbTagRange: tags @first … @last, both included. */
typedef struct
{
  gint64 first;
  gint64 last;
} WbTagRange;

/**
 * WbTagItem:
 * @lot: (nullable): what was written before the number to say which lot is meant: "blue", or
 *   "blue/204"; %NULL when nothing was
 * @first: first number written
 * @last: the number behind the dash, or @first; may be lower than @first: see
 *   wb_tag_item_check()
 * @range: whether a dash was written
 * @position: where @first stands in the text, the 1-based number of the character
 *
 * One number or one range of a list, as it was written.
 */
typedef struct
{
  char     *lot;
  gint64    first;
  gint64    last;
  gboolean  range;
  gsize     position;
} WbTagItem;

void       wb_tag_item_free       (WbTagItem     *self);

/**
 * wb_tag_items_parse:
 * @text: what a person typed or a scanner sent
 * @lots: whether words that name a lot may stand before the numbers
 *
 * Reads "1-40, 42 57;60", with @lots also "blue 1-40; red 7" and "blue/204 7":
 *
 * - between two items any mixture of blank, comma, semicolon, line break, "&" and "and";
 * - between the two numbers of a range a hyphen, any dash or "to", with or without blanks;
 * - zeros before a number do not count ("007");
 * - a lot holds for the numbers behind it up to the next lot, a semicolon or a line break.
 *
 * Returns: (transfer full) (element-type WbTagItem) (nullable): the items in the order written,
 * none for empty text; or %NULL with %WB_CORE_ERROR_PARSE, or _RANGE for 0 and for numbers above
 * %WB_TAG_MAX. The message names what was found and its 1-based character.
 */
GPtrArray *wb_tag_items_parse     (const char    *text,
                                   gboolean       lots,
                                   GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Whether @self ascends; else %FALSE with %WB_CORE_ERROR_RANGE that says how to write it. */
gboolean   wb_tag_item_check      (const WbTagItem *self,
                                   GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_tag_ranges_parse:
 *
 * As wb_tag_items_parse() without lots, merged into a set. Returns: (transfer full) (element-type
 * WbTagRange) (nullable): ranges that ascend and do not touch.
 */
GArray    *wb_tag_ranges_parse    (const char    *text,
                                   GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "1-40, 42, 57"; "" for none; parsing it gives the same ranges. */
char      *wb_tag_ranges_to_text  (const GArray  *ranges) G_GNUC_WARN_UNUSED_RESULT;

/* All below take and give ranges (element-type WbTagRange) that ascend and do not touch. */

GArray    *wb_tag_ranges_new      (void) G_GNUC_WARN_UNUSED_RESULT;
GArray    *wb_tag_ranges_copy     (const GArray  *ranges) G_GNUC_WARN_UNUSED_RESULT;

/** Adds @first … @last to @ranges, joining what touches; @first is at most @last. */
void       wb_tag_ranges_add      (GArray        *ranges,
                                   gint64         first,
                                   gint64         last);

/** Returns: (transfer full): what is in @a or in @b. */
GArray    *wb_tag_ranges_merge    (const GArray  *a,
                                   const GArray  *b) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): what is in @a and not in @b. */
GArray    *wb_tag_ranges_subtract (const GArray  *a,
                                   const GArray  *b) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): what is in both. */
GArray    *wb_tag_ranges_intersect (const GArray *a,
                                    const GArray *b) G_GNUC_WARN_UNUSED_RESULT;

gboolean   wb_tag_ranges_contain  (const GArray  *ranges,
                                   gint64         tag);
/** Returns: how many numbers are in @ranges. */
gint64     wb_tag_ranges_count    (const GArray  *ranges);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTagItem, wb_tag_item_free)

G_END_DECLS
