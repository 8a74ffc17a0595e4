/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command that tells what a job file lacks, and what the showing of a job adds about charges
 * and papers. Works nothing out. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-charge-lines.h"
#include "office/wb-text-table.h"
#include "office/wb-words-papers.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- JSON ------------------------------------------------------------------------------------- */

static void
add_entry (JsonBuilder            *builder,
           const WbJob            *job,
           const WbChecklistEntry *entry)
{
  g_autofree char *title = wb_words_item (job, entry);
  g_autofree char *note = wb_words_item_note (job, entry);

  json_builder_begin_object (builder);
  wb_tool_json_add_text (builder, "item", wb_enum_nick (&wb_items, (int) entry->item));
  wb_tool_json_add_text (builder, "title", title);
  wb_tool_json_add_text (builder, "due", wb_enum_nick (&wb_dues, (int) entry->due));
  wb_tool_json_add_text (builder, "state", wb_enum_nick (&wb_item_states, (int) entry->state));
  json_builder_set_member_name (builder, "now");
  json_builder_add_boolean_value (builder, wb_checklist_is_urgent (job, entry));
  wb_tool_json_add_text (builder, "note", note);
  wb_tool_json_add_text (builder, "citation", entry->citation);
  wb_tool_json_add_text (builder, "source", wb_source_nick (entry->source));
  wb_tool_json_add_text (builder, "kind", wb_record_type (entry->kind)->name);
  wb_tool_json_add_text (builder, "id", entry->id);
  wb_tool_json_add_text (builder, "field", entry->field);
  json_builder_end_object (builder);
}

static void
print_json (const WbJob *job,
            GArray      *entries)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < entries->len; i++)
    add_entry (builder, job, &g_array_index (entries, WbChecklistEntry, i));
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
}

/* --- text ------------------------------------------------------------------------------------- */

typedef gboolean (*EntryFunc) (const WbJob            *job,
                               const WbChecklistEntry *entry);

static gboolean
is_later (const WbJob            *job,
          const WbChecklistEntry *entry)
{
  return entry->state == WB_ITEM_STATE_MISSING && !wb_checklist_is_urgent (job, entry);
}

static gboolean
is_not_missing (const WbJob            *job,
                const WbChecklistEntry *entry)
{
  return entry->state != WB_ITEM_STATE_MISSING;
}

/* One group of items: what it is, when it is due or how it stands, and on what it rests. */
static void
append_group (GString     *out,
              const WbJob *job,
              GArray      *entries,
              const char  *heading,
              EntryFunc    belongs)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("ll");
  guint n = 0;

  for (guint i = 0; i < entries->len; i++)
    {
      const WbChecklistEntry *entry = &g_array_index (entries, WbChecklistEntry, i);
      g_autofree char *title = NULL;
      g_autofree char *note = NULL;

      if (!belongs (job, entry))
        continue;
      title = wb_words_item (job, entry);
      note = wb_words_item_note (job, entry);
      wb_text_table_add_row (table,
                             entry->state == WB_ITEM_STATE_MISSING
                               ? wb_words_enum (&wb_dues, (int) entry->due)
                               : wb_words_enum (&wb_item_states, (int) entry->state),
                             title);
      wb_text_table_add_note (table, 4, note);
      n++;
    }

  if (n == 0)
    return;
  g_string_append_printf (out, "%s\n", heading);
  wb_text_table_append (table, 2, out);
  g_string_append_c (out, '\n');
}

static guint
count_urgent (const WbJob *job,
              GArray      *entries)
{
  guint n = 0;

  for (guint i = 0; i < entries->len; i++)
    if (wb_checklist_is_urgent (job, &g_array_index (entries, WbChecklistEntry, i)))
      n++;
  return n;
}

static void
print_text (const WbJob *job,
            GArray      *entries)
{
  const WbOrder *order = wb_job_order (job);
  g_autoptr (GString) out = g_string_new (NULL);
  g_autoptr (GString) heading = g_string_new (NULL);
  guint n = count_urgent (job, entries);

  g_string_printf (out, "%s · %s\n", order->number, wb_words_enum (&wb_stages, (int) order->stage));
  wb_text_append_paragraph (out, 0, 0, wb_words_authority (wb_order_authority (order)));
  g_string_append_c (out, '\n');
  if (n == 0)
    g_string_append_printf (out, "%s\n\n", _("Nothing is missing for this stage."));
  /* Translators: %u is a number. */
  g_string_printf (heading, ngettext ("%u thing is missing for this stage",
                                      "%u things are missing for this stage", n), n);
  append_group (out, job, entries, heading->str, wb_checklist_is_urgent);
  append_group (out, job, entries, _("Missing for later stages"), is_later);
  append_group (out, job, entries, _("There, or not needed"), is_not_missing);

  g_string_truncate (out, out->len - 1);
  wb_tool_print (out->str);
}

int
wb_tool_job_check (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (GArray) entries = NULL;
  GDate today;

  if (job == NULL)
    return WB_TOOL_FAILED;

  wb_office_today (&today);
  entries = wb_checklist (job, &today);
  if (options->json)
    print_json (job, entries);
  else
    print_text (job, entries);
  return WB_TOOL_DONE;
}

/* --- for showing a job ------------------------------------------------------------------------ */

void
wb_tool_append_charges (GString     *out,
                        WbOffice    *office,
                        const WbJob *job)
{
  g_autoptr (GPtrArray) lines = wb_charge_lines (job, wb_per_cuft_of (wb_office_get_terms (office),
                                                                      job));
  g_autoptr (WbTextTable) table = wb_text_table_new ("lr");

  for (guint i = 0; i < lines->len; i++)
    {
      const WbChargeLine *line = g_ptr_array_index (lines, i);

      wb_text_table_add_row (table, line->title, line->amount != NULL ? line->amount : "–");
      wb_text_table_add_note (table, 4, line->note);
      if (line->citation != NULL)
        wb_text_table_add_note (table, 4, line->citation);
    }

  g_string_append_printf (out, "%s\n", _("What may be asked for at delivery"));
  wb_text_table_append (table, 2, out);
  g_string_append_c (out, '\n');
}

void
wb_tool_append_keeping (GString     *out,
                        const WbJob *job)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("ll");

  if (wb_job_count (job, WB_KIND_PAPER) == 0)
    return;

  for (guint i = 0; i < wb_job_count (job, WB_KIND_PAPER); i++)
    {
      const WbPaper *paper = wb_job_nth (job, WB_KIND_PAPER, i);
      WbKeep keep = wb_keep_paper (job, paper);
      g_autofree char *until = wb_words_keep (&keep);
      g_autofree char *note = wb_period_is_set (keep.period) ? wb_words_keep_note (&keep) : NULL;

      wb_text_table_add_row (table, wb_words_enum (&wb_paper_kinds, (int) paper->kind), until);
      if (note != NULL)
        wb_text_table_add_note (table, 4, note);
    }

  g_string_append_printf (out, "%s\n", _("How long the papers are kept"));
  wb_text_table_append (table, 2, out);
  g_string_append_c (out, '\n');
}
