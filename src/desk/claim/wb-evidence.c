/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Statements about a piece, each from what one record says. Judges nothing. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-evidence.h"

#include <glib/gi18n.h>

#include "core/wb-photo.h"
#include "desk/claim/wb-piece-lookup.h"
#include "office/wb-photo-pictures.h"
#include "office/wb-words-packing.h"
#include "office/wb-words-set.h"
#include "office/wb-words.h"

static void
evidence_free (gpointer data)
{
  WbEvidence *evidence = data;

  g_free (evidence->label);
  g_free (evidence->text);
  g_free (evidence);
}

/* Takes @text. */
static void
add (GPtrArray  *list,
     const char *label,
     char       *text)
{
  WbEvidence *evidence = g_new (WbEvidence, 1);

  evidence->label = g_strdup (label);
  evidence->text = text;
  g_ptr_array_add (list, evidence);
}

/* Marks in words; as they were written when they do not read. */
static char *
marks_in_words (const char *marks)
{
  char *words = wb_words_marks (marks, NULL);

  return words != NULL ? words : g_strdup (marks);
}

static char *
packed_by (const WbPiece *piece)
{
  const char *who = wb_words_enum (&wb_packed_by, piece->packed_by);

  if (piece->packer == NULL)
    return g_strdup (who);

  /* Translators: who packed a piece: the party, and the person by name. */
  return g_strdup_printf (_("%s (%s)"), who, piece->packer);
}

static const WbFinding *
find_finding (const WbJob      *job,
              const WbHandover *handover,
              const WbPiece    *piece)
{
  guint n = wb_job_count (job, WB_KIND_FINDING);

  for (guint i = 0; i < n; i++)
    {
      const WbFinding *finding = wb_job_nth (job, WB_KIND_FINDING, i);

      if (g_strcmp0 (finding->handover, handover->record.id) == 0
          && g_strcmp0 (finding->piece, piece->record.id) == 0)
        return finding;
    }

  return NULL;
}

/* Whether anybody counted is evidence too. */
static const char *
describe_nothing (const WbHandover *handover)
{
  switch (handover->count)
    {
    case WB_COUNT_AS_LISTED:
      return _("Taken as listed, nothing was noted");
    case WB_COUNT_UNDER_WAY:
      return _("Count under way, nothing was noted yet");
    case WB_COUNT_FINISHED:
      return _("Counted, nothing new was noted");
    }

  g_assert_not_reached ();
}

static char *
describe_finding (const WbHandover *handover,
                  const WbFinding  *finding)
{
  g_autoptr (GString) text = NULL;

  if (finding == NULL)
    return g_strdup (describe_nothing (handover));

  text = g_string_new (wb_words_enum (&wb_founds, finding->found));
  if (finding->marks != NULL)
    {
      g_autofree char *marks = marks_in_words (finding->marks);

      g_string_append_printf (text, "; %s", marks);
    }
  if (finding->notes != NULL)
    g_string_append_printf (text, "; %s", finding->notes);

  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
name_handover (const WbHandover *handover)
{
  g_autofree char *on = NULL;

  if (!wb_date_is_set (&handover->on))
    return g_strdup (wb_words_enum (&wb_handover_kinds, handover->kind));

  on = wb_words_date (&handover->on);
  /* Translators: a kind of handover, and its date. */
  return g_strdup_printf (_("%s, %s"), wb_words_enum (&wb_handover_kinds, handover->kind), on);
}

/* How the packing was checked: who, and what was unmet or not looked at. */
static void
add_packing (GPtrArray     *list,
             WbCatalog     *catalog,
             WbJob         *job,
             const WbPiece *piece)
{
  g_autoptr (WbPacking) packing = wb_packing_new (catalog, job);
  g_autoptr (GPtrArray) said = wb_words_packing_evidence (packing, piece);

  if (said->len == 0)
    return;
  g_ptr_array_add (said, NULL);
  add (list, _("Packing"), g_strjoinv ("\n", (char **) said->pdata));
}

/* One statement a moment at which the piece was photographed. */
static void
add_photos (GPtrArray     *list,
            WbJob         *job,
            const WbPiece *piece)
{
  for (gsize m = 0; m < wb_moments.n_values; m++)
    {
      int moment = wb_moments.values[m].value;
      g_autoptr (GString) names = g_string_new (NULL);
      g_autofree char *label = NULL;

      for (guint i = 0; i < wb_job_count (job, WB_KIND_PHOTO); i++)
        {
          const WbPhoto *photo = wb_job_nth (job, WB_KIND_PHOTO, i);
          g_autofree char *taken = NULL;

          if ((int) photo->moment != moment ||
              !wb_photo_shows_piece (job, photo, piece->record.id))
            continue;
          taken = wb_words_photo_taken (photo);
          if (names->len > 0)
            g_string_append_c (names, '\n');
          /* Translators: caption or file name of a photo, and when its camera took it. */
          g_string_append_printf (names, _("%s, taken: %s"),
                                  photo->caption != NULL ? photo->caption
                                  : photo->name != NULL ? photo->name : _("Photo"), taken);
        }
      if (names->len == 0)
        continue;
      /* Translators: %s is a moment, such as “At origin”. */
      label = g_strdup_printf (_("Photos: %s"), wb_words_enum (&wb_moments, moment));
      add (list, label, g_string_free (g_steal_pointer (&names), FALSE));
    }
}

/* --- weight ----------------------------------------------------------------------------------- */

/* Returns: (transfer full) (nullable): the weight that the terms make of the volume of a piece. */
static char *
weight_by_volume (const WbTerms *terms,
                  const WbPiece *piece)
{
  g_autofree char *weight = NULL;
  g_autofree char *volume = NULL;
  g_autofree char *each = NULL;
  WbWeight made;

  if (terms == NULL || !wb_volume_is_set (piece->volume)
      || !wb_weight_is_set (terms->constructive_weight)
      || !wb_weight_from_volume (piece->volume, terms->constructive_weight, &made, NULL))
    return NULL;
  weight = wb_words_weight (made);
  volume = wb_words_volume (piece->volume);
  each = wb_words_weight (terms->constructive_weight);
  /* Translators: a weight, a volume, and the weight that a cubic foot counts for. */
  return g_strdup_printf (_("%s, made from its volume of %s, a cubic foot taken as %s"), weight,
                          volume, each);
}

/* The weight of a piece and where it comes from. */
static char *
weigh_piece (const WbTerms *terms,
             const WbPiece *piece)
{
  g_autofree char *weight = NULL;
  char *made;

  if (!wb_weight_is_set (piece->weight))
    {
      made = weight_by_volume (terms, piece);
      return made != NULL ? made : g_strdup (_("Not known: the inventory has none"));
    }
  weight = wb_words_weight (piece->weight);
  if (piece->form == WB_FORM_LOOSE)
    /* Translators: %s is a weight. */
    return g_strdup_printf (_("%s, as the inventory has it"), weight);
  /* Translators: %s is the weight of a carton. */
  return g_strdup_printf (_("%s, as the inventory has it, carton and contents"), weight);
}

/* What the thing itself weighs, which the claim says and no inventory. */
static void
add_own_weight (GPtrArray         *list,
                const WbClaimLine *line)
{
  g_autofree char *weight = NULL;

  if (!wb_weight_is_set (line->weight))
    return;
  weight = wb_words_weight (line->weight);
  add (list, _("The thing itself"),
       /* Translators: %s is a weight. */
       g_strdup_printf (_("%s, as this line says"), weight));
}

/* --- what it belongs to ----------------------------------------------------------------------- */

/* Takes @sentence. */
static void
add_sentence (GString *out,
              char    *sentence)
{
  if (sentence != NULL && out->len > 0)
    g_string_append_c (out, '\n');
  if (sentence != NULL)
    g_string_append (out, sentence);
  g_free (sentence);
}

static void
add_together (GPtrArray         *list,
              const WbTerms     *terms,
              WbJob             *job,
              const WbClaimLine *line)
{
  GString *out = g_string_new (NULL);

  add_sentence (out, wb_words_set (job, line));
  add_sentence (out, wb_words_parts (terms, job, line));
  add_sentence (out, wb_words_sharers (job, line));
  if (out->len > 0)
    add (list, _("Belongs to"), g_string_free (out, FALSE));
  else
    g_string_free (out, TRUE);
}

/* Whether it was told in writing that it is of extraordinary value: 49 CFR 375.203(b), (c). */
static char *
say_listed (const WbPiece *piece)
{
  g_autofree char *value = NULL;

  if (!wb_money_is_set (piece->listed_value))
    return g_strdup (_("Not listed"));
  value = wb_words_money (piece->listed_value);
  /* Translators: %s is an amount. */
  return g_strdup_printf (_("Listed in writing for %s"), value);
}

/* --- all of it -------------------------------------------------------------------------------- */

GPtrArray *
wb_evidence_list (WbCatalog         *catalog,
                  const WbTerms     *terms,
                  WbJob             *job,
                  const WbClaimLine *line)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (evidence_free);
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, line->piece);
  guint n = wb_job_count (job, WB_KIND_HANDOVER);

  if (piece == NULL)
    {
      add_own_weight (list, line);
      return list;
    }
  add (list, _("Tag"), wb_words_tag (job, piece));
  add (list, _("What it is"), wb_piece_summary (piece));
  add_together (list, terms, job, line);
  add (list, _("Weight"), weigh_piece (terms, piece));
  add_own_weight (list, line);
  add (list, _("Extraordinary value"), say_listed (piece));
  add (list, _("Packed by"), packed_by (piece));
  add_packing (list, catalog, job, piece);
  add (list, _("At origin"),
       piece->marks != NULL ? marks_in_words (piece->marks) : g_strdup (_("No marks were noted")));

  for (guint i = 0; i < n; i++)
    {
      const WbHandover *handover = wb_job_nth (job, WB_KIND_HANDOVER, i);
      g_autofree char *name = name_handover (handover);

      add (list, name, describe_finding (handover, find_finding (job, handover, piece)));
    }
  add_photos (list, job, piece);

  return list;
}
