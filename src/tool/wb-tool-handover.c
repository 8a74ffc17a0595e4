/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on handovers: list them, show one, count its pieces off, note marks. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include <glib/gi18n.h>

#include "core/wb-count.h"
#include "office/wb-text-table.h"
#include "office/wb-words-trail.h"

/* --- JSON ------------------------------------------------------------------------------------- */

static void
add_number (JsonBuilder *builder,
            const char  *key,
            gint64       number)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_int_value (builder, number);
}

/* What names a piece. */
static void
add_piece_members (JsonBuilder   *builder,
                   const WbJob   *job,
                   const WbPiece *piece)
{
  g_autofree char *words = wb_words_tag (job, piece);

  wb_tool_json_add_text (builder, "piece", piece->record.id);
  wb_tool_json_add_text (builder, "lot", piece->lot);
  if (piece->tag != WB_INTEGER_UNSET)
    add_number (builder, "tag", piece->tag);
  wb_tool_json_add_text (builder, "name", words);
}

static void
add_pieces (JsonBuilder *builder,
            const char  *key,
            const WbJob *job,
            GPtrArray   *pieces)
{
  json_builder_set_member_name (builder, key);
  json_builder_begin_array (builder);
  for (guint i = 0; i < pieces->len; i++)
    {
      json_builder_begin_object (builder);
      add_piece_members (builder, job, g_ptr_array_index (pieces, i));
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
}

static void
add_strays (JsonBuilder *builder,
            GPtrArray   *strays)
{
  json_builder_set_member_name (builder, "not_on_inventory");
  json_builder_begin_array (builder);
  for (guint i = 0; i < strays->len; i++)
    {
      const WbStray *stray = g_ptr_array_index (strays, i);
      g_autofree char *tags = wb_tag_ranges_to_text (stray->tags);

      json_builder_begin_object (builder);
      wb_tool_json_add_text (builder, "lot", stray->lot != NULL ? stray->lot->record.id : NULL);
      wb_tool_json_add_text (builder, "tags", tags);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
}

static void
add_new_marks (JsonBuilder           *builder,
               const WbJob           *job,
               const WbTrail         *trail,
               guint                  handover,
               const WbHandoverFacts *facts)
{
  json_builder_set_member_name (builder, "new_marks");
  json_builder_begin_array (builder);
  for (guint i = 0; i < facts->marked->len; i++)
    {
      const WbPiece *piece = g_ptr_array_index (facts->marked, i);
      guint place = (guint) wb_job_index (job, WB_KIND_PIECE, piece->record.id);

      json_builder_begin_object (builder);
      add_piece_members (builder, job, piece);
      wb_tool_json_add_text (builder, "marks", wb_trail_pass (trail, handover, place)->new_marks);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
}

static void
add_faults (JsonBuilder   *builder,
            const WbTrail *trail,
            guint          handover)
{
  g_auto (GStrv) faults = wb_words_handover_faults (trail, handover);

  json_builder_set_member_name (builder, "faults");
  json_builder_begin_array (builder);
  for (guint i = 0; faults[i] != NULL; i++)
    json_builder_add_string_value (builder, faults[i]);
  json_builder_end_array (builder);
}

static void
add_handover (JsonBuilder   *builder,
              const WbJob   *job,
              const WbTrail *trail,
              guint          handover)
{
  const WbHandoverFacts *facts = wb_trail_handover (trail, handover);
  const WbHandover *record = facts->handover;
  g_autofree char *on = wb_date_to_text (&record->on);

  json_builder_begin_object (builder);
  add_number (builder, "number", handover + 1);
  wb_tool_json_add_text (builder, "id", record->record.id);
  wb_tool_json_add_text (builder, "kind", wb_enum_nick (&wb_handover_kinds, (int) record->kind));
  wb_tool_json_add_text (builder, "on", on);
  wb_tool_json_add_text (builder, "place", record->place);
  wb_tool_json_add_text (builder, "from_holder", record->from_holder);
  wb_tool_json_add_text (builder, "to_holder", record->to_holder);
  wb_tool_json_add_text (builder, "from_signed", record->from_signed);
  wb_tool_json_add_text (builder, "to_signed", record->to_signed);
  wb_tool_json_add_text (builder, "vehicle", record->vehicle);
  wb_tool_json_add_text (builder, "count", wb_enum_nick (&wb_counts, (int) record->count));
  add_number (builder, "pieces", facts->n_pieces);
  add_number (builder, "counted", facts->n_counted);
  add_pieces (builder, "left", job, facts->left);
  add_pieces (builder, "short", job, facts->shortages);
  add_pieces (builder, "over", job, facts->overages);
  add_strays (builder, facts->strays);
  add_pieces (builder, "reappeared", job, facts->reappeared);
  add_new_marks (builder, job, trail, handover, facts);
  add_faults (builder, trail, handover);
  json_builder_end_object (builder);
}

/* --- list ------------------------------------------------------------------------------------- */

static const char *
or_dash (const char *text)
{
  return text != NULL ? text : "–";
}

static const char *
signatures (const WbHandoverFacts *facts)
{
  if (facts->from_unsigned && facts->to_unsigned)
    return _("neither");
  if (facts->from_unsigned)
    return _("receiver only");
  if (facts->to_unsigned)
    return _("giver only");

  return _("both");
}

static void
print_list (const WbTrail *trail)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("rllllll");
  g_autoptr (GString) out = g_string_new (NULL);

  wb_text_table_add_row (table, _("No."), _("Handover"), _("Place"), _("Handed over by"),
                         _("Received by"), _("Signed"), _("Count"));
  for (guint i = 0; i < wb_trail_n_handovers (trail); i++)
    {
      const WbHandoverFacts *facts = wb_trail_handover (trail, i);
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      g_autofree char *name = wb_words_handover (facts->handover);
      g_autofree char *figures = wb_words_handover_figures (facts);

      wb_text_table_add_row (table, number, name, or_dash (facts->handover->place),
                             or_dash (facts->handover->from_holder),
                             or_dash (facts->handover->to_holder), signatures (facts), figures);
    }

  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

int
wb_tool_handover_list (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (WbTrail) trail = NULL;
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  if (job == NULL)
    return WB_TOOL_FAILED;

  trail = wb_trail_new (job);
  if (!options->json)
    {
      print_list (trail);
      return WB_TOOL_DONE;
    }

  json_builder_begin_array (builder);
  for (guint i = 0; i < wb_trail_n_handovers (trail); i++)
    add_handover (builder, job, trail, i);
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
  return WB_TOOL_DONE;
}

/* --- show ------------------------------------------------------------------------------------- */

/* The handover that the third argument names by its place in the list or by its id. */
static gboolean
find_handover (const WbToolOptions *options,
               const WbJob         *job,
               guint               *handover)
{
  const char *text = options->arguments[2];
  guint n = wb_job_count (job, WB_KIND_HANDOVER);
  gint place = wb_job_index (job, WB_KIND_HANDOVER, text);
  guint64 number;

  if (place < 0 && g_ascii_string_to_unsigned (text, 10, 1, MAX (n, 1), &number, NULL) && n > 0)
    place = (gint) number - 1;
  if (place >= 0)
    {
      *handover = (guint) place;
      return TRUE;
    }

  if (n == 0)
    wb_tool_complain (_("The job has no handovers yet."));
  else
    wb_tool_complain (ngettext ("“%s” is no handover of this job; it has %u, counted from 1.",
                                "“%s” is no handover of this job; it has %u, counted from 1.", n),
                      text, n);
  return FALSE;
}

static void
append_line (GString    *out,
             const char *label,
             const char *text)
{
  if (text != NULL && *text != '\0')
    g_string_append_printf (out, "  %s: %s\n", label, text);
}

static void
append_pieces (GString     *out,
               const char  *label,
               const WbJob *job,
               GPtrArray   *pieces)
{
  g_autofree char *text = wb_words_pieces (job, pieces);

  append_line (out, label, text);
}

static void
append_new_marks (GString               *out,
                  const WbJob           *job,
                  const WbTrail         *trail,
                  guint                  handover,
                  const WbHandoverFacts *facts)
{
  for (guint i = 0; i < facts->marked->len; i++)
    {
      const WbPiece *piece = g_ptr_array_index (facts->marked, i);
      guint place = (guint) wb_job_index (job, WB_KIND_PIECE, piece->record.id);
      g_autofree char *tag = wb_words_tag (job, piece);
      g_autofree char *words = wb_words_pass (trail, handover, place);

      append_line (out, tag, words);
    }
}

static void
print_handover (const WbJob   *job,
                const WbTrail *trail,
                guint          handover)
{
  const WbHandoverFacts *facts = wb_trail_handover (trail, handover);
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *name = wb_words_handover (facts->handover);
  g_autofree char *figures = wb_words_handover_figures (facts);
  g_autofree char *strays = wb_words_strays (facts->strays);
  g_auto (GStrv) faults = wb_words_handover_faults (trail, handover);

  g_string_append_printf (out, "%s\n", name);
  append_line (out, _("Place"), facts->handover->place);
  append_line (out, _("Handed over by"), facts->handover->from_holder);
  append_line (out, _("Received by"), facts->handover->to_holder);
  append_line (out, _("Vehicle"), facts->handover->vehicle);
  append_line (out, _("Count"), figures);
  append_pieces (out, _("Left to count"), job, facts->left);
  append_pieces (out, _("Short"), job, facts->shortages);
  append_pieces (out, _("Over"), job, facts->overages);
  append_line (out, _("Over, not on the inventory"), strays);
  append_pieces (out, _("Back after being short"), job, facts->reappeared);
  append_new_marks (out, job, trail, handover, facts);
  for (guint i = 0; faults[i] != NULL; i++)
    g_string_append_printf (out, "  ! %s\n", faults[i]);
  wb_tool_print (out->str);
}

static void
print_one (const WbToolOptions *options,
           WbJob               *job,
           guint                handover)
{
  g_autoptr (WbTrail) trail = wb_trail_new (job);
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  if (!options->json)
    {
      print_handover (job, trail, handover);
      return;
    }

  add_handover (builder, job, trail, handover);
  wb_tool_json_print (builder);
}

int
wb_tool_handover_show (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  guint handover;

  if (job == NULL || !find_handover (options, job, &handover))
    return WB_TOOL_FAILED;

  print_one (options, job, handover);
  return WB_TOOL_DONE;
}

/* --- count and note --------------------------------------------------------------------------- */

static int
refuse (const GError *error)
{
  g_autofree char *words = wb_words_sentence (error->message);

  wb_tool_complain (_("%s Nothing was changed."), words);
  return WB_TOOL_FAILED;
}

static WbJob *
count_tags (WbJob       *job,
            const char  *handover,
            const char  *text,
            GError     **error)
{
  g_autoptr (WbCountEntry) entry = wb_count_entry_read (job, text, error);

  return entry != NULL ? wb_count_add (job, handover, entry, wb_office_new_id, error) : NULL;
}

static int
store (const WbToolOptions *options,
       WbOffice            *office,
       WbJob               *base,
       WbJob               *job,
       guint                handover,
       const char          *deed)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbJob) stored = wb_office_save_job (office, base, job, deed, NULL, &error);

  if (stored == NULL)
    return wb_tool_fail (NULL, error);

  print_one (options, stored, handover);
  return WB_TOOL_DONE;
}

int
wb_tool_handover_count (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (WbJob) counted = NULL;
  g_autoptr (GError) error = NULL;
  const WbHandover *record;
  guint handover;

  if (job == NULL || !find_handover (options, job, &handover))
    return WB_TOOL_FAILED;
  if (options->arguments[3] == NULL && !options->finish)
    {
      wb_tool_complain (_("Write the tags to count, such as “1-40, 42”, or --finish."));
      return WB_TOOL_USAGE;
    }

  record = wb_job_nth (job, WB_KIND_HANDOVER, handover);
  counted = wb_job_ref (job);
  if (options->arguments[3] != NULL)
    {
      g_clear_pointer (&counted, wb_job_unref);
      counted = count_tags (job, record->record.id, options->arguments[3], &error);
    }
  if (counted != NULL && options->finish)
    {
      g_autoptr (WbJob) before = g_steal_pointer (&counted);

      counted = wb_count_finish (before, record->record.id, wb_office_new_id, &error);
    }
  if (counted == NULL)
    return refuse (error);

  return store (options, office, job, counted, handover,
                options->finish ? _("Finish count") : _("Count tags"));
}

int
wb_tool_handover_note (const WbToolOptions *options)
{
  g_autoptr (WbOffice) office = wb_tool_open (options);
  g_autoptr (WbJob) job = office != NULL ? wb_tool_find_job (options, office) : NULL;
  g_autoptr (WbJob) noted = NULL;
  g_autofree char *marks = NULL;
  g_autoptr (GError) error = NULL;
  const WbPiece *piece;
  const WbHandover *record;
  guint handover;

  if (job == NULL || !find_handover (options, job, &handover))
    return WB_TOOL_FAILED;

  record = wb_job_nth (job, WB_KIND_HANDOVER, handover);
  if (wb_count_marks_read (job, options->arguments[3], &piece, &marks, &error))
    noted = wb_count_note_marks (job, record->record.id, piece->record.id, marks, wb_office_new_id,
                                 &error);
  if (noted == NULL)
    return refuse (error);

  return store (options, office, job, noted, handover, _("Note marks"));
}

/* --- one piece -------------------------------------------------------------------------------- */

static void
print_path (const WbJob   *job,
            const WbTrail *trail,
            const WbPiece *piece)
{
  guint place = (guint) wb_job_index (job, WB_KIND_PIECE, piece->record.id);
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *tag = wb_words_tag (job, piece);
  g_autofree char *where = wb_words_whereabouts (trail, place);

  g_string_append_printf (out, "%s\n", tag);
  append_line (out, _("What it is"), piece->description != NULL ? piece->description
                                                                : piece->contents);
  append_line (out, _("Where it is"), where);
  for (guint i = 0; i < wb_trail_n_handovers (trail); i++)
    {
      g_autofree char *name = wb_words_handover (wb_trail_handover (trail, i)->handover);
      g_autofree char *pass = wb_words_pass (trail, i, place);

      append_line (out, name, pass);
    }
  wb_tool_print (out->str);
}

static void
print_path_json (const WbJob   *job,
                 const WbTrail *trail,
                 const WbPiece *piece)
{
  guint place = (guint) wb_job_index (job, WB_KIND_PIECE, piece->record.id);
  WbWhereabouts where = wb_trail_whereabouts (trail, place);
  const WbStretch *stretch = wb_trail_stretch (trail, where.stretch);
  g_autofree char *words = wb_words_whereabouts (trail, place);
  g_autofree char *since = wb_date_to_text (&stretch->from);
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_object (builder);
  add_piece_members (builder, job, piece);
  wb_tool_json_add_text (builder, "description", piece->description);
  wb_tool_json_add_text (builder, "stand", wb_enum_nick (&wb_stands, (int) where.stand));
  wb_tool_json_add_text (builder, "holder", stretch->holder);
  wb_tool_json_add_text (builder, "place", stretch->place);
  wb_tool_json_add_text (builder, "vehicle", stretch->vehicle);
  wb_tool_json_add_text (builder, "since", since);
  wb_tool_json_add_text (builder, "words", words);
  json_builder_set_member_name (builder, "path");
  json_builder_begin_array (builder);
  for (guint i = 0; i < wb_trail_n_handovers (trail); i++)
    {
      const WbPass *pass = wb_trail_pass (trail, i, place);

      json_builder_begin_object (builder);
      wb_tool_json_add_text (builder, "handover",
                             wb_trail_handover (trail, i)->handover->record.id);
      wb_tool_json_add_text (builder, "state", wb_enum_nick (&wb_pass_states, (int) pass->state));
      json_builder_set_member_name (builder, "reappeared");
      json_builder_add_boolean_value (builder, pass->reappeared);
      wb_tool_json_add_text (builder, "new_marks", pass->new_marks);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  json_builder_end_object (builder);
  wb_tool_json_print (builder);
}

int
wb_tool_show_piece (const WbToolOptions *options,
                    WbJob               *job)
{
  g_autoptr (GError) error = NULL;
  const WbPiece *piece = wb_count_find_piece (job, options->piece, &error);
  g_autoptr (WbTrail) trail = NULL;

  if (piece == NULL)
    {
      g_autofree char *words = wb_words_sentence (error->message);

      wb_tool_complain ("%s", words);
      return WB_TOOL_FAILED;
    }

  trail = wb_trail_new (job);
  if (options->json)
    print_path_json (job, trail, piece);
  else
    print_path (job, trail, piece);
  return WB_TOOL_DONE;
}
