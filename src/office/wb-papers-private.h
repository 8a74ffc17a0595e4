/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files that write papers share. Each paper is one function from core values to a document
 * without pages. */
#pragma once

#include "core/wb-catalog.h"
#include "core/wb-job.h"
#include "core/wb-reckoning.h"
#include "paper/wb-document.h"

G_BEGIN_DECLS

/**
 * WbPaperInput:
 * @terms: (nullable): that govern the job
 * @fault: (nullable): why there are none
 * @catalog: (nullable): knows what kinds of cartons are called
 */
typedef struct
{
  WbJob        *job;
  WbTerms      *terms;
  const GError *fault;
  WbCatalog    *catalog;
} WbPaperInput;

/* --- papers ----------------------------------------------------------------------------------- */

WbDocument *wb_paper_order       (const WbPaperInput *input) G_GNUC_WARN_UNUSED_RESULT;
WbDocument *wb_paper_inventory   (const WbPaperInput *input) G_GNUC_WARN_UNUSED_RESULT;
/** For a job with handovers. */
WbDocument *wb_paper_handovers   (const WbPaperInput *input) G_GNUC_WARN_UNUSED_RESULT;
WbDocument *wb_paper_worksheet   (const WbPaperInput *input,
                                  const WbClaim      *claim) G_GNUC_WARN_UNUSED_RESULT;
/** @text: of the letter that was kept with @step */
WbDocument *wb_paper_letter      (const WbPaperInput *input,
                                  const WbClaimStep  *step,
                                  const char         *text) G_GNUC_WARN_UNUSED_RESULT;
/** For a charge with a statement. */
WbDocument *wb_paper_statement   (const WbPaperInput    *input,
                                  const WbHandlerCharge *charge) G_GNUC_WARN_UNUSED_RESULT;

/* --- parts ------------------------------------------------------------------------------------ */

/** Returns: (transfer full): a document about the job, from its carrier. */
WbDocument *wb_paper_begin       (const WbPaperInput *input,
                                  const char         *title) G_GNUC_WARN_UNUSED_RESULT;

/** Adds a field for each of the fields of @record named by @...  (up to %NULL) that is given. A date
 * counts as a day of the document. */
void        wb_paper_add_fields  (WbDocument         *self,
                                  gconstpointer       record,
                                  ...) G_GNUC_NULL_TERMINATED;
/** Returns: (transfer full): a field of @record in words; "" when it is not given. */
char       *wb_paper_value       (gconstpointer       record,
                                  const char         *field) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer full): the texts that are neither %NULL nor empty, with @separator between;
 * up to one that is %wb_paper_end. */
char       *wb_paper_join        (const char         *separator,
                                  ...) G_GNUC_WARN_UNUSED_RESULT;
extern const char wb_paper_end[];

/** Returns: (transfer full): "12 Quay Street, Dayton, OH 45402, US", as far as it is known. */
char       *wb_paper_address     (const char         *street,
                                  const char         *city,
                                  const char         *region,
                                  const char         *postal_code,
                                  const char         *country) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (nullable): the first party of @role. */
const WbParty *wb_paper_party    (const WbJob        *job,
                                  WbRole              role);
/** Returns: (nullable): what it is called. */
const char *wb_paper_party_name  (const WbParty      *party);

/** Adds the choice of liability, with what both would come to for this shipment. */
void        wb_paper_add_valuation (WbDocument         *self,
                                    const WbPaperInput *input);

/** Adds the steps of @reckoning that tell of @scope, one below the other: those of the whole claim,
 * then line by line. Nothing when there is none. */
void        wb_paper_add_steps   (WbDocument         *self,
                                  const WbReckoning  *reckoning,
                                  WbScope             scope);

/** Returns: (transfer full): what is claimed on a line, with its tag. */
char       *wb_paper_claimed     (const WbJob        *job,
                                  const WbClaimLine  *line) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
