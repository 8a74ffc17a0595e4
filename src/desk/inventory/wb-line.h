/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One inventory line as a clerk types and reads it: which fields of a piece there are on the strip,
 * in what order, what short forms are understood, and what a typed text means in words. Knows no
 * widget. */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* The parts of a line, in the order of the strip: first what mostly stays from line to line, then
 * what is new with each, then what few lines need. */
typedef enum
{
  WB_LINE_TAG,
  WB_LINE_ROOM,
  WB_LINE_PACKED_BY,
  WB_LINE_PACKER,
  WB_LINE_FORM,
  WB_LINE_CARTON,
  WB_LINE_DESCRIPTION,
  WB_LINE_CONTENTS,
  WB_LINE_MARKS,
  WB_LINE_WEIGHT,
  WB_LINE_VOLUME,
  WB_LINE_ARTICLE,
  WB_LINE_SERIAL_NUMBER,
  WB_LINE_LISTED_VALUE,
  WB_LINE_QUANTITY,
  WB_LINE_SET,
  WB_LINE_DISASSEMBLY,
  WB_LINE_PACKED_ON,
  WB_LINE_CHECKED_BY,
  WB_LINE_NOTES,
} WbLinePart;

/** Which of the strip's rows a part stands in. */
typedef enum
{
  WB_LINE_ROW_STAYS,
  WB_LINE_ROW_NEW,
  WB_LINE_ROW_MORE,
} WbLineRow;

#define WB_LINE_N_PARTS 20

/**
 * WbLineField:
 * @name: the field of #WbPiece
 * @caption: what stands above it, marked for translation, with a mnemonic
 * @least: width that it cannot do without, in characters
 * @chars: width that its usual content needs, in characters
 * @expand: takes what room is left
 * @row: where it stands; all that stays, but the tag, a new line takes over from the line before
 * @suggests: earlier values of the same field are offered
 */
typedef struct
{
  const char *name;
  const char *caption;
  int         least;
  int         chars;
  WbLineRow   row;
  gboolean    expand;
  gboolean    suggests;
} WbLineField;

const WbLineField *wb_line_field      (WbLinePart      part);
/** Returns: (transfer none): the field of #WbPiece. */
const WbField     *wb_line_piece_field (WbLinePart     part);
/** Returns: (transfer full): its caption without the mnemonic's underscore, translated. */
char              *wb_line_caption    (WbLinePart      part) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a piece's value as the strip shows it for editing: "CP", "40 lb", "SC
 * 4-8"; "" when not given. */
char              *wb_line_show       (const WbPiece *piece,
                                       WbLinePart     part) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_line_read:
 * @piece: private to the caller
 * @text: what was typed; beside the full forms, the start of a word chooses from a closed list ("l"
 *   a loose piece)
 * @currency: the job's
 * @unit: unit of a bare weight
 *
 * Sets one value of @piece. On failure it keeps its value and @error's message is a sentence for
 * the clerk that says what is wrong with the text and what to type instead.
 */
gboolean           wb_line_read       (WbPiece       *piece,
                                       WbLinePart     part,
                                       const char    *text,
                                       const char    *currency,
                                       WbWeightUnit   unit,
                                       GError       **error);

/**
 * wb_line_describe_refusal:
 * @field: of any record
 * @refusal: why wb_record_set_text() did not take @text
 *
 * Returns: (transfer full): a sentence for the clerk, to stand beside the field.
 */
char              *wb_line_describe_refusal (const WbField *field,
                                             const char    *text,
                                             const GError  *refusal) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): @text, with @unit behind a bare number; anything else as it is. */
char              *wb_line_complete_weight (const char   *text,
                                            WbWeightUnit  unit) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): what the value means in words where its short form does not
 * say it: the condition spelled out, who "PBO" is. */
char              *wb_line_words      (const WbPiece *piece,
                                       WbLinePart     part) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: whether a new line takes over the value of the line before. */
gboolean           wb_line_is_carried (WbLinePart      part);

/** Returns: how many leading bytes of condition codes @text are finished; the rest is a code still
 * being typed. */
gsize              wb_line_finished_marks (const char *text);

/** Returns: whether @piece says what it is: it has a description, or contents, or a kind of
 * carton. */
gboolean           wb_line_is_described (const WbPiece *piece);

/** Returns: (transfer full) (nullable) (array zero-terminated=1): up to @most other values of the
 * field in @job that start with @typed, without regard to case, the most used first. */
char             **wb_line_suggest    (const WbJob *job,
                                       WbLinePart   part,
                                       const char  *typed,
                                       guint        most) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
