/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-apportion.h"
#include "core/wb-catalog.h"

G_BEGIN_DECLS

/* One line of a finished claim as a report over many claims sees it: by what it may be grouped, and
 * what it cost. Pure; all amounts are minor units of the job's currency. */

/** By what a loss may be grouped. */
typedef enum
{
  WB_LOSS_BY_CAUSE,       /* nick of wb_causes */
  WB_LOSS_BY_CARTON,      /* nick of the catalogue, or the words of the inventory; a form */
  WB_LOSS_BY_PACKED_BY,   /* nick of wb_packed_by */
  WB_LOSS_BY_PACKER,      /* who packed for the carrier */
  WB_LOSS_BY_CREW,        /* who carried at the first pick-up that names a crew */
  WB_LOSS_BY_HANDLER,     /* who bears it: the only one by which a line may be in several groups */
  WB_LOSS_BY_LANE,        /* from region to region of the stops: "OH>TX" */
  WB_LOSS_BY_ROOM,
  WB_LOSS_BY_CATEGORY,    /* nick of the depreciation table */
} WbLossBy;

#define WB_N_LOSS_BY 9

extern const WbEnum wb_loss_by;

/* Keys of ours; no nick and no name of a person begins like this. */
#define WB_LOSS_KEY_LOOSE   "@loose"     /* a loose piece, no carton */
#define WB_LOSS_KEY_CRATE   "@crate"
#define WB_LOSS_KEY_OWNER   "@owner"     /* packed by the owner: no packer of the carrier's */
#define WB_LOSS_KEY_CARRIER "@carrier"   /* the carrier, where the job names none */

/**
 * WbLossLine:
 * @closed_on: when the claim was finished; unset when no record of it says so
 * @piece_id: (nullable): what was claimed is not on the inventory
 * @reckoned: @owed is known
 * @keys: by each of #WbLossBy, %NULL where it was not noted; of the handlers always %NULL
 * @handlers: (array length=n_handlers): who bears it, none of whom bears nothing
 * @parts: (array length=n_handlers): what each bears of @owed
 * @owed: under the side that applies
 * @paid: what was paid for this line, and its part of what was paid for the whole claim
 *
 * Free with wb_loss_line_free().
 */
typedef struct
{
  char      *job_id;
  char      *job_number;
  char      *claim_id;
  char      *claim_number;
  char      *line_id;
  char      *item;
  char      *piece_id;
  char       currency[4];
  GDate      closed_on;
  gboolean   reckoned;
  char      *keys[WB_N_LOSS_BY];
  char     **handlers;
  gint64    *parts;
  guint      n_handlers;
  gint64     demanded;
  gint64     owed;
  gint64     paid;
} WbLossLine;

void     wb_loss_line_free  (WbLossLine             *self);

/**
 * wb_loss_keys_of_piece:
 * @carton: (nullable): as the inventory has it
 * @keys: (out) (array fixed-size=9): those of a piece are set: carton, packed by, packer and room;
 *   (transfer full) each
 *
 * The keys are the same for a piece that was claimed and one that only was moved.
 */
void     wb_loss_keys_of_piece (const WbCatalog     *catalog,
                                WbForm               form,
                                const char          *carton,
                                WbPackedBy           packed_by,
                                const char          *packer,
                                const char          *room,
                                char               **keys);
/** Returns: (transfer full) (nullable): the lane between two regions; %NULL unless both are
 * known. */
char    *wb_loss_lane       (const char             *from_region,
                             const char             *to_region) G_GNUC_WARN_UNUSED_RESULT;

/** Whether @claim is finished, so that it belongs in a report: settled, declined or closed. */
gboolean wb_claim_is_finished (const WbClaim        *claim);

/** @out: (out): the day of the last step that closed it, settled it or denied it; else that of the
 * last payment; else that of its decision; else unset. */
void     wb_claim_finished_on (const WbJob          *job,
                               const WbClaim        *claim,
                               GDate                *out);

/**
 * wb_loss_lines_add:
 * @lines: (element-type WbLossLine): the lines of @claim are added
 * @shares: (nullable): who bears the claim; %NULL when it could not be reckoned
 *
 * What was paid for the whole claim is shared out by what is still owed on each line, or else by
 * what is owed, or by what was asked, or evenly, so that the lines add up to what was paid.
 *
 * Returns: %TRUE, or %FALSE with %WB_CORE_ERROR_OVERFLOW, or _RANGE for a negative amount
 */
gboolean wb_loss_lines_add  (GPtrArray              *lines,
                             const WbJob            *job,
                             const WbClaim          *claim,
                             const WbApportionment  *shares,
                             const WbCatalog        *catalog,
                             GError                **error) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbLossLine, wb_loss_line_free)

G_END_DECLS
