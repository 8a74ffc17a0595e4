/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the drawing of a reckoning shows, as numbers and as words. Draws nothing; only takes apart
 * what was reckoned. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-reckoning-parts.h"

#include <glib/gi18n.h>

#include "desk/claim/wb-amount.h"
#include "office/wb-words.h"

static const WbPart limit_first[WB_N_PARTS] = {
  WB_PART_OWED, WB_PART_DEDUCTED, WB_PART_OVER_LIMIT, WB_PART_NOT_ALLOWED
};

static const WbPart deductible_first[WB_N_PARTS] = {
  WB_PART_OWED, WB_PART_OVER_LIMIT, WB_PART_DEDUCTED, WB_PART_NOT_ALLOWED
};

void
wb_reckoning_parts_read (WbReckoningParts  *parts,
                         const WbReckoning *reckoning,
                         WbSide             side)
{
  const WbSideReckoning *figures = &reckoning->side[side];
  WbDeductibleOrder order = reckoning->terms->side[side].deductible_order;

  *parts = (WbReckoningParts) {
    .offered = figures->offered,
    .applies = reckoning->applies == side,
    .complete = figures->complete,
    .loss = figures->loss,
    .has_limit = figures->has_limit,
    .limit = figures->limit_left,
    .limit_used = figures->earlier > 0,
  };
  parts->amount[WB_PART_OWED] = figures->owed;
  parts->amount[WB_PART_DEDUCTED] = figures->deducted;
  parts->amount[WB_PART_OVER_LIMIT] = figures->allowed - figures->owed - figures->deducted;
  parts->amount[WB_PART_NOT_ALLOWED] = figures->loss - figures->allowed;

  memcpy (parts->order,
          order == WB_DEDUCTIBLE_BEFORE_LIMIT ? deductible_first : limit_first,
          sizeof parts->order);
}

char *
wb_part_words (WbPart      part,
               gint64      amount,
               const char *currency)
{
  g_autofree char *money = wb_words_minor (amount, currency);

  switch (part)
    {
    case WB_PART_OWED:
      return g_strdup_printf (_("Owed %s"), money);
    case WB_PART_DEDUCTED:
      return g_strdup_printf (_("Deductible %s"), money);
    case WB_PART_OVER_LIMIT:
      return g_strdup_printf (_("Over the shipment’s limit %s"), money);
    case WB_PART_NOT_ALLOWED:
      return g_strdup_printf (_("Not allowed %s"), money);
    }

  g_assert_not_reached ();
}

char *
wb_part_limit_words (const WbReckoningParts *parts,
                     gint64                  scale,
                     const char             *currency)
{
  g_autofree char *money = wb_words_minor (parts->limit, currency);

  if (parts->limit_used && parts->limit > scale)
    return g_strdup_printf (_("Limit left %s, more than the loss"), money);
  if (parts->limit_used)
    return g_strdup_printf (_("Limit left %s"), money);
  if (parts->limit > scale)
    return g_strdup_printf (_("Limit of the shipment %s, more than the loss"), money);

  return g_strdup_printf (_("Limit of the shipment %s"), money);
}

char *
wb_reckoning_parts_title (const WbReckoningParts *parts,
                          WbSide                  side)
{
  if (!parts->offered)
    /* Translators: a choice of liability that the terms do not have. */
    return g_strdup_printf (_("%s: not offered by these terms"), wb_side_label (side));
  if (parts->applies)
    /* Translators: the choice of liability that governs the shipment. */
    return g_strdup_printf (_("%s: applies to this shipment"), wb_side_label (side));

  /* Translators: the choice of liability that does not govern the shipment. */
  return g_strdup_printf (_("%s: for comparison"), wb_side_label (side));
}

static void
append_side (GString           *text,
             const WbReckoning *reckoning,
             WbSide             side,
             const char        *currency)
{
  WbReckoningParts parts;
  g_autofree char *title = NULL;
  g_autofree char *loss = NULL;

  wb_reckoning_parts_read (&parts, reckoning, side);
  title = wb_reckoning_parts_title (&parts, side);
  g_string_append_printf (text, "%s.", title);
  if (!parts.offered)
    return;

  loss = wb_words_minor (parts.loss, currency);
  g_string_append_printf (text, " %s %s", wb_amount_label (WB_AMOUNT_LOSS), loss);
  for (int i = WB_N_PARTS - 1; i >= 0; i--)
    {
      g_autofree char *words = NULL;

      if (parts.amount[parts.order[i]] == 0 && parts.order[i] != WB_PART_OWED)
        continue;
      words = wb_part_words (parts.order[i], parts.amount[parts.order[i]], currency);
      g_string_append_printf (text, "; %s", words);
    }
  if (parts.has_limit)
    {
      g_autofree char *words = wb_part_limit_words (&parts, parts.loss, currency);

      g_string_append_printf (text, "; %s", words);
    }
  g_string_append_c (text, '.');
}

char *
wb_reckoning_in_words (const WbReckoning *reckoning)
{
  const char *currency = wb_job_get_currency (reckoning->job);
  GString *text = g_string_new (NULL);

  append_side (text, reckoning, WB_SIDE_RELEASED, currency);
  g_string_append_c (text, ' ');
  append_side (text, reckoning, WB_SIDE_FULL, currency);

  return g_string_free (text, FALSE);
}
