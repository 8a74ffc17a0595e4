/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line as a whole: finds the command in the table, reads its options, runs it and looks
 * whether its output arrived. The commands stand in a file a group (wb-tool-job.c and so on). */
#include "config.h"

#include "tool/wb-tool.h"

#include "office/wb-file.h"
#include "office/wb-words.h"
#include "tool/wb-tool-private.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <stdio.h>

/* --- speaking --------------------------------------------------------------------------------- */

/* Not g_print(): output goes into files and to other programs, so it is UTF-8 whatever the
 * locale. */
void
wb_tool_print (const char *text)
{
  fputs (text, stdout);
}

void
wb_tool_print_line (const char *format,
                    ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);

  wb_tool_print (text);
}

void
wb_tool_complain (const char *format,
                  ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);

  fprintf (stderr, "wainbook: %s\n", text);
}

int
wb_tool_fail (const char   *about,
              const GError *error)
{
  g_autofree char *words = wb_words_error (error);

  if (about != NULL)
    wb_tool_complain ("%s: %s", about, words);
  else
    wb_tool_complain ("%s", words);

  return WB_TOOL_FAILED;
}

/* --- what commands have in common ------------------------------------------------------------- */

int
wb_tool_deliver (const WbToolOptions *options,
                 const char          *text,
                 gsize                length)
{
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;

  if (options->output == NULL)
    {
      fwrite (text, 1, length, stdout);
      return WB_TOOL_DONE;
    }

  bytes = g_bytes_new (text, length);
  if (wb_file_write (options->output, bytes, options->replace, &error))
    return WB_TOOL_DONE;

  if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_EXISTS))
    return wb_tool_fail (NULL, error);

  wb_tool_complain (_("“%s” is there already and was left as it is; with --replace it is "
                      "replaced."),
                    options->output);
  return WB_TOOL_FAILED;
}

WbOffice *
wb_tool_open (const WbToolOptions *options)
{
  g_autoptr (GError) error = NULL;
  WbOffice *office = wb_office_open (options->arguments[0], WB_BOOK_OPEN, NULL, &error);

  if (office == NULL)
    wb_tool_fail (options->arguments[0], error);

  return office;
}

WbJob *
wb_tool_find_job (const WbToolOptions *options,
                  WbOffice            *office)
{
  g_autoptr (GError) error = NULL;
  WbJob *job = wb_office_find_job (office, options->arguments[1], NULL, &error);

  if (job == NULL)
    wb_tool_fail (NULL, error);

  return job;
}

WbServer *
wb_tool_find_server (WbOffice   *office,
                     const char *name)
{
  g_autoptr (GError) error = NULL;
  WbServer *server = wb_office_find_server (office, name, NULL, &error);

  if (server == NULL)
    wb_tool_fail (name, error);

  return server;
}

/* --- options ---------------------------------------------------------------------------------- */

static GArray *
entries_of (const WbToolCommand *command,
            WbToolOptions       *options)
{
  const struct
  {
    WbToolOptionFlags flag;
    GOptionEntry      entry;
  } all[] = {
    { WB_TOOL_OPTION_FIND,
      { "find", 'f', 0, G_OPTION_ARG_STRING, &options->find, N_("Only what has all these words"),
       N_("TEXT") } },
    { WB_TOOL_OPTION_JSON,
      { "json", 'j', 0, G_OPTION_ARG_NONE, &options->json, N_("Write JSON for other programs"),
       NULL } },
    { WB_TOOL_OPTION_OUTPUT,
      { "output", 'o', 0, G_OPTION_ARG_FILENAME, &options->output, N_("Write to a file"),
       N_("FILE") } },
    { WB_TOOL_OPTION_OUTPUT | WB_TOOL_OPTION_REPLACE,
      { "replace", 0, 0, G_OPTION_ARG_NONE, &options->replace,
       N_("Replace the file if it is there"), NULL } },
    { WB_TOOL_OPTION_GOOD_ROWS,
      { "good-rows", 0, 0, G_OPTION_ARG_NONE, &options->good_rows,
        N_("Take the good rows even if others are faulty"), NULL } },
    { WB_TOOL_OPTION_WHY,
      { "why", 'w', 0, G_OPTION_ARG_NONE, &options->why, N_("Tell every step and where its rule "
                                                            "is written"), NULL } },
    { WB_TOOL_OPTION_MOMENT,
      { "moment", 'm', 0, G_OPTION_ARG_STRING, &options->moment,
        N_("When they were taken: packing, origin, storage, delivery or claim"), N_("MOMENT") } },
    { WB_TOOL_OPTION_SHARES,
      { "equal", 0, 0, G_OPTION_ARG_NONE, &options->equal,
        N_("In equal parts among all that could have done it"), NULL } },
    { WB_TOOL_OPTION_SHARES,
      { "handler", 0, 0, G_OPTION_ARG_STRING, &options->handler,
        N_("Only the charge statement for one that had the goods"), N_("NAME") } },
    { WB_TOOL_OPTION_QUOTE,
      { "source", 0, 0, G_OPTION_ARG_STRING, &options->source, N_("From whom the quote is"),
        N_("NAME") } },
    { WB_TOOL_OPTION_QUOTE,
      { "take", 0, 0, G_OPTION_ARG_STRING, &options->take,
        N_("Take a quote as the figure of its line, as in 2.1"), N_("QUOTE") } },
    { WB_TOOL_OPTION_REASON,
      { "reason", 0, 0, G_OPTION_ARG_STRING, &options->reason,
        N_("Why the rule is not followed"), N_("TEXT") } },
    { WB_TOOL_OPTION_LETTER,
      { "remark", 0, 0, G_OPTION_ARG_STRING, &options->remark,
        N_("A paragraph of your own; of a status report the reason"), N_("TEXT") } },
    { WB_TOOL_OPTION_LETTER,
      { "sent", 0, 0, G_OPTION_ARG_NONE, &options->sent,
        N_("Mark it as sent: note the step, keep the text and the figures"), NULL } },
    { WB_TOOL_OPTION_ON,
      { "on", 0, 0, G_OPTION_ARG_STRING, &options->on, N_("The day, as in 2026-11-25"),
        N_("DATE") } },
    { WB_TOOL_OPTION_REPORT,
      { "by", 0, 0, G_OPTION_ARG_STRING, &options->by,
        N_("cause, carton, packed-by, packer, crew, handler, lane, room or category"),
        N_("GROUPING") } },
    { WB_TOOL_OPTION_REPORT,
      { "from", 0, 0, G_OPTION_ARG_STRING, &options->from, N_("First day, as in 2026-01-01"),
        N_("DATE") } },
    { WB_TOOL_OPTION_REPORT,
      { "to", 0, 0, G_OPTION_ARG_STRING, &options->to, N_("Last day, as in 2026-12-31"),
        N_("DATE") } },
    { WB_TOOL_OPTION_REPORT,
      { "csv", 0, 0, G_OPTION_ARG_NONE, &options->csv, N_("Write CSV for a spreadsheet"), NULL } },
    { WB_TOOL_OPTION_VERIFY,
      { "verify", 0, 0, G_OPTION_ARG_NONE, &options->verify,
        N_("Make the reckonings that were kept again and compare"), NULL } },
    { WB_TOOL_OPTION_PIECE,
      { "piece", 'p', 0, G_OPTION_ARG_STRING, &options->piece,
        N_("One piece, by its tag: what is told of it, or what photos show"), N_("TAG") } },
    { WB_TOOL_OPTION_SERVER,
      { "user", 0, 0, G_OPTION_ARG_STRING, &options->user,
        N_("Who signs in; of a bucket the id of the access key"), N_("NAME") } },
    { WB_TOOL_OPTION_SERVER,
      { "bucket", 0, 0, G_OPTION_ARG_STRING, &options->bucket, N_("Bucket of an object store"),
        N_("NAME") } },
    { WB_TOOL_OPTION_SERVER,
      { "region", 0, 0, G_OPTION_ARG_STRING, &options->region, N_("Region of an object store"),
        N_("NAME") } },
    { WB_TOOL_OPTION_SERVER,
      { "authority", 0, 0, G_OPTION_ARG_FILENAME, &options->authority,
        N_("Certificates of the office's own authority"), N_("PEM-FILE") } },
    { WB_TOOL_OPTION_SERVER,
      { "key-file", 0, 0, G_OPTION_ARG_FILENAME, &options->key_file,
        N_("Private key to sign in with over SSH, in place of a password"), N_("FILE") } },
    { WB_TOOL_OPTION_SERVER,
      { "ask-later", 0, 0, G_OPTION_ARG_NONE, &options->ask_later,
        N_("Ask for the password when it is needed and not now"), NULL } },
    { WB_TOOL_OPTION_CONFLICTS,
      { "conflicts", 0, 0, G_OPTION_ARG_STRING, &options->conflicts,
        N_("Where both changed the same, take what is here, or there"), N_("SIDE") } },
    { WB_TOOL_OPTION_HOST_KEY,
      { "host-key", 0, 0, G_OPTION_ARG_STRING, &options->host_key,
        N_("The fingerprint of the server's key, as whoever looks after it says"),
        N_("SHA256:…") } },
    { WB_TOOL_OPTION_FINISH,
      { "finish", 0, 0, G_OPTION_ARG_NONE, &options->finish,
        N_("Finish the count: what is not counted is short"), NULL } },
    { ~0,
      { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &options->arguments, NULL, NULL } },
  };
  GArray *entries = g_array_new (TRUE, TRUE, sizeof (GOptionEntry));

  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    {
      if (all[i].flag == (WbToolOptionFlags) ~0 || (all[i].flag & command->options) != 0)
        g_array_append_val (entries, all[i].entry);
    }

  return entries;
}

static void
options_clear (WbToolOptions *options)
{
  g_clear_pointer (&options->find, g_free);
  g_clear_pointer (&options->output, g_free);
  g_clear_pointer (&options->piece, g_free);
  g_clear_pointer (&options->moment, g_free);
  g_clear_pointer (&options->source, g_free);
  g_clear_pointer (&options->take, g_free);
  g_clear_pointer (&options->remark, g_free);
  g_clear_pointer (&options->reason, g_free);
  g_clear_pointer (&options->on, g_free);
  g_clear_pointer (&options->by, g_free);
  g_clear_pointer (&options->from, g_free);
  g_clear_pointer (&options->to, g_free);
  g_clear_pointer (&options->handler, g_free);
  g_clear_pointer (&options->user, g_free);
  g_clear_pointer (&options->bucket, g_free);
  g_clear_pointer (&options->region, g_free);
  g_clear_pointer (&options->authority, g_free);
  g_clear_pointer (&options->key_file, g_free);
  g_clear_pointer (&options->host_key, g_free);
  g_clear_pointer (&options->conflicts, g_free);
  g_clear_pointer (&options->arguments, g_strfreev);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (WbToolOptions, options_clear)

static char *
name_of (const WbToolCommand *command)
{
  return g_strjoin (" ", "wainbook", command->thing, command->deed, NULL);
}

/* Returns: (nullable): what the command wants, translated. */
static const char *
arguments_of (const WbToolCommand *command)
{
  return *command->arguments != '\0' ? _(command->arguments) : NULL;
}

static int
misuse (const WbToolCommand *command,
        const char          *what)
{
  g_autofree char *name = name_of (command);
  g_autofree char *whole = g_strjoin (" ", name, arguments_of (command), NULL);

  /* Translators: a sentence, then a command with what it wants: "wainbook job show FILE NUMBER". */
  wb_tool_complain (_("%s The command is “%s”."), what, whole);
  return WB_TOOL_USAGE;
}

/* Reads what stands behind the words of the command. */
static gboolean
read_options (const WbToolCommand  *command,
              GStrv                *words,
              WbToolOptions        *options,
              GError              **error)
{
  g_autofree char *name = name_of (command);
  g_autoptr (GOptionContext) context = g_option_context_new (arguments_of (command));
  g_autoptr (GArray) entries = entries_of (command, options);
  g_autofree char *summary = g_strconcat (_(command->summary), ".", NULL);

  g_set_prgname (name);
  g_option_context_set_summary (context, summary);
  g_option_context_add_main_entries (context, (GOptionEntry *) entries->data, GETTEXT_PACKAGE);
  if (!g_option_context_parse_strv (context, words, error))
    return FALSE;

  if (options->arguments == NULL)
    options->arguments = g_new0 (char *, 1);
  return TRUE;
}

/* Output that did not arrive is a failure, however well the rest went. */
static int
finish_output (int status)
{
  if (fflush (stdout) == 0 && !ferror (stdout))
    return status;

  wb_tool_complain (_("The output could not be written: %s."), g_strerror (errno));
  return WB_TOOL_FAILED;
}

static int
run_command (const WbToolCommand *command,
             int                  argc,
             char               **argv)
{
  guint n_words = command->deed != NULL ? 2 : 1;
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) words = NULL;
  g_auto (WbToolOptions) options = { 0 };
  g_autoptr (GError) error = NULL;
  guint n_arguments;

  g_strv_builder_add (builder, "wainbook");
  for (int i = 1 + (int) n_words; i < argc; i++)
    g_strv_builder_add (builder, argv[i]);
  words = g_strv_builder_end (builder);

  if (!read_options (command, &words, &options, &error))
    {
      g_autofree char *sentence = wb_words_sentence (error->message);

      return misuse (command, sentence);
    }

  n_arguments = g_strv_length (options.arguments);
  if (n_arguments < command->n_least)
    return misuse (command, _("Something is missing."));
  if (n_arguments > command->n_most)
    return misuse (command, _("There is more than the command takes."));

  return finish_output (command->run (&options));
}

/* --- public ----------------------------------------------------------------------------------- */

gboolean
wb_tool_is_command (const char *word)
{
  gsize n_commands;
  const WbToolCommand *commands = wb_tool_commands (&n_commands);

  g_return_val_if_fail (word != NULL, FALSE);

  for (gsize i = 0; i < n_commands; i++)
    {
      if (g_str_equal (commands[i].thing, word))
        return TRUE;
    }

  return FALSE;
}

int
wb_tool_run (int    argc,
             char **argv)
{
  gsize n_commands;
  const WbToolCommand *commands = wb_tool_commands (&n_commands);
  const char *thing = argc > 1 ? argv[1] : "";
  const char *deed = argc > 2 ? argv[2] : "";

  for (gsize i = 0; i < n_commands; i++)
    {
      if (g_str_equal (commands[i].thing, thing) &&
          (commands[i].deed == NULL || g_str_equal (commands[i].deed, deed)))
        return run_command (&commands[i], argc, argv);
    }

  if (!wb_tool_is_command (thing))
    /* Translators: %s is a word that is neither a command nor a file. */
    wb_tool_complain (_("“%s” is neither a command nor a file; “wainbook help” lists the "
                        "commands."),
                      thing);
  else if (*deed == '\0' || *deed == '-')
    wb_tool_complain (_("What is to be done is missing; “wainbook help %s” lists what there is."),
                      thing);
  else
    /* Translators: the second word of a command, the first word twice. */
    wb_tool_complain (_("There is no “%s” for “%s”; “wainbook help %s” lists what there is."), deed,
                      thing, thing);

  return WB_TOOL_USAGE;
}
