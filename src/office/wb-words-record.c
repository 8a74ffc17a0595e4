/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for records: from a record and its job to a text. Kinds that are listed as rows have a
 * title of their own; every other kind is named by some of its fields, which the table below
 * lists. */
#include "config.h"

#include "office/wb-words-record.h"

#include "office/wb-words-papers.h"
#include "office/wb-words-trail.h"
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

/* Returns: (transfer full) (nullable): the day, or the first and the last one of the window. */
static char *
window_of (const WbStop *stop)
{
  g_autofree char *first = wb_words_date (&stop->on);
  g_autofree char *last = wb_words_date (&stop->until);

  if (!wb_date_is_set (&stop->on))
    return NULL;
  if (!wb_date_is_set (&stop->until))
    return g_steal_pointer (&first);

  /* Translators: the first and the last day of a window. */
  return g_strdup_printf (_("%s to %s"), first, last);
}

static char *
stop_subtitle (const WbStop *stop)
{
  GString *text = g_string_new (NULL);
  g_autofree char *date = window_of (stop);

  append (text, " · ", wb_words_enum (&wb_stop_kinds, (int) stop->kind));
  append (text, " · ", stop->street);
  append (text, " · ", date);
  append (text, " · ", stop->hours);
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

/* --- papers ----------------------------------------------------------------------------------- */

static char *
paper_title (const WbPaper *paper)
{
  const char *kind = paper->kind == WB_PAPER_NONE ? _("New paper")
                                                  : wb_words_enum (&wb_paper_kinds,
                                                                   (int) paper->kind);

  if (paper->number == NULL)
    return g_strdup (kind);

  /* Translators: a kind of paper and its number. */
  return g_strdup_printf (_("%s %s"), kind, paper->number);
}

/* @format: with one %s for the date. */
static void
append_date (GString     *text,
             const char  *format,
             const GDate *date)
{
  g_autofree char *words = NULL;
  GString *part;

  if (!wb_date_is_set (date))
    return;

  words = wb_words_date (date);
  part = g_string_new (format);
  g_string_replace (part, "%s", words, 1);
  append (text, " · ", part->str);
  g_string_free (part, TRUE);
}

static void
append_signature (GString       *text,
                  const WbPaper *paper)
{
  g_autofree char *words = NULL;

  if (paper->signed_by != NULL && wb_date_is_set (&paper->signed_on))
    {
      g_autofree char *day = wb_words_date (&paper->signed_on);

      /* Translators: a person and a date. */
      words = g_strdup_printf (_("signed by %s on %s"), paper->signed_by, day);
    }
  else if (paper->signed_by != NULL)
    {
      /* Translators: a person. */
      words = g_strdup_printf (_("signed by %s"), paper->signed_by);
    }
  append (text, " · ", words);
}

static char *
paper_subtitle (const WbJob   *job,
                const WbPaper *paper)
{
  GString *text = g_string_new (NULL);
  WbKeep keep = wb_keep_paper (job, paper);
  g_autofree char *until = wb_words_keep (&keep);
  g_autofree char *filed = NULL;

  /* Translators: %s is a date. */
  append_date (text, _("made %s"), &paper->made_on);
  /* Translators: %s is a date. */
  append_date (text, _("given %s"), &paper->given_on);
  append_signature (text, paper);
  if (paper->filed != NULL)
    /* Translators: a place. */
    filed = g_strdup_printf (_("filed: %s"), paper->filed);
  append (text, " · ", filed);
  append (text, " · ", until);
  return take (text);
}

/* --- conversations ---------------------------------------------------------------------------- */

static char *
contact_title (const WbContact *contact)
{
  if (contact->subject != NULL)
    return g_strdup (contact->subject);
  if (contact->manner != WB_MANNER_NONE)
    return g_strdup (wb_words_enum (&wb_manners, (int) contact->manner));

  return g_strdup (_("Conversation"));
}

static char *
contact_subtitle (const WbContact *contact)
{
  GString *text = g_string_new (NULL);
  g_autofree char *day = wb_date_is_set (&contact->on) ? wb_words_date (&contact->on) : NULL;
  g_autofree char *who = NULL;
  g_autofree char *by = NULL;

  append (text, "", day);
  append (text, ", ", contact->at);
  if (contact->complaint)
    append (text, " · ", _("complaint"));
  if (contact->subject != NULL && contact->manner != WB_MANNER_NONE)
    append (text, " · ", wb_words_enum (&wb_manners, (int) contact->manner));
  if (contact->who != NULL)
    /* Translators: %s is a person. */
    who = g_strdup_printf (_("with %s"), contact->who);
  append (text, " · ", who);
  if (contact->by != NULL)
    /* Translators: %s is a person of the office. */
    by = g_strdup_printf (_("by %s"), contact->by);
  append (text, " · ", by);
  return take (text);
}

/* --- any -------------------------------------------------------------------------------------- */

static WbKind
kind_of (gconstpointer record)
{
  return ((const WbRecord *) record)->type->kind;
}

char *
wb_words_record_title (gconstpointer record)
{
  g_return_val_if_fail (record != NULL, NULL);

  if (kind_of (record) == WB_KIND_PARTY)
    return party_title (record);
  if (kind_of (record) == WB_KIND_STOP)
    return stop_title (record);
  if (kind_of (record) == WB_KIND_PAPER)
    return paper_title (record);
  if (kind_of (record) == WB_KIND_CONTACT)
    return contact_title (record);

  g_return_val_if_fail (kind_of (record) == WB_KIND_WEIGHING, NULL);
  return weighing_title (record);
}

char *
wb_words_record_subtitle (const WbJob   *job,
                          gconstpointer  record)
{
  g_return_val_if_fail (job != NULL && record != NULL, NULL);

  if (kind_of (record) == WB_KIND_PARTY)
    return party_subtitle (record);
  if (kind_of (record) == WB_KIND_STOP)
    return stop_subtitle (record);
  if (kind_of (record) == WB_KIND_PAPER)
    return paper_subtitle (job, record);
  if (kind_of (record) == WB_KIND_CONTACT)
    return contact_subtitle (record);

  g_return_val_if_fail (kind_of (record) == WB_KIND_WEIGHING, NULL);
  return weighing_subtitle (record);
}

char *
wb_words_record_removal (gconstpointer record)
{
  g_autofree char *title = wb_words_record_title (record);

  /* Translators: %s is a person, a place, a weighing, a paper or a conversation. */
  return g_strdup_printf (_("Remove %s"), title);
}

/* --- any kind --------------------------------------------------------------------------------- */

#define MOST_NAMES 3

/**
 * Naming:
 * @fields: what a record of the kind is called by, as far as they are given
 * @numbered: whether its kind and name read as one: "Claim line 3"
 */
typedef struct
{
  const char *fields[MOST_NAMES];
  gboolean    numbered;
} Naming;

static const Naming namings[WB_N_KINDS] = {
  [WB_KIND_LOT]           = { { NULL }, TRUE },
  [WB_KIND_PIECE]         = { { NULL }, TRUE },
  [WB_KIND_FINDING]       = { { "piece", "handover" }, FALSE },
  [WB_KIND_CLAIM]         = { { "number" }, TRUE },
  [WB_KIND_CLAIM_LINE]    = { { NULL }, TRUE },
  [WB_KIND_PAYMENT]       = { { "on", "amount", "claim" }, FALSE },
  [WB_KIND_THING]         = { { "description", "piece" }, FALSE },
  [WB_KIND_PACKING_CHECK] = { { "rule", "piece" }, FALSE },
  [WB_KIND_PHOTO]         = { { "caption", "name", "piece" }, FALSE },
  [WB_KIND_PIN]           = { { "photo", "marks" }, FALSE },
  [WB_KIND_MATERIAL]      = { { "item" }, FALSE },
  [WB_KIND_TALLY]         = { { "handover", "lot" }, FALSE },
  [WB_KIND_STEP]          = { { "kind", "on", "claim" }, FALSE },
  [WB_KIND_QUOTE]         = { { "kind", "source", "claim_line" }, FALSE },
  [WB_KIND_SHARE]         = { { "handler", "claim_line" }, FALSE },
  [WB_KIND_CHARGE]        = { { "handler", "claim" }, FALSE },
};

static char *
name_by_fields (const WbJob    *job,
                const WbRecord *record)
{
  const Naming *naming = &namings[record->type->kind];
  GString *name = g_string_new (NULL);

  for (gsize i = 0; i < MOST_NAMES && naming->fields[i] != NULL; i++)
    {
      const WbField *field = wb_record_type_field (record->type, naming->fields[i]);
      g_autofree char *value = NULL;

      if (!wb_record_field_is_set (field, record))
        continue;
      value = wb_words_value_in_job (job, record, field);
      append (name, ", ", value);
    }
  return take (name);
}

static char *
name_lot (const WbLot *lot)
{
  GString *name = g_string_new (NULL);

  append (name, " ", lot->colour);
  append (name, " ", lot->number);
  return take (name);
}

static char *
name_piece (const WbJob   *job,
            const WbPiece *piece)
{
  GString *name = g_string_new (NULL);
  g_autofree char *tag = wb_words_tag (job, piece);

  append (name, ", ", tag);
  append (name, ", ", piece->description != NULL ? piece->description : piece->contents);
  return take (name);
}

static char *
name_line (const WbJob       *job,
           const WbClaimLine *line)
{
  const WbPiece *piece = wb_job_find (job, WB_KIND_PIECE, line->piece);
  GString *name = g_string_new (NULL);
  g_autofree char *of_piece = NULL;

  if (line->number != WB_INTEGER_UNSET)
    g_string_append_printf (name, "%" G_GINT64_FORMAT, line->number);
  if (line->item == NULL && piece != NULL)
    of_piece = name_piece (job, piece);
  append (name, ", ", line->item != NULL ? line->item : of_piece);
  return take (name);
}

static gboolean
has_title (WbKind kind)
{
  return kind == WB_KIND_PARTY || kind == WB_KIND_STOP || kind == WB_KIND_WEIGHING ||
         kind == WB_KIND_PAPER || kind == WB_KIND_CONTACT;
}

char *
wb_words_record_name (const WbJob   *job,
                      gconstpointer  record)
{
  WbKind kind;

  g_return_val_if_fail (job != NULL && record != NULL, NULL);

  kind = kind_of (record);
  if (has_title (kind))
    return wb_words_record_title (record);
  if (kind == WB_KIND_LOT)
    return name_lot (record);
  if (kind == WB_KIND_PIECE)
    return name_piece (job, record);
  if (kind == WB_KIND_HANDOVER)
    return wb_words_handover (record);
  if (kind == WB_KIND_CLAIM_LINE)
    return name_line (job, record);
  return name_by_fields (job, record);
}

char *
wb_words_record (const WbJob   *job,
                 gconstpointer  record)
{
  const WbRecordType *type;
  g_autofree char *name = NULL;

  g_return_val_if_fail (job != NULL && record != NULL, NULL);

  type = ((const WbRecord *) record)->type;
  name = wb_words_record_name (job, record);
  if (*name == '\0')
    return g_strdup (_(type->label));
  if (namings[type->kind].numbered)
    /* Translators: a kind of record, and its number or name: “Claim line 3, Bookcase”. */
    return g_strdup_printf (_("%s %s"), _(type->label), name);
  /* Translators: a kind of record, and what it is called: “Stop: Dayton, OH”. */
  return g_strdup_printf (_("%s: %s"), _(type->label), name);
}

char *
wb_words_value_in_job (const WbJob   *job,
                       gconstpointer  record,
                       const WbField *field)
{
  gconstpointer other;

  g_return_val_if_fail (job != NULL && record != NULL && field != NULL, NULL);

  if (field->type != WB_FIELD_REFERENCE)
    return wb_words_value (record, field);
  other = wb_job_find (job, field->refers, G_STRUCT_MEMBER (char *, record, field->offset));
  return other != NULL ? wb_words_record_name (job, other) : wb_words_value (record, field);
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
      return _("%s net, by the reweigh, which goes before the first weighing (49 CFR 375.517).");
    case WB_WEIGHT_SOURCE_WEIGHING:
      /* Translators: %s is a weight. */
      return _("%s net, by the weighing.");
    case WB_WEIGHT_SOURCE_CONSTRUCTIVE:
      /* Translators: %s is a weight. */
      return _("%s, the constructive weight noted; there is no weighing.");
    case WB_WEIGHT_SOURCE_VOLUME:
      /* Translators: %s is a weight, {rate} a weight too. */
      return _("%s, the constructive weight of the volume at {rate} a cubic foot; there is no "
               "weighing.");
    case WB_WEIGHT_SOURCE_ESTIMATE:
      /* Translators: %s is a weight. */
      return _("%s, by the estimate only; there is no weighing.");
    }

  g_assert_not_reached ();
}

char *
wb_words_shipment_weight (const WbJob *job,
                        WbWeight     per_cuft)
{
  WbWeight weight = WB_WEIGHT_UNSET;
  WbWeightSource source;
  g_autofree char *words = NULL;
  g_autofree char *rate = wb_words_weight (per_cuft);
  GString *text;

  g_return_val_if_fail (job != NULL, NULL);

  source = wb_job_shipment_weight (job, FALSE, per_cuft, &weight);
  words = wb_words_weight (weight);
  text = g_string_new (weight_format (source));
  g_string_replace (text, "%s", words, 1);
  g_string_replace (text, "{rate}", rate, 1);
  return take (text);
}
