/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Compares lists of marks, condition by condition and place by place. Who noted them, and when, is
 * not known here. */
#include "config.h"

#include "core/wb-mark-compare.h"

static const WbMark *
find_condition (const WbMarks *marks,
                guint          condition)
{
  for (gsize i = 0; i < marks->n_marks; i++)
    if (marks->marks[i].condition == condition)
      return &marks->marks[i];

  return NULL;
}

static gboolean
has_place (const WbMark *mark,
           guint8        place)
{
  for (guint i = 0; i < mark->n_places; i++)
    if (mark->places[i] == place)
      return TRUE;

  return FALSE;
}

/* The part of @noted that @known (nullable) does not say; FALSE when nothing remains. */
static gboolean
find_new_places (const WbMark *noted,
                 const WbMark *known,
                 WbMark       *out)
{
  *out = *noted;
  if (known == NULL)
    return TRUE;
  if (known->n_places == 0 || noted->n_places == 0)
    return FALSE;

  out->n_places = 0;
  for (guint i = 0; i < noted->n_places; i++)
    if (!has_place (known, noted->places[i]))
      out->places[out->n_places++] = noted->places[i];

  return out->n_places > 0;
}

static void
set_marks (WbMarks *out,
           GArray  *marks)
{
  out->n_marks = marks->len;
  out->marks = marks->len > 0 ? (WbMark *) (gpointer) g_array_steal (marks, NULL) : NULL;
}

void
wb_marks_find_new (const WbMarks *noted,
                   const WbMarks *known,
                   WbMarks       *out)
{
  g_autoptr (GArray) marks = g_array_new (FALSE, TRUE, sizeof (WbMark));

  for (gsize i = 0; i < noted->n_marks; i++)
    {
      const WbMark *mark = &noted->marks[i];
      WbMark rest;

      if (find_new_places (mark, find_condition (known, mark->condition), &rest))
        g_array_append_val (marks, rest);
    }

  set_marks (out, marks);
}

void
wb_marks_add (WbMarks       *self,
              const WbMarks *more)
{
  g_autoptr (GArray) marks = g_array_new (FALSE, TRUE, sizeof (WbMark));

  if (self->n_marks > 0)
    g_array_append_vals (marks, self->marks, (guint) self->n_marks);

  for (gsize i = 0; i < more->n_marks; i++)
    {
      const WbMark *added = &more->marks[i];
      WbMark *mine = NULL;

      for (guint j = 0; j < marks->len && mine == NULL; j++)
        if (g_array_index (marks, WbMark, j).condition == added->condition)
          mine = &g_array_index (marks, WbMark, j);

      if (mine == NULL)
        {
          g_array_append_vals (marks, added, 1);
          continue;
        }
      for (guint j = 0; j < added->n_places; j++)
        if (!has_place (mine, added->places[j]))
          mine->places[mine->n_places++] = added->places[j];
    }

  wb_marks_clear (self);
  set_marks (self, marks);
}

gboolean
wb_marks_is_empty (const WbMarks *self)
{
  return self->n_marks == 0;
}

WbMarks
wb_marks_from_text (const char *text)
{
  WbMarks marks = { NULL, 0 };

  if (text != NULL && !wb_marks_parse (text, &marks, NULL))
    return (WbMarks) { NULL, 0 };
  return marks;
}
