/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The regimes that an office can use, and which of their editions governs an order. Which files
 * are read, and from where, is not known here. */
#include "config.h"

#include "core/wb-terms-private.h"

#include <string.h>

#include "core/wb-core.h"

struct _WbTermsSet
{
  gatomicrefcount references;
  GPtrArray      *editions;   /* WbTerms, by regime, then by first day */
};

WbTermsSet *
wb_terms_set_new (void)
{
  WbTermsSet *self = g_new0 (WbTermsSet, 1);

  g_atomic_ref_count_init (&self->references);
  self->editions = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_terms_unref);
  return self;
}

WbTermsSet *
wb_terms_set_ref (WbTermsSet *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
wb_terms_set_unref (WbTermsSet *self)
{
  g_return_if_fail (self != NULL);

  if (!g_atomic_ref_count_dec (&self->references))
    return;
  g_ptr_array_unref (self->editions);
  g_free (self);
}

/* --- adding ----------------------------------------------------------------------------------- */

/* Postal codes of regions are written in either case. */
static gboolean
is_same_region (const char *a,
                const char *b)
{
  return a == NULL || b == NULL ? a == b : g_ascii_strcasecmp (a, b) == 0;
}

static gboolean
check_apart (const WbTerms *before,
             const WbTerms *added,
             GError       **error)
{
  g_autofree char *days = NULL;

  if (g_str_equal (before->regime, added->regime))
    return wb_terms_fail (error, added->file, added->line,
                          "the regime “%s” is in %s:%u already; expected another “regime”, or only "
                          "one of the two files",
                          added->regime, before->file, before->line);
  if (added->move_type == WB_MOVE_NONE || added->move_type != before->move_type
      || !is_same_region (added->region, before->region) || !wb_terms_days_overlap (added, before))
    return TRUE;

  days = wb_terms_days_to_text (before);
  return wb_terms_fail (error, added->file, added->line,
                        "for %s moves%s%s the regime “%s” in %s:%u governs pick-ups %s already; "
                        "expected days that do not overlap, or no “move-type”",
                        wb_enum_nick (&wb_move_types, (int) added->move_type),
                        added->region != NULL ? " in " : "",
                        added->region != NULL ? added->region : "", before->regime, before->file,
                        before->line, days);
}

static int
compare_editions (gconstpointer a,
                  gconstpointer b)
{
  const WbTerms *first = *(const WbTerms *const *) a;
  const WbTerms *second = *(const WbTerms *const *) b;
  int order = strcmp (first->regime, second->regime);

  return order != 0 ? order : wb_date_compare (&first->from, &second->from);
}

gboolean
wb_terms_set_add (WbTermsSet *self,
                  GPtrArray  *editions,
                  gboolean    replace,
                  GError    **error)
{
  g_autoptr (GPtrArray) merged = NULL;
  const WbTerms *added;

  g_return_val_if_fail (self != NULL, FALSE);
  g_return_val_if_fail (editions != NULL && editions->len > 0, FALSE);

  added = g_ptr_array_index (editions, 0);
  merged = g_ptr_array_new_with_free_func ((GDestroyNotify) wb_terms_unref);
  for (guint i = 0; i < self->editions->len; i++)
    {
      WbTerms *before = g_ptr_array_index (self->editions, i);

      if (!replace || !g_str_equal (before->regime, added->regime))
        g_ptr_array_add (merged, wb_terms_ref (before));
    }

  for (guint i = 0; i < merged->len; i++)
    for (guint j = 0; j < editions->len; j++)
      if (!check_apart (g_ptr_array_index (merged, i), g_ptr_array_index (editions, j), error))
        return FALSE;

  for (guint j = 0; j < editions->len; j++)
    g_ptr_array_add (merged, wb_terms_ref (g_ptr_array_index (editions, j)));
  g_ptr_array_sort (merged, compare_editions);

  g_ptr_array_unref (self->editions);
  self->editions = g_steal_pointer (&merged);
  return TRUE;
}

guint
wb_terms_set_count (const WbTermsSet *self)
{
  g_return_val_if_fail (self != NULL, 0);

  return self->editions->len;
}

WbTerms *
wb_terms_set_nth (const WbTermsSet *self,
                  guint             index)
{
  g_return_val_if_fail (self != NULL && index < self->editions->len, NULL);

  return g_ptr_array_index (self->editions, index);
}

/* --- finding ---------------------------------------------------------------------------------- */

/* @regime: (nullable): looked for when it is set, else @move_type and @region */
typedef struct
{
  const char *regime;
  WbMoveType  move_type;
  const char *region;
} Wanted;

static gboolean
is_wanted (const WbTerms *terms,
           const Wanted  *wanted)
{
  if (wanted->regime != NULL)
    return g_str_equal (terms->regime, wanted->regime);
  return terms->move_type == wanted->move_type && is_same_region (terms->region, wanted->region);
}

static gboolean
governs (const WbTerms *terms,
         const GDate   *day)
{
  return wb_date_compare (&terms->from, day) <= 0
         && (!wb_date_is_set (&terms->until) || wb_date_compare (day, &terms->until) <= 0);
}

/* @known: (out): how many editions are wanted, whatever the day
 * Returns: (nullable): the wanted edition that governs @day */
static WbTerms *
search (const WbTermsSet *self,
        const Wanted     *wanted,
        const GDate      *day,
        guint            *known)
{
  WbTerms *found = NULL;

  *known = 0;
  for (guint i = 0; i < self->editions->len; i++)
    {
      WbTerms *terms = g_ptr_array_index (self->editions, i);

      if (!is_wanted (terms, wanted))
        continue;
      (*known)++;
      if (governs (terms, day))
        found = terms;
    }
  return found;
}

static char *
name_wanted (const Wanted *wanted)
{
  const char *nick = wb_enum_nick (&wb_move_types, (int) wanted->move_type);

  if (wanted->regime != NULL)
    return g_strdup_printf ("of the regime “%s”", wanted->regime);
  if (wanted->region != NULL)
    return g_strdup_printf ("for %s moves in %s", nick, wanted->region);
  return g_strdup_printf ("for %s moves", nick);
}

static void
set_not_found (GError          **error,
               const WbTermsSet *self,
               const Wanted     *wanted,
               const GDate      *day)
{
  g_autofree char *name = name_wanted (wanted);
  g_autofree char *date = wb_date_to_text (day);
  g_autoptr (GString) others = g_string_new (NULL);

  for (guint i = 0; i < self->editions->len; i++)
    {
      const WbTerms *terms = g_ptr_array_index (self->editions, i);

      if (is_wanted (terms, wanted))
        {
          g_autofree char *days = wb_terms_days_to_text (terms);

          g_string_append_printf (others, "%s%s", others->len > 0 ? ", " : "", days);
        }
    }
  if (others->len == 0)
    g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS, "there are no terms %s", name);
  else
    g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_TERMS,
                 "no terms %s govern a pick-up on %s; there are some %s", name, date, others->str);
}

WbTerms *
wb_terms_set_find (const WbTermsSet *self,
                   const WbOrder    *order,
                   GError          **error)
{
  const GDate *day;

  g_return_val_if_fail (self != NULL && order != NULL, NULL);

  day = wb_date_is_set (&order->picked_up_on) ? &order->picked_up_on : &order->pickup_from;
  return wb_terms_set_find_for (self, order->terms, order->move_type, order->region, day, error);
}

WbTerms *
wb_terms_set_find_for (const WbTermsSet *self,
                       const char       *regime,
                       WbMoveType        move_type,
                       const char       *region,
                       const GDate      *day,
                       GError          **error)
{
  Wanted wanted = { regime, move_type, region };
  WbTerms *found;
  guint known;

  g_return_val_if_fail (self != NULL && day != NULL, NULL);

  if (regime == NULL && move_type == WB_MOVE_NONE)
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "the order has neither a type of move nor a choice of terms");
      return NULL;
    }
  if (!wb_date_is_set (day))
    {
      g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING,
                   "the order has no day of pick-up, neither actual nor agreed");
      return NULL;
    }

  found = search (self, &wanted, day, &known);
  if (known == 0 && regime == NULL && region != NULL)
    {
      Wanted anywhere = { NULL, move_type, NULL };

      found = search (self, &anywhere, day, &known);
      if (known > 0)
        wanted = anywhere;
    }

  if (found == NULL)
    set_not_found (error, self, &wanted, day);
  return found;
}
