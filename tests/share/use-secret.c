/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Does one thing with a secret that it reads from standard input up to a line break, for
 * test-secret:
 *
 *     use-secret keep ID       keeps it, and says where
 *     use-secret find ID       reads none, and says the SHA-256 of what is kept
 *     use-secret forget ID     likewise
 *     use-secret session ID    keeps it and finds it again, in one process
 *     use-secret hold          holds it until standard input ends
 *     use-secret plain         as hold, in memory as any other
 *     use-secret abort         ends by SIGABRT while it is held
 */
#include "config.h"

#include "share/wb-secret.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <unistd.h>

/* Without a buffer of stdio, in which it would stay. */
static WbSecret *
read_secret (void)
{
  char line[200];
  gsize length = 0;
  WbSecret *secret;

  while (length < sizeof line && read (STDIN_FILENO, line + length, 1) == 1 && line[length] != '\n')
    length++;
  secret = wb_secret_new (line, (gssize) length);
  wb_secret_wipe (line, sizeof line);
  return secret;
}

static int
tell (WbSecret *secret)
{
  g_autofree char *digest = NULL;

  if (secret == NULL)
    {
      puts ("none");
      return 0;
    }
  digest = g_compute_checksum_for_string (G_CHECKSUM_SHA256, wb_secret_get (secret), -1);
  puts (digest);
  return 0;
}

static int
keep (const char *id)
{
  g_autoptr (WbSecret) secret = read_secret ();
  g_autoptr (GError) error = NULL;
  WbSecretPlace place;

  if (!wb_secret_keep (id, "Wainbook test", secret, &place, NULL, &error))
    g_error ("%s", error->message);
  puts (place == WB_SECRET_SERVICE ? "service" : "session");
  return 0;
}

static int
find (const char *id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (WbSecret) secret = wb_secret_find (id, NULL, &error);

  g_assert_no_error (error);
  return tell (secret);
}

static int
forget (const char *id)
{
  g_autoptr (GError) error = NULL;

  if (!wb_secret_forget (id, NULL, &error))
    g_error ("%s", error->message);
  return find (id);
}

/* Says whether the process would make a core dump, waits, and says so again without the secret. */
static int
hold (void)
{
  WbSecret *secret = read_secret ();

  printf ("dumpable %d\n", prctl (PR_GET_DUMPABLE));
  fflush (stdout);
  while (getchar () != EOF)
    ;
  wb_secret_unref (secret);
  printf ("dumpable %d\n", prctl (PR_GET_DUMPABLE));
  return 0;
}

static int
hold_plain (void)
{
  g_autoptr (WbSecret) secret = read_secret ();
  g_autofree char *text = g_strdup (wb_secret_get (secret));

  g_clear_pointer (&secret, wb_secret_unref);
  printf ("dumpable %d\n", prctl (PR_GET_DUMPABLE));
  fflush (stdout);
  while (getchar () != EOF)
    ;
  return text[0] == '\0';
}

int
main (int    argc,
      char **argv)
{
  const char *what = argc > 1 ? argv[1] : "";
  const char *id = argc > 2 ? argv[2] : "";

  if (strcmp (what, "keep") == 0)
    return keep (id);
  if (strcmp (what, "find") == 0)
    return find (id);
  if (strcmp (what, "forget") == 0)
    return forget (id);
  if (strcmp (what, "session") == 0)
    return keep (id) + find (id) + forget (id);
  if (strcmp (what, "hold") == 0)
    return hold ();
  if (strcmp (what, "plain") == 0)
    return hold_plain ();
  if (strcmp (what, "abort") == 0)
    {
      g_autoptr (WbSecret) secret = read_secret ();

      abort ();
    }
  return 2;
}
