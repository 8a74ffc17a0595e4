/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* The text on a tag, as a scanner sends it or a person types it. Our own tags carry a URI in the
 * scheme "wainbook" whose path is "tag" and whose query names the job, the lot and the number:
 *
 *     wainbook:tag?job=2026-0031&colour=blue&lot=204&tag=17
 *
 * Only "tag" has to be there. Tags of other makes are read as far as they say plainly what they
 * are: any URI whose query, or any flat JSON object whose members, have those names; and words:
 * "17", "0017", "blue-17", "204-17", "blue 204 17", "lot 204 tag 17". */

/** Longest text that is read as a tag, in bytes. */
#define WB_TAG_SCAN_MAX_BYTES 500

/** How a text says that it is a tag. */
typedef enum
{
  WB_TAG_SCAN_NUMBER,    /* a bare number */
  WB_TAG_SCAN_WORDS,     /* a number behind words that may be a lot */
  WB_TAG_SCAN_JOINED,    /* the same, joined by hyphens or strokes and without blanks: "blue-17" */
  WB_TAG_SCAN_NAMED,     /* it calls the lot or the tag by that name */
} WbTagScanForm;

/**
 * WbTagScan:
 * @tag: 0 … %WB_TAG_MAX
 * @job: (nullable): number of the job
 * @colour: (nullable): of the lot
 * @lot: (nullable): number of the lot
 * @words: (array zero-terminated=1): what stood before the number without a name; each is the
 *   colour or the number of the lot, or a word of one of them
 */
typedef struct
{
  WbTagScanForm   form;
  gint64          tag;
  char           *job;
  char           *colour;
  char           *lot;
  char          **words;
} WbTagScan;

/**
 * wb_tag_scan_parse:
 *
 * Returns: (transfer full) (nullable): what @text says, or %NULL with %WB_CORE_ERROR_PARSE when it
 * is no tag, or with %WB_CORE_ERROR_RANGE when its number is none that a tag can have.
 */
WbTagScan *wb_tag_scan_parse     (const char       *text,
                                  GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void       wb_tag_scan_free      (WbTagScan        *self);

/** Returns: whether @self says anything of a lot. */
gboolean   wb_tag_scan_has_lot   (const WbTagScan  *self);

/** Returns: whether @lot (nullable: none) is what @self says of the lot; capitals do not matter. */
gboolean   wb_tag_scan_fits_lot  (const WbTagScan  *self,
                                  const WbLot      *lot);

/** Returns: whether @self names no job, or @job by its number. */
gboolean   wb_tag_scan_fits_job  (const WbTagScan  *self,
                                  const WbJob      *job);

/** Returns: (transfer full) (element-type utf8): ids, which belong to @job, of the pieces that have
 * the tag, in the job's order. What @self says of the job is not looked at. */
GPtrArray *wb_tag_scan_find      (const WbTagScan  *self,
                                  const WbJob      *job) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the text for the tag of @piece, which has a number; see above.
 * wb_tag_scan_parse() reads it, and wb_tag_scan_find() then finds @piece. */
char      *wb_tag_scan_to_text   (const WbJob      *job,
                                  const WbPiece    *piece) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbTagScan, wb_tag_scan_free)

G_END_DECLS
