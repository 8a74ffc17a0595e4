/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on what is due: list it, write it as a calendar. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-due.h"
#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

#include <string.h>

static WbDueList *
list_due (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (GError) error = NULL;
  WbDueList *due;
  GDate today;

  if (office == NULL)
    return NULL;
  wb_office_today (&today);
  due = wb_office_list_due (office, &today, NULL, &error);
  if (due == NULL)
    wb_tool_fail (options->arguments[0], error);
  return due;
}

/* --- list ------------------------------------------------------------------------------------- */

static void
print_table (const WbDueList *due)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("llllll");
  g_autoptr (GString) out = g_string_new (NULL);

  wb_text_table_add_row (table, _("When"), _("Last day"), _("Claim"), _("Job"), _("Shipper"),
                         _("What"));
  for (guint i = 0; i < wb_due_list_count (due); i++)
    {
      const WbDue *entry = wb_due_list_nth (due, i);
      g_autofree char *last = wb_words_date (&entry->clock.last_day);

      wb_text_table_add_row (table, wb_words_enum (&wb_due_groups, (int) entry->group), last,
                             entry->claim_number,
                             entry->job_number != NULL ? entry->job_number : "",
                             entry->shipper != NULL ? entry->shipper : "",
                             entry->fault != NULL ? entry->fault
                             : wb_words_enum (&wb_clock_kinds, (int) entry->clock.kind));
    }
  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
add_entry (JsonBuilder *builder,
           const WbDue *entry)
{
  g_autofree char *from = wb_date_to_text (&entry->clock.from);
  g_autofree char *last = wb_date_to_text (&entry->clock.last_day);
  g_autofree char *period = wb_period_to_text (entry->clock.period);

  json_builder_begin_object (builder);
  wb_tool_json_add_text (builder, "when", wb_enum_nick (&wb_due_groups, (int) entry->group));
  wb_tool_json_add_text (builder, "claim", entry->claim_number);
  wb_tool_json_add_text (builder, "job", entry->job_number);
  wb_tool_json_add_text (builder, "shipper", entry->shipper);
  if (entry->fault == NULL)
    wb_tool_json_add_text (builder, "what",
                           wb_enum_nick (&wb_clock_kinds, (int) entry->clock.kind));
  wb_tool_json_add_text (builder, "from", from);
  wb_tool_json_add_text (builder, "period", period);
  wb_tool_json_add_text (builder, "last_day", last);
  wb_tool_json_add_text (builder, "citation", entry->citation);
  wb_tool_json_add_text (builder, "fault", entry->fault);
  json_builder_end_object (builder);
}

static void
print_json (const WbDueList *due)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < wb_due_list_count (due); i++)
    add_entry (builder, wb_due_list_nth (due, i));
  json_builder_end_array (builder);  wb_tool_json_print (builder);
}

int
wb_tool_claim_due (const WbToolOptions *options)
{
  g_autoptr (WbDueList) due = list_due (options);

  if (due == NULL)
    return WB_TOOL_FAILED;
  if (options->json)
    print_json (due);
  else if (wb_due_list_count (due) == 0)
    wb_tool_print_line ("%s\n", _("Nothing is due on any claim."));
  else
    print_table (due);
  return WB_TOOL_DONE;
}

/* --- calendar --------------------------------------------------------------------------------- */

int
wb_tool_claim_calendar (const WbToolOptions *options)
{
  g_autoptr (WbDueList) due = list_due (options);
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char *text = NULL;

  if (due == NULL)
    return WB_TOOL_FAILED;
  text = wb_due_calendar_write (due, now);
  return wb_tool_deliver (options, text, strlen (text));
}
