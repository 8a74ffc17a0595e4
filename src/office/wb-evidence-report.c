/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Proposals for a claim as text for a terminal and as JSON for other programs. Only the
 * sentences are in the reader's language. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-evidence-report.h"

#include "office/wb-text-table.h"
#include "office/wb-words-bearing.h"
#include "office/wb-words-evidence.h"
#include "office/wb-words-packing.h"

#include <glib/gi18n.h>
#include <json-glib/json-glib.h>

/* --- lines in their order --------------------------------------------------------------------- */

static int
compare_numbers (gconstpointer a,
                 gconstpointer b)
{
  const WbClaimLine *x = *(const WbClaimLine *const *) a;
  const WbClaimLine *y = *(const WbClaimLine *const *) b;

  return (x->number > y->number) - (x->number < y->number);
}

/* Returns: (transfer container): the lines of @claim by number. */
static GPtrArray *
list_lines (const WbJob   *job,
            const WbClaim *claim)
{
  GPtrArray *lines = g_ptr_array_new ();

  for (guint i = 0; i < wb_job_count (job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (job, WB_KIND_CLAIM_LINE, i);

      if (g_strcmp0 (line->claim, claim->record.id) == 0)
        g_ptr_array_add (lines, (gpointer) line);
    }
  g_ptr_array_sort (lines, compare_numbers);
  return lines;
}

/* --- proposals as text ------------------------------------------------------------------------ */

static void
append_proof (GString          *out,
              const WbProposal *proposal,
              const WbProof    *proof)
{
  g_autofree char *words = wb_words_proof (proposal, proof);
  g_autofree char *source = wb_words_proof_source (proof);
  g_autofree char *text = NULL;

  if (source != NULL)
    text = g_strdup_printf ("%s: %s [%s]", wb_words_enum (&wb_bearings, (int) proof->bearing),
                            words, source);
  else
    text = g_strdup_printf ("%s: %s", wb_words_enum (&wb_bearings, (int) proof->bearing), words);
  wb_text_append_paragraph (out, 4, 2, text);
}

static void
append_judged (GString           *out,
               const WbClaimLine *line)
{
  g_autofree char *text = NULL;

  if (line->verdict == WB_VERDICT_NONE)
    return;

  if (line->verdict_reason != NULL)
    /* Translators: a verdict and the adjuster's reason for it. */
    text = g_strdup_printf (_("Judged: %s. %s"), wb_words_enum (&wb_verdicts, (int) line->verdict),
                            line->verdict_reason);
  else
    text = g_strdup_printf (_("Judged: %s."), wb_words_enum (&wb_verdicts, (int) line->verdict));
  wb_text_append_paragraph (out, 2, 2, text);
}

static void
append_intake (GString       *out,
               const WbJob   *job,
               const WbClaim *claim)
{
  g_autoptr (GArray) gaps = NULL;
  const char *citation;
  g_autofree char *words = wb_words_intake (wb_intake_look (job, claim, &gaps, &citation));
  g_autofree char *head = g_strdup_printf ("%s [%s]", words, citation);

  wb_text_append_paragraph (out, 0, 2, head);
  for (guint i = 0; i < gaps->len; i++)
    {
      const WbIntakeGap *gap = &g_array_index (gaps, WbIntakeGap, i);
      g_autofree char *sentence = wb_words_intake_gap (job, gap);
      g_autofree char *text = g_strdup_printf ("%s [%s]", sentence, gap->citation);

      wb_text_append_paragraph (out, 2, 2, text);
    }
  g_string_append_c (out, '\n');
}

/* How the packing of the claimed carton was checked; nothing for what has no checks. */
static void
append_packing (GString           *out,
                const WbPacking   *packing,
                const WbJob       *job,
                const WbClaimLine *line)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, line->piece);
  g_autoptr (GPtrArray) said = NULL;

  if (piece == NULL)
    return;
  said = wb_words_packing_evidence (packing, piece);
  for (guint i = 0; i < said->len; i++)
    {
      /* Translators: a statement about how a carton was packed. */
      g_autofree char *text = g_strdup_printf (_("Packing: %s."),
                                               (char *) g_ptr_array_index (said, i));

      wb_text_append_paragraph (out, 4, 2, text);
    }
}

char *
wb_evidence_report (WbTerms       *terms,
                    WbCatalog     *catalog,
                    WbJob         *job,
                    const WbClaim *claim,
                    const GDate   *today)
{
  g_autoptr (GPtrArray) lines = list_lines (job, claim);
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  g_autoptr (WbPacking) packing = wb_packing_new (catalog, job);
  g_autoptr (GString) out = g_string_new (NULL);

  append_intake (out, job, claim);
  for (guint i = 0; i < lines->len; i++)
    {
      const WbClaimLine *line = g_ptr_array_index (lines, i);
      g_autoptr (WbProposal) proposal = wb_propose_along (terms, job, trail, line, today);
      g_autofree char *name = wb_words_claim_line (job, line);
      g_autofree char *words = wb_words_proposal (proposal);

      wb_text_append_paragraph (out, 0, 3, name);
      wb_text_append_paragraph (out, 2, 2, words);
      append_judged (out, line);
      for (guint j = 0; j < proposal->proofs->len; j++)
        append_proof (out, proposal, g_ptr_array_index (proposal->proofs, j));
      append_packing (out, packing, job, line);
      g_string_append_c (out, '\n');
    }
  wb_text_append_paragraph (out, 0, 0,
                            _("A proposal decides nothing; the adjuster does, with a reason."));
  return g_string_free (g_steal_pointer (&out), FALSE);
}

/* --- JSON ------------------------------------------------------------------------------------- */

static void
add_text (JsonBuilder *builder,
          const char  *key,
          const char  *text)
{
  if (text == NULL || *text == '\0')
    return;

  json_builder_set_member_name (builder, key);
  json_builder_add_string_value (builder, text);
}

static void
add_integer (JsonBuilder *builder,
             const char  *key,
             gint64       value)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_int_value (builder, value);
}

static char *
finish (JsonBuilder *builder)
{
  g_autoptr (JsonNode) root = json_builder_get_root (builder);
  g_autofree char *text = json_to_string (root, TRUE);

  return g_strconcat (text, "\n", NULL);
}

static void
add_proof (JsonBuilder      *builder,
           const WbProposal *proposal,
           const WbProof    *proof)
{
  g_autofree char *words = wb_words_proof (proposal, proof);
  g_autofree char *date = wb_date_to_text (&proof->date);

  json_builder_begin_object (builder);
  add_text (builder, "fact", wb_enum_nick (&wb_proof_rules, (int) proof->rule));
  add_text (builder, "bearing", wb_enum_nick (&wb_bearings, (int) proof->bearing));
  if (proof->verdict != WB_VERDICT_NONE)
    add_text (builder, "verdict", wb_enum_nick (&wb_verdicts, (int) proof->verdict));
  if (proof->has_record)
    {
      add_text (builder, "kind", wb_record_type (proof->kind)->name);
      add_text (builder, "id", proof->record);
    }
  add_text (builder, "handover", proof->handover);
  add_text (builder, "marks", proof->marks);
  add_text (builder, "last_day", date);
  add_text (builder, "words", words);
  add_text (builder, "citation", proof->citation);
  add_text (builder, "source", wb_enum_nick (&wb_checked, (int) proof->checked));
  json_builder_end_object (builder);
}

static void
add_packing (JsonBuilder       *builder,
             const WbPacking   *packing,
             const WbJob       *job,
             const WbClaimLine *line)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, line->piece);
  g_autoptr (GPtrArray) said = NULL;

  if (piece == NULL)
    return;
  said = wb_words_packing_evidence (packing, piece);
  if (said->len == 0)
    return;
  json_builder_set_member_name (builder, "packing");
  json_builder_begin_array (builder);
  for (guint i = 0; i < said->len; i++)
    json_builder_add_string_value (builder, g_ptr_array_index (said, i));
  json_builder_end_array (builder);
}

static void
add_proposal (JsonBuilder       *builder,
              const WbPacking   *packing,
              const WbJob       *job,
              const WbProposal  *proposal,
              const WbClaimLine *line)
{
  json_builder_begin_object (builder);
  add_integer (builder, "line", line->number);
  add_text (builder, "item", line->item);
  add_text (builder, "piece", line->piece);
  add_text (builder, "proposed", wb_enum_nick (&wb_verdicts, (int) proposal->verdict));
  add_text (builder, "noted_at", proposal->noted_at);
  add_text (builder, "since", proposal->since);
  add_text (builder, "claimed_marks", proposal->claimed);
  add_text (builder, "verdict", wb_enum_nick (&wb_verdicts, (int) line->verdict));
  add_text (builder, "verdict_reason", line->verdict_reason);
  json_builder_set_member_name (builder, "facts");
  json_builder_begin_array (builder);
  for (guint i = 0; i < proposal->proofs->len; i++)
    add_proof (builder, proposal, g_ptr_array_index (proposal->proofs, i));
  json_builder_end_array (builder);
  add_packing (builder, packing, job, line);
  json_builder_end_object (builder);
}

static void
add_intake (JsonBuilder   *builder,
            const WbJob   *job,
            const WbClaim *claim)
{
  g_autoptr (GArray) gaps = NULL;
  const char *citation;
  WbIntakeState state = wb_intake_look (job, claim, &gaps, &citation);
  g_autofree char *words = wb_words_intake (state);

  json_builder_set_member_name (builder, "intake");
  json_builder_begin_object (builder);
  add_text (builder, "state", wb_enum_nick (&wb_intake_states, (int) state));
  json_builder_set_member_name (builder, "may_pay");
  json_builder_add_boolean_value (builder, wb_intake_may_pay (state));
  add_text (builder, "words", words);
  add_text (builder, "citation", citation);
  json_builder_set_member_name (builder, "lacks");
  json_builder_begin_array (builder);
  for (guint i = 0; i < gaps->len; i++)
    {
      const WbIntakeGap *gap = &g_array_index (gaps, WbIntakeGap, i);
      g_autofree char *sentence = wb_words_intake_gap (job, gap);

      json_builder_begin_object (builder);
      add_text (builder, "gap", wb_enum_nick (&wb_intake_gaps, (int) gap->kind));
      add_text (builder, "id", gap->record);
      add_text (builder, "words", sentence);
      add_text (builder, "citation", gap->citation);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  json_builder_end_object (builder);
}

char *
wb_evidence_document_write (WbTerms       *terms,
                            WbCatalog     *catalog,
                            WbJob         *job,
                            const WbClaim *claim,
                            const GDate   *today)
{
  g_autoptr (GPtrArray) lines = list_lines (job, claim);
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  g_autoptr (WbPacking) packing = wb_packing_new (catalog, job);
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_object (builder);
  add_text (builder, "claim", claim->number);
  add_text (builder, "job", wb_job_order (job)->number);
  add_intake (builder, job, claim);
  json_builder_set_member_name (builder, "lines");
  json_builder_begin_array (builder);
  for (guint i = 0; i < lines->len; i++)
    {
      const WbClaimLine *line = g_ptr_array_index (lines, i);
      g_autoptr (WbProposal) proposal = wb_propose_along (terms, job, trail, line, today);

      add_proposal (builder, packing, job, proposal, line);
    }
  json_builder_end_array (builder);
  json_builder_end_object (builder);
  return finish (builder);
}
