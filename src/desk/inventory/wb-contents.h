/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists of contents as a clerk types and reads them: one thing as five texts, and what a list comes
 * to in words. Knows no widget. */
#pragma once

#include "core/wb-things.h"

G_BEGIN_DECLS

/* The texts of a thing, in the order in which they are typed. */
typedef enum
{
  WB_THING_QUANTITY,
  WB_THING_DESCRIPTION,
  WB_THING_VALUE,
  WB_THING_WEIGHT,
  WB_THING_NOTES,
} WbThingPart;

#define WB_THING_N_PARTS 5

/** Returns: (transfer none): the field of #WbThing. */
const WbField *wb_thing_field       (WbThingPart      part);

/** Returns: (transfer full): a value as it is shown for typing; "" when not given. */
char          *wb_thing_show        (const WbThing   *thing,
                                     WbThingPart      part) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_thing_read:
 * @thing: private to the caller
 * @currency: the job's
 *
 * Sets one value of @thing; a bare weight is in pounds. On failure @error's message is a sentence
 * for the clerk.
 */
gboolean       wb_thing_read        (WbThing         *thing,
                                     WbThingPart      part,
                                     const char      *text,
                                     const char      *currency,
                                     GError         **error);

/** Returns: (transfer full) (nullable): what is in the piece with id @piece, short enough for a
 * line of a list: "27 things: dinner plates, bowls"; %NULL when nothing is listed. */
char          *wb_contents_describe (const WbJob     *job,
                                     const char      *piece) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the same in full, with what it comes to. */
char          *wb_contents_spell    (const WbJob     *job,
                                     const char      *piece) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): "27 things · $340.00 · 22 lb · 1 line without value"; a sentence when
 * the sum is too large. */
char          *wb_contents_total    (GPtrArray       *things) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
