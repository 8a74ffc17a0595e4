/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ties a widget to one field of one record of the open job: reads it, tells when it changes, sets
 * it. */
#pragma once

#include "desk/model/wb-job-model.h"

G_BEGIN_DECLS

/* Signal "changed": the field's value, or whether the record is there at all, is not what it
 * was. */
#define WB_TYPE_FIELD_TIE (wb_field_tie_get_type ())
G_DECLARE_FINAL_TYPE (WbFieldTie, wb_field_tie, WB, FIELD_TIE, GObject)

WbFieldTie    *wb_field_tie_new        (void) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (nullable): the description of the field, %NULL until one is named. */
const WbField *wb_field_tie_get_field  (WbFieldTie  *self);
/** Returns: (transfer none) (nullable): the record as it stands, %NULL without a model or when it
 * was removed. */
gconstpointer  wb_field_tie_get_record (WbFieldTie  *self);
/** Returns: (transfer full): canonical text of the value, "" when not given. */
char          *wb_field_tie_get_text   (WbFieldTie  *self) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): the value as a person reads it, "" when not given. */
char          *wb_field_tie_get_words  (WbFieldTie  *self) G_GNUC_WARN_UNUSED_RESULT;

/** Whether wb_field_tie_set_text() would take @text. */
gboolean       wb_field_tie_check      (WbFieldTie  *self,
                                        const char  *text,
                                        GError     **error);
gboolean       wb_field_tie_set_text   (WbFieldTie  *self,
                                        const char  *text,
                                        GError     **error);

/**
 * wb_field_tie_describe:
 * @error: why wb_field_tie_check() or wb_field_tie_set_text() refused a text
 *
 * Returns: (transfer full): a sentence for the line beneath the field, which need not name the
 * field again.
 */
char          *wb_field_tie_describe   (WbFieldTie   *self,
                                        const GError *error) G_GNUC_WARN_UNUSED_RESULT;

/* --- for the rows: the three properties that all of them have --------------------------------- */

enum
{
  WB_FIELD_TIE_PROP_MODEL = 1,
  WB_FIELD_TIE_PROP_FIELD,
  WB_FIELD_TIE_PROP_RECORD_ID,
  WB_FIELD_TIE_N_PROPS
};

/** Installs "model" (WbJobModel), "field" ("order.number": kind and name) and "record-id"
 * (nullable; not needed for the order and the valuation). */
void           wb_field_tie_install_properties (GObjectClass *object_class);
void           wb_field_tie_get_row_property   (WbFieldTie   *self,
                                                GObject      *row,
                                                guint         prop_id,
                                                GValue       *value,
                                                GParamSpec   *pspec);
void           wb_field_tie_set_row_property   (WbFieldTie   *self,
                                                GObject      *row,
                                                guint         prop_id,
                                                const GValue *value,
                                                GParamSpec   *pspec);

G_END_DECLS
