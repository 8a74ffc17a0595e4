/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Condition marks: the codes and places of an inventory, and reading and writing lists of them.
 * Which piece a mark is on, and who noted it when, is not known here. */
#include "config.h"

#include "core/wb-mark.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "core/wb-core.h"
#include "core/wb-text.h"

#define TABLE     "DTEB reference table V_D_PPLB_HHGDI_EX_CD"
#define GLOSSARY  "trade glossary"
#define MEMORY    "from memory"

static const WbMarkCode conditions[] = {
  { "BE",  N_("bent"), TABLE },
  { "BR",  N_("broken"), TABLE },
  { "BU",  N_("burned"), TABLE },
  { "CH",  N_("chipped"), TABLE },
  { "CR",  N_("crushed"), TABLE },
  { "CU",  N_("contents and condition unknown"), TABLE },
  { "D",   N_("dented"), TABLE },
  { "F",   N_("faded"), TABLE },
  { "G",   N_("gouged"), TABLE },
  /* Translators: a condition of a thing. */
  { "L",   N_("loose"), TABLE },
  { "M",   N_("marred"), TABLE },
  { "MCU", N_("mechanical condition unknown"), TABLE },
  { "MI",  N_("mildew"), TABLE },
  { "MO",  N_("moth-eaten"), TABLE },
  { "P",   N_("peeling"), TABLE },
  { "R",   N_("rubbed"), TABLE },
  { "RU",  N_("rusted"), TABLE },
  { "S",   N_("stretched"), TABLE },
  { "SC",  N_("scratched"), TABLE },
  /* Translators: a condition of a thing, of which something is missing. */
  { "SH",  N_("short"), TABLE },
  { "SO",  N_("soiled"), TABLE },
  { "ST",  N_("stained"), TABLE },
  { "T",   N_("torn"), TABLE },
  { "W",   N_("badly worn"), TABLE },
  { "Z",   N_("cracked"), TABLE },
};

/* No public authority numbers the places; forms in use agree on these. */
static const WbMarkCode places[] = {
  { "1",  N_("arm"), GLOSSARY },
  { "2",  N_("bottom"), GLOSSARY },
  { "3",  N_("corner"), GLOSSARY },
  { "4",  N_("front"), GLOSSARY },
  /* Translators: a place on a piece of furniture. */
  { "5",  N_("left"), MEMORY },
  { "6",  N_("leg"), MEMORY },
  { "7",  N_("rear"), MEMORY },
  /* Translators: a place on a piece of furniture. */
  { "8",  N_("right"), MEMORY },
  { "9",  N_("side"), MEMORY },
  { "10", N_("top"), MEMORY },
  { "11", N_("veneer"), MEMORY },
  { "12", N_("edge"), MEMORY },
  { "13", N_("center"), MEMORY },
  { "14", N_("inside"), MEMORY },
  { "15", N_("seat"), MEMORY },
  { "16", N_("drawer"), MEMORY },
  { "17", N_("door"), MEMORY },
  { "18", N_("shelf"), MEMORY },
  { "19", N_("hardware"), MEMORY },
};

G_STATIC_ASSERT (G_N_ELEMENTS (conditions) == 25);
G_STATIC_ASSERT (G_N_ELEMENTS (places) <= WB_MARK_MAX_PLACES);

const WbMarkCode *
wb_mark_conditions (gsize *n_codes)
{
  g_return_val_if_fail (n_codes != NULL, NULL);

  *n_codes = G_N_ELEMENTS (conditions);
  return conditions;
}

const WbMarkCode *
wb_mark_places (gsize *n_codes)
{
  g_return_val_if_fail (n_codes != NULL, NULL);

  *n_codes = G_N_ELEMENTS (places);
  return places;
}

/* Hints: what somebody may have meant by letters that are no code */

/* Letters that @word and one of the words of @phrase begin with alike. */
static gsize
common_letters (const char *word,
                const char *phrase)
{
  gsize best = 0;

  for (const char *p = phrase; *p != '\0'; p++)
    {
      gsize n = 0;

      if (p != phrase && g_ascii_isalpha (p[-1]))
        continue;
      while (word[n] != '\0' && g_ascii_tolower (word[n]) == p[n])
        n++;
      best = MAX (best, n);
    }

  return best;
}

static const WbMarkCode *
closest (const WbMarkCode *codes,
         gsize             n_codes,
         const char       *word,
         gsize            *letters)
{
  const WbMarkCode *found = NULL;

  for (gsize i = 0; i < n_codes; i++)
    {
      gsize n = common_letters (word, codes[i].word);

      if (n > *letters)
        {
          *letters = n;
          found = &codes[i];
        }
    }

  return found;
}

/* "SCRATCH" and "TOP" say in words what has a code. */
static char *
hint_by_word (const char *word)
{
  gsize letters = 2;
  const WbMarkCode *condition = closest (conditions, G_N_ELEMENTS (conditions), word, &letters);
  const WbMarkCode *place = closest (places, G_N_ELEMENTS (places), word, &letters);

  if (place != NULL)
    return g_strdup_printf ("%s is place %s", place->word, place->code);
  if (condition != NULL)
    return g_strdup_printf ("%s is %s", condition->word, condition->code);
  return NULL;
}

/* Takes @word wholly apart into codes, the longest first, and appends them to @apart. */
static gboolean
take_apart (const char *word,
            GString    *apart)
{
  gsize before = apart->len;

  if (*word == '\0')
    return TRUE;

  for (gsize length = 3; length > 0; length--)
    for (gsize i = 0; i < G_N_ELEMENTS (conditions); i++)
      {
        const char *code = conditions[i].code;

        if (strlen (code) != length || g_ascii_strncasecmp (word, code, length) != 0)
          continue;
        g_string_append_printf (apart, "%s%s", before > 0 ? "-" : "", code);
        if (take_apart (word + length, apart))
          return TRUE;
        g_string_truncate (apart, before);
      }

  return FALSE;
}

/* "SCM" is "SC-M" with the separator forgotten. */
static char *
hint_by_parts (const char *word)
{
  g_autoptr (GString) apart = g_string_new (NULL);

  /* Nobody runs more than a few codes together, and the search grows with the length. */
  if (strlen (word) > 8 || !take_apart (word, apart))
    return NULL;

  return g_strdup_printf ("if several are meant, write them apart, as in “%s”", apart->str);
}

/* "STO" begins with a code. */
static char *
hint_by_prefix (const char *word)
{
  const WbMarkCode *found = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (conditions); i++)
    if (g_ascii_strncasecmp (word, conditions[i].code, strlen (conditions[i].code)) == 0
        && (found == NULL || strlen (conditions[i].code) > strlen (found->code)))
      found = &conditions[i];

  return found != NULL ? g_strdup_printf ("%s is %s", found->code, found->word) : NULL;
}

static char *
make_hint (const char *word)
{
  char *hint = hint_by_word (word);

  if (hint == NULL)
    hint = hint_by_parts (word);
  if (hint == NULL)
    hint = hint_by_prefix (word);
  return hint;
}

/* Reading */

typedef struct
{
  const char *text;
  const char *at;
  const char *opened;    /* the outermost parenthesis that is still open, or NULL */
  guint       depth;
  GArray     *marks;     /* of WbMark */
  gint        current;   /* index of the mark that a place belongs to, or -1 */
} Scanner;

G_GNUC_PRINTF (4, 5)
static gboolean
fail_at (const Scanner  *self,
         const char     *at,
         GError        **error,
         const char     *format,
         ...)
{
  g_autofree char *message = NULL;
  va_list arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);

  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
               "At character %" G_GSIZE_FORMAT ", %s", wb_text_position (self->text, at), message);
  return FALSE;
}

static gint
find_condition (const char *word)
{
  for (gsize i = 0; i < G_N_ELEMENTS (conditions); i++)
    if (g_ascii_strcasecmp (word, conditions[i].code) == 0)
      return (gint) i;

  return -1;
}

/* Makes the mark of @condition the current one; one written again goes on with its first. */
static void
begin_mark (Scanner *self,
            guint    condition)
{
  WbMark mark = { .condition = condition };

  for (guint i = 0; i < self->marks->len; i++)
    if (g_array_index (self->marks, WbMark, i).condition == condition)
      {
        self->current = (gint) i;
        return;
      }

  self->current = (gint) self->marks->len;
  g_array_append_val (self->marks, mark);
}

static gboolean
take_word (Scanner  *self,
           GError  **error)
{
  const char *start = self->at;
  g_autofree char *word = NULL;
  g_autofree char *quoted = NULL;
  g_autofree char *hint = NULL;
  gint condition;

  while (g_unichar_isalpha (g_utf8_get_char (self->at)))
    self->at = g_utf8_next_char (self->at);

  word = g_strndup (start, (gsize) (self->at - start));
  condition = find_condition (word);
  if (condition >= 0)
    {
      begin_mark (self, (guint) condition);
      return TRUE;
    }
  /* "4 and 8" joins like "4 & 8". */
  if (g_ascii_strcasecmp (word, "and") == 0)
    return TRUE;

  quoted = wb_text_quote (word, -1);
  hint = make_hint (word);
  if (hint == NULL)
    return fail_at (self, start, error, "%s is not a condition code", quoted);
  return fail_at (self, start, error, "%s is not a condition code; %s", quoted, hint);
}

/* Returns 0 when @digits name no place. */
static guint8
find_place (const char *digits)
{
  for (gsize i = 0; i < G_N_ELEMENTS (places); i++)
    if (strcmp (digits, places[i].code) == 0)
      return (guint8) (i + 1);

  return 0;
}

static void
add_place (WbMark *mark,
           guint8  place)
{
  for (guint i = 0; i < mark->n_places; i++)
    if (mark->places[i] == place)
      return;

  g_assert (mark->n_places < G_N_ELEMENTS (mark->places));
  mark->places[mark->n_places++] = place;
}

static gboolean
take_place (Scanner  *self,
            GError  **error)
{
  const char *start = self->at;
  g_autofree char *digits = NULL;
  g_autofree char *quoted = NULL;
  guint8 place;

  while (g_ascii_isdigit (*self->at))
    self->at++;

  digits = g_strndup (start, (gsize) (self->at - start));
  place = find_place (digits);
  if (place > 0 && self->current >= 0)
    {
      add_place (&g_array_index (self->marks, WbMark, self->current), place);
      return TRUE;
    }

  quoted = wb_text_quote (digits, -1);
  if (place > 0)
    return fail_at (self, start, error,
                    "the place %s has no condition before it; write that first, as in “SC %s”",
                    quoted, digits);
  if (find_place (digits + strspn (digits, "0")) > 0)
    return fail_at (self, start, error, "%s is not a place; write it without the 0 before it",
                    quoted);
  return fail_at (self, start, error,
                  "%s is not a place; places are 1 to %u, with a separator between two",
                  quoted, (guint) G_N_ELEMENTS (places));
}

static gboolean
is_line_break (gunichar c)
{
  return (c >= '\n' && c <= '\r') || c == 0x85 || c == 0x2028 || c == 0x2029;
}

/* Dashes are what text programs make of hyphens. */
static gboolean
is_separator (gunichar c)
{
  return g_unichar_isspace (c) || (c < 0x80 && strchr (",-/+&.:", (int) c) != NULL)
         || (c >= 0x2010 && c <= 0x2015) || c == 0x2212;
}

static gboolean
take_separator (Scanner  *self,
                GError  **error)
{
  const char *start = self->at;
  gunichar c = g_utf8_get_char (start);
  g_autofree char *quoted = NULL;

  self->at = g_utf8_next_char (start);

  if (c == ';' || is_line_break (c))
    {
      self->current = -1;
      return TRUE;
    }
  if (c == '(')
    {
      if (self->depth++ == 0)
        self->opened = start;
      return TRUE;
    }
  if (c == ')' && self->depth > 0)
    {
      self->depth--;
      return TRUE;
    }
  if (c == ')')
    return fail_at (self, start, error, "a parenthesis is closed that was not opened");
  if (is_separator (c))
    return TRUE;

  quoted = wb_text_quote (start, self->at - start);
  return fail_at (self, start, error, "%s does not belong between condition codes and places",
                  quoted);
}

static gboolean
take_next (Scanner  *self,
           GError  **error)
{
  if (g_unichar_isalpha (g_utf8_get_char (self->at)))
    return take_word (self, error);
  if (g_ascii_isdigit (*self->at))
    return take_place (self, error);
  return take_separator (self, error);
}

gboolean
wb_marks_parse (const char  *text,
                WbMarks     *out,
                GError     **error)
{
  g_autoptr (GArray) marks = g_array_new (FALSE, TRUE, sizeof (WbMark));
  Scanner scanner = { .text = text, .at = text, .marks = marks, .current = -1 };
  const char *broken;

  g_return_val_if_fail (text != NULL, FALSE);
  g_return_val_if_fail (out != NULL, FALSE);

  if (!g_utf8_validate (text, -1, &broken))
    return fail_at (&scanner, broken, error, "this is not a letter, a digit or a separator");

  while (*scanner.at != '\0')
    if (!take_next (&scanner, error))
      return FALSE;

  if (scanner.depth > 0)
    return fail_at (&scanner, scanner.opened, error, "a parenthesis is opened that is not closed");

  out->n_marks = marks->len;
  out->marks = marks->len > 0 ? (WbMark *) (gpointer) g_array_steal (marks, NULL) : NULL;
  return TRUE;
}

void
wb_marks_clear (WbMarks *marks)
{
  g_return_if_fail (marks != NULL);

  g_clear_pointer (&marks->marks, g_free);
  marks->n_marks = 0;
}

static void
append_mark (GString      *text,
             const WbMark *mark)
{
  g_return_if_fail (mark->condition < G_N_ELEMENTS (conditions));
  g_return_if_fail (mark->n_places <= G_N_ELEMENTS (mark->places));

  g_string_append (text, conditions[mark->condition].code);
  for (guint i = 0; i < mark->n_places; i++)
    g_string_append_printf (text, "%c%u", i == 0 ? ' ' : '-', mark->places[i]);
}

char *
wb_marks_to_text (const WbMarks *marks)
{
  GString *text;

  g_return_val_if_fail (marks != NULL, NULL);

  text = g_string_new (NULL);
  for (gsize i = 0; i < marks->n_marks; i++)
    {
      if (i > 0)
        g_string_append (text, ", ");
      append_mark (text, &marks->marks[i]);
    }

  return g_string_free (text, FALSE);
}
