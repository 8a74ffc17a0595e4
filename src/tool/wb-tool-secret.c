/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asking for a password or key: at a terminal without showing it, else from the next line of
 * standard input. It is never an argument and never in the environment, which others can read. */
#include "config.h"

#include "tool/wb-tool-private.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

/** Longest secret that is taken, in bytes. */
#define MAX_SECRET 4096

#define KEY_INTERRUPT 0x03
#define KEY_END       0x04
#define KEY_BACKSPACE 0x08
#define KEY_KILL_LINE 0x15
#define KEY_DELETE    0x7f

typedef enum
{
  LINE_DONE,
  LINE_GIVEN_UP,
  LINE_TOO_LONG,
} LineEnd;

/* One byte of standard input, or -1 at its end. */
static int
read_byte (void)
{
  unsigned char byte;
  ssize_t n;

  do
    n = read (STDIN_FILENO, &byte, 1);
  while (n < 0 && errno == EINTR);
  return n == 1 ? byte : -1;
}

/* A character is taken back whole, with what belongs to it in UTF-8. */
static gsize
without_last (const char *text,
              gsize       length)
{
  const char *before = g_utf8_find_prev_char (text, text + length);

  return before != NULL ? (gsize) (before - text) : 0;
}

static LineEnd
read_line (char     *text,
           gsize    *length,
           gboolean  typed)
{
  gsize n = 0;

  for (;;)
    {
      int byte = read_byte ();

      *length = n;
      if (byte < 0 || byte == '\n' || byte == '\r' || (typed && byte == KEY_END))
        return LINE_DONE;
      if (typed && byte == KEY_INTERRUPT)
        return LINE_GIVEN_UP;
      if (typed && (byte == KEY_BACKSPACE || byte == KEY_DELETE))
        n = without_last (text, n);
      else if (typed && byte == KEY_KILL_LINE)
        n = 0;
      else if (n == MAX_SECRET)
        return LINE_TOO_LONG;
      else
        text[n++] = (char) byte;
    }
}

/* The terminal hands over each key as it is typed and shows none; an interrupt is a key as well, so
 * that the terminal is always put back. */
static LineEnd
read_secret (const char *question,
             char       *text,
             gsize      *length)
{
  struct termios before, quiet;
  LineEnd end;

  if (!isatty (STDIN_FILENO) || tcgetattr (STDIN_FILENO, &before) != 0)
    return read_line (text, length, FALSE);

  quiet = before;
  quiet.c_lflag &= ~(tcflag_t) (ECHO | ECHONL | ICANON | ISIG);
  quiet.c_cc[VMIN] = 1;
  quiet.c_cc[VTIME] = 0;
  g_printerr ("%s ", question);
  if (tcsetattr (STDIN_FILENO, TCSAFLUSH, &quiet) != 0)
    return LINE_GIVEN_UP;
  end = read_line (text, length, TRUE);
  tcsetattr (STDIN_FILENO, TCSAFLUSH, &before);
  g_printerr ("\n");
  return end;
}

WbSecret *
wb_tool_ask_secret (const WbServer *server)
{
  char text[MAX_SECRET];
  gsize length = 0;
  g_autofree char *question = NULL;
  WbSecret *secret = NULL;

  if (server->key_file != NULL && *server->key_file != '\0')
    /* Translators: %s is what the office calls a server. */
    question = g_strdup_printf (_("What the key file for “%s” is locked with, empty if nothing:"),
                                server->name);
  else
    /* Translators: %s is what the office calls a server. */
    question = g_strdup_printf (_("Password or secret key for “%s”:"), server->name);

  switch (read_secret (question, text, &length))
    {
    case LINE_DONE:
      if (!g_utf8_validate (text, (gssize) length, NULL))
        wb_tool_complain (_("The password is not written in UTF-8."));
      else
        secret = wb_secret_new (text, (gssize) length);
      break;
    case LINE_GIVEN_UP:
      wb_tool_complain (_("No password was given, so nothing was done."));
      break;
    case LINE_TOO_LONG:
      wb_tool_complain (_("The password is longer than %d bytes."), MAX_SECRET);
      break;
    }
  wb_secret_wipe (text, sizeof text);
  return secret;
}

gboolean
wb_tool_need_secret (const WbServer  *server,
                     WbSecret       **secret)
{
  g_autoptr (WbSecret) kept = NULL;

  *secret = NULL;
  if (!wb_server_wants_secret (server))
    return TRUE;
  kept = wb_secret_find (server->id, NULL, NULL);
  if (kept == NULL)
    *secret = wb_tool_ask_secret (server);
  return kept != NULL || *secret != NULL;
}
