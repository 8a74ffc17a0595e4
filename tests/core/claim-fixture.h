/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A claim small enough to check by hand, built up record by record: a shipment of 5,000 lb picked
 * up on 1 March 2024 and delivered on 10 March, claim "claim" received on 1 April. */
#pragma once

#include "core/wb-reckoning.h"

G_BEGIN_DECLS

#define TERMS_HEAD "regime = test\ntitle = Test\ncurrency = USD\n[edition]\nfrom = 2000-01-01\n"
#define TERMS_USUAL                                                                                \
  "[freight]\nfreight-partial-loss = by-weight\nfreight-total-loss = all\n"                        \
  "[claims]\nclaim-within = 9 months\nlate-claim = flagged\n"                                      \
  "[released]\nmeasure = actual-value\narticle-rate = 0.60 per lb\n"                               \
  "[full]\nshipment-rate = 6.00 per lb\nshipment-minimum = 6000.00\n"                              \
  "declared-value = yes\ndeductible = yes\n"                                                       \
  "extraordinary-rate = 100.00 per lb\n"

typedef struct
{
  WbTerms   *terms;
  WbJob     *empty;
  GPtrArray *records;   /* element-type WbRecord; tests change them between two reckonings */
  guint      n_lines;
} ClaimFixture;

/* A figure of a reckoning: OWED (reckoning, 0, FULL), TOTAL (reckoning, RELEASED)->loss. */
#define OWED(reckoning, line, side_) ((reckoning)->lines[line].side[WB_SIDE_##side_].owed)
#define ALLOWED(reckoning, line, side_) ((reckoning)->lines[line].side[WB_SIDE_##side_].allowed)
#define TOTAL(reckoning, side_) (&(reckoning)->side[WB_SIDE_##side_])

/** Returns: (transfer full): the one edition in @text, which must be good. */
WbTerms        *claim_parse_terms (const char        *text) G_GNUC_WARN_UNUSED_RESULT;

void            claim_set_up_with (ClaimFixture      *fixture,
                                   const char        *terms);
/** With TERMS_HEAD and TERMS_USUAL. */
void            claim_set_up      (ClaimFixture      *fixture,
                                   gconstpointer      data);
void            claim_tear_down   (ClaimFixture      *fixture,
                                   gconstpointer      data);

/** Returns: (transfer none): a new record of the job. */
gpointer        claim_add         (ClaimFixture      *fixture,
                                   WbKind             kind,
                                   const char        *id);
/** A piece of @lb pounds; of no known weight when that is 0. */
WbPiece        *claim_add_piece   (ClaimFixture      *fixture,
                                   const char        *id,
                                   WbForm             form,
                                   gint64             lb);
/** The next line; costs in dollars, 0 when not given. @piece: (nullable) */
WbClaimLine    *claim_add_line    (ClaimFixture      *fixture,
                                   const char        *piece,
                                   WbLoss             loss,
                                   gint64             replacement,
                                   gint64             repair);
/** Returns: (transfer none): the first record of @kind. */
gpointer        claim_find        (ClaimFixture      *fixture,
                                   WbKind             kind);
/** Makes the valuation a valid waiver of full value. */
void            claim_sign_waiver (ClaimFixture      *fixture);

/** Returns: (transfer full): the reckoning of a job that must pass its check. */
WbReckoning    *claim_reckon      (ClaimFixture      *fixture) G_GNUC_WARN_UNUSED_RESULT;
/** Returns: (transfer none) (nullable): the first reason of @rule in @scope on @line. */
const WbReason *claim_find_reason (const WbReckoning *reckoning,
                                   WbRule             rule,
                                   WbScope            scope,
                                   gint               line);

WbMoney         dollars           (gint64             amount);
WbWeight        pounds            (gint64             amount);

G_END_DECLS
