/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one executable with its two faces: a command word on the command line runs the tool, which
 * needs no display; anything else opens the window. */
#include "config.h"

#include "desk/wb-desk.h"
#include "tool/wb-tool.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <string.h>

/* A word that is no command but no file either is most likely a mistyped command: the tool says
 * so, where the window could only fail to open it. Options that are not the tool's own belong to
 * the application. */
static gboolean
is_for_tool (int    argc,
             char **argv)
{
  const char *word = argc > 1 ? argv[1] : NULL;

  if (word == NULL)
    return FALSE;

  if (wb_tool_is_command (word))
    return TRUE;

  if (g_str_has_prefix (word, "-"))
    return FALSE;

  return strstr (word, "://") == NULL && !g_file_test (word, G_FILE_TEST_EXISTS);
}

int
main (int    argc,
      char **argv)
{
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, WB_LOCALEDIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);

  if (is_for_tool (argc, argv))
    return wb_tool_run (argc, argv);

  return wb_desk_run (argc, argv);
}
