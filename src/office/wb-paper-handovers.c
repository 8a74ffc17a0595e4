/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The handovers as a paper: who had the goods when, and of each change of hands what was counted,
 * what was short or over, and what was newly wrong. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-papers-private.h"

#include "core/wb-trail.h"
#include "office/wb-words-trail.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static void
add_holders (WbDocument    *self,
             const WbTrail *trail)
{
  wb_document_add_heading (self, 1, _("Who had the goods"));
  for (guint i = 0; i < wb_trail_n_stretches (trail); i++)
    {
      g_autofree char *words = wb_words_stretch (wb_trail_stretch (trail, i));

      wb_document_add_text (self, WB_BLOCK_ITEM, words);
    }
}

/* --- exceptions ------------------------------------------------------------------------------- */

static gboolean
is_exception (const WbPass *pass)
{
  return pass->state == WB_PASS_SHORT || pass->state == WB_PASS_OVER || pass->reappeared
         || pass->noted_marks != NULL || (pass->finding != NULL && pass->finding->notes != NULL);
}

/* Marks in words; as they are written when they do not read. */
static char *
words_of_marks (const char *marks)
{
  char *words = marks != NULL ? wb_words_marks (marks, NULL) : NULL;

  return words != NULL ? words : g_strdup (marks);
}

static void
add_exception (WbBlock       *table,
               const WbJob   *job,
               const WbPiece *piece,
               const WbPass  *pass)
{
  g_autofree char *tag = wb_words_tag (job, piece);
  g_autofree char *noted = words_of_marks (pass->noted_marks);
  g_autofree char *state = wb_paper_join (", ", wb_words_enum (&wb_pass_states, (int) pass->state),
                                          pass->reappeared ? _("was short before") : NULL,
                                          wb_paper_end);
  g_autofree char *before = words_of_marks (pass->known_marks);
  g_autofree char *fresh = words_of_marks (pass->new_marks);

  wb_table_add_row (table, tag, piece->description, state, noted, fresh);
  if (before != NULL)
    {
      /* Translators: condition marks in words. */
      g_autofree char *note = g_strdup_printf (_("Noted before: %s"), before);

      wb_table_add_note (table, note);
    }
  if (pass->finding != NULL)
    wb_table_add_note (table, pass->finding->notes);
}

static void
add_exceptions (WbDocument    *self,
                const WbJob   *job,
                const WbTrail *trail,
                guint          handover)
{
  WbBlock *table = NULL;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPass *pass = wb_trail_pass (trail, handover, i);

      if (!is_exception (pass))
        continue;
      if (table == NULL)
        table = wb_document_add_table (self, "lllll", _("Tag"), _("What it is"), _("Count"),
                                       _("Noted here"), _("New in that"));
      add_exception (table, job, wb_job_nth (job, WB_KIND_PIECE, i), pass);
    }
  if (table == NULL)
    wb_document_add_text (self, WB_BLOCK_PARAGRAPH, _("No exception was noted."));
}

/* --- a handover ------------------------------------------------------------------------------- */

static void
add_list (WbDocument *self,
          const char *label,
          char       *words)
{
  g_autofree char *taken = words;
  g_autofree char *line = NULL;

  if (taken == NULL || *taken == '\0')
    return;
  line = g_strdup_printf ("%s: %s", label, taken);
  wb_document_add_text (self, WB_BLOCK_PARAGRAPH, line);
}

static void
add_handover (WbDocument    *self,
              const WbJob   *job,
              const WbTrail *trail,
              guint          index)
{
  const WbHandoverFacts *facts = wb_trail_handover (trail, index);
  const WbHandover *handover = facts->handover;
  g_autofree char *name = wb_words_handover (handover);
  g_autofree char *figures = wb_words_handover_figures (facts);
  g_auto (GStrv) faults = wb_words_handover_faults (trail, index);

  wb_document_add_heading (self, 1, name);
  wb_paper_add_fields (self, handover, "place", "vehicle", "from_holder", "from_signed",
                       "to_holder", "to_signed", "count", "counted_by", "crew", NULL);
  wb_document_add_day (self, &handover->on);
  wb_document_add_text (self, WB_BLOCK_PARAGRAPH, figures);
  add_list (self, _("Short"), wb_words_pieces (job, facts->shortages));
  add_list (self, _("Over"), wb_words_pieces (job, facts->overages));
  add_list (self, _("Not counted yet"), wb_words_pieces (job, facts->left));
  add_list (self, _("Counted, and not on the inventory"), wb_words_strays (facts->strays));
  wb_document_add_text (self, WB_BLOCK_PARAGRAPH, handover->notes);
  for (guint i = 0; faults[i] != NULL; i++)
    wb_document_add_text (self, WB_BLOCK_ITEM, faults[i]);
  add_exceptions (self, job, trail, index);
}

WbDocument *
wb_paper_handovers (const WbPaperInput *input)
{
  g_autoptr (WbTrail) trail = wb_trail_new (input->job);
  WbDocument *self = wb_paper_begin (input, _("Handovers and exceptions"));

  wb_document_add_field (self, _("Shipper"),
                         wb_paper_party_name (wb_paper_party (input->job, WB_ROLE_SHIPPER)));
  wb_paper_add_fields (self, wb_job_order (input->job), "number", "bill_number", NULL);
  add_holders (self, trail);
  for (guint i = 0; i < wb_trail_n_handovers (trail); i++)
    add_handover (self, input->job, trail, i);
  return self;
}
