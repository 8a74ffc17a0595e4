/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changing many lines in one step: fields, condition, lot and tags. What a text means for a piece
 * is the line's. */
#include "config.h"

#include "desk/inventory/wb-inventory-deeds.h"

#include "core/wb-core.h"
#include "core/wb-tag-ranges.h"
#include "desk/inventory/wb-lot-choice.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static gboolean
has_mark (char       **marks,
          const char  *mark)
{
  return marks != NULL && g_strv_contains ((const char *const *) marks, mark);
}

/* Adds the marks of @more to those of @piece; what is there already is not written twice. */
static void
add_marks (WbPiece    *piece,
           const char *more)
{
  g_auto (GStrv) before = piece->marks != NULL ? g_strsplit (piece->marks, ", ", -1) : NULL;
  g_auto (GStrv) added = g_strsplit (more, ", ", -1);
  g_autoptr (GString) text = g_string_new (piece->marks);

  for (gsize i = 0; added[i] != NULL; i++)
    if (!has_mark (before, added[i]))
      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", added[i]);
  wb_set_text (&piece->marks, text->str);
}

static gboolean
read_change (WbPiece             *piece,
             const WbJob         *job,
             const WbLineChange  *change,
             GError             **error)
{
  const char *currency = wb_job_get_currency (job);
  g_autoptr (WbPiece) scratch = NULL;

  if (!change->add)
    return wb_line_read (piece, change->part, change->text, currency, WB_WEIGHT_UNIT_LB, error);

  scratch = wb_record_new (WB_KIND_PIECE, "scratch");
  if (!wb_line_read (scratch, WB_LINE_MARKS, change->text, currency, WB_WEIGHT_UNIT_LB, error))
    return FALSE;
  if (scratch->marks != NULL)
    add_marks (piece, scratch->marks);
  return TRUE;
}

static gboolean
change_piece (WbPiece             *piece,
              const WbJob         *job,
              const WbLineChange  *changes,
              guint                n_changes,
              guint               *bad,
              GError             **error)
{
  for (guint i = 0; i < n_changes; i++)
    {
      *bad = i;
      if (!read_change (piece, job, &changes[i], error))
        return FALSE;
      if (changes[i].part == WB_LINE_CARTON && piece->carton != NULL
          && piece->form == WB_FORM_LOOSE)
        piece->form = WB_FORM_CARTON;
      else if (changes[i].part == WB_LINE_FORM && piece->form == WB_FORM_LOOSE)
        wb_set_text (&piece->carton, NULL);
    }
  return TRUE;
}

WbJob *
wb_inventory_change (const WbJob         *job,
                     GPtrArray           *ids,
                     const WbLineChange  *changes,
                     guint                n_changes,
                     guint               *bad,
                     GError             **error)
{
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func (wb_record_unref);

  for (guint i = 0; i < ids->len; i++)
    {
      gconstpointer before = wb_job_find (job, WB_KIND_PIECE, g_ptr_array_index (ids, i));
      g_autoptr (WbPiece) piece = NULL;

      if (before == NULL)
        continue;
      piece = wb_record_copy (before);
      if (!change_piece (piece, job, changes, n_changes, bad, error))
        return NULL;
      g_ptr_array_add (pieces, g_steal_pointer (&piece));
    }
  return wb_job_with_many (job, pieces);
}

/* --- lots and tags ---------------------------------------------------------------------------- */

static gboolean
check_roll (const WbJob  *job,
            const char   *lot,
            gint64        first,
            gint64        last,
            GError      **error)
{
  const WbLot *roll = wb_job_find (job, WB_KIND_LOT, lot);
  g_autofree char *name = NULL;

  if (last > WB_TAG_MAX)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   _("The last line would get the tag %d; there is none above %d."), (int) last,
                   (int) WB_TAG_MAX);
      return FALSE;
    }
  if (roll == NULL || ((roll->first == WB_INTEGER_UNSET || first >= roll->first)
                       && (roll->last == WB_INTEGER_UNSET || last <= roll->last)))
    return TRUE;

  name = wb_lot_choice_describe (roll, TRUE);
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
               /* Translators: two numbers of tags, and a lot with its range. */
               _("The lines would get the tags %d to %d; that is more than lot %s has."),
               (int) first, (int) last, name);
  return FALSE;
}

/* Fails when a line that is not among @ids has one of the tags. */
static gboolean
check_free (const WbJob  *job,
            GPtrArray    *ids,
            const char   *lot,
            gint64        first,
            gint64        last,
            GError      **error)
{
  g_autoptr (GHashTable) lookup = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < ids->len; i++)
    g_hash_table_add (lookup, g_ptr_array_index (ids, i));
  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);
      g_autofree char *tag = NULL;

      if (g_strcmp0 (piece->lot, lot) != 0 || piece->tag < first || piece->tag > last
          || g_hash_table_contains (lookup, piece->record.id))
        continue;
      tag = wb_words_tag (job, piece);
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   /* Translators: %s is a tag. */
                   _("Another line has the tag %s. Begin with a higher number."), tag);
      return FALSE;
    }
  return TRUE;
}

WbJob *
wb_inventory_renumber (const WbJob  *job,
                       GPtrArray    *ids,
                       const char   *lot,
                       gint64        first,
                       GError      **error)
{
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func (wb_record_unref);
  gint64 last = first + (gint64) ids->len - 1;

  if (first != WB_INTEGER_UNSET
      && (!check_roll (job, lot, first, last, error)
          || !check_free (job, ids, lot, first, last, error)))
    return NULL;

  for (guint i = 0; i < ids->len; i++)
    {
      gconstpointer before = wb_job_find (job, WB_KIND_PIECE, g_ptr_array_index (ids, i));
      WbPiece *piece;

      if (before == NULL)
        continue;
      piece = wb_record_copy (before);
      wb_set_text (&piece->lot, lot);
      if (first != WB_INTEGER_UNSET)
        piece->tag = first + i;
      g_ptr_array_add (pieces, piece);
    }
  return wb_job_with_many (job, pieces);
}

guint
wb_inventory_count_changed (const WbJob *before,
                            const WbJob *after,
                            GPtrArray   *ids)
{
  guint n = 0;

  for (guint i = 0; i < ids->len; i++)
    {
      gconstpointer a = wb_job_find (before, WB_KIND_PIECE, g_ptr_array_index (ids, i));
      gconstpointer b = wb_job_find (after, WB_KIND_PIECE, g_ptr_array_index (ids, i));

      if (a != NULL && b != NULL && !wb_record_equal (a, b))
        n++;
    }
  return n;
}
