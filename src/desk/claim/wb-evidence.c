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

GPtrArray *
wb_evidence_list (WbCatalog     *catalog,
                  WbJob         *job,
                  const WbPiece *piece)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (evidence_free);
  guint n = wb_job_count (job, WB_KIND_HANDOVER);

  add (list, _("Tag"), wb_words_tag (job, piece));
  add (list, _("What it is"), wb_piece_summary (piece));
  add (list, _("Weight"),
       wb_weight_is_set (piece->weight) ? wb_words_weight (piece->weight)
                                        : g_strdup (_("Not on the inventory")));
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
