/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A whole job as one JSON document, and a reckoning as one; data/schema holds the JSON Schema of
 * both.
 *
 * In a job document the order and the valuation are objects, every other kind of record is an array
 * of objects with an "id". A key is the name of its field. Booleans and whole numbers are such in
 * JSON; every other value is the canonical text of wb_record_get_text(): money "1234.50 USD", weight
 * "120 lb", volume "3.10 cuft", share "7.5 %", date "2024-03-01", a code its nick, marks
 * "SC 4-8, CH 3". What is not given is left out, and so is an array without records. */
#pragma once

#include <gio/gio.h>

#include "core/wb-job.h"
#include "core/wb-reckoning.h"

G_BEGIN_DECLS

/** What a job document says it is. */
#define WB_JOB_DOCUMENT_FORMAT  "wainbook-job"
#define WB_JOB_DOCUMENT_VERSION 3

/** Returns: (transfer full): the job as JSON: keys in the order of the field tables, fields not
 * given left out, so that the same job gives the same bytes. */
char  *wb_job_document_write       (const WbJob   *job) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full) (nullable): the job of a document, checked whole; %NULL with a
 * %WB_CORE_ERROR or %G_IO_ERROR whose message names the place ("pieces[12].weight: …"). Unknown
 * keys are an error: nothing is dropped in silence. */
WbJob *wb_job_document_read        (const char    *text,
                                    gssize         length,
                                    GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a reckoning as JSON: totals and lines of both sides, reasons with
 * figures, words and citations. */
char  *wb_reckoning_document_write (const WbReckoning *reckoning) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer full): a reckoning as text for a terminal, columns aligned, reasons under
 * each line when @why. */
char  *wb_reckoning_report         (const WbReckoning *reckoning,
                                    gboolean       why) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
