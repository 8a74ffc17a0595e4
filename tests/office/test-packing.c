/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The catalogue of an office on disk, and the words and the report about a job's packing. */
#include "config.h"

#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <string.h>

#include "core/wb-core.h"
#include "office/wb-catalog-folder.h"
#include "office/wb-lift-setting.h"
#include "office/wb-packing-report.h"
#include "office/wb-words-packing.h"

/* --- files ------------------------------------------------------------------------------------ */

static char *
own_folder (void)
{
  return g_build_filename (g_get_user_data_dir (), "wainbook", "catalogs", NULL);
}

static void
write_own (const char *name,
           const char *text)
{
  g_autofree char *folder = own_folder ();
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
}

static void
remove_own (const char *name)
{
  g_autofree char *folder = own_folder ();
  g_autofree char *path = g_build_filename (folder, name, NULL);

  g_assert_cmpint (g_unlink (path), ==, 0);
}

/* The folders that write_own() made, which are empty again. */
static void
remove_home (const char *home)
{
  static const char *const folders[] = { "wainbook/catalogs", "wainbook", "" };

  for (guint i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *path = g_build_filename (home, folders[i], NULL);

      g_rmdir (path);
    }
}

static void
test_own_files (void)
{
  g_auto (GStrv) faults = NULL;
  g_autoptr (WbCatalog) catalog = NULL;

  write_own ("ours.catalog", "[carton]\nnick = dish\nname = China box\nweight = 55 lb ; weighed\n");
  write_own ("broken.catalog", "[carton]\nnick = x\nwhat is this\n");
  write_own ("checks.catalog",
             "[check]\nnick = x\nname = X\ncartons = nothing\nrule = Y. ; common practice\n");
  write_own ("notes.txt", "not a catalogue");
  catalog = wb_catalog_folder_load_all (&faults);
  remove_own ("ours.catalog");
  remove_own ("broken.catalog");
  remove_own ("checks.catalog");
  remove_own ("notes.txt");

  g_assert_cmpstr (wb_catalog_find (catalog, WB_CATALOG_CARTON, "dish")->name, ==, "China box");
  g_assert_nonnull (wb_catalog_find (catalog, WB_CATALOG_CARTON, "small"));
  g_assert_null (wb_catalog_find (catalog, WB_CATALOG_CARTON, "x"));
  g_assert_cmpuint (g_strv_length (faults), ==, 2);
  g_assert_true (g_str_has_prefix (faults[0], "broken.catalog:3: "));
  g_assert_true (g_str_has_prefix (faults[1], "checks.catalog:1: there is no carton “nothing”"));
}

static void
test_missing_file (void)
{
  g_autoptr (WbCatalog) catalog = wb_catalog_new ();
  g_autoptr (GError) error = NULL;

  g_assert_false (wb_catalog_file_add (catalog, "/nowhere/ours.catalog", TRUE, NULL, &error));
  g_assert_error (error, WB_CORE_ERROR, WB_CORE_ERROR_CATALOG);
  g_assert_true (g_str_has_prefix (error->message, "ours.catalog:1: cannot be read: "));
}

static void
test_lift_setting (void)
{
  static const struct
  {
    const char *text;
    const char *weight;   /* NULL when it is refused */
  } cases[] = {
    { "50", "50 lb" }, { " 60 lb ", "60 lb" }, { "25 kg", "25 kg" }, { "", "" }, { "  ", "" },
    { "0", NULL }, { "heavy", NULL }, { "-5", NULL }, { "50 stone", NULL },
  };
  g_autofree char *usual = wb_weight_to_text (wb_lift_setting_get ());

  g_assert_cmpstr (usual, ==, "50 lb");
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      WbWeight weight = WB_WEIGHT_UNSET;
      g_autoptr (GError) error = NULL;
      gboolean good = wb_lift_setting_parse (cases[i].text, &weight, &error);
      g_autofree char *text = wb_weight_to_text (weight);

      g_assert_true (good == (cases[i].weight != NULL));
      g_assert_true (good == (error == NULL));
      g_assert_cmpstr (text, ==, good ? cases[i].weight : "");
    }
}

/* --- a job ------------------------------------------------------------------------------------ */

static WbJob *
add (WbJob      *job,
     WbKind      kind,
     const char *id,
     const char *texts)
{
  g_auto (GStrv) pairs = g_strsplit (texts, "|", -1);
  g_autoptr (WbRecord) record = wb_record_new (kind, id);
  WbJob *added;

  for (guint i = 0; pairs[i] != NULL; i++)
    {
      char *equals = strchr (pairs[i], '=');
      g_autoptr (GError) error = NULL;

      *equals = '\0';
      wb_record_set_text (record, wb_record_type_field (wb_record_type (kind), pairs[i]),
                          equals + 1, "USD", &error);
      g_assert_no_error (error);
    }
  added = wb_job_with (job, record);
  wb_job_unref (job);
  return added;
}

static WbJob *
make_job (void)
{
  WbJob *job = wb_job_new ("j1", "USD");

  job = add (job, WB_KIND_ORDER, "order", "number=J-1");
  job = add (job, WB_KIND_PIECE, "a",
             "tag=1|carton=dish pack|packed_by=CP|packer=Jonas|checked_by=Ruthie|weight=58 lb|"
             "room=Kitchen");
  job = add (job, WB_KIND_PIECE, "b", "tag=2|carton=small|packed_by=PBO");
  job = add (job, WB_KIND_PIECE, "c", "tag=3|form=loose|description=Sofa");
  job = add (job, WB_KIND_MATERIAL, "m", "item=paper|planned=4|used=6");
  job = add (job, WB_KIND_PACKING_CHECK, "k1",
             "piece=a|rule=bottom-taped|state=met|by=Ruthie|on=2025-10-06");
  job = add (job, WB_KIND_PACKING_CHECK, "k2",
             "piece=a|rule=gaps-filled|state=unmet|by=Ruthie|on=2025-10-06|notes=rattles");
  job = add (job, WB_KIND_PACKING_CHECK, "k3", "piece=a|rule=old-rule|state=unmet");
  return job;
}

static WbCatalog *
load (void)
{
  g_auto (GStrv) faults = NULL;
  WbCatalog *catalog = wb_catalog_folder_load_all (&faults);

  g_assert_null (faults[0]);
  return catalog;
}

static void
test_evidence (void)
{
  static const char *const expected[] = {
    "Packed by Jonas, looked at by Ruthie",
    "1 met, 2 unmet, 6 not looked at",
    "Heaviest first: Not looked at",
    "Paper under, between and over: Not looked at",
    "Flat ware on edge: Not looked at",
    "Glasses rolled singly: Not looked at",
    "Gaps filled: Unmet (looked at by Ruthie, *): rattles",
    "Top taped three times: Not looked at",
    "Marked on the side: Not looked at",
    "“old-rule”, no longer in the catalogue: Unmet",
  };
  g_autoptr (WbCatalog) catalog = load ();
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (WbPacking) packing = wb_packing_new (catalog, job);
  g_autoptr (GPtrArray) said = wb_words_packing_evidence (packing,
                                                          wb_job_find (job, WB_KIND_PIECE, "a"));
  g_autoptr (GPtrArray) owner = wb_words_packing_evidence (packing,
                                                           wb_job_find (job, WB_KIND_PIECE, "b"));

  g_assert_cmpuint (said->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < said->len; i++)
    if (!g_pattern_match_simple (expected[i], g_ptr_array_index (said, i)))
      g_assert_cmpstr (g_ptr_array_index (said, i), ==, expected[i]);
  g_assert_cmpuint (owner->len, ==, 0);
}

static void
test_counts (void)
{
  static const struct
  {
    WbPackingCounts counts;
    const char     *words;
  } cases[] = {
    { { 0, 0, 0 }, "No checks" },     { { 1, 0, 0 }, "1 met" },
    { { 8, 0, 0 }, "All 8 met" },     { { 0, 0, 8 }, "8 not looked at" },
    { { 6, 1, 1 }, "6 met, 1 unmet, 1 not looked at" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *words = wb_words_packing_counts (cases[i].counts);

      g_assert_cmpstr (words, ==, cases[i].words);
    }
}

static void
test_differences (void)
{
  g_autofree char *more = wb_words_packing_difference (3);
  g_autofree char *fewer = wb_words_packing_difference (-2);
  g_autofree char *same = wb_words_packing_difference (0);
  g_autofree char *none = wb_words_packing_difference (WB_INTEGER_UNSET);

  g_assert_cmpstr (more, ==, "3 more");
  g_assert_cmpstr (fewer, ==, "2 fewer");
  g_assert_cmpstr (same, ==, "as planned");
  g_assert_cmpstr (none, ==, "–");
}

/* The caution names the weight, where a usual one comes from, and what it goes by. */
static void
test_lift (void)
{
  g_autoptr (WbCatalog) catalog = load ();
  const WbCatalogEntry *dish = wb_catalog_find (catalog, WB_CATALOG_CARTON, "dish");
  WbWeight threshold = wb_weight (5000, WB_WEIGHT_UNIT_LB);
  g_autofree char *own = wb_words_lift (WB_LIFT_WEIGHT, wb_weight (6200, WB_WEIGHT_UNIT_LB), NULL,
                                        threshold);
  g_autofree char *usual = wb_words_lift (WB_LIFT_USUAL_WEIGHT, dish->weight, dish, threshold);
  g_autofree char *brief = wb_words_lift_short (WB_LIFT_USUAL_WEIGHT, dish->weight);

  g_assert_nonnull (strstr (own, "This weighs 62 lb."));
  g_assert_nonnull (strstr (own, "set to 50 lb; NIOSH reckons from 51 lb (23 kg)"));
  g_assert_nonnull (strstr (own, "no OSHA rule names a limit"));
  g_assert_nonnull (strstr (usual, "Dish carton usually weighs 60 lb (common practice for china, "
                                   "from memory, no table seen)."));
  g_assert_cmpstr (brief, ==, "Heavy: usually 60 lb");
  g_assert_null (wb_words_lift (WB_LIFT_NONE, WB_WEIGHT_UNSET, NULL, threshold));
}

/* --- the report ------------------------------------------------------------------------------- */

static void
test_report (void)
{
  g_autoptr (WbCatalog) catalog = load ();
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GError) error = NULL;
  g_autofree char *text = wb_packing_report (catalog, job, wb_lift_setting_get (), &error);

  g_assert_no_error (error);
  g_assert_nonnull (strstr (text, "Dish carton"));
  g_assert_nonnull (strstr (text, "2 more"));
  g_assert_nonnull (strstr (text, "2 cartons, 7.70 cu ft, 98 lb (1 by usual weight)"));
  g_assert_nonnull (strstr (text, "1 loose piece (1 without a volume), 160 lb (1 by usual "
                                  "weight)"));
  g_assert_nonnull (strstr (text, "Gaps filled: Unmet (looked at by Ruthie"));
  g_assert_nonnull (strstr (text, "Heavy: 58 lb"));
}

static void
test_report_json (void)
{
  g_autoptr (WbCatalog) catalog = load ();
  g_autoptr (WbJob) job = make_job ();
  g_autoptr (GError) error = NULL;
  g_autofree char *text = wb_packing_report_json (catalog, job, wb_lift_setting_get (), &error);
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *root, *carton, *check;
  JsonArray *checks;

  g_assert_no_error (error);
  json_parser_load_from_data (parser, text, -1, &error);
  g_assert_no_error (error);
  root = json_node_get_object (json_parser_get_root (parser));
  g_assert_cmpstr (json_object_get_string_member (root, "job"), ==, "J-1");
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "items")), ==, 3);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "cartons")), ==, 2);

  carton = json_array_get_object_element (json_object_get_array_member (root, "cartons"), 0);
  g_assert_cmpstr (json_object_get_string_member (carton, "heavy"), ==, "58 lb");
  checks = json_object_get_array_member (carton, "checks");
  g_assert_cmpuint (json_array_get_length (checks), ==, 9);
  check = json_array_get_object_element (checks, 5);
  g_assert_cmpstr (json_object_get_string_member (check, "rule"), ==, "gaps-filled");
  g_assert_cmpstr (json_object_get_string_member (check, "state"), ==, "unmet");
  g_assert_cmpstr (json_object_get_string_member (check, "on"), ==, "2025-10-06");
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *home = g_dir_make_tmp ("wb-packing-XXXXXX", NULL);
  int status;

  /* Files of the office's own, which no other test is to read. */
  g_setenv ("XDG_DATA_HOME", home, TRUE);
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/office/packing/own-files", test_own_files);
  g_test_add_func ("/office/packing/missing-file", test_missing_file);
  g_test_add_func ("/office/packing/lift-setting", test_lift_setting);
  g_test_add_func ("/office/packing/evidence", test_evidence);
  g_test_add_func ("/office/packing/counts", test_counts);
  g_test_add_func ("/office/packing/differences", test_differences);
  g_test_add_func ("/office/packing/lift", test_lift);
  g_test_add_func ("/office/packing/report", test_report);
  g_test_add_func ("/office/packing/report-json", test_report_json);
  status = g_test_run ();
  remove_home (home);
  return status;
}
