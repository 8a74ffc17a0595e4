/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finding pieces by what a person types. Plain functions on a job; no widget. */
#define G_LOG_DOMAIN "wb-desk"
#include "config.h"

#include "desk/claim/wb-piece-lookup.h"

#include <glib/gi18n.h>

#include "office/wb-words.h"

typedef enum
{
  MATCH_NONE,
  MATCH_WORDS,     /* every word is somewhere on the piece */
  MATCH_START,     /* its tag starts with the text */
  MATCH_EXACT,     /* its tag is the text */
} Match;

/* The ways to write a piece's tag, folded. */
typedef struct
{
  char *full;      /* "blue 204-017" */
  char *lot;       /* "204-17", nullable */
  char *padded;    /* "204-017", nullable */
  char *plain;     /* "17", nullable */
} TagNames;

static void
tag_names_clear (TagNames *names)
{
  g_clear_pointer (&names->full, g_free);
  g_clear_pointer (&names->lot, g_free);
  g_clear_pointer (&names->padded, g_free);
  g_clear_pointer (&names->plain, g_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (TagNames, tag_names_clear)

static char *
fold (const char *text)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));

  return g_utf8_casefold (stripped, -1);
}

static void
tag_names_init (TagNames      *names,
                const WbJob   *job,
                const WbPiece *piece)
{
  const WbLot *lot = wb_job_find (job, WB_KIND_LOT, piece->lot);
  g_autofree char *full = NULL;

  if (piece->tag == WB_INTEGER_UNSET)
    return;

  full = wb_words_tag (job, piece);
  names->full = fold (full);
  names->plain = g_strdup_printf ("%" G_GINT64_FORMAT, piece->tag);
  if (lot != NULL && lot->number != NULL)
    {
      g_autofree char *number = fold (lot->number);

      names->lot = g_strdup_printf ("%s-%" G_GINT64_FORMAT, number, piece->tag);
      names->padded = g_strdup_printf ("%s-%03" G_GINT64_FORMAT, number, piece->tag);
    }
}

static gboolean
is_any (const TagNames *names,
        const char     *text)
{
  return g_strcmp0 (names->full, text) == 0 || g_strcmp0 (names->lot, text) == 0
         || g_strcmp0 (names->padded, text) == 0 || g_strcmp0 (names->plain, text) == 0;
}

static gboolean
starts (const char *name,
        const char *text)
{
  return name != NULL && g_str_has_prefix (name, text);
}

static gboolean
starts_any (const TagNames *names,
            const char     *text)
{
  return starts (names->full, text) || starts (names->lot, text) || starts (names->padded, text)
         || starts (names->plain, text);
}

static gboolean
has_all_words (const TagNames *names,
               const WbPiece  *piece,
               const char     *text)
{
  g_auto (GStrv) words = g_strsplit_set (text, " \t", -1);
  g_autofree char *all = g_strjoin (" ",
                                    names->full != NULL ? names->full : "",
                                    piece->description != NULL ? piece->description : "",
                                    piece->contents != NULL ? piece->contents : "",
                                    piece->room != NULL ? piece->room : "", NULL);
  g_autofree char *folded = g_utf8_casefold (all, -1);

  for (gsize i = 0; words[i] != NULL; i++)
    if (strstr (folded, words[i]) == NULL)
      return FALSE;

  return TRUE;
}

static Match
match_piece (const WbJob   *job,
             const WbPiece *piece,
             const char    *folded)
{
  g_auto (TagNames) names = { NULL };

  tag_names_init (&names, job, piece);
  if (*folded == '\0')
    return MATCH_WORDS;
  if (is_any (&names, folded))
    return MATCH_EXACT;
  if (starts_any (&names, folded))
    return MATCH_START;

  return has_all_words (&names, piece, folded) ? MATCH_WORDS : MATCH_NONE;
}

GPtrArray *
wb_piece_lookup (const WbJob *job,
                 const char  *text,
                 guint        limit)
{
  GPtrArray *found = g_ptr_array_new ();
  g_autoptr (GPtrArray) starting = g_ptr_array_new ();
  g_autoptr (GPtrArray) others = g_ptr_array_new ();
  g_autofree char *folded = fold (text);
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      gpointer piece = (gpointer) wb_job_nth (job, WB_KIND_PIECE, i);

      switch (match_piece (job, piece, folded))
        {
        case MATCH_NONE:
          break;
        case MATCH_WORDS:
          g_ptr_array_add (others, piece);
          break;
        case MATCH_START:
          g_ptr_array_add (starting, piece);
          break;
        case MATCH_EXACT:
          g_ptr_array_add (found, piece);
          break;
        }
    }

  g_ptr_array_extend (found, starting, NULL, NULL);
  g_ptr_array_extend (found, others, NULL, NULL);
  if (found->len > limit)
    g_ptr_array_set_size (found, (gint) limit);

  return found;
}

const WbPiece *
wb_piece_lookup_exact (const WbJob *job,
                       const char  *text)
{
  g_autofree char *folded = fold (text);
  const WbPiece *only = NULL;
  guint n = wb_job_count (job, WB_KIND_PIECE);

  if (*folded == '\0')
    return NULL;

  for (guint i = 0; i < n; i++)
    {
      const WbPiece *piece = wb_job_nth (job, WB_KIND_PIECE, i);

      if (match_piece (job, piece, folded) != MATCH_EXACT)
        continue;
      if (only != NULL)
        return NULL;
      only = piece;
    }

  return only;
}

char *
wb_piece_summary (const WbPiece *piece)
{
  const char *what = piece->contents != NULL ? piece->contents : piece->description;

  if (what == NULL)
    what = piece->carton != NULL ? piece->carton : wb_words_enum (&wb_forms, piece->form);
  if (piece->room == NULL)
    return g_strdup (what);

  /* Translators: what a piece is, and the room that it came from. */
  return g_strdup_printf (_("%s · %s"), what, piece->room);
}
