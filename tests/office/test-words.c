/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-words.h"

#include "core/wb-core.h"
#include "core/wb-mark.h"
#include "paper/wb-paper.h"
#include "share/wb-share.h"
#include "store/wb-store.h"

#include <gio/gio.h>
#include <locale.h>

static void
test_money (void)
{
  static const struct
  {
    gint64      minor;
    const char *currency;
    const char *words;
  } cases[] = {
    { 0, "USD", "$0.00" },
    { 5, "USD", "$0.05" },
    { 99999, "USD", "$999.99" },
    { 100000, "USD", "$1,000.00" },
    { 123456789, "USD", "$1,234,567.89" },
    { -123456, "USD", "−$1,234.56" },
    { 123456, "EUR", "1,234.56 EUR" },
    { -50, "CAD", "−0.50 CAD" },
    { 1234567, "JPY", "1,234,567 JPY" },
    { 1234567, "KWD", "1,234.567 KWD" },
    { G_MAXINT64, "USD", "$92,233,720,368,547,758.07" },
    { G_MININT64, "USD", "−$92,233,720,368,547,758.08" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *words = wb_words_minor (cases[i].minor, cases[i].currency);
      g_autofree char *same = wb_words_money (wb_money (cases[i].minor, cases[i].currency));

      g_assert_cmpstr (words, ==, cases[i].words);
      g_assert_cmpstr (same, ==, cases[i].words);
    }
}

static void
test_not_given (void)
{
  GDate never = { 0 };
  g_autofree char *money = wb_words_money (WB_MONEY_UNSET);
  g_autofree char *weight = wb_words_weight (WB_WEIGHT_UNSET);
  g_autofree char *volume = wb_words_volume (WB_VOLUME_UNSET);
  g_autofree char *date = wb_words_date (&never);

  g_assert_cmpstr (money, ==, "–");
  g_assert_cmpstr (weight, ==, "–");
  g_assert_cmpstr (volume, ==, "–");
  g_assert_cmpstr (date, ==, "–");
}

static void
test_quantities (void)
{
  GDate date;
  g_autofree char *pounds = wb_words_weight (wb_weight (125000, WB_WEIGHT_UNIT_LB));
  g_autofree char *kilograms = wb_words_weight (wb_weight (123450, WB_WEIGHT_UNIT_KG));
  g_autofree char *feet = wb_words_volume (wb_volume (310, WB_VOLUME_UNIT_CUFT));
  g_autofree char *metres = wb_words_volume (wb_volume (400000, WB_VOLUME_UNIT_M3));
  g_autofree char *day = NULL;

  g_assert_cmpstr (pounds, ==, "1,250 lb");
  g_assert_cmpstr (kilograms, ==, "1,234.50 kg");
  g_assert_cmpstr (feet, ==, "3.10 cu ft");
  g_assert_cmpstr (metres, ==, "4,000 m³");

  g_date_clear (&date, 1);
  g_date_set_dmy (&date, 3, G_DATE_MARCH, 2026);
  day = wb_words_date (&date);
  g_assert_cmpstr (day, ==, "3 Mar 2026");
}

static void
test_marks (void)
{
  gsize n_conditions, n_places;
  const WbMarkCode *conditions = wb_mark_conditions (&n_conditions);
  const WbMarkCode *places = wb_mark_places (&n_places);
  g_autoptr (GError) error = NULL;
  g_autofree char *none = wb_words_marks ("", &error);
  g_autofree char *bad = NULL;

  g_assert_no_error (error);
  g_assert_cmpstr (none, ==, "");

  for (gsize i = 0; i < n_conditions; i++)
    {
      g_autofree char *text = g_strdup_printf ("%s 1-2, %s", conditions[i].code,
                                               conditions[(i + 1) % n_conditions].code);
      g_autofree char *expected = g_strdup_printf ("%s: %s, %s; %s", conditions[i].word,
                                                   places[0].word, places[1].word,
                                                   conditions[(i + 1) % n_conditions].word);
      g_autofree char *words = wb_words_marks (text, &error);

      g_assert_no_error (error);
      g_assert_cmpstr (words, ==, expected);
    }

  bad = wb_words_marks ("QQ 4", &error);
  g_assert_null (bad);
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_PARSE);
}

static void
test_tag (void)
{
  static const struct
  {
    const char *colour;
    const char *number;
    gint64      tag;
    const char *words;
  } cases[] = {
    { "blue", "204", 17, "blue 204-017" },
    { "blue", NULL, 17, "blue 017" },
    { NULL, "204", 1017, "204-1017" },
    { NULL, NULL, 17, "tag 17" },
    { "blue", "204", WB_INTEGER_UNSET, "no tag" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (WbJob) empty = wb_job_new ("j", "USD");
      g_autoptr (WbLot) lot = wb_record_new (WB_KIND_LOT, "l");
      g_autoptr (WbPiece) piece = wb_record_new (WB_KIND_PIECE, "p");
      g_autoptr (WbJob) job = NULL;
      g_autofree char *words = NULL;

      wb_set_text (&lot->colour, cases[i].colour);
      wb_set_text (&lot->number, cases[i].number);
      wb_set_text (&piece->lot, "l");
      piece->tag = cases[i].tag;
      job = wb_job_with (empty, lot);
      words = wb_words_tag (job, piece);
      g_assert_cmpstr (words, ==, cases[i].words);
    }
}

/* Whatever the kind of record, a field not given reads as such and none makes an empty text. */
static void
test_values (void)
{
  for (int kind = 0; kind < WB_N_KINDS; kind++)
    {
      const WbRecordType *type = wb_record_type ((WbKind) kind);
      g_autoptr (WbRecord) record = wb_record_new ((WbKind) kind, "r");

      for (gsize i = 0; i < type->n_fields; i++)
        {
          g_autofree char *words = wb_words_value (record, &type->fields[i]);

          g_assert_cmpstr (words, !=, "");
          g_assert_cmpstr (wb_words_field (&type->fields[i]), ==, type->fields[i].label);
          if (type->fields[i].type == WB_FIELD_BOOLEAN)
            g_assert_cmpstr (words, ==, "no");
          else if (type->fields[i].type != WB_FIELD_ENUM)
            g_assert_cmpstr (words, ==, "–");
        }
    }
}

static void
test_given_values (void)
{
  static const struct
  {
    WbKind      kind;
    const char *field;
    const char *text;
    const char *words;
  } cases[] = {
    { WB_KIND_PIECE, "description", "Oak table", "Oak table" },
    { WB_KIND_PIECE, "tag", "12345", "12345" },
    { WB_KIND_PIECE, "packed_by", "PBO", "Packed by owner" },
    { WB_KIND_PIECE, "weight", "1200 lb", "1,200 lb" },
    { WB_KIND_PIECE, "volume", "6.5 cuft", "6.50 cu ft" },
    { WB_KIND_PIECE, "listed_value", "2500", "$2,500.00" },
    { WB_KIND_CLAIM_LINE, "depreciation_yearly", "7.5", "7.5 %" },
    { WB_KIND_CLAIM, "received_on", "2024-03-01", "1 Mar 2024" },
    { WB_KIND_CLAIM, "states_amount", "yes", "yes" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const WbField *field = wb_record_type_field (wb_record_type (cases[i].kind), cases[i].field);
      g_autoptr (WbRecord) record = wb_record_new (cases[i].kind, "r");
      g_autoptr (GError) error = NULL;
      g_autofree char *words = NULL;

      g_assert_true (wb_record_set_text (record, field, cases[i].text, "USD", &error));
      g_assert_no_error (error);
      words = wb_words_value (record, field);
      g_assert_cmpstr (words, ==, cases[i].words);
    }
}

/* Every code of our own domains has words that end in a stop, and differ from one another. */
static void
test_errors (void)
{
  const struct
  {
    GQuark domain;
    int    n_codes;
  } domains[] = {
    { WB_CORE_ERROR, WB_CORE_ERROR_CATALOG + 1 },
    { WB_STORE_ERROR, WB_STORE_ERROR_INTERNAL + 1 },
    { WB_SHARE_ERROR, WB_SHARE_ERROR_SOURCE + 1 },
    { WB_PAPER_ERROR, WB_PAPER_ERROR_LAST + 1 },
  };
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (domains); i++)
    {
      for (int code = 0; code < domains[i].n_codes; code++)
        {
          g_autoptr (GError) error = g_error_new_literal (domains[i].domain, code, "");
          char *words = wb_words_error (error);

          g_assert_true (g_str_has_suffix (words, "."));
          g_test_message ("%s", words);
          if (!g_hash_table_add (seen, words))
            g_assert_true (code == WB_CORE_ERROR_RANGE && domains[i].domain == WB_CORE_ERROR);
        }
    }
}

static void
test_error_sentences (void)
{
  static const struct
  {
    const char *message;
    const char *words;
  } cases[] = {
    { "the text is too long", "The text is too long. Correct it and try again." },
    { "pieces[3].weight: “12o” is not a weight",
      "pieces[3].weight: “12o” is not a weight. Correct it and try again." },
    { "weight: “12o” is no weight", "weight: “12o” is no weight. Correct it and try again." },
    { "write “12.50 USD”", "Write “12.50 USD”. Correct it and try again." },
    { "It is done.", "It is done. Correct it and try again." },
    { "änderung", "Änderung. Correct it and try again." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = g_error_new_literal (WB_CORE_ERROR, WB_CORE_ERROR_PARSE,
                                                      cases[i].message);
      g_autofree char *words = wb_words_error (error);

      g_assert_cmpstr (words, ==, cases[i].words);
    }
}

int
main (int    argc,
      char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/words/money", test_money);
  g_test_add_func ("/office/words/not-given", test_not_given);
  g_test_add_func ("/office/words/quantities", test_quantities);
  g_test_add_func ("/office/words/marks", test_marks);
  g_test_add_func ("/office/words/tag", test_tag);
  g_test_add_func ("/office/words/values", test_values);
  g_test_add_func ("/office/words/given-values", test_given_values);
  g_test_add_func ("/office/words/errors", test_errors);
  g_test_add_func ("/office/words/error-sentences", test_error_sentences);
  return g_test_run ();
}
