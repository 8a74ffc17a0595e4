/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#include "core/wb-enum.h"

G_BEGIN_DECLS

/* The holidays of the United States by rule: 5 USC 6103(a), from memory, not looked up. Only the day
 * itself: a day on which offices close instead, because the holiday falls on a weekend, is a day like
 * any other here, so that a last day is never told too late. */

typedef enum
{
  WB_HOLIDAY_NONE,
  WB_HOLIDAY_NEW_YEAR,
  WB_HOLIDAY_KING,
  WB_HOLIDAY_WASHINGTON,
  WB_HOLIDAY_MEMORIAL,
  WB_HOLIDAY_JUNETEENTH,
  WB_HOLIDAY_INDEPENDENCE,
  WB_HOLIDAY_LABOR,
  WB_HOLIDAY_COLUMBUS,
  WB_HOLIDAY_VETERANS,
  WB_HOLIDAY_THANKSGIVING,
  WB_HOLIDAY_CHRISTMAS,
} WbHoliday;

extern const WbEnum wb_holidays;

/** Returns: which holiday @date (set) is. */
WbHoliday wb_holiday_find (const GDate *date);

G_END_DECLS
