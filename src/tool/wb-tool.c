/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "tool/wb-tool.h"

#include <glib/gi18n.h>

typedef struct
{
  const char *name;
  const char *summary;
  int       (*run) (int    argc,
                    char **argv);
} Command;

static int run_help (int argc, char **argv);
static int run_version (int argc, char **argv);

static const Command commands[] = {
  { "help", N_("List the commands"), run_help },
  { "version", N_("Print the version"), run_version },
};

static const Command *
find_command (const char *word)
{
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      if (g_str_equal (commands[i].name, word))
        return &commands[i];
    }

  return NULL;
}

static int
run_help (int    argc,
          char **argv)
{
  g_print ("%s\n\n", _("Usage: wainbook [FILE…] or wainbook COMMAND [ARGUMENT…]"));
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    g_print ("  %-12s %s\n", commands[i].name, _(commands[i].summary));

  return 0;
}

static int
run_version (int    argc,
             char **argv)
{
  g_print ("wainbook %s\n", WB_VERSION);
  return 0;
}

gboolean
wb_tool_is_command (const char *word)
{
  g_return_val_if_fail (word != NULL, FALSE);

  return find_command (word) != NULL;
}

int
wb_tool_run (int    argc,
             char **argv)
{
  const Command *command = argc > 1 ? find_command (argv[1]) : NULL;

  if (command == NULL)
    {
      /* Translators: %s is a word that is neither a command nor a file. */
      g_printerr (_("wainbook: “%s” is neither a command nor a file; "
                    "“wainbook help” lists the commands"),
                  argc > 1 ? argv[1] : "");
      g_printerr ("\n");
      return 2;
    }

  return command->run (argc, argv);
}
