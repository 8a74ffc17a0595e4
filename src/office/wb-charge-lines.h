/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What may be asked for at delivery, line by line, in words. The window and the command line show
 * the same lines. */
#pragma once

#include "core/wb-delivery-charges.h"
#include "core/wb-terms.h"

G_BEGIN_DECLS

typedef enum
{
  WB_CHARGE_LINE_PART,    /* a part of the sum */
  WB_CHARGE_LINE_TOTAL,   /* the most that may be asked for */
  WB_CHARGE_LINE_LATER,   /* what is billed afterwards */
  WB_CHARGE_LINE_GAP,     /* something is missing, or refused: no amount */
} WbChargeLineKind;

/**
 * WbChargeLine:
 * @nick: the same in every language: "transport"
 * @title: what it is
 * @amount: (nullable): in words; %NULL for a gap
 * @money: the same as a value; unset for a gap
 * @note: how it comes about; for a gap what to do
 * @citation: (nullable)
 * @field: (nullable): the field of the order that a person should look at
 */
typedef struct
{
  WbChargeLineKind  kind;
  const char       *nick;
  const char       *title;
  char             *amount;
  WbMoney           money;
  char             *note;
  const char       *citation;
  const char       *field;
} WbChargeLine;

/**
 * wb_charge_lines:
 * @per_cuft: constructive weight per cubic foot, or unset
 *
 * Returns: (transfer full) (element-type WbChargeLine): the gaps, then the parts, the sum and what
 * is billed later. Only gaps when no sum can be made.
 */
GPtrArray *wb_charge_lines (const WbJob *job,
                            WbWeight     per_cuft) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: the constructive weight per cubic foot of the terms that govern @job; unset when they
 * name none, or no terms govern it. */
WbWeight   wb_per_cuft_of  (const WbTermsSet *terms,
                            const WbJob      *job);

G_END_DECLS
