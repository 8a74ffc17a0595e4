/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for the records that the order page lists. Pure: from a record to a text. */
#include "config.h"

#include "desk/order/wb-record-words.h"

#include "office/wb-words.h"

#include <glib/gi18n.h>

static void
append (GString    *text,
        const char *separator,
        const char *part)
{
  if (part == NULL || *part == '\0')
    return;
  if (text->len > 0)
    g_string_append (text, separator);
  g_string_append (text, part);
}

static char *
take (GString *text)
{
  return g_string_free (text, FALSE);
}

/* --- parties ---------------------------------------------------------------------------------- */

static char *
party_title (const WbParty *party)
{
  if (party->name != NULL)
    return g_strdup (party->name);
  if (party->company != NULL)
    return g_strdup (party->company);

  return g_strdup (party->role == WB_ROLE_NONE ? _("New party")
                                               : wb_words_enum (&wb_roles, party->role));
}

static char *
party_subtitle (const WbParty *party)
{
  GString *text = g_string_new (NULL);

  if (party->role != WB_ROLE_NONE)
    append (text, " · ", wb_words_enum (&wb_roles, party->role));
  if (party->name != NULL)
    append (text, " · ", party->company);
  append (text, " · ", party->phone);
  return take (text);
}

/* --- stops ------------------------------------------------------------------------------------ */

static char *
stop_title (const WbStop *stop)
{
  GString *text = g_string_new (NULL);

  append (text, ", ", stop->city);
  append (text, ", ", stop->region);
  if (text->len == 0)
    append (text, "", stop->name != NULL ? stop->name
                                         : wb_words_enum (&wb_stop_kinds, (int) stop->kind));
  return take (text);
}

static char *
stop_subtitle (const WbStop *stop)
{
  GString *text = g_string_new (NULL);
  g_autofree char *date = wb_date_is_set (&stop->on) ? wb_words_date (&stop->on) : NULL;

  append (text, " · ", wb_words_enum (&wb_stop_kinds, (int) stop->kind));
  append (text, " · ", stop->street);
  append (text, " · ", date);
  return take (text);
}

/* --- weighings -------------------------------------------------------------------------------- */

static char *
weighing_title (const WbWeighing *weighing)
{
  const char *kind = weighing->kind == WB_WEIGHING_NONE
                     ? _("New weighing")
                     : wb_words_enum (&wb_weighing_kinds, (int) weighing->kind);
  g_autofree char *date = NULL;

  if (!wb_date_is_set (&weighing->on))
    return g_strdup (kind);

  date = wb_words_date (&weighing->on);
  /* Translators: a kind of weighing and its date. */
  return g_strdup_printf (_("%s of %s"), kind, date);
}

static char *
weighing_subtitle (const WbWeighing *weighing)
{
  GString *text = g_string_new (NULL);
  g_autofree char *weight = NULL;
  g_autofree char *net = NULL;

  if (wb_weight_is_set (weighing->net))
    {
      weight = wb_words_weight (weighing->net);
      /* Translators: %s is a weight. */
      net = g_strdup_printf (_("net %s"), weight);
    }
  append (text, " · ", net);
  append (text, " · ", weighing->scale);
  append (text, " · ", weighing->ticket);
  return take (text);
}

/* --- any -------------------------------------------------------------------------------------- */

static WbKind
kind_of (gconstpointer record)
{
  return ((const WbRecord *) record)->type->kind;
}

char *
wb_record_words_title (gconstpointer record)
{
  g_return_val_if_fail (record != NULL, NULL);

  if (kind_of (record) == WB_KIND_PARTY)
    return party_title (record);
  if (kind_of (record) == WB_KIND_STOP)
    return stop_title (record);

  g_return_val_if_fail (kind_of (record) == WB_KIND_WEIGHING, NULL);
  return weighing_title (record);
}

char *
wb_record_words_subtitle (gconstpointer record)
{
  g_return_val_if_fail (record != NULL, NULL);

  if (kind_of (record) == WB_KIND_PARTY)
    return party_subtitle (record);
  if (kind_of (record) == WB_KIND_STOP)
    return stop_subtitle (record);

  g_return_val_if_fail (kind_of (record) == WB_KIND_WEIGHING, NULL);
  return weighing_subtitle (record);
}

char *
wb_record_words_removal (gconstpointer record)
{
  g_autofree char *title = wb_record_words_title (record);

  /* Translators: %s is a person, a place or a weighing. */
  return g_strdup_printf (_("Remove %s"), title);
}

/* --- the weight that governs ------------------------------------------------------------------ */

static const char *
weight_format (WbWeightSource source)
{
  switch (source)
    {
    case WB_WEIGHT_SOURCE_NONE:
      return _("No weight is known yet.");
    case WB_WEIGHT_SOURCE_REWEIGH:
      /* Translators: %s is a weight. */
      return _("%s net, by the reweigh, which goes before the first weighing.");
    case WB_WEIGHT_SOURCE_WEIGHING:
      /* Translators: %s is a weight. */
      return _("%s net, by the weighing.");
    case WB_WEIGHT_SOURCE_CONSTRUCTIVE:
      /* Translators: %s is a weight. */
      return _("%s, the constructive weight noted; there is no weighing.");
    case WB_WEIGHT_SOURCE_VOLUME:
      /* Translators: %s is a weight. */
      return _("%s, reckoned from the volume; there is no weighing.");
    case WB_WEIGHT_SOURCE_ESTIMATE:
      /* Translators: %s is a weight. */
      return _("%s, by the estimate only; there is no weighing.");
    }

  g_assert_not_reached ();
}

char *
wb_record_words_weight (const WbJob *job,
                        WbWeight     per_cuft)
{
  WbWeight weight = WB_WEIGHT_UNSET;
  WbWeightSource source;
  g_autofree char *words = NULL;
  GString *text;

  g_return_val_if_fail (job != NULL, NULL);

  source = wb_job_shipment_weight (job, FALSE, per_cuft, &weight);
  words = wb_words_weight (weight);
  text = g_string_new (weight_format (source));
  g_string_replace (text, "%s", words, 1);
  return take (text);
}
