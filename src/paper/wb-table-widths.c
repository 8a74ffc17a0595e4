/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shares the width of a page out among the columns of a table: figures get what they need, texts
 * what is left, and none less than its longest word as long as that can be. */
#include "config.h"

#include "paper/wb-table-widths.h"

#include <string.h>

/* Only the longest cells of a column can be its widest; that many are measured. */
#define N_MEASURED 24

/* Shares of the whole width that no column asks for more than. */
#define WIDEST_WORD 0.3
#define WIDEST_TEXT 0.55

typedef struct
{
  double   natural;
  double   least;
  gboolean is_figure;
} Column;

typedef struct
{
  const char *text;
  WbFace      face;
  glong       length;
} Longest;

static WbFace
face_of (WbRowKind kind)
{
  switch (kind)
    {
    case WB_ROW_HEAD:
      return WB_FACE_HEAD;
    case WB_ROW_TOTAL:
    case WB_ROW_GROUP:
      return WB_FACE_TOTAL;
    case WB_ROW_NOTE:
      return WB_FACE_NOTE;
    case WB_ROW_PLAIN:
      return WB_FACE_CELL;
    }
  g_assert_not_reached ();
}

static int
compare_longest (gconstpointer a,
                 gconstpointer b)
{
  const Longest *x = a, *y = b;

  return (x->length < y->length) - (x->length > y->length);
}

static void
measure (WbType        *type,
         const WbBlock *table,
         guint          index,
         Column        *column)
{
  g_autoptr (GArray) cells = g_array_new (FALSE, FALSE, sizeof (Longest));

  for (guint i = 0; i < table->rows->len; i++)
    {
      const WbTableRow *row = g_ptr_array_index (table->rows, i);
      Longest cell;

      if (row->kind == WB_ROW_GROUP || row->kind == WB_ROW_NOTE)
        continue;
      cell.text = row->cells[index];
      cell.face = face_of (row->kind);
      cell.length = g_utf8_strlen (cell.text, -1);
      /* The name of the column always counts. */
      if (row->kind == WB_ROW_HEAD)
        cell.length = G_MAXLONG;
      g_array_append_val (cells, cell);
    }
  g_array_sort (cells, compare_longest);

  column->is_figure = table->alignment[index] == 'r';
  for (guint i = 0; i < MIN (cells->len, N_MEASURED); i++)
    {
      const Longest *cell = &g_array_index (cells, Longest, i);
      double natural = wb_type_natural (type, cell->face, cell->text);
      double least = wb_type_longest (type, cell->face, cell->text);

      column->natural = MAX (column->natural, natural);
      /* Figures are not broken; their heads may be. */
      column->least = MAX (column->least, column->is_figure && cell->face != WB_FACE_HEAD
                                          ? natural : least);
    }
}

/* What is left over goes to the texts, to each as to its own width; when there are none, to all. */
static void
widen (const Column *columns,
       gsize         n,
       double        left,
       double       *widths)
{
  gboolean texts = FALSE;
  double sum = 0;

  for (gsize i = 0; i < n; i++)
    texts = texts || !columns[i].is_figure;
  for (gsize i = 0; i < n; i++)
    if (!texts || !columns[i].is_figure)
      sum += widths[i];
  for (gsize i = 0; i < n && sum > 0; i++)
    if (!texts || !columns[i].is_figure)
      widths[i] += left * widths[i] / sum;
}

/* Gives figures, and texts that ask for no more than an equal part of what is left, all that they
 * need; the others share the rest, each at least as wide as its longest word. Returns: whether there
 * was room for that. */
static gboolean
fit (const Column *columns,
     gsize         n,
     double        available,
     double       *widths)
{
  gboolean settled[WB_TABLE_MAX_COLUMNS] = { FALSE };
  double left = available, least = 0, natural = 0;
  gsize n_left = n;
  gboolean goes_on = TRUE;

  while (goes_on)
    {
      double part = left / (double) MAX (n_left, 1);

      goes_on = FALSE;
      for (gsize i = 0; i < n; i++)
        if (!settled[i] && (columns[i].is_figure || columns[i].natural <= part))
          {
            settled[i] = TRUE;
            widths[i] = columns[i].natural;
            left -= widths[i];
            n_left--;
            goes_on = TRUE;
          }
    }
  for (gsize i = 0; i < n; i++)
    if (!settled[i])
      {
        least += columns[i].least;
        natural += columns[i].natural - columns[i].least;
      }
  if (least > left)
    return FALSE;
  for (gsize i = 0; i < n; i++)
    if (!settled[i])
      widths[i] = columns[i].least + (natural > 0 ? (left - least) *
                                                    (columns[i].natural - columns[i].least) / natural
                                                  : 0);
  return TRUE;
}

/* When there is too little room for all: every column gives way. */
static void
squeeze (const Column *columns,
         gsize         n,
         double        available,
         double       *widths)
{
  double natural = 0, least = 0;

  for (gsize i = 0; i < n; i++)
    {
      natural += columns[i].natural;
      least += columns[i].least;
    }
  for (gsize i = 0; i < n; i++)
    if (least <= available)
      widths[i] = columns[i].least + (available - least) *
                  (columns[i].natural - columns[i].least) / (natural - least);
    else
      widths[i] = available * columns[i].least / least;
}

void
wb_table_widths (WbType        *type,
                 const WbBlock *table,
                 double         available,
                 double        *widths)
{
  gsize n = strlen (table->alignment);
  Column columns[WB_TABLE_MAX_COLUMNS] = { { 0 } };
  double natural = 0;

  available -= WB_TABLE_GAP * (double) (n - 1);
  for (guint i = 0; i < n; i++)
    {
      measure (type, table, i, &columns[i]);
      /* One long text does not push all others together. */
      if (!columns[i].is_figure)
        columns[i].least = MIN (columns[i].least, available * WIDEST_WORD);
      columns[i].natural = MIN (columns[i].natural, MAX (columns[i].least, available * WIDEST_TEXT));
      /* A hair more than it needs, or rounding breaks the line. */
      columns[i].natural += 0.5;
      columns[i].least = MIN (columns[i].least + 0.5, columns[i].natural);
      natural += columns[i].natural;
      widths[i] = columns[i].natural;
    }

  if (natural <= available)
    widen (columns, n, available - natural, widths);
  else if (!fit (columns, n, available, widths))
    squeeze (columns, n, available, widths);
}
