/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text to piece and back, for one field at a time. The values themselves are read by core; here are
 * the short forms, the sentences when core refuses, and the words beside a field. */
#include "config.h"

#include "desk/inventory/wb-line.h"

#include "core/wb-core.h"
#include "core/wb-mark.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static const WbLineField line_fields[] = {
  [WB_LINE_TAG] = { "tag", N_ ("_Tag"), 5, 6, WB_LINE_ROW_STAYS },
  [WB_LINE_ROOM] = { "room", N_ ("_Room"), 9, 16, WB_LINE_ROW_STAYS, .suggests = TRUE },
  [WB_LINE_PACKED_BY] = { "packed_by", N_ ("Packed _by"), 6, 16, WB_LINE_ROW_STAYS },
  [WB_LINE_PACKER] = { "packer", N_ ("_Packer"), 8, 12, WB_LINE_ROW_STAYS, .suggests = TRUE },
  [WB_LINE_FORM] = { "form", N_ ("_Form"), 9, 10, WB_LINE_ROW_STAYS },
  [WB_LINE_CARTON] = { "carton", N_ ("Carton _kind"), 9, 14, WB_LINE_ROW_STAYS, .suggests = TRUE },
  [WB_LINE_DESCRIPTION] = { "description", N_ ("_Description"), 12, 20, WB_LINE_ROW_NEW, TRUE,
                            TRUE },
  [WB_LINE_CONTENTS] = { "contents", N_ ("_Contents"), 12, 20, WB_LINE_ROW_NEW, TRUE, TRUE },
  [WB_LINE_MARKS] = { "marks", N_ ("Co_ndition"), 10, 18, WB_LINE_ROW_NEW, TRUE },
  [WB_LINE_WEIGHT] = { "weight", N_ ("_Weight"), 7, 9, WB_LINE_ROW_NEW },
  [WB_LINE_VOLUME] = { "volume", N_ ("_Volume"), 7, 10, WB_LINE_ROW_MORE },
  [WB_LINE_ARTICLE] = { "article", N_ ("Part of _article"), 9, 16, WB_LINE_ROW_MORE,
                        .suggests = TRUE },
  [WB_LINE_SERIAL_NUMBER] = { "serial_number", N_ ("_Serial number"), 9, 14, WB_LINE_ROW_MORE },
  [WB_LINE_LISTED_VALUE] = { "listed_value", N_ ("Listed val_ue"), 9, 12, WB_LINE_ROW_MORE },
  [WB_LINE_QUANTITY] = { "quantity", N_ ("_Quantity"), 5, 8, WB_LINE_ROW_MORE },
  [WB_LINE_SET] = { "set", N_ ("Part of s_et"), 9, 16, WB_LINE_ROW_MORE, .suggests = TRUE },
  [WB_LINE_DISASSEMBLY] = { "disassembly", N_ ("Taken apart b_y"), 9, 16, WB_LINE_ROW_MORE },
  [WB_LINE_PACKED_ON] = { "packed_on", N_ ("Packin_g day"), 10, 11, WB_LINE_ROW_MORE },
  [WB_LINE_CHECKED_BY] = { "checked_by", N_ ("C_hecked by"), 9, 14, WB_LINE_ROW_MORE,
                           .suggests = TRUE },
  [WB_LINE_NOTES] = { "notes", N_ ("N_otes"), 12, 24, WB_LINE_ROW_MORE, TRUE },
};

G_STATIC_ASSERT (G_N_ELEMENTS (line_fields) == WB_LINE_N_PARTS);

const WbLineField *
wb_line_field (WbLinePart part)
{
  g_return_val_if_fail ((guint) part < WB_LINE_N_PARTS, NULL);

  return &line_fields[part];
}

const WbField *
wb_line_piece_field (WbLinePart part)
{
  const WbField *field = wb_record_type_field (wb_record_type (WB_KIND_PIECE),
                                               wb_line_field (part)->name);

  g_assert (field != NULL);
  return field;
}

char *
wb_line_caption (WbLinePart part)
{
  g_auto (GStrv) pieces = g_strsplit (_(wb_line_field (part)->caption), "_", -1);

  return g_strjoinv ("", pieces);
}

char *
wb_line_show (const WbPiece *piece,
              WbLinePart     part)
{
  switch (part)
    {
    case WB_LINE_FORM:
      return g_strdup (wb_words_enum (&wb_forms, (int) piece->form));
    case WB_LINE_PACKED_BY:
      if (piece->packed_by == WB_PACKED_UNKNOWN)
        return g_strdup ("");
      break;
    case WB_LINE_DISASSEMBLY:
      if (piece->disassembly == WB_DISASSEMBLY_NONE)
        return g_strdup ("");
      break;
    case WB_LINE_TAG:
    case WB_LINE_CARTON:
    case WB_LINE_DESCRIPTION:
    case WB_LINE_CONTENTS:
    case WB_LINE_ROOM:
    case WB_LINE_PACKER:
    case WB_LINE_MARKS:
    case WB_LINE_WEIGHT:
    case WB_LINE_VOLUME:
    case WB_LINE_ARTICLE:
    case WB_LINE_SERIAL_NUMBER:
    case WB_LINE_LISTED_VALUE:
    case WB_LINE_QUANTITY:
    case WB_LINE_SET:
    case WB_LINE_PACKED_ON:
    case WB_LINE_CHECKED_BY:
    case WB_LINE_NOTES:
      break;
    }
  return wb_record_get_text (piece, wb_line_piece_field (part));
}

/* @start is folded already: it is compared with many. */
static gboolean
starts_with (const char *whole,
             const char *start)
{
  g_autofree char *folded = g_utf8_casefold (whole, -1);

  return g_str_has_prefix (folded, start);
}

/* The nick of the one choice that @text names: by its nick, or by the start of its label. NULL when
 * none does, or more than one; only "c" is a carton, for they are many and crates few. */
static const char *
find_choice (const WbEnum *choices,
             const char   *text)
{
  const char *found = NULL;
  g_autofree char *start = g_utf8_casefold (text, -1);

  for (gsize i = 0; i < choices->n_values; i++)
    if (g_ascii_strcasecmp (choices->values[i].nick, text) == 0)
      return choices->values[i].nick;

  for (gsize i = 0; i < choices->n_values; i++)
    {
      const WbEnumValue *choice = &choices->values[i];

      if (!starts_with (wb_words_enum (choices, choice->value), start)
          && !starts_with (choice->nick, start))
        continue;
      if (found != NULL && choices != &wb_forms)
        return NULL;
      if (found == NULL)
        found = choice->nick;
    }
  return found;
}

/* "Carton, Loose piece or Crate" */
static char *
list_choices (const WbEnum *choices)
{
  g_autoptr (GString) list = g_string_new (NULL);

  for (gsize i = 0; i < choices->n_values; i++)
    {
      if (i > 0)
        g_string_append (list, ", ");
      g_string_append (list, wb_words_enum (choices, choices->values[i].value));
    }
  return g_string_free (g_steal_pointer (&list), FALSE);
}

/* Core says which code it is and where it stands, which is all that is wanted beside the field. */
static char *
describe_marks (const char *text)
{
  g_auto (WbMarks) marks = { 0 };
  g_autoptr (GError) error = NULL;

  if (wb_marks_parse (text, &marks, &error))
    return g_strdup (_("The condition is too long."));
  return g_strconcat (error->message, ".", NULL);
}

char *
wb_line_describe_refusal (const WbField *field,
                          const char    *text,
                          const GError  *refusal)
{
  g_autofree char *choices = NULL;

  switch (field->type)
    {
    case WB_FIELD_INTEGER:
      return g_strdup_printf (g_str_equal (field->name, "tag")
                              /* Translators: %s is what was typed, %d the largest number there
                               * is. */
                              ? _("“%s” is no tag number. Type a whole number up to %d.")
                              : _("“%s” is no whole number up to %d."), text,
                              (int) field->maximum);
    case WB_FIELD_WEIGHT:
      return g_strdup_printf (_("“%s” is no weight. Type it like 40, 40 lb or 18.5 kg."), text);
    case WB_FIELD_VOLUME:
      return g_strdup_printf (_("“%s” is no volume. Type it like 3.1 cuft or 0.09 m3."), text);
    case WB_FIELD_MONEY:
      return g_strdup_printf (_("“%s” is no amount. Type it like 1250 or 1,250.00."), text);
    case WB_FIELD_ENUM:
      if (field->choices == &wb_packed_by)
        return g_strdup_printf (_("“%s” does not say who packed it. Type CP or PBO, or nothing."),
                                text);
      if (field->choices == &wb_disassembly)
        return g_strdup_printf (_("“%s” does not say who took it apart. Type carrier or owner, or "
                                  "nothing."), text);
      choices = list_choices (field->choices);
      /* Translators: the second %s is a list of words to choose from. */
      return g_strdup_printf (_("“%s” is not one of: %s. The first letters are enough."), text,
                              choices);
    case WB_FIELD_MARKS:
      return describe_marks (text);
    case WB_FIELD_DATE:
      return g_strdup_printf (_("“%s” is no date. Type it like 2026-03-04."), text);
    case WB_FIELD_TEXT:
      return g_strdup (_("The text is too long."));
    case WB_FIELD_REFERENCE:
    case WB_FIELD_BOOLEAN:
    case WB_FIELD_PERCENT:
      break;
    }
  return wb_words_error (refusal);
}

char *
wb_line_complete_weight (const char   *text,
                         WbWeightUnit  unit)
{
  WbWeight weight;

  if (*text != '\0' && wb_weight_parse (text, unit, &weight, NULL))
    return wb_weight_to_text (weight);
  return g_strdup (text);
}

gboolean
wb_line_read (WbPiece       *piece,
              WbLinePart     part,
              const char    *text,
              const char    *currency,
              WbWeightUnit   unit,
              GError       **error)
{
  const WbField *field = wb_line_piece_field (part);
  g_autofree char *typed = g_strstrip (g_strdup (text));
  g_autofree char *canonical = NULL;
  g_autofree char *sentence = NULL;
  g_autoptr (GError) refusal = NULL;

  if (field->type == WB_FIELD_ENUM && *typed != '\0')
    canonical = g_strdup (find_choice (field->choices, typed));
  else if (field->type == WB_FIELD_WEIGHT)
    canonical = wb_line_complete_weight (typed, unit);

  if (wb_record_set_text (piece, field, canonical != NULL ? canonical : typed, currency, &refusal))
    return TRUE;

  sentence = wb_line_describe_refusal (field, typed, refusal);
  g_set_error_literal (error, refusal->domain, refusal->code, sentence);
  return FALSE;
}

char *
wb_line_words (const WbPiece *piece,
               WbLinePart     part)
{
  switch (part)
    {
    case WB_LINE_FORM:
      return g_strdup (wb_words_enum (&wb_forms, (int) piece->form));
    case WB_LINE_PACKED_BY:
      if (piece->packed_by == WB_PACKED_UNKNOWN)
        return NULL;
      return g_strdup (wb_words_enum (&wb_packed_by, (int) piece->packed_by));
    case WB_LINE_DISASSEMBLY:
      if (piece->disassembly == WB_DISASSEMBLY_NONE)
        return NULL;
      return g_strdup (wb_words_enum (&wb_disassembly, (int) piece->disassembly));
    case WB_LINE_MARKS:
      return piece->marks != NULL ? wb_words_marks (piece->marks, NULL) : NULL;
    case WB_LINE_LISTED_VALUE:
      return wb_money_is_set (piece->listed_value) ? wb_words_money (piece->listed_value) : NULL;
    case WB_LINE_WEIGHT:
      return wb_weight_is_set (piece->weight) ? wb_words_weight (piece->weight) : NULL;
    case WB_LINE_VOLUME:
      return wb_volume_is_set (piece->volume) ? wb_words_volume (piece->volume) : NULL;
    case WB_LINE_TAG:
    case WB_LINE_CARTON:
    case WB_LINE_DESCRIPTION:
    case WB_LINE_CONTENTS:
    case WB_LINE_ROOM:
    case WB_LINE_PACKER:
    case WB_LINE_ARTICLE:
    case WB_LINE_SERIAL_NUMBER:
    case WB_LINE_QUANTITY:
    case WB_LINE_SET:
    case WB_LINE_PACKED_ON:
    case WB_LINE_CHECKED_BY:
    case WB_LINE_NOTES:
      return NULL;
    }
  return NULL;
}

gboolean
wb_line_is_carried (WbLinePart part)
{
  return (part != WB_LINE_TAG && wb_line_field (part)->row == WB_LINE_ROW_STAYS)
         || part == WB_LINE_PACKED_ON || part == WB_LINE_CHECKED_BY;
}

gsize
wb_line_finished_marks (const char *text)
{
  gsize end = strlen (text);

  while (end > 0 && g_ascii_isalnum (text[end - 1]))
    end--;
  return end;
}

gboolean
wb_line_is_described (const WbPiece *piece)
{
  return piece->description != NULL || piece->contents != NULL || piece->carton != NULL;
}

/* --- suggestions ------------------------------------------------------------------------------ */

typedef struct
{
  const char *text;    /* belongs to the job */
  guint       count;
} Suggestion;

static gint
compare_suggestions (gconstpointer a,
                     gconstpointer b)
{
  const Suggestion *x = a;
  const Suggestion *y = b;

  if (x->count != y->count)
    return x->count < y->count ? 1 : -1;
  return g_utf8_collate (x->text, y->text);
}

static GHashTable *
count_values (const WbJob   *job,
              const WbField *field)
{
  GHashTable *counts = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = wb_job_count (job, WB_KIND_PIECE);

  for (guint i = 0; i < n; i++)
    {
      gconstpointer piece = wb_job_nth (job, WB_KIND_PIECE, i);
      char *text = G_STRUCT_MEMBER (char *, piece, field->offset);

      if (text != NULL)
        g_hash_table_insert (counts, text,
                             GUINT_TO_POINTER (GPOINTER_TO_UINT (g_hash_table_lookup (counts,
                                                                                      text)) + 1));
    }
  return counts;
}

char **
wb_line_suggest (const WbJob *job,
                 WbLinePart   part,
                 const char  *typed,
                 guint        most)
{
  const WbField *field = wb_line_piece_field (part);
  g_autoptr (GHashTable) counts = NULL;
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (Suggestion));
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_autofree char *start = g_utf8_casefold (typed, -1);
  GHashTableIter iter;
  gpointer text, count;

  g_return_val_if_fail (field->type == WB_FIELD_TEXT, NULL);

  if (*typed == '\0')
    return NULL;

  counts = count_values (job, field);
  g_hash_table_iter_init (&iter, counts);
  while (g_hash_table_iter_next (&iter, &text, &count))
    if (!g_str_equal (text, typed) && starts_with (text, start))
      g_array_append_vals (found, &(Suggestion) { text, GPOINTER_TO_UINT (count) }, 1);

  if (found->len == 0)
    return NULL;

  g_array_sort (found, compare_suggestions);
  for (guint i = 0; i < MIN (found->len, most); i++)
    g_strv_builder_add (builder, g_array_index (found, Suggestion, i).text);
  return g_strv_builder_end (builder);
}
