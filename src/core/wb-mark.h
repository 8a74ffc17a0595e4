/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Condition marks: what was wrong with a piece, in letter codes, and where on it, in numbers. */
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
/** Returns: (array length=n_codes): the places 1 … 19, in order; row 0 is place 1. */
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
 * @text: what a person writes on an inventory line
 * @out: (out): the marks, in the order written; empty it with wb_marks_clear(). A condition written
 *   twice goes on with its first entry, a place written twice for one condition stands once
 *
 * Reads "SC 4-8, CH 3 10; MCU", "sc4 8", "BR-M-SC 2/7", "SC (4, 8)":
 *
 * - codes in either case, glued to their places or not;
 * - between codes and places, in any mixture: space, comma, hyphen or dash, slash, plus, "&",
 *   "and", full stop, colon, parentheses in pairs. A hyphen joins as on printed inventories, it is
 *   no range: "4-8" is two places;
 * - a semicolon or line break, which also ends the condition: a place after it needs a condition of
 *   its own.
 *
 * Codes are never guessed, and nothing is dropped in silence: an unknown condition, an unknown
 * place (also "0", "04"), a place without a condition, or anything else is an error whose message
 * names what was found and its position (1-based character), and where it can what was meant.
 * Empty text gives no marks.
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_PARSE and @out untouched
 */
gboolean wb_marks_parse   (const char    *text,
                           WbMarks       *out,
                           GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Frees the list and leaves it empty; it may be empty already. */
void     wb_marks_clear   (WbMarks       *marks);

/** Returns: (transfer full): "SC 4-8, CH 3-10, MCU"; parsing it gives the same marks. */
char    *wb_marks_to_text (const WbMarks *marks) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbMarks, wb_marks_clear)

G_END_DECLS
