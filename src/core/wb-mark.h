/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * WbMarkCode:
 * @code: the letters as written on an inventory, upper case
 * @word: what they mean, marked for translation
 * @source: where the code is published, or "from memory"
 *
 * One exception (condition) code or, with a number for its code, one place on a piece.
 * The 25 condition codes are those of the public reference table V_D_PPLB_HHGDI_EX_CD.
 */
typedef struct
{
  const char *code;
  const char *word;
  const char *source;
} WbMarkCode;

/** Returns: (array length=n_codes): the condition codes, in the order of the published table. */
const WbMarkCode *wb_mark_conditions   (gsize *n_codes);
/** Returns: (array length=n_codes): the places 1 … 16 (and on), in order; row 0 is place 1. */
const WbMarkCode *wb_mark_places       (gsize *n_codes);

#define WB_MARK_MAX_PLACES 24

/**
 * WbMark:
 * @condition: index into wb_mark_conditions()
 * @places: place numbers (1-based) in the order written, without repeats
 *
 * One condition with its places; no place is allowed ("MCU").
 */
typedef struct
{
  guint  condition;
  guint  n_places;
  guint8 places[WB_MARK_MAX_PLACES];
} WbMark;

/** WbMarks: a list of marks; empty it with wb_marks_clear(). */
typedef struct
{
  WbMark *marks;
  gsize   n_marks;
} WbMarks;

/**
 * wb_marks_parse:
 * @text: what a person writes on an inventory line: "SC 4-8, CH 3 10; MCU", "sc4 8", "BR-2/3"; conditions in either
 *   case; places after a condition separated by space, comma, hyphen, slash, plus or "&" (a hyphen joins places as on
 *   printed inventories, it is no range); conditions separated by space, comma, semicolon or line break
 * @out: (out): the marks, in the order written; a condition written twice keeps both entries merged into the first
 *
 * An unknown condition, an unknown place, or a place without a condition gives %WB_CORE_ERROR_PARSE whose message names
 * the code and its position (1-based character). Nothing is dropped in silence. Empty text gives no marks.
 */
gboolean wb_marks_parse   (const char    *text,
                           WbMarks       *out,
                           GError       **error);
void     wb_marks_clear   (WbMarks       *marks);

/** Returns: (transfer full): canonical text: "SC 4-8, CH 3-10, MCU". Parsing it gives the same marks. */
char    *wb_marks_to_text (const WbMarks *marks) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbMarks, wb_marks_clear)

G_END_DECLS
