/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the pieces that typed or scanned numbers mean. Counts nothing and changes no job. */
#include "config.h"

#include "core/wb-count-entry.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-mark.h"
#include "core/wb-tag-scan.h"
#include "core/wb-tally.h"
#include "core/wb-text.h"

/* Pieces of one lot, or those without one, as a place where a number may belong. */
typedef struct
{
  const WbLot *lot;
  GArray      *listed;
  WbCountPart *part;    /* of the entry being read; NULL until something is put in */
} Group;

typedef struct
{
  const WbJob  *job;
  GPtrArray    *groups;
  WbCountEntry *entry;
} Reader;

static void
part_free (gpointer data)
{
  WbCountPart *part = data;

  g_array_unref (part->listed);
  g_array_unref (part->strays);
  g_free (part);
}

void
wb_count_entry_free (WbCountEntry *self)
{
  g_ptr_array_unref (self->parts);
  g_free (self);
}

static WbCountEntry *
entry_new (void)
{
  WbCountEntry *entry = g_new0 (WbCountEntry, 1);

  entry->parts = g_ptr_array_new_with_free_func (part_free);
  return entry;
}

static WbCountPart *
add_part (WbCountEntry *entry,
          const WbLot  *lot)
{
  WbCountPart *part = g_new0 (WbCountPart, 1);

  part->lot = lot;
  part->listed = wb_tag_ranges_new ();
  part->strays = wb_tag_ranges_new ();
  g_ptr_array_add (entry->parts, part);
  return part;
}

char *
wb_count_lot_name (const WbLot *lot)
{
  if (lot == NULL)
    return g_strdup ("");
  if (lot->number == NULL)
    return g_strdup (lot->colour);
  if (lot->colour == NULL)
    return g_strdup (lot->number);

  return g_strdup_printf ("%s %s", lot->colour, lot->number);
}

static char *
name_group (const Group *group)
{
  return group->lot != NULL ? wb_count_lot_name (group->lot) : g_strdup ("no lot");
}

/* --- lots ------------------------------------------------------------------------------------- */

static void
group_free (gpointer data)
{
  Group *group = data;

  g_array_unref (group->listed);
  g_free (group);
}

static void
add_group (Reader      *self,
           const WbLot *lot)
{
  Group *group = g_new0 (Group, 1);

  group->lot = lot;
  group->listed = wb_tally_listed_tags (self->job, lot != NULL ? lot->record.id : NULL);
  if (lot == NULL && group->listed->len == 0)
    group_free (group);
  else
    g_ptr_array_add (self->groups, group);
}

static gboolean
text_matches (const char *text,
              const char *written)
{
  g_autofree char *a = NULL;
  g_autofree char *b = NULL;

  if (text == NULL)
    return FALSE;

  a = g_utf8_casefold (text, -1);
  b = g_utf8_casefold (written, -1);
  return g_str_equal (a, b);
}

/* @written is "teal", "3107" or "teal/3107". */
static gboolean
group_matches (const Group *group,
               const char  *written)
{
  g_autofree char *both = NULL;

  if (group->lot == NULL)
    return text_matches ("no lot", written);
  if (text_matches (group->lot->colour, written) || text_matches (group->lot->number, written))
    return TRUE;
  if (group->lot->colour == NULL || group->lot->number == NULL)
    return FALSE;

  both = g_strconcat (group->lot->colour, "/", group->lot->number, NULL);
  return text_matches (both, written);
}

static char *
list_groups (const Reader *self)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < self->groups->len; i++)
    {
      g_autofree char *name = name_group (g_ptr_array_index (self->groups, i));

      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", name);
    }
  return g_string_free (text, FALSE);
}

static Group *
find_named (const Reader     *self,
            const WbTagItem  *item,
            GError          **error)
{
  g_autofree char *quoted = wb_text_quote (item->lot, -1);
  g_autofree char *names = NULL;
  Group *found = NULL;

  for (guint i = 0; i < self->groups->len; i++)
    {
      Group *group = g_ptr_array_index (self->groups, i);

      if (!group_matches (group, item->lot))
        continue;
      if (found != NULL)
        {
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                       "Several lots are called %s; write the number of the lot too, as in “%s/%s "
                       "%" G_GINT64_FORMAT "”", quoted, found->lot->colour,
                       found->lot->number != NULL ? found->lot->number : "…", item->first);
          return NULL;
        }
      found = group;
    }

  if (found == NULL)
    {
      names = list_groups (self);
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                   "There is no lot %s; the lots of the job are: %s", quoted, names);
    }
  return found;
}

/* "3107-017", also behind the colour: the number of a lot, and one of its tags. */
static Group *
find_printed (const Reader    *self,
              const WbTagItem *item)
{
  g_autofree char *number = g_strdup_printf ("%" G_GINT64_FORMAT, item->first);

  if (!item->range || item->first <= item->last)
    return NULL;

  for (guint i = 0; i < self->groups->len; i++)
    {
      Group *group = g_ptr_array_index (self->groups, i);

      if (group->lot != NULL && g_strcmp0 (group->lot->number, number) == 0
          && (item->lot == NULL || group_matches (group, item->lot)))
        return group;
    }
  return NULL;
}

static gboolean
meets (const GArray *listed,
       gint64        first,
       gint64        last)
{
  g_autoptr (GArray) asked = wb_tag_ranges_new ();
  g_autoptr (GArray) common = NULL;

  wb_tag_ranges_add (asked, first, last);
  common = wb_tag_ranges_intersect (asked, listed);
  return common->len > 0;
}

static gboolean
is_on_roll (const Group *group,
            gint64       tag)
{
  return group->lot != NULL
         && group->lot->first != WB_INTEGER_UNSET && tag >= group->lot->first
         && group->lot->last != WB_INTEGER_UNSET && tag <= group->lot->last;
}

static Group *
fail_doubtful (const Group      *one,
               const Group      *other,
               const WbTagItem  *item,
               GError          **error)
{
  g_autofree char *first = name_group (one);
  g_autofree char *second = name_group (other);
  g_autofree char *example = g_strdup (one->lot != NULL ? one->lot->colour : "no lot");

  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
               "At character %" G_GSIZE_FORMAT ", %" G_GINT64_FORMAT " may be of %s or of %s; "
               "write the lot before it, as in “%s %" G_GINT64_FORMAT "”",
               item->position, item->first, first, second, example, item->first);
  return NULL;
}

/* The one group where the numbers of @item can belong. */
static Group *
find_by_numbers (const Reader     *self,
                 const WbTagItem  *item,
                 GError          **error)
{
  Group *listed = NULL;
  Group *on_roll = NULL;
  gboolean several_rolls = FALSE;

  for (guint i = 0; i < self->groups->len; i++)
    {
      Group *group = g_ptr_array_index (self->groups, i);

      if (meets (group->listed, item->first, item->last))
        {
          if (listed != NULL)
            return fail_doubtful (listed, group, item, error);
          listed = group;
        }
      if (is_on_roll (group, item->first))
        {
          several_rolls = several_rolls || on_roll != NULL;
          on_roll = group;
        }
    }

  if (listed != NULL)
    return listed;
  if (self->groups->len == 1)
    return g_ptr_array_index (self->groups, 0);
  if (on_roll != NULL && !several_rolls)
    return on_roll;

  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
               "At character %" G_GSIZE_FORMAT ", no piece has the tag %" G_GINT64_FORMAT "; to "
               "count it as an overage write its lot before it, as in “%s %" G_GINT64_FORMAT "”",
               item->position, item->first,
               ((const Group *) g_ptr_array_index (self->groups, 0))->lot != NULL
               ? ((const Group *) g_ptr_array_index (self->groups, 0))->lot->colour : "no lot",
               item->first);
  return NULL;
}

/* --- numbers ---------------------------------------------------------------------------------- */

static gboolean
fail_unlisted (const Group      *group,
               const WbTagItem  *item,
               const GArray     *listed,
               const GArray     *strays,
               GError          **error)
{
  g_autofree char *unlisted = wb_tag_ranges_to_text (strays);
  g_autofree char *good = wb_tag_ranges_to_text (listed);
  g_autofree char *name = name_group (group);

  if (listed->len == 0)
    g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                 "At character %" G_GSIZE_FORMAT ", no piece of %s has a tag from %" G_GINT64_FORMAT
                 " to %" G_GINT64_FORMAT "; count overages one by one", item->position, name,
                 item->first, item->last);
  else
    g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                 "At character %" G_GSIZE_FORMAT ", %" G_GINT64_FORMAT "-%" G_GINT64_FORMAT
                 " takes in numbers that no piece of %s has: %s; write %s, and each of the others "
                 "by itself if it was there", item->position, item->first, item->last, name,
                 unlisted, good);
  return FALSE;
}

static gboolean
put_in (Reader           *self,
        Group            *group,
        const WbTagItem  *item,
        gint64            first,
        gint64            last,
        GError          **error)
{
  g_autoptr (GArray) asked = wb_tag_ranges_new ();
  g_autoptr (GArray) listed = NULL;
  g_autoptr (GArray) strays = NULL;

  wb_tag_ranges_add (asked, first, last);
  listed = wb_tag_ranges_intersect (asked, group->listed);
  strays = wb_tag_ranges_subtract (asked, group->listed);
  if (last > first && strays->len > 0)
    return fail_unlisted (group, item, listed, strays, error);

  if (group->part == NULL)
    group->part = add_part (self->entry, group->lot);
  for (guint i = 0; i < listed->len; i++)
    wb_tag_ranges_add (group->part->listed, g_array_index (listed, WbTagRange, i).first,
                       g_array_index (listed, WbTagRange, i).last);
  for (guint i = 0; i < strays->len; i++)
    wb_tag_ranges_add (group->part->strays, g_array_index (strays, WbTagRange, i).first,
                       g_array_index (strays, WbTagRange, i).last);
  return TRUE;
}

static gboolean
read_item (Reader           *self,
           const WbTagItem  *item,
           GError          **error)
{
  Group *group = find_printed (self, item);

  if (group != NULL)
    return put_in (self, group, item, item->last, item->last, error);
  if (!wb_tag_item_check (item, error))
    return FALSE;

  group = item->lot != NULL ? find_named (self, item, error)
                            : find_by_numbers (self, item, error);
  return group != NULL && put_in (self, group, item, item->first, item->last, error);
}

/* --- scanned tags ----------------------------------------------------------------------------- */

/* Whether @text is the text of a printed tag, which names what it says, and not what hands type. */
static gboolean
is_scanned (const char *text)
{
  const char *start = wb_text_skip_space (text);

  return *start == '{' || (strchr (start, ':') != NULL && strchr (start, '?') != NULL);
}

static gboolean
read_scanned (Reader      *self,
              const char  *text,
              GError     **error)
{
  g_autoptr (WbTagScan) scan = wb_tag_scan_parse (text, error);
  WbTagItem item = { .position = 1 };
  Group *found = NULL;

  if (scan == NULL)
    return FALSE;
  if (!wb_tag_scan_fits_job (scan, self->job))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "This tag belongs to job %s, not to this one; it was not counted", scan->job);
      return FALSE;
    }

  item.first = item.last = scan->tag;
  for (guint i = 0; i < self->groups->len; i++)
    {
      Group *group = g_ptr_array_index (self->groups, i);

      if (!wb_tag_scan_fits_lot (scan, group->lot))
        continue;
      if (found != NULL)
        return fail_doubtful (found, group, &item, error) != NULL;
      found = group;
    }
  if (found == NULL)
    {
      g_autofree char *names = list_groups (self);

      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "This tag is of a lot that the job does not have; its lots are: %s", names);
      return FALSE;
    }
  return put_in (self, found, &item, scan->tag, scan->tag, error);
}

static gboolean
read_typed (Reader      *self,
            const char  *text,
            GError     **error)
{
  g_autoptr (GPtrArray) items = wb_tag_items_parse (text, TRUE, error);

  if (items == NULL)
    return FALSE;
  if (items->len > 0 && self->groups->len == 0)
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                           "No piece of the inventory has a tag number; count each in the list of "
                           "what is left");
      return FALSE;
    }

  for (guint i = 0; i < items->len; i++)
    if (!read_item (self, g_ptr_array_index (items, i), error))
      return FALSE;
  return TRUE;
}

WbCountEntry *
wb_count_entry_read (const WbJob  *job,
                     const char   *text,
                     GError      **error)
{
  g_autoptr (GPtrArray) groups = g_ptr_array_new_with_free_func (group_free);
  g_autoptr (WbCountEntry) entry = entry_new ();
  Reader reader = { .job = job, .groups = groups, .entry = entry };

  if (wb_job_count (job, WB_KIND_PIECE) == 0)
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                           "The inventory has no pieces yet; enter them before counting");
      return NULL;
    }

  for (guint i = 0; i < wb_job_count (job, WB_KIND_LOT); i++)
    add_group (&reader, wb_job_nth (job, WB_KIND_LOT, i));
  add_group (&reader, NULL);
  if (!(is_scanned (text) ? read_scanned (&reader, text, error)
                          : read_typed (&reader, text, error)))
    return NULL;

  for (guint i = 0; i < entry->parts->len; i++)
    {
      const WbCountPart *part = g_ptr_array_index (entry->parts, i);

      entry->n_listed += wb_tag_ranges_count (part->listed);
      entry->n_strays += wb_tag_ranges_count (part->strays);
    }
  return g_steal_pointer (&entry);
}

WbCountEntry *
wb_count_entry_for_piece (const WbJob   *job,
                          const WbPiece *piece)
{
  WbCountEntry *entry;

  if (piece->tag == WB_INTEGER_UNSET || piece->tag == 0)
    return NULL;

  entry = entry_new ();
  wb_tag_ranges_add (add_part (entry, wb_job_find (job, WB_KIND_LOT, piece->lot))->listed,
                     piece->tag, piece->tag);
  entry->n_listed = 1;
  return entry;
}

/* --- one piece -------------------------------------------------------------------------------- */

static const WbPiece *
find_tagged (const WbJob  *job,
             const char   *lot,
             gint64        tag,
             GError      **error)
{
  const WbPiece *found = NULL;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PIECE); i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (piece->tag != tag || g_strcmp0 (piece->lot, lot) != 0)
        continue;
      if (found != NULL)
        {
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                       "Two lines of the inventory have the tag %" G_GINT64_FORMAT "; put that "
                       "right in the inventory first", tag);
          return NULL;
        }
      found = piece;
    }
  return found;
}

const WbPiece *
wb_count_find_piece (const WbJob  *job,
                     const char   *text,
                     GError      **error)
{
  g_autoptr (WbCountEntry) entry = wb_count_entry_read (job, text, error);
  const WbCountPart *part;

  if (entry == NULL)
    return NULL;
  if (entry->n_listed + entry->n_strays != 1)
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "Write one tag number");
      return NULL;
    }

  part = g_ptr_array_index (entry->parts, 0);
  if (entry->n_strays == 1)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_RANGE,
                   "No piece of the inventory has the tag %" G_GINT64_FORMAT,
                   g_array_index (part->strays, WbTagRange, 0).first);
      return NULL;
    }
  return find_tagged (job, part->lot != NULL ? part->lot->record.id : NULL,
                      g_array_index (part->listed, WbTagRange, 0).first, error);
}

static gboolean
ends_tag (char c)
{
  return c == '\0' || g_ascii_isspace (c) || c == ':' || c == ',';
}

/* Whether @items are one tag: a number, or one joined to its lot's. */
static gboolean
is_one_tag (GPtrArray *items)
{
  const WbTagItem *item;

  if (items == NULL || items->len != 1)
    return FALSE;

  item = g_ptr_array_index (items, 0);
  return !item->range || item->first > item->last;
}

/* The end of the shortest beginning that reads as one tag, or NULL. A word alone does not, and
 * neither does a lot. */
static const char *
find_end_of_tag (const char *text)
{
  for (const char *end = text; ; end++)
    {
      g_autofree char *beginning = NULL;
      g_autoptr (GPtrArray) items = NULL;

      if (end > text && g_ascii_isdigit (end[-1]) && ends_tag (*end))
        {
          beginning = g_strndup (text, (gsize) (end - text));
          items = wb_tag_items_parse (beginning, TRUE, NULL);
          if (is_one_tag (items))
            return end;
        }
      if (*end == '\0')
        return NULL;
    }
}

gboolean
wb_count_marks_read (const WbJob    *job,
                     const char     *text,
                     const WbPiece **piece,
                     char          **marks,
                     GError        **error)
{
  const char *end = strlen (text) <= WB_TAG_TEXT_MAX_BYTES && g_utf8_validate (text, -1, NULL)
                    ? find_end_of_tag (text) : NULL;
  g_autofree char *tag = NULL;
  g_auto (WbMarks) read = { NULL, 0 };
  const WbPiece *found;

  if (end == NULL)
    {
      g_set_error_literal (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                           "Write the tag number first, then the marks, as in “42 SC 4-8, BR 3”");
      return FALSE;
    }

  tag = g_strndup (text, (gsize) (end - text));
  found = wb_count_find_piece (job, tag, error);
  if (found == NULL)
    return FALSE;

  if (*end == ':' || *end == ',')
    end++;
  if (!wb_marks_parse (end, &read, error))
    return FALSE;
  if (read.n_marks == 0)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "Write the marks behind the tag, as in “%s SC 4-8”", tag);
      return FALSE;
    }

  *piece = found;
  *marks = wb_marks_to_text (&read);
  return TRUE;
}
