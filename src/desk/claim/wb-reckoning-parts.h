/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* A side of a reckoning cut into parts that add up to the loss, for drawing: what is owed, and what
 * became of the rest. */

typedef enum
{
  WB_PART_OWED,
  WB_PART_DEDUCTED,
  WB_PART_OVER_LIMIT,     /* cut by the limit of the shipment */
  WB_PART_NOT_ALLOWED,    /* cut by a ruling or by the limits of lines and articles */
} WbPart;

#define WB_N_PARTS 4

typedef struct
{
  gboolean offered;
  gboolean applies;
  gboolean complete;
  gint64   loss;
  gint64   amount[WB_N_PARTS];
  WbPart   order[WB_N_PARTS];   /* from the start of the bar; the limit falls between two */
  gboolean has_limit;
  gint64   limit;               /* left for this claim */
  gboolean limit_used;          /* other claims have used some of it */
} WbReckoningParts;

void        wb_reckoning_parts_read  (WbReckoningParts       *parts,
                                      const WbReckoning      *reckoning,
                                      WbSide                  side);

/** Returns: (transfer full): the name of a part with its amount, translated: "Deductible
 * $500.00". */
char       *wb_part_words            (WbPart                  part,
                                      gint64                  amount,
                                      const char             *currency) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the limit in words, and whether it lies beyond @scale. */
char       *wb_part_limit_words      (const WbReckoningParts *parts,
                                      gint64                  scale,
                                      const char             *currency) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): the heading of a side: its name, and whether it applies. */
char       *wb_reckoning_parts_title (const WbReckoningParts *parts,
                                      WbSide                  side) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): everything that the drawing of @reckoning shows, in sentences. */
char       *wb_reckoning_in_words    (const WbReckoning      *reckoning) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
