/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error domain of the pure rules. Core functions fail with these codes and a message for a
 * log; the words a person reads are made by the desk and the tool. */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

#define WB_CORE_ERROR (wb_core_error_quark ())

/**
 * WbCoreError:
 * @WB_CORE_ERROR_PARSE: text that is not what it should be
 * @WB_CORE_ERROR_RANGE: a value outside what the rule or the trade allows
 * @WB_CORE_ERROR_OVERFLOW: a sum or product that does not fit its number
 * @WB_CORE_ERROR_CURRENCY: two amounts of different currencies met
 * @WB_CORE_ERROR_TERMS: a terms file that contradicts itself or lacks something
 * @WB_CORE_ERROR_MISSING: a value that is needed was not given
 * @WB_CORE_ERROR_CATALOG: a catalogue file that contradicts itself or lacks something
 */
typedef enum
{
  WB_CORE_ERROR_PARSE,
  WB_CORE_ERROR_RANGE,
  WB_CORE_ERROR_OVERFLOW,
  WB_CORE_ERROR_CURRENCY,
  WB_CORE_ERROR_TERMS,
  WB_CORE_ERROR_MISSING,
  WB_CORE_ERROR_CATALOG,
} WbCoreError;

GQuark wb_core_error_quark (void);

G_END_DECLS
