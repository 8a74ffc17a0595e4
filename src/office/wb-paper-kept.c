/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Letters and charge statements as papers: word for word as they were sent, in lines as they were
 * sent. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-papers-private.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

static WbDocument *
begin (const WbPaperInput *input,
       const char         *title,
       const GDate        *on,
       const char         *text)
{
  WbDocument *self = wb_paper_begin (input, title);
  g_autofree char *trimmed = g_strchomp (g_strdup (text));
  g_auto (GStrv) parts = g_strsplit (trimmed, "\n\n", -1);

  wb_document_hide_title (self);
  wb_document_add_day (self, on);
  /* A page ends between two paragraphs where it can. */
  for (guint i = 0; parts[i] != NULL; i++)
    wb_document_add_text (self, WB_BLOCK_TYPED, parts[i]);
  return self;
}

WbDocument *
wb_paper_letter (const WbPaperInput *input,
                 const WbClaimStep  *step,
                 const char         *text)
{
  const WbClaim *claim = wb_job_find (input->job, WB_KIND_CLAIM, step->claim);
  g_autofree char *on = wb_date_is_set (&step->on) ? wb_words_date (&step->on) : NULL;
  /* Translators: "Letter on claim C-2026-0017: Offer". */
  g_autofree char *what = g_strdup_printf (_("Letter on claim %s: %s"),
                                           claim != NULL ? claim->number : "–",
                                           wb_words_enum (&wb_step_kinds, (int) step->kind));
  g_autofree char *title = wb_paper_join (", ", what, on, wb_paper_end);

  return begin (input, title, &step->on, text);
}

WbDocument *
wb_paper_statement (const WbPaperInput    *input,
                    const WbHandlerCharge *charge)
{
  const WbClaim *claim = wb_job_find (input->job, WB_KIND_CLAIM, charge->claim);
  /* Translators: "Charge statement on claim C-2026-0017 for Quarry Warehouse". */
  g_autofree char *title = g_strdup_printf (_("Charge statement on claim %s for %s"),
                                            claim != NULL ? claim->number : "–", charge->handler);

  return begin (input, title, &charge->stated_on, charge->statement);
}
