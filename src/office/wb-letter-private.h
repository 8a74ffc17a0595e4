/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files that write letters share: parts that stand in several of them. */
#pragma once

#include "office/wb-letter-write.h"

G_BEGIN_DECLS

/** Adds who writes to whom, the day, and what the letter is about. Faults and notes say what the
 * job lacks for that. */
void       wb_letter_begin        (WbLetter            *self,
                                   const WbLetterInput *input);
/** Adds the remark, what the bill of lading and the tariff say, and the signature. */
void       wb_letter_end          (WbLetter            *self,
                                   const WbLetterInput *input);

/** Returns: (transfer full) (element-type WbClaimLine): the lines of the claim by their number. */
GPtrArray *wb_letter_lines        (const WbLetterInput *input) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none): what is claimed on a line, in a few words. */
const char *wb_letter_item        (const WbJob         *job,
                                   const WbClaimLine   *line);

/** Adds a list of what the claimant is asked for, after @intro. Returns: whether anything is
 * lacking; if not nothing is added. */
gboolean   wb_letter_add_evidence (WbLetter            *self,
                                   const WbLetterInput *input,
                                   const char          *intro);

/** Adds a paragraph with what the terms cite for @key in brackets at its end. */
void       wb_letter_add_cited    (WbLetter            *self,
                                   const WbLetterInput *input,
                                   WbTermsKey           key,
                                   const char          *text);

void       wb_letter_write_request         (WbLetter *self, const WbLetterInput *input);
void       wb_letter_write_acknowledgement (WbLetter *self, const WbLetterInput *input);
void       wb_letter_write_status          (WbLetter *self, const WbLetterInput *input);
void       wb_letter_write_offer           (WbLetter *self, const WbLetterInput *input);
void       wb_letter_write_partial_denial  (WbLetter *self, const WbLetterInput *input);
void       wb_letter_write_denial          (WbLetter *self, const WbLetterInput *input);
void       wb_letter_write_release         (WbLetter *self, const WbLetterInput *input);

G_END_DECLS
