/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The choice of liability on a paper: what was chosen, which choice applies, and what both mean for
 * this shipment. Works nothing out. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-papers-private.h"

#include "core/wb-valuation-preview.h"
#include "office/wb-side-statements.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static void
add_chosen (WbDocument  *self,
            const WbJob *job)
{
  wb_paper_add_fields (self, wb_job_valuation (job), "choice", "declared_value", "deductible",
                       "charge", "signed_by", "signed_on", "signed_how", "disclosure",
                       "high_value_list", "high_value_signed_by", "high_value_signed_on", NULL);
}

static void
add_charges (WbDocument          *self,
             const WbSidePreview *side)
{
  WbBlock *table;

  if (side->n_charges == 0)
    return;
  table = wb_document_add_table (self, "rrr", _("Deductible"), _("For each 100 of value"),
                                 _("Charge for this shipment"));
  for (guint i = 0; i < side->n_charges; i++)
    {
      const WbChargePreview *charge = &side->charges[i];
      g_autofree char *deductible = wb_words_money (charge->deductible);
      g_autofree char *per_hundred = wb_words_money (charge->per_hundred);
      g_autofree char *amount = wb_words_money (charge->charge);

      wb_table_add_row (table, deductible, per_hundred, amount);
    }
}

static void
add_side (WbDocument               *self,
          const WbValuationPreview *preview,
          WbSide                    side)
{
  g_autoptr (GPtrArray) statements = wb_side_statements (preview, side);
  const char *name = wb_words_enum (&wb_sides, (int) side);
  /* Translators: a choice of liability. */
  g_autofree char *applies = g_strdup_printf (_("%s – applies"), name);

  wb_document_add_heading (self, 2, side == preview->applies ? applies : name);
  for (guint i = 0; i < statements->len; i++)
    {
      const WbStatement *statement = g_ptr_array_index (statements, i);
      g_autofree char *cited = statement->source != NULL
                               ? g_strdup_printf ("%s [%s]", statement->text, statement->source)
                               : g_strdup (statement->text);

      /* What to enter, and where, is for the screen. */
      if (!statement->is_gap)
        wb_document_add_text (self, WB_BLOCK_ITEM, cited);
    }
  if (preview->side[side].offered)
    add_charges (self, &preview->side[side]);
}

void
wb_paper_add_valuation (WbDocument         *self,
                        const WbPaperInput *input)
{
  g_autoptr (WbValuationPreview) preview = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *verdict = NULL;
  g_autofree char *caution = wb_words_caution ();

  wb_document_add_heading (self, 1, _("How far the carrier is liable"));
  add_chosen (self, input->job);
  if (input->terms != NULL)
    preview = wb_valuation_preview (input->terms, input->job, &error);
  if (preview != NULL)
    {
      verdict = wb_valuation_verdict (preview);
      wb_document_add_text (self, WB_BLOCK_PARAGRAPH, verdict);
      add_side (self, preview, preview->applies);
      add_side (self, preview, preview->applies == WB_SIDE_FULL ? WB_SIDE_RELEASED : WB_SIDE_FULL);
    }
  else
    {
      verdict = error != NULL ? wb_words_error (error)
                              : wb_valuation_no_terms (wb_job_order (input->job), input->fault);
      wb_document_add_text (self, WB_BLOCK_PARAGRAPH, verdict);
    }
  wb_document_add_text (self, WB_BLOCK_CAUTION, caution);
}
