/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deeds of counting off a handover, each from one job to the next. Reading what was typed is in
 * wb-count-entry.c, and what the records then say in wb-trail.c. */
#include "config.h"

#include "core/wb-count.h"

#include "core/wb-core.h"
#include "core/wb-mark-compare.h"
#include "core/wb-tally.h"
#include "core/wb-trail.h"

/* A deed in the making: the records that it changes and the findings that it removes. */
typedef struct
{
  WbJob            *job;
  const WbHandover *handover;
  GPtrArray        *changed;   /* of records */
  GPtrArray        *removed;   /* of ids of findings */
} Deed;

static void
deed_clear (Deed *deed)
{
  g_clear_pointer (&deed->changed, g_ptr_array_unref);
  g_clear_pointer (&deed->removed, g_ptr_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Deed, deed_clear)

static Deed
deed_begin (WbJob      *job,
            const char *handover)
{
  return (Deed) { .job = job, .handover = wb_job_find (job, WB_KIND_HANDOVER, handover),
                  .changed = g_ptr_array_new_with_free_func (wb_record_unref),
                  .removed = g_ptr_array_new_with_free_func (g_free) };
}

/* Changes a record; the copy is the caller's to write until the deed ends. */
static gpointer
deed_change (Deed          *deed,
             gconstpointer  record)
{
  gpointer copy = wb_record_copy (record);

  g_ptr_array_add (deed->changed, copy);
  return copy;
}

static gpointer
deed_make (Deed    *deed,
           WbKind   kind,
           WbNewId  new_id)
{
  g_autofree char *id = new_id ();
  gpointer record = wb_record_new (kind, id);

  g_ptr_array_add (deed->changed, record);
  return record;
}

static WbJob *
deed_end (Deed    *deed,
          GError **error)
{
  g_autoptr (WbJob) changed = wb_job_with_many (deed->job, deed->changed);

  if (deed->removed->len == 0)
    return g_steal_pointer (&changed);

  return wb_job_without_many (changed, WB_KIND_FINDING, deed->removed, error);
}

static void
set_count (Deed    *deed,
           WbCount  count)
{
  WbHandover *copy;

  if (deed->handover->count == count)
    return;
  copy = deed_change (deed, deed->handover);
  copy->count = count;
}

static gboolean
refuse (GError     **error,
        const char  *message)
{
  g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE, message);
  return FALSE;
}

static gboolean
is_open (const Deed  *deed,
         GError     **error)
{
  g_autoptr (WbTallySheet) sheet = NULL;

  if (deed->handover == NULL)
    return refuse (error, "There is no such handover");
  if (deed->handover->count == WB_COUNT_FINISHED)
    return refuse (error, "The count of this handover is finished; open it again to change it");

  sheet = wb_tally_sheet_new (deed->job, deed->handover->record.id);
  if (wb_tally_sheet_unreadable (sheet) != NULL)
    return refuse (error, "A tally of this handover does not read; give the count up and begin "
                          "again");
  return TRUE;
}

/* --- tallies ---------------------------------------------------------------------------------- */

static const WbTally *
find_tally (const Deed *deed,
            const char *lot,
            guint       nth)
{
  for (guint i = 0; i < wb_job_count (deed->job, WB_KIND_TALLY); i++)
    {
      const WbTally *tally = wb_job_nth (deed->job, WB_KIND_TALLY, i);

      if (g_strcmp0 (tally->handover, deed->handover->record.id) == 0
          && g_strcmp0 (tally->lot, lot) == 0 && nth-- == 0)
        return tally;
    }
  return NULL;
}

static void
set_tags (WbTally *tally,
          GArray  *tags)
{
  g_autofree char *text = wb_tag_ranges_to_text (tags);

  wb_set_text (&tally->tags, text);
}

static void
add_tags (Deed         *deed,
          const char   *lot,
          const GArray *tags,
          WbNewId       new_id)
{
  const WbTally *before = find_tally (deed, lot, 0);
  g_autoptr (GArray) old = NULL;
  g_autoptr (GArray) merged = NULL;
  WbTally *tally;

  if (tags->len == 0)
    return;

  if (before != NULL)
    tally = deed_change (deed, before);
  else
    {
      tally = deed_make (deed, WB_KIND_TALLY, new_id);
      wb_set_text (&tally->handover, deed->handover->record.id);
      wb_set_text (&tally->lot, lot);
    }

  old = wb_tag_ranges_parse (tally->tags != NULL ? tally->tags : "", NULL);
  merged = wb_tag_ranges_merge (old, tags);
  set_tags (tally, merged);
}

static void
remove_tags (Deed         *deed,
             const char   *lot,
             const GArray *tags)
{
  const WbTally *before;

  for (guint i = 0; (before = find_tally (deed, lot, i)) != NULL; i++)
    {
      WbTally *tally = deed_change (deed, before);
      g_autoptr (GArray) old = wb_tag_ranges_parse (tally->tags != NULL ? tally->tags : "", NULL);
      g_autoptr (GArray) rest = wb_tag_ranges_subtract (old, tags);

      set_tags (tally, rest);
    }
}

/* --- findings --------------------------------------------------------------------------------- */

static gboolean
is_about (const WbFinding *finding,
          const Deed      *deed,
          const char      *piece)
{
  return g_strcmp0 (finding->handover, deed->handover->record.id) == 0
         && g_strcmp0 (finding->piece, piece) == 0;
}

static const WbFinding *
find_finding (const Deed *deed,
              const char *piece)
{
  const WbFinding *found = NULL;

  for (guint i = 0; i < wb_job_count (deed->job, WB_KIND_FINDING); i++)
    {
      const WbFinding *finding = wb_job_nth (deed->job, WB_KIND_FINDING, i);

      if (is_about (finding, deed, piece))
        found = finding;
    }
  return found;
}

static void
make_finding (Deed       *deed,
              const char *piece,
              WbFound     found,
              const char *marks,
              WbNewId     new_id)
{
  WbFinding *finding = deed_make (deed, WB_KIND_FINDING, new_id);

  wb_set_text (&finding->handover, deed->handover->record.id);
  wb_set_text (&finding->piece, piece);
  wb_set_text (&finding->marks, marks);
  finding->found = found;
}

static gboolean
says_nothing_else (const WbFinding *finding)
{
  return finding->marks == NULL && finding->notes == NULL;
}

static void
drop_finding (Deed            *deed,
              const WbFinding *finding)
{
  g_ptr_array_add (deed->removed, g_strdup (finding->record.id));
}

static gboolean
is_counted_by (const WbJob        *job,
               const WbCountEntry *entry,
               const char         *piece)
{
  const WbPiece *record = wb_job_find (job, WB_KIND_PIECE, piece);

  for (guint i = 0; record != NULL && record->tag != WB_INTEGER_UNSET && i < entry->parts->len; i++)
    {
      const WbCountPart *part = g_ptr_array_index (entry->parts, i);
      const char *lot = part->lot != NULL ? part->lot->record.id : NULL;

      if (g_strcmp0 (record->lot, lot) == 0 && wb_tag_ranges_contain (part->listed, record->tag))
        return TRUE;
    }
  return FALSE;
}

/* A piece that is counted is not short. */
static void
take_shortages_back (Deed               *deed,
                     const WbCountEntry *entry)
{
  for (guint i = 0; i < wb_job_count (deed->job, WB_KIND_FINDING); i++)
    {
      const WbFinding *finding = wb_job_nth (deed->job, WB_KIND_FINDING, i);

      if (finding->found != WB_FOUND_SHORT || !is_about (finding, deed, finding->piece)
          || !is_counted_by (deed->job, entry, finding->piece))
        continue;
      if (says_nothing_else (finding))
        drop_finding (deed, finding);
      else
        ((WbFinding *) deed_change (deed, finding))->found = WB_FOUND_PRESENT;
    }
}

/* --- counting --------------------------------------------------------------------------------- */

WbJob *
wb_count_add (WbJob               *job,
              const char          *handover,
              const WbCountEntry  *entry,
              WbNewId              new_id,
              GError             **error)
{
  g_auto (Deed) deed = deed_begin (job, handover);

  if (!is_open (&deed, error))
    return NULL;

  for (guint i = 0; i < entry->parts->len; i++)
    {
      const WbCountPart *part = g_ptr_array_index (entry->parts, i);
      g_autoptr (GArray) tags = wb_tag_ranges_merge (part->listed, part->strays);

      add_tags (&deed, part->lot != NULL ? part->lot->record.id : NULL, tags, new_id);
    }
  take_shortages_back (&deed, entry);
  set_count (&deed, WB_COUNT_UNDER_WAY);

  return deed_end (&deed, error);
}

gint64
wb_count_n_again (const WbJob         *job,
                  const char          *handover,
                  const WbCountEntry  *entry)
{
  g_autoptr (WbTallySheet) sheet = wb_tally_sheet_new (job, handover);
  gint64 n_again = 0;

  for (guint i = 0; i < entry->parts->len; i++)
    {
      const WbCountPart *part = g_ptr_array_index (entry->parts, i);
      const GArray *counted = wb_tally_sheet_tags (sheet, part->lot != NULL ? part->lot->record.id
                                                                            : NULL);
      g_autoptr (GArray) tags = wb_tag_ranges_merge (part->listed, part->strays);
      g_autoptr (GArray) again = wb_tag_ranges_intersect (tags, counted);

      n_again += wb_tag_ranges_count (again);
    }
  return n_again;
}

/* Counts a piece that has no tag to tally. */
static WbJob *
add_untagged (WbJob       *job,
              const char  *handover,
              const char  *piece,
              WbNewId      new_id,
              GError     **error)
{
  g_auto (Deed) deed = deed_begin (job, handover);
  const WbFinding *finding;

  if (!is_open (&deed, error))
    return NULL;

  finding = find_finding (&deed, piece);
  if (finding == NULL)
    make_finding (&deed, piece, WB_FOUND_PRESENT, NULL, new_id);
  else if (finding->found == WB_FOUND_SHORT)
    ((WbFinding *) deed_change (&deed, finding))->found = WB_FOUND_PRESENT;
  set_count (&deed, WB_COUNT_UNDER_WAY);

  return deed_end (&deed, error);
}

WbJob *
wb_count_add_piece (WbJob       *job,
                    const char  *handover,
                    const char  *piece,
                    WbNewId      new_id,
                    GError     **error)
{
  const WbPiece *record = wb_job_find (job, WB_KIND_PIECE, piece);
  g_autoptr (WbCountEntry) entry = NULL;

  if (record == NULL)
    {
      refuse (error, "There is no such piece");
      return NULL;
    }

  entry = wb_count_entry_for_piece (job, record);
  if (entry == NULL)
    return add_untagged (job, handover, piece, new_id, error);

  return wb_count_add (job, handover, entry, new_id, error);
}

WbJob *
wb_count_take_tags (WbJob         *job,
                    const char    *handover,
                    const char    *lot,
                    const GArray  *tags,
                    GError       **error)
{
  g_auto (Deed) deed = deed_begin (job, handover);

  if (!is_open (&deed, error))
    return NULL;

  remove_tags (&deed, lot, tags);
  return deed_end (&deed, error);
}

WbJob *
wb_count_take_piece (WbJob       *job,
                     const char  *handover,
                     const char  *piece,
                     GError     **error)
{
  g_auto (Deed) deed = deed_begin (job, handover);
  const WbPiece *record = wb_job_find (job, WB_KIND_PIECE, piece);
  const WbFinding *finding;

  if (!is_open (&deed, error))
    return NULL;

  if (record != NULL && record->tag != WB_INTEGER_UNSET && record->tag > 0)
    {
      g_autoptr (GArray) tags = wb_tag_ranges_new ();

      wb_tag_ranges_add (tags, record->tag, record->tag);
      remove_tags (&deed, record->lot, tags);
    }
  finding = find_finding (&deed, piece);
  if (finding != NULL && finding->found == WB_FOUND_PRESENT && says_nothing_else (finding))
    drop_finding (&deed, finding);

  return deed_end (&deed, error);
}

/* --- the state of the count ------------------------------------------------------------------- */

WbJob *
wb_count_finish (WbJob       *job,
                 const char  *handover,
                 WbNewId      new_id,
                 GError     **error)
{
  g_auto (Deed) deed = deed_begin (job, handover);
  g_autoptr (WbTrail) trail = NULL;
  const WbHandoverFacts *facts;

  if (!is_open (&deed, error))
    return NULL;
  if (deed.handover->count != WB_COUNT_UNDER_WAY)
    {
      refuse (error, "Nothing is counted at this handover yet");
      return NULL;
    }

  trail = wb_trail_new (job);
  facts = wb_trail_handover (trail, (guint) wb_job_index (job, WB_KIND_HANDOVER, handover));
  for (guint i = 0; i < facts->left->len; i++)
    {
      const WbPiece *piece = g_ptr_array_index (facts->left, i);

      make_finding (&deed, piece->record.id, WB_FOUND_SHORT, NULL, new_id);
    }
  for (guint i = 0; i < facts->reappeared->len; i++)
    {
      const WbPiece *piece = g_ptr_array_index (facts->reappeared, i);

      if (find_finding (&deed, piece->record.id) == NULL)
        make_finding (&deed, piece->record.id, WB_FOUND_PRESENT, NULL, new_id);
    }
  set_count (&deed, WB_COUNT_FINISHED);

  return deed_end (&deed, error);
}

WbJob *
wb_count_reopen (WbJob       *job,
                 const char  *handover,
                 GError     **error)
{
  g_auto (Deed) deed = deed_begin (job, handover);

  if (deed.handover == NULL || deed.handover->count != WB_COUNT_FINISHED)
    {
      refuse (error, "The count of this handover is not finished");
      return NULL;
    }

  for (guint i = 0; i < wb_job_count (job, WB_KIND_FINDING); i++)
    {
      const WbFinding *finding = wb_job_nth (job, WB_KIND_FINDING, i);

      if (finding->found == WB_FOUND_SHORT && says_nothing_else (finding)
          && is_about (finding, &deed, finding->piece))
        drop_finding (&deed, finding);
    }
  set_count (&deed, WB_COUNT_UNDER_WAY);

  return deed_end (&deed, error);
}

WbJob *
wb_count_give_up (WbJob       *job,
                  const char  *handover,
                  GError     **error)
{
  g_auto (Deed) deed = deed_begin (job, handover);
  g_autoptr (GPtrArray) tallies = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (WbJob) changed = NULL;

  if (deed.handover == NULL || deed.handover->count != WB_COUNT_UNDER_WAY)
    {
      refuse (error, "No count is under way at this handover");
      return NULL;
    }

  for (guint i = 0; i < wb_job_count (job, WB_KIND_TALLY); i++)
    {
      const WbTally *tally = wb_job_nth (job, WB_KIND_TALLY, i);

      if (g_strcmp0 (tally->handover, handover) == 0)
        g_ptr_array_add (tallies, g_strdup (tally->record.id));
    }
  set_count (&deed, WB_COUNT_AS_LISTED);
  changed = deed_end (&deed, error);
  if (changed == NULL || tallies->len == 0)
    return g_steal_pointer (&changed);

  return wb_job_without_many (changed, WB_KIND_TALLY, tallies, error);
}

/* --- marks ------------------------------------------------------------------------------------ */

static void
merge_marks (WbFinding  *finding,
             const char *more)
{
  g_auto (WbMarks) marks = wb_marks_from_text (finding->marks);
  g_auto (WbMarks) added = wb_marks_from_text (more);
  g_autofree char *text = NULL;

  wb_marks_add (&marks, &added);
  text = wb_marks_to_text (&marks);
  wb_set_text (&finding->marks, text);
}

/* While a count is under way a piece that is looked at is also counted. */
static void
count_looked_at (Deed       *deed,
                 const char *piece,
                 WbNewId     new_id)
{
  const WbPiece *record = wb_job_find (deed->job, WB_KIND_PIECE, piece);
  g_autoptr (GArray) tags = wb_tag_ranges_new ();
  g_autoptr (WbTallySheet) sheet = wb_tally_sheet_new (deed->job, deed->handover->record.id);

  if (deed->handover->count != WB_COUNT_UNDER_WAY || wb_tally_sheet_unreadable (sheet) != NULL
      || record->tag == WB_INTEGER_UNSET || record->tag == 0)
    return;

  wb_tag_ranges_add (tags, record->tag, record->tag);
  add_tags (deed, record->lot, tags, new_id);
}

WbJob *
wb_count_note_marks (WbJob       *job,
                     const char  *handover,
                     const char  *piece,
                     const char  *marks,
                     WbNewId      new_id,
                     GError     **error)
{
  g_auto (Deed) deed = deed_begin (job, handover);
  const WbFinding *finding;

  if (deed.handover == NULL || wb_job_find (job, WB_KIND_PIECE, piece) == NULL)
    {
      refuse (error, "There is no such handover or piece");
      return NULL;
    }

  finding = find_finding (&deed, piece);
  if (finding != NULL && finding->found == WB_FOUND_SHORT)
    {
      refuse (error, "The piece is noted as short at this handover; count it before noting marks "
                     "on it");
      return NULL;
    }

  if (finding == NULL)
    make_finding (&deed, piece, WB_FOUND_PRESENT, marks, new_id);
  else
    merge_marks (deed_change (&deed, finding), marks);
  count_looked_at (&deed, piece, new_id);

  return deed_end (&deed, error);
}
