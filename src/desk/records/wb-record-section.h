/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All records of one kind of the open job, with a button that adds one. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model" (WbJobModel), "record-type" ("party", "stop", "weighing", "paper"
 * or "contact"), "add-label", "empty-label", "later" (gboolean): whether the rows are made by
 * wb_later_start() only.
 * Actions: "section.add"; "section.show" (s): puts the focus on the record with that id. */
#define WB_TYPE_RECORD_SECTION (wb_record_section_get_type ())
G_DECLARE_FINAL_TYPE (WbRecordSection, wb_record_section, WB, RECORD_SECTION, AdwPreferencesGroup)

/** Adds a record and starts editing it. */
void     wb_record_section_add    (WbRecordSection *self);

/**
 * wb_record_section_reveal:
 * @id: (nullable): a record; %NULL for the button that adds one
 * @field: (nullable): a field of it; %NULL for its heading
 *
 * Opens the record and puts the focus there. Returns: whether the section has it.
 */
gboolean wb_record_section_reveal (WbRecordSection *self,
                                   const char      *id,
                                   const char      *field);

G_END_DECLS
