/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands that look at a published job and store nothing: what differs between it and the one in
 * the book, and the job itself. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-publish-compare.h"
#include "office/wb-text-table.h"
#include "office/wb-words-merge.h"
#include "office/wb-words-share.h"

#include <glib/gi18n.h>

/* --- what differs ----------------------------------------------------------------------------- */

static const char *
nick_of_side (WbMergeSide side)
{
  switch (side)
    {
    case WB_MERGE_ONLY_MINE:
      return "here";
    case WB_MERGE_ONLY_THEIRS:
      return "there";
    case WB_MERGE_BOTH_SAME:
      return "both-same";
    case WB_MERGE_CONFLICT:
      return "conflict";
    }
  g_assert_not_reached ();
}

static void
add_side (WbTextTable       *table,
          const WbMergeJobs *jobs,
          const WbMergeItem *item,
          WbMergeChoice      whose,
          const char        *label)
{
  g_autofree char *text = wb_words_merge_text (jobs, item, whose);
  g_autofree char *note = NULL;

  if (text == NULL)
    return;
  /* Translators: whose it is (was, here, there), and what it is with that one. */
  note = g_strdup_printf (_("%s: %s"), label, text);
  wb_text_table_add_note (table, 4, note);
}

static void
print_differences (const WbMergeJobs *jobs,
                   const WbMerge     *merge)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("lll");
  g_autoptr (GString) out = g_string_new (NULL);

  for (guint i = 0; i < wb_merge_count (merge); i++)
    {
      const WbMergeItem *item = wb_merge_nth (merge, i);
      g_autofree char *record = wb_words_merge_record (jobs, item);
      g_autofree char *what = wb_words_merge_what (item);
      g_autofree char *note = wb_words_merge_note (jobs, item);

      wb_text_table_add_row (table, record, what,
                             item->side == WB_MERGE_CONFLICT ? _("Changed on both sides")
                                                             : wb_words_merge_side (item));
      add_side (table, jobs, item, WB_MERGE_UNDECIDED, _("Was"));
      add_side (table, jobs, item, WB_MERGE_MINE, _("Here"));
      add_side (table, jobs, item, WB_MERGE_THEIRS, _("There"));
      if (note != NULL && item->side == WB_MERGE_CONFLICT)
        wb_text_table_add_note (table, 4, note);
    }
  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
add_text (JsonBuilder       *builder,
          const char        *key,
          const WbMergeJobs *jobs,
          const WbMergeItem *item,
          WbMergeChoice      whose)
{
  g_autofree char *text = wb_words_merge_text (jobs, item, whose);

  wb_tool_json_add_text (builder, key, text);
}

static void
print_differences_json (const WbMergeJobs *jobs,
                        const WbMerge     *merge)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < wb_merge_count (merge); i++)
    {
      const WbMergeItem *item = wb_merge_nth (merge, i);
      g_autofree char *record = wb_words_merge_record (jobs, item);
      g_autofree char *what = wb_words_merge_what (item);

      json_builder_begin_object (builder);
      wb_tool_json_add_text (builder, "kind", wb_record_type (item->kind)->name);
      wb_tool_json_add_text (builder, "id", item->id);
      wb_tool_json_add_text (builder, "field", item->field != NULL ? item->field->name : NULL);
      wb_tool_json_add_text (builder, "record", record);
      wb_tool_json_add_text (builder, "what", what);
      wb_tool_json_add_text (builder, "side", nick_of_side (item->side));
      add_text (builder, "was", jobs, item, WB_MERGE_UNDECIDED);
      add_text (builder, "here", jobs, item, WB_MERGE_MINE);
      add_text (builder, "there", jobs, item, WB_MERGE_THEIRS);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
}

/* Who made what is there, and how much has to be decided. */
static void
print_ending (WbComparison *comparison)
{
  WbMerge *merge = wb_comparison_get_merge (comparison);
  guint n = wb_merge_n_undecided (merge);
  g_autofree char *at = wb_words_at (wb_comparison_get_at (comparison));

  /* Translators: who published it, and a date with a time. */
  wb_tool_print_line (_("What is there was published by %s on %s.\n"),
                      wb_comparison_get_by (comparison), at);
  if (n > 0)
    wb_tool_print_line (ngettext ("%u difference was made on both sides and has to be decided "
                                  "on.\n",
                                  "%u differences were made on both sides and have to be decided "
                                  "on.\n", n), n);
  else if (wb_merge_count (merge) == 0)
    wb_tool_print (_("Nothing differs.\n"));
}

int
wb_tool_job_compare (const WbToolOptions *options)
{
  g_auto (WbToolPlace) place = { NULL };
  g_autoptr (WbJob) job = NULL;
  g_autoptr (WbComparison) comparison = NULL;
  g_autoptr (GError) error = NULL;

  if (!wb_tool_place_open (&place, options, options->arguments[2]))
    return WB_TOOL_FAILED;
  job = wb_tool_find_job (options, place.office);
  if (job == NULL)
    return WB_TOOL_FAILED;

  comparison = wb_office_compare_published (place.office, place.server->id, place.secret,
                                            wb_job_get_id (job), NULL, NULL, &error);
  if (comparison == NULL)
    return wb_tool_fail (wb_tool_number_of (job), error);

  {
    const WbMergeJobs jobs = { wb_comparison_get_base (comparison),
                               wb_comparison_get_mine (comparison),
                               wb_comparison_get_theirs (comparison) };

    if (options->json)
      print_differences_json (&jobs, wb_comparison_get_merge (comparison));
    else
      {
        print_differences (&jobs, wb_comparison_get_merge (comparison));
        print_ending (comparison);
      }
  }
  return WB_TOOL_DONE;
}

/* --- the job itself --------------------------------------------------------------------------- */

int
wb_tool_server_show (const WbToolOptions *options)
{
  g_auto (WbToolPlace) place = { NULL };
  g_autofree char *id = NULL;
  g_autoptr (WbJob) job = NULL;
  g_autoptr (GError) error = NULL;

  if (!wb_tool_place_open (&place, options, options->arguments[2]))
    return WB_TOOL_FAILED;
  id = wb_tool_find_published (place.office, place.server, place.secret, options->arguments[1]);
  if (id == NULL)
    return WB_TOOL_FAILED;
  job = wb_office_peek_published (place.office, place.server->id, place.secret, id, NULL, NULL,
                                  &error);
  if (job == NULL)
    return wb_tool_fail (options->arguments[1], error);
  wb_tool_print_job (options, place.office, job);
  return WB_TOOL_DONE;
}
