/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a person does to the packing of a job, each as one step from a job to another. Knows no
 * widget. */
#pragma once

#include "core/wb-packing.h"

G_BEGIN_DECLS

/**
 * wb_packing_note_check:
 * @rule: nick of a check
 * @by: (nullable): who looks, when the carton does not name somebody; a carton that names nobody
 *   takes the name over
 * @today: the day of the look
 *
 * Notes how a check was kept. One that is opened again loses who looked, when, and its notes.
 * Returns: (transfer full): the changed job.
 */
WbJob   *wb_packing_note_check   (const WbPacking     *packing,
                                  WbJob               *job,
                                  const char          *piece,
                                  const char          *rule,
                                  WbCheck              state,
                                  const char          *by,
                                  const GDate         *today) G_GNUC_WARN_UNUSED_RESULT;

/** As wb_packing_note_check(), for all checks of the piece that nobody has looked at. Returns:
 * (transfer full) (nullable): %NULL when there is none. */
WbJob   *wb_packing_note_all_met (const WbPacking     *packing,
                                  WbJob               *job,
                                  const char          *piece,
                                  const char          *by,
                                  const GDate         *today) G_GNUC_WARN_UNUSED_RESULT;

/** Sets what was seen at a check that somebody has looked at. Returns: (transfer full) (nullable):
 * %NULL when nobody has. */
WbJob   *wb_packing_note_seen    (const WbPacking     *packing,
                                  WbJob               *job,
                                  const char          *piece,
                                  const char          *rule,
                                  const char          *notes) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_packing_set_number:
 * @item: nick of a carton or material, or plain words
 * @field: "planned" or "used"
 * @text: a number, or nothing to make it not given
 *
 * Sets how many were planned or used. When several records are of the item, its first is set so
 * that they come to @text together.
 * Returns: (transfer full) (nullable): the changed job, or %NULL with a %WB_CORE_ERROR.
 */
WbJob   *wb_packing_set_number   (const WbPacking     *packing,
                                  WbJob               *job,
                                  const char          *item,
                                  const char          *field,
                                  const char          *text,
                                  GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Adds a material record for @words: the nick when the catalogue knows them. Returns: (transfer
 * full) (nullable): the changed job; %NULL when there is a row for it already. */
WbJob   *wb_packing_add_item     (WbCatalog           *catalog,
                                  const WbPacking     *packing,
                                  WbJob               *job,
                                  const char          *words) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none) (nullable): the row that @words mean. */
const WbPackingRow *wb_packing_find_row (WbCatalog       *catalog,
                                         const WbPacking *packing,
                                         const char      *words);

G_END_DECLS
