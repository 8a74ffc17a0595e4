/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about packing, each from what core worked out. Judges nothing. */
#include "config.h"

#include "office/wb-words-packing.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>
#include <inttypes.h>

/* --- rows ------------------------------------------------------------------------------------- */

char *
wb_words_packing_item (const WbPackingRow *row)
{
  g_return_val_if_fail (row != NULL, NULL);

  return g_strdup (row->entry != NULL ? row->entry->name : row->item);
}

char *
wb_words_packing_number (gint64 number)
{
  return number == WB_INTEGER_UNSET ? g_strdup ("–")
                                    : g_strdup_printf ("%" G_GINT64_FORMAT, number);
}

char *
wb_words_packing_difference (gint64 difference)
{
  if (difference == WB_INTEGER_UNSET)
    return g_strdup ("–");
  if (difference == 0)
    return g_strdup (_("as planned"));
  if (difference > 0)
    /* Translators: used more than planned. */
    return g_strdup_printf (_("%" PRId64 " more"), difference);
  /* Translators: used less than planned. */
  return g_strdup_printf (_("%" PRId64 " fewer"), -difference);
}

static char *
describe_number (const WbPackingTotals *totals,
                 WbForm                 form)
{
  switch (form)
    {
    case WB_FORM_CARTON:
      return g_strdup_printf (ngettext ("%u carton", "%u cartons", totals->n), totals->n);
    case WB_FORM_LOOSE:
      return g_strdup_printf (ngettext ("%u loose piece", "%u loose pieces", totals->n), totals->n);
    case WB_FORM_CRATE:
      return g_strdup_printf (ngettext ("%u crate", "%u crates", totals->n), totals->n);
    }
  g_return_val_if_reached (NULL);
}

char *
wb_words_packing_totals (const WbPackingTotals *totals,
                         WbForm                 form)
{
  g_autofree char *number = NULL;
  g_autoptr (GString) text = NULL;

  g_return_val_if_fail (totals != NULL, NULL);

  number = describe_number (totals, form);
  text = g_string_new (number);
  if (wb_volume_is_set (totals->volume))
    {
      g_autofree char *volume = wb_words_volume (totals->volume);

      g_string_append_printf (text, ", %s", volume);
    }
  if (totals->n > 0 && totals->n_without_volume > 0)
    /* Translators: behind a volume in a list. */
    g_string_append_printf (text, _(" (%u without a volume)"), totals->n_without_volume);
  if (wb_weight_is_set (totals->weight))
    {
      g_autofree char *weight = wb_words_weight (totals->weight);

      g_string_append_printf (text, ", %s", weight);
    }
  if (totals->n_usual_weight > 0)
    /* Translators: behind a weight in a list: for how many pieces the usual weight was taken. */
    g_string_append_printf (text, _(" (%u by usual weight)"), totals->n_usual_weight);
  if (totals->n > 0 && totals->n_without_weight > 0)
    /* Translators: behind a weight in a list. */
    g_string_append_printf (text, _(" (%u without a weight)"), totals->n_without_weight);

  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* --- checks ----------------------------------------------------------------------------------- */

static void
add_count (GString    *text,
           guint       n,
           const char *format)
{
  if (n == 0)
    return;
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append_printf (text, "%u %s", n, format);
}

char *
wb_words_packing_counts (WbPackingCounts counts)
{
  guint all = counts.met + counts.unmet + counts.open;
  g_autoptr (GString) text = g_string_new (NULL);

  if (all == 0)
    return g_strdup (_("No checks"));
  if (counts.met == all)
    return g_strdup_printf (ngettext ("%u met", "All %u met", all), all);

  /* Translators: behind a number of packing checks. */
  add_count (text, counts.met, _("met"));
  /* Translators: behind a number of packing checks. */
  add_count (text, counts.unmet, _("unmet"));
  /* Translators: behind a number of packing checks. */
  add_count (text, counts.open, _("not looked at"));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
wb_words_packing_check (const WbPackingState *state)
{
  g_return_val_if_fail (state != NULL, NULL);

  if (state->check != NULL)
    return g_strdup (state->check->name);
  /* Translators: %s is the short name of a packing check that the catalogue has no longer. */
  return g_strdup_printf (_("“%s”, no longer in the catalogue"), state->rule);
}

/* Returns: (transfer full) (nullable): who looked and when. */
static char *
describe_look (const WbPackingCheck *record)
{
  g_autofree char *on = NULL;

  if (wb_date_is_set (&record->on))
    on = wb_words_date (&record->on);
  if (record->by != NULL && on != NULL)
    /* Translators: a name, a date. */
    return g_strdup_printf (_("looked at by %s, %s"), record->by, on);
  if (record->by != NULL)
    /* Translators: a name. */
    return g_strdup_printf (_("looked at by %s"), record->by);
  if (on != NULL)
    /* Translators: a date. */
    return g_strdup_printf (_("looked at on %s"), on);
  return NULL;
}

char *
wb_words_packing_state (const WbPackingState *state)
{
  g_autoptr (GString) text = NULL;
  g_autofree char *look = NULL;

  g_return_val_if_fail (state != NULL, NULL);

  if (state->state == WB_CHECK_OPEN || state->record == NULL)
    return g_strdup (_("Not looked at"));

  text = g_string_new (state->state == WB_CHECK_MET ? _("Met") : _("Unmet"));
  look = describe_look (state->record);
  if (look != NULL)
    g_string_append_printf (text, " (%s)", look);
  if (state->record->notes != NULL)
    g_string_append_printf (text, ": %s", state->record->notes);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* --- evidence --------------------------------------------------------------------------------- */

static char *
describe_people (const WbPiece *piece)
{
  const char *packer = piece->packer != NULL ? piece->packer : _("nobody named");

  if (piece->checked_by != NULL)
    /* Translators: two names. */
    return g_strdup_printf (_("Packed by %s, looked at by %s"), packer, piece->checked_by);
  /* Translators: a name. */
  return g_strdup_printf (_("Packed by %s; nobody is noted as having looked at it"), packer);
}

GPtrArray *
wb_words_packing_evidence (const WbPacking *packing,
                           const WbPiece   *piece)
{
  g_autoptr (GPtrArray) sentences = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) states = NULL;

  g_return_val_if_fail (packing != NULL && piece != NULL, NULL);

  states = wb_packing_states (packing, piece);
  if (states->len == 0)
    return g_steal_pointer (&sentences);

  g_ptr_array_add (sentences, describe_people (piece));
  g_ptr_array_add (sentences, wb_words_packing_counts (wb_packing_counts (packing, piece)));
  for (guint i = 0; i < states->len; i++)
    {
      const WbPackingState *state = g_ptr_array_index (states, i);
      g_autofree char *check = NULL;
      g_autofree char *words = NULL;

      if (state->state == WB_CHECK_MET)
        continue;
      check = wb_words_packing_check (state);
      words = wb_words_packing_state (state);
      /* Translators: a packing check, how it was kept. */
      g_ptr_array_add (sentences, g_strdup_printf (_("%s: %s"), check, words));
    }
  return g_steal_pointer (&sentences);
}

/* --- lifting ---------------------------------------------------------------------------------- */

char *
wb_words_lift_short (WbLift   lift,
                     WbWeight weight)
{
  g_autofree char *words = NULL;

  if (lift == WB_LIFT_NONE)
    return NULL;

  words = wb_words_weight (weight);
  return g_strdup_printf (lift == WB_LIFT_WEIGHT
                          /* Translators: a caution of lifting, with a weight. */
                          ? _("Heavy: %s")
                          /* Translators: as before, when only the usual weight is known. */
                          : _("Heavy: usually %s"),
                          words);
}

char *
wb_words_lift (WbLift                lift,
               WbWeight              weight,
               const WbCatalogEntry *entry,
               WbWeight              threshold)
{
  g_autofree char *words = NULL;
  g_autofree char *from = NULL;
  g_autofree char *what = NULL;

  if (lift == WB_LIFT_NONE)
    return NULL;

  words = wb_words_weight (weight);
  from = wb_words_weight (threshold);
  if (lift == WB_LIFT_USUAL_WEIGHT && entry != NULL)
    /* Translators: what it is, its usual weight, where that comes from. */
    what = g_strdup_printf (_("%s usually weighs %s (%s)."), entry->name, words,
                            entry->source[WB_CATALOG_WEIGHT]);
  else
    /* Translators: a weight. */
    what = g_strdup_printf (_("This weighs %s."), words);

  /* Translators: a sentence about the weight, the weight set in the preferences. */
  return g_strdup_printf (_("Heavy to lift. %s Take two people or a hand truck. The caution is set "
                            "to %s; NIOSH reckons from 51 lb (23 kg) in the best posture, and no "
                            "OSHA rule names a limit."),
                          what, from);
}
