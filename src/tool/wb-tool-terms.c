/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Commands on terms files, which need no book: list those that an office would load, look for
 * faults in any; and reading condition marks, which need no file at all. */
#include "config.h"

#include "tool/wb-tool-json.h"
#include "tool/wb-tool-private.h"

#include "office/wb-terms-folder.h"
#include "office/wb-text-table.h"
#include "office/wb-words.h"

#include <glib/gi18n.h>

/* --- list ------------------------------------------------------------------------------------- */

static char *
words_of_moves (const WbTerms *terms)
{
  if (terms->move_type == WB_MOVE_NONE)
    return g_strdup (_("Only when chosen"));

  return g_strjoin (", ", wb_words_enum (&wb_move_types, (int) terms->move_type), terms->region,
                    NULL);
}

static void
print_table (const WbTermsSet *set)
{
  g_autoptr (WbTextTable) table = wb_text_table_new ("llllll");
  g_autoptr (GString) out = g_string_new (NULL);

  wb_text_table_add_row (table, _("Terms"), _("Title"), _("Moves"), _("From"), _("Until"),
                         _("File"));
  for (guint i = 0; i < wb_terms_set_count (set); i++)
    {
      const WbTerms *terms = wb_terms_set_nth (set, i);
      g_autofree char *moves = words_of_moves (terms);
      g_autofree char *from = wb_words_date (&terms->from);
      g_autofree char *until = wb_words_date (&terms->until);

      wb_text_table_add_row (table, terms->regime, terms->title, moves, from, until, terms->file);
    }

  wb_text_table_append (table, 0, out);
  wb_tool_print (out->str);
}

static void
print_json (const WbTermsSet *set)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_array (builder);
  for (guint i = 0; i < wb_terms_set_count (set); i++)
    {
      const WbTerms *terms = wb_terms_set_nth (set, i);
      g_autofree char *from = wb_date_to_text (&terms->from);
      g_autofree char *until = wb_date_to_text (&terms->until);

      json_builder_begin_object (builder);
      wb_tool_json_add_text (builder, "regime", terms->regime);
      wb_tool_json_add_text (builder, "title", terms->title);
      wb_tool_json_add_text (builder, "currency", terms->currency);
      wb_tool_json_add_text (builder, "move_type",
                             wb_enum_nick (&wb_move_types, (int) terms->move_type));
      wb_tool_json_add_text (builder, "region", terms->region);
      wb_tool_json_add_text (builder, "from", from);
      wb_tool_json_add_text (builder, "until", until);
      wb_tool_json_add_text (builder, "file", terms->file);
      wb_tool_json_add_text (builder, "digest", terms->digest);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  wb_tool_json_print (builder);
}

int
wb_tool_terms_list (const WbToolOptions *options)
{
  g_auto (GStrv) faults = NULL;
  g_autoptr (WbTermsSet) set = wb_terms_folder_load_all (&faults);

  if (options->json)
    print_json (set);
  else
    print_table (set);

  for (guint i = 0; faults[i] != NULL; i++)
    {
      g_autofree char *sentence = wb_words_sentence (faults[i]);

      wb_tool_complain (_("%s The file is left out."), sentence);
    }

  return faults[0] == NULL ? WB_TOOL_DONE : WB_TOOL_FAILED;
}

/* --- check ------------------------------------------------------------------------------------ */

static gboolean
check_file (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) editions = wb_terms_file_read (path, &error);
  const WbTerms *first;

  if (editions == NULL)
    {
      /* The message has the form "FILE:LINE: what is wrong", as other programs expect it. */
      g_autofree char *sentence = wb_words_sentence (error->message);

      wb_tool_complain ("%s", sentence);
      return FALSE;
    }

  first = g_ptr_array_index (editions, 0);
  /* Translators: name of a file, title of the terms in it, how many editions it has. */
  wb_tool_print_line (ngettext ("%s: “%s”, %u edition, in order.\n",
                                "%s: “%s”, %u editions, in order.\n", editions->len),
                      path, first->title, editions->len);
  return TRUE;
}

int
wb_tool_terms_check (const WbToolOptions *options)
{
  gboolean good = TRUE;

  for (guint i = 0; options->arguments[i] != NULL; i++)
    {
      if (!check_file (options->arguments[i]))
        good = FALSE;
    }

  return good ? WB_TOOL_DONE : WB_TOOL_FAILED;
}

/* --- marks ------------------------------------------------------------------------------------ */

int
wb_tool_mark_read (const WbToolOptions *options)
{
  g_autofree char *marks = g_strjoinv (" ", options->arguments);
  g_autoptr (GError) error = NULL;
  g_autofree char *words = wb_words_marks (marks, &error);

  if (words == NULL)
    return wb_tool_fail (NULL, error);

  wb_tool_print_line ("%s\n", words);
  return WB_TOOL_DONE;
}
