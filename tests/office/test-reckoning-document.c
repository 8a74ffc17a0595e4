/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "office/wb-job-document.h"

#include "office/wb-data-dir.h"
#include "office/wb-terms-folder.h"
#include "office/wb-words.h"
#include "random-job.h"

#include <json-glib/json-glib.h>
#include <string.h>

/* Returns: (transfer full): the strings of an array. */
static GStrv
strings_of (JsonArray *array)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  for (guint i = 0; i < json_array_get_length (array); i++)
    g_strv_builder_add (builder, json_array_get_string_element (array, i));

  return g_strv_builder_end (builder);
}

/* The words that the schema allows at a place are the nicks of the list, in its order, and
 * whatever @more names. */
static void
assert_same_list (JsonNode     *schema,
                  const char   *place,
                  const WbEnum *list,
                  const char   *more)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) found = json_path_query (place, schema, &error);
  g_auto (GStrv) allowed = NULL;
  guint n = (guint) list->n_values + (more != NULL ? 1 : 0);

  g_assert_no_error (error);
  g_assert_cmpuint (json_array_get_length (json_node_get_array (found)), ==, 1);
  allowed = strings_of (json_array_get_array_element (json_node_get_array (found), 0));
  g_assert_cmpuint (g_strv_length (allowed), ==, n);
  for (gsize i = 0; i < list->n_values; i++)
    g_assert_cmpstr (allowed[i], ==, list->values[i].nick);
  if (more != NULL)
    g_assert_cmpstr (allowed[n - 1], ==, more);
}

static void
test_lists (void)
{
  g_autofree char *path = wb_data_dir_build_path ("schema", "wainbook-reckoning.schema.json", NULL);
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  JsonNode *schema;

  json_parser_load_from_file (parser, path, &error);
  g_assert_no_error (error);
  schema = json_parser_get_root (parser);

  assert_same_list (schema, "$['$defs'].reason.properties.rule.enum", &wb_rules, NULL);
  assert_same_list (schema, "$['$defs'].reason.properties.scope.enum", &wb_sides, "both");
  assert_same_list (schema, "$['$defs'].reason.properties.key.enum", &wb_terms_keys, NULL);
  assert_same_list (schema, "$['$defs'].figure.properties.name.enum", &wb_figures, NULL);
  assert_same_list (schema, "$['$defs'].line.properties.kind.enum", &wb_losses, NULL);
  assert_same_list (schema, "$.properties.applies.enum", &wb_sides, NULL);
  assert_same_list (schema, "$.properties.late.enum", &wb_late_states, NULL);
}

static WbReckoning *
random_reckoning (void)
{
  g_auto (GStrv) faults = NULL;
  g_autoptr (WbTermsSet) terms = wb_terms_folder_load_all (&faults);
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GError) error = NULL;
  const WbRecord *claim;
  WbReckoning *reckoning;
  guint nth;

  do
    {
      g_clear_pointer (&job, wb_job_unref);
      job = random_claim ();
    }
  while (wb_job_count (job, WB_KIND_CLAIM) == 0 || wb_job_count (job, WB_KIND_CLAIM_LINE) == 0);

  claim = wb_job_nth (job, WB_KIND_CLAIM, 0);
  nth = (guint) g_test_rand_int_range (0, (gint32) wb_terms_set_count (terms));
  reckoning = wb_reckon (wb_terms_set_nth (terms, nth), job, claim->id, &error);
  g_assert_no_error (error);
  return reckoning;
}

/* The same reckoning gives the same bytes. */
static void
test_same_bytes (void)
{
  for (guint run = 0; run < 20; run++)
    {
      g_autoptr (WbReckoning) reckoning = random_reckoning ();
      g_autofree char *first = wb_reckoning_document_write (reckoning);
      g_autofree char *second = wb_reckoning_document_write (reckoning);

      g_assert_cmpstr (first, ==, second);
    }
}

/* --- the report ------------------------------------------------------------------------------- */

static void
assert_tells (const char *report,
              const char *words)
{
  if (strstr (report, words) == NULL)
    g_error ("the report does not say “%s”:\n%s", words, report);
}

/* Takes the line breaks out of paragraphs, so that sentences can be found. */
static char *
unbroken (const char *text)
{
  g_auto (GStrv) words = g_strsplit_set (text, " \n", -1);
  GString *out = g_string_new (NULL);

  for (guint i = 0; words[i] != NULL; i++)
    {
      if (*words[i] != '\0')
        g_string_append_printf (out, "%s%s", out->len > 0 ? " " : "", words[i]);
    }

  return g_string_free (out, FALSE);
}

/* With the reasons every sentence stands in the report, no line is wider than the terminal, and
 * all amounts are there. */
static void
test_report (void)
{
  for (guint run = 0; run < 20; run++)
    {
      g_autoptr (WbReckoning) reckoning = random_reckoning ();
      g_autofree char *report = wb_reckoning_report (reckoning, TRUE);
      g_autofree char *text = unbroken (report);
      g_autofree char *caution = wb_words_caution ();
      const WbReason *reason;
      WbReasonIter iter;

      wb_reason_iter_init (&iter, reckoning);
      while ((reason = wb_reason_iter_next (&iter)) != NULL)
        {
          g_autofree char *sentence = wb_words_reason (reckoning, reason);
          g_autofree char *plain = unbroken (sentence);

          if (reason->scope == WB_SCOPE_GENERAL || reckoning->side[reason->scope].offered)
            assert_tells (text, plain);
        }
      for (int side = 0; side < WB_N_SIDES; side++)
        {
          g_autofree char *owed = wb_words_minor (reckoning->side[side].owed, "USD");

          if (reckoning->side[side].offered)
            assert_tells (text, owed);
        }
      assert_tells (text, reckoning->terms->title);
      assert_tells (text, caution);
      g_assert_true (g_str_has_suffix (text, caution));
    }
}

/* Without being asked why, the report tells the choice but not every step. */
static void
test_short_report (void)
{
  g_autoptr (WbReckoning) reckoning = random_reckoning ();
  g_autofree char *report = wb_reckoning_report (reckoning, FALSE);
  g_autofree char *text = unbroken (report);
  guint n_told = 0;
  const WbReason *reason;
  WbReasonIter iter;

  wb_reason_iter_init (&iter, reckoning);
  while ((reason = wb_reason_iter_next (&iter)) != NULL)
    {
      g_autofree char *sentence = wb_words_reason (reckoning, reason);

      if (reason->rule == WB_RULE_CHOICE)
        {
          assert_tells (text, sentence);
          n_told++;
        }
      else if (reason->rule == WB_RULE_OWED)
        {
          g_assert_null (strstr (text, sentence));
        }
    }
  g_assert_cmpuint (n_told, ==, 1);
}

int
main (int    argc,
      char **argv)
{
  /* Whoever runs this may have terms of their own. */
  g_setenv ("XDG_DATA_HOME", "/nonexistent", TRUE);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office/reckoning-document/lists", test_lists);
  g_test_add_func ("/office/reckoning-document/same-bytes", test_same_bytes);
  g_test_add_func ("/office/reckoning-document/report", test_report);
  g_test_add_func ("/office/reckoning-document/short-report", test_short_report);
  return g_test_run ();
}
