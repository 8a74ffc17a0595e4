/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records by their field tables: every field of every kind is read, written, copied and
 * compared. */
#include "config.h"

#include <string.h>

#include "core/wb-core.h"
#include "core/wb-entities.h"

/* A good value and a bad one for each type of field. */
static const char *
good_text (const WbField *field)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
      return "Ümlaut & “quotes”";
    case WB_FIELD_MARKS:
      return "SC 4-8, MCU";
    case WB_FIELD_REFERENCE:
      return "some-id";
    case WB_FIELD_BOOLEAN:
      return "yes";
    case WB_FIELD_INTEGER:
      return "7";
    case WB_FIELD_PERCENT:
      return "7.5 %";
    case WB_FIELD_ENUM:
      return field->choices->values[field->choices->n_values - 1].nick;
    case WB_FIELD_DATE:
      return "2024-02-29";
    case WB_FIELD_MONEY:
      return "1234.50 USD";
    case WB_FIELD_WEIGHT:
      return "54.50 kg";
    case WB_FIELD_VOLUME:
      return "3.10 cuft";
    }
  g_assert_not_reached ();
}

static const char *
bad_text (const WbField *field)
{
  switch (field->type)
    {
    case WB_FIELD_TEXT:
      return "bell \a";
    case WB_FIELD_MARKS:
      return "XX 4";
    case WB_FIELD_REFERENCE:
      return "not an id!";
    case WB_FIELD_BOOLEAN:
      return "perhaps";
    case WB_FIELD_INTEGER:
      return "9999999999999";
    case WB_FIELD_PERCENT:
      return "100.01 %";
    case WB_FIELD_ENUM:
      return "no such word";
    case WB_FIELD_DATE:
      return "2023-02-29";
    case WB_FIELD_MONEY:
      return "12.345";
    case WB_FIELD_WEIGHT:
      return "-3 lb";
    case WB_FIELD_VOLUME:
      return "3 buckets";
    }
  g_assert_not_reached ();
}

static void
check_field (const WbRecordType *type,
             const WbField      *field)
{
  g_autoptr (WbRecord) empty = wb_record_new (type->kind, "r");
  g_autoptr (WbRecord) record = wb_record_new (type->kind, "r");
  g_autoptr (WbRecord) copy = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL, *kept = NULL, *cleared = NULL;
  gboolean set;

  g_assert_false (wb_record_field_is_set (field, empty));
  set = wb_record_set_text (record, field, good_text (field), "USD", &error);
  g_assert_no_error (error);
  g_assert_true (set);
  g_assert_true (wb_record_field_is_set (field, record));
  text = wb_record_get_text (record, field);
  g_assert_cmpstr (text, ==, good_text (field));
  g_assert_false (wb_record_equal (empty, record));
  copy = wb_record_copy (record);
  g_assert_true (wb_record_equal (record, copy));

  /* What is bad changes nothing and says which field. */
  g_assert_false (wb_record_set_text (record, field, bad_text (field), "USD", &error));
  g_assert_nonnull (error);
  g_assert_true (error->domain == WB_CORE_ERROR);
  g_assert_true (g_str_has_prefix (error->message, field->name));
  kept = wb_record_get_text (record, field);
  g_assert_cmpstr (kept, ==, text);

  g_assert_true (wb_record_set_text (record, field, "  ", "USD", NULL));
  cleared = wb_record_get_text (record, field);
  g_assert_true (wb_record_equal (empty, record));
  g_assert_false (wb_record_field_is_set (field, record));
}

static void
test_every_field (void)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);

      for (gsize i = 0; i < type->n_fields; i++)
        check_field (type, &type->fields[i]);
    }
}

/* The tables are what files, books and forms rely on: names are unique, plain, and lie inside their
 * struct. */
static void
test_tables (void)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);
      g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);
      g_autoptr (GHashTable) offsets = g_hash_table_new (NULL, NULL);

      g_assert_cmpint (type->kind, ==, kind);
      for (gsize i = 0; i < type->n_fields; i++)
        {
          const WbField *field = &type->fields[i];

          g_assert_true (g_hash_table_add (names, (gpointer) field->name));
          g_assert_true (g_hash_table_add (offsets, GSIZE_TO_POINTER (field->offset)));
          g_assert_cmpuint (strspn (field->name, "abcdefghijklmnopqrstuvwxyz_"), ==,
                            strlen (field->name));
          g_assert_cmpuint (field->offset, >=, sizeof (WbRecord));
          g_assert_cmpuint (field->offset, <, type->size);
          g_assert_cmpuint (strlen (field->label), >, 0);
          g_assert_true ((field->type == WB_FIELD_ENUM) == (field->choices != NULL));
          g_assert_true ((field->type == WB_FIELD_INTEGER) == (field->maximum > 0));
          g_assert_true (wb_record_type_field (type, field->name) == field);
        }
      g_assert_null (wb_record_type_field (type, "nothing"));
    }
}

static void
test_ids (void)
{
  g_autofree char *long_id = g_strnfill (65, 'a');

  g_assert_true (wb_record_id_is_valid ("a"));
  g_assert_true (wb_record_id_is_valid ("3f2A.b_c-9"));
  g_assert_true (wb_record_id_is_valid (long_id + 1));
  g_assert_false (wb_record_id_is_valid (long_id));
  g_assert_false (wb_record_id_is_valid (""));
  g_assert_false (wb_record_id_is_valid (NULL));
  g_assert_false (wb_record_id_is_valid ("../up"));
  g_assert_false (wb_record_id_is_valid ("ünder"));
}

static void
test_required (void)
{
  g_autoptr (WbClaim) claim = wb_record_new (WB_KIND_CLAIM, "c");
  g_autoptr (GError) error = NULL;

  g_assert_false (wb_record_check (claim, "USD", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_MISSING);
  wb_set_text (&claim->number, "C-1");
  g_assert_true (wb_record_check (claim, "USD", NULL));
}

static void
test_money_in_another_currency (void)
{
  g_autoptr (WbOrder) order = wb_record_new (WB_KIND_ORDER, "order");
  const WbField *field = wb_record_type_field (order->record.type, "estimate");
  g_autoptr (GError) error = NULL;

  g_assert_false (wb_record_set_text (order, field, "12 EUR", "USD", &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CURRENCY);
  g_assert_false (wb_money_is_set (order->estimate));
}

static void
test_marks_are_canonical (void)
{
  g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p");
  const WbField *field = wb_record_type_field (piece->record.type, "marks");

  g_assert_true (wb_record_set_text (piece, field, "sc4 8; mcu", "USD", NULL));
  g_assert_cmpstr (piece->marks, ==, "SC 4-8, MCU");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/record/every-field", test_every_field);
  g_test_add_func ("/core/record/tables", test_tables);
  g_test_add_func ("/core/record/ids", test_ids);
  g_test_add_func ("/core/record/required", test_required);
  g_test_add_func ("/core/record/currency", test_money_in_another_currency);
  g_test_add_func ("/core/record/marks", test_marks_are_canonical);
  return g_test_run ();
}
