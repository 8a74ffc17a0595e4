/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* What a carton holds, line by line (#WbThing), and what that comes to. The article that the
 * reckoning knows stays the carton; its contents are what its owner can say of them. */

/**
 * WbThingTotals:
 * @n_lines: lines of the list
 * @count: things; a line that does not say how many is one
 * @value: values of all, those of one times how many; unset when no line has one
 * @n_unvalued: lines without a value
 * @weight: as @value
 * @n_unweighed: lines without a weight
 */
typedef struct
{
  guint     n_lines;
  gint64    count;
  WbMoney   value;
  guint     n_unvalued;
  WbWeight  weight;
  guint     n_unweighed;
} WbThingTotals;

/** Returns: (transfer full) (element-type WbThing): the lines of the piece with id @piece, which
 * belong to @job, in their order. */
GPtrArray *wb_things_of     (const WbJob    *job,
                             const char     *piece) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: how many there are of it: 1 when it does not say. */
gint64     wb_thing_count   (const WbThing  *thing);

/** Sets @out to the value of all of them, unset when it has none. %FALSE with
 * %WB_CORE_ERROR_OVERFLOW. */
gboolean   wb_thing_value   (const WbThing  *thing,
                             WbMoney        *out,
                             GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_thing_value(), for the weight. */
gboolean   wb_thing_weight  (const WbThing  *thing,
                             WbWeight       *out,
                             GError        **error) G_GNUC_WARN_UNUSED_RESULT;

/** Adds up @things (element-type WbThing). %FALSE with %WB_CORE_ERROR_OVERFLOW. */
gboolean   wb_things_total  (GPtrArray      *things,
                             WbThingTotals  *out,
                             GError        **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
