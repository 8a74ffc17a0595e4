/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* A line of a claim split by hand among those who had the goods, with a written reason. Pure. That
 * a split is agreed with those it concerns, and that its ground is written down, is common
 * practice; no rule that was seen asks for it. */

/** WbHandPart: @percent: hundredths; @handler as the handovers name it */
typedef struct
{
  const char *handler;
  gint64      percent;
} WbHandPart;

typedef enum
{
  WB_HAND_SPLIT_GOOD,
  WB_HAND_SPLIT_NOBODY,        /* no part is more than 0 % */
  WB_HAND_SPLIT_OUT_OF_RANGE,  /* a part is less than 0 % or more than 100 % */
  WB_HAND_SPLIT_NOT_WHOLE,     /* the parts do not come to 100 % */
  WB_HAND_SPLIT_REPEATED,      /* one handler stands there twice */
  WB_HAND_SPLIT_NO_REASON,
} WbHandSplitFault;

/** Returns: the first thing that is wrong with a split. @total: (out) (optional): what the parts
 * come to, hundredths of a percent */
WbHandSplitFault wb_hand_split_check  (const WbHandPart *parts,
                                       guint             n_parts,
                                       const char       *reason,
                                       gint64           *total);

/**
 * wb_hand_split_set:
 * @line_id: a claim line of @job
 * @parts: such that wb_hand_split_check() finds them good
 * @new_id: makes an id; (transfer full)
 *
 * Puts them in the place of all shares that the line had. A part of 0 % is left out.
 * Returns: (transfer full): the job with the split.
 */
WbJob           *wb_hand_split_set    (const WbJob      *job,
                                       const char       *line_id,
                                       const WbHandPart *parts,
                                       guint             n_parts,
                                       const char       *reason,
                                       char           *(*new_id) (void)) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the job in which the line goes by the rule again; the same job when it
 * does. */
WbJob           *wb_hand_split_clear  (WbJob            *job,
                                       const char       *line_id) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable) (transfer none): the reason of the first share of the line that has one. */
const char      *wb_hand_split_reason (const WbJob      *job,
                                       const char       *line_id);

G_END_DECLS
