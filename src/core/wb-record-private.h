/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-record.c and wb-record-check.c only: how a field's value lies in its record. */
#pragma once

#include "core/wb-record.h"

G_BEGIN_DECLS

#define MEMBER(record, field, type) (*(type *) ((char *) (record) + (field)->offset))
#define CONST_MEMBER(record, field, type) \
  (*(type const *) ((const char *) (record) + (field)->offset))

static inline gboolean
wb_field_holds_text (const WbField *field)
{
  return field->type == WB_FIELD_TEXT || field->type == WB_FIELD_MARKS ||
         field->type == WB_FIELD_REFERENCE;
}

static inline gboolean
wb_field_holds_number (const WbField *field)
{
  return field->type == WB_FIELD_INTEGER || field->type == WB_FIELD_PERCENT;
}

/** Whether the value of @field, which is set in @record, is within the range of its type.
 * @currency: (nullable): the job's. %FALSE with a %WB_CORE_ERROR that names neither record nor
 * field. */
gboolean wb_record_check_value (gconstpointer   record,
                                const WbField  *field,
                                const char     *currency,
                                GError        **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
