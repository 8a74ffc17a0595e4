/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the catalogue has to say to a line that is being typed: names of cartons, the usual weight
 * and volume of what it is, and what is heavy to lift. It only offers; a person takes it or not. */
#pragma once

#include "core/wb-catalog.h"
#include "desk/inventory/wb-line-entry.h"

G_BEGIN_DECLS

/**
 * wb_line_catalog_complete:
 * @texts: (nullable) (transfer full): how the kind of carton could go on by what the job has
 * @most: how many at most
 *
 * Returns: (transfer full) (nullable): @texts, and behind them the names of cartons that @typed
 * begins or another name of which it begins.
 */
char    **wb_line_catalog_complete (WbCatalog      *catalog,
                                    char          **texts,
                                    const char     *typed,
                                    guint           most) G_GNUC_WARN_UNUSED_RESULT;

/**
 * wb_line_catalog_advise:
 * @entry: the field of the weight or of the volume
 * @piece: what the line says so far: form, kind of carton, description
 * @unit: of a bare weight
 *
 * Beneath an empty field the usual figure is offered, for the Down key to take; beneath a weight
 * that is heavy to lift stands the caution.
 */
void      wb_line_catalog_advise   (WbCatalog      *catalog,
                                    WbLineEntry    *entry,
                                    const WbPiece  *piece,
                                    WbWeightUnit    unit);

G_END_DECLS
