/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All parties, stops or weighings of the open job, with a button that adds one. */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model" (WbJobModel), "record-type" ("party", "stop" or "weighing"), "add-label",
 * "empty-label".
 * Actions: "section.add"; "section.show" (s): puts the focus on the record with that id. */
#define WB_TYPE_RECORD_SECTION (wb_record_section_get_type ())
G_DECLARE_FINAL_TYPE (WbRecordSection, wb_record_section, WB, RECORD_SECTION, AdwPreferencesGroup)

/** Adds a record and starts editing it. */
void wb_record_section_add (WbRecordSection *self);

G_END_DECLS
