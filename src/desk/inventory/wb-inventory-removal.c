/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Removing lines. What may not go is core's to say; here that becomes sentences that name tags,
 * claims, handovers and photos instead of ids. */
#include "config.h"

#include "desk/inventory/wb-inventory-removal.h"

#include "core/wb-tags.h"
#include "core/wb-tally.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

typedef struct
{
  const WbJob *job;
  GHashTable  *ids;   /* of the pieces that are to go */
} Removal;

static const WbPiece *
find_doomed (const Removal *self,
             const char    *id)
{
  if (id == NULL || !g_hash_table_contains (self->ids, id))
    return NULL;
  return wb_job_find (self->job, WB_KIND_PIECE, id);
}

static const char *
name_handover (const WbJob *job,
               const char  *id)
{
  const WbHandover *handover = wb_job_find (job, WB_KIND_HANDOVER, id);

  return handover != NULL ? wb_words_enum (&wb_handover_kinds, (int) handover->kind) : "–";
}

/* --- what holds a piece ----------------------------------------------------------------------- */

static char *
describe_claim_line (const Removal *self)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_CLAIM_LINE); i++)
    {
      const WbClaimLine *line = wb_job_nth (self->job, WB_KIND_CLAIM_LINE, i);
      const WbPiece *piece = find_doomed (self, line->piece);
      const WbClaim *claim = wb_job_find (self->job, WB_KIND_CLAIM, line->claim);
      g_autofree char *tag = NULL;

      if (piece == NULL)
        continue;
      tag = wb_words_tag (self->job, piece);
      /* Translators: a tag, the number of a line and the number of a claim. */
      return g_strdup_printf (_("%s stays on the inventory: line %d of claim %s is about it. "
                                "Nothing was removed."),
                              tag, (int) line->number,
                              claim != NULL && claim->number != NULL ? claim->number : "–");
    }
  return NULL;
}

static char *
describe_finding (const Removal *self)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_FINDING); i++)
    {
      const WbFinding *finding = wb_job_nth (self->job, WB_KIND_FINDING, i);
      const WbPiece *piece = find_doomed (self, finding->piece);
      g_autofree char *tag = NULL;

      if (piece == NULL)
        continue;
      tag = wb_words_tag (self->job, piece);
      /* Translators: a tag and a kind of handover, such as "Residence to vehicle". */
      return g_strdup_printf (_("%s stays on the inventory: it was noted at the handover “%s”. "
                                "Nothing was removed."),
                              tag, name_handover (self->job, finding->handover));
    }
  return NULL;
}

/* Whether a line that stays has the same tag, so that the count is of it. */
static gboolean
has_twin (const Removal *self,
          const WbPiece *piece)
{
  guint n = wb_job_count (self->job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *other = wb_job_nth (self->job, WB_KIND_PIECE, i);

      if (other->tag == piece->tag && g_strcmp0 (other->lot, piece->lot) == 0
          && !g_hash_table_contains (self->ids, other->record.id))
        return TRUE;
    }
  return FALSE;
}

/* A tag counted off says that the piece was there, though no record names the piece. */
static char *
describe_tally (const Removal *self)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_HANDOVER); i++)
    {
      const WbHandover *handover = wb_job_nth (self->job, WB_KIND_HANDOVER, i);
      g_autoptr (WbTallySheet) sheet = wb_tally_sheet_new (self->job, handover->record.id);
      GHashTableIter iter;
      gpointer id;

      g_hash_table_iter_init (&iter, self->ids);
      while (g_hash_table_iter_next (&iter, &id, NULL))
        {
          const WbPiece *piece = wb_job_find (self->job, WB_KIND_PIECE, id);
          g_autofree char *tag = NULL;

          if (piece == NULL || !wb_tally_sheet_has (sheet, piece->lot, piece->tag)
              || has_twin (self, piece))
            continue;
          tag = wb_words_tag (self->job, piece);
          /* Translators: a tag and a kind of handover, such as "Residence to vehicle". */
          return g_strdup_printf (_("%s stays on the inventory: its tag was counted at the "
                                    "handover “%s”. Take it off the count first. Nothing was "
                                    "removed."),
                                  tag, name_handover (self->job, handover->record.id));
        }
    }
  return NULL;
}

static guint
count_photos (const Removal *self,
              const char    *piece)
{
  guint n = 0;

  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (self->job, WB_KIND_PHOTO, i);

      if (g_strcmp0 (photo->piece, piece) == 0)
        n++;
    }
  return n;
}

static char *
describe_photo (const Removal *self)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PHOTO); i++)
    {
      const WbPhoto *photo = wb_job_nth (self->job, WB_KIND_PHOTO, i);
      const WbPiece *piece = find_doomed (self, photo->piece);
      g_autofree char *tag = NULL;
      guint n;

      if (piece == NULL)
        continue;
      tag = wb_words_tag (self->job, piece);
      n = count_photos (self, photo->piece);
      /* Translators: a tag and a number of photos. */
      return g_strdup_printf (ngettext ("%s stays on the inventory: %u photo shows it. Give the "
                                        "photo to another piece first. Nothing was removed.",
                                        "%s stays on the inventory: %u photos show it. Give the "
                                        "photos to another piece first. Nothing was removed.", n),
                              tag, n);
    }
  return NULL;
}

static char *
describe_pin (const Removal *self)
{
  for (guint i = 0; i < wb_job_count (self->job, WB_KIND_PIN); i++)
    {
      const WbPin *pin = wb_job_nth (self->job, WB_KIND_PIN, i);
      const WbPiece *piece = find_doomed (self, pin->piece);
      const WbPhoto *photo = wb_job_find (self->job, WB_KIND_PHOTO, pin->photo);
      g_autofree char *tag = NULL;

      if (piece == NULL)
        continue;
      tag = wb_words_tag (self->job, piece);
      /* Translators: a tag and the name of a photo's file. */
      return g_strdup_printf (_("%s stays on the inventory: a mark on the photo “%s” is about it. "
                                "Nothing was removed."),
                              tag, photo != NULL && photo->name != NULL ? photo->name : "–");
    }
  return NULL;
}

/* The first thing that holds one of the pieces, as a sentence; %NULL when nothing does. */
static char *
describe_holder (const Removal *self)
{
  char *(*const holders[]) (const Removal *) = {
    describe_claim_line, describe_finding, describe_tally, describe_photo, describe_pin,
  };

  for (gsize i = 0; i < G_N_ELEMENTS (holders); i++)
    {
      char *sentence = holders[i] (self);

      if (sentence != NULL)
        return sentence;
    }
  return NULL;
}

/* --- removing --------------------------------------------------------------------------------- */

WbJob *
wb_inventory_remove (const WbJob  *job,
                     GPtrArray    *ids,
                     char        **refusal)
{
  g_autoptr (GHashTable) lookup = g_hash_table_new (g_str_hash, g_str_equal);
  Removal self = { job, lookup };
  g_autoptr (GError) error = NULL;
  WbJob *fewer;

  for (guint i = 0; i < ids->len; i++)
    g_hash_table_add (lookup, g_ptr_array_index (ids, i));

  *refusal = describe_holder (&self);
  if (*refusal != NULL)
    return NULL;

  fewer = wb_job_without_many (job, WB_KIND_PIECE, ids, &error);
  if (fewer == NULL)
    *refusal = wb_words_error (error);
  return fewer;
}

static guint
count_fewer (const WbJob *before,
             const WbJob *after,
             WbKind       kind)
{
  return wb_job_count (before, kind) - wb_job_count (after, kind);
}

char *
wb_inventory_describe_removal (const WbJob *before,
                               const WbJob *after)
{
  guint n = count_fewer (before, after, WB_KIND_PIECE);
  guint n_things = count_fewer (before, after, WB_KIND_THING);
  guint n_checks = count_fewer (before, after, WB_KIND_PACKING_CHECK);
  g_autoptr (GString) text = g_string_new (NULL);

  g_string_append_printf (text, ngettext ("%u line removed", "%u lines removed", n), n);
  if (n_things > 0)
    g_string_append_printf (text, ngettext (", with %u line of contents",
                                            ", with %u lines of contents", n_things), n_things);
  if (n_checks > 0)
    g_string_append_printf (text, ngettext (", with %u packing check",
                                            ", with %u packing checks", n_checks), n_checks);
  return g_string_free (g_steal_pointer (&text), FALSE);
}
