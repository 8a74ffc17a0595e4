/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads and writes the words that number parts, and finds which pieces make an article or a set. */
#include "config.h"

#include "core/wb-parts.h"

#include <string.h>

/* A thing in more parts than this is read as no number of a part. */
#define PART_MAX 999

/* --- words ------------------------------------------------------------------------------------ */

/* Reads text from its end. */
typedef struct
{
  const char *start;
  const char *end;
} Tail;

static void
skip_space (Tail *tail)
{
  while (tail->end > tail->start && g_ascii_isspace (tail->end[-1]))
    tail->end--;
}

static gboolean
take_character (Tail       *tail,
                const char *characters)
{
  skip_space (tail);
  if (tail->end == tail->start || strchr (characters, tail->end[-1]) == NULL)
    return FALSE;
  tail->end--;
  skip_space (tail);
  return TRUE;
}

static gboolean
take_word (Tail       *tail,
           const char *word)
{
  gsize length = strlen (word);

  skip_space (tail);
  if ((gsize) (tail->end - tail->start) < length
      || g_ascii_strncasecmp (tail->end - length, word, length) != 0)
    return FALSE;
  if (tail->end - length > tail->start && g_ascii_isalnum (tail->end[-(gssize) length - 1]))
    return FALSE;
  tail->end -= length;
  skip_space (tail);
  return TRUE;
}

static gboolean
take_number (Tail   *tail,
             gint64 *number)
{
  const char *end;
  g_autofree char *digits = NULL;
  guint64 value;

  skip_space (tail);
  end = tail->end;
  while (tail->end > tail->start && g_ascii_isdigit (tail->end[-1]))
    tail->end--;
  digits = g_strndup (tail->end, (gsize) (end - tail->end));
  if (!g_ascii_string_to_unsigned (digits, 10, 1, PART_MAX, &value, NULL))
    return FALSE;
  *number = (gint64) value;
  return TRUE;
}

/* "part 2 of 4", "2 of 4", "2/4", "part 2"; a bare number is none. */
static gboolean
take_part (Tail   *tail,
           gint64 *part,
           gint64 *of)
{
  gint64 last;

  if (!take_number (tail, &last))
    return FALSE;
  if (take_word (tail, "of") || take_character (tail, "/"))
    {
      *of = last;
      if (!take_number (tail, part))
        return FALSE;
      take_word (tail, "part");
      return TRUE;
    }
  *part = last;
  *of = WB_INTEGER_UNSET;
  return take_word (tail, "part");
}

char *
wb_part_parse (const char *text,
               gint64     *part,
               gint64     *of)
{
  const char *whole = text != NULL ? text : "";
  Tail tail = { whole, whole + strlen (whole) };
  gboolean bracketed = take_character (&tail, ")");

  if (!take_part (&tail, part, of) || (bracketed && !take_character (&tail, "(")))
    {
      *part = WB_INTEGER_UNSET;
      *of = WB_INTEGER_UNSET;
      return g_strdup (whole);
    }
  while (take_character (&tail, ",;:-"))
    ;
  return g_strndup (tail.start, (gsize) (tail.end - tail.start));
}

char *
wb_part_to_text (const char *name,
                 gint64      part,
                 gint64      of)
{
  const char *comma = *name != '\0' ? ", " : "";

  if (of == WB_INTEGER_UNSET)
    return g_strdup_printf ("%s%spart %" G_GINT64_FORMAT, name, comma, part);
  return g_strdup_printf ("%s%spart %" G_GINT64_FORMAT " of %" G_GINT64_FORMAT, name, comma, part,
                          of);
}

/* --- groups ----------------------------------------------------------------------------------- */

void
wb_group_free (WbGroup *self)
{
  g_ptr_array_unref (self->pieces);
  g_array_unref (self->missing);
  g_free (self);
}

/* What the parts of one article say of themselves. */
typedef struct
{
  guint   times[PART_MAX + 1];   /* how often each number is named */
  gint64  highest;               /* largest number or number of parts named; 0 for none */
  gint64  of;                    /* number of parts; WB_INTEGER_UNSET as long as none says it */
  guint   n_numbered;
  gboolean disagree;
} Numbers;

static void
read_numbers (GPtrArray *pieces,
              Numbers   *numbers)
{
  memset (numbers, 0, sizeof *numbers);
  numbers->of = WB_INTEGER_UNSET;
  for (guint i = 0; i < pieces->len; i++)
    {
      const WbPiece *piece = g_ptr_array_index (pieces, i);
      gint64 part, of;
      g_autofree char *name = wb_part_parse (piece->description, &part, &of);

      if (part == WB_INTEGER_UNSET)
        continue;
      numbers->n_numbered++;
      numbers->times[part]++;
      numbers->highest = MAX (numbers->highest, part);
      if (of == WB_INTEGER_UNSET)
        continue;
      numbers->disagree |= numbers->of != WB_INTEGER_UNSET && numbers->of != of;
      numbers->of = of;
      numbers->highest = MAX (numbers->highest, of);
    }
}

static void
judge_article (WbGroup *group)
{
  Numbers numbers;

  read_numbers (group->pieces, &numbers);
  if (group->pieces->len < 2)
    group->faults |= WB_GROUP_ALONE;
  if (numbers.disagree)
    group->faults |= WB_GROUP_DISAGREE;
  if (numbers.n_numbered > 0 && numbers.n_numbered < group->pieces->len)
    group->faults |= WB_GROUP_UNNUMBERED;
  for (gint64 part = 1; part <= numbers.highest; part++)
    {
      if (numbers.times[part] > 1)
        group->faults |= WB_GROUP_REPEATED;
      if (numbers.times[part] > 0)
        continue;
      group->faults |= WB_GROUP_MISSING;
      g_array_append_val (group->missing, part);
    }
}

/* One tag may be on a pair: then it says how many things are under it. */
static void
judge_set (WbGroup *group)
{
  const WbPiece *piece = g_ptr_array_index (group->pieces, 0);

  if (group->pieces->len == 1 && (piece->quantity == WB_INTEGER_UNSET || piece->quantity < 2))
    group->faults |= WB_GROUP_ALONE;
}

static void
collect (GPtrArray   *groups,
         const WbJob *job,
         gboolean     sets)
{
  g_autoptr (GHashTable) by_name = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);
      char *name = sets ? piece->set : piece->article;
      WbGroup *group = name != NULL ? g_hash_table_lookup (by_name, name) : NULL;

      if (name == NULL)
        continue;
      if (group == NULL)
        {
          group = g_new0 (WbGroup, 1);
          group->name = name;
          group->is_set = sets;
          group->pieces = g_ptr_array_new ();
          group->missing = g_array_new (FALSE, FALSE, sizeof (gint64));
          g_ptr_array_add (groups, group);
          g_hash_table_insert (by_name, name, group);
        }
      g_ptr_array_add (group->pieces, (gpointer) piece);
    }
}

GPtrArray *
wb_groups_find (const WbJob *job)
{
  GPtrArray *groups = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_group_free);

  collect (groups, job, FALSE);
  collect (groups, job, TRUE);
  for (guint i = 0; i < groups->len; i++)
    {
      WbGroup *group = g_ptr_array_index (groups, i);

      if (group->is_set)
        judge_set (group);
      else
        judge_article (group);
    }
  return groups;
}

/* --- making parts ----------------------------------------------------------------------------- */

static gboolean
has_article (const WbJob   *job,
             const char    *name,
             const WbPiece *except)
{
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (g_strcmp0 (piece->article, name) == 0
          && !g_str_equal (piece->record.id, except->record.id))
        return TRUE;
    }
  return FALSE;
}

char *
wb_parts_name (const WbJob   *job,
               const WbPiece *piece)
{
  gint64 part, of;
  g_autofree char *what = wb_part_parse (piece->description, &part, &of);
  const char *base = *what != '\0' ? what : "article";
  char *name = g_strdup (base);

  for (guint i = 2; has_article (job, name, piece); i++)
    {
      g_free (name);
      name = g_strdup_printf ("%s %u", base, i);
    }
  return name;
}

static gint64
find_free (Numbers *numbers)
{
  gint64 part = 1;

  while (part < PART_MAX && numbers->times[part] > 0)
    part++;
  return part;
}

/* Numbers of which two are the same say nothing: all are given anew. */
static gboolean
are_repeated (const Numbers *numbers)
{
  for (gint64 part = 1; part <= numbers->highest; part++)
    if (numbers->times[part] > 1)
      return TRUE;
  return FALSE;
}

GPtrArray *
wb_parts_number (const WbJob *job,
                 const char  *article)
{
  GPtrArray *changed = g_ptr_array_new_with_free_func (wb_record_unref);
  g_autoptr (GPtrArray) pieces = g_ptr_array_new ();
  guint n = wb_job_count (job, WB_KIND_PIECE);
  Numbers numbers;
  gboolean anew;
  gint64 of;

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (g_strcmp0 (piece->article, article) == 0)
        g_ptr_array_add (pieces, (gpointer) piece);
    }
  if (pieces->len > PART_MAX)
    return changed;

  read_numbers (pieces, &numbers);
  anew = are_repeated (&numbers);
  of = MAX (numbers.highest, (gint64) pieces->len);
  if (anew)
    memset (numbers.times, 0, sizeof numbers.times);

  for (guint i = 0; i < pieces->len; i++)
    {
      const WbPiece *before = g_ptr_array_index (pieces, i);
      gint64 part, old_of;
      g_autofree char *name = wb_part_parse (before->description, &part, &old_of);
      g_autofree char *text = NULL;
      WbPiece *piece;

      if (anew || part == WB_INTEGER_UNSET)
        {
          part = find_free (&numbers);
          numbers.times[part]++;
        }
      text = wb_part_to_text (name, part, of);
      if (g_strcmp0 (text, before->description) == 0)
        continue;
      piece = wb_record_copy (before);
      wb_set_text (&piece->description, text);
      g_ptr_array_add (changed, piece);
    }
  return changed;
}
