/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be done with any record by walking its field table: making, copying, comparing, reading
 * and writing text. What a value may be is in wb-record-check.c. It knows no single kind of record;
 * those stand in wb-entities.c. */
#include "core/wb-record-private.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-mark.h"
#include "core/wb-percent.h"

#define ID_MAX_LENGTH 64

/* --- life ------------------------------------------------------------------------------------- */

static inline gboolean
is_id_char (char c)
{
  return g_ascii_isalnum (c) || c == '.' || c == '_' || c == '-';
}

gboolean
wb_record_id_is_valid (const char *id)
{
  gsize length = 0;

  if (id == NULL)
    return FALSE;
  while (length <= ID_MAX_LENGTH && is_id_char (id[length]))
    length++;
  return length > 0 && length <= ID_MAX_LENGTH && id[length] == '\0';
}

gpointer
wb_record_new (WbKind      kind,
               const char *id)
{
  const WbRecordType *type = wb_record_type (kind);
  WbRecord *record;

  g_return_val_if_fail (type != NULL, NULL);
  g_return_val_if_fail (wb_record_id_is_valid (id), NULL);

  record = g_malloc0 (type->size);
  record->type = type;
  g_atomic_ref_count_init (&record->references);
  record->id = g_strdup (id);
  for (gsize i = 0; i < type->n_fields; i++)
    if (wb_field_holds_number (&type->fields[i]))
      MEMBER (record, &type->fields[i], gint64) = WB_INTEGER_UNSET;
  return record;
}

gpointer
wb_record_copy (gconstpointer record)
{
  const WbRecord *from = record;
  WbRecord *copy;

  g_return_val_if_fail (record != NULL, NULL);

  copy = g_malloc (from->type->size);
  memcpy (copy, from, from->type->size);
  g_atomic_ref_count_init (&copy->references);
  copy->id = g_strdup (from->id);
  for (gsize i = 0; i < from->type->n_fields; i++)
    {
      const WbField *field = &from->type->fields[i];

      if (wb_field_holds_text (field))
        MEMBER (copy, field, char *) = g_strdup (CONST_MEMBER (from, field, char *));
    }
  return copy;
}

gpointer
wb_record_ref (gpointer record)
{
  g_return_val_if_fail (record != NULL, NULL);

  g_atomic_ref_count_inc (&((WbRecord *) record)->references);
  return record;
}

void
wb_record_unref (gpointer record)
{
  WbRecord *self = record;

  if (self == NULL || !g_atomic_ref_count_dec (&self->references))
    return;
  for (gsize i = 0; i < self->type->n_fields; i++)
    if (wb_field_holds_text (&self->type->fields[i]))
      g_free (MEMBER (self, &self->type->fields[i], char *));
  g_free (self->id);
  g_free (self);
}

void
wb_set_text (char       **member,
             const char  *text)
{
  char *fresh = text != NULL && *text != '\0' ? g_strdup (text) : NULL;

  g_free (*member);
  *member = fresh;
}

/* --- looking ---------------------------------------------------------------------------------- */

const WbField *
wb_record_type_field (const WbRecordType *type,
                      const char         *name)
{
  for (gsize i = 0; i < type->n_fields; i++)
    if (strcmp (type->fields[i].name, name) == 0)
      return &type->fields[i];
  return NULL;
}

gboolean
wb_record_field_equal (const WbField *field,
                       gconstpointer  a,
                       gconstpointer  b)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
      return g_strcmp0 (CONST_MEMBER (a, field, char *), CONST_MEMBER (b, field, char *)) == 0;
    case WB_FIELD_BOOLEAN:
      return !CONST_MEMBER (a, field, gboolean) == !CONST_MEMBER (b, field, gboolean);
    case WB_FIELD_INTEGER:
    case WB_FIELD_PERCENT:
      return CONST_MEMBER (a, field, gint64) == CONST_MEMBER (b, field, gint64);
    case WB_FIELD_ENUM:
      return CONST_MEMBER (a, field, int) == CONST_MEMBER (b, field, int);
    case WB_FIELD_DATE:
      return wb_date_compare (&CONST_MEMBER (a, field, GDate),
                              &CONST_MEMBER (b, field, GDate)) == 0;
    case WB_FIELD_MONEY:
      return wb_money_equal (CONST_MEMBER (a, field, WbMoney), CONST_MEMBER (b, field, WbMoney));
    case WB_FIELD_WEIGHT:
      return wb_weight_equal (CONST_MEMBER (a, field, WbWeight), CONST_MEMBER (b, field, WbWeight));
    case WB_FIELD_VOLUME:
      return wb_volume_equal (CONST_MEMBER (a, field, WbVolume), CONST_MEMBER (b, field, WbVolume));
    }
  g_assert_not_reached ();
}

gboolean
wb_record_equal (gconstpointer a,
                 gconstpointer b)
{
  const WbRecord *left = a;
  const WbRecord *right = b;

  if (left == right)
    return TRUE;
  if (left->type != right->type || strcmp (left->id, right->id) != 0)
    return FALSE;
  for (gsize i = 0; i < left->type->n_fields; i++)
    if (!wb_record_field_equal (&left->type->fields[i], left, right))
      return FALSE;
  return TRUE;
}

gboolean
wb_record_field_is_set (const WbField *field,
                        gconstpointer  record)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
      return CONST_MEMBER (record, field, char *) != NULL;
    case WB_FIELD_BOOLEAN:
      return CONST_MEMBER (record, field, gboolean);
    case WB_FIELD_INTEGER:
    case WB_FIELD_PERCENT:
      return CONST_MEMBER (record, field, gint64) != WB_INTEGER_UNSET;
    case WB_FIELD_ENUM:
      return CONST_MEMBER (record, field, int) != 0;
    case WB_FIELD_DATE:
      return wb_date_is_set (&CONST_MEMBER (record, field, GDate));
    case WB_FIELD_MONEY:
      return wb_money_is_set (CONST_MEMBER (record, field, WbMoney));
    case WB_FIELD_WEIGHT:
      return wb_weight_is_set (CONST_MEMBER (record, field, WbWeight));
    case WB_FIELD_VOLUME:
      return wb_volume_is_set (CONST_MEMBER (record, field, WbVolume));
    }
  g_assert_not_reached ();
}

char *
wb_record_get_text (gconstpointer  record,
                    const WbField *field)
{
  if (field->type == WB_FIELD_BOOLEAN)
    return g_strdup (CONST_MEMBER (record, field, gboolean) ? "yes" : "no");
  if (field->type == WB_FIELD_ENUM)
    return g_strdup (wb_enum_nick (field->choices, CONST_MEMBER (record, field, int)));
  if (!wb_record_field_is_set (field, record))
    return g_strdup ("");

  switch (field->type)
    {
    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
      return g_strdup (CONST_MEMBER (record, field, char *));
    case WB_FIELD_INTEGER:
      return g_strdup_printf ("%" G_GINT64_FORMAT, CONST_MEMBER (record, field, gint64));
    case WB_FIELD_PERCENT:
      return wb_percent_to_text (CONST_MEMBER (record, field, gint64));
    case WB_FIELD_DATE:
      return wb_date_to_text (&CONST_MEMBER (record, field, GDate));
    case WB_FIELD_MONEY:
      return wb_money_to_text (CONST_MEMBER (record, field, WbMoney));
    case WB_FIELD_WEIGHT:
      return wb_weight_to_text (CONST_MEMBER (record, field, WbWeight));
    case WB_FIELD_VOLUME:
      return wb_volume_to_text (CONST_MEMBER (record, field, WbVolume));
    case WB_FIELD_BOOLEAN:
    case WB_FIELD_ENUM:
      break;
    }
  g_assert_not_reached ();
}

/* --- from text -------------------------------------------------------------------------------- */

static gboolean
parse_yes_no (const char  *text,
              gboolean    *out,
              GError     **error)
{
  static const char *const yes[] = { "yes", "y", "true", "1", "x", NULL };
  static const char *const no[] = { "no", "n", "false", "0", NULL };
  g_autofree char *lower = g_ascii_strdown (text, -1);

  if (g_strv_contains (yes, lower) || g_strv_contains (no, lower))
    {
      *out = g_strv_contains (yes, lower);
      return TRUE;
    }
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "“%s” is neither yes nor no", text);
  return FALSE;
}

static gboolean
parse_number (const char  *text,
              gint64      *out,
              GError     **error)
{
  GError *local = NULL;

  if (g_ascii_string_to_signed (text, 10, G_MININT64 + 1, G_MAXINT64, out, &local))
    return TRUE;
  g_clear_error (&local);
  g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "“%s” is not a whole number", text);
  return FALSE;
}

static gboolean
parse_marks (const char  *text,
             char       **out,
             GError     **error)
{
  g_auto (WbMarks) marks = { NULL, 0 };

  if (!wb_marks_parse (text, &marks, error))
    return FALSE;
  *out = wb_marks_to_text (&marks);
  return TRUE;
}

/* One value of any type; only the member that belongs to the field's type is used. */
typedef union
{
  char     *text;
  gboolean  yes;
  gint64    number;
  int       choice;
  GDate     date;
  WbMoney   money;
  WbWeight  weight;
  WbVolume  volume;
} Value;

static gboolean
parse_value (const WbField  *field,
             const char     *text,
             const char     *currency,
             Value          *value,
             GError        **error)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
    case WB_FIELD_REFERENCE:
      value->text = g_strdup (text);
      return TRUE;
    case WB_FIELD_MARKS:
      return parse_marks (text, &value->text, error);
    case WB_FIELD_BOOLEAN:
      return parse_yes_no (text, &value->yes, error);
    case WB_FIELD_INTEGER:
      return parse_number (text, &value->number, error);
    case WB_FIELD_PERCENT:
      return wb_percent_parse_typed (text, &value->number, error);
    case WB_FIELD_ENUM:
      return wb_enum_parse (field->choices, text, &value->choice, error);
    case WB_FIELD_DATE:
      return wb_date_parse (text, &value->date, error);
    case WB_FIELD_MONEY:
      return wb_money_parse (text, currency, &value->money, error);
    case WB_FIELD_WEIGHT:
      return wb_weight_parse (text, WB_WEIGHT_UNIT_LB, &value->weight, error);
    case WB_FIELD_VOLUME:
      return wb_volume_parse (text, WB_VOLUME_UNIT_CUFT, &value->volume, error);
    }
  g_assert_not_reached ();
}

static void
store_value (gpointer       record,
             const WbField *field,
             Value         *value)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
      wb_set_text (&MEMBER (record, field, char *), value->text);
      break;
    case WB_FIELD_BOOLEAN:
      MEMBER (record, field, gboolean) = value->yes;
      break;
    case WB_FIELD_INTEGER:
    case WB_FIELD_PERCENT:
      MEMBER (record, field, gint64) = value->number;
      break;
    case WB_FIELD_ENUM:
      MEMBER (record, field, int) = value->choice;
      break;
    case WB_FIELD_DATE:
      MEMBER (record, field, GDate) = value->date;
      break;
    case WB_FIELD_MONEY:
      MEMBER (record, field, WbMoney) = value->money;
      break;
    case WB_FIELD_WEIGHT:
      MEMBER (record, field, WbWeight) = value->weight;
      break;
    case WB_FIELD_VOLUME:
      MEMBER (record, field, WbVolume) = value->volume;
      break;
    }
}

/* The value that means "not given". */
static void
unset_value (const WbField *field,
             Value         *value)
{
  memset (value, 0, sizeof *value);
  if (wb_field_holds_number (field))
    value->number = WB_INTEGER_UNSET;
}

static Value
read_value (gconstpointer  record,
            const WbField *field)
{
  Value value;

  unset_value (field, &value);
  switch (field->type)
    {
    case WB_FIELD_TEXT:
    case WB_FIELD_MARKS:
    case WB_FIELD_REFERENCE:
      value.text = CONST_MEMBER (record, field, char *);
      break;
    case WB_FIELD_BOOLEAN:
      value.yes = CONST_MEMBER (record, field, gboolean);
      break;
    case WB_FIELD_INTEGER:
    case WB_FIELD_PERCENT:
      value.number = CONST_MEMBER (record, field, gint64);
      break;
    case WB_FIELD_ENUM:
      value.choice = CONST_MEMBER (record, field, int);
      break;
    case WB_FIELD_DATE:
      value.date = CONST_MEMBER (record, field, GDate);
      break;
    case WB_FIELD_MONEY:
      value.money = CONST_MEMBER (record, field, WbMoney);
      break;
    case WB_FIELD_WEIGHT:
      value.weight = CONST_MEMBER (record, field, WbWeight);
      break;
    case WB_FIELD_VOLUME:
      value.volume = CONST_MEMBER (record, field, WbVolume);
      break;
    }
  return value;
}

void
wb_record_copy_field (gpointer       record,
                      const WbField *field,
                      gconstpointer  from)
{
  Value value;

  g_return_if_fail (((WbRecord *) record)->type == ((const WbRecord *) from)->type);

  value = read_value (from, field);
  store_value (record, field, &value);
}

gboolean
wb_record_set_text (gpointer        record,
                    const WbField  *field,
                    const char     *text,
                    const char     *currency,
                    GError        **error)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text != NULL ? text : ""));
  g_autoptr (WbRecord) trial = NULL;
  Value value;
  gboolean done = TRUE;

  unset_value (field, &value);
  if (*trimmed != '\0')
    {
      if (!g_utf8_validate (trimmed, -1, NULL))
        {
          g_set_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE, "%s: the text is not valid UTF-8",
                       field->name);
          return FALSE;
        }
      done = parse_value (field, trimmed, currency, &value, error);
      if (done)
        {
          /* Range is looked at in a scratch record, so that a bad value never gets into the
           * caller's. */
          trial = wb_record_new (((WbRecord *) record)->type->kind, "trial");
          store_value (trial, field, &value);
          done = !wb_record_field_is_set (field, trial) ||
                 wb_record_check_value (trial, field, currency, error);
        }
    }
  if (done)
    store_value (record, field, &value);
  else
    g_prefix_error (error, "%s: ", field->name);
  if (wb_field_holds_text (field))
    g_free (value.text);
  return done;
}
