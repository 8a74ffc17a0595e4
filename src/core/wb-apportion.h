/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-proposal.h"
#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/* Who bears what the carrier owes: each line's amount shared out among those who had the goods, by
 * the trail or by hand, within what each bears at most by its agreement, and what was charged to
 * each and came back. Between the carrier and its handlers only: the customer's claim is not
 * touched. Pure; all amounts are minor units of the job's currency. */

/** How a line is shared out when nobody did so by hand. */
typedef enum
{
  WB_APPORTION_LAST,     /* the last handler that cannot show an exception bears it all */
  WB_APPORTION_EQUAL,    /* all that could have done it, in equal parts */
} WbApportionRule;

extern const WbEnum wb_apportion_rules;

/** Why a line is shared out as it is; the table in wb-apportion.c has the sources. */
typedef enum
{
  WB_SHARED_NOTED,       /* first noted at a handover, counted at the one before: one handler */
  WB_SHARED_UNCOUNTED,   /* first noted at a handover, and not counted at those before it */
  WB_SHARED_UNSIGNED,    /* the warehouse did not sign for the exception: who took the goods from it
                          * cannot show one */
  WB_SHARED_NOT_NOTED,   /* noted at no handover: whoever had it last */
  WB_SHARED_NO_PIECE,    /* not on the inventory: the carrier */
  WB_SHARED_NO_HANDLER,  /* no handover says who had it: the carrier */
  WB_SHARED_BY_HAND,
} WbSharedWhy;

extern const WbEnum wb_shared_whys;

/**
 * WbHandler:
 * @name: (nullable): as first written; of the carrier %NULL when the job names none
 * @party: (nullable): the party of that name or company
 * @has_limit: bears no more than @limit of the whole claim
 * @wanted: its parts of all lines, before its limit
 * @borne: after it
 * @excess: @wanted less @borne, which falls to the carrier
 * @charged: by the charge statements; @recovered of that
 * @open: @charged less @recovered; negative when more came back than was charged
 * @uncharged: @borne less @charged; negative when more was charged than it bears. 0 for the carrier
 */
typedef struct
{
  char          *name;
  const WbParty *party;
  gboolean       has_limit;
  gint64         limit;
  gint64         wanted;
  gint64         borne;
  gint64         excess;
  gint64         charged;
  gint64         recovered;
  gint64         open;
  gint64         uncharged;
} WbHandler;

/**
 * WbLineShares:
 * @owed: to the customer, under the choice that applies
 * @noted_at: (nullable): id of the handover at which the loss was first noted
 * @could: (array length=n_handlers): whether each handler had the piece between the last count
 *   before and that handover
 * @parts: (array length=n_handlers): what each bears; they add up to @owed
 * @cut: (array length=n_handlers): what each would bear of the line besides but for its limit; it
 *   is in the carrier's part
 * @hand_total: sum of the percentages set by hand, hundredths; 0 when there are none
 * @hand_fault: that is not 100 %, so the line goes by rule
 */
typedef struct
{
  const WbClaimLine *line;
  gint64             owed;
  WbSharedWhy        why;
  const char        *noted_at;
  gboolean          *could;
  gint64            *parts;
  gint64            *cut;
  gint64             hand_total;
  gboolean           hand_fault;
} WbLineShares;

/**
 * WbApportionment:
 * @handlers: handler 0 is the carrier, which takes what nobody else bears; then in the order of the
 *   handovers, then those that only shares or charges name
 * @lines: in the reckoning's order
 * @owed: to the customer for the lines; all @borne add up to it
 * @unassigned: of that, for lines that nobody is shown to have had: the carrier bears it
 * @freight_refund: comes on top and is the carrier's, who had the freight
 */
typedef struct
{
  WbReckoning     *reckoning;
  WbApportionRule  rule;
  WbHandler       *handlers;
  guint            n_handlers;
  WbLineShares    *lines;
  guint            n_lines;
  gint64           owed;
  gint64           unassigned;
  gint64           freight_refund;
} WbApportionment;

/**
 * wb_apportion:
 *
 * Returns: (transfer full) (nullable): the shares of a claim that was reckoned, or %NULL with
 * %WB_CORE_ERROR_OVERFLOW when the charges do not add up in 64 bits, or _RANGE for a negative one.
 */
WbApportionment *wb_apportion             (WbReckoning           *reckoning,
                                           WbApportionRule        rule,
                                           GError               **error)
                                           G_GNUC_WARN_UNUSED_RESULT;
void             wb_apportionment_free    (WbApportionment       *self);

/** Returns: the place of the handler who, or whose party, is called @name; or -1. */
gint             wb_apportionment_find    (const WbApportionment *self,
                                           const char            *name);

/** Returns: the source for sharing a line out as @why says, and in @checked (out) how far it was
 * checked; %NULL when there is none. */
const char      *wb_shared_citation       (WbSharedWhy            why,
                                           WbChecked             *checked);

/** Returns: (transfer full): a canonical listing, the same in every locale. */
char            *wb_apportionment_to_text (const WbApportionment *self) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbApportionment, wb_apportionment_free)

G_END_DECLS
