/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For wb-claim-page.c, wb-claim-page-actions.c and wb-claim-page-reveal.c only. */
#pragma once

#include "desk/claim/wb-claim-page.h"

#include "core/wb-reckoning.h"
#include "desk/claim/wb-bearing-box.h"
#include "desk/claim/wb-claim-head.h"
#include "desk/claim/wb-claim-steps.h"
#include "desk/claim/wb-evidence-card.h"
#include "desk/claim/wb-line-details.h"
#include "desk/claim/wb-outcome.h"
#include "desk/claim/wb-quote-box.h"
#include "desk/claim/wb-reckoning-view.h"
#include "desk/claim/wb-record-table.h"
#include "desk/claim/wb-verdict-box.h"
#include "desk/widgets/wb-reveal.h"

G_BEGIN_DECLS

struct _WbClaimPage
{
  GtkWidget        parent_instance;

  GtkWidget       *empty;
  GtkWidget       *content;
  GtkWidget       *parts;         /* one below the other in the content */
  GtkWidget       *foot;
  GtkListBox      *claims;
  GtkLabel        *fault;
  WbClaimHead     *head;
  WbRecordTable   *lines;
  WbEvidenceCard  *evidence;
  WbVerdictBox    *verdict;
  WbQuoteBox      *quotes;
  WbLineDetails   *details;
  WbReckoningView *reckoning_view;
  WbBearingBox    *bearing;
  WbRecordTable   *payments;
  WbClaimSteps    *steps;
  GtkWidget       *no_lines;
  GtkWidget       *no_payments;
  GtkWidget       *outcome;
  WbOutcome       *applying;
  WbOutcome       *comparing;
  GtkLabel        *caution;

  WbJobModel      *model;
  char            *claim_id;      /* (nullable) */
  WbReckoning     *reckoning;     /* (nullable): of the job last shown */
  GCancellable    *cancellable;
  guint            tick;
  gboolean         head_wanted;    /* the keyboard goes to the head once it is shown */
};

/** Shows the claim with @id; %NULL: there is none. */
void wb_claim_page_choose          (WbClaimPage    *self,
                                    const char     *id);
/** As wb_claim_page_choose(), at once and not in the next frame: what is shown can be gone to. */
void wb_claim_page_show_now        (WbClaimPage    *self,
                                    const char     *id);
/** Says what went wrong, below the list of claims; %NULL takes it away. */
void wb_claim_page_show_error      (WbClaimPage    *self,
                                    const GError   *error);
/** Adds a line to the claim that is shown and begins to edit it. */
void wb_claim_page_add_line        (WbClaimPage    *self);
/** Adds a payment to the claim that is shown and begins to edit it. */
void wb_claim_page_add_payment     (WbClaimPage    *self);

void wb_claim_page_install_actions (GtkWidgetClass *widget_class);
/** Enables the actions for which there is a claim, line or payment. */
void wb_claim_page_enable_actions  (WbClaimPage    *self);

void wb_claim_page_init_revealer   (WbRevealerInterface *iface);

G_END_DECLS
