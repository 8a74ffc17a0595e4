/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An import of an inventory at work, shared by the file that reads the table and the one that
 * reads its rows. */
#pragma once

#include "office/wb-csv.h"
#include "office/wb-inventory-csv.h"

G_BEGIN_DECLS

/**
 * WbInventoryImport:
 * @report: what goes to the caller
 * @columns: (element-type WbColumn)
 * @lots: (element-type WbLot): those of the job and those made so far
 * @records: (element-type WbRecord): what goes into the job
 * @tags: lot id and tag number → number of the row that has it, 0 when the job already has it
 */
typedef struct
{
  WbJob          *job;
  WbImportReport *report;
  GArray         *columns;
  GPtrArray      *lots;
  GPtrArray      *records;
  GHashTable     *tags;
} WbInventoryImport;

/** Sets up an import into @job, which has to live as long; @columns is for the caller to fill. */
void wb_inventory_import_init  (WbInventoryImport *self,
                                WbJob             *job);
void wb_inventory_import_clear (WbInventoryImport *self);

/** Takes one row that is not blank: a piece more, or faults in the report. */
void wb_inventory_import_row   (WbInventoryImport *self,
                                const WbCsvRecord *record);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbInventoryImport, wb_inventory_import_clear)

G_END_DECLS
