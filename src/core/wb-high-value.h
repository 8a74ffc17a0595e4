/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"
#include "core/wb-rate.h"

G_BEGIN_DECLS

/* Articles of extraordinary value: those on the list that the shipper signs, and those that should
 * be on it. 49 CFR 375.203(b) lets a carrier pay no more than $100 for each pound of an article of
 * which the shipper did not say in writing that it is worth more; (c) makes it answer for the whole
 * value of one that was listed (both seen). The figure is the terms' and comes as a parameter. */

typedef enum
{
  WB_HIGH_VALUE_LISTED,      /* has a value on the list */
  WB_HIGH_VALUE_UNLISTED,    /* is worth more than the rate, and is not on the list */
} WbHighValueState;

/**
 * WbHighValue:
 * @piece: the piece that has the listed value, or that holds or is what is not listed
 * @thing: (nullable): for %WB_HIGH_VALUE_UNLISTED the thing in the carton; %NULL for all of its
 *   contents together
 * @value: the listed value; or that of one @thing, or of all contents
 * @weight: of the article, all its parts together; of one @thing, or of the carton when the thing
 *   has none; unset when it is not known
 * @cap: what the carrier may pay at most when it is not listed; unset without a rate or a weight
 */
typedef struct
{
  WbHighValueState  state;
  const WbPiece    *piece;
  const WbThing    *thing;
  WbMoney           value;
  WbWeight          weight;
  WbMoney           cap;
} WbHighValue;

/**
 * WbHighValueList:
 * @entries: (element-type WbHighValue): in the order of the inventory
 * @n_listed: of them, those that are listed
 * @listed: their values together; unset when there is none
 * @n_unlisted: those that are not
 */
typedef struct
{
  GArray  *entries;
  guint    n_listed;
  WbMoney  listed;
  guint    n_unlisted;
} WbHighValueList;

/**
 * wb_high_value_list:
 * @rate: money for a pound or kilogram above which an article is of extraordinary value; unset: no
 *   such rule, and nothing is called unlisted
 *
 * A thing without a weight of its own is held against the weight of its carton, which is no less:
 * what is above the rate then is so for certain. Pieces belong to @job.
 *
 * Returns: (transfer full) (nullable): the list, or %NULL with %WB_CORE_ERROR_OVERFLOW.
 */
WbHighValueList *wb_high_value_list      (const WbJob      *job,
                                          WbRate            rate,
                                          GError          **error) G_GNUC_WARN_UNUSED_RESULT;
void             wb_high_value_list_free (WbHighValueList  *self);

typedef enum
{
  WB_HIGH_VALUE_SIGNED     = 0,
  WB_HIGH_VALUE_NOT_STATED = 1 << 0,  /* the valuation does not say that a list was signed */
  WB_HIGH_VALUE_NO_SIGNER  = 1 << 1,
  WB_HIGH_VALUE_NO_DATE    = 1 << 2,
  WB_HIGH_VALUE_LATE       = 1 << 3,  /* signed after the day of pick-up */
} WbHighValueGap;

/** Returns: what the signature under the list lacks (flags of #WbHighValueGap). */
guint            wb_high_value_gaps      (const WbJob      *job);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (WbHighValueList, wb_high_value_list_free)

G_END_DECLS
