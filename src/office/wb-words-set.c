/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about sets, articles and cartons. What belongs together core finds; what the terms make
 * of it is read off them. */
#include "config.h"

#include "office/wb-words-set.h"

#include "core/wb-things.h"

#include <glib/gi18n.h>
#include <inttypes.h>

static void
add_name (GString    *list,
          const char *name)
{
  if (list->len > 0)
    /* Translators: between the names of things. */
    g_string_append (list, C_("list of things", "; "));
  g_string_append (list, name);
}

/* "Loveseat (blue 204-012)". */
static char *
name_of_piece (const WbJob   *job,
               const WbPiece *piece)
{
  g_autofree char *tag = wb_words_tag (job, piece);

  if (piece->description == NULL)
    return g_steal_pointer (&tag);
  return g_strdup_printf ("%s (%s)", piece->description, tag);
}

char *
wb_words_set (const WbJob       *job,
              const WbClaimLine *line)
{
  const WbPiece *own = wb_job_find (job, WB_KIND_PIECE, line->piece);
  g_autoptr (GArray) mates = wb_claim_set_mates (job, line);
  g_autoptr (GString) list = g_string_new (NULL);

  if (own == NULL || own->set == NULL)
    return NULL;
  if (mates->len == 0)
    /* Translators: %s is the name of a pair or set. */
    return g_strdup_printf (_("Of the set “%s”, which has no other piece on the inventory."),
                            own->set);
  for (guint i = 0; i < mates->len; i++)
    {
      const WbMate *mate = &g_array_index (mates, WbMate, i);
      g_autofree char *piece = name_of_piece (job, mate->piece);
      g_autofree char *whole = mate->line != NULL
        /* Translators: a piece, and the number of the claim line that claims it. */
        ? g_strdup_printf (_("%s, line %" PRId64), piece, mate->line->number)
        /* Translators: %s is a piece. */
        : g_strdup_printf (_("%s, not claimed"), piece);

      add_name (list, whole);
    }
  /* Translators: the name of a pair or set, and a list of its other pieces. */
  return g_strdup_printf (_("Of the set “%s”, with: %s."), own->set, list->str);
}

char *
wb_words_parts (const WbTerms     *terms,
                const WbJob       *job,
                const WbClaimLine *line)
{
  const WbPiece *own = wb_job_find (job, WB_KIND_PIECE, line->piece);
  g_autoptr (GPtrArray) parts = wb_claim_set_parts (job, line);
  g_autoptr (GString) list = g_string_new (NULL);
  const char *limit = "";

  if (parts->len == 0)
    return NULL;
  for (guint i = 0; i < parts->len; i++)
    {
      g_autofree char *name = name_of_piece (job, g_ptr_array_index (parts, i));

      add_name (list, name);
    }
  if (terms != NULL)
    limit = terms->parts == WB_PARTS_ONE_ARTICLE
            ? _(" By the terms they are one article, with one limit by the weight of all parts.")
            : _(" By the terms each part has its own limit.");
  /* Translators: the name of an article, a list of its other parts, and a sentence that begins with
   * a space, or nothing. */
  return g_strdup_printf (_("A part of “%s”, with: %s.%s"), own->article, list->str, limit);
}

char *
wb_words_carton (const WbTerms     *terms,
                 const WbJob       *job,
                 const WbClaimLine *line)
{
  const WbPiece *own = wb_job_find (job, WB_KIND_PIECE, line->piece);
  g_autoptr (GPtrArray) things = NULL;
  g_autoptr (GString) list = g_string_new (NULL);
  const char *limit = "";

  if (own == NULL || own->form == WB_FORM_LOOSE)
    return NULL;
  things = wb_things_of (job, own->record.id);
  for (guint i = 0; i < things->len; i++)
    {
      const WbThing *thing = g_ptr_array_index (things, i);
      gint64 count = wb_thing_count (thing);
      g_autofree char *name = count != 1
        /* Translators: how many, and of what. */
        ? g_strdup_printf (_("%" PRId64 " × %s"), count, thing->description)
        : g_strdup (thing->description);

      add_name (list, name);
    }
  if (things->len == 0 && own->contents != NULL)
    add_name (list, own->contents);
  if (terms != NULL)
    limit = terms->carton == WB_CARTON_ONE_ARTICLE
            ? _(" By the terms carton and contents are one article, with one limit by the weight "
                "of the carton.")
            : _(" By the terms each thing in it has its own limit by its own weight.");
  if (list->len == 0)
    return g_strdup_printf (_("Out of a carton, whose contents nobody wrote.%s"), limit);
  /* Translators: what a carton holds, and a sentence that begins with a space, or nothing. */
  return g_strdup_printf (_("Out of a carton with: %s.%s"), list->str, limit);
}

char *
wb_words_sharers (const WbJob       *job,
                  const WbClaimLine *line)
{
  g_autoptr (GPtrArray) sharers = wb_claim_set_sharers (job, line);
  g_autoptr (GString) list = g_string_new (NULL);

  if (sharers->len == 0)
    return NULL;
  for (guint i = 0; i < sharers->len; i++)
    {
      const WbClaimLine *other = g_ptr_array_index (sharers, i);

      g_string_append_printf (list, "%s%" G_GINT64_FORMAT, i > 0 ? ", " : "", other->number);
    }
  /* Translators: %s is a list of numbers of lines, such as “3, 5”. */
  return g_strdup_printf (_("Other lines on the same article: %s."), list->str);
}
