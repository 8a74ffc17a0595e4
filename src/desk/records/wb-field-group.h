/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A titled group of rows, one a field, that are made one after the other (wb-later.h). */
#pragma once

#include <adwaita.h>

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Properties: "model" (WbJobModel); "fields" (string): names of fields of single records, such as
 * "order.number", separated by spaces, and names of classes of rows that have a property "model"
 * themselves. Signal: "row-made" (GtkWidget *row, const char *field): a row was added for @field,
 * or for a class. */
#define WB_TYPE_FIELD_GROUP (wb_field_group_get_type ())
G_DECLARE_FINAL_TYPE (WbFieldGroup, wb_field_group, WB, FIELD_GROUP, AdwPreferencesGroup)

G_END_DECLS
