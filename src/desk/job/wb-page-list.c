/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of a job's pages and nothing else; a new page is a row here and in
 * wb-accelerators.c. */
#include "config.h"

#include "desk/job/wb-page-list.h"

#include "desk/claim/wb-claim-page.h"
#include "desk/handovers/wb-handovers-page.h"
#include "desk/inventory/wb-inventory-page.h"
#include "desk/order/wb-order-page.h"
#include "desk/packing/wb-packing-page.h"
#include "desk/papers/wb-papers-page.h"
#include "desk/photos/wb-photos-page.h"
#include "desk/valuation/wb-valuation-page.h"

#include <glib/gi18n.h>

#define KIND(name) (1u << WB_KIND_##name)

static const WbPageEntry pages[] = {
  { "order", N_("Order"), "x-office-address-book-symbolic", '1', wb_order_page_new,
    KIND (ORDER) | KIND (PARTY) | KIND (STOP) | KIND (WEIGHING) },
  { "papers", N_("Papers"), "text-x-generic-symbolic", '2', wb_papers_page_new,
    KIND (PAPER) | KIND (CONTACT) },
  { "packing", N_("Packing"), "package-x-generic-symbolic", '3', wb_packing_page_new,
    KIND (PACKING_CHECK) | KIND (MATERIAL) },
  { "inventory", N_("Inventory"), "view-list-symbolic", '4', wb_inventory_page_new,
    KIND (LOT) | KIND (PIECE) },
  { "photos", N_("Photos"), "image-x-generic-symbolic", '5', wb_photos_page_new,
    KIND (PHOTO) | KIND (PIN) },
  { "handovers", N_("Handovers"), "mail-send-receive-symbolic", '6', wb_handovers_page_new,
    KIND (HANDOVER) | KIND (FINDING) | KIND (TALLY) },
  { "valuation", N_("Valuation"), "security-high-symbolic", '7', wb_valuation_page_new,
    KIND (VALUATION) },
  { "claim", N_("Claim"), "emblem-documents-symbolic", '8', wb_claim_page_new,
    KIND (CLAIM) | KIND (CLAIM_LINE) | KIND (PAYMENT) | KIND (QUOTE) },
};

const WbPageEntry *
wb_page_list (gsize *n_pages)
{
  *n_pages = G_N_ELEMENTS (pages);
  return pages;
}

const WbPageEntry *
wb_page_list_of_kind (WbKind kind)
{
  for (gsize i = 0; i < G_N_ELEMENTS (pages); i++)
    if ((pages[i].kinds & (1u << kind)) != 0)
      return &pages[i];

  return NULL;
}
