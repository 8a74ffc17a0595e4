/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "core/wb-job.h"

G_BEGIN_DECLS

/* What the clocks of a claim go by: its own dates and those of its steps, payments and lines, and
 * nothing of the terms. It is little, so a book can keep it for every open claim. Pure. */

/**
 * WbClockInput:
 * @open: the claim is open or under offer
 * @declined: it is declined
 * @salvage_waits: something of value that the carrier may collect was not collected yet
 * @delivered: see wb_order_delivery_day()
 * @promised: the last day agreed for delivery
 * @handed_over: the day of actual delivery
 * @billed: the first freight bill was given
 * @noticed: the first notice of loss
 * @answered: the first answer: an offer, a denial of all or a part, a release, money paid on the
 *   claim as a whole, or the day of decision noted
 * @mediate_from: the last offer or denial until mediation was asked for
 * @mediated: mediation was asked for
 * @taken_up: the day of a counter-offer or a reopening that no answer followed; unset when the last
 *   answer stands
 * @decided: the day of decision noted
 * @arbitrated: arbitration was asked for
 * @arbitration_over: a release or the end of the claim after that
 * @settled: the first release
 * @transferred: handed to the government's claims office
 * @reports: (nullable) (element-type GDate): of status letters, earliest first
 * @denials: (nullable) (element-type GDate): days on which a part or all was disallowed in writing,
 *   earliest first, each once
 *
 * Dates not given are unset. Clear with wb_clock_input_clear().
 */
typedef struct
{
  gboolean  open;
  gboolean  declined;
  gboolean  salvage_waits;
  GDate     delivered;
  GDate     promised;
  GDate     handed_over;
  GDate     billed;
  GDate     noticed;
  GDate     received;
  GDate     acknowledged;
  GDate     inspected;
  GDate     answered;
  GDate     decided;
  GDate     taken_up;
  GDate     mediate_from;
  GDate     mediated;
  GDate     arbitrated;
  GDate     arbitration_over;
  GDate     settled;
  GDate     transferred;
  GArray   *reports;
  GArray   *denials;
} WbClockInput;

/** Fills @self, whatever it held, with what @claim, a claim of @job, says. */
void         wb_clock_input_read     (WbClockInput        *self,
                                      const WbJob         *job,
                                      const WbClaim       *claim);
void         wb_clock_input_clear    (WbClockInput        *self);

/** Returns: (transfer full): one line that wb_clock_input_parse() reads: words and dates, what is not
 * given left out: "open received=2026-03-01 report=2026-07-01". */
char        *wb_clock_input_to_text  (const WbClockInput  *self) G_GNUC_WARN_UNUSED_RESULT;

/** Fills @self, whatever it held. Returns: %FALSE with %WB_CORE_ERROR_PARSE when @text is not of that
 * form; @self is then cleared. */
gboolean     wb_clock_input_parse    (WbClockInput        *self,
                                      const char          *text,
                                      GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/** Returns: (transfer none): the day from which the time to claim runs: delivery, or when nothing
 * was delivered the day by which it should have been; unset when neither is known. */
const GDate *wb_order_delivery_day   (const WbOrder       *order);

/** Returns: (transfer none): the day by which it is decided which terms govern: the actual day of
 * pick-up, else the agreed first one; unset when neither is known. */
const GDate *wb_order_pickup_day     (const WbOrder       *order);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbClockInput, wb_clock_input_clear)

G_END_DECLS
