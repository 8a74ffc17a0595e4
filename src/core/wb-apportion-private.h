/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the apportionment share. For wb-apportion*.c only. */
#pragma once

#include "core/wb-apportion.h"

G_BEGIN_DECLS

/** The place of the carrier among the handlers. */
#define WB_CARRIER 0

/** WbSharing: one claim while it is shared out. @handlers: of #WbHandler */
typedef struct
{
  WbJob           *job;
  WbTrail         *trail;
  GArray          *handlers;
  WbApportionRule  rule;
} WbSharing;

/** Adds the carrier, who made the contract and answers to the customer for all the others; then
 * everybody who had the goods, in the order of the handovers; then those that shares and charges of
 * @claim name besides. */
void  wb_sharing_add_handlers (WbSharing          *self,
                               const WbClaim      *claim);
/** Returns: the place of who is called @name among the handlers, who comes to their end if need be;
 * -1 for the customer and for nobody. */
gint  wb_sharing_add_holder   (WbSharing          *self,
                               const char         *name);
/** Whether goods are under way or stored in @stretch, and not at a residence. */
gboolean wb_sharing_is_carriage (const WbStretch *stretch);
/** Returns: the place of @name, or of the party called so, among the handlers; or -1. */
gint  wb_handlers_find        (const GArray       *handlers,
                               const char         *name);

/** Returns: the place in the job of the handover at which the loss of @line was first noted; or
 * -1. */
gint  wb_sharing_find_noted   (const WbSharing    *self,
                               WbTerms            *terms,
                               const WbClaimLine  *line);
/**
 * wb_sharing_find_bearer:
 * @noted: as wb_sharing_find_noted() says
 * @piece: its place in the job
 * @out: its @could and @why are set
 *
 * Returns: the handler presumed to have done it; the carrier when nobody is known.
 */
gint  wb_sharing_find_bearer  (WbSharing          *self,
                               gint                noted,
                               guint               piece,
                               WbLineShares       *out);
/** Returns: how many could have done it. */
guint wb_sharing_count_could  (const WbSharing    *self,
                               const WbLineShares *line);

G_END_DECLS
