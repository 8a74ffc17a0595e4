/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the heading of a column means, and how the values under it are written in the trade. The
 * rows themselves are read in wb-inventory-csv.c. */
#include "config.h"

#define G_LOG_DOMAIN "wb-office"

#include "office/wb-inventory-columns.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <string.h>

#define LOT_NUMBER "lot_number"
#define LOT_COLOUR "lot_colour"
#define THINGS "things"

/* --- headings --------------------------------------------------------------------------------- */

/**
 * HeadingWord:
 * @word: a heading in small letters without spaces and punctuation
 * @name: a field of a piece, or one of the two columns that make a lot
 * @unit: (nullable): of bare numbers
 * @or_else: (nullable): what it means when another column already is @name; such a heading is
 * looked at last
 */
typedef struct
{
  const char *word;
  const char *name;
  const char *unit;
  const char *or_else;
} HeadingWord;

/* Beside the names and labels of the fields, which are always understood. */
static const HeadingWord heading_words[] = {
  { "tagno", "tag" },
  { "tagnumber", "tag" },
  { "no", "tag" },
  { "num", "tag" },
  { "number", "tag" },
  { "itemno", "tag" },
  { "itemnumber", "tag" },
  { "pieceno", "tag" },
  { "piecenumber", "tag" },
  { "inventoryno", "tag" },
  { "inventorynumber", "tag" },
  { "sticker", "tag" },
  { "stickerno", "tag" },
  { "stickernumber", "tag" },

  { "desc", "description" },
  { "item", "description", NULL, "tag" },
  { "article", "description", NULL, "article" },
  { "itemdescription", "description" },
  { "articledescription", "description" },
  { "piece", "description", NULL, "tag" },
  { "goods", "description" },

  { "content", "contents" },
  { "contentsofcarton", "contents" },
  { "cartoncontents", "contents" },

  { "things", THINGS },
  { "thingsinside", THINGS },
  { "listofcontents", THINGS },
  { "contentslist", THINGS },

  { "fromroom", "room" },
  { "originroom", "room" },
  { "roomatorigin", "room" },

  { "cartontype", "carton" },
  { "cartonkind", "carton" },
  { "cartonsize", "carton" },
  { "typeofcarton", "carton" },
  { "box", "carton" },
  { "boxtype", "carton" },
  { "boxsize", "carton" },

  { "cppbo", "packed_by" },
  { "pbocp", "packed_by" },
  { "cporpbo", "packed_by" },
  { "packedbycppbo", "packed_by" },
  { "packed", "packed_by" },

  { "packername", "packer" },
  { "nameofpacker", "packer" },

  { "condition", "marks" },
  { "conditions", "marks" },
  { "conditionmarks", "marks" },
  { "conditioncodes", "marks" },
  { "origincondition", "marks" },
  { "exception", "marks" },
  { "exceptions", "marks" },
  { "exceptionsatorigin", "marks" },
  { "originexceptions", "marks" },

  { "weightlb", "weight", "lb" },
  { "weightlbs", "weight", "lb" },
  { "weightinlb", "weight", "lb" },
  { "weightinlbs", "weight", "lb" },
  { "weightpounds", "weight", "lb" },
  { "weightinpounds", "weight", "lb" },
  { "pounds", "weight", "lb" },
  { "lbs", "weight", "lb" },
  { "lb", "weight", "lb" },
  { "weightkg", "weight", "kg" },
  { "weightkgs", "weight", "kg" },
  { "weightinkg", "weight", "kg" },
  { "weightkilograms", "weight", "kg" },
  { "kilograms", "weight", "kg" },
  { "kg", "weight", "kg" },

  { "cube", "volume", "cuft" },
  { "cubes", "volume", "cuft" },
  { "cubicfeet", "volume", "cuft" },
  { "cuft", "volume", "cuft" },
  { "cubecuft", "volume", "cuft" },
  { "cubeft3", "volume", "cuft" },
  { "volumecuft", "volume", "cuft" },
  { "volumeft3", "volume", "cuft" },
  { "volumem3", "volume", "m3" },
  { "cubem3", "volume", "m3" },
  { "cubicmetres", "volume", "m3" },
  { "cubicmeters", "volume", "m3" },
  { "m3", "volume", "m3" },

  { "partof", "article" },

  { "serial", "serial_number" },
  { "serialno", "serial_number" },

  { "declaredvalue", "listed_value" },
  { "valuelisted", "listed_value" },
  { "highvalue", "listed_value" },
  { "value", "listed_value" },

  { "note", "notes" },
  { "remark", "notes" },
  { "remarks", "notes" },
  { "comment", "notes" },
  { "comments", "notes" },

  { "lot", LOT_NUMBER },
  { "lotno", LOT_NUMBER },
  { "lotnumber", LOT_NUMBER },
  { "rollno", LOT_NUMBER },
  { "rollnumber", LOT_NUMBER },

  { "colour", LOT_COLOUR },
  { "color", LOT_COLOUR },
  { "lotcolour", LOT_COLOUR },
  { "lotcolor", LOT_COLOUR },
  { "tagcolour", LOT_COLOUR },
  { "tagcolor", LOT_COLOUR },
  { "stickercolour", LOT_COLOUR },
  { "stickercolor", LOT_COLOUR },
};

/* "Tag No." becomes "tagno": letters and digits only, without case. */
static char *
plain_heading (const char *heading)
{
  g_autofree char *folded = g_utf8_casefold (heading, -1);
  g_autofree char *normal = g_utf8_normalize (folded, -1, G_NORMALIZE_ALL_COMPOSE);
  GString *plain = g_string_new (NULL);

  for (const char *at = normal; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar character = g_utf8_get_char (at);

      if (g_unichar_isalnum (character))
        g_string_append_unichar (plain, character);
    }

  return g_string_free (plain, FALSE);
}

static gboolean
heading_is (const char *plain,
            const char *words)
{
  g_autofree char *other = plain_heading (words);

  return g_str_equal (plain, other);
}

static const HeadingWord *
find_word (const char *plain)
{
  for (gsize i = 0; i < G_N_ELEMENTS (heading_words); i++)
    {
      if (g_str_equal (heading_words[i].word, plain))
        return &heading_words[i];
    }

  return NULL;
}

/* A lot is no field of its own in the file: it is known by its colour and number. */
static const WbField *
find_labelled_field (const char *plain)
{
  const WbRecordType *type = wb_record_type (WB_KIND_PIECE);

  for (gsize i = 0; i < type->n_fields; i++)
    {
      const WbField *field = &type->fields[i];

      if (field->type != WB_FIELD_REFERENCE &&
          (heading_is (plain, field->name) || heading_is (plain, field->label) ||
           heading_is (plain, _(field->label))))
        return field;
    }

  return NULL;
}

static void
clear_column (gpointer data)
{
  WbColumn *column = data;

  g_free (column->heading);
}

static const char *
name_of (const WbColumn *column)
{
  switch (column->kind)
    {
    case WB_COLUMN_LOT_NUMBER:
      return LOT_NUMBER;
    case WB_COLUMN_LOT_COLOUR:
      return LOT_COLOUR;
    case WB_COLUMN_THINGS:
      return THINGS;
    case WB_COLUMN_FIELD:
      return column->field->name;
    case WB_COLUMN_IGNORED:
    case WB_COLUMN_NAMELESS:
      break;
    }

  return NULL;
}

static const WbColumn *
find_named (GArray     *columns,
            const char *name)
{
  for (guint i = 0; i < columns->len; i++)
    {
      const WbColumn *column = &g_array_index (columns, WbColumn, i);

      if (g_strcmp0 (name_of (column), name) == 0)
        return column;
    }

  return NULL;
}

static gboolean
set_meaning (GArray      *columns,
             WbColumn    *column,
             const char  *name,
             const char  *unit,
             GError     **error)
{
  const WbColumn *other = find_named (columns, name);

  if (other != NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                   /* Translators: the placeholders are headings of columns. */
                   _("The columns “%s” and “%s” mean the same thing; take one of them away or "
                     "give it another heading"),
                   other->heading, column->heading);
      return FALSE;
    }

  column->unit = unit;
  if (g_str_equal (name, LOT_NUMBER))
    {
      column->kind = WB_COLUMN_LOT_NUMBER;
    }
  else if (g_str_equal (name, LOT_COLOUR))
    {
      column->kind = WB_COLUMN_LOT_COLOUR;
    }
  else if (g_str_equal (name, THINGS))
    {
      column->kind = WB_COLUMN_THINGS;
    }
  else
    {
      column->kind = WB_COLUMN_FIELD;
      column->field = wb_record_type_field (wb_record_type (WB_KIND_PIECE), name);
      g_assert (column->field != NULL);
    }

  return TRUE;
}

/* First pass: headings that mean one thing. */
static gboolean
match_plain_heading (GArray    *columns,
                     WbColumn  *column,
                     GError   **error)
{
  g_autofree char *plain = plain_heading (column->heading);
  const HeadingWord *word = find_word (plain);
  const WbField *field;

  if (*plain == '\0')
    {
      column->kind = WB_COLUMN_NAMELESS;
      return TRUE;
    }
  if (word != NULL && word->or_else != NULL)
    return TRUE;
  if (word != NULL)
    return set_meaning (columns, column, word->name, word->unit, error);

  field = find_labelled_field (plain);
  return field == NULL || set_meaning (columns, column, field->name, NULL, error);
}

/* Second pass: "Item" is the description, unless there is another; then it is the number. */
static gboolean
match_open_heading (GArray    *columns,
                    WbColumn  *column,
                    GError   **error)
{
  g_autofree char *plain = plain_heading (column->heading);
  const HeadingWord *word = find_word (plain);
  const char *name;

  if (column->kind != WB_COLUMN_IGNORED || word == NULL)
    return TRUE;

  name = find_named (columns, word->name) == NULL ? word->name : word->or_else;
  return set_meaning (columns, column, name, word->unit, error);
}

static gboolean
check_enough (GArray     *columns,
              GPtrArray  *headings,
              GError    **error)
{
  const char *first = g_ptr_array_index (headings, 0);

  if (find_named (columns, "tag") != NULL || find_named (columns, "description") != NULL ||
      find_named (columns, "contents") != NULL)
    return TRUE;

  if (headings->len == 1 && strpbrk (first, ";\t|") != NULL)
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                         _("The fields of the first line are not parted by commas; save the file "
                           "as comma-separated values"));
  else
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                         _("No heading in the first line is known for a tag number, a description "
                           "or contents; the first line has to name the columns, such as “Tag "
                           "no.”, “Description”, “Room”"));
  return FALSE;
}

GArray *
wb_inventory_columns_match (GPtrArray  *headings,
                            GError    **error)
{
  g_autoptr (GArray) columns = g_array_new (FALSE, TRUE, sizeof (WbColumn));

  g_return_val_if_fail (headings != NULL && headings->len > 0, NULL);

  g_array_set_clear_func (columns, clear_column);
  g_array_set_size (columns, headings->len);
  for (guint i = 0; i < headings->len; i++)
    {
      WbColumn *column = &g_array_index (columns, WbColumn, i);

      column->heading = g_strstrip (g_strdup (g_ptr_array_index (headings, i)));
      if (!match_plain_heading (columns, column, error))
        return NULL;
    }

  for (guint i = 0; i < columns->len; i++)
    {
      if (!match_open_heading (columns, &g_array_index (columns, WbColumn, i), error))
        return NULL;
    }

  if (!check_enough (columns, headings, error))
    return NULL;

  return g_steal_pointer (&columns);
}

const WbColumn *
wb_inventory_columns_find (GArray       *columns,
                           WbColumnKind  kind)
{
  for (guint i = 0; i < columns->len; i++)
    {
      if (g_array_index (columns, WbColumn, i).kind == kind)
        return &g_array_index (columns, WbColumn, i);
    }

  return NULL;
}

/* --- values ----------------------------------------------------------------------------------- */

/* How closed lists are written on inventories, beside their nicks and labels. */
static const struct
{
  const char *field;
  const char *word;    /* as plain_heading() makes it */
  const char *nick;
} value_words[] = {
  { "packed_by", "cp", "CP" },
  { "packed_by", "c", "CP" },
  { "packed_by", "carrier", "CP" },
  { "packed_by", "carrierpacked", "CP" },
  { "packed_by", "packedbycarrier", "CP" },
  { "packed_by", "pbo", "PBO" },
  { "packed_by", "o", "PBO" },
  { "packed_by", "owner", "PBO" },
  { "packed_by", "ownerpacked", "PBO" },
  { "packed_by", "packedbyowner", "PBO" },
  { "packed_by", "shipper", "PBO" },
  { "form", "ctn", "carton" },
  { "form", "box", "carton" },
  { "form", "piece", "loose" },
  { "form", "loosepiece", "loose" },
  { "form", "uncartoned", "loose" },
};

static char *
nick_of_words (const WbField *field,
               const char    *cell)
{
  g_autofree char *plain = plain_heading (cell);

  for (gsize i = 0; i < G_N_ELEMENTS (value_words); i++)
    {
      if (g_str_equal (value_words[i].field, field->name) &&
          g_str_equal (value_words[i].word, plain))
        return g_strdup (value_words[i].nick);
    }

  for (gsize i = 0; i < field->choices->n_values; i++)
    {
      const WbEnumValue *value = &field->choices->values[i];

      if (*plain != '\0' && (heading_is (plain, value->nick) || heading_is (plain, value->label)))
        return g_strdup (value->nick);
    }

  return g_strdup (cell);
}

static gboolean
is_bare_number (const char *text)
{
  return *text != '\0' && text[strspn (text, "0123456789.,")] == '\0';
}

char *
wb_inventory_cell_value (const WbColumn *column,
                         const char     *cell)
{
  g_autofree char *text = g_strstrip (g_strdup (cell));

  g_return_val_if_fail (column->kind == WB_COLUMN_FIELD, NULL);

  if (column->field->type == WB_FIELD_ENUM)
    return nick_of_words (column->field, text);
  if (column->unit != NULL && is_bare_number (text))
    return g_strconcat (text, " ", column->unit, NULL);

  return g_steal_pointer (&text);
}

/* --- apostrophes ------------------------------------------------------------------------------ */

static gboolean
needs_apostrophe (const char *text)
{
  gsize length = strlen (text);

  return length > 0 && (strchr ("=+-@'", text[0]) != NULL || g_ascii_isspace (text[0]) ||
                        g_ascii_isspace (text[length - 1]));
}

char *
wb_inventory_escape_text (const char *text)
{
  return g_strconcat (needs_apostrophe (text) ? "'" : "", text, NULL);
}

char *
wb_inventory_unescape_text (const char *cell)
{
  if (*cell == '\'' && needs_apostrophe (cell + 1))
    return g_strdup (cell + 1);

  return g_strstrip (g_strdup (cell));
}
