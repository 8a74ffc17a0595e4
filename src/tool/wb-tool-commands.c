/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of commands and the help that is made from it. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include "office/wb-text-table.h"

#include <glib/gi18n.h>

static const WbToolCommand commands[] = {
  /* Translators: words in capitals stand for what a person writes there. */
  { "book", "create", N_("FILE"), 1, 1, 0,
    N_("Make a new, empty office book"), wb_tool_book_create },
  { "book", "check", N_("FILE"), 1, 1, 0,
    N_("Read every job of a book and look for faults"), wb_tool_book_check },

  { "bundle", "write", N_("FILE NUMBER TARGET"), 3, 3, 0,
    N_("Pack a job with its photos and papers into a folder, .zip or .tar.gz"),
    wb_tool_bundle_write },
  { "bundle", "read", N_("FILE SOURCE"), 2, 2, 0,
    N_("Put the job of a bundle into a book, once the whole bundle was found good"),
    wb_tool_bundle_read },
  { "bundle", "check", N_("SOURCE"), 1, 1, 0,
    N_("Look whether a bundle is whole and unchanged"), wb_tool_bundle_check },

  { "job", "list", N_("FILE"), 1, 1, WB_TOOL_OPTION_FIND | WB_TOOL_OPTION_JSON,
    N_("List the jobs of a book"), wb_tool_job_list },
  { "job", "show", N_("FILE NUMBER"), 2, 2, WB_TOOL_OPTION_JSON | WB_TOOL_OPTION_PIECE,
    N_("Show a job by its job, bill or claim number"), wb_tool_job_show },
  { "job", "check", N_("FILE NUMBER"), 2, 2, WB_TOOL_OPTION_JSON,
    N_("Tell what a job file lacks, by when, and by which rule"), wb_tool_job_check },
  { "job", "import", N_("FILE DOCUMENT…"), 2, G_MAXUINT, 0,
    N_("Put job documents into a book, all or none"), wb_tool_job_import },
  { "job", "export", N_("FILE NUMBER"), 2, 2, WB_TOOL_OPTION_OUTPUT,
    N_("Write a job as a document"), wb_tool_job_export },
  { "job", "papers", N_("FILE NUMBER [FOLDER]"), 2, 3, WB_TOOL_OPTION_REPLACE,
    N_("Write the papers of a job as PDF files into a folder"), wb_tool_job_papers },
  { "job", "history", N_("FILE NUMBER"), 2, 2, WB_TOOL_OPTION_JSON,
    N_("Tell who did what to a job, and when"), wb_tool_job_history },
  { "job", "publish", N_("FILE NUMBER [SERVER]"), 2, 3, 0,
    N_("Publish a job on a file server of the office"), wb_tool_job_publish },
  { "job", "fetch", N_("FILE NUMBER [SERVER]"), 2, 3, WB_TOOL_OPTION_CONFLICTS,
    N_("Bring a published job into the book"), wb_tool_job_fetch },
  { "job", "status", N_("FILE NUMBER [SERVER]"), 2, 3, 0,
    N_("Tell whether a job was changed here or on the server"), wb_tool_job_status },
  { "job", "compare", N_("FILE NUMBER [SERVER]"), 2, 3, WB_TOOL_OPTION_JSON,
    N_("Tell field by field what differs between a job here and on the server"),
    wb_tool_job_compare },
  { "job", "verify", N_("FILE NUMBER [SERVER]"), 2, 3, 0,
    N_("Read all files of a published job back and compare them"), wb_tool_job_verify },

  { "inventory", "import", N_("FILE NUMBER CSV"), 3, 3, WB_TOOL_OPTION_GOOD_ROWS,
    N_("Add the pieces of a table to a job"), wb_tool_inventory_import },
  { "inventory", "export", N_("FILE NUMBER"), 2, 2, WB_TOOL_OPTION_OUTPUT,
    N_("Write the pieces of a job as a table"), wb_tool_inventory_export },

  { "handover", "list", N_("FILE NUMBER"), 2, 2, WB_TOOL_OPTION_JSON,
    N_("List the handovers of a job"), wb_tool_handover_list },
  { "handover", "show", N_("FILE NUMBER HANDOVER"), 3, 3, WB_TOOL_OPTION_JSON,
    N_("Show what was counted, short, over and damaged at a handover"), wb_tool_handover_show },
  { "handover", "count", N_("FILE NUMBER HANDOVER [TAGS]"), 3, 4,
    WB_TOOL_OPTION_JSON | WB_TOOL_OPTION_FINISH,
    N_("Count tags off at a handover"), wb_tool_handover_count },
  { "handover", "note", N_("FILE NUMBER HANDOVER MARKS"), 4, 4, WB_TOOL_OPTION_JSON,
    N_("Note marks on a piece at a handover, as in “42 SC 4-8”"), wb_tool_handover_note },

  { "photo", "add", N_("FILE NUMBER PICTURE…"), 3, G_MAXUINT,
    WB_TOOL_OPTION_PIECE | WB_TOOL_OPTION_MOMENT,
    N_("Take pictures, or folders of them, into a job"), wb_tool_photo_add },
  { "photo", "list", N_("FILE NUMBER"), 2, 2, WB_TOOL_OPTION_JSON,
    N_("List the photos of a job"), wb_tool_photo_list },
  { "photo", "verify", N_("FILE [NUMBER]"), 1, 2, 0,
    N_("Compare the files of photos with what was taken in"), wb_tool_photo_verify },
  { "photo", "unused", N_("FILE"), 1, 1, 0,
    N_("List files of photos that no job uses"), wb_tool_photo_unused },
  { "packing", "show", N_("FILE NUMBER"), 2, 2, WB_TOOL_OPTION_JSON,
    N_("Show the cartons, materials and packing checks of a job"), wb_tool_packing_show },

  { "claim", "list", N_("FILE"), 1, 1, WB_TOOL_OPTION_JSON,
    N_("List the claims of a book"), wb_tool_claim_list },
  { "claim", "reckon", N_("FILE CLAIM"), 2, 2,
    WB_TOOL_OPTION_JSON | WB_TOOL_OPTION_WHY | WB_TOOL_OPTION_VERIFY,
    N_("Reckon what is owed on a claim under both choices"), wb_tool_claim_reckon },
  { "claim", "evidence", N_("FILE CLAIM"), 2, 2, WB_TOOL_OPTION_JSON,
    N_("Tell what the papers propose for each line of a claim, and why"),
    wb_tool_claim_evidence },
  { "claim", "shares", N_("FILE CLAIM"), 2, 2, WB_TOOL_OPTION_JSON | WB_TOOL_OPTION_SHARES,
    N_("Share what is owed on a claim out among those who had the goods"),
    wb_tool_claim_shares },
  { "claim", "quote", N_("FILE CLAIM [LINE KIND AMOUNT]"), 2, 5,
    WB_TOOL_OPTION_JSON | WB_TOOL_OPTION_QUOTE | WB_TOOL_OPTION_ON,
    N_("List the quotes of a claim, note one, or take one"), wb_tool_claim_quote },
  { "claim", "letter", N_("FILE CLAIM [LETTER]"), 2, 3,
    WB_TOOL_OPTION_LETTER | WB_TOOL_OPTION_ON | WB_TOOL_OPTION_OUTPUT,
    N_("List the letters sent on a claim, write one, or show one as it was sent"),
    wb_tool_claim_letter },
  { "claim", "split", N_("FILE CLAIM LINE [HANDLER=PERCENT…]"), 3, G_MAXUINT, WB_TOOL_OPTION_REASON,
    N_("Split a line by hand among those who had the goods, or let it go by the rule"),
    wb_tool_claim_split },
  { "claim", "charge", N_("FILE CLAIM"), 2, 2, 0,
    N_("State to each handler what it bears of a claim, and keep the statements"),
    wb_tool_claim_charge },
  { "claim", "statement", N_("FILE CLAIM HANDLER"), 3, 3, WB_TOOL_OPTION_OUTPUT,
    N_("Write the charge statement that was made out to a handler"), wb_tool_claim_statement },
  { "claim", "freeze", N_("FILE CLAIM"), 2, 2, 0,
    N_("Keep today's reckoning of a claim with all that it is made of"), wb_tool_claim_freeze },
  { "claim", "due", N_("FILE"), 1, 1, WB_TOOL_OPTION_JSON,
    N_("Tell what is due on open claims, and when"), wb_tool_claim_due },
  { "claim", "calendar", N_("FILE"), 1, 1, WB_TOOL_OPTION_OUTPUT,
    N_("Write what is due as a calendar to subscribe to"), wb_tool_claim_calendar },
  { "claim", "report", N_("FILE"), 1, 1,
    WB_TOOL_OPTION_REPORT | WB_TOOL_OPTION_JSON | WB_TOOL_OPTION_OUTPUT,
    N_("Add finished claims up by cause, carton, packer, crew, handler or lane"),
    wb_tool_claim_report },
  { "claim", "totals", N_("FILE"), 1, 1, WB_TOOL_OPTION_JSON,
    N_("Add open claims up: demanded, owed, set aside, paid, recovered"), wb_tool_claim_totals },
  { "reckon", NULL, N_("FILE CLAIM"), 2, 2,
    WB_TOOL_OPTION_JSON | WB_TOOL_OPTION_WHY | WB_TOOL_OPTION_VERIFY,
    N_("The same as “claim reckon”"), wb_tool_claim_reckon },

  { "server", "add", N_("FILE NAME KIND ADDRESS"), 4, 4, WB_TOOL_OPTION_SERVER,
    N_("Add a file server of the office: folder, webdav, sftp or s3"), wb_tool_server_add },
  { "server", "list", N_("FILE"), 1, 1, WB_TOOL_OPTION_JSON,
    N_("List the file servers of the office"), wb_tool_server_list },
  { "server", "test", N_("FILE [NAME]"), 1, 2, WB_TOOL_OPTION_HOST_KEY,
    N_("Try step by step all that publishing needs on a server"), wb_tool_server_test },
  { "server", "forget-key", N_("FILE NAME"), 2, 2, 0,
    N_("Forget the key of an SFTP server, once it is known why it has another"),
    wb_tool_server_forget_key },
  { "server", "jobs", N_("FILE [NAME]"), 1, 2, WB_TOOL_OPTION_FIND | WB_TOOL_OPTION_JSON,
    N_("List the jobs that are published on a server"), wb_tool_server_jobs },
  { "server", "show", N_("FILE NUMBER [NAME]"), 2, 3, WB_TOOL_OPTION_JSON,
    N_("Show a published job without taking it into the book"), wb_tool_server_show },
  { "server", "remove", N_("FILE NAME"), 2, 2, 0,
    N_("Forget a server; what lies on it stays"), wb_tool_server_remove },

  { "queue", "add", N_("FILE DEED NUMBER [SERVER]"), 3, 4, 0,
    N_("Have a job published or fetched when its turn comes; the deed is publish or fetch"),
    wb_tool_queue_add },
  { "queue", "list", N_("FILE"), 1, 1, WB_TOOL_OPTION_JSON,
    N_("List what waits, is under way, has failed or is done"), wb_tool_queue_list },
  { "queue", "run", N_("FILE"), 1, 1, 0,
    N_("Work on the queue until nothing waits any more"), wb_tool_queue_run },
  { "queue", "pause", N_("FILE ENTRY…"), 2, G_MAXUINT, 0,
    N_("Let entries of the queue rest"), wb_tool_queue_pause },
  { "queue", "resume", N_("FILE ENTRY…"), 2, G_MAXUINT, 0,
    N_("Try entries again that are paused or have failed"), wb_tool_queue_resume },
  { "queue", "cancel", N_("FILE ENTRY…"), 2, G_MAXUINT, 0,
    N_("Take entries out of the queue; what is on the server stays there"), wb_tool_queue_cancel },
  { "queue", "clear", N_("FILE"), 1, 1, 0,
    N_("Take out what is done"), wb_tool_queue_clear },

  { "terms", "list", "", 0, 0, WB_TOOL_OPTION_JSON,
    N_("List the terms that are there"), wb_tool_terms_list },
  { "terms", "check", N_("TERMS…"), 1, G_MAXUINT, 0,
    N_("Look for faults in terms files"), wb_tool_terms_check },

  { "catalog", "check", N_("CATALOG…"), 1, G_MAXUINT, 0,
    N_("Look for faults in catalogue files"), wb_tool_catalog_check },

  { "mark", "read", N_("MARKS…"), 1, G_MAXUINT, 0,
    N_("Say condition marks in words"), wb_tool_mark_read },

  { "help", NULL, N_("[THING]"), 0, 1, 0,
    N_("List the commands"), wb_tool_help },
  { "version", NULL, "", 0, 0, 0,
    N_("Print the version"), wb_tool_version },
};

const WbToolCommand *
wb_tool_commands (gsize *n_commands)
{
  *n_commands = G_N_ELEMENTS (commands);
  return commands;
}

static void
add_command (WbTextTable         *table,
             const WbToolCommand *command)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) words = NULL;
  g_autofree char *line = NULL;

  g_strv_builder_add (builder, command->thing);
  if (command->deed != NULL)
    g_strv_builder_add (builder, command->deed);
  if (*command->arguments != '\0')
    g_strv_builder_add (builder, _(command->arguments));
  words = g_strv_builder_end (builder);
  line = g_strjoinv (" ", words);

  wb_text_table_add_row (table, line, _(command->summary));
}

int
wb_tool_help (const WbToolOptions *options)
{
  const char *thing = options->arguments[0];
  g_autoptr (WbTextTable) table = wb_text_table_new ("ll");
  g_autoptr (GString) out = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      if (thing == NULL || g_str_equal (commands[i].thing, thing))
        add_command (table, &commands[i]);
    }

  if (wb_text_table_n_rows (table) == 0)
    {
      wb_tool_complain (_("There is no command “%s”; “wainbook help” lists them."), thing);
      return WB_TOOL_USAGE;
    }

  if (thing == NULL)
    g_string_append_printf (out, "%s\n\n", _("Usage: wainbook [FILE] or wainbook COMMAND "
                                             "[ARGUMENT…]"));
  wb_text_table_append (table, 2, out);
  if (thing == NULL)
    g_string_append_printf (out, "\n%s\n", _("A command followed by --help tells its options."));

  wb_tool_print (out->str);
  return WB_TOOL_DONE;
}

int
wb_tool_version (const WbToolOptions *options)
{
  wb_tool_print ("wainbook " WB_VERSION "\n");
  return WB_TOOL_DONE;
}
