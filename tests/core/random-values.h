/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random values for the tests of this room. All come from g_test_rand_int(), so that a run is
 * repeated by giving the test program the --seed that it printed. */
#pragma once

#include <glib.h>

#include <string.h>

/* To be called first in a case with random values. GLib prints the seed of the run; the first
 * number tells whether another run went the same way. */
static inline void
random_begin (void)
{
  g_test_message ("random values: first number %d, repeat with the --seed printed at the top",
                  g_test_rand_int ());
}

/* An integer of any size; the ends of the range, 0 and powers of two come often. */
static inline gint64
random_int64 (void)
{
  guint64 bits = ((guint64) (guint32) g_test_rand_int () << 32) | (guint32) g_test_rand_int ();
  gint near = g_test_rand_int_range (-3, 4);

  switch (g_test_rand_int_range (0, 6))
    {
    case 0:
      return near;
    case 1:
      return near < 0 ? G_MAXINT64 + near + 1 : G_MININT64 + near;
    case 2:
      return (gint64) ((G_GUINT64_CONSTANT (1) << g_test_rand_int_range (0, 63)) + (guint64) near);
    case 3:
      return (gint64) bits;
    default:
      /* Every length is as likely. */
      return (gint64) bits >> g_test_rand_int_range (0, 64);
    }
}

/* 0 … @max, small numbers often. */
static inline gint64
random_natural (gint64 max)
{
  guint64 bits = ((guint64) (guint32) g_test_rand_int () << 32) | (guint32) g_test_rand_int ();

  bits >>= g_test_rand_int_range (0, 64);
  return (gint64) (max == G_MAXINT64 ? bits >> 1 : bits % ((guint64) max + 1));
}

/* Text of up to @max pieces out of @pieces, which is NULL-terminated, to be freed. */
static inline char *
random_text (const char *const *pieces,
             gint               max)
{
  GString *text = g_string_new (NULL);
  gint n_pieces = (gint) g_strv_length ((char **) pieces);

  for (gint n = g_test_rand_int_range (0, max + 1); n > 0; n--)
    g_string_append (text, pieces[g_test_rand_int_range (0, n_pieces)]);

  return g_string_free (text, FALSE);
}
