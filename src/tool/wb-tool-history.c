/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command that tells the history of a job: who did what, and when. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

static const char *
or_nothing (const char *text)
{
  return text != NULL ? text : "";
}

static void
print_table (GPtrArray *history)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("rlll");
  g_autoptr (GString) out = g_string_new (NULL);

  wb_text_table_add_row (table, _("Revision"), _("When"), _("Who"), _("What was done"));
  for (guint i = 0; i < history->len; i++)
    {
      const WbHistoryEntry *entry = g_ptr_array_index (history, i);
      g_autofree char *revision = g_strdup_printf ("%" G_GINT64_FORMAT, entry->revision);

      wb_text_table_add_row (table, revision, or_nothing (entry->when), or_nothing (entry->who),
                             or_nothing (entry->deed));
    }

  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
add_text (JsonBuilder *builder,
          const char  *key,
          const char  *text)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_string_value (builder, or_nothing (text));
}

static gboolean
add_entry (JsonBuilder           *builder,
           const WbHistoryEntry  *entry,
           GError               **error)
{
  g_autoptr (JsonNode) changes = json_from_string (entry->changes, error);

  if (changes == NULL)
    return FALSE;

  json_builder_begin_object (builder);
  json_builder_set_member_name (builder, "revision");
  json_builder_add_int_value (builder, entry->revision);
  add_text (builder, "when", entry->when);
  add_text (builder, "who", entry->who);
  add_text (builder, "deed", entry->deed);
  json_builder_set_member_name (builder, "changes");
  json_builder_add_value (builder, g_steal_pointer (&changes));
  json_builder_end_object (builder);
  return TRUE;
}

static gboolean
print_json (GPtrArray  *history,
            GError    **error)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < history->len; i++)
    {
      if (!add_entry (builder, g_ptr_array_index (history, i), error))
        return FALSE;
    }
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
  return TRUE;
}

int
wb_tool_job_history (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (GPtrArray) history = NULL;
  g_autoptr (GError) error = NULL;

  if (job == NULL)
    return WB_TOOL_FAILED;

  history = wb_office_list_history (office, wb_job_get_id (job), NULL, &error);
  if (history == NULL)
    return wb_tool_fail (options->arguments[1], error);

  if (!options->json)
    print_table (history);
  else if (!print_json (history, &error))
    return wb_tool_fail (options->arguments[1], error);

  return WB_TOOL_DONE;
}
